/* Shared by the files of this module. */
#ifndef CW_STRUCTURES_INTERNAL_H
#define CW_STRUCTURES_INTERNAL_H

#include "cw/structures.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

#define NUMBER_IN(key, symbol, dim, low, high, fallback, required, meaning, source, type, member)  \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, fallback, required, meaning, source, NULL,    \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define COUNT_IN(key, low, high, fallback, meaning, source, type, member)                          \
    {                                                                                              \
        key, NULL, CW_KIND_COUNT, CW_DIM_COUNT, low, high, fallback, false, meaning, source, NULL, \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define CHOICE_IN(key, words, fallback, required, meaning, source, type, member)                   \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, fallback, required, meaning, source, words,  \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define FLAG_IN(key, fallback, meaning, source, type, member)                                      \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, fallback, false, meaning, source, NULL,        \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define LIST_IN(key, symbol, dim, low, high, meaning, source, type, member)                        \
    {                                                                                              \
        key, symbol, CW_KIND_LIST, dim, low, high, NULL, false, meaning, source, NULL,             \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define OUT(key, symbol, dim, meaning, type, member)                                               \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL,     \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
#define COUNT_OUT(key, symbol, meaning, type, member)                                              \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning,   \
            NULL, NULL, offsetof(type, member), CW_NO_FLAG                                         \
    }
#define CHOICE_OUT(key, words, meaning, type, member)                                              \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false, meaning, NULL, words,           \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define FLAG_OUT(key, meaning, type, member)                                                       \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, NULL, false, meaning, NULL, NULL,              \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }

#define CW_STRUCT_REVIEW "  For review by a licensed engineer."

extern const char *const cw_struct_verdicts[]; /* words of cw_verdict */
extern const char *const cw_struct_forms[];
extern const char *const cw_struct_grounds[];
extern const char *const cw_struct_rules[];
extern const char *const cw_struct_machines[];
extern const char *const cw_struct_phis[];

/* Limits of every number, count, choice and list of @p fields in the struct at @p input. */
bool cw_struct_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                        cw_diags *diags);

/* Value of a row that the data hold. */
double cw_struct_row(const cw_rows *rows, const char *id);

/* "thickness 0 in is not above 0 in; ..." when @p value is not positive; true when it is. */
bool cw_struct_positive(const char *key, double value, cw_dim dim, cw_pos where, cw_diags *diags);

/* Inputs that describe a machine, as calculators take them. */
typedef struct cw_struct_machine_input {
    int machine; /* cw_struct_machine */
    cw_list axles_lb, spacing_ft;
    double gauge_ft, patch_width_in, patch_length_in; /* 0: as the design tire and gauge */
    double weight_lb;                                 /* tracks */
    double presence;
    bool impact;
} cw_struct_machine_input;

bool cw_struct_machine_valid(const cw_struct_machine_input *in, cw_pos where, cw_diags *diags);
cw_struct_vehicle cw_struct_machine_vehicle(const cw_struct_machine_input *in, const cw_rows *rows);

#define CW_STRUCT_MACHINE_FIELDS(type, member)                                                     \
    CHOICE_IN("machine", cw_struct_machines, "truck", false,                                       \
              "design truck, design tandem, axles one by one, or a crawler", NULL, type,           \
              member.machine),                                                                     \
        LIST_IN("axles", "P", CW_DIM_LB, 1.0, 500000.0, "axle loads, front to rear",               \
                "common practice", type, member.axles_lb),                                         \
        LIST_IN("spacing", NULL, CW_DIM_FT, 1.0, 100.0, "from each axle to the next",              \
                "common practice", type, member.spacing_ft),                                       \
        NUMBER_IN("gauge", "s_w", CW_DIM_FT, 0.0, 30.0, "0 ft", false,                             \
                  "wheel to wheel or track to track, centres; 0 takes the design gauge",           \
                  "common practice", type, member.gauge_ft),                                       \
        NUMBER_IN("patch_width", "w_t", CW_DIM_IN, 0.0, 120.0, "0 in", false,                      \
                  "of a wheel (both tires) or track; 0 takes the design tire", "common practice",  \
                  type, member.patch_width_in),                                                    \
        NUMBER_IN("patch_length", "l_t", CW_DIM_IN, 0.0, 480.0, "0 in", false,                     \
                  "of a tire print or track on the ground; 0 takes the design tire",               \
                  "common practice", type, member.patch_length_in),                                \
        NUMBER_IN("machine_weight", "W", CW_DIM_LB, 0.0, 1000000.0, "0 lb", false,                 \
                  "of a crawler, on both tracks", "common practice", type, member.weight_lb),      \
        NUMBER_IN("presence", "m", CW_DIM_NONE, 0.5, 1.2, "@structure.presence", false,            \
                  "multiple presence; 1 for a machine that crosses alone", NULL, type,             \
                  member.presence),                                                                \
        FLAG_IN("impact", "yes", "add the dynamic allowance for this cover", NULL, type,           \
                member.impact)

/* ---- plane frame, 1 ft wide ---- */

enum {
    CW_FRAME_POINTS = 96,
    CW_FRAME_DOFS = 3 * CW_FRAME_POINTS,
    CW_FRAME_BAND = 14 /* with the diagonal */
};

typedef struct cw_frame_point {
    double x_ft, y_ft;
    int same_x, same_y; /* point whose movement it shares, or -1 */
    bool fixed[3];      /* x, y, rotation */
    int dof[3];         /* -1 where fixed */
    double load[3];     /* lb, lb, ft lb */
    double spring;      /* upward, lb/ft */
} cw_frame_point;

typedef struct cw_frame_bar {
    int from, to;
    double from_depth_ft, to_depth_ft;
    double length_ft, c, s;
    double held[6]; /* end forces with both ends held, in the bar's own axes */
} cw_frame_bar;

/* Local y is the direction turned left.  Points are numbered in the order given to
 * cw_frame_number(), which sets the band. */
typedef struct cw_frame {
    double modulus_psf;
    double axial; /* multiplies the stiffness along bars; 1 but in tests of textbook formulas */
    int points, bars, dofs, band_used;
    cw_frame_point point[CW_FRAME_POINTS];
    cw_frame_bar bar[CW_FRAME_POINTS];
    double band[CW_FRAME_DOFS][CW_FRAME_BAND];
    double move[CW_FRAME_DOFS];
} cw_frame;

void cw_frame_clear(cw_frame *frame, double modulus_psf);
int cw_frame_point_add(cw_frame *frame, double x_ft, double y_ft); /* -1 when full */
int cw_frame_bar_add(cw_frame *frame, int from, int to, double from_depth_ft, double to_depth_ft);

/* Straight-line load along local y between two places of the bar, lb/ft. */
void cw_frame_bar_across(cw_frame *frame, int bar, double from_ft, double to_ft, double from_load,
                         double to_load);
/* Even load along the bar, lb in all. */
void cw_frame_bar_along(cw_frame *frame, int bar, double load_lb);
void cw_frame_loads_clear(cw_frame *frame);

/* Number the movements in the order of points; false when the band does not hold them. */
bool cw_frame_number(cw_frame *frame, const int *order);

/* False when the frame is a mechanism. */
bool cw_frame_solve(cw_frame *frame);

/* End forces in local axes: along, across, moment at from, then at to. */
void cw_frame_end_forces(const cw_frame *frame, int bar, double ends[6]);

double cw_frame_move(const cw_frame *frame, int point, int direction);

/* Largest unbalanced force of any free movement, lb or ft lb. */
double cw_frame_residual(const cw_frame *frame);

/* Force that a fixed movement takes: lb or ft lb on the frame. */
double cw_frame_reaction(const cw_frame *frame, int point, int direction);

#endif
