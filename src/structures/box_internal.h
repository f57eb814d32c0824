/* The mesh of a box, shared by the files that build and solve it. */
#ifndef CW_STRUCT_BOX_INTERNAL_H
#define CW_STRUCT_BOX_INTERNAL_H

#include "structures_internal.h"

enum { CW_BOX_LINE = 40 };

/* Effective depth over thickness where no steel is known. */
#define CW_BOX_SHEAR_DEPTH 0.9

/* A member as a line of points in the order of the path round the box, turning left. */
typedef struct cw_box_line {
    int count;
    int point[CW_BOX_LINE];
    double at_ft[CW_BOX_LINE]; /* from the left end or the floor, rising or falling */
    int first_bar;
} cw_box_line;

typedef struct cw_box_mesh {
    cw_frame frame;
    double width_ft, height_ft; /* of the centre lines */
    cw_box_line floor, right, top, left;
    int wall_joint; /* index in left and right walls of the joint's lower point; -1 without one */
    /* Index of each place in its member, counted from the left end or from the floor. */
    int place[CW_STRUCT_PLACES];
    int path[CW_FRAME_POINTS], path_count;
} cw_box_mesh;

/* Dimensions and ground that make a box. */
bool cw_box_is_one(const cw_struct_box *box);

/* False when the box needs more points than there are. */
bool cw_box_mesh_build(cw_box_mesh *mesh, const cw_struct_box *box);

/* Lids: tie the tops of the walls to the lid sideways, or let it go. */
void cw_box_mesh_tie(cw_box_mesh *mesh, const cw_struct_box *box, bool tied);

/* Pressures push inward when positive; floor_* are pressures on the floor from below. */
void cw_box_load(cw_box_mesh *mesh, const cw_struct_box *box, const cw_struct_case *load);
void cw_box_load_floor(cw_box_mesh *mesh, double from_ft, double to_ft, double from_psf,
                       double to_psf);

/* Sums of all loads on the frame about the middle of the floor, and their size. */
typedef struct cw_box_sum {
    double right_lb, up_lb, turn_ft_lb, size_lb;
} cw_box_sum;
cw_box_sum cw_box_load_sum(const cw_box_mesh *mesh);

#endif
