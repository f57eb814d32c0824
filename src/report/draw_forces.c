/* Moment, shear and thrust along the box: three figures of one half-symmetric envelope, drawn on both sides. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

enum { FIGURES = 3, LINE_MAX = 2 * CW_STRUCT_CURVE_MAX + 4 };

typedef enum what { MOMENT, SHEAR, THRUST } what;

typedef struct forces {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    const cw_struct_diagram *diagram;
    what what;
    double left_pt, base_pt, pt_per_ft; /* paper place of the foot of the left wall's centre line */
    double pt_per_unit;
} forces;

/* Two sides of a member: what is plotted inward and what outward, both not below 0. */
typedef struct pair {
    double in, out;
} pair;

static pair value_at(const forces *f, const cw_struct_curve *curve, int i)
{
    const cw_struct_span *span = &curve->span[i];
    switch (f->what) {
    case MOMENT: // on the side that is pulled
        return (pair){fmax(0.0, span->most_ft_lb), fmax(0.0, -span->least_ft_lb)};
    case SHEAR:
        return (pair){0.0, span->shear_lb};
    default:
        return (pair){0.0, fmax(0.0, curve->thrust_most_lb[i])};
    }
}

static double greatest(const forces *f, const cw_struct_curve *curve)
{
    double most = 0.0;
    for (int i = 0; i < curve->count; i++) {
        const pair value = value_at(f, curve, i);
        most = fmax(most, fmax(value.in, value.out));
    }
    return most;
}

/* One half of a member in the frame's own places: x from the left wall, y from the floor, and the way inward. */
typedef enum member { TOP, WALL, FLOOR } member;

static cw_xy frame_at(const forces *f, member m, bool right, double at_ft)
{
    const double x = m == WALL ? 0.0 : at_ft, y = m == TOP ? f->diagram->height_ft : m == WALL ? at_ft : 0.0;
    return (cw_xy){right ? f->diagram->width_ft - x : x, y};
}

static cw_xy inward(member m, bool right)
{
    if (m == WALL)
        return (cw_xy){right ? -1.0 : 1.0, 0.0};
    return (cw_xy){0.0, m == TOP ? -1.0 : 1.0};
}

static cw_xy on_paper(const forces *f, cw_xy frame, cw_xy way, double offset_pt)
{
    return (cw_xy){f->left_pt + frame.x * f->pt_per_ft + way.x * offset_pt,
                   f->base_pt - frame.y * f->pt_per_ft - way.y * offset_pt};
}

static void draw_side(const forces *f, member m, const cw_struct_curve *curve, bool right, bool in)
{
    cw_xy line[LINE_MAX];
    int count = 0;
    const cw_xy way = inward(m, right);
    for (int i = 0; i < curve->count; i++)
        line[count++] = on_paper(f, frame_at(f, m, right, curve->at_ft[i]), way, 0.0);
    for (int i = curve->count - 1; i >= 0; i--) {
        const pair value = value_at(f, curve, i);
        const double offset_pt = (in ? value.in : -value.out) * f->pt_per_unit;
        line[count++] = on_paper(f, frame_at(f, m, right, curve->at_ft[i]), way, offset_pt);
    }
    if (count <= 2)
        return;
    // No edge where both halves meet.
    cw_paper_path(f->drawing, CW_LAYER_OUTLINE, in ? CW_FILL_SHADE : CW_FILL_CONCRETE, line, count, true)->pen.width_pt = 0.0;
    line[count] = line[0];
    const int first = m == WALL ? curve->count - 1 : curve->count;
    cw_paper_path(f->drawing, CW_LAYER_OUTLINE, CW_FILL_NONE, &line[first], count + 1 - first, false);
}

static const char *value_words(const forces *f, double value, int load)
{
    const cw_dim dim = f->what == MOMENT ? CW_DIM_FT_LB : CW_DIM_LB_PER_FT;
    return cw_arena_print(f->arena, "%s\n%s", draw_value(f->plan, f->arena, value, dim), cw_struct_case_words(load));
}

/* The greatest of a member on one side, with the loads that make it. */
static void draw_peak(const forces *f, member m, const cw_struct_curve *curve, bool in)
{
    double most = 0.0;
    int at = -1;
    for (int i = 0; i < curve->count; i++) {
        const pair value = value_at(f, curve, i);
        if ((in ? value.in : value.out) > most) {
            most = in ? value.in : value.out;
            at = i;
        }
    }
    if (at < 0 || most * f->pt_per_unit < 3.0)
        return;
    const cw_struct_span *span = &curve->span[at];
    const int load = f->what == THRUST  ? curve->thrust_case[at]
                     : f->what == SHEAR ? span->shear_case
                     : in               ? span->most_case
                                        : span->least_case;
    const bool right = m != WALL;
    const cw_xy tip = on_paper(f, frame_at(f, m, right, curve->at_ft[at]), inward(m, right), (in ? most : -most) * f->pt_per_unit);
    const cw_label_side side = m == WALL ? (in ? CW_SIDE_RIGHT_OF : CW_SIDE_LEFT_OF)
                               : (m == TOP) == in ? CW_SIDE_BELOW
                                                  : CW_SIDE_ABOVE;
    cw_draw_label(f->drawing, (cw_label){.at = cw_at_paper(f->drawing, tip.x, tip.y),
                                         .text = value_words(f, most, load),
                                         .side = side,
                                         .leader = true,
                                         .must = true});
}

static void draw_frame(const forces *f)
{
    const cw_struct_diagram *diagram = f->diagram;
    const cw_xy corners[4] = {on_paper(f, (cw_xy){0, 0}, (cw_xy){0, 0}, 0),
                              on_paper(f, (cw_xy){diagram->width_ft, 0}, (cw_xy){0, 0}, 0),
                              on_paper(f, (cw_xy){diagram->width_ft, diagram->height_ft}, (cw_xy){0, 0}, 0),
                              on_paper(f, (cw_xy){0, diagram->height_ft}, (cw_xy){0, 0}, 0)};
    cw_paper_path(f->drawing, CW_LAYER_CUT, CW_FILL_NONE, corners, 4, true);
}

static void draw_figure(forces *f)
{
    const cw_struct_curve *curves[] = {&f->diagram->top, &f->diagram->wall, &f->diagram->floor};
    for (int m = TOP; m <= FLOOR; m++)
        for (int right = 0; right < 2; right++)
            for (int in = 0; in < (f->what == MOMENT ? 2 : 1); in++)
                draw_side(f, (member)m, curves[m], right == 1, f->what == MOMENT ? in == 1 : false);
    draw_frame(f);
    for (int m = TOP; m <= FLOOR; m++) {
        // The corner's moment is that of the wall's foot: it is written once.
        if (f->what != MOMENT || m != FLOOR)
            draw_peak(f, (member)m, curves[m], false);
        if (f->what == MOMENT)
            draw_peak(f, (member)m, curves[m], true);
    }
}

const cw_drawing *cw_draw_forces(const cw_plan *plan, int cover, int ground, double width_pt, double height_pt, cw_arena *arena)
{
    static const char *const titles[FIGURES] = {"Moment, on the pulled side", "Shear", "Thrust"};
    static const char *const grounds[] = {"STRAIGHT-LINE REACTION", "SPRINGS UNDER THE FLOOR"};
    const cw_plan_strength *s = &plan->strength;
    const double text = draw_lettering_pt(width_pt), foot_pt = draw_foot_pt(text, 1);
    const cw_view view = {width_pt, height_pt, 1, 1, 0, height_pt, CW_VIEW_FT};
    forces f = {.plan = plan, .arena = arena, .drawing = draw_new(arena, view, text), .diagram = s->diagrams[cover][ground]};
    const double wide_pt = width_pt / FIGURES, tall_pt = height_pt - foot_pt - 1.6 * text;
    // The box takes the middle of its field, the plots what is left around it.
    const double frame_wide_pt = wide_pt * 0.56, frame_tall_pt = tall_pt * 0.5;
    f.pt_per_ft = fmin(frame_wide_pt / f.diagram->width_ft, frame_tall_pt / f.diagram->height_ft);
    const double plot_pt = fmin((tall_pt - f.pt_per_ft * f.diagram->height_ft) / 2.0 - 2.6 * text, 0.45 * f.pt_per_ft * f.diagram->height_ft);
    for (int k = 0; k < FIGURES; k++) {
        f.what = (what)k;
        f.left_pt = k * wide_pt + (wide_pt - f.pt_per_ft * f.diagram->width_ft) / 2.0;
        f.base_pt = 1.6 * text + (tall_pt + f.pt_per_ft * f.diagram->height_ft) / 2.0;
        const double most = fmax(greatest(&f, &f.diagram->top), fmax(greatest(&f, &f.diagram->wall), greatest(&f, &f.diagram->floor)));
        f.pt_per_unit = most > 0.0 ? plot_pt / most : 0.0;
        draw_text_at(f.drawing, k * wide_pt + wide_pt / 2.0, text, (cw_text_style){.weight = CW_FONT_BOLD, .align = CW_ALIGN_CENTER}, titles[k]);
        draw_figure(&f);
    }
    draw_foot(f.drawing,
              cw_arena_print(arena, "FORCES AT COVER %s, FACTORED: %s", draw_value(plan, arena, s->cover_ft[cover], CW_DIM_FT), grounds[ground]),
              "In a foot of run, on the centre lines; greatest over all cases and positions. Each figure has its own scale.", false);
    cw_drawing_finish(f.drawing);
    return f.drawing;
}
