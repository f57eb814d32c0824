/* Class of soil, section, volumes and earth against hand values, closed forms and integration. */
#include "../base/calc_test_help.h"

#include "cw/earthwork.h"
#include "cw/trench.h"

/* ---- values ---- */

#define WEDGE                                                                                      \
    "stations=0ft,50ft offsets=-40ft,0ft,40ft heights=8ft,8ft,8ft,14ft,14ft,14ft from=0ft to=50ft " \
    "bottom=16ft level=0ft slope=1:1 step=50ft"
#define BESIDE                                                                                     \
    "stations=0ft,120ft offsets=-40ft,40ft heights=9.667ft,9.667ft,9.667ft,9.667ft from=0ft "       \
    "to=120ft bottom=19.667ft level=0ft slope=1:1 outside_width=164.004in outside_height=116.004in " \
    "pipe_zone=5ft top=9.667ft lift=6in"

static const expected values[] = {
    /* Surface: b 16, z 1, D 8 to 14 over 50 ft, hand: areas 192, 297, 420. */
    {&cw_calc_surface_volume, WEDGE, "volume", 555.56, 0.005, NULL, "prismoid by hand"},
    {&cw_calc_surface_volume, WEDGE, "average", 566.67, 0.005, NULL, "average end area by hand"},
    {&cw_calc_surface_volume, WEDGE, "excess", 11.11, 0.005, NULL, "z L (D1 - D2)^2/162"},
    /* Backfill beside one box, hand: 151.44 ft2 x 120 ft = 673.09 CY in all. */
    {&cw_calc_surface_backfill, BESIDE, "pipe_zone_volume", 6600.0 / 27.0, 0.05, NULL, "120 x 5 x (6 + 5)"},
    {&cw_calc_surface_backfill, BESIDE, "final", 673.09 - 6600.0 / 27.0, 0.05, NULL, "hand"},
    {&cw_calc_surface_backfill, BESIDE, "lifts", 20.0, 0.0, NULL, "hand"},
    /* Level trench, hand: 15.5 x 12 + 12^2 = 330; 15.5 + 24 = 39.5; 330 x 80/27 = 977.78. */
    {&cw_calc_trench_section, "outside_width=114in depth=12ft soil=B", "area", 330.0, 0.005, NULL,
     "hand"},
    {&cw_calc_trench_section, "outside_width=114in depth=12ft soil=B", "top", 39.5, 0.005, NULL,
     "hand"},
    {&cw_calc_trench_volume, "bottom=15.5ft slope=1:1 stations=0ft,80ft depths=12ft,12ft", "exact",
     977.78, 0.005, NULL, "hand"},
/* Two barrels 13.667 ft wide, 4 in apart, hand: b = 27.333 + 0.333 + 6. */
#define TWO "barrels=2 outside_width=164in gap=4in depth=13ft "
    {&cw_calc_trench_section, TWO "soil=B", "bottom", 33.667, 0.0005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=A", "area", 564.42, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=B", "area", 606.67, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=C", "area", 691.17, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=A", "top", 53.17, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=B", "top", 59.67, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, TWO "soil=C", "top", 72.67, 0.005, NULL, "hand"},
    /* Cross fall, closed form: h = D + b/(2 z); z h^2/(1 - z^2 s^2) - b^2/(4 z). */
    {&cw_calc_trench_section, TWO "soil=B cross_fall=10%", "area", 615.66, 0.005, NULL,
     "closed form"},
    {&cw_calc_trench_section, TWO "soil=B cross_fall=10%", "right", 33.148, 0.0005, NULL,
     "(b/2 + z D)/(1 - z s)"},
    {&cw_calc_trench_section, TWO "soil=B cross_fall=10%", "left", 27.121, 0.0005, NULL,
     "(b/2 + z D)/(1 + z s)"},
    {&cw_calc_trench_section, TWO "soil=B cross_fall=-10%", "left", 33.148, 0.0005, NULL, "mirror"},
/* Layers, hand: 16 x 5 + 25, then 26 x 6 + 1.5 x 36 = 315; C below A: 1.5 all through, 357.5. */
#define LAYERS "outside_width=10ft depth=11ft height_2=5ft "
    {&cw_calc_trench_section, LAYERS "soil=B soil_2=C", "area", 315.0, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, LAYERS "soil=B soil_2=C", "top", 44.0, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, LAYERS "soil=C soil_2=A", "area", 357.5, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, LAYERS "soil=C soil_2=A", "top", 49.0, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, LAYERS "soil=C soil_2=A", "slope_top", 1.5, 0.0, NULL,
     "29 CFR 1926 Subpart P App. B, layered soils"},
    /* Class A for a day in 12 ft at most: 1/2:1, 16 x 12 + 72 = 264. */
    /* The higher edge counts, hand: b = 16, (8 + 0.5 x 12)/(1 - 0.5 x 0.05) = 14.36, 0.05 x 14.36
     * over 12 ft; and (8 + 0.75 (8 - 3.5))/(1 - 0.75 x 0.05) = 11.82, 0.05 x 11.82 over 8 ft. */
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=A open_time=24h cross_fall=5%",
     "slope_bottom", 0.75, 0.0, NULL, "29 CFR 1926 Subpart P App. B, table B-1, note 2"},
    {&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=A way=vertical-lower", "slope_top",
     0.75, 0.0, NULL, "29 CFR 1926 Subpart P App. B, figure B-1.1"},
    {&cw_calc_trench_section,
     "outside_width=10ft depth=8ft soil=A way=vertical-lower cross_fall=5%", "slope_top", 1.0, 0.0,
     NULL, "29 CFR 1926 Subpart P App. B, figure B-1.1"},
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=A open_time=24h", "area", 264.0,
     0.005, NULL, "hand"},
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=A open_time=25h", "area", 300.0,
     0.005, NULL, "hand"},
    /* Benches in A, hand: 4 ft up, 3 ft out, 5 ft up, 3.75 out, 3 ft up: 16 x 4 + 22 x 5 + 29.5
       x 3. */
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=A way=bench", "area", 262.5,
     0.005, NULL, "hand"},
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=A way=bench", "top", 29.5, 0.005,
     NULL, "hand"},
    /* In B benches are 4 ft: 16 x 4 + 24 x 4 + 32 x 2. */
    {&cw_calc_trench_section, "outside_width=10ft depth=10ft soil=B cohesive=yes way=bench", "area",
     224.0, 0.005, NULL, "hand"},
    /* Shield to 8 ft: vertical 6.5 ft, C above: 16 x 6.5 + 16 x 5.5 + 1.5 x 5.5^2. */
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=C way=shield shield=8ft", "area",
     237.375, 0.005, NULL, "hand"},
    {&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=C way=shield shield=8ft", "area",
     128.0, 0.005, NULL, "hand: shield to the surface"},
    {&cw_calc_trench_section,
     "outside_width=10ft depth=12ft soil=C way=shield shield=8ft below_shield=3ft", "check", 0, 0,
     "fails", "29 CFR 1926.652(e)(2)(i)"},
    /* Vertical lower part, 3.5 ft: 8 ft deep at 3/4:1, 10 ft deep at 1:1. */
    {&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=A way=vertical-lower", "area",
     143.1875, 0.005, NULL, "hand: 16 x 8 + 0.75 x 4.5^2"},
    {&cw_calc_trench_section, "outside_width=10ft depth=10ft soil=A way=vertical-lower", "area",
     202.25, 0.005, NULL, "hand: 16 x 10 + 6.5^2"},
    {&cw_calc_trench_section, "outside_width=10ft depth=13ft soil=A way=vertical-lower", "check", 0,
     0, "fails", "from memory"},
    /* What the cut is. */
    {&cw_calc_trench_section, TWO "soil=B", "cut", 0, 0, "excavation",
     "29 CFR 1926.650(b): wider than 15 ft"},
    {&cw_calc_trench_section, TWO "soil=B", "annulus", 0, 0, "trench", "29 CFR 1926.650(b)"},
    {&cw_calc_trench_section, TWO "soil=B work_space=16ft", "annulus", 0, 0, "excavation",
     "29 CFR 1926.650(b)"},
    {&cw_calc_trench_section, "outside_width=108in depth=12ft soil=B", "cut", 0, 0, "trench",
     "15 ft exactly"},
    {&cw_calc_trench_section, "outside_width=10ft depth=20ft soil=B", "check", 0, 0, "holds",
     "29 CFR 1926 Subpart P App. B: 20 ft"},
    {&cw_calc_trench_section, "outside_width=10ft depth=20.1ft soil=B", "check", 0, 0, "undecided",
     "29 CFR 1926 Subpart P App. B: 20 ft"},
    {&cw_calc_trench_section, "outside_width=10ft depth=18ft soil=B cross_fall=10%", "check", 0, 0,
     "undecided", "hand: high edge 18 + 0.1 x 28.9 = 20.9 ft"},
    {&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=rock", "protection", 0, 0, "none",
     "29 CFR 1926.652(a)(1)"},
    {&cw_calc_trench_section, "outside_width=10ft depth=4.9ft soil=B", "protection", 0, 0, "watch",
     "29 CFR 1926.652(a)(1)"},
    {&cw_calc_trench_section, "outside_width=10ft depth=5ft soil=B", "protection", 0, 0, "needed",
     "29 CFR 1926.652(a)(1)"},
    {&cw_calc_trench_section, TWO "soil=B spoil_base=28.29ft", "reach_right", 60.12, 0.005, NULL,
     "hand: 29.83 + 2 + 28.29"},
    {&cw_calc_trench_section, TWO "soil=B", "crane", 31.83, 0.005, NULL, "hand: 29.83 + 2"},
    {&cw_calc_trench_section, TWO "soil=B", "right_of_way", 0, 0, "undecided", "not given"},
    {&cw_calc_trench_section, TWO "soil=B right_of_way_left=30ft right_of_way_right=30ft",
     "right_of_way", 0, 0, "holds", "hand: 29.83 ft"},
    {&cw_calc_trench_section, TWO "soil=B right_of_way_left=29ft", "right_of_way", 0, 0, "fails",
     "hand: 29.83 ft"},
/* Average end area over prismoidal: areas 192, 297, 420; z L (D1 - D2)^2/162 = 11.11. */
#define SIX "bottom=16ft slope=1:1 stations=0ft,50ft depths=8ft,14ft"
    {&cw_calc_trench_volume, SIX, "average", 566.67, 0.005, NULL, "hand"},
    {&cw_calc_trench_volume, SIX, "exact", 555.56, 0.005, NULL, "hand"},
    {&cw_calc_trench_volume, SIX, "excess", 11.11, 0.005, NULL, "closed form"},
/* 19th-century railroad handbook: base 20, 1.5:1, cuts 0, 5, 10, 15, 0: 52,500 ft3 prismoidal;
 * its 56,200 by end areas is from truncated areas, 56,250 in full. */
#define ROAD                                                                                       \
    "bottom=20ft slope=1.5:1 stations=0ft,50ft,100ft,150ft,200ft depths=0ft,5ft,10ft,15ft,0ft"
    {&cw_calc_trench_volume, ROAD, "exact", 52500.0 / 27.0, 0.005, NULL, "railroad handbook"},
    {&cw_calc_trench_volume, ROAD, "average", 56250.0 / 27.0, 0.005, NULL, "railroad handbook"},
    {&cw_calc_trench_volume, SIX " overbreak=10%", "overbreak_volume", 55.556, 0.005, NULL, "hand"},
    {&cw_calc_trench_volume, SIX " overbreak=10%", "total", 555.56, 0.005, NULL, "never folded in"},
/* Pit, hand: 80 x 336 = 26,880, ends 2 x 3456. */
#define PIT "length=80ft bottom=16ft depth=12ft slope=1:1 end_slope=1.5:1 ramp_width=14ft"
    {&cw_calc_pit_volume, PIT, "volume", 1251.56, 0.005, NULL, "hand"},
    {&cw_calc_pit_volume, PIT, "one_end", 128.0, 0.005, NULL, "hand"},
    {&cw_calc_pit_volume, PIT, "ramp", 15840.0 / 27.0, 0.005, NULL, "hand: 10 (14 x 72 + 1728/3)"},
    {&cw_calc_pit_volume, PIT, "top_length", 116.0, 0.005, NULL, "hand"},
    /* Earth, construction methods textbook: 1000 bank yards of clay swell to 1300, 186 loads of 7.
     */
    {&cw_calc_earth_volumes, "volume=1000cy earth=clay swell=30% truck=7cy payload=100000lb",
     "loose", 1300.0, 0.005, NULL, "textbook"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=clay swell=30% truck=7cy payload=100000lb",
     "loads", 186, 0, NULL, "textbook"},
    {&cw_calc_earth_volumes, "volume=500cy state=compacted earth=common shrink=5% swell=15%",
     "bank", 526.3, 0.05, NULL, "textbook: 526"},
    {&cw_calc_earth_volumes, "volume=500cy state=compacted earth=common shrink=5% swell=15%",
     "loose", 605.3, 0.05, NULL, "hand"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=clay", "swell_used", 29.87, 0.005, NULL,
     "hand: 3000/2310"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=clay", "shrink_used", 20.0, 0.005, NULL,
     "hand: 3000/3750"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=clay", "load_factor", 0.77, 0.005, NULL,
     "textbook"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=rock", "swell_used", 50.3, 0.05, NULL,
     "hand: 4600/3060"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=rock", "shrink_used", -29.6, 0.05, NULL,
     "hand: 4600/3550"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=sand-gravel", "swell_used", 11.9, 0.05, NULL,
     "hand: 3200/2860"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=sand-gravel", "shrink_used", 12.3, 0.05, NULL,
     "hand: 3200/3650"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=common swell=25% truck=14cy payload=34000lb",
     "loads", 92, 0, NULL, "hand: 34,000/2480 = 13.71"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=common swell=25% truck=14cy payload=34000lb",
     "limited_by", 0, 0, "weight", "hand"},
    {&cw_calc_earth_volumes, "volume=1000cy earth=common swell=25% truck=14cy payload=80000lb",
     "loads", 90, 0, NULL, "hand: 1250/14"},
    {&cw_calc_earth_volumes, "volume=100cy earth=other swell=25% shrink=10%", "limited_by", 0, 0,
     "not-known", "no unit weight"},
    /* Trade page: 200 bank yards at 40 percent are 280; 90 compacted need 100; 140 are hauled off.
     */
    {&cw_calc_earth_balance, "dug=200cy need=90cy swell=40% shrink=10%", "reuse", 100.0, 1e-9, NULL,
     "trade page"},
    {&cw_calc_earth_balance, "dug=200cy need=90cy swell=40% shrink=10%", "export_loose", 140.0,
     1e-9, NULL, "trade page"},
    {&cw_calc_earth_balance, "dug=200cy need=90cy suitable=25% swell=40% shrink=10%", "import",
     45.0, 1e-9, NULL, "hand: 90 - 50 x 0.9"},
    /* Ridge of 125 ft2; ditch of 4 m2 with 25 percent swell, in metres. */
    {&cw_calc_stockpile, "volume=125cy length=27ft earth=earth-dry", "height", 8.84, 0.005, NULL,
     "closed form"},
    {&cw_calc_stockpile, "volume=125cy length=27ft earth=earth-dry", "base", 28.29, 0.005, NULL,
     "closed form"},
    {&cw_calc_stockpile, "volume=5m3 length=1m earth=earth-dry", "height", 1.77 / 0.3048, 0.02,
     NULL, "textbook exercise, 1.77 m"},
    {&cw_calc_stockpile, "volume=5m3 length=1m earth=earth-dry", "base", 5.66 / 0.3048, 0.02, NULL,
     "textbook exercise, 5.66 m"},
    {&cw_calc_stockpile, "volume=300cy shape=cone earth=earth-dry", "base", 46.27, 0.006, NULL,
     "textbook, which rounds 24/pi to 7.64"},
    {&cw_calc_stockpile, "volume=300cy shape=cone earth=earth-dry", "height", 14.46, 0.006, NULL,
     "textbook, which rounds 24/pi to 7.64"},
    /* Ladders within 25 ft. */
    {&cw_calc_egress, "depth=9ft length=120ft", "each", 3, 0, NULL, "hand: 120/50"},
    {&cw_calc_egress, "depth=9ft length=120ft", "total", 6, 0, NULL, "hand"},
    {&cw_calc_egress, "depth=9ft length=50ft strips=1", "total", 1, 0, NULL, "hand"},
    {&cw_calc_egress, "depth=9ft length=51ft strips=1", "total", 2, 0, NULL, "hand"},
    {&cw_calc_egress, "depth=3.9ft length=51ft", "needed", 0, 0, "no",
     "29 CFR 1926.651(c)(2): from 4 ft"},
    {&cw_calc_egress, "depth=4ft length=51ft", "ladder", 7.0, 1e-9, NULL,
     "29 CFR 1926.1053(b)(1): 3 ft above"},
};

/* Class of soil by the text of 29 CFR 1926 Subpart P App. A. */
#define SOIL(words, want, because)                                                                 \
    {&cw_calc_soil_class, words " depth=10ft", "class", 0, 0, want, "App. A"},                     \
    {                                                                                              \
        &cw_calc_soil_class, words " depth=10ft", "because", 0, 0, because, "App. A"               \
    }
#define NEW "disturbed=no submerged=no "

static const expected soils[] = {
    SOIL(NEW "material=cohesive strength=1.5tsf", "A", "strength"),
    SOIL(NEW "material=cohesive strength=1.49tsf", "B", "strength"),
    SOIL(NEW "material=cohesive strength=0.5tsf", "C", "strength"),
    SOIL(NEW "material=cohesive", "C", "not-tested"),
    SOIL(NEW "material=cohesive strength=2tsf fissured=yes", "B", "fissured"),
    SOIL(NEW "material=cohesive strength=2tsf vibration=yes", "B", "vibration"),
    SOIL(NEW "material=cohesive strength=2tsf dip=steep", "C", "dip"),
    SOIL(NEW "material=cohesive strength=2tsf dip=flat", "A", "strength"),
    SOIL("disturbed=yes submerged=no material=cohesive strength=3tsf", "B", "disturbed"),
    SOIL("disturbed=no submerged=yes material=cohesive strength=3tsf", "C", "water"),
    SOIL("disturbed=yes submerged=yes material=cemented", "C", "water"),
    SOIL(NEW "material=cemented", "A", "material"),
    SOIL(NEW "material=angular", "B", "material"),
    SOIL(NEW "material=granular", "C", "material"),
    SOIL(NEW "material=unknown", "C", "material"),
    SOIL(NEW "material=rock", "rock", "material"),
    SOIL(NEW "material=rock fissured=yes", "B", "fissured"),
    SOIL("disturbed=no submerged=yes material=rock", "rock", "material"),
    SOIL("disturbed=no submerged=yes material=rock fissured=yes", "C", "water"),
    SOIL(NEW "material=rock dip=steep", "C", "dip"),
    {&cw_calc_soil_class, NEW "material=granular depth=10ft", "slope_angle", 34.0, 0.5, NULL,
     "29 CFR 1926.652(b)(1): 34 degrees"},
    {&cw_calc_soil_class, NEW "material=angular depth=10ft", "slope_angle", 45.0, 0.5, NULL,
     "table B-1: 45 degrees"},
    {&cw_calc_soil_class, NEW "material=cemented depth=10ft", "slope_angle", 53.0, 0.5, NULL,
     "table B-1: 53 degrees"},
    {&cw_calc_soil_class, NEW "material=rock depth=10ft", "slope_angle", 90.0, 0.0, NULL,
     "table B-1: vertical"},
    {&cw_calc_soil_class, NEW "material=angular depth=10ft distress=yes", "slope", 1.5, 0.0, NULL,
     "App. B, half flatter (from memory)"},
    {&cw_calc_soil_class, NEW "material=cemented depth=12ft open_time=1day", "slope", 0.5, 0.0,
     NULL, "table B-1, short time"},
    {&cw_calc_soil_class, NEW "material=cemented depth=12.1ft open_time=1day", "slope", 0.75, 0.0,
     NULL, "table B-1"},
    {&cw_calc_soil_class, NEW "material=cemented depth=21ft", "check", 0, 0, "undecided",
     "App. B: engineer above 20 ft"},
    {&cw_calc_soil_class, NEW "material=cemented depth=9ft surcharge=yes", "check", 0, 0,
     "undecided", "App. B (c)(3)(iii)"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
    for (size_t i = 0; i < COUNT_OF(soils); i++)
        must_give(&soils[i]);
}

static void published_examples(void **state)
{
    (void)state;
    // Published example: 6 ft deep, 2 ft at the bottom, 20 ft at the top is a slope of 1.5:1.
    const cw_trench_shape narrow = cw_trench_stepped(2.0, 0.0, 1.5);
    const cw_trench_cut cut = cw_trench_cut_plane(&narrow, 6.0, 0.0);
    near("top ft", cut.left_ft + cut.right_ft, 20.0, 1e-9);
    // Published example: 12 ft long, 2.3 ft mean width, 5 ft deep: 138 ft3.
    near("mean width ft3", cw_trench_average_cuft(12.0, 2.0 * 5.0, 2.6 * 5.0), 138.0, 1e-9);
    // hand: areas 150, 190, 250 over 100 ft: 100 (150 + 760 + 250)/6 and 100 x 200.
    near("prismoidal CY", cw_trench_prismoid_cuft(100.0, 150.0, 190.0, 250.0) / 27.0, 716.05,
         0.005);
    near("end areas CY", cw_trench_average_cuft(100.0, 150.0, 250.0) / 27.0, 740.74, 0.005);
    // hand: the hipped end at 10:1 over a 14 ft edge: 10 (14 x 72 + 1152) = 21,600 ft3.
    near("hipped end CY", cw_trench_end_cuft(14.0, 1.0, 10.0, 12.0) / 27.0, 800.0, 1e-9);
}

/* ---- independent areas and volumes ---- */

enum { POLYGON_MAX = 160 };

typedef struct polygon {
    int count;
    cw_trench_point points[POLYGON_MAX];
} polygon;

static void add(polygon *p, double x, double y)
{
    assert_true(p->count < POLYGON_MAX);
    p->points[p->count++] = (cw_trench_point){x, y};
}

/* The dug shape as a closed polygon up to @p top_ft. */
static polygon outline(const cw_trench_shape *shape, double top_ft)
{
    const double half = shape->bottom_ft / 2.0;
    polygon p = {0};
    const cw_trench_point last = shape->face[shape->count - 1];
    const double out = last.offset_ft + shape->side_slope * (top_ft - last.height_ft);
    add(&p, -(half + out), top_ft);
    for (int i = shape->count - 1; i >= 0; i--)
        add(&p, -(half + shape->face[i].offset_ft), shape->face[i].height_ft);
    for (int i = 0; i < shape->count; i++)
        add(&p, half + shape->face[i].offset_ft, shape->face[i].height_ft);
    add(&p, half + out, top_ft);
    return p;
}

/* The part of @p p where ax x + ay y <= c (Sutherland and Hodgman 1974). */
static polygon clip(const polygon *p, double ax, double ay, double c)
{
    polygon kept = {0};
    for (int i = 0; i < p->count; i++) {
        const cw_trench_point a = p->points[i], b = p->points[(i + 1) % p->count];
        const double over_a = ax * a.offset_ft + ay * a.height_ft - c;
        const double over_b = ax * b.offset_ft + ay * b.height_ft - c;
        if (over_a <= 0.0)
            add(&kept, a.offset_ft, a.height_ft);
        if ((over_a < 0.0 && over_b > 0.0) || (over_a > 0.0 && over_b < 0.0)) {
            const double t = over_a / (over_a - over_b);
            add(&kept, a.offset_ft + t * (b.offset_ft - a.offset_ft),
                a.height_ft + t * (b.height_ft - a.height_ft));
        }
    }
    return kept;
}

/* Area of the polygon below the line y = d + s x between the edges of the cut, by the shoelace
 * formula. */
static double clipped_area(const polygon *p, double d, double s, const cw_trench_cut *cut)
{
    const polygon below = clip(p, -s, 1.0, d), right = clip(&below, 1.0, 0.0, cut->right_ft);
    const polygon kept = clip(&right, -1.0, 0.0, cut->left_ft);
    double twice = 0.0;
    for (int i = 0; i < kept.count; i++) {
        const cw_trench_point a = kept.points[i], b = kept.points[(i + 1) % kept.count];
        twice += a.offset_ft * b.height_ft - b.offset_ft * a.height_ft;
    }
    return fabs(twice) / 2.0;
}

static cw_trench_shape random_shape(uint64_t *seed, double depth_ft)
{
    const double bottom = between(seed, 4.0, 45.0), z = between(seed, 0.3, 2.0);
    const double kind = next_random(seed);
    if (kind < 0.2)
        return cw_trench_benched(bottom, z, 4.0, between(seed, 3.0, 5.0), 2.5 * depth_ft + bottom);
    if (kind < 0.4)
        return cw_trench_stepped(bottom, between(seed, 0.0, depth_ft), z);
    cw_trench_layer layers[CW_TRENCH_LAYERS_MAX];
    double slopes[CW_TRENCH_LAYERS_MAX], slope = z;
    const int count = 1 + (int)(next_random(seed) * 4.0);
    for (int i = 0; i < count; i++) {
        layers[i] = (cw_trench_layer){between(seed, 0.5, 6.0), CW_SOIL_B};
        slopes[i] = slope;
        slope += between(seed, 0.0, 0.3);
    }
    return cw_trench_sloped(bottom, layers, slopes, count);
}

static const uint64_t first_seed = 20260302u;

/* The ground, d + s x outward, lies above the face up to the edge of the cut and on it there. */
static void edge_is_first_meeting(const cw_trench_shape *shape, double edge_ft, double d, double s)
{
    const double out = edge_ft - shape->bottom_ft / 2.0, ground = d + s * edge_ft;
    const cw_trench_point last = shape->face[shape->count - 1];
    double low = last.height_ft, high = 1e9;
    for (int i = 0; i + 1 < shape->count; i++) {
        const cw_trench_point p = shape->face[i], q = shape->face[i + 1];
        if (p.offset_ft < out - 1e-9)
            assert_true(p.height_ft <= d + s * (shape->bottom_ft / 2.0 + p.offset_ft) + 1e-9);
        if (out > q.offset_ft + 1e-9)
            continue;
        const double run = q.offset_ft - p.offset_ft;
        low = p.height_ft +
              (run > 0.0 ? (out - p.offset_ft) / run : 0.0) * (q.height_ft - p.height_ft);
        high = run > 0.0 ? low : q.height_ft;
        if (ground <= high + 1e-9)
            break;
        low = last.height_ft;
        high = 1e9;
    }
    if (out > last.offset_ft && shape->side_slope > 0.0)
        low = high = last.height_ft + (out - last.offset_ft) / shape->side_slope;
    assert_true(ground >= low - 1e-9 && ground <= high + 1e-9);
}

static void areas_match_clipped_polygons(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    for (int i = 0; i < 2000; i++) {
        const double d = between(&seed, 1.0, 25.0);
        const cw_trench_shape shape = random_shape(&seed, d);
        const double most = fmin(0.25, d / shape.bottom_ft), s = between(&seed, -most, most);
        const polygon whole = outline(&shape, 400.0);
        const cw_trench_cut got = cw_trench_cut_plane(&shape, d, s);
        const double want = clipped_area(&whole, d, s, &got);
        near("area ft2", got.area_sqft, want, 1e-9 * want + 1e-9);
        edge_is_first_meeting(&shape, got.left_ft, d, -s);
        edge_is_first_meeting(&shape, got.right_ft, d, s);
        near("left edge ft", got.left_height_ft, d - s * got.left_ft, 1e-9);
        near("right edge ft", got.right_height_ft, d + s * got.right_ft, 1e-9);
        assert_false(got.filled);
    }
}

/* Gauss-Legendre, 3 points, on many panels: the area is a quadratic but for a few corners. */
static void volumes_match_integration(void **state)
{
    (void)state;
    static const double at[] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double weight[] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    enum { PANELS = 400 };
    uint64_t seed = first_seed + 1;
    for (int i = 0; i < 200; i++) {
        const double d1 = between(&seed, 0.0, 20.0), d2 = between(&seed, 1.0, 20.0);
        const double length = between(&seed, 1.0, 60.0);
        const cw_trench_shape shape = random_shape(&seed, fmax(d1, d2));
        const double s = between(&seed, -0.2, 0.2);
        const polygon whole = outline(&shape, 400.0);
        double sum = 0.0;
        for (int k = 0; k < PANELS; k++)
            for (int g = 0; g < 3; g++) {
                const double d = d1 + (d2 - d1) * (k + at[g]) / PANELS;
                const cw_trench_cut cut = cw_trench_cut_plane(&shape, d, s);
                sum += weight[g] * clipped_area(&whole, d, s, &cut);
            }
        const double want = sum * length / PANELS;
        const double got = cw_trench_prism_cuft(&shape, s, d1, d2, length);
        near("volume ft3", got, want, 1e-4 * want); // 0.01 percent
        near("backward ft3", cw_trench_prism_cuft(&shape, s, d2, d1, length), got, 1e-9 * got);
    }
}

/* Hipped end, ramp and pit against slices. */
static void ends_match_slices(void **state)
{
    (void)state;
    enum { SLICES = 4000 };
    uint64_t seed = first_seed + 2;
    for (int i = 0; i < 50; i++) {
        const double b = between(&seed, 4.0, 60.0), z = between(&seed, 0.0, 2.0);
        const double r = between(&seed, 0.5, 12.0), d = between(&seed, 2.0, 20.0);
        double end = 0.0, ramp = 0.0;
        for (int k = 0; k < SLICES; k++) {
            const double left = d * (k + 0.5) / SLICES, up = d - left;
            // The end's floor widens along the hips; the ramp's floor keeps its width.
            end += (b + 2.0 * z * up) * left + z * left * left;
            ramp += b * left + z * left * left;
        }
        near("end ft3", cw_trench_end_cuft(b, z, r, d), end * r * d / SLICES,
             1e-4 * end * r * d / SLICES);
        near("ramp ft3", cw_trench_ramp_cuft(b, z, r, d), ramp * r * d / SLICES,
             1e-4 * ramp * r * d / SLICES);
    }
}

/* ---- polyline ground ---- */

static double ground_at(const cw_trench_ground *g, double x)
{
    if (x <= g->points[0].offset_ft)
        return g->points[0].height_ft;
    int i = 1;
    while (i < g->count - 1 && x > g->points[i].offset_ft)
        i++;
    const cw_trench_point a = g->points[i - 1], b = g->points[i];
    return x >= b.offset_ft ? b.height_ft
                            : a.height_ft + (b.height_ft - a.height_ft) * (x - a.offset_ft) /
                                                (b.offset_ft - a.offset_ft);
}

/* Walks outward in small steps until the face is above the ground. */
static double stepped_area(const cw_trench_ground *g, double bottom, double z, double sign)
{
    const double step = 0.0005;
    double area = 0.0;
    for (int k = 0; k < 400000; k++) {
        const double x = (k + 0.5) * step;
        const double floor = x <= bottom / 2.0 ? 0.0 : (x - bottom / 2.0) / z;
        const double over = ground_at(g, sign * x) - floor;
        if (over < 0.0 && x > bottom / 2.0)
            break;
        area += fmax(0.0, over) * step;
    }
    return area;
}

static void ground_of_points_matches_steps(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 3;
    for (int i = 0; i < 60; i++) {
        cw_trench_ground g = {.count = 12};
        double x = -60.0;
        for (int k = 0; k < g.count; k++) {
            // Some points lie below the bottom: there is nothing to dig, and that is reported.
            g.points[k] = (cw_trench_point){x, between(&seed, i % 3 == 0 ? -3.0 : 2.0, 14.0)};
            x += between(&seed, 2.0, 18.0);
        }
        const double bottom = between(&seed, 4.0, 40.0), z = between(&seed, 0.4, 1.8);
        const cw_trench_shape shape = cw_trench_stepped(bottom, 0.0, z);
        const cw_trench_cut got = cw_trench_cut_of(&shape, &g);
        const double want = stepped_area(&g, bottom, z, 1.0) + stepped_area(&g, bottom, z, -1.0);
        near("area ft2", got.area_sqft, want, 2e-4 * want + 0.02);
        bool below = false;
        for (int k = 0; k <= 1000; k++)
            below = below || ground_at(&g, bottom * (k / 1000.0 - 0.5)) < 0.0;
        assert_int_equal(got.filled, below);
    }
}

static void a_ditch_stops_the_cut(void **state)
{
    (void)state;
    // hand: b 10, z 1, ground 4 ft high but for a ditch to 1 ft at 12 ft on the right: the face
    // meets its side.  Left: 4 ft out.  Right: ground falls 4 to 1 from 6 to 12, face rises from 5:
    // 4 - (x - 6)/2 = x - 5, x = 8, height 3.
    const cw_trench_shape shape = cw_trench_stepped(10.0, 0.0, 1.0);
    const cw_trench_ground ground = {
        .count = 5, .points = {{-30.0, 4.0}, {6.0, 4.0}, {12.0, 1.0}, {14.0, 6.0}, {40.0, 6.0}}};
    const cw_trench_cut cut = cw_trench_cut_of(&shape, &ground);
    near("left ft", cut.left_ft, 9.0, 1e-9);
    near("right ft", cut.right_ft, 8.0, 1e-9);
    near("height ft", cut.right_height_ft, 3.0, 1e-9);
    // hand: left wedge 8, middle 40, right: 5 to 6 is (4 + 3)/2, 6 to 8 is (3 + 0)/2 x 2.
    near("area ft2", cut.area_sqft, 8.0 + 40.0 + 3.5 + 3.0, 1e-9);
}

/* ---- properties ---- */

static void flatter_is_never_less(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 4;
    for (int i = 0; i < 500; i++) {
        const double b = between(&seed, 4.0, 40.0), d1 = between(&seed, 0.0, 20.0);
        const double d2 = between(&seed, 0.0, 20.0), s = between(&seed, -0.2, 0.2);
        double before = 0.0;
        for (double z = 0.0; z < 2.1; z += 0.25) {
            const cw_trench_shape shape = cw_trench_stepped(b, 0.0, z);
            const double volume = cw_trench_prism_cuft(&shape, s, d1, d2, 30.0);
            if (volume < before * (1.0 - 1e-12))
                fail_msg("slope %.2f gives %.9g ft3, less than %.9g", z, volume, before);
            before = volume;
        }
    }
}

static void layers_of_one_class_are_one(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 5;
    for (int i = 0; i < 300; i++) {
        const int soil = (int)(next_random(&seed) * CW_SOIL_CLASSES);
        cw_trench_layer layers[4];
        double slopes[4];
        for (int k = 0; k < 4; k++)
            layers[k] = (cw_trench_layer){between(&seed, 0.5, 5.0), soil};
        const double d = between(&seed, 1.0, 20.0), b = between(&seed, 4.0, 40.0);
        cw_trench_layer_slopes(layers, 4, d, false, &cw_data, slopes);
        const cw_trench_shape many = cw_trench_sloped(b, layers, slopes, 4);
        const cw_trench_shape one = cw_trench_sloped(b, layers, slopes, 1);
        const double s = between(&seed, -0.1, 0.1) * fmin(1.0, d / b);
        near("area ft2", cw_trench_cut_plane(&many, d, s).area_sqft,
             cw_trench_cut_plane(&one, d, s).area_sqft, 1e-9 * d * (b + 3.0 * d));
    }
}

static void weaker_below_governs(void **state)
{
    (void)state;
    // Every pair of classes: the upper never steeper than the lower, and never than its own.
    for (int low = 0; low < CW_SOIL_CLASSES; low++)
        for (int high = 0; high < CW_SOIL_CLASSES; high++) {
            const cw_trench_layer layers[2] = {{5.0, low}, {5.0, high}};
            double slopes[2];
            cw_trench_layer_slopes(layers, 2, 10.0, false, &cw_data, slopes);
            const double own = cw_trench_class_slope(&cw_data, high, 10.0, false);
            near("upper slope", slopes[1], fmax(slopes[0], own), 0.0);
        }
}

static void nobody_is_far_from_a_ladder(void **state)
{
    (void)state;
    for (double length = 1.0; length <= 900.0; length += 3.7) {
        const cw_egress_input in = {.depth_ft = 8.0, .length_ft = length, .strips = 1};
        const cw_egress out = cw_trench_egress(&in, &cw_data, NULL);
        assert_int_equal(out.places_ft.count, out.each);
        assert_true(out.places_ft.items[0] <= 25.0 + 1e-9);
        assert_true(length - out.places_ft.items[out.each - 1] <= 25.0 + 1e-9);
        for (int i = 1; i < out.each; i++)
            assert_true(out.places_ft.items[i] - out.places_ft.items[i - 1] <= 50.0 + 1e-9);
    }
}

/* ---- bad input ---- */

static void bad_input_is_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_soil_class, "material=cohesive depth=10ft submerged=no", CW_E_MISSING,
           "disturbed");
    refuse(&cw_calc_soil_class, "material=cohesive depth=10ft disturbed=no", CW_E_MISSING,
           "submerged");
    refuse(&cw_calc_soil_class,
           "disturbed=no submerged=no material=granular strength=1tsf depth=10ft", CW_E_CONFLICT,
           "granular|leave it out");
    refuse(&cw_calc_soil_class, "disturbed=no submerged=no material=sand depth=10ft", CW_E_CHOICE,
           "granular");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=B way=bench", CW_E_CONFLICT,
           "class B|cohesive=yes");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=12ft soil=C way=bench", CW_E_CONFLICT,
           "class C");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=B way=vertical-lower",
           CW_E_CONFLICT, "class A|class B");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=B way=shield", CW_E_MISSING,
           "shield=8 ft");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=B height_3=4ft",
           CW_E_MISSING, "height_2");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=8ft soil=B height_2=4ft height_3=3ft",
           CW_E_GEOMETRY, "height_3 3|height_2 4");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=3ft soil=B cross_fall=40%",
           CW_E_GEOMETRY, "low side|check the depth");
    refuse(&cw_calc_trench_section, "outside_width=10ft depth=0ft soil=B", CW_E_RANGE, "depth");
    refuse(&cw_calc_trench_volume, "bottom=16ft slope=1:1 stations=0ft,50ft depths=8ft",
           CW_E_CONFLICT, "2 stations and 1 depths");
    refuse(&cw_calc_trench_volume, "bottom=16ft slope=1:1 stations=50ft,50ft depths=8ft,9ft",
           CW_E_GEOMETRY, "station 2|order them");
    refuse(&cw_calc_trench_volume,
           "bottom=16ft slope=3:1 cross_fall=40% stations=0ft,50ft depths=8ft,9ft", CW_E_GEOMETRY,
           "never meets");
    refuse(&cw_calc_pit_volume,
           "length=80ft bottom=10ft depth=12ft slope=1:1 end_slope=1:1 ramp_width=14ft",
           CW_E_GEOMETRY, "ramp_width 14|10 ft");
    refuse(&cw_calc_earth_volumes, "volume=10cy earth=other swell=10%", CW_E_MISSING,
           "swell and shrink");
    refuse(&cw_calc_egress, "depth=9 length=120ft", CW_E_UNIT, "depth");
}

/* Every row that the code names is there. */
static void rows_are_there(void **state)
{
    (void)state;
    static const char *const ids[] = {"trench.bench_first",  "trench.bench_next_a",
                                      "trench.bench_next_b", "trench.vertical_depth_steep",
                                      "trench.vertical_max", "trench.shield_above",
                                      "repose.clay",         "repose.gravel",
                                      "repose.sand_dry",     "repose.sand_moist"};
    for (size_t i = 0; i < COUNT_OF(ids); i++)
        if (!cw_rows_find(&cw_data, ids[i]))
            fail_msg("no row %s", ids[i]);
}

/* Hand: a bench of 4 ft and then 5 ft in class A (inner corners on 3/4:1) over a 10 ft bottom: at 6 ft 40 + 2 x (10 + 2 x 3) = 72 ft2.
 * Elsewhere the same as the search for edges finds, which clipped polygons bear out. */
static void level_planes(void **state)
{
    (void)state;
    const cw_trench_shape bench = cw_trench_benched(10.0, 0.75, 4.0, 5.0, 19.0);
    near("bench ft2", cw_trench_level_sqft(&bench, 6.0), 72.0, 1e-12);
    near("bench half ft", cw_trench_level_half_ft(&bench, 6.0), 8.0, 1e-12);
    const cw_trench_layer layers[] = {{3.0, CW_SOIL_B}, {4.0, CW_SOIL_C}};
    const double slopes[] = {1.0, 1.5};
    const cw_trench_shape shapes[] = {bench, cw_trench_sloped(16.0, layers, slopes, 2), cw_trench_stepped(12.0, 6.5, 1.5)};
    for (int i = 0; i < 3; i++)
        for (double h = 0.3; h < 18.0; h += 0.7) {
            const cw_trench_cut cut = cw_trench_cut_plane(&shapes[i], h, 0.0);
            near("level ft2", cw_trench_level_sqft(&shapes[i], h), cut.area_sqft, 1e-9 * cut.area_sqft);
            near("level half ft", cw_trench_level_half_ft(&shapes[i], h), cut.right_ft, 1e-9 * cut.right_ft);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(published_examples),
        cmocka_unit_test(areas_match_clipped_polygons),
        cmocka_unit_test(level_planes),
        cmocka_unit_test(volumes_match_integration),
        cmocka_unit_test(ends_match_slices),
        cmocka_unit_test(ground_of_points_matches_steps),
        cmocka_unit_test(a_ditch_stops_the_cut),
        cmocka_unit_test(flatter_is_never_less),
        cmocka_unit_test(layers_of_one_class_are_one),
        cmocka_unit_test(weaker_below_governs),
        cmocka_unit_test(nobody_is_far_from_a_ladder),
        cmocka_unit_test(bad_input_is_refused),
        cmocka_unit_test(rows_are_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
