/* The setting book: cover, ledger, run, and what a plan without a division still can say. */
#include "book_internal.h"

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

const char *book_value(const book *b, double value, cw_dim dim)
{
    return cw_quantity_format(b->arena, value, dim, b->plan->units);
}

const char *book_number(const book *b, double value, cw_dim dim)
{
    return cw_quantity_number(b->arena, value, dim, b->plan->units);
}

const char *book_unit(const book *b, cw_dim dim)
{
    const char *unit = cw_dim_unit_in(dim, b->plan->units);
    return unit[0] ? unit : NULL;
}

const char *book_count(const book *b, long value)
{
    return cw_arena_print(b->arena, "%ld", value);
}

static const char *stated(const char *text)
{
    return text && text[0] ? text : NULL;
}

static const char *or_words(const char *text, const char *words)
{
    return stated(text) ? text : words;
}

/* What the benchmark is, with its elevation; NULL when neither is stated. */
static const char *benchmark_words(const cw_job *job, cw_arena *arena)
{
    if (!job->survey.has_benchmark)
        return stated(job->survey.benchmark);
    const char *level = cw_quantity_format(arena, job->survey.benchmark_ft, CW_DIM_ELEV_FT, (cw_unit_system)job->head.units);
    return stated(job->survey.benchmark) ? cw_arena_print(arena, "%s, %s", job->survey.benchmark, level) : level;
}

/* ---- cover ---- */

static const char *form_words(const cw_plan *plan)
{
    switch (plan->job->box.form) {
    case CW_FORM_LID:
        return "two-piece box: U-shaped base and flat lid";
    case CW_FORM_DOUBLE_U:
        return "two-piece box: U-shaped base and inverted U hood";
    default:
        return "one-piece rings";
    }
}

static void cover_pairs(book *b)
{
    const cw_plan *plan = b->plan;
    const cw_job *job = plan->job;
    const char *size = cw_arena_print(b->arena, "%s x %s, %d barrel%s", book_value(b, job->box.span_in, CW_DIM_IN),
                                      book_value(b, job->box.rise_in, CW_DIM_IN), plan->barrel_count,
                                      plan->barrel_count > 1 ? "s" : "");
    const char *length = plan->laid ? cw_arena_print(b->arena, "%s plan, %s along the slope",
                                                     book_value(b, plan->plan_length_ft, CW_DIM_FT),
                                                     book_value(b, plan->slope_length_ft, CW_DIM_FT))
                                    : "no division into pieces was found";
    const cw_pair pairs[] = {
        {"Job", job->head.name},
        {"Number", or_words(job->head.number, "not stated")},
        {"Owner", or_words(job->head.owner, "not stated")},
        {"Form", form_words(plan)},
        {"Clear opening", size},
        {"Length as laid", length},
        {"Road station", job->road.present ? book_value(b, job->road.station_ft, CW_DIM_STATION_FT) : "no road given"},
        {"Datum", or_words(job->survey.datum, "not stated")},
        {"Benchmark", or_words(benchmark_words(job, b->arena), "not stated")},
        {"Foot", job->survey.foot == CW_FOOT_US_SURVEY ? "US survey foot" : "international foot"},
        {"Specification profile", job->rows_name},
        {"Prepared by", or_words(job->head.prepared_by, "not stated")},
        {"Checked by", or_words(job->head.checked_by, "not stated")},
        {"Date", or_words(job->head.date, "not stated")},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 2);
}

static void cautions(book *b)
{
    cw_doc_notice(b->document, "CAUTION",
                  "This work can kill. Entry into the excavation needs the competent person's release for the shift "
                  "(29 CFR 1926 Subpart P). Nobody stands under a hung piece. The crane maker's own chart and the lift "
                  "director rule every pick. Structural limits are for review by a licensed engineer and do not replace "
                  "the precaster's stamped design and drawings. Local codes and the contract govern over this book.");
}

static void revisions(book *b)
{
    static const cw_column columns[] = {
        {"Rev.", NULL, CW_ALIGN_LEFT, 1.0}, {"Date", NULL, CW_ALIGN_LEFT, 2.0},
        {"What changed", NULL, CW_ALIGN_LEFT, 5.0}, {"By", NULL, CW_ALIGN_LEFT, 1.5},
        {"Accepted", NULL, CW_ALIGN_LEFT, 1.5},
    };
    cw_table *table = cw_doc_form(b->document, "Revisions", columns, COUNT_OF(columns), 0, 0.0);
    const cw_job_head *head = &b->plan->job->head;
    const char *first[] = {or_words(head->revision, "0"), or_words(head->date, ""), "This issue",
                           or_words(head->prepared_by, ""), ""};
    const char *blank[] = {"", "", "", "", ""};
    cw_table_row(table, CW_ROW_PLAIN, first)->height_pt = 18.0;
    for (int i = 0; i < 2; i++)
        cw_table_row(table, CW_ROW_PLAIN, blank)->height_pt = 18.0;
}

void book_cover(book *b)
{
    cw_doc_part(b->document, "cover", "Setting book");
    cw_doc_paragraph(b->document, "Installation plan for submittal, and the book that goes to the trench.");
    cover_pairs(b);
    if (stated(b->plan->job->head.notes))
        cw_doc_paragraph(b->document, b->plan->job->head.notes);
    cautions(b);
    cw_doc_seal(b->document, b->room.column_pt * 0.45, 116.0,
                "Space for the seal and signature of the engineer who takes responsibility for the installation plan");
    revisions(b);
    cw_doc_sheet_list(b->document);
}

/* ---- ledger ---- */

static void ledger_rows(book *b, cw_table *table, cw_verdict verdict)
{
    const cw_plan *plan = b->plan;
    for (int i = 0; i < plan->checks.count; i++) {
        const cw_check *check = &plan->checks.items[i];
        if (check->verdict != verdict)
            continue;
        cw_text what = cw_text_on(b->arena);
        cw_text_add(&what, check->what);
        if (check->where[0])
            cw_text_print(&what, "\n%s", check->where);
        cw_text by = cw_text_on(b->arena);
        cw_text_add(&by, check->clause);
        if (check->verdict != CW_HOLDS && check->mend[0])
            cw_text_print(&by, "\nTo mend: %s", check->mend);
        if (check->working)
            cw_text_print(&by, "\nWorking: page {page:working %s}", check->working);
        const char *cells[] = {
            cw_verdict_word(check->verdict),
            cw_text_string(&what),
            check->has_numbers ? book_value(b, check->demand, check->dim) : "",
            check->has_numbers ? cw_arena_print(b->arena, "%s %s", check->at_least ? "\u2265" : "\u2264",
                                                book_value(b, check->capacity, check->dim)) : "",
            check->has_numbers && check->ratio > 0.0 ? cw_decimal(b->arena, check->ratio, 2) : "",
            cw_text_string(&by),
        };
        cw_table_row(table, verdict == CW_HOLDS ? CW_ROW_PLAIN : CW_ROW_STRONG, cells);
    }
}

void book_ledger(book *b)
{
    static const cw_column columns[] = {
        {"Verdict", NULL, CW_ALIGN_LEFT, 1.3}, {"Check", NULL, CW_ALIGN_LEFT, 3.6},
        {"Found", NULL, CW_ALIGN_RIGHT, 1.4},  {"Limit", NULL, CW_ALIGN_RIGHT, 1.5},
        {"Used", NULL, CW_ALIGN_RIGHT, 0.8},   {"By what, and what would mend it", NULL, CW_ALIGN_LEFT, 4.6},
    };
    int counts[3] = {0};
    for (int i = 0; i < b->plan->checks.count; i++)
        counts[b->plan->checks.items[i].verdict]++;
    cw_doc_part(b->document, "ledger", "Ledger");
    cw_doc_paragraph(b->document, cw_arena_print(b->arena, "%d checks hold, %d fail, %d are undecided. A row is used in full at 1.00. "
                                                 "Undecided rows need a person's figure before work goes on.",
                                                 counts[CW_HOLDS], counts[CW_FAILS], counts[CW_UNDECIDED]));
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    ledger_rows(b, table, CW_FAILS);
    ledger_rows(b, table, CW_UNDECIDED);
    ledger_rows(b, table, CW_HOLDS);
}

/* ---- the run ---- */

static const char *end_words(book *b, const cw_plan_end *end, double chain_ft)
{
    cw_text text = cw_text_on(b->arena);
    cw_text_print(&text, "%s from the road centre line, invert %s", book_value(b, chain_ft, CW_DIM_FT),
                  book_value(b, end->laid.invert_ft, CW_DIM_ELEV_FT));
    if (end->has_fill)
        cw_text_print(&text, ", fill %s above the invert, box top %s", book_value(b, end->laid.height_ft, CW_DIM_FT),
                      book_value(b, end->box_top_ft, CW_DIM_FT));
    if (end->has_headwall)
        cw_text_print(&text, "; headwall %s long, %s above the invert", book_value(b, end->headwall.length_ft, CW_DIM_FT),
                      book_value(b, end->wall_top_ft, CW_DIM_FT));
    return cw_text_string(&text);
}

static void run_pairs(book *b)
{
    const cw_plan *plan = b->plan;
    const cw_pair pairs[] = {
        {"Upstream azimuth", book_value(b, plan->azimuth_deg, CW_DIM_DEG)},
        {"Grade of the invert", book_value(b, plan->job->run.slope, CW_DIM_SLOPE)},
        {"Slope length per foot of plan", cw_decimal(b->arena, plan->slope_factor, 6)},
        {"Wanted length, plan",
         book_value(b, plan->wanted_span.inlet_chain_ft - plan->wanted_span.outlet_chain_ft, CW_DIM_FT)},
        {"Laid length, plan", book_value(b, plan->plan_length_ft, CW_DIM_FT)},
        {"Laid length, slope", book_value(b, plan->slope_length_ft, CW_DIM_FT)},
        {"Pay length, all barrels", book_value(b, plan->pay_length_ft, CW_DIM_FT)},
        {"Outside width of one barrel", book_value(b, plan->outside_width_in, CW_DIM_IN)},
        {"Outlet", end_words(b, &plan->outlet, -plan->span.outlet_chain_ft)},
        {"Inlet", end_words(b, &plan->inlet, plan->span.inlet_chain_ft)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
}

void book_run(book *b)
{
    const double wide_pt = b->room.full_pt, tall_pt = b->room.height_pt;
    const double sheet_pt = wide_pt > tall_pt ? tall_pt * 0.86 : tall_pt * 0.62;
    cw_doc_part(b->document, "plan-view", "Plan");
    cw_doc_figure(b->document, NULL, cw_draw_plan_view(b->plan, wide_pt, sheet_pt, b->arena), NULL);
    cw_doc_heading(b->document, NULL, "The run");
    run_pairs(b);
    for (int i = 0; i < b->plan->barrel_count; i++) {
        cw_doc_part(b->document, cw_arena_print(b->arena, "profile-%d", i + 1),
                    cw_arena_print(b->arena, "Long profile, barrel %d", i + 1));
        cw_doc_figure(b->document, NULL, cw_draw_long_profile(b->plan, i, wide_pt, sheet_pt, b->arena), NULL);
    }
    cw_doc_part(b->document, "section", "Typical section");
    cw_doc_figure(b->document, NULL, cw_draw_typical_section(b->plan, wide_pt, wide_pt > tall_pt ? sheet_pt : tall_pt * 0.55, b->arena), NULL);
    cw_doc_part(b->document, "joint-detail", "Joint detail");
    cw_doc_figure(b->document, NULL, cw_draw_joint_detail(b->plan, wide_pt, wide_pt > tall_pt ? sheet_pt : tall_pt * 0.5, b->arena),
                  NULL);
}

/* ---- the whole ---- */

const cw_document *cw_book(const cw_plan *plan, cw_paper paper, cw_arena *arena)
{
    const cw_job *job = plan->job;
    const cw_verdict worst = cw_checks_worst(&plan->checks);
    const char *bench = benchmark_words(job, arena);
    const char *datum = stated(job->survey.datum);
    const cw_title_block title = {
        .job = job->head.name,
        .number = job->head.number,
        .place = job->road.present
                     ? cw_arena_print(arena, "Road station %s",
                                      cw_quantity_format(arena, job->road.station_ft, CW_DIM_STATION_FT, plan->units))
                     : NULL,
        .set = "Setting book",
        .revision = job->head.revision,
        .date = job->head.date,
        .prepared = job->head.prepared_by,
        .checked = job->head.checked_by,
        .datum = datum && bench ? cw_arena_print(arena, "%s; %s", datum, bench) : datum,
        .units = plan->units == CW_SI ? "metres" : job->survey.foot == CW_FOOT_US_SURVEY ? "US survey feet" : "international feet",
        .status = worst == CW_FAILS       ? "NOT FOR SETTING: a check fails"
                  : worst == CW_UNDECIDED ? "FOR REVIEW: a check is undecided"
                                          : "FOR REVIEW"};
    book b = {plan, arena, cw_document_new(arena, paper, title), cw_paper_room(paper)};
    book_cover(&b);
    book_ledger(&b);
    if (plan->laid) {
        book_run(&b);
        book_ends(&b);
        book_obstacles(&b);
        book_water(&b);
        book_trench(&b);
        book_strength(&b);
        book_layout(&b);
        book_pieces(&b);
        if (plan->order) {
            book_order(&b);
            book_stops(&b);
        }
        book_site_water(&b);
        book_stages(&b);
        book_lift(&b);
        book_schedule(&b);
        book_quantities(&b);
        book_cut_sheet(&b);
        book_grade(&b);
        book_backfill(&b);
        book_logs(&b);
        book_ground_logs(&b);
    }
    book_workings(&b);
    book_assumptions(&b);
    return b.document;
}
