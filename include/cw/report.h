/** @file
 * From what was computed to what people read: pages, tables and drawings as data, and plain JSON and text.
 * Reads the plan, computes nothing of the trade. */
#ifndef CW_REPORT_H
#define CW_REPORT_H

#include "cw/arena.h"
#include "cw/calc.h"
#include "cw/document.h"
#include "cw/drawing.h"
#include "cw/plan.h"

/* ---- calculators ---- */

/** One calculation: filled input, output and its working. */
typedef struct cw_calc_answer {
    const cw_calc *calc;
    void *input, *output;
    bool *given; /**< which inputs were typed; the others are defaults */
    cw_working working;
} cw_calc_answer;

/** Inputs, results, working and source as plain text. */
const char *cw_calc_text(const cw_calc_answer *answer, cw_unit_system units, cw_arena *arena);
/** The same as JSON, values in stored units. */
const char *cw_calc_json(const cw_calc_answer *answer, cw_arena *arena);
/** What it is for, its inputs with limits and defaults, and an example. */
const char *cw_calc_manual(const cw_calc *calc, cw_arena *arena);

/* ---- the plan ---- */

/** The ledger for a terminal. */
const char *cw_ledger_text(const cw_plan *plan, cw_arena *arena);

/** The whole plan as JSON; docs/plan-schema.json describes it. */
const char *cw_plan_json(const cw_plan *plan, cw_arena *arena);

/** The piece list as CSV (RFC 4180), one line each piece in setting order, for plant and estimator. */
const char *cw_pieces_csv(const cw_plan *plan, cw_arena *arena);
/** Joint points as CSV point,northing,easting,elevation,description for a controller. */
const char *cw_points_csv(const cw_plan *plan, cw_arena *arena);

/** Rows with value, source and status: as a table of lines, as the CSV that a specification profile is, and the list of sources
 * with the number of their rows (Markdown). */
const char *cw_rows_text(const cw_rows *rows, cw_unit_system units, cw_arena *arena);
const char *cw_rows_csv(const cw_rows *rows, cw_arena *arena);
const char *cw_rows_sources(const cw_rows *rows, cw_arena *arena);

/** The drawings, each composed for a frame of @p width_pt by @p height_pt points and finished. */
const cw_drawing *cw_draw_plan_view(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
const cw_drawing *cw_draw_long_profile(const cw_plan *plan, int barrel, double width_pt, double height_pt,
                                       cw_arena *arena);
const cw_drawing *cw_draw_typical_section(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
const cw_drawing *cw_draw_piece(const cw_plan *plan, int type, double width_pt, double height_pt, cw_arena *arena);
/** Layout of the pieces of all barrels as a key plan: marks and joints. */
const cw_drawing *cw_draw_layout(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** Frame @p frame of the setting storyboard: the state after that setting step. */
const cw_drawing *cw_draw_story_frame(const cw_plan *plan, int frame, double width_pt, double height_pt,
                                      cw_arena *arena);
/** Joint detail of base and top, in section along the run. */
const cw_drawing *cw_draw_joint_detail(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);

/** Headwater elevation against total flow, with what governs in words, the flows of the job and the road. */
const cw_drawing *cw_draw_performance(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** Water surface inside one barrel at one flow of the job, over the long profile. */
const cw_drawing *cw_draw_water_profile(const cw_plan *plan, int flow, int barrel, double width_pt, double height_pt,
                                        cw_arena *arena);
/** Stone apron at the outlet: plan and section, for the flow with the largest stone. */
const cw_drawing *cw_draw_apron(const cw_plan *plan, int flow, double width_pt, double height_pt, cw_arena *arena);

/** Section of the cut at one of the plan's drawn cuts. */
const cw_drawing *cw_draw_trench(const cw_plan *plan, int cut, double width_pt, double height_pt, cw_arena *arena);
/** Lifts of backfill beside the boxes, numbered on both sides, with the greatest difference and the zones. */
const cw_drawing *cw_draw_backfill(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** The box with what presses on it at cover @p cover of the plan's strength, unfactored. */
const cw_drawing *cw_draw_loads(const cw_plan *plan, int cover, double width_pt, double height_pt, cw_arena *arena);
/** Moment, shear and thrust along the box, factored, at a cover and with a ground (cw_struct_ground) of the plan's strength. */
const cw_drawing *cw_draw_forces(const cw_plan *plan, int cover, int ground, double width_pt, double height_pt, cw_arena *arena);
/** Resistance of each section with its steel against thrust, and the demand that governs. */
const cw_drawing *cw_draw_resistance(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** How much of the box each machine uses when it crosses, against the cover. */
const cw_drawing *cw_draw_crossings(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** Wings, apron and cutoff wall of an end: plan and elevation. */
const cw_drawing *cw_draw_end(const cw_plan *plan, bool inlet, double width_pt, double height_pt, cw_arena *arena);
/** The outline of the cut with utilities, structures, right of way and traffic, straightened along the centre line. */
const cw_drawing *cw_draw_obstacles(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);

/** Bar chart of the schedule without chance, with what held up the finish, and the chance to be done by a day. */
const cw_drawing *cw_draw_schedule(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);
/** When each piece is set against its station, in the run without chance. */
const cw_drawing *cw_draw_advance(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena);

/** The setting book, which is also the installation plan for submittal. */
const cw_document *cw_book(const cw_plan *plan, cw_paper paper, cw_arena *arena);

/** A crane setup (index into cranes.setups): plan with reach, mats, swing, trucks, lines; and its worst pick from the side. */
const cw_drawing *cw_draw_lift_plan(const cw_plan *plan, int setup, double width_pt, double height_pt, cw_arena *arena);
const cw_drawing *cw_draw_lift_elevation(const cw_plan *plan, int setup, double width_pt, double height_pt, cw_arena *arena);

#endif
