/* The box by the force method: four members, at most three unknown forces, and the floor's springs.
 *
 * Primary frame: the top is a simple span between the tops of the walls, the walls stand on the
 * floor, the floor is a simple span between its ends.  Unknown are the strut in the top (+ presses
 * the walls apart) and its end moments, half alike (even) and half opposite (odd: + at the right
 * end).  Members, points and integrals along the bars are those of the mesh, so that both ways to
 * solve a box agree to rounding.
 *
 * Everything is linear in eight numbers of a load as long as the contacts do not change. */
#ifndef CW_RING_INTERNAL_H
#define CW_RING_INTERNAL_H

#include "box_internal.h"

/* What the unknown forces feel of a load on the primary frame. */
enum {
    CW_RING_APART, /* seats away from each other, ft */
    CW_RING_EVEN,  /* turn against the even end moments, both ends together */
    CW_RING_ODD,   /* against the odd ones */
    CW_RING_FOOT,  /* moment of the sides in the foot of the walls, and so along the floor, ft lb */
    CW_RING_FLOOR, /* even pressure on the floor, down, psf */
    CW_RING_DOWN,  /* all that the ground must carry, lb */
    CW_RING_TIP,   /* its moment about the middle of the floor, + on the right, ft lb */
    CW_RING_JOINT, /* moment in the joint of a double-u's wall, ft lb */
    CW_RING_LOADS
};

typedef struct cw_ring_load {
    double part[CW_RING_LOADS];
} cw_ring_load;

typedef struct cw_ring_bar {
    cw_frame_taper shape;
    cw_frame_flex flex;
} cw_ring_bar;

/* A member without the doubled points of joints, in the order of the path round the box. */
typedef struct cw_ring_member {
    int count;
    double at_ft[CW_BOX_LINE]; /* from its start, rising */
    cw_ring_bar bar[CW_BOX_LINE];
    double along; /* shortening by a thrust, ft/lb */
} cw_ring_member;

/* Work of a moment on a moment of one, and on one that runs straight along the member. */
typedef struct cw_ring_turn {
    double one, line;
} cw_ring_turn;

/* Work of a load over the part of the top before a place: for the moments of live loads. */
typedef struct cw_ring_sag {
    double sag_ft[2], slope[2], start_moment[2], end_moment[2]; /* even, odd */
    double work[2];                                             /* of a load of 1 before it */
} cw_ring_sag;

typedef struct cw_ring {
    int form, ground;
    double modulus_psf, ground_pcf, width_ft, height_ft, joint_ft;
    cw_ring_member floor, top, wall, left_wall; /* the left one runs down */
    int place_point[CW_STRUCT_PLACES]; /* in its member, from the end that it is named of */
    double strut_strut, strut_even, even_even, odd_odd; /* flexibility of the unknown forces */
    double odd_down;                                    /* walls shorten: turn of odd per D, lb */
    double floor_one; /* turn of the floor's ends under a moment of 1 */
    double floor_even,
        floor_tilt; /* turn of the floor's ends under pressure of 1, even and tilted */
    cw_ring_turn side_even, side_deep; /* both walls: pressure 1, and 1 per ft of depth */
    double top_even;                   /* turn of the top's ends under pressure of 1 */
    double top_psf, floor_psf, wall_lb_per_ft, wall_lb, crown_lb; /* weights */
    cw_ring_sag top_sag[CW_BOX_LINE];
    /* Floor on springs: stiffness, and upward movement against its ends. */
    double spring[CW_BOX_LINE], bow_even[CW_BOX_LINE], bow_odd[CW_BOX_LINE], sag_even[CW_BOX_LINE];
    /* Of point i by a force on point j, lower half by rows. */
    double bend[CW_BOX_LINE * (CW_BOX_LINE + 1) / 2];
} cw_ring;

static inline double cw_ring_bend_of(const cw_ring *ring, int i, int j)
{
    return ring->bend[i > j ? i * (i + 1) / 2 + j : j * (j + 1) / 2 + i];
}

/* Not OK when the box has no mesh.  Takes the stack of a mesh while it runs. */
cw_struct_status cw_ring_build(cw_ring *ring, const cw_struct_box *box);

/* Numbers of a case without its patches; both sides must carry the same. */
cw_ring_load cw_ring_of_case(const cw_ring *ring, const cw_struct_case *load);

/* Reactions of the top as a simple span under a patch, and its numbers, added to both. */
typedef struct cw_ring_live {
    double left_lb, right_lb;
    cw_ring_load load;
} cw_ring_live;
cw_ring_live cw_ring_of_patches(const cw_ring *ring, const cw_struct_patch *patches, int count);

/* Turn of the ends of the floor, even and odd, under an upward load, and nothing else. */
cw_ring_turn cw_ring_floor_turn(const cw_ring *ring, const cw_frame_line *up);

/* Answers to loads of 1 in one state of contacts. */
typedef struct cw_ring_contact {
    bool tied;
    bool open[CW_BOX_LINE]; /* springs */
    double strut[CW_RING_LOADS], even[CW_RING_LOADS], odd[CW_RING_LOADS], gap_ft[CW_RING_LOADS];
    double up_ft[CW_RING_LOADS][CW_BOX_LINE]; /* movement of the floor on springs */
    double residual; /* worst unbalanced force over the forces, of all these loads */
} cw_ring_contact;

/* False when these contacts hold nothing: no spring, or one alone. */
bool cw_ring_solve(const cw_ring *ring, bool tied, const bool *open, cw_ring_contact *out);

/* ---- forces at stations ---- */

enum { CW_RING_STATIONS = CW_FRAME_POINTS / 2 + 3 }; /* one half, with its ends */

/* Where forces are read, on both sides at once: first those of the top, then wall, then floor. */
typedef struct cw_ring_stations {
    int count, top, wall;           /* first those of the top, then those of the wall */
    double at_ft[CW_RING_STATIONS]; /* from the end, or above the floor */
    double odd[CW_RING_STATIONS];   /* odd moment of 1 on the left side */
    int point[CW_RING_STATIONS];    /* in the member */
} cw_ring_stations;

/* The named places, or all points of one half when @p all. */
void cw_ring_stations_set(const cw_ring *ring, bool all, cw_ring_stations *out);

/* Left and right of each station; signs as cw_struct_force. */
typedef struct cw_ring_forces {
    double moment[2][CW_RING_STATIONS], shear[2][CW_RING_STATIONS], thrust[2][CW_RING_STATIONS];
} cw_ring_forces;

/* Unknown forces and what else sets the forces at stations. */
typedef struct cw_ring_state {
    double strut_lb, even_ft_lb, odd_ft_lb, gap_ft;
    double left_lb, right_lb;   /* reactions of the top as a simple span */
    double floor_psf, tilt_psf; /* upward on the floor, even, and from - to + */
    bool partly;                /* the ground bears over a part, with @c bed */
    cw_frame_line bed;
    double up_ft[CW_BOX_LINE]; /* of the floor on springs */
} cw_ring_state;

/* Moment and its slope in the top as a simple span, at the stations of the top on both sides. */
typedef struct cw_ring_span {
    double moment[2][CW_BOX_LINE], slope[2][CW_BOX_LINE];
} cw_ring_span;

void cw_ring_span_of(const cw_ring *ring, const cw_ring_stations *at,
                     const cw_struct_patch *patches, int count, cw_ring_span *out);

/* Forces of the unknown forces, of the floor and of the top; not those of loads on the walls and of
 * weight in them. */
void cw_ring_forces_of(const cw_ring *ring, const cw_ring_stations *at, const cw_ring_state *state,
                       const cw_ring_span *span, cw_ring_forces *out);

/* What a case adds on the primary frame, the same on both sides: moments of the sides and of the
 * even load on the top, thrust of weight. */
typedef struct cw_ring_primary {
    double moment[CW_RING_STATIONS], shear[CW_RING_STATIONS], thrust[CW_RING_STATIONS];
} cw_ring_primary;

void cw_ring_primary_of(const cw_ring *ring, const cw_ring_stations *at, const cw_struct_case *load,
                        cw_ring_primary *out);

/* Moment of the sides in a wall that stands on the floor alone, and their push above. */
void cw_ring_side_forces(const cw_ring *ring, const cw_struct_case *load, double y_ft,
                         double *moment, double *push_lb);

/* Thrust in the walls by a case, at a height. */
double cw_ring_wall_thrust(const cw_ring *ring, const cw_struct_case *load, double y_ft);

#endif
