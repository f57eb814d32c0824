/* Shared by the files of this module. */
#ifndef CW_STRUCTURES_INTERNAL_H
#define CW_STRUCTURES_INTERNAL_H

#include "cw/field_make.h"
#include "cw/structures.h"

#define CW_STRUCT_REVIEW "  For review by a licensed engineer."

extern const char *const cw_struct_forms[];
extern const char *const cw_struct_grounds[];
extern const char *const cw_struct_rules[];
extern const char *const cw_struct_machines[];
extern const char *const cw_struct_phis[];

/* "thickness 0 in is not above 0 in; ..." when @p value is not positive; true when it is. */
bool cw_struct_positive(const char *key, double value, cw_dim dim, cw_pos where, cw_diags *diags);

/* Whether steel @p depth_in from the compression face lies in the tension half; a diagnostic when not. */
bool cw_struct_depth_fits(double depth_in, double thickness_in, cw_pos where, cw_diags *diags);

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
    CHOICE_IN("machine", cw_struct_machines, "truck",                                              \
              "design truck, design tandem, axles one by one, or a crawler", NULL, type,           \
              member.machine),                                                                     \
        LIST_IN("axles", "P", CW_DIM_LB, 1.0, 500000.0, NULL, "axle loads, front to rear",         \
                "common practice", type, member.axles_lb),                                         \
        LIST_IN("spacing", NULL, CW_DIM_FT, 1.0, 100.0, NULL, "from each axle to the next",        \
                "common practice", type, member.spacing_ft),                                       \
        NUMBER_IN("gauge", "s_w", CW_DIM_FT, 0.0, 30.0, "0 ft",                                    \
                  "wheel to wheel or track to track, centres; 0 takes the design gauge",           \
                  "common practice", type, member.gauge_ft),                                       \
        NUMBER_IN("patch_width", "w_t", CW_DIM_IN, 0.0, 120.0, "0 in",                             \
                  "of a wheel (both tires) or track; 0 takes the design tire", "common practice",  \
                  type, member.patch_width_in),                                                    \
        NUMBER_IN("patch_length", "l_t", CW_DIM_IN, 0.0, 480.0, "0 in",                            \
                  "of a tire print or track on the ground; 0 takes the design tire",               \
                  "common practice", type, member.patch_length_in),                                \
        NUMBER_IN("machine_weight", "W", CW_DIM_LB, 0.0, 1000000.0, "0 lb",                        \
                  "of a crawler, on both tracks", "common practice", type, member.weight_lb),      \
        NUMBER_IN("presence", "m", CW_DIM_NONE, 0.5, 1.2, "@structure.presence",                   \
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

/* Length and depth at both ends, between which the depth runs straight. */
typedef struct cw_frame_taper {
    double length_ft, from_depth_ft, to_depth_ft;
} cw_frame_taper;

/* Movement of the far end of a bar held at its start: by a force across or a moment there. */
typedef struct cw_frame_flex {
    double across, cross, turn; /* ft/lb, 1/lb, 1/(ft lb) */
} cw_frame_flex;

/* A load across a bar or member that runs straight between two places, + to the left. */
typedef struct cw_frame_line {
    double from_ft, to_ft, from_load, to_load;
} cw_frame_line;

typedef struct cw_frame_bend {
    double across_ft, turn;
} cw_frame_bend;

cw_frame_flex cw_frame_flexibility(double modulus_psf, const cw_frame_taper *bar);

/* Moment of a load at @p x_ft of a bar held at its start. */
double cw_frame_load_moment(double x_ft, const cw_frame_line *load);

/* What a load does to the far end of a bar held at its start. */
cw_frame_bend cw_frame_load_bend(double modulus_psf, const cw_frame_taper *bar,
                                 const cw_frame_line *load);

typedef struct cw_frame_bar {
    int from, to;
    cw_frame_taper shape;
    double c, s;
    /* Stiffness of the far end with the near one held: across, cross term, rotation, along. */
    double vv, vr, rr, along;
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
    double fine[CW_FRAME_DOFS]; /* what refinement adds to move */
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
