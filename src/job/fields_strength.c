/* The job format, strength: how the box is judged, its steel, and the machines that go over it. */
#include "fields_internal.h"

/* Same words and order as in the structures discipline (a test of the plan compares them). */
static const char *const resistance_words[] = {"box", "three-sided", "cast", NULL};
static const char *const spread_words[] = {"box", "plain", "fine-soil", NULL};
static const char *const edition_words[] = {"lrfd-8", "other", NULL};
static const char *const bed_words[] = {"embankment", "trench", NULL};
static const char *const face_words[] = {"top-inside",   "top-outside",  "wall-inside",
                                         "wall-outside", "floor-inside", "floor-outside",
                                         NULL};
static const char *const use_words[] = {"permit", "crossing", NULL};
static const char *const kind_words[] = {"wheels", "tracks", NULL};

#define STRENGTH(member) offsetof(cw_job_strength, member)
#define STEEL(member) offsetof(cw_job_steel, member)
#define VEHICLE(member) offsetof(cw_job_vehicle, member)

const cw_field cw_job_strength_fields[CW_JOB_STRENGTH_FIELDS] = {
    NEEDED_CHOICE("resistance", resistance_words, STRENGTH(resistance),
                  "set of resistance factors that the owner asks for"),
    NEEDED_CHOICE("spread", spread_words, STRENGTH(spread),
                  "how wheels spread through the fill: as over a box, without the span term, or in "
                  "soil that is not select granular"),
    NEEDED_CHOICE("edition", edition_words, STRENGTH(edition),
                  "edition of the design code on this job; with other, override the rows that differ"),
    CHOICE("bed", bed_words, STRENGTH(bed), "embankment", "trench relief is hard to guarantee",
           "earth over the top counted as an embankment, or relieved by trench walls"),
    MAYBE("trench", NUMBER, CW_DIM_FT, 1, 200, STRENGTH(trench_ft), STRENGTH(has_trench),
          "bed: trench: width at the top of the box, measured"),
    FLAG("compacted", STRENGTH(compacted), "yes", "usual specification", "side fill is compacted"),
    WITH_DEFAULT("earth_weight", NUMBER, CW_DIM_PCF, 60, 160, STRENGTH(earth_pcf),
                 "@structure.earth.unit", NULL, "unit weight of the fill"),
    WITH_DEFAULT("side_most", NUMBER, CW_DIM_PCF, 0, 160, STRENGTH(side_most_pcf),
                 "@structure.lateral.most", NULL,
                 "greatest side pressure, as the weight of a fluid"),
    WITH_DEFAULT("side_least", NUMBER, CW_DIM_PCF, 0, 160, STRENGTH(side_least_pcf),
                 "@structure.lateral.least", NULL, "least side pressure, as the weight of a fluid"),
    WITH_DEFAULT("side_ratio", NUMBER, CW_DIM_NONE, 0, 3, STRENGTH(side_ratio),
                 "@structure.lateral.k", NULL,
                 "side pressure over the pressure of what stands beside the wall"),
    MAYBE("flood", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH, STRENGTH(flood_ft),
          STRENGTH(has_flood), "highest water outside with the box empty, as an elevation"),
    MAYBE("cover_least", NUMBER, CW_DIM_FT, 0, 60, STRENGTH(cover_least_ft),
          STRENGTH(has_cover_least), "least cover that the box is designed for; else that of the run"),
    MAYBE("cover_most", NUMBER, CW_DIM_FT, 0, 60, STRENGTH(cover_most_ft), STRENGTH(has_cover_most),
          "most cover that the box is designed for; else that of the run"),
    WITH_DEFAULT("ground_stiffness", NUMBER, CW_DIM_PCF, 1e3, 5e6, STRENGTH(ground_pcf),
                 "@structure.ground", NULL, "pressure over settlement, for a floor on springs"),
    MAYBE("bearing", NUMBER, CW_DIM_PSF, 100, 100000, STRENGTH(bearing_psf), STRENGTH(has_bearing),
          "allowed bearing pressure of the foundation"),
    WITH_DEFAULT("friction", NUMBER, CW_DIM_NONE, 0.05, 1, STRENGTH(friction),
                 "@structure.friction", NULL, "friction under the floor"),
    WITH_DEFAULT("modulus", NUMBER, CW_DIM_PSI, 1e6, 1e7, STRENGTH(modulus_psi),
                 "@structure.concrete.modulus", NULL, "stiffness of the concrete"),
    WITH_DEFAULT("yield", NUMBER, CW_DIM_PSI, 30000, 80000, STRENGTH(yield_psi),
                 "@structure.steel.yield", NULL, "yield of the steel"),
    WITH_DEFAULT("exposure", NUMBER, CW_DIM_NONE, 0.5, 1, STRENGTH(exposure), "1",
                 "no deicing salt reaches the box; 0.75 where it does",
                 "exposure factor of crack control"),
    FLAG("design_traffic", STRENGTH(design_traffic), "yes", "a road runs over it",
         "design truck and tandem run over the box"),
    MAYBE("seat", NUMBER, CW_DIM_IN, 1, 60, STRENGTH(seat_in), STRENGTH(has_seat),
          "width on which a lid bears on each wall"),
    MAYBE("key", NUMBER, CW_DIM_IN, 0.5, 24, STRENGTH(key_in), STRENGTH(has_key),
          "height of the face of a lid's key that bears against each wall"),
    MAYBE("wall_moment", NUMBER, CW_DIM_FT_LB, 1, 1e6, STRENGTH(wall_moment_ft_lb),
          STRENGTH(has_wall_moment),
          "moment per foot that a wall may take, either face: the engineer's figure for earth and "
          "fill against it"),
    WITH_DEFAULT("wall_factor", NUMBER, CW_DIM_NONE, 1, 3, STRENGTH(wall_factor), "1.35",
                 "common practice, with a factored resistance",
                 "multiplies the pressure of fill and earth against that moment"),
    FLAG("key_tight", STRENGTH(key_tight), "no", "sealant gives way before the key bears",
         "the key of the top holds the wall tops when fill pushes"),
    WITH_DEFAULT("surcharge", NUMBER, CW_DIM_PSF, 0, 2000, STRENGTH(surcharge_psf),
                 "@structure.plant_surcharge", NULL, "plant beside a wall during backfill"),
    WITH_DEFAULT("roller", NUMBER, CW_DIM_LB_PER_FT, 0, 20000, STRENGTH(roller_lb_per_ft), "0 lb/ft",
                 "plates and rammers near the walls",
                 "roller beside a wall: dead load and centrifugal force"),
    WITH_DEFAULT("lift_strength", NUMBER, CW_DIM_PSI, 1000, 15000, STRENGTH(lift_psi), "3500 psi",
                 "common practice", "strength of the concrete on the day of the lift"),
    WITH_DEFAULT("steel_cover", NUMBER, CW_DIM_IN, 0.5, 6, STRENGTH(steel_cover_in), "1 in",
                 "usual for cast boxes (from memory, not verified)",
                 "clear cover where the steel of a face is not given"),
    WITH_DEFAULT("steel_size", NUMBER, CW_DIM_IN, 0.1, 2, STRENGTH(steel_size_in), "3/8 in",
                 "common practice", "bar or wire where the steel of a face is not given"),
};

static const cw_field steel_fields[] = {
    NEEDED_CHOICE("at", face_words, STEEL(at), "face of the member along the span"),
    NEEDED("area", NUMBER, CW_DIM_SQIN_PER_FT, 0.01, 10, STEEL(area_in2_per_ft),
           "steel along the span in a foot of run"),
    WITH_DEFAULT("cover", NUMBER, CW_DIM_IN, 0.5, 6, STEEL(cover_in), "1 in",
                 "usual for cast boxes (from memory, not verified)", "clear cover over it"),
    WITH_DEFAULT("size", NUMBER, CW_DIM_IN, 0.1, 2, STEEL(size_in), "3/8 in", "common practice",
                 "diameter of bar or wire"),
    MAYBE("spacing", NUMBER, CW_DIM_IN, 1, 24, STEEL(spacing_in), STEEL(has_spacing),
          "from bar to bar"),
};

static const cw_field vehicle_fields[] = {
    NEEDED_TEXT("name", VEHICLE(name), "name of the vehicle, printed with its answer"),
    NEEDED_CHOICE("use", use_words, VEHICLE(use),
                  "permit: on the finished road; crossing: over the box while it is built"),
    CHOICE("kind", kind_words, VEHICLE(kind), "wheels", "most vehicles", "on wheels or on tracks"),
    MAYBE("axles", LIST, CW_DIM_LB, 1, 500000, VEHICLE(axles_lb), VEHICLE(has_axles),
          "wheels: axle loads, front to rear"),
    MAYBE("spacing", LIST, CW_DIM_FT, 1, 100, VEHICLE(spacing_ft), VEHICLE(has_spacing),
          "wheels: from each axle to the next"),
    WITH_DEFAULT("gauge", NUMBER, CW_DIM_FT, 3, 30, VEHICLE(gauge_ft), "@structure.gauge", NULL,
                 "centre to centre of wheels or tracks"),
    MAYBE("width", NUMBER, CW_DIM_IN, 4, 120, VEHICLE(width_in), VEHICLE(has_width),
          "print of a wheel, both tires, or of a track: across; a wheel's is the design tire's when left out"),
    MAYBE("length", NUMBER, CW_DIM_IN, 2, 480, VEHICLE(length_in), VEHICLE(has_length),
          "the same, along"),
    MAYBE("weight", NUMBER, CW_DIM_LB, 1000, 1000000, VEHICLE(weight_lb), VEHICLE(has_weight),
          "tracks: on both"),
    WITH_DEFAULT("presence", NUMBER, CW_DIM_NONE, 0.5, 1.2, VEHICLE(presence), "1",
                 "it crosses alone", "multiple presence"),
    MAYBE("cover", NUMBER, CW_DIM_FT, 0, 60, VEHICLE(cover_ft), VEHICLE(has_cover),
          "crossing: compacted fill over the top when it crosses; else order.cover_before_equipment"),
};

const cw_section cw_job_strength_sections[CW_JOB_STRENGTH_SECTIONS] = {
    {.key = "steel",
     .meaning = "steel along the span, one row for each face, from the precaster's drawings",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_STEEL_MAX,
     .fields = steel_fields,
     .field_count = COUNT_OF(steel_fields),
     .offset = STRENGTH(steel),
     .count_offset = STRENGTH(steel_count),
     .item_size = sizeof(cw_job_steel),
     .present_offset = CW_NO_FLAG},
    {.key = "vehicles",
     .meaning = "permit vehicles, and machines that cross while it is built",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_VEHICLES_MAX,
     .fields = vehicle_fields,
     .field_count = COUNT_OF(vehicle_fields),
     .offset = STRENGTH(vehicles),
     .count_offset = STRENGTH(vehicle_count),
     .item_size = sizeof(cw_job_vehicle),
     .present_offset = CW_NO_FLAG},
};
