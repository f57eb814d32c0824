/* Division into pieces, piece list, piece sheets, setting order. */
#include "book_internal.h"

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

/* "16'-0\" x 7, 8'-0\" x 1" of one cut list. */
static void add_multiset(const book *b, cw_text *text, const cw_layout_cut *cut, const cw_layout_item *items,
                         int item_count)
{
    bool first = true;
    for (int item = 0; item < item_count; item++) {
        int count = 0;
        for (int i = 0; i < cut->count; i++)
            count += cut->items[i] == item;
        if (count == 0)
            continue;
        cw_text_print(text, "%s%s \u00d7 %d", first ? "" : ", ",
                      book_value(b, (double)items[item].length_16 / CW_SIXTEENTHS_PER_IN, CW_DIM_IN), count);
        first = false;
    }
}

static bool same_cut(const cw_layout_barrel_answer *a, const cw_layout_barrel_answer *c)
{
    if (a->base.count != c->base.count || a->top.count != c->top.count || a->gap_16 != c->gap_16)
        return false;
    for (int i = 0; i < a->base.count; i++)
        if (a->base.items[i] != c->base.items[i])
            return false;
    for (int i = 0; i < a->top.count; i++)
        if (a->top.items[i] != c->top.items[i])
            return false;
    return true;
}

static const char *solution_words(const book *b, const cw_layout_solution *solution)
{
    const cw_layout_problem *problem = &b->plan->problem;
    cw_text text = cw_text_on(b->arena);
    for (int i = 0; i < problem->barrel_count; i++) {
        const cw_layout_barrel_answer *answer = &solution->barrels[i];
        const cw_layout_barrel *barrel = &problem->barrels[i];
        if (i > 0 && same_cut(answer, &solution->barrels[i - 1])) {
            cw_text_print(&text, "\nBarrel %d: as barrel %d", i + 1, i);
            continue;
        }
        cw_text_print(&text, "%sBarrel %d: ", i ? "\n" : "", i + 1);
        add_multiset(b, &text, &answer->base, barrel->base.items, barrel->base.item_count);
        if (problem->rows == CW_ROWS_STAGGERED) {
            cw_text_add(&text, "; tops ");
            add_multiset(b, &text, &answer->top, barrel->top.items, barrel->top.item_count);
        }
        cw_text_print(&text, "; gap %s", book_value(b, answer->gap_16 / CW_SIXTEENTHS_PER_IN, CW_DIM_IN));
    }
    return cw_text_string(&text);
}

static void add_solution(book *b, cw_table *table, const char *rank, const cw_layout_solution *solution)
{
    int pieces = 0;
    for (int i = 0; i < b->plan->barrel_count; i++)
        pieces += solution->barrels[i].base.count + solution->barrels[i].top.count;
    const char *cells[] = {rank, solution_words(b, solution), book_count(b, pieces), book_count(b, solution->setup_count),
                           book_value(b, solution->cost, CW_DIM_MONEY)};
    cw_table_row(table, rank[0] == '1' ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
}

void book_layout(book *b)
{
    static const cw_column columns[] = {
        {"Rank", NULL, CW_ALIGN_LEFT, 1.3},   {"Pieces of each barrel", NULL, CW_ALIGN_LEFT, 5.0},
        {"Pieces", NULL, CW_ALIGN_RIGHT, 1.0}, {"Set-ups", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Stated cost", NULL, CW_ALIGN_RIGHT, 1.6},
    };
    static const char *const rank_words[CW_LAYOUT_KEPT] = {"1 chosen", "2", "3"};
    const cw_layout_answer *layout = &b->plan->layout;
    const double tall_pt = b->room.height_pt * (b->room.full_pt > b->room.height_pt ? 0.72 : 0.42);
    cw_doc_part(b->document, "layout", "Division into pieces");
    cw_doc_figure(b->document, NULL, cw_draw_layout(b->plan, b->room.full_pt, tall_pt, b->arena), NULL);
    cw_doc_paragraph(
        b->document,
        cw_arena_print(b->arena,
                       "The division is the least of the stated cost over all divisions that meet the constraints (%s gap: %s). All "
                       "barrels are divided together, so that they share moulds. Stated cost counts picks, joints, mould set-ups "
                       "and what the job adds; it ranks divisions and is no price.",
                       b->plan->problem.gap_mode == CW_GAP_GRID ? "gauge" : "continuous",
                       b->plan->problem.gap_mode == CW_GAP_GRID ? "one width on the 1/16 in. grid for each barrel"
                                                                : "any width in the band"));
    cw_table *table = cw_doc_table(b->document, NULL, "The three best different divisions", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < layout->kept && i < CW_LAYOUT_KEPT; i++)
        add_solution(b, table, rank_words[i], &layout->best[i]);
    if (layout->tie_count == 0) {
        cw_doc_paragraph(b->document, "No other division costs as little as the one chosen.");
        return;
    }
    table = cw_doc_table(b->document, NULL, "Divisions that cost the same as the one chosen", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < layout->tie_count; i++)
        add_solution(b, table, "tied", &layout->ties[i]);
    if (layout->more_ties)
        cw_doc_paragraph(b->document, "There are more ties than are listed.");
}

/* ---- marks ---- */

static const char *cg_words(const book *b, const cw_plan_type *type)
{
    return cw_arena_print(b->arena, "%s right, %s upstream, %s up",
                          book_number(b, type->weight.x_ft, CW_DIM_FT), book_number(b, type->weight.y_ft, CW_DIM_FT),
                          book_number(b, type->weight.z_ft, CW_DIM_FT));
}

static void piece_list(book *b)
{
    static const cw_column columns[] = {
        {"Mark", NULL, CW_ALIGN_LEFT, 1.1},        {"Piece", NULL, CW_ALIGN_LEFT, 3.4},
        {"Count", NULL, CW_ALIGN_RIGHT, 1.0},      {"Laying length", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Weight", NULL, CW_ALIGN_RIGHT, 1.3},     {"Pick", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Centre of gravity", NULL, CW_ALIGN_LEFT, 3.2}, {"Page", NULL, CW_ALIGN_RIGHT, 0.8},
    };
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < b->plan->type_count; i++) {
        const cw_plan_type *type = &b->plan->types[i];
        const char *cells[] = {type->mark,
                               type->name,
                               book_count(b, type->count),
                               book_value(b, type->shape.length_in, CW_DIM_IN),
                               book_value(b, type->weight.weight_lb, CW_DIM_LB),
                               book_value(b, type->pick_lb, CW_DIM_LB),
                               cg_words(b, type),
                               cw_arena_print(b->arena, "{page:piece %s}", type->mark)};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static const char *slots_of(const book *b, int type)
{
    cw_text text = cw_text_on(b->arena);
    for (int i = 0; i < b->plan->piece_count; i++)
        if (b->plan->pieces[i].type == type)
            cw_text_print(&text, "%s%s", text.length ? " " : "", b->plan->pieces[i].slot);
    return cw_text_string(&text);
}

void book_pieces(book *b)
{
    cw_doc_part(b->document, "pieces", "Piece list");
    cw_doc_paragraph(b->document,
                     "Pieces of one mark are alike and may change places. Centre of gravity from the axis, the downstream face "
                     "and the underside of the piece as it hangs. Pick = weight times the pick factor; slings, beam and block "
                     "are not in it. Weigh the first of each mark: the scaled weight rules. Tongue and groove are drawn as "
                     "assumed; the precaster's drawing governs.");
    piece_list(b);
    const bool wide = b->room.full_pt > b->room.height_pt;
    for (int i = 0; i < b->plan->type_count; i++) {
        const cw_plan_type *type = &b->plan->types[i];
        if (i == 0)
            cw_doc_part(b->document, "piece-sheets", "Piece sheets");
        else
            cw_doc_page_break(b->document);
        cw_doc_heading(b->document, cw_arena_print(b->arena, "piece %s", type->mark),
                       cw_arena_print(b->arena, "Piece %s", type->mark));
        cw_doc_figure(b->document, NULL,
                      cw_draw_piece(b->plan, i, b->room.full_pt, b->room.height_pt * (wide ? 0.84 : 0.66), b->arena), NULL);
        const cw_pair pairs[] = {
            {"Piece", type->name},
            {"Count", book_count(b, type->count)},
            {"Volume", book_value(b, type->weight.volume_cuft, CW_DIM_CUFT)},
            {"Weight", book_value(b, type->weight.weight_lb, CW_DIM_LB)},
            {"Pick", book_value(b, type->pick_lb, CW_DIM_LB)},
            {"Working", cw_arena_print(b->arena, "page {page:working %s}", b->plan->workings[type->working].title)},
            {"Places", slots_of(b, i)},
        };
        cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
    }
}

/* ---- order ---- */

static void setting_table(book *b)
{
    static const cw_column columns[] = {
        {"Turn", NULL, CW_ALIGN_RIGHT, 0.8},  {"Place", NULL, CW_ALIGN_LEFT, 1.2},
        {"Mark", NULL, CW_ALIGN_LEFT, 1.2},   {"Load", NULL, CW_ALIGN_RIGHT, 0.8},
        {"Weight", NULL, CW_ALIGN_RIGHT, 1.4}, {"Pick", NULL, CW_ALIGN_RIGHT, 1.4},
        {"Invert,\noutlet side", NULL, CW_ALIGN_RIGHT, 1.5}, {"Invert,\ninlet side", NULL, CW_ALIGN_RIGHT, 1.5},
        {"Taken\nin", NULL, CW_ALIGN_LEFT, 1.1},  {"Sealed", NULL, CW_ALIGN_LEFT, 1.2},
        {"Set", NULL, CW_ALIGN_LEFT, 1.0},      {"Joint\nchecked", NULL, CW_ALIGN_LEFT, 1.4},
    };
    const cw_plan *plan = b->plan;
    cw_table *table = cw_doc_table(b->document, "setting-order", NULL, columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i < plan->piece_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[plan->setting[i]];
        const cw_plan_type *type = &plan->types[piece->type];
        const char *cells[] = {book_count(b, piece->turn),
                               piece->slot,
                               type->mark,
                               book_count(b, piece->load),
                               book_value(b, type->weight.weight_lb, CW_DIM_LB),
                               book_value(b, type->pick_lb, CW_DIM_LB),
                               book_number(b, piece->invert_start_ft, CW_DIM_ELEV_FT),
                               book_number(b, piece->invert_end_ft, CW_DIM_ELEV_FT),
                               "", "", "", ""};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void storyboard(book *b)
{
    const bool wide = b->room.full_pt > b->room.height_pt;
    const int columns = wide ? 5 : 3;
    const double width_pt = b->room.full_pt / columns - 20.0;
    cw_figure *frames = CW_TAKE(b->arena, cw_figure, b->plan->piece_count);
    for (int i = 0; i < b->plan->piece_count; i++)
        frames[i] = (cw_figure){cw_draw_story_frame(b->plan, i, width_pt, width_pt * 0.56, b->arena), NULL, NULL};
    cw_doc_figures(b->document, frames, b->plan->piece_count, columns);
}

static void rules(book *b)
{
    static const cw_column columns[] = {
        {"Rule", NULL, CW_ALIGN_LEFT, 2.0}, {"What it says", NULL, CW_ALIGN_LEFT, 5.0}, {"Source", NULL, CW_ALIGN_LEFT, 2.4},
    };
    bool used[CW_RULES] = {false};
    for (int i = 0; i < b->plan->order->need_count; i++)
        used[b->plan->order->needs[i].rule] = true;
    cw_doc_heading(b->document, "rules", "Rules of the order");
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < CW_RULES; i++) {
        const cw_rule_row *rule = cw_rule_at((cw_rule)i);
        const char *cells[] = {rule->id, rule->sentence, rule->source};
        if (used[i])
            cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

void book_order(book *b)
{
    const cw_plan *plan = b->plan;
    cw_doc_part(b->document, "order", "Setting order");
    cw_doc_paragraph(b->document,
                     cw_arena_print(b->arena,
                                    "From the outlet upslope. %d pieces in %d truck loads when nothing is staged. Tongues of bases go "
                                    "down into the groove of the base already set; grooves of tops go down over the tongue of the top "
                                    "already set. The hook is not let go before the joint is checked.",
                                    plan->piece_count, plan->trucks.loads));
    setting_table(b);
    cw_doc_part(b->document, "storyboard", "Setting, step by step");
    storyboard(b);
    cw_doc_part(b->document, "steps", "What comes between the picks");
    static const cw_column columns[] = {
        {"Step, and what must hold", NULL, CW_ALIGN_LEFT, 5.6}, {"Stop", NULL, CW_ALIGN_LEFT, 0.8},
        {"Released by", NULL, CW_ALIGN_LEFT, 1.5}, {"Date and time", NULL, CW_ALIGN_LEFT, 1.4},
    };
    cw_table *table = cw_doc_table(b->document, NULL, "Steps that belong to no single piece, in order", columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i < plan->step_count; i++) {
        const cw_step *step = &plan->order->steps[plan->steps[i].step];
        if (plan->steps[i].piece >= 0)
            continue;
        const char *limit = plan->steps[i].limit;
        const char *what = limit[0] ? cw_arena_print(b->arena, "%s\n%s", plan->steps[i].text, limit) : plan->steps[i].text;
        const char *cells[] = {what, step->stop == CW_STOP_NONE ? "" : cw_stop_word(step->stop), "", ""};
        cw_table_row(table, step->stop == CW_STOP_HOLD ? CW_ROW_SHADED : CW_ROW_PLAIN, cells);
    }
    rules(b);
}

/* What must hold at a stop: of the first step that has it, and of the last piece, whose words hold for all.  Wall tops have a level of
 * their own at every piece. */
static const char *limit_at(const cw_plan *plan, int number)
{
    const char *limit = "";
    for (int i = 0; i < plan->step_count; i++) {
        const cw_step *step = &plan->order->steps[plan->steps[i].step];
        if (step->point != number || !plan->steps[i].limit[0] || step->kind == CW_STEP_WALLS_LEVELLED)
            continue;
        limit = plan->steps[i].limit;
        if (plan->steps[i].piece < 0)
            return limit;
    }
    return limit;
}

void book_stops(book *b)
{
    static const cw_column columns[] = {
        {"No.", NULL, CW_ALIGN_RIGHT, 0.6},   {"Before work goes on", NULL, CW_ALIGN_LEFT, 5.0},
        {"Kind", NULL, CW_ALIGN_LEFT, 1.0},   {"Owner there", NULL, CW_ALIGN_LEFT, 1.0},
        {"Signed", NULL, CW_ALIGN_LEFT, 2.0}, {"Date and time", NULL, CW_ALIGN_LEFT, 1.8},
    };
    static const char *const signers[] = {"Superintendent", "Inspector", "Owner's representative"};
    cw_doc_part(b->document, "stops", "Hold points");
    cw_doc_paragraph(b->document, "Hold: work stops until it is signed. Witness: the inspector is called and may look. Record: it is "
                                  "written down. Stops that come back with every piece are signed on the setting-order sheets, "
                                  "page {page:order}.");
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int number = 1; cw_stop_at(number); number++) {
        const cw_stop_row *stop = cw_stop_at(number);
        const char *cells[] = {book_count(b, number), stop->words,
                               cw_arena_print(b->arena, "%s%s", cw_stop_word(stop->stop), stop->each_shift ? ", each shift" : ""),
                               stop->owner ? "yes" : "", "", ""};
        const char *limit = limit_at(b->plan, number);
        if (limit[0])
            cells[1] = cw_arena_print(b->arena, "%s\n%s", stop->words, limit);
        cw_table_row(table, stop->stop == CW_STOP_HOLD ? CW_ROW_SHADED : CW_ROW_PLAIN, cells)->height_pt = 24.0;
    }
    cw_doc_sign(b->document, signers, COUNT_OF(signers));
}
