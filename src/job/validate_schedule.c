/* Faults of the schedule section: dates. */
#include "job_internal.h"

#include <string.h>

#include "cw/date.h"
#include "cw/text.h"

enum { DATE_BYTES = 10 };

int cw_job_off_days(const char *text, int *days, const char **bad)
{
    int count = 0;
    for (const char *at = text + strspn(text, " ,"); *at; at += strspn(at, " ,")) {
        char word[DATE_BYTES + 1] = "";
        const size_t length = strcspn(at, " ,");
        *bad = at;
        if (length != DATE_BYTES || count == CW_OFF_DAYS_MAX)
            return -1;
        memcpy(word, at, DATE_BYTES);
        if (!cw_date_read(word, &days[count]) || (count > 0 && days[count] <= days[count - 1]))
            return -1;
        count++;
        at += length;
    }
    return count;
}

static bool check_date(cw_builder *b, const char *path, const char *text, int *day)
{
    if (cw_date_read(text, day))
        return true;
    cw_diag_add(b->diags, cw_entries_place(b->entries, path), CW_E_VALUE,
                "%s is no date; write year, month and day as 2026-05-04",
                cw_text_clip(b->arena, text));
    return false;
}

void cw_job_validate_schedule(cw_builder *b)
{
    const cw_job_schedule *schedule = &b->job->schedule;
    int start = 0, by = 0, days[CW_OFF_DAYS_MAX];
    const char *bad = NULL;
    if (!schedule->present || !cw_job_sound(b, "schedule.start"))
        return;
    const bool has_start = check_date(b, "schedule.start", schedule->start, &start);
    if (schedule->by[0] && check_date(b, "schedule.by", schedule->by, &by) && has_start &&
        by < start)
        cw_diag_add(b->diags, cw_entries_place(b->entries, "schedule.by"), CW_E_CONFLICT,
                    "the work must be done by %s but begins on %s; correct one of them",
                    schedule->by, schedule->start);
    if (cw_job_off_days(schedule->off, days, &bad) < 0)
        cw_diag_add(b->diags, cw_entries_place(b->entries, "schedule.off"), CW_E_VALUE,
                    "the days off cannot be read at %s; write at most %d dates, rising, with "
                    "commas: 2026-05-25, 2026-07-03",
                    cw_text_clip(b->arena, bad), CW_OFF_DAYS_MAX);
}
