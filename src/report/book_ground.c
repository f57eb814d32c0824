/* The ground: sections of the cut, the grade sheet, tape and stakes, sealant, backfill, and their
 * blank logs. */
#include "book_internal.h"

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

enum { CUT_ROWS_MAX = 60 };

static bool is_wide(const book *b)
{
    return b->room.full_pt > b->room.height_pt;
}

/* ---- the cut ---- */

static const char *class_word(int soil)
{
    static const char *const words[] = {"rock", "A", "B", "C"};
    return words[soil];
}

static const char *protection_words(const book *b, const cw_plan_cut *cut)
{
    static const char *const ways[] = {"sloped", "benched", "shield, sloped above"};
    if (cut->section.verdict == CW_UNDECIDED)
        return "engineer designs";
    if (cut->section.protection == CW_PROTECTION_WATCH)
        return "shallow: watched";
    if (cut->section.protection == CW_PROTECTION_NONE)
        return "rock: none";
    return cut->refused ? "sloped, no benches" : ways[b->plan->job->trench.protection];
}

static const char *ground_words(const book *b, const cw_plan_cut *cut)
{
    cw_text text = cw_text_on(b->arena);
    for (int i = cut->layer_count - 1; i >= 0; i--)
        cw_text_print(&text, "%s%s: %s", i + 1 < cut->layer_count ? "; " : "", cut->layers[i].name,
                      class_word(cut->layers[i].soil.soil));
    return cw_text_string(&text);
}

static void cut_table(book *b)
{
    static const cw_column columns[] = {
        {"From\noutlet", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Why here", NULL, CW_ALIGN_LEFT, 1.6},
        {"Ground", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Bottom\nof cut", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Deepest\nedge", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Open at\nthe top", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Area", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Steepest\nslope", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Ground, from the surface down", NULL, CW_ALIGN_LEFT, 2.2},
        {"Sides", NULL, CW_ALIGN_LEFT, 1.5},
    };
    const cw_plan_trench *trench = &b->plan->trench;
    cw_table *table =
        cw_doc_table(b->document, "cuts", "Sections along the run", columns, COUNT_OF(columns));
    table->wide = true;
    // A long ground profile is thinned on paper; the sections that are drawn always stand.
    const int step = trench->cut_count / CUT_ROWS_MAX + 1;
    for (int i = 0; i < trench->cut_count; i++) {
        const cw_plan_cut *cut = &trench->cuts[i];
        if (i % step != 0 && !cut->drawn && i + 1 < trench->cut_count)
            continue;
        const bool dug = cut->dug;
        const char *cells[] = {book_number(b, cut->at_ft, CW_DIM_FT),
                               cut->why,
                               book_number(b, cut->ground_ft, CW_DIM_ELEV_FT),
                               book_number(b, cut->subgrade_ft, CW_DIM_ELEV_FT),
                               dug ? book_number(b, cut->section.deepest_ft, CW_DIM_FT) : "",
                               dug ? book_number(b, cut->section.top_ft, CW_DIM_FT) : "",
                               dug ? book_value(b, cut->section.area_sqft, CW_DIM_SQFT) : "",
                               dug ? book_value(b, cut->section.slope_top, CW_DIM_SIDE_SLOPE) : "",
                               dug ? ground_words(b, cut) : "nothing is dug",
                               dug ? protection_words(b, cut) : ""};
        cw_table_row(table, i == trench->deepest ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
    }
}

static void cut_caution(book *b, const cw_plan_cut *cut)
{
    const char *person = b->plan->job->trench.competent_person;
    cw_text text = cw_text_on(b->arena);
    cw_text_print(&text,
                  "No entry before the competent person%s%s has classed the ground and released "
                  "the cut for the shift; again after "
                  "rain and whenever something changes (29 CFR 1926.651(k)). ",
                  person && person[0] ? " (" : "",
                  person && person[0] ? cw_arena_print(b->arena, "%s)", person) : "");
    cw_text_print(&text, "Spoil, material and plant keep %s from the edge. ",
                  book_value(b, b->plan->job->trench.spoil_setback_ft, CW_DIM_FT));
    if (b->plan->trench.egress.needed)
        cw_text_print(
            &text, "A ladder within %s of everybody, %s above the edge. ",
            book_value(b, b->plan->job->trench.egress_ft, CW_DIM_FT),
            book_value(b, cw_rows_value(&b->plan->job->rows, "trench.egress_above"), CW_DIM_FT));
    cw_text_add(&text, "Ground that was placed or dug before is never class A; ground under water "
                       "is class C. Nobody under a load.");
    if (cut && cut->section.verdict == CW_UNDECIDED)
        cw_text_add(&text,
                    " THIS CUT IS DEEPER THAN THE TABLES: A REGISTERED ENGINEER DESIGNS IT.");
    cw_doc_notice(b->document, "CAUTION", cw_text_string(&text));
}

static void cut_sheet(book *b, int index)
{
    const cw_plan_cut *cut = &b->plan->trench.cuts[index];
    const bool wide = is_wide(b);
    cw_doc_part(b->document, cw_arena_print(b->arena, "trench-%d", index + 1),
                cw_arena_print(b->arena, "Trench at %s, %s", book_value(b, cut->at_ft, CW_DIM_FT),
                               index == b->plan->trench.deepest ? "deepest" : cut->why));
    cut_caution(b, cut);
    cw_doc_figure(b->document, NULL,
                  cw_draw_trench(b->plan, index, b->room.full_pt,
                                 b->room.height_pt * (wide ? 0.66 : 0.56), b->arena),
                  NULL);
    const cw_pair pairs[] = {
        {"Ground, from the surface down", ground_words(b, cut)},
        {"Sides", protection_words(b, cut)},
        {"Depth on the centre line; deepest edge",
         cw_arena_print(b->arena, "%s; %s", book_value(b, cut->depth_ft, CW_DIM_FT),
                        book_value(b, cut->section.deepest_ft, CW_DIM_FT))},
        {"Bottom; open at the top",
         cw_arena_print(b->arena, "%s; %s", book_value(b, cut->section.bottom_ft, CW_DIM_FT),
                        book_value(b, cut->section.top_ft, CW_DIM_FT))},
        {"Plant stands from the centre line, right",
         cw_arena_print(b->arena, "%s at least", book_value(b, cut->section.crane_ft, CW_DIM_FT))},
        {"Area", book_value(b, cut->section.area_sqft, CW_DIM_SQFT)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), wide ? 2 : 1);
}

static void volume_pairs(book *b)
{
    const cw_plan_trench *trench = &b->plan->trench;
    const cw_pair pairs[] = {
        {"Between the sections, prismoid", book_value(b, trench->exact_cy, CW_DIM_CY)},
        {"The same by average end area", book_value(b, trench->average_cy, CW_DIM_CY)},
        {"Ends, sloped like the sides", book_value(b, trench->ends_cy, CW_DIM_CY)},
        {"Overbreak, apart", book_value(b, trench->overbreak_cy, CW_DIM_CY)},
        {"Pay lines", trench->has_pay ? book_value(b, trench->pay_cy, CW_DIM_CY)
                                      : "not paid by volume, or not stated"},
        {"Loose; truck loads",
         cw_arena_print(b->arena, "%s; %d", book_value(b, trench->earth.loose_cy, CW_DIM_CY),
                        trench->earth.loads)},
        {"Used again, bank", book_value(b, trench->balance.reuse_cy, CW_DIM_CY)},
        {"Hauled off, loose", book_value(b, trench->balance.export_loose_cy, CW_DIM_CY)},
        {"Brought in, compacted", book_value(b, trench->balance.import_cy, CW_DIM_CY)},
        {"Ladders", trench->egress.needed
                        ? cw_arena_print(b->arena, "%d in each strip, %s long", trench->egress.each,
                                         book_value(b, trench->egress.ladder_ft, CW_DIM_FT))
                        : "not needed at this depth"},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), is_wide(b) ? 2 : 1);
}

void book_trench(book *b)
{
    const cw_plan_trench *trench = &b->plan->trench;
    cw_doc_part(b->document, "trench", "Trench");
    cut_caution(b, NULL);
    if (!trench->present) {
        cw_doc_notice(b->document, "UNDECIDED",
                      "The job gives no ground along the run, so that depth and section of the cut "
                      "are not known.");
        return;
    }
    if (!trench->classed)
        cw_doc_paragraph(
            b->document,
            "Nobody classed the ground: it is cut as class C, 1-1/2:1 (29 CFR 1926.652(b)(1)).");
    cut_table(b);
    if (trench->deepest < 0)
        return;
    cw_doc_heading(b->document, NULL, "Earth");
    volume_pairs(b);
    for (int i = 0; i < trench->cut_count; i++)
        if (trench->cuts[i].drawn)
            cut_sheet(b, i);
}

/* ---- grade sheet ---- */

static void setup_pairs(book *b)
{
    const cw_plan_grade *grade = &b->plan->grade;
    const cw_job *job = b->plan->job;
    cw_pair pairs[10];
    int count = 0;
    pairs[count++] = (cw_pair){"Instrument", job->grade.instrument == 0 ? "level and rod"
                                                                        : "laser and rod receiver"};
    if (job->survey.has_benchmark)
        pairs[count++] = (cw_pair){
            "Benchmark",
            cw_arena_print(b->arena, "%s %s", job->survey.benchmark ? job->survey.benchmark : "",
                           book_value(b, job->survey.benchmark_ft, CW_DIM_ELEV_FT))};
    if (grade->has_instrument) {
        pairs[count++] =
            (cw_pair){"Rod on the benchmark", book_value(b, job->grade.backsight_ft, CW_DIM_FT)};
        pairs[count++] =
            (cw_pair){"Height of instrument", book_value(b, grade->instrument_ft, CW_DIM_ELEV_FT)};
        pairs[count++] = (cw_pair){
            "Least and greatest reading",
            cw_arena_print(b->arena, "%s, %s; %s, %s",
                           book_value(b, grade->least_rod_ft, CW_DIM_FT), grade->least_rod,
                           book_value(b, grade->most_rod_ft, CW_DIM_FT), grade->most_rod)};
    }
    pairs[count++] = (cw_pair){
        "Grade to dial in",
        cw_arena_print(b->arena, "%s percent", cw_decimal(b->arena, grade->laser_percent, 3))};
    if (grade->has_loop)
        pairs[count++] =
            (cw_pair){"Line of levels closes within",
                      cw_arena_print(b->arena, "%s, allowed %s",
                                     book_value(b, grade->loop.misclosure_ft, CW_DIM_FT),
                                     book_value(b, grade->loop.allowed_ft, CW_DIM_FT))};
    if (grade->has_camber)
        pairs[count++] = (cw_pair){"Camber at the middle",
                                   cw_arena_print(b->arena, "%s; it is in every level of this book",
                                                  book_value(b, job->grade.camber_ft, CW_DIM_FT))};
    cw_doc_pairs(b->document, pairs, count, 1);
}

/* By the stated set-up the rod, else the level, to which HI is added on site. */
static const char *rod(const book *b, double level_ft)
{
    return b->plan->grade.has_instrument
               ? book_number(b, b->plan->grade.instrument_ft - level_ft, CW_DIM_FT)
               : book_number(b, level_ft, CW_DIM_ELEV_FT);
}

static void rod_table(book *b, int number)
{
    static const cw_column columns[] = {
        {"Joint", NULL, CW_ALIGN_LEFT, 1.55},       {"Cam-\nber", NULL, CW_ALIGN_RIGHT, 0.8},
        {"Sub-\ngrade", NULL, CW_ALIGN_RIGHT, 1.1}, {"read", NULL, CW_ALIGN_LEFT, 0.9},
        {"Bed-\nding", NULL, CW_ALIGN_RIGHT, 1.1},  {"read", NULL, CW_ALIGN_LEFT, 0.9},
        {"Invert", NULL, CW_ALIGN_RIGHT, 1.1},      {"read", NULL, CW_ALIGN_LEFT, 0.9},
        {"Wall\ntop", NULL, CW_ALIGN_RIGHT, 1.1},   {"read\nleft", NULL, CW_ALIGN_LEFT, 0.9},
        {"read\nright", NULL, CW_ALIGN_LEFT, 0.9},  {"Top of\nbox", NULL, CW_ALIGN_RIGHT, 1.1},
        {"By,\ntime", NULL, CW_ALIGN_LEFT, 0.9},
    };
    const cw_plan_barrel *barrel = &b->plan->barrels[number];
    cw_table *table =
        cw_doc_table(b->document, NULL,
                     cw_arena_print(b->arena, "Barrel %d: %s", number + 1,
                                    b->plan->grade.has_instrument ? "rod readings" : "levels"),
                     columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i <= barrel->base_count; i++) {
        const cw_plan_joint *joint = &barrel->joints[i];
        const char *cells[] = {joint->name,
                               book_number(b, joint->camber_ft, CW_DIM_FT),
                               rod(b, joint->subgrade_ft),
                               "",
                               rod(b, joint->bedding_ft),
                               "",
                               rod(b, joint->at.invert_ft),
                               "",
                               rod(b, joint->seat_ft),
                               "",
                               "",
                               rod(b, joint->top_ft),
                               ""};
        cw_table_row(table, joint->mitred || joint->phase_line ? CW_ROW_STRONG : CW_ROW_PLAIN,
                     cells)
            ->height_pt = 17.0;
    }
}

static const char *growth_words(const book *b, const cw_plan_growth *growth)
{
    const cw_growth *g = &growth->growth;
    return cw_arena_print(
        b->arena, "%s past the drawing on the mean, %s to %s in 19 of 20 runs; end at %s to %s",
        book_value(b, g->growth_in, CW_DIM_IN), book_value(b, g->low_in, CW_DIM_IN),
        book_value(b, g->high_in, CW_DIM_IN), book_value(b, g->low_ft, CW_DIM_FT),
        book_value(b, g->high_ft, CW_DIM_FT));
}

static void tape_table(book *b, int number)
{
    static const cw_column columns[] = {
        {"After\npiece", NULL, CW_ALIGN_LEFT, 1.1},
        {"Drawn", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Tape: not\nless than", NULL, CW_ALIGN_RIGHT, 1.2},
        {"not more\nthan", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Pieces to\ncome", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Gaps to\ncome", NULL, CW_ALIGN_RIGHT, 0.8},
        {"Tape\nread", NULL, CW_ALIGN_LEFT, 1.2},
        {"Gap to hold\nnow", NULL, CW_ALIGN_LEFT, 1.2},
        {"Off line\nleft, right", NULL, CW_ALIGN_LEFT, 1.2},
        {"By, time", NULL, CW_ALIGN_LEFT, 1.2},
    };
    const cw_plan_barrel *barrel = &b->plan->barrels[number];
    const cw_plan_growth *growth = &b->plan->grade.growth[number];
    cw_doc_heading(b->document, NULL, cw_arena_print(b->arena, "Barrel %d", number + 1));
    const char *closing =
        growth->order_by > 0
            ? cw_arena_print(b->arena,
                             "they do not make up for it: order a closure piece or a cast closure "
                             "when piece %d stands, at the latest",
                             growth->order_by)
            : "they make up for it";
    const cw_pair pairs[] = {
        {"Growth, left alone", growth_words(b, growth)},
        {"Gaps of the upstream half",
         cw_arena_print(b->arena, "%d joints close by %s or open by %s: %s", growth->late_joints,
                        book_value(b, growth->closed_in, CW_DIM_IN),
                        book_value(b, growth->opened_in, CW_DIM_IN), closing)},
        {"Heading",
         growth->straight >= barrel->base_count
             ? "keeps the line in 19 of 20 runs, even when it is left alone"
             : cw_arena_print(b->arena,
                              "mended after every %d pieces at the latest; a steady difference of "
                              "left and right gap grows with the square of the pieces",
                              growth->straight > 1 ? growth->straight : 1)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i + 1 < barrel->base_count; i++) {
        const cw_plan_tape *tape = &b->plan->grade.tape[number][i];
        const char *cells[] = {b->plan->pieces[barrel->bases[i]].slot,
                               book_number(b, tape->drawn_ft, CW_DIM_FT),
                               book_number(b, tape->least_ft, CW_DIM_FT),
                               book_number(b, tape->most_ft, CW_DIM_FT),
                               book_number(b, tape->rest_ft, CW_DIM_FT),
                               book_count(b, tape->gaps),
                               "",
                               "",
                               "",
                               ""};
        cw_table_row(table, i + 1 == growth->order_by ? CW_ROW_SHADED : CW_ROW_PLAIN, cells)
            ->height_pt = 17.0;
    }
}

static void stake_table(book *b)
{
    static const cw_column columns[] = {
        {"Stake", NULL, CW_ALIGN_LEFT, 0.8},
        {"From\noutlet", NULL, CW_ALIGN_RIGHT, 1.0},
        {"From centre\nline", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Northing", NULL, CW_ALIGN_RIGHT, 1.9},
        {"Easting", NULL, CW_ALIGN_RIGHT, 1.9},
        {"Invert", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Bottom\nof cut", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Hub\nread", NULL, CW_ALIGN_LEFT, 1.0},
        {"Cut to\ninvert", NULL, CW_ALIGN_LEFT, 1.0},
        {"Cut to\nbottom", NULL, CW_ALIGN_LEFT, 1.0},
    };
    const cw_plan_grade *grade = &b->plan->grade;
    cw_table *table = cw_doc_table(b->document, "stakes",
                                   "Offset stakes, clear of the widest cut; cut = hub less level",
                                   columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i < grade->stake_count; i++) {
        const cw_plan_stake *stake = &grade->stakes[i];
        const char *cells[] = {
            stake->name,
            book_number(b, stake->at_ft, CW_DIM_FT),
            cw_arena_print(
                b->arena, "%s %s",
                book_number(b, stake->offset_ft < 0.0 ? -stake->offset_ft : stake->offset_ft,
                            CW_DIM_FT),
                stake->offset_ft < 0.0 ? "left" : "right"),
            book_number(b, stake->northing_ft, CW_DIM_COORD_FT),
            book_number(b, stake->easting_ft, CW_DIM_COORD_FT),
            book_number(b, stake->invert_ft, CW_DIM_ELEV_FT),
            book_number(b, stake->subgrade_ft, CW_DIM_ELEV_FT),
            "",
            "",
            ""};
        cw_table_row(table, CW_ROW_PLAIN, cells)->height_pt = 17.0;
    }
}

void book_grade(book *b)
{
    cw_doc_part(b->document, "grade-sheet", "Grade sheet");
    setup_pairs(b);
    cw_doc_paragraph(
        b->document,
        b->plan->grade.has_instrument
            ? "Readings for this set-up only: read the benchmark before and after; when the "
              "instrument moves, work out HI "
              "and the readings anew from the cut sheet, page {page:cut-sheet}. The wall top is "
              "read left and right and "
              "logged like the invert: the top pieces stand on it."
            : "No set-up is stated: the table gives levels, and rod = HI less level. The wall "
              "top is read left and right and logged like the invert: the top pieces stand on it.");
    for (int i = 0; i < b->plan->barrel_count; i++)
        rod_table(b, i);
    cw_doc_part(b->document, "tape-sheet", "Tape sheet: growth and heading");
    cw_doc_paragraph(b->document,
                     "Tape from the outlet face along the slope to the upstream face of every "
                     "piece set. Gap to hold now = (laid length of the run "
                     "less tape read less pieces to come) / gaps to come; work it out again after "
                     "every piece. Outside the two limits the gaps that "
                     "are left cannot end the run in its tolerance: stop, and order a closure.");
    for (int i = 0; i < b->plan->barrel_count; i++) {
        if (i > 0)
            cw_doc_page_break(b->document);
        tape_table(b, i);
    }
    cw_doc_part(b->document, "stake-sheet", "Stakes");
    stake_table(b);
}

/* ---- backfill ---- */

static void zone_table(book *b)
{
    static const cw_column columns[] = {
        {"Zone", NULL, CW_ALIGN_LEFT, 1.8},
        {"Material", NULL, CW_ALIGN_LEFT, 2.6},
        {"From the\nunderside", NULL, CW_ALIGN_RIGHT, 1.1},
        {"to", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Compaction", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Compacted\nvolume", NULL, CW_ALIGN_RIGHT, 1.2},
    };
    const cw_plan_closing *closing = &b->plan->closing;
    if (closing->zone_count == 0)
        return;
    cw_table *table =
        cw_doc_table(b->document, "zones", "Zones of backfill", columns, COUNT_OF(columns));
    for (int i = 0; i < closing->zone_count; i++) {
        const cw_plan_zone *zone = &closing->zones[i];
        const char *cells[] = {
            zone->name,
            zone->material,
            book_value(b, zone->from_ft, CW_DIM_FT),
            zone->has_to ? book_value(b, zone->to_ft, CW_DIM_FT) : "finished surface",
            book_value(b, zone->compaction_percent, CW_DIM_PERCENT),
            closing->has_volumes ? book_value(b, zone->volume_cy, CW_DIM_CY) : ""};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void lift_log(book *b)
{
    static const cw_column columns[] = {
        {"Lift", NULL, CW_ALIGN_RIGHT, 0.6},
        {"Top over\nunderside", NULL, CW_ALIGN_RIGHT, 1.4},
        {"Both sides,\ncompacted", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Left: date,\ntime", NULL, CW_ALIGN_LEFT, 1.4},
        {"density,\nmoisture", NULL, CW_ALIGN_LEFT, 1.2},
        {"by", NULL, CW_ALIGN_LEFT, 0.8},
        {"Right: date,\ntime", NULL, CW_ALIGN_LEFT, 1.4},
        {"density,\nmoisture", NULL, CW_ALIGN_LEFT, 1.2},
        {"by", NULL, CW_ALIGN_LEFT, 0.8},
        {"Higher side\nby lifts", NULL, CW_ALIGN_LEFT, 1.2},
    };
    const cw_plan_closing *closing = &b->plan->closing;
    cw_doc_part(b->document, "lift-log", "Backfill and density log");
    cw_table *table = cw_doc_table(
        b->document, NULL,
        cw_arena_print(b->arena,
                       "%d density tests in all; the higher side never more than %d lifts ahead",
                       closing->tests, closing->lifts_apart > 0 ? closing->lifts_apart : 1),
        columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 1; i <= closing->lifts; i++) {
        const double top_in = i < closing->lifts ? i * closing->compacted_in : closing->height_in;
        const char *volume =
            closing->lift_cy ? book_value(b, closing->lift_cy[i - 1], CW_DIM_CY) : "";
        const char *cells[] = {
            book_count(b, i), book_value(b, top_in, CW_DIM_IN), volume, "", "", "", "", "", "", ""};
        cw_table_row(table, CW_ROW_PLAIN, cells)->height_pt = 17.0;
    }
}

void book_backfill(book *b)
{
    const cw_plan_closing *closing = &b->plan->closing;
    const cw_job *job = b->plan->job;
    const bool wide = is_wide(b);
    cw_doc_part(b->document, "backfill", "Backfill");
    cw_doc_notice(b->document, "CAUTION",
                  cw_arena_print(b->arena,
                                 "No fill beside a box before its top is on, its joints are "
                                 "wrapped and its lift holes plugged. Both sides "
                                 "rise together. No heavy roller beside the walls, and nothing "
                                 "across before the cover is measured: %s.",
                                 book_value(b, job->order.cover_before_equipment_ft, CW_DIM_FT)));
    cw_doc_figure(b->document, NULL,
                  cw_draw_backfill(b->plan, b->room.full_pt,
                                   b->room.height_pt * (wide ? 0.62 : 0.46), b->arena),
                  NULL);
    const cw_pair pairs[] = {
        {"Beside the boxes, compacted",
         closing->has_volumes ? book_value(b, closing->beside_cy, CW_DIM_CY) : "ground not given"},
        {"Over the boxes, compacted",
         closing->has_volumes ? book_value(b, closing->over_cy, CW_DIM_CY) : "ground not given"},
        {"Loose, to bring",
         closing->has_volumes ? book_value(b, closing->loose_cy, CW_DIM_CY) : "ground not given"},
        {"Density tests",
         closing->has_volumes ? book_count(b, closing->tests) : "ground not given"},
        {"First machine",
         cw_arena_print(b->arena, "not before compacted fill stands at %s over the highest top",
                        book_value(b, closing->machine_ft, CW_DIM_ELEV_FT))},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
    zone_table(b);
}

/* ---- blank logs ---- */

static void fill_log(book *b)
{
    static const cw_column columns[] = {
        {"Gap,\nplacement", NULL, CW_ALIGN_LEFT, 1.2},
        {"Released\nby", NULL, CW_ALIGN_LEFT, 1.2},
        {"Start,\nend", NULL, CW_ALIGN_LEFT, 1.3},
        {"Top over\nunderside", NULL, CW_ALIGN_LEFT, 1.1},
        {"Volume", NULL, CW_ALIGN_LEFT, 0.9},
        {"Mix\ntemp.", NULL, CW_ALIGN_LEFT, 0.9},
        {"Set at", NULL, CW_ALIGN_LEFT, 1.0},
        {"Coldest in\nthe fill", NULL, CW_ALIGN_LEFT, 1.1},
        {"Equivalent\nage", NULL, CW_ALIGN_LEFT, 1.1},
        {"Strength,\nhow shown", NULL, CW_ALIGN_LEFT, 1.4},
    };
    const cw_plan_closing *closing = &b->plan->closing;
    const cw_job *job = b->plan->job;
    if (job->barrels.count < 2 || job->fill.kind == 2)
        return;
    cw_doc_part(b->document, "fill-log", "Log of the fill between barrels");
    cw_doc_paragraph(
        b->document,
        closing->has_strength
            ? cw_arena_print(b->arena,
                             "Backfill waits for %s: by the forecast %s after the last placement, "
                             "an equivalent age of %s. The sensor "
                             "where it cures slowest rules, and cylinders rule over both.",
                             book_value(b, job->fill.strength_psi, CW_DIM_PSI),
                             book_value(b, closing->release_h, CW_DIM_HOUR),
                             book_value(b, closing->strength.needed, CW_DIM_HOUR))
            : cw_arena_print(
                  b->arena,
                  "Backfill waits for %s. No curve: strength is not estimated; cylinders show it.",
                  book_value(b, job->fill.strength_psi, CW_DIM_PSI)));
    cw_doc_form(b->document, "Every placement", columns, COUNT_OF(columns), is_wide(b) ? 18 : 20,
                20.0)
        ->wide = true;
}

void book_ground_logs(book *b)
{
    static const cw_column cut[] = {
        {"Date,\nshift", NULL, CW_ALIGN_LEFT, 1.1},
        {"From, to", NULL, CW_ALIGN_LEFT, 1.2},
        {"Placed or dug\nbefore?", NULL, CW_ALIGN_LEFT, 1.2},
        {"Water\nseeps?", NULL, CW_ALIGN_LEFT, 0.9},
        {"Strength,\nhow tested", NULL, CW_ALIGN_LEFT, 1.2},
        {"Class", NULL, CW_ALIGN_LEFT, 0.7},
        {"Slope\nmeasured", NULL, CW_ALIGN_LEFT, 1.0},
        {"Cracks,\nsloughing", NULL, CW_ALIGN_LEFT, 1.1},
        {"Spoil,\nladders", NULL, CW_ALIGN_LEFT, 1.0},
        {"Released: competent\nperson, time", NULL, CW_ALIGN_LEFT, 1.8},
    };
    cw_doc_part(b->document, "excavation-log", "Excavation log");
    cw_doc_form(b->document,
                "Before each shift, after rain, and when anything changes; nobody enters before it "
                "is signed",
                cut, COUNT_OF(cut), is_wide(b) ? 22 : 24, 20.0)
        ->wide = true;
    fill_log(b);
    lift_log(b);
}
