/* Schedule: dates, how sure they are, crane and trucks, and what moves the finish. */
#include "book_internal.h"

#include <math.h>

#include "cw/date.h"
#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))
enum { SWINGS_SHOWN = 8 };

/* The date of a moment, in days from the first midnight; the end of a shift belongs to its day. */
static const char *date(const book *b, double days)
{
    return cw_date_print(b->arena, b->plan->schedule.first_day + (int)floor(days));
}

static const char *figures(const book *b, const cw_figures *f, int decimals, const char *unit)
{
    return cw_arena_print(b->arena, "%s %s, P80 %s", cw_decimal(b->arena, f->p50, decimals), unit,
                          cw_decimal(b->arena, f->p80, decimals));
}

static void date_pairs(book *b)
{
    const cw_plan_schedule *s = &b->plan->schedule;
    const cw_job_schedule *given = &b->plan->job->schedule;
    const int minutes = (int)(given->from_h * CW_MIN_PER_HOUR + 0.5);
    const cw_pair pairs[] = {
        {"First day", date(b, 0.0)},
        {"Calendar",
         cw_arena_print(b->arena, "%d days a week, %s a day from %02d:%02d; days off: %s",
                        given->days_per_week, book_value(b, given->shift_h, CW_DIM_HOUR),
                        minutes / 60, minutes % 60, given->off[0] ? given->off : "none given")},
        {"Crews and trucks",
         cw_arena_print(b->arena, "one crane, %d for joints, %d for earthwork, %d trucks",
                        given->joint_crews, given->earth_crews, given->trucks)},
        {"Last day without chance", date(b, s->steady_min / CW_DAY_MIN)},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
    if (s->runs == 0)
        return;
    const cw_pair sure[] = {
        {"Last day, one time in two (P50)", date(b, s->finish.p50)},
        {"Last day, four times in five (P80)", date(b, s->finish.p80)},
        {"Last day, nine times in ten (P90)", date(b, s->finish.p90)},
        {"Wanted by", s->has_by
                          ? cw_arena_print(b->arena, "%s: met in %s %% of the runs", given->by,
                                           cw_decimal(b->arena, CW_PERCENT * s->by_share, 0))
                          : "not given"},
        {"Days with the crane (P50)", figures(b, &s->crane_days, 0, "days")},
        {"Trucks waiting on site, all together (P50)", figures(b, &s->truck_wait_h, 1, "h")},
        {"Crane without work between picks (P50)", figures(b, &s->crane_idle_h, 1, "h")},
        {"Runs", cw_arena_print(b->arena, "%d, seed %d; P80 between day %s and %s from so many",
                                s->runs, given->seed, cw_decimal(b->arena, s->finish.p80_low, 1),
                                cw_decimal(b->arena, s->finish.p80_high, 1))},
    };
    cw_doc_pairs(b->document, sure, COUNT_OF(sure), 1);
}

static void bar_table(book *b)
{
    static const cw_column columns[] = {
        {"Work", NULL, CW_ALIGN_LEFT, 3.0},
        {"First day", NULL, CW_ALIGN_LEFT, 1.4},
        {"Last day", NULL, CW_ALIGN_LEFT, 1.4},
        {"Holds up the finish", "% of runs", CW_ALIGN_RIGHT, 1.5},
    };
    const cw_plan_schedule *s = &b->plan->schedule;
    cw_table *table =
        cw_doc_table(b->document, NULL, "Dates without chance", columns, COUNT_OF(columns));
    for (int i = 0; i < s->bar_count; i++) {
        const cw_plan_bar *bar = &s->bars[i];
        const char *cells[] = {
            bar->name, date(b, bar->start_min / CW_DAY_MIN), date(b, bar->finish_min / CW_DAY_MIN),
            s->runs > 0 ? cw_decimal(b->arena, CW_PERCENT * bar->critical, 0) : ""};
        cw_table_row(table, bar->critical >= 0.5 ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
    }
}

static void swing_table(book *b)
{
    static const cw_column columns[] = {
        {"Rows", NULL, CW_ALIGN_LEFT, 2.4},
        {"Finish with its P10", "days", CW_ALIGN_RIGHT, 1.6},
        {"with its P90", "days", CW_ALIGN_RIGHT, 1.6},
    };
    const cw_plan_schedule *s = &b->plan->schedule;
    cw_table *table = cw_doc_table(
        b->document, NULL, "What moves the finish, one at a time, the others at their medians",
        columns, COUNT_OF(columns));
    for (int i = 0; i < s->swing_count && i < SWINGS_SHOWN; i++) {
        const cw_finish_swing *swing = &s->swings[i];
        if (fabs(swing->high_min - swing->low_min) < 1.0)
            break; // less than a minute
        const char *cells[] = {s->law_names[swing->law],
                               cw_decimal(b->arena, swing->low_min / CW_DAY_MIN, 2),
                               cw_decimal(b->arena, swing->high_min / CW_DAY_MIN, 2)};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

void book_schedule(book *b)
{
    const cw_plan_schedule *s = &b->plan->schedule;
    if (!s->present || s->status != CW_SETTING_DONE)
        return;
    cw_doc_part(b->document, "schedule", "Schedule");
    date_pairs(b);
    bar_table(b);
    if (s->runs > 0)
        swing_table(b);
    cw_doc_paragraph(
        b->document,
        "Times, shares of bad days and variation are rows of the assumptions (time, haul, pace, "
        "weather): "
        "most are common practice. Put in those of your own jobs before you promise a date.");
    cw_doc_part(b->document, "bars", "Bar chart");
    const bool wide = b->room.full_pt > b->room.height_pt;
    const double tall_pt = b->room.height_pt * (wide ? 0.85 : 0.8);
    cw_doc_figure(b->document, NULL, cw_draw_schedule(b->plan, b->room.full_pt, tall_pt, b->arena),
                  NULL);
    cw_doc_part(b->document, "advance", "Setting along the run");
    cw_doc_figure(
        b->document, NULL,
        cw_draw_advance(b->plan, b->room.full_pt, tall_pt * (wide ? 1.0 : 0.75), b->arena), NULL);
}
