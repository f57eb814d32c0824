/** @file
 * Quantities: concrete by mark, joints, sealant, wrap, bedding, fill between barrels, truck loads.
 *
 * Nothing is rounded on the way.  An amount to be ordered is a cw_order: the exact need with waste,
 * and the same rounded UP to what is sold.  Counts are whole by nature. Lengths along the run are
 * slope lengths, as laid. */
#ifndef CW_TAKEOFF_H
#define CW_TAKEOFF_H

#include "cw/calc.h"

/** What a truck, a plant or a supplier sells as the least step.  Common practice. */
#define CW_ORDER_STEP_FT 1.0
#define CW_ORDER_STEP_SQFT 1.0
#define CW_ORDER_STEP_TON 1.0
#define CW_ORDER_STEP_CY 0.5

/** An amount to order. */
typedef struct cw_order {
    double exact; /**< need, waste included, unrounded */
    double up;    /**< rounded up to a multiple of @c step */
    double step;
} cw_order;

/** @p exact rounded up to a multiple of @p step (> 0); a multiple within one part in 1e9 is taken
 * as met. */
cw_order cw_takeoff_order(double exact, double step);

/* ---- pieces ---- */

typedef struct cw_takeoff_mark {
    const char *mark;
    int count;
    double volume_cuft, weight_lb; /**< of one piece */
} cw_takeoff_mark;

typedef struct cw_takeoff_concrete {
    int pieces;
    double volume_cy, weight_lb;
    double heaviest_lb;
    const char *heaviest; /**< its mark (the first of equals), NULL when there are no marks */
} cw_takeoff_concrete;

/** Totals over @p count marks (0 gives zeros). */
cw_takeoff_concrete cw_takeoff_concrete_of(const cw_takeoff_mark *marks, int count);

/** Joints of @p rows rows of pieces: the sum of (pieces - 1) over rows that have pieces. */
int cw_takeoff_joints(const int *pieces_in_row, int rows);

/* ---- joint sealant ---- */

typedef enum cw_takeoff_form {
    CW_TAKEOFF_LID,
    CW_TAKEOFF_DOUBLE_U,
    CW_TAKEOFF_RING
} cw_takeoff_form;

typedef struct cw_sealant_input {
    int form; /**< cw_takeoff_form, same order as the job's form */
    double span_in, wall_in, floor_in, top_in;
    double leg_in;     /**< clear height of the base wall (lid, ring: of the wall) */
    double top_leg_in; /**< double-u: clear height of the hood's wall, else not read */
    int base_joints;   /**< transverse joints of bases, or of rings, all barrels */
    int top_joints;    /**< transverse joints of lids or hoods; not read for ring */
    double seat_ft; /**< length of one seat line (one wall), all barrels added; not read for ring */
    int rows, seat_rows; /**< rows of sealant in a transverse joint, and in a seat */
    double roll_ft;
    double splice_in; /**< lost at each butt of two rolls; 0 when the waste covers it */
    double waste_percent;
} cw_sealant_input;

typedef struct cw_sealant {
    double base_joint_ft,
        top_joint_ft; /**< one row round one joint, on the centre line of the tongue */
    double base_ft, top_ft, seat_ft; /**< all of it, all rows */
    double net_ft;
    int splices;      /**< butts of roll to roll in the net length */
    cw_order length;  /**< ft, splices and waste included */
    int rolls;        /**< rounded up */
    double bought_ft; /**< rolls x roll length */
} cw_sealant;

bool cw_sealant_input_valid(const cw_sealant_input *input, cw_pos where, cw_diags *diags);
cw_sealant cw_takeoff_sealant(const cw_sealant_input *input, cw_working *working);

/* ---- external wrap ---- */

typedef struct cw_wrap_input {
    double width_in, height_in; /**< outside of one barrel */
    int barrels;
    int joints;      /**< transverse joints that are wrapped, in each barrel */
    bool wrap_seats; /**< also along the seat line on each exposed side */
    double seat_ft;  /**< length of that line on one side; read only when wrapped */
    double strip_in; /**< width of the strip */
    double lap_in;   /**< extra at each end of every strip */
    double waste_percent;
} cw_wrap_input;

typedef struct cw_wrap {
    double
        round_ft; /**< exposed outside at one joint, all barrels: both outer walls and every top */
    double joints_ft; /**< all joints, laps included */
    double seats_ft;  /**< both sides, laps included */
    double net_ft;
    cw_order length; /**< ft, waste included */
    cw_order area;   /**< sq ft, waste included */
} cw_wrap;

bool cw_wrap_input_valid(const cw_wrap_input *input, cw_pos where, cw_diags *diags);
cw_wrap cw_takeoff_wrap(const cw_wrap_input *input, cw_working *working);

/* ---- bedding ---- */

typedef struct cw_bedding_input {
    double width_in; /**< outside of one barrel */
    int barrels;
    double clear_gap_in; /**< between barrels; not read for one barrel */
    double extra_ft;     /**< beyond the outside wall, each side */
    double thickness_in, leveling_in;
    double length_ft;
    double unit_pcf; /**< of the compacted stone */
    double waste_percent;
} cw_bedding_input;

typedef struct cw_bedding {
    double bed_ft;                        /**< width of the bed */
    double bedding_cy, leveling_cy;       /**< compacted, in place */
    cw_order bedding_tons, leveling_tons; /**< waste included */
} cw_bedding;

bool cw_bedding_input_valid(const cw_bedding_input *input, cw_pos where, cw_diags *diags);
cw_bedding cw_takeoff_bedding(const cw_bedding_input *input, cw_working *working);

/* ---- fill between barrels ---- */

typedef struct cw_barrel_fill_input {
    double gap_in;    /**< clear between barrels */
    double height_ft; /**< filled */
    double length_ft;
    int barrels;
    double loss_percent;
    double rate_cy_per_h; /**< delivered into one gap */
} cw_barrel_fill_input;

typedef struct cw_barrel_fill {
    double net_cy;        /**< all gaps, no loss */
    cw_order volume;      /**< cu yd, all gaps, loss included */
    double rise_ft_per_h; /**< of the level in one gap, no loss: the fastest */
    double hours;         /**< to fill one gap at that rise */
} cw_barrel_fill;

bool cw_barrel_fill_input_valid(const cw_barrel_fill_input *input, cw_pos where, cw_diags *diags);
cw_barrel_fill cw_takeoff_barrel_fill(const cw_barrel_fill_input *input, cw_working *working);

/* ---- truck loads ---- */

typedef struct cw_truck_loads {
    int loads; /**< contiguous blocks of the setting order, next fit: the fewest when nothing is
                  staged */
    int lower_bound; /**< by weight and by slots, whatever the order */
    int overweight;  /**< pieces heavier than the payload: each rides alone and needs a permit or
                        another truck */
    double total_lb;
    double heaviest_load_lb;
} cw_truck_loads;

/** Loads for @p count pieces in setting order.  @p payload_lb > 0, @p slots >= 1 pieces on a truck.
 * When @p load_of is not NULL it gets the load of each piece, from 0. */
cw_truck_loads cw_takeoff_trucks(const double *weights_lb, int count, double payload_lb, int slots,
                                 int *load_of);

/* ---- calculators ---- */

typedef struct cw_truck_loads_input {
    cw_list weights_lb; /**< in setting order */
    double payload_lb;
    int slots;
} cw_truck_loads_input;

typedef struct cw_truck_loads_output {
    int loads, lower_bound, overweight;
    double total_lb, heaviest_load_lb;
    cw_list load_of; /**< of each piece, counted from 1 */
} cw_truck_loads_output;

extern const cw_calc cw_calc_sealant_length;
extern const cw_calc cw_calc_wrap_length;
extern const cw_calc cw_calc_bedding;
extern const cw_calc cw_calc_barrel_fill;
extern const cw_calc cw_calc_truck_loads;

#endif
