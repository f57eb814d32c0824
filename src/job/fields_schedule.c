/* The job format, schedule. */
#include "fields_internal.h"

#define SCHEDULE(member) offsetof(cw_job_schedule, member)
static const char usual[] = "common practice";

const cw_field cw_job_schedule_fields[CW_JOB_SCHEDULE_FIELDS] = {
    NEEDED_TEXT("start", SCHEDULE(start), "first day of the work on site: 2026-05-04"),
    MAYBE_TEXT("by", SCHEDULE(by),
               "day on which all must be done; the P80 of the simulation is held against it"),
    MAYBE_TEXT("off", SCHEDULE(off),
               "holidays and closed days, rising, with commas: 2026-05-25, 2026-07-03"),
    WITH_DEFAULT("from", NUMBER, CW_DIM_HOUR, 0, 23.9, SCHEDULE(from_h), "7 h", usual,
                 "hour at which the shift begins"),
    WITH_DEFAULT("shift", NUMBER, CW_DIM_HOUR, 1, 24, SCHEDULE(shift_h), "8 h", usual,
                 "working hours of a shift"),
    WITH_DEFAULT("days_per_week", WHOLE, CW_DIM_COUNT, 1, 7, SCHEDULE(days_per_week), "5", usual,
                 "worked, from Monday"),
    WITH_DEFAULT("trucks", WHOLE, CW_DIM_COUNT, 1, 60, SCHEDULE(trucks), "4", usual,
                 "that bring pieces"),
    WITH_DEFAULT("joint_crews", WHOLE, CW_DIM_COUNT, 1, 20, SCHEDULE(joint_crews), "1", usual,
                 "that inspect pieces, lay sealant and wrap joints"),
    WITH_DEFAULT("earth_crews", WHOLE, CW_DIM_COUNT, 1, 20, SCHEDULE(earth_crews), "1", usual,
                 "with machine, for subgrade and backfill"),
    WITH_DEFAULT("runs", WHOLE, CW_DIM_COUNT, 0, 20000, SCHEDULE(runs), "500",
                 "band of the P80 within 2 % of the runs",
                 "of the simulation; 0: dates without chance only"),
    WITH_DEFAULT("seed", WHOLE, CW_DIM_COUNT, 0, 1000000, SCHEDULE(seed), "1", "any number",
                 "of the random numbers"),
};
