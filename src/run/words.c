#include <stddef.h>

#include "cw/run.h"
#include "run_internal.h"

const char *const cw_run_status_choices[] = {
    [CW_RUN_OK] = "found",
    [CW_RUN_LOW_AT_HINGE] = "low at hinge",
    [CW_RUN_NEVER_MEETS] = "never meets",
    [CW_RUN_TOO_FAR] = "too far",
    [CW_RUN_AT_STEP] = "at a step",
    [CW_RUN_PARALLEL] = "along the road",
    [CW_RUN_FOLDED] = "folded",
    [CW_RUN_BEND_OUTSIDE] = "bend outside",
    [CW_RUN_NO_LENGTH] = "no length",
    NULL,
};

const char *const cw_run_cut_choices[] = {
    [CW_RUN_CUT_SQUARE] = "square", [CW_RUN_CUT_ROAD] = "road", NULL};

const char *const cw_run_excess_choices[] = {[CW_RUN_EXCESS_INLET] = "inlet",
                                             [CW_RUN_EXCESS_OUTLET] = "outlet",
                                             [CW_RUN_EXCESS_SHARED] = "shared",
                                             NULL};

const char *const cw_run_inlet_choices[] = {
    [CW_RUN_INLET_LEFT] = "left", [CW_RUN_INLET_RIGHT] = "right", NULL};

const char *cw_run_status_words(cw_run_status status)
{
    switch (status) {
    case CW_RUN_OK:
        return "found";
    case CW_RUN_LOW_AT_HINGE:
        return "the fill is already lower than wanted at the hinge, so the end would stand in the "
               "roadway; "
               "lower the invert, raise the grade or ask for less fill at the end";
    case CW_RUN_NEVER_MEETS:
        return "the side slope never comes down to the end wall, because going out from the road "
               "the "
               "invert falls as fast as it; use a steeper side slope or a flatter barrel";
    case CW_RUN_TOO_FAR:
        return "the side slope does not come down to the end wall within 1,000 ft of the road; "
               "check "
               "the side slope, the elevations and the ground";
    case CW_RUN_AT_STEP:
        return "the fill passes the wanted height at a step (a bend or a bank) and not on a slope; "
               "give "
               "the end distance yourself";
    case CW_RUN_PARALLEL:
        return "the barrel runs along the road and does not leave the roadway; check skew and "
               "bends";
    case CW_RUN_FOLDED:
        return "a straight between bends vanishes on the inside of the bend; move the bends apart, "
               "turn "
               "less or narrow the structure";
    case CW_RUN_BEND_OUTSIDE:
        return "the bends must lie between outlet and inlet, in upstream order; move the bend or "
               "the end";
    case CW_RUN_NO_LENGTH:
        return "the inlet end is not upstream of the outlet end; check both end distances";
    }
    return "unknown status";
}
