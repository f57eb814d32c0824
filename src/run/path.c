#include <assert.h>
#include <math.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* Past this angle from the road's normal a face along the road is a blade, not an end. */
#define SKEW_MAX_DEG 85.0

#define FULL_TURN_DEG 360.0
#define QUARTER_TURN_DEG 90.0

static double round_azimuth(double azimuth_deg)
{
    const double rest_deg = fmod(azimuth_deg, FULL_TURN_DEG);
    if (rest_deg >= 0.0)
        return rest_deg;
    // A tiny negative rest would round up to a full turn.
    return rest_deg + FULL_TURN_DEG < FULL_TURN_DEG ? rest_deg + FULL_TURN_DEG : 0.0;
}

double cw_run_azimuth_deg(double road_azimuth_deg, double skew_deg, cw_run_inlet inlet)
{
    // Positive skew leans the inlet up-station, so it turns the barrel toward the road's own
    // azimuth.
    return round_azimuth(inlet == CW_RUN_INLET_RIGHT
                             ? road_azimuth_deg + QUARTER_TURN_DEG - skew_deg
                             : road_azimuth_deg - QUARTER_TURN_DEG + skew_deg);
}

static double hand_of(const cw_run_frame *frame)
{
    return frame->inlet == CW_RUN_INLET_RIGHT ? 1.0 : -1.0;
}

/* Derived: the barrel's own right is (sin skew, -cos skew) in (u, a) when the inlet is on the right
 * of the road, and the opposite when it is on the left; so a right turn lowers or raises the skew.
 */
static double skew_after(const cw_run_frame *frame, double turned_deg)
{
    return frame->skew_deg - hand_of(frame) * turned_deg;
}

typedef struct spot {
    double along_ft, right_ft, turned_deg;
} spot;

static spot go(spot from, double forward_ft, double right_ft)
{
    const double turned = from.turned_deg * CW_RAD_PER_DEG;
    from.along_ft += forward_ft * cos(turned) - right_ft * sin(turned);
    from.right_ft += forward_ft * sin(turned) + right_ft * cos(turned);
    return from;
}

static cw_run_place place_of(const cw_run_frame *frame, spot here, double chain_ft)
{
    const double azimuth = frame->azimuth_deg * CW_RAD_PER_DEG;
    const double skew = frame->skew_deg * CW_RAD_PER_DEG;
    const double x_ft = here.along_ft, y_ft = here.right_ft, hand = hand_of(frame);
    return (cw_run_place){
        .northing_ft = frame->northing_ft + (x_ft * cos(azimuth) - y_ft * sin(azimuth)),
        .easting_ft = frame->easting_ft + (x_ft * sin(azimuth) + y_ft * cos(azimuth)),
        .azimuth_deg = round_azimuth(frame->azimuth_deg + here.turned_deg),
        .u_ft = x_ft * cos(skew) + hand * y_ft * sin(skew),
        .a_ft = x_ft * sin(skew) - hand * y_ft * cos(skew),
        .skew_deg = skew_after(frame, here.turned_deg),
        .chain_ft = chain_ft,
    };
}

static spot upstream(const cw_run_path *path, double chain_ft)
{
    spot here = {0};
    double reached_ft = 0.0;
    for (int i = 0; i < path->bend_count; i++) {
        const cw_run_bend *bend = &path->bends[i];
        if (bend->chain_ft <= 0.0 || bend->chain_ft > chain_ft)
            continue;
        here = go(here, bend->chain_ft - reached_ft, 0.0);
        here.turned_deg += bend->turn_deg;
        reached_ft = bend->chain_ft;
    }
    return go(here, chain_ft - reached_ft, 0.0);
}

static spot downstream(const cw_run_path *path, double chain_ft)
{
    spot here = {0};
    double reached_ft = 0.0;
    for (int i = path->bend_count - 1; i >= 0; i--) {
        const cw_run_bend *bend = &path->bends[i];
        if (bend->chain_ft > 0.0 || bend->chain_ft <= chain_ft)
            continue;
        here = go(here, bend->chain_ft - reached_ft, 0.0);
        here.turned_deg -= bend->turn_deg;
        reached_ft = bend->chain_ft;
    }
    return go(here, chain_ft - reached_ft, 0.0);
}

static spot spot_at(const cw_run_path *path, double chain_ft)
{
    assert(path->bend_count >= 0 && path->bend_count <= CW_RUN_BENDS_MAX);
    return chain_ft >= 0.0 ? upstream(path, chain_ft) : downstream(path, chain_ft);
}

cw_run_place cw_run_path_at(const cw_run_path *path, double chain_ft)
{
    return place_of(&path->frame, spot_at(path, chain_ft), chain_ft);
}

double cw_run_barrel_offset_ft(int barrel, int count, double spacing_ft)
{
    assert(barrel >= 0 && barrel < count);
    return (barrel - (count - 1) / 2.0) * spacing_ft;
}

/* ---- parallels ---- */

static cw_run_status span_fault(const cw_run_path *path, cw_run_span span)
{
    if (!(span.inlet_chain_ft - span.outlet_chain_ft > CW_SAME_PLACE_FT))
        return CW_RUN_NO_LENGTH;
    double before_ft = span.outlet_chain_ft;
    for (int i = 0; i < path->bend_count; i++) {
        if (!(path->bends[i].chain_ft > before_ft + CW_SAME_PLACE_FT))
            return CW_RUN_BEND_OUTSIDE;
        before_ft = path->bends[i].chain_ft;
    }
    if (path->bend_count > 0 && !(before_ft < span.inlet_chain_ft - CW_SAME_PLACE_FT))
        return CW_RUN_BEND_OUTSIDE;
    return CW_RUN_OK;
}

/* How far forward of the square face the face of this line lies when the end is cut along the road.
 * Derived: the road's direction through the end point, met by the parallel. */
static double face_shift(const cw_run_frame *frame, double turned_deg, double offset_ft)
{
    return -hand_of(frame) * offset_ft * tan(skew_after(frame, turned_deg) * CW_RAD_PER_DEG);
}

static bool cut_is_blade(const cw_run_frame *frame, double turned_deg)
{
    return fabs(remainder(skew_after(frame, turned_deg), FULL_TURN_DEG)) > SKEW_MAX_DEG;
}

static cw_run_vertex vertex_of(spot corner, double turned_deg, double chain_ft)
{
    return (cw_run_vertex){.chain_ft = chain_ft,
                           .along_ft = corner.along_ft,
                           .right_ft = corner.right_ft,
                           .turned_deg = turned_deg};
}

/* Corners and lengths; false when a straight vanishes.  The shifts are of the two end faces,
 * forward. */
static bool lay_corners(const cw_run_path *path, cw_run_span span, cw_run_line *line,
                        double outlet_shift_ft, double inlet_shift_ft)
{
    const double y_ft = line->offset_ft;
    spot corner = spot_at(path, span.outlet_chain_ft);
    line->points[0] =
        vertex_of(go(corner, outlet_shift_ft, y_ft), corner.turned_deg, span.outlet_chain_ft);
    double chain_ft = span.outlet_chain_ft, cut_ft = outlet_shift_ft, at_ft = 0.0;
    for (int i = 0; i <= path->bend_count; i++) {
        const bool last = i == path->bend_count;
        const double next_ft = last ? span.inlet_chain_ft : path->bends[i].chain_ft;
        // Derived: the bisector of a mitre meets the parallel offset tan(turn/2) before the bend.
        const double mitre_ft =
            last ? -inlet_shift_ft : y_ft * tan(path->bends[i].turn_deg / 2.0 * CW_RAD_PER_DEG);
        const double leg_ft = next_ft - chain_ft - cut_ft - mitre_ft;
        if (!(leg_ft > CW_SAME_PLACE_FT))
            return false;
        at_ft += leg_ft;
        const double before_deg = corner.turned_deg;
        corner = spot_at(path, next_ft);
        const double after_deg = last ? before_deg : before_deg + path->bends[i].turn_deg;
        corner.turned_deg = before_deg;
        line->points[i + 1] = vertex_of(go(corner, -mitre_ft, y_ft), after_deg, next_ft);
        line->points[i + 1].at_ft = at_ft;
        corner.turned_deg = after_deg;
        chain_ft = next_ft;
        cut_ft = mitre_ft;
    }
    line->length_ft = at_ft;
    line->count = path->bend_count + 2;
    return true;
}

cw_run_line cw_run_line_of(const cw_run_path *path, cw_run_span span, double offset_ft)
{
    assert(path->bend_count >= 0 && path->bend_count <= CW_RUN_BENDS_MAX);
    cw_run_line line = {
        .frame = path->frame, .offset_ft = offset_ft, .status = span_fault(path, span)};
    if (line.status != CW_RUN_OK)
        return line;
    double outlet_shift_ft = 0.0, inlet_shift_ft = 0.0;
    if (span.cut == CW_RUN_CUT_ROAD) {
        const double first_deg = spot_at(path, span.outlet_chain_ft).turned_deg;
        const double last_deg = spot_at(path, span.inlet_chain_ft).turned_deg;
        if (cut_is_blade(&path->frame, first_deg) || cut_is_blade(&path->frame, last_deg)) {
            line.status = CW_RUN_PARALLEL;
            return line;
        }
        outlet_shift_ft = face_shift(&path->frame, first_deg, offset_ft);
        inlet_shift_ft = face_shift(&path->frame, last_deg, offset_ft);
    }
    if (!lay_corners(path, span, &line, outlet_shift_ft, inlet_shift_ft)) {
        line = (cw_run_line){.frame = path->frame, .offset_ft = offset_ft, .status = CW_RUN_FOLDED};
    }
    return line;
}

cw_run_place cw_run_beside(const cw_run_line *line, double at_ft, double right_ft)
{
    assert(line->status == CW_RUN_OK && line->count >= 2);
    int leg = 0;
    for (int i = 1; i < line->count - 1; i++)
        if (line->points[i].at_ft <= at_ft)
            leg = i;
    const cw_run_vertex *from = &line->points[leg], *to = &line->points[leg + 1];
    const double forward_ft = at_ft - from->at_ft;
    const double share = forward_ft / (to->at_ft - from->at_ft);
    const spot here =
        go((spot){from->along_ft, from->right_ft, from->turned_deg}, forward_ft, right_ft);
    return place_of(&line->frame, here, from->chain_ft + share * (to->chain_ft - from->chain_ft));
}

cw_run_place cw_run_line_at(const cw_run_line *line, double at_ft)
{
    return cw_run_beside(line, at_ft, 0.0);
}
