/** @file
 * Short forms for the tables of the job format, and the tables that lie in files of their own. */
#ifndef CW_FIELDS_INTERNAL_H
#define CW_FIELDS_INTERNAL_H

#include "cw/job.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

/* Limits of cast dimensions are clearer in feet. */
#define FT(feet) ((feet)*CW_IN_PER_FT)

/* One line of a table each: what must be given, what has a default, what may be left out. */
#define NEEDED(key, kind, dim, low, high, offset, meaning)                                         \
    {                                                                                              \
        key, NULL, kind, dim, low, high, NULL, true, meaning, NULL, NULL, offset, CW_NO_FLAG       \
    }
#define WITH_DEFAULT(key, kind, dim, low, high, offset, fallback, source, meaning)                 \
    {                                                                                              \
        key, NULL, kind, dim, low, high, fallback, false, meaning, source, NULL, offset,           \
            CW_NO_FLAG                                                                             \
    }
#define MAYBE(key, kind, dim, low, high, offset, has_offset, meaning)                              \
    {                                                                                              \
        key, NULL, kind, dim, low, high, NULL, false, meaning, NULL, NULL, offset, has_offset      \
    }
#define NEEDED_TEXT(key, offset, meaning)                                                          \
    NEEDED(key, CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, offset, meaning)
#define MAYBE_TEXT(key, offset, meaning)                                                           \
    MAYBE(key, CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, offset, CW_NO_FLAG, meaning)
#define NEEDED_CHOICE(key, choices, offset, meaning)                                               \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, true, meaning, NULL, choices, offset,  \
            CW_NO_FLAG                                                                             \
    }
#define CHOICE(key, choices, offset, fallback, source, meaning)                                    \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, fallback, false, meaning, source, choices,   \
            offset, CW_NO_FLAG                                                                     \
    }
#define FLAG(key, offset, fallback, source, meaning)                                               \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, fallback, false, meaning, source, NULL,        \
            offset, CW_NO_FLAG                                                                     \
    }

#define NUMBER CW_KIND_NUMBER
#define WHOLE CW_KIND_COUNT
#define LIST CW_KIND_LIST

/* Sanity bounds used more than once. */
#define ELEV_LOW (-1500.0) /* below the lowest dry land on earth, -1,400 ft */
#define ELEV_HIGH 30000.0  /* above the highest, 29,032 ft */
#define PLAN_HIGH 3000.0   /* longest run that is planned in one piece, ft */
#define COORD_HIGH 1e8     /* any state plane or national grid, ft */
#define PIECE_LOW FT(2)
#define PIECE_HIGH FT(24)
#define PICK_LOW 500.0
#define PICK_HIGH 500000.0
#define COST_HIGH 1e8 /* cents: a million dollars */

enum {
    CW_JOB_WATER_FIELDS = 19,
    CW_JOB_WATER_SECTIONS = 3,
    CW_JOB_SITE_WATER_SECTIONS = 3,
    CW_JOB_STRENGTH_FIELDS = 30,
    CW_JOB_STRENGTH_SECTIONS = 2,
    CW_JOB_CRANES_FIELDS = 20,
    CW_JOB_CRANES_SECTIONS = 3
};
extern const cw_field cw_job_water_fields[CW_JOB_WATER_FIELDS];
extern const cw_section cw_job_water_sections[CW_JOB_WATER_SECTIONS];
extern const cw_section cw_job_site_water_sections[CW_JOB_SITE_WATER_SECTIONS];
extern const cw_field cw_job_strength_fields[CW_JOB_STRENGTH_FIELDS];
extern const cw_section cw_job_strength_sections[CW_JOB_STRENGTH_SECTIONS];
extern const cw_field cw_job_cranes_fields[CW_JOB_CRANES_FIELDS];
extern const cw_section cw_job_cranes_sections[CW_JOB_CRANES_SECTIONS];

enum { CW_JOB_END_SECTIONS = 4, CW_JOB_OBSTACLE_FIELDS = 2, CW_JOB_OBSTACLE_SECTIONS = 3 };
extern const cw_section cw_job_end_sections[CW_JOB_END_SECTIONS];
extern const cw_field cw_job_obstacle_fields[CW_JOB_OBSTACLE_FIELDS];
extern const cw_section cw_job_obstacle_sections[CW_JOB_OBSTACLE_SECTIONS];
enum { CW_JOB_TRENCH_FIELDS = 18, CW_JOB_GRADE_FIELDS = 10, CW_JOB_BACKFILL_FIELDS = 5, CW_JOB_GRADE_SECTIONS = 2 };
enum { CW_JOB_FILL_FIELDS = 11, CW_JOB_SEALANT_FIELDS = 11 };
extern const cw_field cw_job_fill_fields[CW_JOB_FILL_FIELDS];
extern const cw_field cw_job_sealant_fields[CW_JOB_SEALANT_FIELDS];
extern const cw_field cw_job_trench_fields[CW_JOB_TRENCH_FIELDS];
extern const cw_section cw_job_trench_sections[1];
extern const cw_field cw_job_grade_fields[CW_JOB_GRADE_FIELDS];
extern const cw_section cw_job_grade_sections[CW_JOB_GRADE_SECTIONS];
extern const cw_field cw_job_backfill_fields[CW_JOB_BACKFILL_FIELDS];
extern const cw_section cw_job_backfill_sections[1];
enum { CW_JOB_SCHEDULE_FIELDS = 11 };
extern const cw_field cw_job_schedule_fields[CW_JOB_SCHEDULE_FIELDS];

#endif
