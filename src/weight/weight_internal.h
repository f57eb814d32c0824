/* Shared by the files of this module: the cross-section of a piece and its two end planes. */
#ifndef CW_WEIGHT_INTERNAL_H
#define CW_WEIGHT_INTERNAL_H

#include "cw/weight.h"

/* One simple figure of the cross-section with its area integrals about the piece's axes. */
typedef struct cw_section_part {
    const char *name, *formula;
    double area_sqft;
    double x_ft, z_ft;     /* centroid */
    double xx_ft4, xz_ft4; /* integrals of x^2 and x z over the area */
} cw_section_part;

enum { CW_SECTION_PARTS_MAX = 8 };

typedef struct cw_section {
    cw_section_part parts[CW_SECTION_PARTS_MAX];
    int count;
    double area_sqft, z_ft;
    double width_in, height_in;
} cw_section;

cw_section cw_weight_section(const cw_piece_shape *shape);

/* y = at_ft + rise x, in ft. */
typedef struct cw_end_plane {
    double at_ft, rise;
} cw_end_plane;

cw_end_plane cw_weight_downstream_plane(const cw_piece_shape *shape);
cw_end_plane cw_weight_upstream_plane(const cw_piece_shape *shape);
double cw_weight_plane_at(cw_end_plane plane, double x_ft);

/* Bits that tell which haunches an opening cuts. */
enum {
    CW_HAUNCH_LEFT_LOW = 1,
    CW_HAUNCH_RIGHT_LOW = 2,
    CW_HAUNCH_LEFT_HIGH = 4,
    CW_HAUNCH_RIGHT_HIGH = 8
};

typedef struct cw_hole_haunch {
    int bit;
    double corner_ft, toward; /* along the face: where the haunch is thickest, and +-1 to its toe */
    double surface_ft, inward; /* through the face: the inside surface, and +-1 into the box */
    double leg_ft;
} cw_hole_haunch;

/* The wall, floor or top that an opening passes through.  "Along" is z for walls and x for floor
 * and top. */
typedef struct cw_hole_host {
    double low_ft, high_ft;         /* clear extent along the face */
    double middle_ft, thickness_ft; /* through the face */
    cw_hole_haunch haunches[2];
    int haunch_count;
} cw_hole_host;

bool cw_weight_face_exists(int part, int face);
cw_hole_host cw_weight_host(const cw_piece_shape *shape, int face);
double cw_weight_hole_along_in(const cw_piece_opening *opening);
/* Size along the face and along the run. */
double cw_weight_hole_tall_in(const cw_piece_opening *opening);
double cw_weight_hole_width_in(const cw_piece_opening *opening);
/* Which haunches of @p host the opening cuts, as bits. */
int cw_weight_hole_haunches(const cw_hole_host *host, const cw_piece_opening *opening);
void cw_weight_cut_opening(const cw_piece_shape *shape, const cw_piece_opening *opening,
                           cw_piece_solids *solids);
void cw_weight_add_solid(cw_piece_solids *solids, cw_piece_solid solid);

/* The fields of a cw_piece_shape in calculators, in slices; also the limits that validation
 * applies. */
enum {
    CW_PIECE_FIELDS_ENDS = 0,     /* skew and mitre, 4 */
    CW_PIECE_FIELDS_SECTION = 4,  /* part, section and unit weight, 9 */
    CW_PIECE_FIELDS_LENGTH = 13,  /* 1 */
    CW_PIECE_FIELDS_JOINTS = 14,  /* joint detail and end weights, 8 */
    CW_PIECE_FIELDS_OPENING = 22, /* the first opening, 8 */
    CW_PIECE_FIELDS_END = 30
};
extern const cw_field cw_piece_fields[CW_PIECE_FIELDS_END];

/* Only what the section needs: part, dimensions, haunches that fit. */
bool cw_weight_section_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags);

#endif
