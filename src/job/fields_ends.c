/* The job format, ends and obstacles: wings, apron and cutoff wall; utilities, structures and right
 * of way. */
#include "fields_internal.h"

#define WING(member) offsetof(cw_job_wing, member)
#define UTILITY(member) offsetof(cw_job_utility, member)
#define STRUCTURE(member) offsetof(cw_job_structure, member)
#define BOUNDARY(member) offsetof(cw_job_boundary, member)
#define OFFSET_HIGH 1000.0

static const char *const wing_words[] = {"flared", "straight", "along_road", NULL};
static const char *const make_words[] = {"cast", "precast", NULL};
static const char *const status_words[] = {"live", "abandoned", NULL};
static const char *const support_words[] = {"none", "hang", "relocate", "shut_off", "remove", NULL};

/* ---- ends ---- */

static const cw_field wing_fields[] = {
    CHOICE("kind", wing_words, WING(kind), "flared", "common practice",
           "flared: turned out from the barrel; straight: along it; along_road: in line with the "
           "road"),
    WITH_DEFAULT("flare", NUMBER, CW_DIM_DEG, 0, 75, WING(flare_deg), "@end.wing_flare", NULL,
                 "flared: angle from the barrel axis"),
    MAYBE("root_height", NUMBER, CW_DIM_FT, 1, 40, WING(root_ft), WING(has_root),
          "top of the wing at the headwall, above the invert; left out, the top of the headwall or "
          "of the box"),
    MAYBE("tip_height", NUMBER, CW_DIM_FT, 0, 40, WING(tip_ft), WING(has_tip),
          "top of the wing at its tip, above the invert; left out, row end.wing_tip, or the root's "
          "height along the road"),
    MAYBE("length", NUMBER, CW_DIM_FT, 1, 500, WING(length_ft), WING(has_length),
          "along the wing; left out, it follows from the side slope of the fill"),
    WITH_DEFAULT("thickness", NUMBER, CW_DIM_IN, 4, FT(5), WING(thickness_in),
                 "@end.wing_thickness", NULL, "thickness of the wing"),
    CHOICE("make", make_words, WING(make), "cast", "common practice",
           "cast in place, or precast on a footing that is cast in place"),
    MAYBE("footing_width", NUMBER, CW_DIM_FT, 0.5, 40, WING(footing_width_ft),
          WING(has_footing_width),
          "width of the footing; left out, row end.wing_footing_ratio times the height over it"),
    WITH_DEFAULT("footing", NUMBER, CW_DIM_IN, 4, FT(5), WING(footing_in), "@end.wing_footing",
                 NULL, "thickness of the footing"),
    WITH_DEFAULT("footing_depth", NUMBER, CW_DIM_FT, 0.5, 20, WING(footing_depth_ft),
                 "@end.wing_footing_depth", NULL, "underside of the footing below the invert"),
};

static const cw_field apron_fields[] = {
    MAYBE("length", NUMBER, CW_DIM_FT, 1, 200, offsetof(cw_job_end_apron, length_ft),
          offsetof(cw_job_end_apron, has_length),
          "from the end face along the barrel; left out, out to the tips of the wings"),
    WITH_DEFAULT("thickness", NUMBER, CW_DIM_IN, 4, FT(3), offsetof(cw_job_end_apron, thickness_in),
                 "@end.apron_thickness", NULL, "thickness of the slab"),
};

static const cw_field cutoff_fields[] = {
    WITH_DEFAULT("depth", NUMBER, CW_DIM_FT, 0.5, 20, offsetof(cw_job_cutoff, depth_ft),
                 "@end.cutoff_depth", NULL, "foot of the wall below the invert"),
    WITH_DEFAULT("thickness", NUMBER, CW_DIM_IN, 4, FT(4), offsetof(cw_job_cutoff, thickness_in),
                 "@end.cutoff_thickness", NULL, "thickness of the wall"),
    CHOICE("make", make_words, offsetof(cw_job_cutoff, make), "cast", "common practice",
           "cast in place or precast"),
};

const cw_section cw_job_end_sections[CW_JOB_END_SECTIONS] = {
    {.key = "left_wing",
     .meaning = "wingwall on the left, looking upstream",
     .need = CW_NEED_OPTIONAL,
     .fields = wing_fields,
     .field_count = COUNT_OF(wing_fields),
     .offset = offsetof(cw_job_end, left_wing),
     .present_offset = WING(present)},
    {.key = "right_wing",
     .meaning = "wingwall on the right, looking upstream",
     .need = CW_NEED_OPTIONAL,
     .fields = wing_fields,
     .field_count = COUNT_OF(wing_fields),
     .offset = offsetof(cw_job_end, right_wing),
     .present_offset = WING(present)},
    {.key = "apron",
     .meaning = "concrete apron in front of the end, level with its invert",
     .need = CW_NEED_OPTIONAL,
     .fields = apron_fields,
     .field_count = COUNT_OF(apron_fields),
     .offset = offsetof(cw_job_end, apron),
     .present_offset = offsetof(cw_job_end_apron, present)},
    {.key = "cutoff",
     .meaning = "cutoff (toe) wall under the outer edge of apron and wings",
     .need = CW_NEED_OPTIONAL,
     .fields = cutoff_fields,
     .field_count = COUNT_OF(cutoff_fields),
     .offset = offsetof(cw_job_end, cutoff),
     .present_offset = offsetof(cw_job_cutoff, present)},
};

/* ---- obstacles ---- */

const cw_field cw_job_obstacle_fields[CW_JOB_OBSTACLE_FIELDS] = {
    MAYBE("right_of_way_left", NUMBER, CW_DIM_FT, 1, OFFSET_HIGH,
          offsetof(cw_job_obstacles, left_ft), offsetof(cw_job_obstacles, has_left),
          "right of way left of the centre line, where it runs along it"),
    MAYBE("right_of_way_right", NUMBER, CW_DIM_FT, 1, OFFSET_HIGH,
          offsetof(cw_job_obstacles, right_ft), offsetof(cw_job_obstacles, has_right),
          "right of way right of the centre line, where it runs along it"),
};

static const cw_field utility_fields[] = {
    NEEDED_TEXT("name", UTILITY(name), "what it is, as the locate marks call it"),
    MAYBE("at", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, UTILITY(at_ft), UTILITY(has_at),
          "plan distance from the outlet face at which it crosses the centre line"),
    WITH_DEFAULT("angle", NUMBER, CW_DIM_DEG, 5, 175, UTILITY(angle_deg), "90 deg",
                 "a square crossing", "where it crosses: from upstream round to the right"),
    MAYBE("from", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, UTILITY(from_ft), UTILITY(has_from),
          "or its first point: plan distance from the outlet face"),
    MAYBE("from_offset", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, UTILITY(from_offset_ft),
          UTILITY(has_from_offset), "offset of that point, right positive looking upstream"),
    MAYBE("to", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, UTILITY(to_ft), UTILITY(has_to),
          "its last point"),
    MAYBE("to_offset", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, UTILITY(to_offset_ft),
          UTILITY(has_to_offset), "offset of that point"),
    MAYBE("elevation", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH, UTILITY(elevation_ft),
          UTILITY(has_elevation), "elevation of its top, as found by a test hole"),
    MAYBE("depth", NUMBER, CW_DIM_FT, 0, 100, UTILITY(depth_ft), UTILITY(has_depth),
          "or its cover: ground to its top"),
    NEEDED("diameter", NUMBER, CW_DIM_IN, 0.5, FT(20), UTILITY(diameter_in),
           "outside diameter, or height of a duct bank"),
    WITH_DEFAULT("clearance", NUMBER, CW_DIM_IN, 0, FT(20), UTILITY(clearance_in),
                 "@conflict.utility_clear", NULL,
                 "that its owner asks for, from the box and from the cut"),
    CHOICE("status", status_words, UTILITY(status), "live", "the safe side", "live or abandoned"),
    CHOICE("support", support_words, UTILITY(support), "none", "nothing is agreed yet",
           "what is done where it shows in the cut: hang it from beams, relocate it, shut it off, "
           "or remove an abandoned one"),
    MAYBE_TEXT("accepted", UTILITY(accepted), "where its owner agrees to that: letter or permit"),
    MAYBE_TEXT("located", UTILITY(located), "ticket of the locate, and how it was exposed"),
};

static const cw_field structure_fields[] = {
    NEEDED_TEXT("name", STRUCTURE(name), "what stands there"),
    NEEDED("from", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, STRUCTURE(from_ft),
           "plan distance from the outlet face at which it begins"),
    NEEDED("to", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, STRUCTURE(to_ft),
           "and at which it ends"),
    NEEDED("near", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, STRUCTURE(near_ft),
           "offset of the nearest edge of its footing from the centre line, right positive looking "
           "upstream"),
    NEEDED("far", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, STRUCTURE(far_ft),
           "offset of its farthest side"),
    NEEDED("foundation", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH, STRUCTURE(foundation_ft),
           "elevation of the underside of its footing"),
    WITH_DEFAULT("clearance", NUMBER, CW_DIM_FT, 0, 50, STRUCTURE(clear_ft),
                 "@conflict.structure_clear", NULL, "from the top edge of the cut"),
    WITH_DEFAULT(
        "influence", NUMBER, CW_DIM_SIDE_SLOPE, 0.5, 3, STRUCTURE(influence), "@conflict.influence",
        NULL,
        "line from the edge of the footing that the cut must stay above, horizontal to vertical"),
    MAYBE_TEXT("accepted", STRUCTURE(accepted),
               "engineer's design of its support, or finding that it is not affected"),
};

static const cw_field boundary_fields[] = {
    NEEDED_TEXT("name", BOUNDARY(name), "right of way or property line"),
    NEEDED("from", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, BOUNDARY(from_ft),
           "first point: plan distance from the outlet face"),
    NEEDED("from_offset", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, BOUNDARY(from_offset_ft),
           "offset of that point, right positive looking upstream"),
    NEEDED("to", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, BOUNDARY(to_ft), "last point"),
    NEEDED("to_offset", NUMBER, CW_DIM_FT, -OFFSET_HIGH, OFFSET_HIGH, BOUNDARY(to_offset_ft),
           "offset of that point, on the same side"),
};

const cw_section cw_job_obstacle_sections[CW_JOB_OBSTACLE_SECTIONS] = {
    {.key = "utilities",
     .meaning = "pipes, cables and ducts near the cut",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_UTILITIES_MAX,
     .fields = utility_fields,
     .field_count = COUNT_OF(utility_fields),
     .offset = offsetof(cw_job_obstacles, utilities),
     .count_offset = offsetof(cw_job_obstacles, utility_count),
     .item_size = sizeof(cw_job_utility),
     .present_offset = CW_NO_FLAG},
    {.key = "structures",
     .meaning = "buildings, walls and footings near the cut",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_STRUCTURES_MAX,
     .fields = structure_fields,
     .field_count = COUNT_OF(structure_fields),
     .offset = offsetof(cw_job_obstacles, structures),
     .count_offset = offsetof(cw_job_obstacles, structure_count),
     .item_size = sizeof(cw_job_structure),
     .present_offset = CW_NO_FLAG},
    {.key = "boundaries",
     .meaning = "right of way and property lines that do not run along the culvert",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_BOUNDARIES_MAX,
     .fields = boundary_fields,
     .field_count = COUNT_OF(boundary_fields),
     .offset = offsetof(cw_job_obstacles, boundaries),
     .count_offset = offsetof(cw_job_obstacles, boundary_count),
     .item_size = sizeof(cw_job_boundary),
     .present_offset = CW_NO_FLAG},
};
