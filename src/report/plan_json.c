/* The plan as JSON, version CW_PLAN_FORMAT; docs/plan-schema.json describes it and a test checks it. */
#include "plan_json_internal.h"

#include "cw/units.h"

static void add_place(cw_json *json, const cw_run_place *place)
{
    cw_json_number(json, "northing_ft", place->northing_ft);
    cw_json_number(json, "easting_ft", place->easting_ft);
    cw_json_number(json, "azimuth_deg", place->azimuth_deg);
}

static void add_end(cw_json *json, const char *key, const cw_plan *plan, const cw_plan_end *end, double chain_ft)
{
    cw_json_open(json, key);
    cw_json_number(json, "from_road_ft", chain_ft);
    cw_json_flag(json, "from_template", end->from_template);
    cw_json_number(json, "invert_ft", end->laid.invert_ft);
    if (end->has_fill) {
        cw_json_number(json, "fill_above_invert_ft", end->laid.height_ft);
        cw_json_number(json, "box_top_above_invert_ft", end->box_top_ft);
    }
    if (end->has_headwall) {
        cw_json_number(json, "headwall_above_invert_ft", end->wall_top_ft);
        cw_json_number(json, "headwall_length_ft", end->headwall.length_ft);
        cw_json_number(json, "headwall_concrete_cy", end->headwall.concrete_cy);
    }
    cw_plan_json_end_works(json, plan, &end->works);
    cw_json_close(json);
}

static void add_run(cw_json *json, const cw_plan *plan)
{
    cw_json_open(json, "run");
    cw_json_number(json, "azimuth_deg", plan->azimuth_deg);
    cw_json_number(json, "outside_width_in", plan->outside_width_in);
    cw_json_number(json, "width_ft", plan->width_ft);
    cw_json_number(json, "spacing_ft", plan->spacing_ft);
    cw_json_number(json, "slope", plan->job->run.slope);
    cw_json_number(json, "slope_factor", plan->slope_factor);
    cw_json_number(json, "wanted_plan_length_ft", plan->wanted_span.inlet_chain_ft - plan->wanted_span.outlet_chain_ft);
    if (plan->laid) {
        cw_json_number(json, "plan_length_ft", plan->plan_length_ft);
        cw_json_number(json, "slope_length_ft", plan->slope_length_ft);
        cw_json_number(json, "pay_length_ft", plan->pay_length_ft);
        add_end(json, "outlet", plan, &plan->outlet, plan->span.outlet_chain_ft);
        add_end(json, "inlet", plan, &plan->inlet, plan->span.inlet_chain_ft);
    }
    cw_json_close(json);
}

static void add_joints(cw_json *json, const cw_plan_barrel *barrel)
{
    cw_json_open_list(json, "joints");
    for (int i = 0; i <= barrel->base_count; i++) {
        const cw_plan_joint *joint = &barrel->joints[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", joint->name);
        cw_json_number(json, "slope_in", joint->at.slope_in);
        cw_json_number(json, "plan_ft", joint->at.at_ft);
        cw_json_number(json, "gap_in", joint->gap_in);
        cw_json_number(json, "invert_ft", joint->at.invert_ft);
        cw_json_number(json, "top_ft", joint->top_ft);
        cw_json_number(json, "seat_ft", joint->seat_ft);
        cw_json_number(json, "underside_ft", joint->underside_ft);
        cw_json_number(json, "bedding_ft", joint->bedding_ft);
        cw_json_number(json, "subgrade_ft", joint->subgrade_ft);
        add_place(json, &joint->at.place);
        if (joint->has_surface) {
            cw_json_number(json, "surface_ft", joint->surface_ft);
            cw_json_number(json, "cover_ft", joint->cover_ft);
        }
        if (joint->has_ground)
            cw_json_number(json, "ground_ft", joint->ground_ft);
        cw_json_flag(json, "mitred", joint->mitred);
        cw_json_flag(json, "phase_line", joint->phase_line);
        cw_json_number(json, "camber_ft", joint->camber_ft);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_cover(cw_json *json, const char *key, const cw_run_cover *cover)
{
    cw_json_open(json, key);
    cw_json_number(json, "plan_ft", cover->at_ft);
    cw_json_number(json, "surface_ft", cover->surface_ft);
    cw_json_number(json, "top_ft", cover->top_ft);
    cw_json_number(json, "cover_ft", cover->cover_ft);
    cw_json_close(json);
}

static void add_barrels(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "barrels");
    for (int b = 0; b < plan->barrel_count; b++) {
        const cw_plan_barrel *barrel = &plan->barrels[b];
        cw_json_open(json, NULL);
        cw_json_count(json, "barrel", b + 1);
        cw_json_number(json, "offset_ft", barrel->offset_ft);
        cw_json_number(json, "wanted_in", barrel->wanted_in);
        cw_json_number(json, "laid_in", barrel->laid_in);
        cw_json_number(json, "gap_in", barrel->gap_in);
        cw_json_number(json, "drop_in", barrel->grade.drop_in);
        if (barrel->has_cover) {
            add_cover(json, "least_cover", &barrel->least_cover);
            add_cover(json, "most_cover", &barrel->most_cover);
        }
        add_joints(json, barrel);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_types(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "marks");
    for (int i = 0; i < plan->type_count; i++) {
        const cw_plan_type *type = &plan->types[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "mark", type->mark);
        cw_json_text(json, "name", type->name);
        cw_json_text(json, "row", type->row == CW_ORDER_BASE ? "base" : "top");
        cw_json_count(json, "count", type->count);
        cw_json_number(json, "length_in", type->shape.length_in);
        cw_json_number(json, "longest_in", type->weight.longest_in);
        cw_json_number(json, "shortest_in", type->weight.shortest_in);
        cw_json_number(json, "overall_length_in", type->weight.overall_length_in);
        cw_json_number(json, "width_in", type->weight.width_in);
        cw_json_number(json, "height_in", type->weight.height_in);
        cw_json_number(json, "volume_cuft", type->weight.volume_cuft);
        cw_json_number(json, "weight_lb", type->weight.weight_lb);
        cw_json_number(json, "pick_lb", type->pick_lb);
        cw_json_open(json, "centre_of_gravity_ft");
        cw_json_number(json, "x", type->weight.x_ft);
        cw_json_number(json, "y", type->weight.y_ft);
        cw_json_number(json, "z", type->weight.z_ft);
        cw_json_close(json);
        cw_json_open_list(json, "pick_points_ft");
        for (int p = 0; p < 4; p++) {
            cw_json_open(json, NULL);
            cw_json_number(json, "x", type->picks.x_ft[p]);
            cw_json_number(json, "y", type->picks.y_ft[p]);
            cw_json_number(json, "z", type->picks.z_ft);
            cw_json_close(json);
        }
        cw_json_close_list(json);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_pieces(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "pieces");
    for (int i = 0; i < plan->piece_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "slot", piece->slot);
        cw_json_text(json, "mark", plan->types[piece->type].mark);
        cw_json_count(json, "barrel", piece->barrel + 1);
        cw_json_count(json, "index", piece->index + 1);
        cw_json_text(json, "row", piece->row == CW_ORDER_BASE ? "base" : "top");
        cw_json_number(json, "start_in", piece->start_in);
        cw_json_number(json, "length_in", piece->length_in);
        cw_json_number(json, "start_plan_ft", piece->start_ft);
        cw_json_number(json, "end_plan_ft", piece->end_ft);
        cw_json_number(json, "invert_start_ft", piece->invert_start_ft);
        cw_json_number(json, "invert_end_ft", piece->invert_end_ft);
        cw_json_count(json, "turn", piece->turn);
        cw_json_count(json, "load", piece->load);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_solution(cw_json *json, const cw_plan *plan, const cw_layout_solution *solution)
{
    cw_json_open(json, NULL);
    cw_json_number(json, "cost_cents", solution->cost);
    cw_json_count(json, "setups", solution->setup_count);
    cw_json_open_list(json, "barrels");
    for (int b = 0; b < plan->barrel_count; b++) {
        const cw_layout_barrel_answer *answer = &solution->barrels[b];
        const cw_layout_cut *cuts[2] = {&answer->base, &answer->top};
        const cw_layout_item *items[2] = {plan->problem.barrels[b].base.items, plan->problem.barrels[b].top.items};
        cw_json_open(json, NULL);
        cw_json_number(json, "gap_in", answer->gap_16 / CW_SIXTEENTHS_PER_IN);
        for (int row = 0; row < 2; row++) {
            cw_json_open_list(json, row == 0 ? "base_lengths_in" : "top_lengths_in");
            for (int i = 0; i < cuts[row]->count; i++)
                cw_json_number(json, NULL, (double)items[row][cuts[row]->items[i]].length_16 / CW_SIXTEENTHS_PER_IN);
            cw_json_close_list(json);
        }
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

static void add_layout(cw_json *json, const cw_plan *plan)
{
    const cw_layout_answer *layout = &plan->layout;
    cw_json_open(json, "layout");
    cw_json_flag(json, "found", layout->found);
    cw_json_text(json, "gap_mode", plan->problem.gap_mode == CW_GAP_GRID ? "gauge" : "continuous");
    cw_json_open_list(json, "best");
    for (int i = 0; i < layout->kept; i++)
        add_solution(json, plan, &layout->best[i]);
    cw_json_close_list(json);
    cw_json_open_list(json, "ties");
    for (int i = 0; i < layout->tie_count; i++)
        add_solution(json, plan, &layout->ties[i]);
    cw_json_close_list(json);
    cw_json_flag(json, "more_ties", layout->more_ties);
    cw_json_close(json);
}

static void add_order(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "order");
    for (int i = 0; i < plan->step_count; i++) {
        const cw_plan_step *step = &plan->steps[i];
        const cw_step *kind = &plan->order->steps[step->step];
        cw_json_open(json, NULL);
        cw_json_text(json, "id", step->id);
        cw_json_text(json, "text", step->text);
        if (step->limit[0])
            cw_json_text(json, "limit", step->limit);
        cw_json_text(json, "stop", cw_stop_word(kind->stop));
        cw_json_count(json, "phase", kind->phase + 1);
        cw_json_text(json, "slot", step->piece >= 0 ? plan->pieces[step->piece].slot : NULL);
        cw_json_open_list(json, "needs");
        for (int n = plan->order->need_from[step->step]; n < plan->order->need_from[step->step + 1]; n++) {
            const cw_need *need = &plan->order->needs[n];
            cw_json_open(json, NULL);
            cw_json_text(json, "id", plan->steps[plan->order->rank[need->step]].id);
            cw_json_text(json, "rule", cw_rule_at(need->rule)->id);
            cw_json_close(json);
        }
        cw_json_close_list(json);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_quantities(cw_json *json, const cw_plan *plan)
{
    static const char *const words[] = {"none", "up", "nearest"};
    cw_json_open_list(json, "quantities");
    for (int i = 0; i < plan->quantity_count; i++) {
        const cw_plan_quantity *quantity = &plan->quantities[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "group", quantity->group);
        cw_json_text(json, "item", quantity->item);
        cw_json_number(json, "exact", quantity->exact);
        cw_json_number(json, "printed", quantity->printed);
        cw_json_text(json, "unit", cw_dim_unit(quantity->dim));
        cw_json_text(json, "rounding", words[quantity->rounding]);
        cw_json_text(json, "rule", quantity->rule);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_ledger(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "ledger");
    for (int i = 0; i < plan->checks.count; i++) {
        const cw_check *check = &plan->checks.items[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "id", check->id);
        cw_json_text(json, "what", check->what);
        cw_json_text(json, "where", check->where);
        cw_json_text(json, "verdict", cw_verdict_word(check->verdict));
        if (check->has_numbers) {
            cw_json_number(json, "demand", check->demand);
            cw_json_number(json, "capacity", check->capacity);
            cw_json_text(json, "unit", cw_dim_unit(check->dim));
            cw_json_text(json, "sense", check->at_least ? "at least" : "at most");
            cw_json_number(json, "ratio", check->ratio);
        }
        cw_json_text(json, "clause", check->clause);
        cw_json_text(json, "rests_on", check->rests_on);
        cw_json_text(json, "mend", check->mend);
        cw_json_text(json, "working", check->working);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_assumptions(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "assumptions");
    for (int i = 0; i < plan->job->assumption_count; i++) {
        const cw_assumption *assumption = &plan->job->assumptions[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "path", assumption->path);
        cw_json_text(json, "value", assumption->value);
        cw_json_text(json, "meaning", assumption->meaning);
        cw_json_text(json, "source", assumption->source);
        cw_json_text(json, "status", cw_status_words(assumption->status));
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_workings(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "workings");
    for (int i = 0; i < plan->working_count; i++) {
        cw_json_open(json, NULL);
        cw_json_text(json, "title", plan->workings[i].title);
        cw_json_open_list(json, "steps");
        for (int k = 0; k < plan->workings[i].count; k++) {
            const cw_working_step *step = &plan->workings[i].steps[k];
            cw_json_open(json, NULL);
            cw_json_text(json, "symbol", step->symbol);
            cw_json_text(json, "expression", step->expression);
            cw_json_number(json, "value", step->value);
            cw_json_text(json, "unit", cw_dim_unit(step->dim));
            cw_json_text(json, "source", step->source);
            cw_json_close(json);
        }
        cw_json_close_list(json);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

const char *cw_plan_json(const cw_plan *plan, cw_arena *arena)
{
    cw_json json = cw_json_on(arena);
    cw_json_open(&json, NULL);
    cw_json_count(&json, "plan_format", CW_PLAN_FORMAT);
    cw_json_open(&json, "job");
    cw_json_text(&json, "name", plan->job->head.name);
    cw_json_text(&json, "number", plan->job->head.number);
    cw_json_text(&json, "revision", plan->job->head.revision);
    cw_json_text(&json, "profile", plan->job->rows_name);
    cw_json_close(&json);
    cw_json_flag(&json, "laid", plan->laid);
    cw_json_text(&json, "verdict", cw_verdict_word(cw_checks_worst(&plan->checks)));
    add_run(&json, plan);
    if (plan->laid) {
        add_layout(&json, plan);
        add_barrels(&json, plan);
        add_types(&json, plan);
        add_pieces(&json, plan);
        add_order(&json, plan);
        cw_plan_json_water(&json, plan);
        cw_plan_json_site_water(&json, plan);
        cw_plan_json_trench(&json, plan);
        cw_plan_json_grade(&json, plan);
        cw_plan_json_closing(&json, plan);
        cw_plan_json_strength(&json, plan);
        cw_plan_json_conflicts(&json, plan);
        cw_plan_json_schedule(&json, plan, arena);
        cw_plan_json_cranes(&json, plan);
        add_quantities(&json, plan);
    }
    add_ledger(&json, plan);
    add_assumptions(&json, plan);
    add_workings(&json, plan);
    cw_json_close(&json);
    return cw_json_string(&json);
}
