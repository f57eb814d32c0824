/* Lift plan: rigging of each mark, setups, and a sheet for each setup with every pick. */
#include "book_internal.h"

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

static const char *percent(const book *b, double value)
{
    return cw_arena_print(b->arena, "%.1f", value);
}

static void caution(book *b)
{
    cw_doc_notice(b->document, "CAUTION",
                  "The crane maker's own chart and the lift director govern every pick. The charts "
                  "of this job are only as good as the "
                  "files that were typed; charts shipped with the program are invented. Sling tags "
                  "and the precaster's lift drawing "
                  "govern the rigging. Nobody stands under a hung piece but the crew that sets it. "
                  "Measure the radius and weigh the "
                  "piece above three quarters of the chart. Stop above 20 mph of wind, for "
                  "lightning within 10 miles, and when "
                  "operator and signal person lose sight or word of each other.");
    for (int k = 0; k < b->plan->job->cranes.choice_count; k++) {
        const cw_job_crane *crane = &b->plan->job->cranes.choices[k];
        if (crane->loads->notice[0])
            cw_doc_notice(b->document, "CHART",
                          cw_arena_print(b->arena, "%s (%s): %s", crane->name, crane->chart,
                                         crane->loads->notice));
    }
}

static void choice_pairs(book *b)
{
    static const char *const banks[] = {"both banks", "left bank", "right bank"};
    static const char *const carries[] = {"two", "three", "all"};
    const cw_job_cranes *c = &b->plan->job->cranes;
    const char *rule = c->rule == 2 ? cw_arena_print(b->arena, "%s from the edge, by an engineer",
                                                     book_value(b, c->fixed_ft, CW_DIM_FT))
                                    : cw_arena_print(b->arena, "%.2f depths from the %s", c->k,
                                                     c->rule == 0 ? "toe" : "edge");
    const cw_pair pairs[] = {
        {"Lift director", c->director[0] ? c->director : "not named"},
        {"Operator", c->operator_name[0] ? c->operator_name : "not named"},
        {"Stands", banks[c->side]},
        {"Set-back of the mats", rule},
        {"Cut below the crane's ground", book_value(b, c->depth_ft, CW_DIM_FT)},
        {"Planned share of a chart", cw_arena_print(b->arena, "%.0f %%", c->share_percent)},
        {"Legs of four that carry", carries[c->carry]},
        {"Tackle", book_value(b, c->tackle_lb, CW_DIM_LB)},
        {"Cheapest setups",
         b->plan->cranes.fault
             ? b->plan->cranes.fault
             : cw_arena_print(b->arena, "%d, %s", b->plan->cranes.setup_count,
                              book_value(b, b->plan->cranes.answer.cents, CW_DIM_MONEY))},
        {"Pieces that no crane reaches", book_count(b, b->plan->cranes.answer.off_count)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 2);
}

static void rigging_table(book *b)
{
    const cw_column columns[] = {
        {"Mark", NULL, CW_ALIGN_LEFT, 1.0},
        {"Pick\nweight", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.0},
        {"Leg", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.0},
        {"Slope", book_unit(b, CW_DIM_DEG), CW_ALIGN_RIGHT, 0.8},
        {"Pull in on\na wall", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.0},
        {"Equal slings:\nrise across", NULL, CW_ALIGN_RIGHT, 1.1},
        {"along", NULL, CW_ALIGN_RIGHT, 0.9},
        {"Shorten downstream\nleft", NULL, CW_ALIGN_RIGHT, 1.3},
        {"right", NULL, CW_ALIGN_RIGHT, 0.9},
        {"upstream\nleft", NULL, CW_ALIGN_RIGHT, 0.9},
        {"right", NULL, CW_ALIGN_RIGHT, 0.9},
    };
    cw_table *table = cw_doc_table(
        b->document, "rigging",
        cw_arena_print(
            b->arena,
            "Four slings to a hook %s above the picks; shortened so that the piece hangs level",
            book_value(b, b->plan->job->lifting.hook_ft, CW_DIM_FT)),
        columns, COUNT_OF(columns));
    table->wide = true;
    for (int t = 0; t < b->plan->type_count; t++) {
        const cw_plan_rigging *rig = &b->plan->cranes.rigging[t];
        const char *cells[COUNT_OF(columns)] = {
            b->plan->types[t].mark, book_number(b, b->plan->types[t].pick_lb, CW_DIM_LB)};
        if (rig->can) {
            cells[2] = book_number(b, rig->made.tension_lb, CW_DIM_LB);
            cells[3] = book_number(b, rig->made.angle_deg, CW_DIM_DEG);
            cells[4] = book_number(b, rig->made.wall_pull_lb, CW_DIM_LB);
            cells[5] = book_value(b, rig->equal.rise_across_in, CW_DIM_IN);
            cells[6] = book_value(b, rig->equal.rise_along_in, CW_DIM_IN);
            for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
                cells[7 + i] = book_value(b, rig->shorten_in[i], CW_DIM_IN);
        } else {
            cells[2] = "outside the picks";
        }
        cw_table_row(table, rig->can ? CW_ROW_PLAIN : CW_ROW_STRONG, cells);
    }
}

static void setup_table(book *b)
{
    const cw_column columns[] = {
        {"Setup", NULL, CW_ALIGN_LEFT, 0.7},
        {"Crane", NULL, CW_ALIGN_LEFT, 1.4},
        {"Boom", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 0.8},
        {"Bank", NULL, CW_ALIGN_LEFT, 0.7},
        {"Along\nthe run", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 1.0},
        {"Centre line\nto slew centre", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 1.2},
        {"Pieces", NULL, CW_ALIGN_RIGHT, 0.7},
        {"First", NULL, CW_ALIGN_LEFT, 0.9},
        {"Last", NULL, CW_ALIGN_LEFT, 0.9},
        {"Worst", "%", CW_ALIGN_RIGHT, 0.8},
        {"Boom\ngap", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 0.8},
        {"Head to\nspare", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 0.8},
        {"One float", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.0},
        {"Sheet", NULL, CW_ALIGN_RIGHT, 0.6},
    };
    const cw_plan_cranes *c = &b->plan->cranes;
    cw_table *table = cw_doc_table(b->document, "setups", "Setups in the order of setting", columns,
                                   COUNT_OF(columns));
    table->wide = true;
    for (int n = 0; n < c->setup_count; n++) {
        const cw_plan_setup *s = &c->setups[n];
        const int first = b->plan->setting[c->answer.order[s->at->first]];
        const int last = b->plan->setting[c->answer.order[s->at->first + s->at->count - 1]];
        const char *cells[] = {
            book_count(b, n + 1),
            s->crane->name,
            book_number(b, s->boom_ft, CW_DIM_FT),
            s->offset_ft < 0.0 ? "left" : "right",
            book_number(b, s->at->at_ft, CW_DIM_FT),
            book_number(b, s->offset_ft < 0.0 ? -s->offset_ft : s->offset_ft, CW_DIM_FT),
            book_count(b, s->at->count),
            b->plan->pieces[first].slot,
            b->plan->pieces[last].slot,
            percent(b, c->picks[s->worst].percent),
            book_number(b, s->boom.gap_ft, CW_DIM_FT),
            book_number(b, s->boom.spare_ft, CW_DIM_FT),
            s->float_lb > 0.0 ? book_number(b, s->float_lb, CW_DIM_LB) : "not known",
            cw_arena_print(b->arena, "{page:setup-%d}", n + 1)};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void pick_table(book *b, int number)
{
    const cw_column columns[] = {
        {"Turn", NULL, CW_ALIGN_RIGHT, 0.6},
        {"Piece", NULL, CW_ALIGN_LEFT, 1.0},
        {"Mark", NULL, CW_ALIGN_LEFT, 1.0},
        {"On the head", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.1},
        {"Radius", book_unit(b, CW_DIM_FT), CW_ALIGN_RIGHT, 0.9},
        {"Rated", book_unit(b, CW_DIM_LB), CW_ALIGN_RIGHT, 1.1},
        {"Chart", "%", CW_ALIGN_RIGHT, 0.8},
        {"Set", NULL, CW_ALIGN_LEFT, 0.8},
    };
    const cw_plan_cranes *c = &b->plan->cranes;
    const cw_plan_setup *s = &c->setups[number];
    cw_table *table =
        cw_doc_table(b->document, NULL, cw_arena_print(b->arena, "Picks of setup %d", number + 1),
                     columns, COUNT_OF(columns));
    for (int i = s->at->first; i < s->at->first + s->at->count; i++) {
        const int index = b->plan->setting[c->answer.order[i]];
        const cw_plan_pick *pick = &c->picks[index];
        const char *cells[] = {book_count(b, b->plan->pieces[index].turn),
                               b->plan->pieces[index].slot,
                               b->plan->types[b->plan->pieces[index].type].mark,
                               book_number(b, pick->gross_lb, CW_DIM_LB),
                               book_number(b, pick->radius_ft, CW_DIM_FT),
                               book_number(b, pick->rated_lb, CW_DIM_LB),
                               percent(b, pick->percent),
                               ""};
        cw_table_row(table, index == s->worst ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
    }
}

void book_lift(book *b)
{
    const cw_plan_cranes *c = &b->plan->cranes;
    if (!c->present)
        return;
    cw_doc_part(b->document, "lift", "Lift plan");
    caution(b);
    choice_pairs(b);
    rigging_table(b);
    if (c->setup_count > 0)
        setup_table(b);
    const char *const boxes[] = {"Lift director", "Crane operator", "Date"};
    cw_doc_sign(b->document, boxes, COUNT_OF(boxes));
    for (int n = 0; n < c->setup_count; n++) {
        const cw_plan_setup *s = &c->setups[n];
        const char *title =
            cw_arena_print(b->arena, "Lift plan, setup %d: %s", n + 1, s->crane->name);
        cw_doc_part(b->document, cw_arena_print(b->arena, "setup-%d", n + 1), title);
        const double high_pt = b->room.height_pt / 2.0 - 30.0;
        cw_doc_figure(b->document, NULL,
                      cw_draw_lift_plan(b->plan, n, b->room.column_pt, high_pt, b->arena), NULL);
        cw_doc_figure(
            b->document, NULL,
            cw_draw_lift_elevation(b->plan, n, b->room.column_pt, high_pt * 0.8, b->arena), NULL);
        pick_table(b, n);
    }
}
