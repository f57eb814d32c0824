/* The words of steps, stops and rules.  Tables only. */
#include "order_internal.h"

#include <assert.h>
#include <stddef.h>

static const struct {
    const char *two_rows, *one_row;
    int point;
    cw_stop stop;
} kinds[CW_STEP_KINDS] = {
    [CW_STEP_PLAN_ACCEPTED] = {"Have the drawings and the installation plan accepted", NULL, 1,
                               CW_STOP_HOLD},
    [CW_STEP_MEETING] = {"Hold the meeting before installation", NULL, 2, CW_STOP_HOLD},
    [CW_STEP_SITE_CLEARED] = {"Clear utilities, traffic and stream permits", NULL, 3, CW_STOP_HOLD},
    [CW_STEP_DIVERTED] = {"Lead the stream round and draw the water under the subgrade", NULL, 19,
                          CW_STOP_HOLD},
    [CW_STEP_SUBGRADE] = {"Have the subgrade accepted", NULL, 5, CW_STOP_HOLD},
    [CW_STEP_BEDDING] = {"Have the bedding accepted under the base",
                         "Have the bedding accepted under the box", 6, CW_STOP_HOLD},
    [CW_STEP_RECEIVED] = {"Receive and inspect the piece", NULL, 7, CW_STOP_HOLD},
    [CW_STEP_JOINT_SEALANT] = {"Clean the groove of the base in place and put its sealant on",
                               "Clean the joint of the box in place and put its sealant on", 10,
                               CW_STOP_WITNESS},
    [CW_STEP_WALLS_LEVELLED] = {"Level the wall tops left and right for the top", NULL, 11,
                                CW_STOP_HOLD},
    [CW_STEP_SEAT_SEALANT] = {"Clean the seat and put its sealant on", NULL, 10, CW_STOP_WITNESS},
    [CW_STEP_SET] = {"Set the base", "Set the box", 0, CW_STOP_NONE},
    [CW_STEP_RELEASED] = {"Check joint, line and grade, then let go the hook", NULL, 9,
                          CW_STOP_HOLD},
    [CW_STEP_WRAPPED] = {"Wrap the joint of the top and plug its lift holes",
                         "Wrap the joint of the box and plug its lift holes", 12, CW_STOP_HOLD},
    [CW_STEP_GAP_READY] = {"Close the gap with bulkheads and check the walls for the fluid head",
                           NULL, 0, CW_STOP_NONE},
    [CW_STEP_FILL] = {"Place fill between the barrels", NULL, 13, CW_STOP_HOLD},
    [CW_STEP_FILL_SET] = {"Wait until the placed fill has set", NULL, 13, CW_STOP_RECORD},
    [CW_STEP_FILL_CURED] = {"Show that the fill is strong enough for backfill and load", NULL, 14,
                            CW_STOP_HOLD},
    [CW_STEP_BACKFILL] = {"Place and compact a backfill lift", NULL, 15, CW_STOP_RECORD},
    [CW_STEP_COVER] = {"Measure the cover before equipment crosses", NULL, 16, CW_STOP_HOLD},
    [CW_STEP_PUMPS_OFF] = {"Stop the pumps and let the water rise", NULL, 20, CW_STOP_HOLD},
    [CW_STEP_WALK_THROUGH] = {"Walk through the barrels and survey the joints", NULL, 17,
                              CW_STOP_HOLD},
    [CW_STEP_PHASE_OPEN] = {"Open the phase to traffic", NULL, 0, CW_STOP_HOLD},
    [CW_STEP_CLOSEOUT] = {"Hand over the as-built record", NULL, 18, CW_STOP_HOLD},
};

static const cw_stop_row stops[] = {
    {1, "Owner accepts the two-piece form, calculations, working drawings and installation plan",
     CW_STOP_HOLD, true, false},
    {2, "Meeting of all parties before installation", CW_STOP_HOLD, true, false},
    {3, "Utilities located, traffic plan and stream permit valid on the setting days", CW_STOP_HOLD,
     false, false},
    {4, "Soil class and protection of the cut judged by the competent person", CW_STOP_HOLD, false,
     true},
    {5, "Subgrade dug, proof-rolled and on grade", CW_STOP_HOLD, true, false},
    {6, "Bedding or leveling strip on grade and not frozen", CW_STOP_HOLD, false, false},
    {7, "Piece inspected on arrival: mark, strength, dimensions, tongue, wall top", CW_STOP_HOLD,
     false, false},
    {8, "First piece on line, on grade and square", CW_STOP_HOLD, true, false},
    {9, "Joint gap, lip, line and grade checked before the hook lets go", CW_STOP_HOLD, false,
     false},
    {10, "Faces clean, sealant on, temperature warm enough", CW_STOP_WITNESS, false, false},
    {11, "Wall tops level left against right, width across measured", CW_STOP_HOLD, false, false},
    {12, "Tops set, joints wrapped, lift holes plugged", CW_STOP_HOLD, true, false},
    {13, "Fill placement no higher than walls, sliding and floating allow", CW_STOP_HOLD, false,
     false},
    {14, "Fill strength shown by cylinders or maturity", CW_STOP_HOLD, false, false},
    {15, "Backfill lift: sides in balance, density reached", CW_STOP_RECORD, false, false},
    {16, "Cover over the box measured and enough for the equipment", CW_STOP_HOLD, false, false},
    {17, "Inside walked after backfill: gaps, lips, leaks, cracks", CW_STOP_HOLD, true, false},
    {18, "As-built survey and record complete", CW_STOP_HOLD, true, false},
    {19, "Where water comes: stream led round, water under the subgrade", CW_STOP_HOLD, false,
     false},
    {20, "Where water comes: boxes held down against floating before the pumps stop", CW_STOP_HOLD,
     false, false},
    {21, "Where water comes: stream read against the level at which the work is cleared",
     CW_STOP_HOLD, false, true},
};

#define PRACTICE "common practice"

static const cw_rule_row rules[CW_RULES] = {
    [CW_RULE_ACCEPTED_FIRST] = {"accepted-first",
                                "No dirt is moved and no piece taken in before the owner has "
                                "accepted the drawings and the installation plan.",
                                PRACTICE, false},
    [CW_RULE_BEFORE_DIGGING] = {"before-digging",
                                "The meeting is held, and utilities, traffic and stream permits "
                                "are cleared, before the subgrade is opened.",
                                PRACTICE, false},
    [CW_RULE_SUBGRADE_FIRST] = {"subgrade-first",
                                "Bedding goes only on subgrade that has been accepted.", PRACTICE,
                                false},
    [CW_RULE_BEDDING_FIRST] = {"bedding-first",
                               "A piece is set only on bedding that has been accepted.", PRACTICE,
                               false},
    [CW_RULE_INSPECTED_FIRST] = {"inspected-first",
                                 "No piece goes on the hook before it has been inspected.",
                                 PRACTICE, false},
    [CW_RULE_TONGUE_IN_GROOVE] = {"tongue-in-groove",
                                  "Each piece drops into or over the joint of the one downstream "
                                  "of it, so a row is laid from the outlet and none is skipped.",
                                  PRACTICE, false},
    [CW_RULE_JOINT_RELEASED] = {"joint-released",
                                "Nothing is joined to, placed on or wrapped around a piece before "
                                "its joint, line and grade are checked and the hook is off.",
                                PRACTICE, false},
    [CW_RULE_SEALANT_FIRST] = {"sealant-first",
                               "Sealant is on the joint, and for a top on its seat, before the "
                               "piece comes down.",
                               PRACTICE, false},
    [CW_RULE_SEAT_LEVEL] = {"seat-level",
                            "The wall tops are measured level before the seat gets its sealant.",
                            PRACTICE, false},
    [CW_RULE_TWO_BASES_FIRST] = {"two-bases-first",
                                 "Two bases stand and are released before the first top.", PRACTICE,
                                 false},
    [CW_RULE_BASE_BEYOND_TOP] = {"base-beyond-top",
                                 "A base reaches upstream beyond the top being placed, or all "
                                 "bases are set; the tongue of the top would be in the way of the "
                                 "next base.",
                                 PRACTICE, false},
    [CW_RULE_LEAD_LIMIT] = {"lead-limit",
                            "Only so many bases stand open: an open base floats early and its free "
                            "walls take no fill.",
                            PRACTICE, true},
    [CW_RULE_BARREL_REACH] = {"barrel-reach",
                              "The barrels keep within a few pieces of each other, so that the "
                              "crane reaches them from one spot.",
                              PRACTICE, true},
    [CW_RULE_BARREL_TURN] = {"barrel-turn", "The next barrel begins when the one before it is set.",
                             PRACTICE, true},
    [CW_RULE_LIDS_BEFORE_FILL] = {"lids-before-fill",
                                  "No fill between barrels before the boxes on both sides are "
                                  "closed, wrapped and plugged: free walls do not carry the fluid.",
                                  PRACTICE, false},
    [CW_RULE_GAP_READY] = {"gap-ready",
                           "Bulkheads are in and the walls are checked for the fluid head before "
                           "fill is placed.",
                           PRACTICE, false},
    [CW_RULE_SET_BEFORE_NEXT] =
        {"set-before-next",
         "Placed fill sets before it takes the next placement or its strength test.", PRACTICE,
         false},
    [CW_RULE_GAPS_BALANCED] = {"gaps-balanced",
                               "Fill rises on both sides of a barrel together, never more than one "
                               "placement apart.",
                               PRACTICE, false},
    [CW_RULE_OUTER_FACES_IN_STEP] = {"outer-faces-in-step",
                                     "Backfill on the outer faces keeps up with the fill between "
                                     "barrels, or the fluid pushes the outer barrel out.",
                                     PRACTICE, false},
    [CW_RULE_CURE_BEFORE_BACKFILL] = {"cure-before-backfill",
                                      "Fill between the barrels has its strength before backfill "
                                      "beside it.",
                                      PRACTICE, false},
    [CW_RULE_CURE_BEFORE_LOAD] = {"cure-before-load",
                                  "Fill between the barrels has its strength before equipment "
                                  "crosses above it.",
                                  PRACTICE, false},
    [CW_RULE_TOPS_BEFORE_BACKFILL] = {"tops-before-backfill",
                                      "No backfill beside a box that is not closed, wrapped and "
                                      "plugged in every barrel.",
                                      PRACTICE, false},
    [CW_RULE_NEXT_TOP_ON] = {"next-top-on",
                             "The next piece upstream is also closed before backfill comes up to "
                             "it, in the same phase.",
                             PRACTICE, false},
    [CW_RULE_LIFT_ON_LIFT] = {"lift-on-lift", "Each lift goes on the one below it.", PRACTICE,
                              false},
    [CW_RULE_SIDES_BALANCED] = {"sides-balanced",
                                "Backfill left and right stays within the allowed difference.",
                                PRACTICE, false},
    [CW_RULE_COVER_BEFORE_CROSSING] = {"cover-before-crossing",
                                       "Light compaction only, and no equipment across, until the "
                                       "cover is placed and measured.",
                                       PRACTICE, false},
    [CW_RULE_WALK_AFTER_BACKFILL] = {"walk-after-backfill",
                                     "The inside is walked when the pieces are in and the backfill "
                                     "has loaded them.",
                                     PRACTICE, false},
    [CW_RULE_OPEN_AFTER_WALK] = {"open-after-walk",
                                 "A phase opens to traffic after its walk-through.", PRACTICE,
                                 false},
    [CW_RULE_PHASE_OPEN] = {"phase-open",
                            "A phase begins when the one before it is open to traffic.", PRACTICE,
                            true},
    [CW_RULE_CLOSEOUT_LAST] = {"closeout-last", "The record is closed when all else is done.",
                               PRACTICE, false},
    [CW_RULE_WATER_DOWN] = {"water-down",
                            "The stream is led round and the water drawn under the subgrade before "
                            "the subgrade is opened, and kept there.",
                            PRACTICE, false},
    [CW_RULE_HELD_DOWN] = {"held-down",
                           "Pumps stop only when weight and fill hold the closed boxes down: an "
                           "empty box floats.",
                           "hydrostatics; common practice", false},
};

const cw_rule_row *cw_rule_at(cw_rule rule)
{
    assert((unsigned)rule < CW_RULES);
    return &rules[rule];
}

const cw_stop_row *cw_stop_at(int number)
{
    const int count = (int)(sizeof stops / sizeof *stops);
    return number >= 1 && number <= count ? &stops[number - 1] : NULL;
}

const char *cw_stop_word(cw_stop stop)
{
    static const char *const words[] = {"work", "hold", "witness", "record"};
    return words[stop];
}

const char *cw_step_words(const cw_step *step, int rows)
{
    assert((unsigned)step->kind < CW_STEP_KINDS);
    if (step->row == CW_ORDER_TOP && step->kind == CW_STEP_SET)
        return "Set the top";
    if (step->row == CW_ORDER_TOP && step->kind == CW_STEP_JOINT_SEALANT)
        return "Clean the tongue of the top in place and put its sealant on";
    const char *one_row = kinds[step->kind].one_row;
    return rows == 1 && one_row ? one_row : kinds[step->kind].two_rows;
}

cw_stop cw_order_kind_stop(cw_step_kind kind)
{
    return kinds[kind].stop;
}

int cw_order_kind_point(cw_step_kind kind)
{
    return kinds[kind].point;
}
