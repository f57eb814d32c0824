/** @file
 * The ground along the structure, from survey points, a triangulated surface or a grid.
 *
 * The profile is the exact section of the surface by the vertical plane through the centre line:
 * one point where the line crosses each triangle edge (or grid line), so no break is missed between
 * fixed steps.  Where the surface has no triangle there is "no ground": the finding says from where
 * to where, nothing is extrapolated. All lengths in international feet.  Text comes in as memory:
 * the core reads no file. */
#ifndef CW_GROUND_H
#define CW_GROUND_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/diag.h"
#include "cw/job.h"

enum {
    CW_SURVEY_MAX = 200000, /**< points of a survey file */
    CW_MESH_FACES_MAX = 1000000, /**< triangles of a surface file */
    CW_GRID_CELLS_MAX = 4000000,
    CW_LEGS_MAX = CW_BENDS_MAX + 1
};

/** The centre line is followed at most so far to either side of the crossing point when the length
 * is not known, in ft. */
#define CW_GROUND_SPAN_FT 1000.0

/** Squares of a grid farther from the run's box in plan are not made into triangles: no cut of this
 * program reaches so far, and one that would is told from the triangles' edge. */
#define CW_GROUND_NEAR_FT 300.0

/** Elevations outside these are a wrong column or a wrong unit: the lowest dry land is at -1,400 ft
 * and the highest mountain at 29,032 ft (from memory, not verified). */
#define CW_GROUND_ELEV_LOW_FT (-1500.0)
#define CW_GROUND_ELEV_HIGH_FT 30000.0

/** Farther from the origin than any state plane or national grid. */
#define CW_GROUND_COORD_MAX_FT 1e8

typedef struct cw_survey_point {
    double northing_ft, easting_ft, elevation_ft;
    const char *name, *note; /**< "" when a surface gives none */
    int line;                /**< in its file; from 1 */
} cw_survey_point;

typedef struct cw_survey_points {
    const cw_survey_point *items;
    int count;
} cw_survey_points;

/** Points and the triangles between them. */
typedef struct cw_ground_mesh {
    const cw_survey_point *points;
    int point_count;
    const int (*faces)[3]; /**< indices into points */
    int face_count;
} cw_ground_mesh;

/** Heights at the nodes of a square grid, rows from north to south. */
typedef struct cw_ground_grid {
    int columns, rows;
    double west_ft, south_ft; /**< easting and northing of the south-west node (a cell's centre) */
    double cell_ft;
    const double *elevation_ft; /**< rows * columns */
    const bool *known;          /**< false where the file says NODATA */
} cw_ground_grid;

/** A straight part of the centre line. */
typedef struct cw_ground_leg {
    double northing_ft, easting_ft; /**< where @c at is @c from_ft */
    double azimuth_deg;             /**< looking upstream, clockwise from north */
    double from_ft, to_ft;          /**< plan distances along the centre line; from < to */
} cw_ground_leg;

/** What is cut, and how far it must be covered. */
typedef struct cw_ground_line {
    cw_ground_leg legs[CW_LEGS_MAX];
    int leg_count;
    bool must_cover; /**< the surface must reach from the first leg's start to the last one's end;
                        when false, only holes between its first and last point are faults */
} cw_ground_line;

/** Existing ground along a line. */
typedef struct cw_ground_profile {
    const cw_ground_point *points; /**< at_ft increasing */
    int count;                     /**< 0 after a fault */
    double thinned_ft; /**< how far a left-out point may stand from the profile, in ft of height; 0
                          when none was */
} cw_ground_profile;

/** Survey text, one point a line: number, northing, easting, elevation, description (easting first
 * when @p order is 1). Separators: commas, or tabs and spaces.  The description may hold commas and
 * doubled quotes.  A first line with no number in its coordinates is a heading: it is skipped with
 * a warning.  Faults at @p at.file and the line of the survey file; none are kept after one, and a
 * file without any is one. */
cw_survey_points cw_ground_points(const char *text, int order, cw_pos at, cw_arena *arena,
                                  cw_diags *diags);

/** ASCII grid (ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize,
 * NODATA_value, rows from north to south).  @p metres: lengths and heights are metres; otherwise
 * international feet.  NULL after a fault. */
const cw_ground_grid *cw_ground_grid_parse(const char *text, bool metres, cw_pos at,
                                           cw_arena *arena, cw_diags *diags);

/** Triangles of the part of the grid within CW_GROUND_NEAR_FT of the line: four in each known square,
 * round its middle, which has the mean of the four heights.  A whole square holds what the bilinear one
 * does.  NULL when no square is near. */
const cw_ground_mesh *cw_ground_grid_mesh(const cw_ground_grid *grid, const cw_ground_line *line,
                                          cw_arena *arena);

/** Height at a point; false outside.  Grid: bilinear between four known nodes. */
bool cw_ground_mesh_height(const cw_ground_mesh *mesh, double northing_ft, double easting_ft,
                           double *elevation_ft);
bool cw_ground_grid_height(const cw_ground_grid *grid, double northing_ft, double easting_ft,
                           double *elevation_ft);

/** Cut.  Stretches without ground are reported at @p at. */
cw_ground_profile cw_ground_cut_mesh(const cw_ground_mesh *mesh, const cw_ground_line *line,
                                     cw_pos at, cw_arena *arena, cw_diags *diags);
cw_ground_profile cw_ground_cut_grid(const cw_ground_grid *grid, const cw_ground_line *line,
                                     cw_pos at, cw_arena *arena, cw_diags *diags);

/** The centre line of a job, distances from the crossing point (the outlet when there is no road),
 * inlet side positive. */
cw_ground_line cw_ground_line_of(const cw_job *job);

/** Profile of the file that @p job names: fills ground.profile, profile_count and from_crossing.
 * Needs survey, road, run, bends and ground already read.  Does nothing when no file is named.  @p
 * at is the place of ground.file. */
void cw_ground_from_files(cw_job *job, const cw_job_files *files, cw_pos at, cw_arena *arena,
                          cw_diags *diags);

#endif
