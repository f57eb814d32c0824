/* The plan: structure and road seen from above, turned so that upstream runs to the right. */
#include <math.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_internal.h"

#define FLOW_PT 44.0      /* room of the flow arrow left of the barrels */
#define LEAST_HOLE_PT 3.0 /* openings smaller on paper are drawn this wide */
#define LEAST_WALL_PT 2.2 /* thinner walls would run together */
#define SMALL_PEN 0.6     /* lines of a structure whose pieces are small on paper */
#define SMALL_PIECE_PT 14.0
#define STATION_APART_PT 34.0

typedef struct picture {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    double cosine, sine;       /* of the azimuth that runs to the right across the sheet */
    cw_xy low, high;           /* real box of the structure, end walls included */
    cw_xy road_low, road_high; /* real box in which the road is shown */
} picture;

/* ---- places ---- */

static cw_xy from_grid(const picture *p, double northing_ft, double easting_ft)
{
    const cw_run_frame *frame = &p->plan->path.frame;
    const double north = northing_ft - frame->northing_ft, east = easting_ft - frame->easting_ft;
    return (cw_xy){north * p->cosine + east * p->sine, north * p->sine - east * p->cosine};
}

static cw_xy from_place(const picture *p, cw_run_place place)
{
    return from_grid(p, place.northing_ft, place.easting_ft);
}

/* Unit vector of an azimuth on the sheet. */
static cw_xy heading(const picture *p, double azimuth_deg)
{
    const double c = cos(azimuth_deg * CW_RAD_PER_DEG), s = sin(azimuth_deg * CW_RAD_PER_DEG);
    return (cw_xy){c * p->cosine + s * p->sine, c * p->sine - s * p->cosine};
}

static cw_xy right_of(cw_xy way)
{
    return (cw_xy){way.y, -way.x};
}

/* Point of a face of a piece, right_ft to the right of the barrel's axis.  The piece is straight:
 * it lies on the straight of its own middle. */
static cw_xy face_point(const picture *p, const cw_plan_piece *piece, bool upstream,
                        double right_ft)
{
    const cw_run_line *line = &p->plan->barrels[piece->barrel].line;
    const cw_run_place middle = cw_run_line_at(line, (piece->start_ft + piece->end_ft) / 2);
    const double half_ft = (piece->end_ft - piece->start_ft) / 2;
    const double along_ft = (upstream ? half_ft : -half_ft) +
                            right_ft * draw_face_tan(&p->plan->types[piece->type].shape, upstream);
    const cw_xy way = heading(p, middle.azimuth_deg);
    return cw_xy_plus(cw_xy_plus(from_place(p, middle), way, along_ft), right_of(way), right_ft);
}

static cw_xy center_point(const picture *p, double chain_ft)
{
    return from_place(p, cw_run_path_at(&p->plan->path, chain_ft));
}

/* Point of the road's own coordinates. */
static cw_xy road_point(const picture *p, double u_ft, double a_ft)
{
    const double along_deg = p->plan->job->survey.azimuth_deg;
    const double square_deg = p->plan->path.frame.inlet == CW_RUN_INLET_RIGHT ? 90.0 : -90.0;
    const cw_xy along = heading(p, along_deg), square = heading(p, along_deg + square_deg);
    return (cw_xy){along.x * a_ft + square.x * u_ft, along.y * a_ft + square.y * u_ft};
}

/* The stretch of the line u = const inside the road's box; false when it misses it. */
static bool road_stretch(const picture *p, double u_ft, double a_ft[2])
{
    const cw_xy start = road_point(p, u_ft, 0), way = heading(p, p->plan->job->survey.azimuth_deg);
    const double from[2] = {start.x, start.y}, d[2] = {way.x, way.y};
    const double low[2] = {p->road_low.x, p->road_low.y},
                 high[2] = {p->road_high.x, p->road_high.y};
    a_ft[0] = -1e6;
    a_ft[1] = 1e6;
    for (int axis = 0; axis < 2; axis++) {
        if (fabs(d[axis]) < 1e-9) {
            if (from[axis] < low[axis] || from[axis] > high[axis])
                return false;
            continue;
        }
        const double t0 = (low[axis] - from[axis]) / d[axis],
                     t1 = (high[axis] - from[axis]) / d[axis];
        a_ft[0] = fmax(a_ft[0], fmin(t0, t1));
        a_ft[1] = fmin(a_ft[1], fmax(t0, t1));
    }
    return a_ft[0] < a_ft[1];
}

/* ---- frame ---- */

static void take_in(picture *p, cw_xy point)
{
    p->low = (cw_xy){fmin(p->low.x, point.x), fmin(p->low.y, point.y)};
    p->high = (cw_xy){fmax(p->high.x, point.x), fmax(p->high.y, point.y)};
}

/* Corners of an end wall, which stands outside the face; the first two are on the face. */
static bool wall_corners(const picture *p, const cw_plan_end *end, bool inlet, cw_xy corners[4])
{
    const cw_plan *plan = p->plan;
    if (!end->has_headwall)
        return false;
    const double thick_ft =
        (inlet ? plan->job->run.inlet : plan->job->run.outlet).thickness_in / CW_IN_PER_FT;
    const cw_run_place place =
        cw_run_path_at(&plan->path, inlet ? plan->span.inlet_chain_ft : plan->span.outlet_chain_ft);
    const cw_xy way = heading(p, place.azimuth_deg), middle = from_place(p, place);
    cw_xy face = right_of(way);
    if (plan->span.cut == CW_RUN_CUT_ROAD && plan->job->road.present)
        face = heading(p, plan->job->survey.azimuth_deg);
    cw_xy out = right_of(face);
    if ((out.x * way.x + out.y * way.y > 0) != inlet)
        out = (cw_xy){-out.x, -out.y};
    const double half_ft = end->headwall.length_ft / 2;
    corners[0] = cw_xy_plus(middle, face, -half_ft);
    corners[1] = cw_xy_plus(middle, face, half_ft);
    corners[2] = cw_xy_plus(corners[1], out, thick_ft);
    corners[3] = cw_xy_plus(corners[0], out, thick_ft);
    return true;
}

/* Point of an end, in its own axes. */
static cw_xy end_point(const picture *p, const cw_plan_end_works *works, cw_end_point point)
{
    return from_place(p, cw_plan_end_place(works, p->plan->path.frame.inlet, point));
}

static const cw_plan_end_works *works_of(const picture *p, int inlet)
{
    return inlet ? &p->plan->inlet.works : &p->plan->outlet.works;
}

static void ring_of(const picture *p, const cw_plan_end_works *works, const cw_end_point *at, int count,
                    cw_xy *points)
{
    for (int i = 0; i < count; i++)
        points[i] = end_point(p, works, at[i]);
}

static void measure(picture *p)
{
    const cw_plan *plan = p->plan;
    const cw_run_place from = cw_run_path_at(&plan->path, plan->span.outlet_chain_ft);
    const cw_run_place to = cw_run_path_at(&plan->path, plan->span.inlet_chain_ft);
    const double north = to.northing_ft - from.northing_ft, east = to.easting_ft - from.easting_ft;
    const double length = hypot(north, east);
    p->cosine = north / length;
    p->sine = east / length;
    p->low = p->high = from_place(p, from);
    const double half_ft = plan->outside_width_in / 2 / CW_IN_PER_FT;
    for (int i = 0; i < plan->piece_count; i++)
        for (int k = 0; k < 4; k++)
            take_in(p, face_point(p, &plan->pieces[i], k / 2, k % 2 ? half_ft : -half_ft));
    cw_xy corners[4];
    for (int e = 0; e < 2; e++)
        if (wall_corners(p, e ? &plan->inlet : &plan->outlet, e, corners))
            for (int k = 0; k < 4; k++)
                take_in(p, corners[k]);
    for (int e = 0; e < 2; e++)
        for (int side = 0; works_of(p, e)->present && side < 2; side++) {
            take_in(p, end_point(p, works_of(p, e), works_of(p, e)->plan.tip[side]));
            take_in(p, end_point(p, works_of(p, e), works_of(p, e)->plan.edge[side]));
        }
}

static void frame_picture(picture *p, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt);
    const double side_pt = FLOW_PT + 5.2 * text, foot_pt = draw_foot_pt(text, 1);
    const cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = p->low,
                                                    .max = p->high,
                                                    .left_pt = side_pt,
                                                    .right_pt = 9 * text,
                                                    .top_pt = 7.5 * text,
                                                    .bottom_pt = foot_pt + 10 * text});
    p->drawing = draw_new(p->arena, view, text);
    p->road_low = cw_view_real(&view, (cw_xy){DRAW_RIM_PT, height_pt - foot_pt - 6.2 * text});
    p->road_high = cw_view_real(&view, (cw_xy){width_pt - DRAW_RIM_PT, DRAW_RIM_PT});
}

/* ---- road ---- */

static void road_line(picture *p, double u_ft, cw_layer layer, const char *name)
{
    double a_ft[2];
    if (!road_stretch(p, u_ft, a_ft))
        return;
    const cw_xy ends[2] = {road_point(p, u_ft, a_ft[0]), road_point(p, u_ft, a_ft[1])};
    cw_draw_line(p->drawing, layer, ends[0], ends[1]);
    if (!name)
        return;
    const cw_xy top = draw_paper(p->drawing, ends[ends[1].y > ends[0].y]);
    const cw_xy foot = draw_paper(p->drawing, ends[ends[1].y <= ends[0].y]);
    const double angle = atan2(foot.y - top.y, top.x - foot.x), size = p->drawing->text_pt;
    const cw_text_style style = {
        .align = CW_ALIGN_RIGHT, .angle_deg = angle * CW_DEG_PER_RAD, .halo = true};
    const double lead = 4;
    draw_text_if_free(p->drawing, top.x - lead * cos(angle) - 0.35 * size * sin(angle),
                      top.y + lead * sin(angle) - 0.35 * size * cos(angle), style, name);
}

static void stations(picture *p)
{
    static const double steps_ft[] = {10, 20, 25, 50, 100, 200, 500, 1000};
    const double station_ft = p->plan->job->road.station_ft;
    double a_ft[2], step_ft = 0;
    if (!road_stretch(p, 0, a_ft))
        return;
    for (int i = 0; i < 8 && step_ft * p->drawing->view.scale_x < STATION_APART_PT; i++)
        step_ft = steps_ft[i];
    const double first = ceil((station_ft + a_ft[0]) / step_ft) * step_ft;
    const cw_xy along = heading(p, p->plan->job->survey.azimuth_deg), across = right_of(along);
    for (int i = 0; i < 100 && first + i * step_ft < station_ft + a_ft[1]; i++) {
        const double a = first + i * step_ft - station_ft;
        const cw_xy at = road_point(p, 0, a), paper = draw_paper(p->drawing, at);
        const double tick = 3 / p->drawing->view.scale_x;
        cw_draw_line(p->drawing, CW_LAYER_OUTLINE, cw_xy_plus(at, across, -tick),
                     cw_xy_plus(at, across, tick));
        const bool in_structure = at.y > p->low.y && at.y < p->high.y;
        if (!in_structure)
            draw_text_if_free(
                p->drawing, paper.x + 6, paper.y,
                (cw_text_style){.valign = CW_VALIGN_MIDDLE, .halo = true},
                draw_value(p->plan, p->arena, first + i * step_ft, CW_DIM_STATION_FT));
    }
}

static void road(picture *p)
{
    const cw_plan *plan = p->plan;
    if (!plan->job->road.present)
        return;
    for (int s = 0; s < 2; s++) {
        const cw_run_side *side = s ? &plan->road.inlet : &plan->road.outlet;
        double u_ft = 0;
        for (int i = 0; i < side->strip_count; i++) {
            u_ft += side->strips[i].width_ft;
            const bool hinge = i + 1 == side->strip_count;
            road_line(p, s ? u_ft : -u_ft, hinge ? CW_LAYER_HIDDEN : CW_LAYER_RULE,
                      hinge ? "Hinge" : NULL);
        }
    }
    road_line(p, 0, CW_LAYER_CENTER, "Road center line");
}

/* ---- structure ---- */

/* A hole where the words of a piece would stand. */
static bool hole_in_middle(const cw_piece_shape *shape)
{
    for (int i = 0; i < shape->opening_count; i++) {
        const cw_piece_opening *hole = &shape->openings[i];
        const double reach_in =
            (hole->is_round ? hole->diameter_in : hole->width_in) / 2 + shape->wall_in;
        if ((hole->face == CW_HOLE_TOP || hole->face == CW_HOLE_FLOOR) &&
            fabs(hole->y_in - shape->length_in / 2) < reach_in)
            return true;
    }
    return false;
}

static void piece_words(picture *p, const cw_plan_piece *piece, const cw_xy corners[4])
{
    const double size = p->drawing->text_pt * 0.92;
    const cw_xy middle = {(corners[0].x + corners[1].x + corners[2].x + corners[3].x) / 4,
                          (corners[0].y + corners[1].y + corners[2].y + corners[3].y) / 4};
    const cw_xy at = draw_paper(p->drawing, middle);
    const double long_pt = (piece->end_ft - piece->start_ft) * p->drawing->view.scale_x - 3;
    const double wide_pt = p->plan->outside_width_in / CW_IN_PER_FT * p->drawing->view.scale_y - 3;
    const char *mark = p->plan->types[piece->type].mark;
    if (hole_in_middle(&p->plan->types[piece->type].shape))
        return;
    const double need = fmax(cw_font_width_pt(piece->slot, size, CW_FONT_REGULAR),
                             cw_font_width_pt(mark, size, CW_FONT_BOLD));
    cw_text_style style = {
        .size_pt = size, .align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE, .halo = true};
    if (need <= long_pt && wide_pt > 4.5 * size) {
        draw_text_if_free(p->drawing, at.x, at.y + 1.0 * size, style, mark);
        draw_text_if_free(p->drawing, at.x, at.y - 1.0 * size, style, piece->slot);
    } else if (need <= long_pt && wide_pt > size) {
        draw_text_if_free(p->drawing, at.x, at.y, style, piece->slot);
    } else if (size <= long_pt) {
        /* The barrel is named at the outlet, so "L07" is enough. */
        const char *place = strchr(piece->slot, '-') + 1;
        style.angle_deg = 90;
        if (need <= wide_pt)
            draw_text_if_free(p->drawing, at.x, at.y, style, piece->slot);
        else if (cw_font_width_pt(place, size, CW_FONT_REGULAR) <= wide_pt)
            draw_text_if_free(p->drawing, at.x, at.y, style, place);
    }
}

/* Lines of the walls through all pieces of a row, right_ft to the right of the axis. */
static void wall_line(picture *p, int barrel, double right_ft)
{
    const cw_plan_barrel *b = &p->plan->barrels[barrel];
    cw_xy *points = CW_TAKE(p->arena, cw_xy, 2 * b->base_count);
    for (int i = 0; i < b->base_count; i++) {
        points[2 * i] = face_point(p, &p->plan->pieces[b->bases[i]], false, right_ft);
        points[2 * i + 1] = face_point(p, &p->plan->pieces[b->bases[i]], true, right_ft);
    }
    cw_draw_polyline(p->drawing, CW_LAYER_HIDDEN, points, 2 * b->base_count);
}

static void barrel(picture *p, int number)
{
    const cw_plan *plan = p->plan;
    const cw_plan_barrel *b = &plan->barrels[number];
    const bool ring = b->top_count == 0;
    const int *row = ring ? b->bases : b->tops, count = ring ? b->base_count : b->top_count;
    const double half_ft = plan->outside_width_in / 2 / CW_IN_PER_FT,
                 inner_ft = plan->job->box.span_in / 2 / CW_IN_PER_FT;
    for (int i = 0; i < count; i++) {
        const cw_plan_piece *piece = &plan->pieces[row[i]];
        const cw_xy corners[4] = {
            face_point(p, piece, false, -half_ft), face_point(p, piece, true, -half_ft),
            face_point(p, piece, true, half_ft), face_point(p, piece, false, half_ft)};
        cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, corners, 4);
    }
    if ((half_ft - inner_ft) * p->drawing->view.scale_y > LEAST_WALL_PT) {
        wall_line(p, number, -inner_ft);
        wall_line(p, number, inner_ft);
    }
    /* Base joints that no top joint hides. */
    for (int i = 1; !ring && plan->job->pieces.rows == 1 && i < b->base_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[b->bases[i]];
        cw_draw_line(p->drawing, CW_LAYER_HIDDEN, face_point(p, piece, false, -half_ft),
                     face_point(p, piece, false, half_ft));
    }
}

static void barrel_words(picture *p, int number)
{
    const cw_plan_barrel *b = &p->plan->barrels[number];
    const bool ring = b->top_count == 0;
    const int *row = ring ? b->bases : b->tops, count = ring ? b->base_count : b->top_count;
    const double half_ft = p->plan->outside_width_in / 2 / CW_IN_PER_FT;
    for (int i = 0; i < count; i++) {
        const cw_plan_piece *piece = &p->plan->pieces[row[i]];
        const cw_xy corners[4] = {
            face_point(p, piece, false, -half_ft), face_point(p, piece, true, -half_ft),
            face_point(p, piece, true, half_ft), face_point(p, piece, false, half_ft)};
        piece_words(p, piece, corners);
    }
}

/* Apron, wings and cutoff wall; the barrels are drawn over them. */
static void end_works(picture *p, int inlet)
{
    const cw_plan_end_works *works = works_of(p, inlet);
    const cw_job_end *given = inlet ? &p->plan->job->run.inlet : &p->plan->job->run.outlet;
    cw_end_point corners[4];
    cw_xy points[CW_END_CORNERS_MAX];
    if (!works->present)
        return;
    if (works->has_apron) {
        ring_of(p, works, works->plan.outline, works->plan.corners, points);
        cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, points, works->plan.corners);
    }
    for (int side = 0; side < 2; side++)
        if (works->wings[side].present &&
            draw_wing_shape(works, side, 0, works->wings[side].given->thickness_in / CW_IN_PER_FT, corners)) {
            ring_of(p, works, corners, 4, points);
            cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_SHADE, points, 4);
        }
    if (draw_cutoff_shape(works, given->cutoff.thickness_in / CW_IN_PER_FT, corners)) {
        ring_of(p, works, corners, 4, points);
        points[4] = points[0];
        cw_draw_polyline(p->drawing, CW_LAYER_HIDDEN, points, 5);
    }
}

static void structure(picture *p)
{
    const cw_plan *plan = p->plan;
    const double usual_pt =
        plan->plan_length_ft / plan->barrels[0].base_count * p->drawing->view.scale_x;
    p->drawing->pen_factor = usual_pt < SMALL_PIECE_PT ? SMALL_PEN : 1;
    end_works(p, 0);
    end_works(p, 1);
    for (int i = 0; i < plan->barrel_count; i++)
        barrel(p, i);
    p->drawing->pen_factor = 1;
    cw_xy corners[4];
    for (int e = 0; e < 2; e++)
        if (wall_corners(p, e ? &plan->inlet : &plan->outlet, e, corners))
            cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_SHADE, corners, 4);
    /* The centre line of the structure, with its corners. */
    cw_xy points[CW_RUN_POINTS_MAX];
    int count = 0;
    points[count++] = center_point(p, plan->span.outlet_chain_ft);
    for (int i = 0; i < plan->path.bend_count; i++)
        points[count++] = center_point(p, plan->path.bends[i].chain_ft);
    points[count++] = center_point(p, plan->span.inlet_chain_ft);
    cw_draw_polyline(p->drawing, CW_LAYER_CENTER, points, count);
}

/* ---- notes ---- */

static draw_rows rows_above(const picture *p)
{
    return (draw_rows){draw_paper(p->drawing, p->high).y - 10, -1.6 * p->drawing->text_pt, 0};
}

static draw_rows rows_below(const picture *p)
{
    return (draw_rows){draw_paper(p->drawing, p->low).y + 10, 1.6 * p->drawing->text_pt, 0};
}

static void bends(picture *p)
{
    const cw_plan *plan = p->plan;
    for (int i = 0; i < plan->path.bend_count; i++) {
        const cw_run_bend *bend = &plan->path.bends[i];
        const cw_run_place place = cw_run_path_at(&plan->path, bend->chain_ft);
        /* The mitre lies on the bisector of the two straights. */
        const cw_xy way = right_of(heading(p, place.azimuth_deg - bend->turn_deg / 2)),
                    at = from_place(p, place);
        const double reach = plan->width_ft / 2 + 6 / p->drawing->view.scale_x;
        cw_draw_line(p->drawing, CW_LAYER_CENTER, cw_xy_plus(at, way, -reach),
                     cw_xy_plus(at, way, reach));
        cw_paper_circle(p->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, draw_paper(p->drawing, at),
                        2.6);
        draw_callout(p->drawing, cw_xy_plus(at, way, -reach), rows_above(p),
                     cw_arena_print(
                         p->arena, "Bend %s %s\nat %s", draw_angle(p->arena, fabs(bend->turn_deg)),
                         bend->turn_deg >= 0 ? "right" : "left",
                         draw_survey(plan, p->arena, bend->chain_ft - plan->span.outlet_chain_ft)));
    }
}

static void phases(picture *p)
{
    const cw_plan *plan = p->plan;
    for (int i = 0; i < plan->job->phase_count; i++) {
        const cw_job_phase *phase = &plan->job->phases[i];
        const cw_run_place place =
            cw_run_path_at(&plan->path, plan->span.outlet_chain_ft + phase->at_ft);
        const cw_xy way = right_of(heading(p, place.azimuth_deg)), at = from_place(p, place);
        const double reach = plan->width_ft / 2 + 14 / p->drawing->view.scale_x;
        cw_draw_line(p->drawing, CW_LAYER_HIGHLIGHT, cw_xy_plus(at, way, -reach),
                     cw_xy_plus(at, way, reach));
        draw_callout(p->drawing, cw_xy_plus(at, way, -reach), rows_above(p),
                     cw_arena_print(p->arena, "Phase line at %s\n%s to the left of it",
                                    draw_survey(plan, p->arena, phase->at_ft),
                                    phase->name ? phase->name : "first phase"));
    }
}

static void opening(picture *p, const cw_job_opening *given)
{
    const cw_plan *plan = p->plan;
    const cw_plan_barrel *b = &plan->barrels[given->barrel - 1];
    const cw_run_place place = cw_run_line_at(&b->line, given->at_ft);
    const cw_xy way = heading(p, place.azimuth_deg), right = right_of(way),
                axis = from_place(p, place);
    const double long_ft =
        fmax((given->has_diameter ? given->diameter_in : given->width_in) / CW_IN_PER_FT,
             LEAST_HOLE_PT / p->drawing->view.scale_x);
    const double outer_ft = plan->outside_width_in / 2 / CW_IN_PER_FT,
                 inner_ft = plan->job->box.span_in / 2 / CW_IN_PER_FT;
    cw_xy tip;
    if (given->face == CW_FACE_LEFT || given->face == CW_FACE_RIGHT) {
        const double side = given->face == CW_FACE_LEFT ? -1 : 1;
        const cw_xy out = cw_xy_plus(axis, right, side * outer_ft),
                    in = cw_xy_plus(axis, right, side * inner_ft);
        const cw_xy hole[4] = {cw_xy_plus(out, way, -long_ft / 2),
                               cw_xy_plus(out, way, long_ft / 2), cw_xy_plus(in, way, long_ft / 2),
                               cw_xy_plus(in, way, -long_ft / 2)};
        cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, hole, 4);
        tip = out;
    } else {
        const cw_layer layer = given->face == CW_FACE_TOP ? CW_LAYER_OUTLINE : CW_LAYER_HIDDEN;
        const cw_fill fill = given->face == CW_FACE_TOP ? CW_FILL_WHITE : CW_FILL_NONE;
        tip = cw_xy_plus(axis, right, given->height_in / CW_IN_PER_FT);
        if (given->has_diameter) {
            cw_draw_circle(p->drawing, layer, fill, tip, long_ft / 2);
        } else {
            const double tall_ft = given->tall_in / CW_IN_PER_FT;
            const cw_xy half = {long_ft / 2, tall_ft / 2};
            const cw_xy hole[4] = {cw_xy_plus(cw_xy_plus(tip, way, -half.x), right, -half.y),
                                   cw_xy_plus(cw_xy_plus(tip, way, half.x), right, -half.y),
                                   cw_xy_plus(cw_xy_plus(tip, way, half.x), right, half.y),
                                   cw_xy_plus(cw_xy_plus(tip, way, -half.x), right, half.y)};
            cw_draw_polygon(p->drawing, layer, fill, hole, 4);
        }
    }
    const bool up = tip.y >= (p->low.y + p->high.y) / 2;
    draw_callout(p->drawing, tip, up ? rows_above(p) : rows_below(p),
                 cw_arena_print(p->arena, "%s\nat %s", given->name ? given->name : "Opening",
                                draw_survey(plan, p->arena, given->at_ft)));
}

static void crossing(picture *p)
{
    const cw_plan *plan = p->plan;
    const cw_xy at = {0, 0};
    const double skew_deg = plan->path.frame.skew_deg;
    const bool road = plan->job->road.present;
    if (road && fabs(skew_deg) > 0.005) {
        const double barrel_deg = plan->path.frame.azimuth_deg;
        const double square_deg = plan->job->survey.azimuth_deg +
                                  (plan->path.frame.inlet == CW_RUN_INLET_RIGHT ? 90 : -90);
        const cw_xy square = heading(p, square_deg), way = heading(p, barrel_deg);
        const double radius = 52 / p->drawing->view.scale_x, reach = radius * 1.25;
        cw_draw_line(p->drawing, CW_LAYER_CENTER, at, cw_xy_plus(at, square, reach));
        const double a = atan2(square.y, square.x) * CW_DEG_PER_RAD,
                     b = atan2(way.y, way.x) * CW_DEG_PER_RAD;
        cw_draw_arc(p->drawing, CW_LAYER_OUTLINE, at, radius, fmin(a, b), fmax(a, b));
        const double middle = (a + b) / 2 * CW_RAD_PER_DEG;
        draw_rows below = rows_below(p);
        below.shift_pt = 40;
        draw_callout(
            p->drawing, (cw_xy){radius * cos(middle), radius * sin(middle)}, below,
            cw_arena_print(p->arena, "Skew %s from square", draw_angle(p->arena, fabs(skew_deg))));
    }
    cw_paper_circle(p->drawing, CW_LAYER_OUTLINE, CW_FILL_SOLID, draw_paper(p->drawing, at), 2.2);
    const char *grid = cw_arena_print(
        p->arena, "N %s  E %s",
        cw_quantity_number(p->arena, plan->path.frame.northing_ft, CW_DIM_COORD_FT, plan->units),
        cw_quantity_number(p->arena, plan->path.frame.easting_ft, CW_DIM_COORD_FT, plan->units));
    draw_rows below = rows_below(p);
    below.shift_pt = -64;
    if (!road) {
        draw_callout(p->drawing, at, below, cw_arena_print(p->arena, "Outlet point\n%s", grid));
        return;
    }
    draw_callout(
        p->drawing, at, below,
        cw_arena_print(p->arena, "Crossing, station %s\n%s%s",
                       draw_value(plan, p->arena, plan->job->road.station_ft, CW_DIM_STATION_FT),
                       grid, fabs(skew_deg) > 0.005 ? "" : "\nSquare to the road, no skew"));
}

static void dimensions(picture *p)
{
    const cw_plan *plan = p->plan;
    cw_drawing *d = p->drawing;
    const double foot_pt = draw_foot_pt(d->text_pt, 1), line_pt = d->view.height_pt - foot_pt;
    const cw_xy from = center_point(p, plan->span.outlet_chain_ft),
                to = center_point(p, plan->span.inlet_chain_ft);
    const double low_pt = fmax(draw_paper(d, from).y, draw_paper(d, to).y);
    const char *whole = cw_arena_print(
        p->arena, "%s plan length, %s", draw_survey(plan, p->arena, plan->plan_length_ft),
        plan->path.bend_count ? "along the center line" : "outlet face to inlet face");
    cw_draw_dimension(d, (cw_dimension){from, to, -(line_pt - 1.2 * d->text_pt - low_pt), whole,
                                        CW_DIMENSION_HORIZONTAL});
    if (plan->job->road.present) {
        const cw_xy points[] = {from, {0, 0}, to};
        const char *const texts[] = {
            cw_arena_print(p->arena, "%s outlet",
                           draw_survey(plan, p->arena, -plan->span.outlet_chain_ft)),
            cw_arena_print(p->arena, "%s inlet",
                           draw_survey(plan, p->arena, plan->span.inlet_chain_ft))};
        const double deepest = fmax(low_pt, draw_paper(d, (cw_xy){0, 0}).y);
        cw_draw_dimension_chain(d,
                                (cw_dimension){.offset_pt = -(line_pt - 3.6 * d->text_pt - deepest),
                                               .kind = CW_DIMENSION_HORIZONTAL},
                                points, 3, texts);
    }
    /* Width square to the barrels, past the inlet. */
    const cw_run_place place = cw_run_path_at(&plan->path, plan->span.inlet_chain_ft);
    const cw_xy right = right_of(heading(p, place.azimuth_deg)), end = from_place(p, place);
    const double past_pt = draw_paper(d, p->high).x - draw_paper(d, end).x + 2.2 * d->text_pt;
    cw_draw_dimension(d, (cw_dimension){cw_xy_plus(end, right, -plan->width_ft / 2),
                                        cw_xy_plus(end, right, plan->width_ft / 2), past_pt,
                                        draw_cast(plan, p->arena, plan->width_ft * CW_IN_PER_FT),
                                        CW_DIMENSION_ALIGNED});
}

static void end_words(picture *p)
{
    const cw_plan *plan = p->plan;
    cw_drawing *d = p->drawing;
    const double left_pt = draw_paper(d, p->low).x, size = d->text_pt,
                 spacing_pt = plan->spacing_ft * d->view.scale_y;
    const cw_xy outlet = draw_paper(d, center_point(p, plan->span.outlet_chain_ft));
    const double number_size = fmin(size, plan->barrel_count > 1 ? spacing_pt * 0.95 : size);
    for (int i = 0; i < plan->barrel_count; i++) {
        const cw_xy at = draw_paper(d, from_place(p, cw_run_line_at(&plan->barrels[i].line, 0)));
        draw_text_at(d, left_pt - 5, at.y,
                     (cw_text_style){.align = CW_ALIGN_RIGHT,
                                     .valign = CW_VALIGN_MIDDLE,
                                     .weight = CW_FONT_BOLD,
                                     .size_pt = number_size,
                                     .halo = true},
                     cw_arena_print(p->arena, "Barrel %d", i + 1));
    }
    const double flow_x = left_pt - 5.2 * size - FLOW_PT / 2 + 2;
    const cw_run_place place = cw_run_path_at(&plan->path, plan->span.outlet_chain_ft);
    const cw_xy way = heading(p, place.azimuth_deg);
    cw_draw_flow_arrow(d, cw_at_paper(d, flow_x, outlet.y),
                       180 + atan2(way.y, way.x) * CW_DEG_PER_RAD);
    const cw_text_style bold = {
        .align = CW_ALIGN_CENTER, .weight = CW_FONT_BOLD, .valign = CW_VALIGN_TOP, .halo = true};
    draw_text_at(d, flow_x, outlet.y + 9, bold, "OUTLET");
    const cw_xy inlet = draw_paper(d, center_point(p, plan->span.inlet_chain_ft));
    draw_text_at(d, fmin(draw_paper(d, p->high).x + 5.4 * size, d->view.width_pt - 22),
                 inlet.y - size / 3, bold, "INLET");
}

/* On a white ground, for the road may pass behind it. */
static void north_arrow(picture *p, double north_deg)
{
    const cw_xy at = {p->drawing->view.width_pt - 32, 36};
    cw_paper_circle(p->drawing, CW_LAYER_GRID, CW_FILL_WHITE, at, 29)->pen.width_pt = 0;
    cw_draw_north_arrow(p->drawing, cw_at_paper(p->drawing, at.x, at.y), north_deg);
}

const cw_drawing *cw_draw_plan_view(const cw_plan *plan, double width_pt, double height_pt,
                                    cw_arena *arena)
{
    picture p = {.plan = plan, .arena = arena};
    measure(&p);
    frame_picture(&p, width_pt, height_pt);
    cw_drawing *d = p.drawing;
    const double azimuth_deg = atan2(p.sine, p.cosine) * CW_DEG_PER_RAD;
    structure(&p);
    road(&p);
    north_arrow(&p, azimuth_deg);
    draw_foot(d, "PLAN",
              cw_arena_print(arena,
                             "Upstream runs to the right, azimuth %s at the crossing. Left and "
                             "right are looking upstream.",
                             draw_angle(arena, plan->azimuth_deg)),
              true);
    dimensions(&p);
    end_words(&p);
    phases(&p);
    bends(&p);
    for (int i = 0; i < plan->job->opening_count; i++)
        opening(&p, &plan->job->openings[i]);
    crossing(&p);
    for (int i = 0; i < plan->barrel_count; i++)
        barrel_words(&p, i);
    if (plan->job->road.present)
        stations(&p);
    cw_drawing_finish(d);
    return d;
}
