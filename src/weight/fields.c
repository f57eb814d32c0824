#include "weight_internal.h"

#define AT(member) offsetof(cw_piece_shape, member)

static const char *const parts[] = {"base", "lid", "hood", "ring", NULL};
static const char *const joints[] = {"plain", "tongue", "groove", NULL};
static const char *const faces[] = {"left", "right", "floor", "top", NULL};

static const char range[] = "common practice: range of cast boxes";
static const char unit_weight[] =
    "AASHTO LRFD Table 3.5.1-1 (145) and C3.5.1 (+5 for reinforcement): from memory, not verified";

const cw_field cw_piece_fields[CW_PIECE_FIELDS_END] = {
    {"downstream_skew", "s_d", CW_KIND_NUMBER, CW_DIM_DEG, -60.0, 60.0, "0 deg", false,
     "plan angle of the downstream face from square; positive when its right side lies upstream",
     range, NULL, AT(downstream.skew_deg), CW_NO_FLAG},
    {"upstream_skew", "s_u", CW_KIND_NUMBER, CW_DIM_DEG, -60.0, 60.0, "0 deg", false,
     "plan angle of the upstream face from square; positive when its right side lies upstream",
     range, NULL, AT(upstream.skew_deg), CW_NO_FLAG},
    {"downstream_mitre", "m_d", CW_KIND_NUMBER, CW_DIM_DEG, -45.0, 45.0, "0 deg", false,
     "part of a bend's turn taken at the downstream end; right turn positive", range, NULL,
     AT(downstream.mitre_deg), CW_NO_FLAG},
    {"upstream_mitre", "m_u", CW_KIND_NUMBER, CW_DIM_DEG, -45.0, 45.0, "0 deg", false,
     "part of a bend's turn taken at the upstream end; right turn positive", range, NULL,
     AT(upstream.mitre_deg), CW_NO_FLAG},

    {"part", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "base", false,
     "what is cast: base, lid, hood (inverted U) or ring", NULL, parts, AT(part), CW_NO_FLAG},
    {"span", "S", CW_KIND_NUMBER, CW_DIM_IN, 18.0, 720.0, NULL, true,
     "clear width between the walls", range, NULL, AT(span_in), CW_NO_FLAG},
    {"wall", "t", CW_KIND_NUMBER, CW_DIM_IN, 3.0, 60.0, NULL, true,
     "wall thickness; a lid is as wide as the span and two walls", range, NULL, AT(wall_in),
     CW_NO_FLAG},
    {"leg", "h", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 360.0, "0 in", false,
     "clear height of the walls of this piece; 0 for a lid", range, NULL, AT(leg_in), CW_NO_FLAG},
    {"slab", "t_s", CW_KIND_NUMBER, CW_DIM_IN, 3.0, 60.0, NULL, true,
     "thickness of the floor, the lid or the crown", range, NULL, AT(slab_in), CW_NO_FLAG},
    {"haunch", "a", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 60.0, "0 in", false,
     "leg of the 45 degree haunch between slab and walls", range, NULL, AT(haunch_in), CW_NO_FLAG},
    {"top_slab", "t_t", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 60.0, "0 in", false,
     "ring: thickness of the top slab", range, NULL, AT(top_slab_in), CW_NO_FLAG},
    {"top_haunch", "a_t", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 60.0, "0 in", false,
     "ring: leg of the haunch below the top slab", range, NULL, AT(top_haunch_in), CW_NO_FLAG},
    {"unit_weight", "g", CW_KIND_NUMBER, CW_DIM_PCF, 80.0, 250.0, "150 lb/ft3", false,
     "unit weight of the reinforced concrete", unit_weight, NULL, AT(unit_pcf), CW_NO_FLAG},

    {"length", "L", CW_KIND_NUMBER, CW_DIM_IN, 6.0, 720.0, NULL, true,
     "laying length on the centre line, tongue not counted", range, NULL, AT(length_in),
     CW_NO_FLAG},

    {"downstream_end", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "plain", false,
     "form of the downstream end", NULL, joints, AT(downstream.joint), CW_NO_FLAG},
    {"upstream_end", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "plain", false,
     "form of the upstream end", NULL, joints, AT(upstream.joint), CW_NO_FLAG},
    {"tongue", "l_t", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 24.0, "0 in", false,
     "projection of the tongue along the run", range, NULL, AT(tongue_in), CW_NO_FLAG},
    {"groove", "l_g", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 24.0, "0 in", false,
     "depth of the groove along the run", range, NULL, AT(groove_in), CW_NO_FLAG},
    {"tongue_share", NULL, CW_KIND_NUMBER, CW_DIM_NONE, 0.0, 1.0, "0.5", false,
     "tongue: share of the area of the section", "common practice: half of the thickness", NULL,
     AT(tongue_share), CW_NO_FLAG},
    {"groove_share", NULL, CW_KIND_NUMBER, CW_DIM_NONE, 0.0, 1.0, "0.5", false,
     "groove: share of the area of the section", "common practice: half of the thickness", NULL,
     AT(groove_share), CW_NO_FLAG},
    {"downstream_extra", NULL, CW_KIND_NUMBER, CW_DIM_LB, 0.0, 200000.0, "0 lb", false,
     "weight of thickening cast to the downstream end", range, NULL, AT(extra_downstream_lb),
     CW_NO_FLAG},
    {"upstream_extra", NULL, CW_KIND_NUMBER, CW_DIM_LB, 0.0, 200000.0, "0 lb", false,
     "weight of thickening cast to the upstream end", range, NULL, AT(extra_upstream_lb),
     CW_NO_FLAG},

    {"face", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "left", false,
     "where the opening is, looking upstream", NULL, faces, AT(openings[0].face), CW_NO_FLAG},
    {"along", "y_o", CW_KIND_NUMBER, CW_DIM_IN, -720.0, 1440.0, NULL, true,
     "centre of the opening from the downstream face on the centre line", range, NULL,
     AT(openings[0].y_in), CW_NO_FLAG},
    {"above", "z_o", CW_KIND_NUMBER, CW_DIM_IN, -120.0, 480.0, "0 in", false,
     "wall opening: its centre above the underside of the piece", range, NULL, AT(openings[0].z_in),
     CW_NO_FLAG},
    {"right_of_centre", "x_o", CW_KIND_NUMBER, CW_DIM_IN, -360.0, 360.0, "0 in", false,
     "opening in a floor or top: its centre right of the centre line", range, NULL,
     AT(openings[0].x_in), CW_NO_FLAG},
    {"round", NULL, CW_KIND_FLAG, CW_DIM_NONE, 0.0, 0.0, "yes", false,
     "round with a diameter, else rectangular with width and tall", NULL, NULL,
     AT(openings[0].is_round), CW_NO_FLAG},
    {"diameter", "D", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 240.0, "0 in", false, "of a round opening",
     range, NULL, AT(openings[0].diameter_in), CW_NO_FLAG},
    {"width", "w", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 480.0, "0 in", false,
     "rectangular opening: along the run", range, NULL, AT(openings[0].width_in), CW_NO_FLAG},
    {"tall", "d", CW_KIND_NUMBER, CW_DIM_IN, 0.0, 480.0, "0 in", false,
     "rectangular opening: up the wall, or across the floor or top", range, NULL,
     AT(openings[0].tall_in), CW_NO_FLAG},
};
