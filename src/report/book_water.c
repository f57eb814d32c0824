/* Water: headwater, profiles, outlet, and the stream and groundwater during the work. */
#include "book_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

static const char *use_word(const cw_plan_flow *flow)
{
    static const char *const words[] = {"design", "check", "work"};
    return words[flow->given->use];
}

static const char *by_words(const book *b, const cw_plan_flow *flow)
{
    static const char *const words[] = {"given", "rational method", "unit peak method"};
    const char *period = flow->given->has_period
                             ? cw_arena_print(b->arena, ", return period %s", cw_decimal(b->arena, flow->given->period_years, 0))
                             : "";
    return cw_arena_print(b->arena, "%s%s", words[flow->given->by], period);
}

static void flow_table(book *b)
{
    static const cw_column columns[] = {
        {"Flow", NULL, CW_ALIGN_LEFT, 2.4},       {"For", NULL, CW_ALIGN_LEFT, 0.9},
        {"Amount", NULL, CW_ALIGN_RIGHT, 1.3},    {"Pool", NULL, CW_ALIGN_RIGHT, 1.2},
        {"HW/D", NULL, CW_ALIGN_RIGHT, 0.8},      {"Tailwater", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Outlet\nvelocity", NULL, CW_ALIGN_RIGHT, 1.3}, {"Over the\nroad", NULL, CW_ALIGN_RIGHT, 1.2},
        {"What governs, and how the barrels run", NULL, CW_ALIGN_LEFT, 3.6},
    };
    const cw_plan_water *water = &b->plan->water;
    cw_table *table = cw_doc_table(b->document, NULL, "Flows of the job", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < water->flow_count; i++) {
        const cw_plan_flow *flow = &water->flows[i];
        const char *name = cw_arena_print(b->arena, "%s\n%s", flow->given->name, by_words(b, flow));
        if (flow->answer.status != CW_WATER_OK) {
            const char *cells[] = {name, use_word(flow), book_value(b, flow->flow_cfs, CW_DIM_CFS), "", "", "", "", "",
                                   cw_water_status_words(flow->answer.status)};
            cw_table_row(table, CW_ROW_STRONG, cells);
            continue;
        }
        cw_text how = cw_text_on(b->arena);
        for (int k = 0; k < water->site.barrel_count; k++) {
            if (k > 0 && flow->profiles[k].regime == flow->profiles[0].regime &&
                flow->answer.heads[k].control == flow->answer.heads[0].control)
                continue;
            if (water->site.barrel_count > 1 && k > 0)
                cw_text_print(&how, "\nbarrel %d: ", k + 1);
            cw_text_print(&how, "%s; %s", cw_water_control_words(flow->answer.heads[k].control),
                          cw_water_regime_words(flow->profiles[k].regime));
        }
        const char *cells[] = {name,
                               use_word(flow),
                               book_value(b, flow->flow_cfs, CW_DIM_CFS),
                               book_value(b, flow->answer.pool_ft, CW_DIM_ELEV_FT),
                               cw_decimal(b->arena, flow->ratio, 2),
                               flow->answer.tail.has_level ? book_value(b, flow->answer.tail.level_ft, CW_DIM_ELEV_FT) : "free",
                               book_value(b, flow->velocity_fps, CW_DIM_FPS),
                               flow->answer.over.flow_cfs > 0.0 ? book_value(b, flow->answer.over.flow_cfs, CW_DIM_CFS) : "none",
                               cw_text_string(&how)};
        cw_table_row(table, flow->given->use == CW_FLOW_DESIGN ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
    }
}

static void over_notice(book *b)
{
    const cw_plan_water *water = &b->plan->water;
    for (int i = 0; i < water->flow_count; i++) {
        const cw_plan_flow *flow = &water->flows[i];
        if (flow->answer.status == CW_WATER_OK && flow->answer.over.flow_cfs > 0.0)
            cw_doc_notice(b->document, "CAUTION",
                          cw_arena_print(b->arena, "At %s water stands %s deep on the road and runs at %s. Water on a road drowns people "
                                                   "in cars: close the road before it comes.",
                                         flow->given->name, book_value(b, flow->answer.over.depth_ft, CW_DIM_FT),
                                         book_value(b, flow->answer.over.velocity_fps, CW_DIM_FPS)));
    }
}

static void curve_table(book *b)
{
    static const cw_column columns[] = {
        {"Total flow", NULL, CW_ALIGN_RIGHT, 1.2}, {"Pool", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Through the barrels", NULL, CW_ALIGN_RIGHT, 1.5}, {"Over the road", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Tailwater", NULL, CW_ALIGN_RIGHT, 1.2}, {"Governed by", NULL, CW_ALIGN_LEFT, 2.4},
    };
    enum { STEP = (CW_PLAN_CURVE_POINTS - 1) / 15 };
    const cw_plan_water *water = &b->plan->water;
    cw_table *table = cw_doc_table(b->document, NULL, "Performance", columns, COUNT_OF(columns));
    for (int i = 0; i < water->curve_count; i += STEP) {
        const cw_water_answer *point = &water->curve[i];
        const char *cells[] = {book_value(b, point->flow_cfs, CW_DIM_CFS),
                               book_value(b, point->pool_ft, CW_DIM_ELEV_FT),
                               book_value(b, point->flow_cfs - point->over.flow_cfs, CW_DIM_CFS),
                               point->over.flow_cfs > 0.0 ? book_value(b, point->over.flow_cfs, CW_DIM_CFS) : "none",
                               point->tail.has_level ? book_value(b, point->tail.level_ft, CW_DIM_ELEV_FT) : "free",
                               point->flow_cfs > 0.0 ? cw_water_control_words(point->heads[0].control) : ""};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static int worst_apron(const book *b)
{
    int worst = -1;
    for (int i = 0; i < b->plan->water.flow_count; i++) {
        const cw_plan_flow *flow = &b->plan->water.flows[i];
        if (flow->has_apron && flow->given->use != CW_FLOW_WORK &&
            (worst < 0 || flow->apron.stone_in > b->plan->water.flows[worst].apron.stone_in))
            worst = i;
    }
    return worst;
}

static void apron_part(book *b, double tall_pt)
{
    const int worst = worst_apron(b);
    if (worst < 0)
        return;
    const cw_plan_flow *flow = &b->plan->water.flows[worst];
    const cw_apron *apron = &flow->apron;
    cw_doc_part(b->document, "apron", "Outlet apron");
    cw_doc_figure(b->document, NULL, cw_draw_apron(b->plan, worst, b->room.full_pt, tall_pt, b->arena), NULL);
    const cw_pair pairs[] = {
        {"Flow", cw_arena_print(b->arena, "%s, %s", flow->given->name, book_value(b, flow->flow_cfs, CW_DIM_CFS))},
        {"Stone by the pipe formula", book_value(b, apron->pipe_in, CW_DIM_IN)},
        {"Stone by the box formula", book_value(b, apron->box_in, CW_DIM_IN)},
        {"Stone of the class taken, D50", apron->rock_class > 0 ? book_value(b, apron->class_stone_in, CW_DIM_IN) : "no class is large enough"},
        {"Length, depth", cw_arena_print(b->arena, "%s, %s", book_value(b, apron->length_ft, CW_DIM_FT), book_value(b, apron->depth_ft, CW_DIM_FT))},
        {"Verdict", cw_verdict_word((cw_verdict)apron->verdict)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
}

static void surface_parts(book *b, double tall_pt)
{
    const cw_plan_water *water = &b->plan->water;
    bool open = false;
    for (int i = 0; i < water->flow_count; i++) {
        if (water->flows[i].answer.status != CW_WATER_OK)
            continue;
        if (!open)
            cw_doc_part(b->document, "surface", "Water surface in the barrels");
        open = true;
        cw_doc_heading(b->document, NULL,
                       cw_arena_print(b->arena, "%s, %s", water->flows[i].given->name,
                                      book_value(b, water->flows[i].flow_cfs, CW_DIM_CFS)));
        for (int k = 0; k < water->site.barrel_count; k++) {
            // Barrels that carry the same flow have the same surface.
            if (k > 0 && fabs(water->flows[i].answer.barrel_cfs[k] - water->flows[i].answer.barrel_cfs[k - 1]) < 0.01)
                continue;
            cw_doc_figure(b->document, NULL, cw_draw_water_profile(b->plan, i, k, b->room.full_pt, tall_pt, b->arena), NULL);
        }
    }
}

void book_water(book *b)
{
    const cw_plan_water *water = &b->plan->water;
    if (!water->present)
        return;
    const bool wide = b->room.full_pt > b->room.height_pt;
    const double tall_pt = b->room.height_pt * (wide ? 0.72 : 0.46);
    cw_doc_part(b->document, "water", "Water");
    if (water->status != CW_WATER_OK) {
        cw_doc_notice(b->document, "UNDECIDED", cw_water_status_words(water->status));
        return;
    }
    over_notice(b);
    cw_doc_paragraph(b->document,
                     "Both controls are computed at every flow and the larger governs. The pool is the energy head, taken as still. "
                     "Sediment and debris move the answer more than the last digit: look at bed and blocked in the job file.");
    flow_table(b);
    cw_doc_figure(b->document, "performance", cw_draw_performance(b->plan, b->room.full_pt, tall_pt, b->arena), NULL);
    curve_table(b);
    surface_parts(b, b->room.height_pt * (wide ? 0.72 : 0.40));
    apron_part(b, tall_pt);
}

/* ---- during the work ---- */

static void way_pairs(book *b)
{
    const cw_plan_site_water *site = &b->plan->site_water;
    cw_pair pairs[12];
    int count = 0;
    if (site->work_cfs > 0.0)
        pairs[count++] = (cw_pair){"Work flow", book_value(b, site->work_cfs, CW_DIM_CFS)};
    if (site->has_stage)
        pairs[count++] = (cw_pair){"Stream at the work flow", cw_arena_print(b->arena, "%s: %s", book_value(b, site->stage_ft, CW_DIM_ELEV_FT), site->stage_how)};
    if (site->has_bypass)
        pairs[count++] = (cw_pair){"Bypass", cw_arena_print(b->arena, "%d pipe of %s, %s at full head, velocity %s", b->plan->job->site_water.diversion.pipes,
                                                            book_value(b, site->bypass.size_in, CW_DIM_IN), book_value(b, site->bypass.capacity_cfs, CW_DIM_CFS),
                                                            book_value(b, site->bypass.velocity_fps, CW_DIM_FPS))};
    if (site->has_flume)
        pairs[count++] = (cw_pair){"Flume", cw_arena_print(b->arena, "water %s, wall %s, velocity %s", book_value(b, site->flume.depth_ft, CW_DIM_FT),
                                                           book_value(b, site->flume.height_ft, CW_DIM_FT), book_value(b, site->flume.velocity_fps, CW_DIM_FPS))};
    if (site->has_pump)
        pairs[count++] = (cw_pair){"Pumps", cw_arena_print(b->arena, "%d on duty, %d standby; head %s, %s each", site->pump.duty, site->pump.standby,
                                                           book_value(b, site->pump.head_ft, CW_DIM_FT), book_value(b, site->pump.each_hp, CW_DIM_HP))};
    if (site->has_cofferdam) {
        pairs[count++] = (cw_pair){"Cofferdam crest needed", cw_arena_print(b->arena, "%s, %s high", book_value(b, site->cofferdam.crest_ft, CW_DIM_ELEV_FT),
                                                                           book_value(b, site->cofferdam.height_ft, CW_DIM_FT))};
        pairs[count++] = (cw_pair){"Clear the work at", book_value(b, site->cofferdam.warn_ft, CW_DIM_ELEV_FT)};
        pairs[count++] = (cw_pair){"Work is lost at", book_value(b, site->cofferdam.stop_ft, CW_DIM_ELEV_FT)};
        if (site->cofferdam.has_warn_flow)
            pairs[count++] = (cw_pair){"Flow through the finished barrels at that level", book_value(b, site->cofferdam.warn_cfs, CW_DIM_CFS)};
    }
    if (site->has_barrel_path)
        pairs[count++] = (cw_pair){"First barrel alone passes, pool at the crest", book_value(b, site->barrel_path.value, CW_DIM_CFS)};
    if (count > 0)
        cw_doc_pairs(b->document, pairs, count, 1);
}

static const char *float_words(const book *b, const cw_flotation *flotation)
{
    if (flotation->first == CW_FLOAT_NEVER)
        return "at no level";
    const double at_ft = b->plan->site_water.underside_ft + flotation->level_ft;
    return cw_arena_print(b->arena, "%s at %s; safe to %s", flotation->first == CW_FLOAT_FILLS ? "water comes over the wall" : "floats",
                          book_value(b, at_ft, CW_DIM_ELEV_FT),
                          book_value(b, b->plan->site_water.underside_ft + flotation->safe_ft, CW_DIM_ELEV_FT));
}

static void ground_pairs(book *b)
{
    const cw_plan_site_water *site = &b->plan->site_water;
    cw_pair pairs[10];
    int count = 0;
    pairs[count++] = (cw_pair){"Lowest underside of a floor", book_value(b, site->underside_ft, CW_DIM_ELEV_FT)};
    pairs[count++] = (cw_pair){"Empty barrel with its top, no fill", float_words(b, &site->closed)};
    if (b->plan->job->box.form != CW_FORM_RING)
        pairs[count++] = (cw_pair){"Base without its top", float_words(b, &site->open)};
    if (site->has_groundwater)
        pairs[count++] = (cw_pair){"Groundwater to be drawn down", book_value(b, site->drawdown_ft, CW_DIM_FT)};
    if (site->has_inflow) {
        pairs[count++] = (cw_pair){"Into the trench", cw_arena_print(b->arena, "%s; from %s to %s, since nobody knows permeability better", book_value(b, site->inflow.flow_cfs, CW_DIM_CFS),
                                                                    book_value(b, site->inflow.low_cfs, CW_DIM_CFS), book_value(b, site->inflow.high_cfs, CW_DIM_CFS))};
        pairs[count++] = (cw_pair){"While the cone forms", book_value(b, site->inflow.start_cfs, CW_DIM_CFS)};
        pairs[count++] = (cw_pair){"Reach of the drawdown", book_value(b, site->inflow.reach_ft, CW_DIM_FT)};
    }
    if (site->has_draw_down)
        pairs[count++] = (cw_pair){"Time to draw down", book_value(b, site->draw_down.hours, CW_DIM_HOUR)};
    cw_doc_pairs(b->document, pairs, count, 1);
}

static void stage_log(book *b)
{
    static const cw_column columns[] = {
        {"Date and time", NULL, CW_ALIGN_LEFT, 1.6}, {"Stream level", NULL, CW_ALIGN_LEFT, 1.2},
        {"Groundwater", NULL, CW_ALIGN_LEFT, 1.2},   {"Pump hours", NULL, CW_ALIGN_LEFT, 1.0},
        {"Forecast", NULL, CW_ALIGN_LEFT, 1.8},      {"Go on, or clear", NULL, CW_ALIGN_LEFT, 1.4},
        {"By", NULL, CW_ALIGN_LEFT, 1.0},
    };
    cw_doc_form(b->document, "Stage log, at least at the start of every shift", columns, COUNT_OF(columns),
                b->room.full_pt > b->room.height_pt ? 9 : 12, 20.0)->wide = true;
}

void book_site_water(book *b)
{
    if (!b->plan->site_water.present)
        return;
    cw_doc_part(b->document, "site-water", "Water during the work");
    cw_doc_notice(b->document, "CAUTION",
                  "Water in an excavation undermines its slopes. No entry where water stands or seeps without protection and the "
                  "competent person's release (29 CFR 1926 Subpart P). Floating is computed for plain weight: the pumps do not stop before "
                  "the stop \"held down\" is signed.");
    cw_doc_heading(b->document, NULL, "The stream");
    way_pairs(b);
    cw_doc_heading(b->document, NULL, "Floating and groundwater");
    ground_pairs(b);
    stage_log(b);
}
