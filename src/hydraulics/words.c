#include "hydraulics_internal.h"

const char *cw_water_status_words(cw_water_status status)
{
    static const char *const words[] = {
        [CW_WATER_OK] = "found",
        [CW_WATER_NO_NORMAL] =
            "there is no normal depth on a level or adverse slope; give a slope above zero",
        [CW_WATER_OVER_BANKS] = "the section does not hold the flow below its lower end; carry the "
                                "surveyed points higher",
        [CW_WATER_BEYOND_TABLE] = "the flow lies outside the table of flow and stage; carry the "
                                  "table on, nothing is guessed past its ends",
        [CW_WATER_BAD_SECTION] = "the section has no width or no roughness, or its points do not "
                                 "run from left to right; correct it",
        [CW_WATER_BAD_TABLE] =
            "flow does not rise or stage falls in the tailwater table; put its lines in order",
        [CW_WATER_BAD_BARREL] = "span, rise above the bed, length, slope, roughness or a loss of "
                                "the barrel is out of sense; correct it",
        [CW_WATER_BAD_INLET] =
            "the inlet's coefficients give no law that rises with flow; correct them",
        [CW_WATER_BAD_ROAD] = "the road's crest does not run from left to right, or a weir factor "
                              "is out of sense; correct it",
        [CW_WATER_BAD_FLOW] = "the flow is negative or not a number; give zero or more",
        [CW_WATER_ROAD_DROWNED] = "the tailwater stands over the road with no flow at all; check "
                                  "its elevations against those of the road",
        [CW_WATER_BELOW_SILLS] =
            "the level lies under every sill or under the tailwater; ask for a higher one",
        [CW_WATER_NOT_FOUND] =
            "no answer within the bracket; check the input for values out of sense",
    };
    return words[status];
}

const char *const cw_water_regime_choices[] = {
    [CW_WATER_STILL] = "no flow",
    [CW_WATER_SLOW] = "runs free and slow",
    [CW_WATER_FAST] = "runs free and fast",
    [CW_WATER_JUMPS] = "jumps inside",
    [CW_WATER_DROWNED] = "drowned up to the inlet",
    [CW_WATER_PART_FULL] = "full over a part of its length",
    [CW_WATER_FULL] = "full from end to end",
    [CW_WATER_FULL + 1] = NULL,
};

const char *cw_water_regime_words(cw_water_regime regime)
{
    return cw_water_regime_choices[regime];
}

const char *const cw_water_control_choices[] = {"inlet", "outlet", NULL};

const char *cw_water_control_words(cw_water_control control)
{
    return cw_water_control_choices[control];
}

const char *const cw_water_surface_choices[] = {"paved", "gravel", "own", NULL};

const char *const cw_water_status_choices[] = {
    [CW_WATER_OK] = "found",
    [CW_WATER_NO_NORMAL] = "no normal depth",
    [CW_WATER_OVER_BANKS] = "over the banks",
    [CW_WATER_BEYOND_TABLE] = "outside the table",
    [CW_WATER_BAD_SECTION] = "section out of sense",
    [CW_WATER_BAD_TABLE] = "table out of order",
    [CW_WATER_BAD_BARREL] = "barrel out of sense",
    [CW_WATER_BAD_INLET] = "inlet law out of sense",
    [CW_WATER_BAD_ROAD] = "road out of sense",
    [CW_WATER_BAD_FLOW] = "flow out of sense",
    [CW_WATER_ROAD_DROWNED] = "road under the tailwater",
    [CW_WATER_BELOW_SILLS] = "below every sill",
    [CW_WATER_NOT_FOUND] = "not found",
    [CW_WATER_NOT_FOUND + 1] = NULL,
};
