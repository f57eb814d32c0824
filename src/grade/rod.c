#include "grade_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char leveling[] = "differential leveling: reading = height of instrument - elevation";
static const char range[] = "common practice: range of culvert runs";

/* ---- rod and laser ---- */

#define TYPE cw_rod_input

static const cw_field rod_inputs[] = {
    NUMBER_IN("benchmark", "z_b", CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "elevation", range, TYPE,
              benchmark_ft),
    NUMBER_IN("backsight", "BS", CW_DIM_FT, 0.0, 50.0, NULL, "rod on the benchmark",
              "common practice: range of rods", TYPE, backsight_ft),
    NUMBER_IN("outlet", "z_o", CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "invert at the outlet",
              range, TYPE, outlet_ft),
    NUMBER_IN("slope", "S", CW_DIM_SLOPE, 0.0, 0.3, NULL, "of the run, rising upstream", range,
              TYPE, slope),
    NUMBER_IN("distance", "x", CW_DIM_FT, 0.0, 20000.0, NULL,
              "of the point from the outlet, in plan", range, TYPE, distance_ft),
    NUMBER_IN("floor", "t_f", CW_DIM_IN, 4.0, 60.0, NULL, "thickness of the floor", range, TYPE,
              floor_in),
    NUMBER_IN("leveling", "t_l", CW_DIM_IN, 0.0, 24.0, "@bedding.leveling", "leveling course", NULL,
              TYPE, leveling_in),
    NUMBER_IN("bedding", "t_b", CW_DIM_IN, 0.0, 60.0, "@bedding.thickness", "bedding", NULL, TYPE,
              bedding_in),
    OPTION_IN("wall_top", "h_w", CW_DIM_IN, 1.0, 360.0,
              "top of the base's wall above the invert, square to grade", range, TYPE, wall_top_in,
              has_wall),
    NUMBER_IN("raise", "c", CW_DIM_IN, -24.0, 24.0, "0 in", "camber of the invert here", range,
              TYPE, rise_in),
};

static const cw_field rod_outputs[] = {
    OUT("instrument", "HI", CW_DIM_ELEV_FT, "height of instrument", cw_rod, instrument_ft),
    OUT("invert", "z", CW_DIM_ELEV_FT, "invert at the point", cw_rod, invert_ft),
    OUT("bed", "z_l", CW_DIM_ELEV_FT, "top of the leveling course", cw_rod, bed_ft),
    OUT("subgrade", "z_s", CW_DIM_ELEV_FT, "bottom of the bedding", cw_rod, subgrade_ft),
    OPTION_OUT("top_of_wall", "z_w", CW_DIM_ELEV_FT, "seat of the top piece", cw_rod, wall_top_ft,
               has_wall),
    OUT("rod_invert", NULL, CW_DIM_FT, "reading on the invert", cw_rod, rod_invert_ft),
    OUT("rod_bed", NULL, CW_DIM_FT, "reading on the leveling course", cw_rod, rod_bed_ft),
    OUT("rod_subgrade", NULL, CW_DIM_FT, "reading on the subgrade", cw_rod, rod_subgrade_ft),
    OPTION_OUT("rod_wall", NULL, CW_DIM_FT, "reading on the wall", cw_rod, rod_wall_top_ft,
               has_wall),
    OUT("laser", NULL, CW_DIM_NONE, "grade to dial, in percent", cw_rod, laser_percent),
    CHOICE_OUT("check", cw_verdict_words,
               "no reading below zero: the instrument stands high enough", cw_rod, verdict),
};

cw_rod cw_grade_rod(const cw_rod_input *in, cw_working *w)
{
    const double tilt = sqrt(1.0 + in->slope * in->slope); // 1/cos of the grade
    cw_rod out = {.laser_percent = in->slope * CW_PERCENT, .has_wall = in->has_wall};
    out.instrument_ft = cw_step_add(w, "HI", "z_b + BS", in->benchmark_ft + in->backsight_ft,
                                    CW_DIM_ELEV_FT, leveling);
    out.invert_ft =
        cw_step_add(w, "z", "z_o + S x + c",
                    in->outlet_ft + in->slope * in->distance_ft + in->rise_in / CW_IN_PER_FT,
                    CW_DIM_ELEV_FT, "closed form: straight grade");
    // Thicknesses stand square to the grade, elevations are plumb.
    out.bed_ft =
        cw_step_add(w, "z_l", "z - t_f / cos a", out.invert_ft - in->floor_in * tilt / CW_IN_PER_FT,
                    CW_DIM_ELEV_FT, "closed form: thickness square to grade");
    const double under_in = in->leveling_in + in->bedding_in;
    out.subgrade_ft = cw_step_add(w, "z_s", "z_l - (t_l + t_b) / cos a",
                                  out.bed_ft - under_in * tilt / CW_IN_PER_FT, CW_DIM_ELEV_FT,
                                  "closed form: thickness square to grade");
    out.rod_invert_ft =
        cw_step_add(w, "r", "HI - z", out.instrument_ft - out.invert_ft, CW_DIM_FT, leveling);
    out.rod_bed_ft =
        cw_step_add(w, "r_l", "HI - z_l", out.instrument_ft - out.bed_ft, CW_DIM_FT, leveling);
    out.rod_subgrade_ft =
        cw_step_add(w, "r_s", "HI - z_s", out.instrument_ft - out.subgrade_ft, CW_DIM_FT, leveling);
    double least = out.rod_invert_ft;
    if (in->has_wall) {
        out.wall_top_ft = cw_step_add(w, "z_w", "z + h_w / cos a",
                                      out.invert_ft + in->wall_top_in * tilt / CW_IN_PER_FT,
                                      CW_DIM_ELEV_FT, "closed form: height square to grade");
        out.rod_wall_top_ft = cw_step_add(w, "r_w", "HI - z_w", out.instrument_ft - out.wall_top_ft,
                                          CW_DIM_FT, leveling);
        least = out.rod_wall_top_ft;
    }
    out.verdict = cw_meets(0.0, least) ? CW_HOLDS : CW_FAILS;
    return out;
}

static void run_rod(const void *input, void *output, cw_working *working)
{
    *(cw_rod *)output = cw_grade_rod(input, working);
}

const cw_calc cw_calc_rod_reading = {
    .name = "rod-reading",
    .title = "Rod readings for a level set-up",
    .group = "grade",
    .about = "What the rod reads on subgrade, bed, invert and wall top at one distance from the "
             "outlet, and the grade for a laser.  The wall top, not only the invert, decides "
             "whether a lid rocks.  Earth curvature is left out: keep sights under 200 ft.",
    .source = "differential leveling; closed form: straight grade",
    .inputs = rod_inputs,
    .input_count = COUNT(rod_inputs),
    .input_size = sizeof(cw_rod_input),
    .outputs = rod_outputs,
    .output_count = COUNT(rod_outputs),
    .output_size = sizeof(cw_rod),
    .run = run_rod,
    .example = "benchmark=515.87ft backsight=4.62ft outlet=512.34ft slope=1.25% distance=60.4119ft "
               "floor=10in leveling=0in bedding=6in",
};

/* ---- stakes ---- */

#undef TYPE
#define TYPE cw_stake_input

static const cw_field stake_inputs[] = {
    NUMBER_IN("north", "N_0", CW_DIM_COORD_FT, -1e8, 1e8, "0 ft", "of the outlet, centre line",
              range, TYPE, north_ft),
    NUMBER_IN("east", "E_0", CW_DIM_COORD_FT, -1e8, 1e8, "0 ft", "of the outlet, centre line",
              range, TYPE, east_ft),
    NUMBER_IN("azimuth", "Az", CW_DIM_DEG, 0.0, 360.0, NULL,
              "of the laying direction, clockwise from north", "definition", TYPE, azimuth_deg),
    NUMBER_IN("distance", "x", CW_DIM_FT, 0.0, 20000.0, NULL, "from the outlet, in plan", range,
              TYPE, distance_ft),
    NUMBER_IN("offset", "o", CW_DIM_FT, -500.0, 500.0, NULL, "from the centre line, right +", range,
              TYPE, offset_ft),
    NUMBER_IN("hub", NULL, CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "elevation of the hub", range,
              TYPE, hub_ft),
    NUMBER_IN("invert", NULL, CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "design there", range, TYPE,
              invert_ft),
    NUMBER_IN("subgrade", NULL, CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "design there", range, TYPE,
              subgrade_ft),
};

static const cw_field stake_outputs[] = {
    OUT("north_stake", "N", CW_DIM_COORD_FT, "of the stake", cw_stake, north_ft),
    OUT("east_stake", "E", CW_DIM_COORD_FT, "of the stake", cw_stake, east_ft),
    OUT("cut_invert", NULL, CW_DIM_FT, "hub to invert: cut +, fill -", cw_stake, cut_invert_ft),
    OUT("cut_subgrade", NULL, CW_DIM_FT, "hub to subgrade: cut +, fill -", cw_stake,
        cut_subgrade_ft),
};

cw_stake cw_grade_stake(const cw_stake_input *in, cw_working *w)
{
    const double azimuth = in->azimuth_deg * CW_RAD_PER_DEG;
    const double x = in->distance_ft, o = in->offset_ft;
    static const char rotation[] = "closed form: rotation in plan";
    cw_stake out = {.north_ft = 0.0};
    out.north_ft =
        cw_step_add(w, "N", "N_0 + x cos Az - o sin Az",
                    in->north_ft + x * cos(azimuth) - o * sin(azimuth), CW_DIM_COORD_FT, rotation);
    out.east_ft =
        cw_step_add(w, "E", "E_0 + x sin Az + o cos Az",
                    in->east_ft + x * sin(azimuth) + o * cos(azimuth), CW_DIM_COORD_FT, rotation);
    out.cut_invert_ft =
        cw_step_add(w, "C_i", "hub - invert", in->hub_ft - in->invert_ft, CW_DIM_FT, leveling);
    out.cut_subgrade_ft =
        cw_step_add(w, "C_s", "hub - subgrade", in->hub_ft - in->subgrade_ft, CW_DIM_FT, leveling);
    return out;
}

static void run_stake(const void *input, void *output, cw_working *working)
{
    *(cw_stake *)output = cw_grade_stake(input, working);
}

const cw_calc cw_calc_offset_stake = {
    .name = "offset-stake",
    .title = "Offset stake with its cuts",
    .group = "grade",
    .about =
        "Plan place of a stake beside the run and the cut from its hub to invert and subgrade. "
        "A straight run; the datum is the one of the values given.",
    .source = "closed form: rotation in plan; differential leveling",
    .inputs = stake_inputs,
    .input_count = COUNT(stake_inputs),
    .input_size = sizeof(cw_stake_input),
    .outputs = stake_outputs,
    .output_count = COUNT(stake_outputs),
    .output_size = sizeof(cw_stake),
    .run = run_stake,
    .example = "north=1000ft east=2000ft azimuth=30deg distance=60ft offset=10ft hub=518.42ft "
               "invert=513.09ft subgrade=511.76ft",
};

/* ---- levels ---- */

#undef TYPE
#define TYPE cw_level_input

static const cw_field level_inputs[] = {
    NUMBER_IN("start", NULL, CW_DIM_ELEV_FT, -1500.0, 30000.0, NULL, "elevation of the benchmark",
              range, TYPE, start_ft),
    {"backsights", "BS_i", CW_KIND_LIST, CW_DIM_FT, 0.0, 50.0, NULL, true,
     "one to a set-up, in order", "common practice: range of rods", NULL,
     offsetof(TYPE, backsights_ft), CW_NO_FLAG},
    {"foresights", "FS_i", CW_KIND_LIST, CW_DIM_FT, 0.0, 50.0, NULL, true, "one to a set-up",
     "common practice: range of rods", NULL, offsetof(TYPE, foresights_ft), CW_NO_FLAG},
    OPTION_IN("close", NULL, CW_DIM_ELEV_FT, -1500.0, 30000.0, "known elevation of the last point",
              range, TYPE, close_ft, has_close),
    NUMBER_IN("line", "M", CW_DIM_FT, 1.0, 528000.0, "1 mi", "length of the line of levels", range,
              TYPE, line_ft),
    NUMBER_IN("allowed", NULL, CW_DIM_FT, 0.001, 1.0, "0.05 ft",
              "misclosure for one mile; it grows with the square root",
              "third-order leveling (from memory, not verified)", TYPE, allowed_ft),
};

static const cw_field level_outputs[] = {
    LIST_OUT("elevations", NULL, CW_DIM_ELEV_FT, "of each foresight, as read", cw_level,
             elevations_ft),
    LIST_OUT("adjusted", NULL, CW_DIM_ELEV_FT, "with the misclosure spread by set-ups", cw_level,
             adjusted_ft),
    OUT("rise", NULL, CW_DIM_FT, "sum of backsights less sum of foresights", cw_level, rise_ft),
    OPTION_OUT("misclosure", NULL, CW_DIM_FT, "read less known", cw_level, misclosure_ft,
               has_close),
    OUT("misclosure_allowed", NULL, CW_DIM_FT, "either way", cw_level, allowed_ft),
    CHOICE_OUT("check", cw_verdict_words, "undecided without a closing point", cw_level, verdict),
};

bool cw_level_input_valid(const cw_level_input *in, cw_pos where, cw_diags *diags)
{
    return cw_grade_pairs(&in->backsights_ft, &in->foresights_ft, "backsights and foresights",
                          where, diags);
}

cw_level cw_grade_level(const cw_level_input *in, cw_working *w)
{
    const int count = in->backsights_ft.count;
    cw_level out = {.has_close = in->has_close, .verdict = CW_UNDECIDED};
    double elevation = in->start_ft;
    out.elevations_ft.count = count;
    out.adjusted_ft.count = count;
    for (int i = 0; i < count; i++) {
        elevation += in->backsights_ft.items[i] - in->foresights_ft.items[i];
        out.elevations_ft.items[i] = elevation;
    }
    out.rise_ft = cw_step_add(w, "rise", "sum BS - sum FS", elevation - in->start_ft, CW_DIM_FT,
                              "differential leveling: arithmetic check");
    out.allowed_ft = cw_step_add(w, "e_a", "allowed x sqrt(miles)",
                                 in->allowed_ft * sqrt(in->line_ft / CW_FT_PER_MILE), CW_DIM_FT,
                                 "third-order leveling (from memory, not verified)");
    if (in->has_close) {
        out.misclosure_ft = cw_step_add(w, "e", "last elevation - known", elevation - in->close_ft,
                                        CW_DIM_FT, "differential leveling");
        out.verdict = cw_meets(fabs(out.misclosure_ft), out.allowed_ft) ? CW_HOLDS : CW_FAILS;
    }
    for (int i = 0; i < count; i++)
        out.adjusted_ft.items[i] = out.elevations_ft.items[i] - out.misclosure_ft * (i + 1) / count;
    return out;
}

static bool level_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_level_input_valid(input, where, diags);
}

static void run_level(const void *input, void *output, cw_working *working)
{
    *(cw_level *)output = cw_grade_level(input, working);
}

const cw_calc cw_calc_level_loop = {
    .name = "level-loop",
    .title = "Line of levels",
    .group = "grade",
    .about =
        "Elevations of turning points, the arithmetic check, and the misclosure on a known "
        "point, spread evenly over the set-ups.  Intermediate sights are unchecked and have no "
        "place here.",
    .source = "differential leveling",
    .inputs = level_inputs,
    .input_count = COUNT(level_inputs),
    .input_size = sizeof(cw_level_input),
    .outputs = level_outputs,
    .output_count = COUNT(level_outputs),
    .output_size = sizeof(cw_level),
    .valid = level_valid,
    .run = run_level,
    .example = "start=100ft backsights=4.20ft,5.15ft,3.05ft foresights=2.50ft,3.50ft,4.10ft",
};
