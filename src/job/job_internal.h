/* The job under construction.  place.c puts entries where the format says, build.c reads values and
 * takes defaults, profile.c makes the rows in force, validate.c looks at several values together.
 */
#ifndef CW_JOB_INTERNAL_H
#define CW_JOB_INTERNAL_H

#include "cw/job.h"

enum { CW_NODES_MAX = 96 };

typedef enum cw_slot_state {
    CW_SLOT_ABSENT,
    CW_SLOT_BAD, /**< given, with a fault that is reported */
    CW_SLOT_GIVEN,
    CW_SLOT_DEFAULT
} cw_slot_state;

/** One field of one item: where it was given and what became of it. */
typedef struct cw_slot {
    int entry; /**< index, or -1 */
    cw_slot_state state;
    bool twice; /**< reported as given twice */
} cw_slot;

/** One section of the format.  No list stands inside a list, so each occurs once in a job. */
typedef struct cw_node {
    const cw_section *section;
    int parent; /**< index, -1 for the file */
    const char *path;
    char *base;        /**< its struct, or the first item */
    int items;         /**< 1 for a map */
    int entry;         /**< its own entry, or -1 */
    bool given;        /**< it or something below it stands in the file */
    bool live;         /**< it is part of the job: given, or taken with its defaults */
    bool too_many;     /**< reported */
    bool misspelt;     /**< reported under a key close to its own */
    int *item_entries; /**< lists: entry of each item, or -1 */
    cw_slot *slots;    /**< items * field_count */
} cw_node;

/** Where an entry belongs. */
typedef struct cw_target {
    int node;  /**< -1: nowhere, reported */
    int item;  /**< of a list, or 0; -1: the list itself */
    int field; /**< -1: the section or item itself */
    int part;  /**< item of a list value, or -1 */
    int meant; /**< of an unknown key: node of the key that it is taken for, or -1 */
} cw_target;

typedef struct cw_builder {
    cw_job *job;
    cw_row *rows; /**< of the job, still open to change */
    const cw_entries *entries;
    const cw_job_files *files;
    cw_arena *arena;
    cw_diags *diags;
    cw_node nodes[CW_NODES_MAX];
    int node_count;
    cw_target *targets; /**< one for each entry */
    const char *skip;   /**< path under which nothing more is reported, or NULL */
} cw_builder;

/** Find the place of every entry, count list items, take the memory for them. */
void cw_job_place_entries(cw_builder *builder);

/** The rows in force from the shipped rows, the named profile and the overrides. */
void cw_job_rows(cw_builder *builder);

/** Faults that no single value shows. */
void cw_job_validate(cw_builder *builder);

/** The part of it that looks at openings. */
void cw_job_validate_openings(cw_builder *builder);

/* Wings, aprons and cutoff walls; obstacles and traffic beside the cut. */
void cw_job_validate_ends(cw_builder *builder);
void cw_job_validate_obstacles(cw_builder *builder);

/* Water sections. */
void cw_job_validate_water(cw_builder *builder);

/* Ground sections. */
void cw_job_validate_ground(cw_builder *builder);
/* Strength section. */
void cw_job_validate_strength(cw_builder *builder);
void cw_job_validate_schedule(cw_builder *builder);
/* Cranes: what no single value shows, and the load charts that they name. */
void cw_job_validate_cranes(cw_builder *builder);
void cw_job_read_charts(cw_builder *builder);

/** One value that a choice needs. */
typedef struct cw_wanted {
    bool there;
    const char *key;
} cw_wanted;

/** One diagnostic that lists what @p choice of @p section needs and the file does not give. */
void cw_job_need(cw_builder *builder, const char *section, const char *choice,
                 const cw_wanted *keys, int count);

/** Does the file have @p path or anything below it? */
bool cw_entries_given(const cw_entries *entries, const char *path);

/** Place of an entry, with its path. */
cw_pos cw_entry_pos(const cw_builder *builder, int entry);

/** The slot at a path such as "box.span" or "bends[1].at"; NULL when there is none. */
const cw_slot *cw_job_slot(const cw_builder *builder, const char *path);

/** Is the value at @p path there and without fault, given or by default? */
bool cw_job_sound(const cw_builder *builder, const char *path);

/** Does the file give the value at @p path? */
bool cw_job_given(const cw_builder *builder, const char *path);

/** Keys of a section in words, for messages; only the required ones when @p needed. */
const char *cw_section_keys(cw_arena *arena, const cw_section *section, bool needed);

#endif
