#include "weight_internal.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))
#define OUT(key, symbol, dim, meaning, type, member)                                               \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL,     \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }

static const cw_field weight_outputs[] = {
    OUT("weight", "W", CW_DIM_LB, "weight of the piece", cw_piece_weight, weight_lb),
    OUT("volume", "V", CW_DIM_CUFT, "concrete", cw_piece_weight, volume_cuft),
    OUT("x", "x", CW_DIM_FT, "centre of gravity right of the centre line", cw_piece_weight, x_ft),
    OUT("y", "y", CW_DIM_FT, "centre of gravity upstream of the downstream face", cw_piece_weight,
        y_ft),
    OUT("z", "z", CW_DIM_FT, "centre of gravity above the underside", cw_piece_weight, z_ft),
    OUT("section_area", "A", CW_DIM_SQFT, "cross-section", cw_piece_weight, section_area_sqft),
    OUT("outside_width", "B", CW_DIM_IN, "outside width", cw_piece_weight, width_in),
    OUT("outside_height", "H", CW_DIM_IN, "outside height", cw_piece_weight, height_in),
    OUT("overall_length", NULL, CW_DIM_IN, "outermost point to outermost point, tongue included",
        cw_piece_weight, overall_length_in),
    OUT("longest_side", NULL, CW_DIM_IN, "laying length at the longer outside edge",
        cw_piece_weight, longest_in),
    OUT("shortest_side", NULL, CW_DIM_IN, "laying length at the shorter outside edge",
        cw_piece_weight, shortest_in),
};

static void run_weight(const void *input, void *output, cw_working *working)
{
    *(cw_piece_weight *)output = cw_weight_compute(input, working);
}

static bool valid_piece(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_piece_shape_valid(input, where, diags);
}

const cw_calc cw_calc_piece_weight = {
    .name = "piece-weight",
    .title = "Weight of a piece",
    .group = "weight",
    .about =
        "Weight, volume, centre of gravity and outside size of one base, lid, hood or ring with "
        "square ends, its tongue and groove counted.  Openings are not deducted.  Inserts and "
        "moisture are not counted apart: the scaled weight of the plant governs.",
    .source = "statics: composite bodies; areas in closed form",
    .inputs = cw_piece_fields + CW_PIECE_FIELDS_SECTION,
    .input_count = CW_PIECE_FIELDS_OPENING - CW_PIECE_FIELDS_SECTION,
    .input_size = sizeof(cw_piece_shape),
    .outputs = weight_outputs,
    .output_count = COUNT(weight_outputs),
    .output_size = sizeof(cw_piece_weight),
    .valid = valid_piece,
    .run = run_weight,
    .example = "part=base span=12ft wall=10in leg=4ft slab=10in "
               "haunch=8in unit_weight=150pcf length=6ft",
};

static cw_piece_shape with_one_opening(const void *input)
{
    cw_piece_shape shape = *(const cw_piece_shape *)input;
    shape.opening_count = 1;
    return shape;
}

static bool valid_cg(const void *input, cw_pos where, cw_diags *diags)
{
    const cw_piece_shape shape = with_one_opening(input);
    return cw_piece_shape_valid(&shape, where, diags);
}

static void run_cg(const void *input, void *output, cw_working *working)
{
    const cw_piece_shape shape = with_one_opening(input);
    run_weight(&shape, output, working);
}

const cw_calc cw_calc_piece_cg = {
    .name = "piece-cg",
    .title = "Centre of gravity of a piece with an opening",
    .group = "weight",
    .about =
        "As piece-weight, with one round or rectangular opening square through a wall, the floor "
        "or the top, and through the haunch behind it.  The part of a wall opening beyond the "
        "seat is left to the neighbouring piece.",
    .source = "statics: composite bodies; circle and haunch integrated in closed form",
    .inputs = cw_piece_fields + CW_PIECE_FIELDS_SECTION,
    .input_count = CW_PIECE_FIELDS_END - CW_PIECE_FIELDS_SECTION,
    .input_size = sizeof(cw_piece_shape),
    .outputs = weight_outputs,
    .output_count = COUNT(weight_outputs),
    .output_size = sizeof(cw_piece_weight),
    .valid = valid_cg,
    .run = run_cg,
    .example = "part=base span=12ft wall=10in leg=4ft slab=10in "
               "haunch=8in unit_weight=150pcf length=6ft face=left "
               "along=3ft above=34in round=yes diameter=36in",
};

const cw_calc cw_calc_skew_end_weight = {
    .name = "skew-end-weight",
    .title = "Weight of a piece with skewed or mitred ends",
    .group = "weight",
    .about =
        "Weight, centre of gravity and the two side lengths of a piece between plumb end faces "
        "that are not square to the run.  Tongue and groove are not counted; up to 60 degrees.",
    .source = "derived: prism between two planes, integrated over the width",
    .inputs = cw_piece_fields + CW_PIECE_FIELDS_ENDS,
    .input_count = CW_PIECE_FIELDS_JOINTS - CW_PIECE_FIELDS_ENDS,
    .input_size = sizeof(cw_piece_shape),
    .outputs = weight_outputs,
    .output_count = COUNT(weight_outputs),
    .output_size = sizeof(cw_piece_weight),
    .valid = valid_piece,
    .run = run_weight,
    .example = "part=lid span=148in wall=10in slab=11in "
               "unit_weight=150pcf length=8ft upstream_skew=20deg",
};

static const cw_field section_outputs[] = {
    OUT("area", "A", CW_DIM_SQFT, "cross-section", cw_section_area, area_sqft),
    OUT("centroid", "z", CW_DIM_FT, "its centroid above the underside", cw_section_area, z_ft),
    OUT("outside_width", "B", CW_DIM_IN, "outside width", cw_section_area, width_in),
    OUT("outside_height", "H", CW_DIM_IN, "outside height", cw_section_area, height_in),
    OUT("line_weight", "w", CW_DIM_LB_PER_FT, "weight of one foot of run", cw_section_area,
        weight_lb_per_ft),
};

static bool valid_section(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_weight_section_valid(input, where, diags);
}

static void run_section(const void *input, void *output, cw_working *working)
{
    const cw_piece_shape *shape = input;
    const cw_section section = cw_weight_section(shape);
    if (working)
        for (int i = 0; i < section.count; i++) {
            const cw_section_part *part = &section.parts[i];
            const char *text =
                cw_arena_print(working->arena, "%s, centroid at z %.4f ft", part->name, part->z_ft);
            cw_step_add(working, cw_arena_print(working->arena, "A_%d", i + 1), text,
                        part->area_sqft, CW_DIM_SQFT, "closed form: area");
        }
    *(cw_section_area *)output = (cw_section_area){
        .area_sqft = cw_step_add(working, "A", "sum A_i", section.area_sqft, CW_DIM_SQFT,
                                 "closed form: areas"),
        .z_ft = cw_step_add(working, "z", "sum A_i z_i / A", section.z_ft, CW_DIM_FT,
                            "statics: first moment of area"),
        .width_in = section.width_in,
        .height_in = section.height_in,
        .weight_lb_per_ft = cw_step_add(working, "w", "g A", section.area_sqft * shape->unit_pcf,
                                        CW_DIM_LB_PER_FT, "statics"),
    };
}

const cw_calc cw_calc_section_area = {
    .name = "section-area",
    .title = "Cross-section of a piece",
    .group = "weight",
    .about =
        "Area, centroid and weight per foot of the concrete section of a base, lid, hood or ring "
        "with 45 degree haunches.",
    .source = "closed form: areas of rectangles and triangles",
    .inputs = cw_piece_fields + CW_PIECE_FIELDS_SECTION,
    .input_count = CW_PIECE_FIELDS_LENGTH - CW_PIECE_FIELDS_SECTION,
    .input_size = sizeof(cw_piece_shape),
    .outputs = section_outputs,
    .output_count = COUNT(section_outputs),
    .output_size = sizeof(cw_section_area),
    .valid = valid_section,
    .run = run_section,
    .example = "part=base span=10ft wall=10in leg=3ft slab=12in "
               "haunch=8in unit_weight=150pcf",
};

/* ---- a whole box ---- */

enum { BOX_LID, BOX_DOUBLE_U, BOX_RING };

static cw_piece_shape box_base(const cw_box_weight_input *box)
{
    const bool ring = box->form == BOX_RING;
    return (cw_piece_shape){.part = ring ? CW_PART_RING : CW_PART_BASE,
                            .span_in = box->span_in,
                            .wall_in = box->wall_in,
                            .leg_in = box->form == BOX_DOUBLE_U ? box->leg_in : box->rise_in,
                            .slab_in = box->floor_in,
                            .haunch_in = box->haunch_in,
                            .top_slab_in = ring ? box->top_in : 0.0,
                            .top_haunch_in = ring ? box->top_haunch_in : 0.0,
                            .unit_pcf = box->unit_pcf};
}

static cw_piece_shape box_top(const cw_box_weight_input *box)
{
    const bool hood = box->form == BOX_DOUBLE_U;
    return (cw_piece_shape){.part = hood ? CW_PART_HOOD : CW_PART_LID,
                            .span_in = box->span_in,
                            .wall_in = box->wall_in,
                            .leg_in = hood ? box->rise_in - box->leg_in : 0.0,
                            .slab_in = box->top_in,
                            .haunch_in = hood ? box->top_haunch_in : 0.0,
                            .unit_pcf = box->unit_pcf};
}

cw_box_weight cw_weight_box(const cw_box_weight_input *input, cw_working *working)
{
    const cw_piece_shape base = box_base(input), top = box_top(input);
    const double base_sqft = cw_weight_section(&base).area_sqft;
    const double top_sqft = input->form == BOX_RING ? 0.0 : cw_weight_section(&top).area_sqft;
    cw_step_add(working, "A_b", "floor, walls and haunches of the base or ring", base_sqft,
                CW_DIM_SQFT, "closed form: areas");
    cw_step_add(working, "A_t", "lid or hood", top_sqft, CW_DIM_SQFT, "closed form: areas");
    return (cw_box_weight){
        .base_lb_per_ft = cw_step_add(working, "w_b", "g A_b", base_sqft * input->unit_pcf,
                                      CW_DIM_LB_PER_FT, "statics"),
        .top_lb_per_ft = cw_step_add(working, "w_t", "g A_t", top_sqft * input->unit_pcf,
                                     CW_DIM_LB_PER_FT, "statics"),
        .box_lb_per_ft =
            cw_step_add(working, "w", "w_b + w_t", (base_sqft + top_sqft) * input->unit_pcf,
                        CW_DIM_LB_PER_FT, "statics"),
        .base_cuft_per_ft = base_sqft,
        .top_cuft_per_ft = top_sqft,
    };
}

static bool valid_box(const void *input, cw_pos where, cw_diags *diags)
{
    const cw_box_weight_input *box = input;
    if (box->form < BOX_LID || box->form > BOX_RING) {
        cw_diag_add(diags, where, CW_E_CHOICE,
                    "form is number %d of 3 choices; choose lid, double-u or ring", box->form + 1);
        return false;
    }
    if (box->form == BOX_DOUBLE_U && !(box->leg_in > 0.0 && box->leg_in < box->rise_in)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "leg %.6g in of the base wall is not between 0 and the rise %.6g in; give the "
                    "height of the seat above the floor",
                    box->leg_in, box->rise_in);
        return false;
    }
    if (box->form == BOX_LID && box->top_haunch_in > 0.0) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "top_haunch %.6g in on a flat lid; set it to 0 or choose double-u or ring",
                    box->top_haunch_in);
        return false;
    }
    const cw_piece_shape base = box_base(box), top = box_top(box);
    const bool base_good = cw_weight_section_valid(&base, where, diags);
    return base_good && (box->form == BOX_RING || cw_weight_section_valid(&top, where, diags));
}

static void run_box(const void *input, void *output, cw_working *working)
{
    *(cw_box_weight *)output = cw_weight_box(input, working);
}

static const char *const forms[] = {"lid", "double-u", "ring", NULL};

#define BOX_IN(key, symbol, low, high, fallback, required, meaning, member)                        \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, CW_DIM_IN, low, high, fallback, required, meaning,            \
            "common practice: range of cast boxes", NULL, offsetof(cw_box_weight_input, member),   \
            CW_NO_FLAG                                                                             \
    }

static const cw_field box_inputs[] = {
    {"form", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "lid", false,
     "base and flat lid, base and hood, or closed ring", NULL, forms,
     offsetof(cw_box_weight_input, form), CW_NO_FLAG},
    BOX_IN("span", "S", 18.0, 720.0, NULL, true, "clear width", span_in),
    BOX_IN("rise", "R", 1.0, 360.0, NULL, true, "clear height", rise_in),
    BOX_IN("wall", "t", 3.0, 60.0, NULL, true, "wall thickness", wall_in),
    BOX_IN("floor", "t_f", 3.0, 60.0, NULL, true, "floor thickness", floor_in),
    BOX_IN("top", "t_t", 3.0, 60.0, NULL, true, "thickness of lid, crown or top slab", top_in),
    BOX_IN("leg", "h", 0.0, 360.0, "0 in", false, "double-u: clear height of the base wall",
           leg_in),
    BOX_IN("haunch", "a", 0.0, 60.0, "0 in", false, "leg of the haunch at the floor", haunch_in),
    BOX_IN("top_haunch", "a_t", 0.0, 60.0, "0 in", false,
           "leg of the haunch at the crown of a hood or ring", top_haunch_in),
    {"unit_weight", "g", CW_KIND_NUMBER, CW_DIM_PCF, 80.0, 250.0, "150 lb/ft3", false,
     "unit weight of the reinforced concrete",
     "AASHTO LRFD Table 3.5.1-1 (145) and C3.5.1 (+5 for reinforcement): from memory, not verified",
     NULL, offsetof(cw_box_weight_input, unit_pcf), CW_NO_FLAG},
};

static const cw_field box_outputs[] = {
    OUT("base", "w_b", CW_DIM_LB_PER_FT, "base or ring, per foot of run", cw_box_weight,
        base_lb_per_ft),
    OUT("top", "w_t", CW_DIM_LB_PER_FT, "lid or hood, per foot of run", cw_box_weight,
        top_lb_per_ft),
    OUT("box", "w", CW_DIM_LB_PER_FT, "both, per foot of run", cw_box_weight, box_lb_per_ft),
    OUT("base_concrete", "A_b", CW_DIM_CUFT, "concrete of the base or ring in one foot of run",
        cw_box_weight, base_cuft_per_ft),
    OUT("top_concrete", "A_t", CW_DIM_CUFT, "concrete of the lid or hood in one foot of run",
        cw_box_weight, top_cuft_per_ft),
};

const cw_calc cw_calc_box_weight_per_foot = {
    .name = "box-weight-per-foot",
    .title = "Weight of a box per foot of run",
    .group = "weight",
    .about =
        "Weight and concrete of base, top and whole box in one foot of run, without joint detail "
        "and openings.  The rise is clear from floor to soffit.",
    .source = "closed form: areas of rectangles and triangles",
    .inputs = box_inputs,
    .input_count = COUNT(box_inputs),
    .input_size = sizeof(cw_box_weight_input),
    .outputs = box_outputs,
    .output_count = COUNT(box_outputs),
    .output_size = sizeof(cw_box_weight),
    .valid = valid_box,
    .run = run_box,
    .example = "form=lid span=12ft rise=8ft wall=10in floor=10in "
               "top=10in unit_weight=150pcf",
};
