/* Sections against printed examples, block equilibrium and hand calculations. */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

/* ft lb in a kip in. */
#define FT_LB_PER_KIP_IN (1000.0 / 12.0)

static cw_struct_flexure flexure(double h, double d, double steel, double kip_in, double kip)
{
    const cw_struct_flexure_input in = {.thickness_in = h,
                                        .depth_in = d,
                                        .steel_in2_per_ft = steel,
                                        .concrete_psi = 5000.0,
                                        .yield_psi = 65000.0,
                                        .moment_ft_lb = kip_in * FT_LB_PER_KIP_IN,
                                        .thrust_lb = kip * 1000.0,
                                        .exposure = 1.0};
    return cw_struct_section_flexure(&in, &cw_data, NULL);
}

/* A posted bridge deck example prints a 0.8021 in and 8.8109 kip ft for f'c 3 ksi, fy 40 ksi, d
 * 5.1875 in, 0.6136 in2 and a factor of 0.9; the factor here is that of a cast box, 0.9. */
static void printed_slab(void **state)
{
    (void)state;
    const cw_struct_flexure_input in = {.thickness_in = 6.5,
                                        .depth_in = 5.1875,
                                        .steel_in2_per_ft = 0.6136,
                                        .concrete_psi = 3000.0,
                                        .yield_psi = 40000.0,
                                        .moment_ft_lb = 9431.0,
                                        .phi = CW_STRUCT_PHI_CAST,
                                        .exposure = 1.0};
    const cw_struct_flexure out = cw_struct_section_flexure(&in, &cw_data, NULL);
    near("block", out.block_in, 0.8021, 5e-5);
    near("resistance", out.capacity_ft_lb, 8810.9, 0.1);
    assert_int_equal(out.flexure, CW_FAILS);
    assert_true(out.required_in2_per_ft > 0.6136);
}

/* The closed form of AASHTO 12.10.4.2.4a worked by hand with a factor of 1. */
static void required_steel_by_hand(void **state)
{
    (void)state;
    static const struct {
        double h, d, kip_in, kip, steel, block;
    } rows[3] = {{10.0, 8.75, 180.0, 0.0, 0.32414, 0.41311},
                 {10.0, 8.75, 180.0, 6.0, 0.27348, 0.46620},
                 {8.0, 6.75, 120.0, 3.0, 0.25470, 0.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const cw_struct_flexure out =
            flexure(rows[i].h, rows[i].d, 0.0, rows[i].kip_in, rows[i].kip);
        near("steel", out.required_in2_per_ft, rows[i].steel, 5e-6);
        const cw_struct_flexure back =
            flexure(rows[i].h, rows[i].d, out.required_in2_per_ft, rows[i].kip_in, rows[i].kip);
        near("back", back.capacity_ft_lb, rows[i].kip_in * FT_LB_PER_KIP_IN, 1e-6);
        if (rows[i].block > 0.0)
            near("block", back.block_in, rows[i].block, 5e-6);
    }
    // Block equilibrium: 0.31 in2 at 8.75 in gives 14.36 kip ft.
    near("capacity", flexure(10.0, 8.75, 0.31, 0.0, 0.0).capacity_ft_lb, 14361.0, 1.0);
}

/* Required steel and resistance are inverses over a grid, for each set of factors. */
static void required_steel_is_enough(void **state)
{
    (void)state;
    int asked = 0;
    for (int phi = 0; phi < 3; phi++)
        for (int m = 1; m <= 40; m++)
            for (int n = 0; n < 5; n++) {
                cw_struct_flexure_input in = {.thickness_in = 10.0,
                                              .depth_in = 8.6,
                                              .concrete_psi = 5000.0,
                                              .yield_psi = 65000.0,
                                              .moment_ft_lb = 1000.0 * m,
                                              .thrust_lb = 2000.0 * n,
                                              .phi = phi,
                                              .exposure = 1.0};
                const cw_struct_flexure need = cw_struct_section_flexure(&in, &cw_data, NULL);
                if (!need.possible || need.required_in2_per_ft <= 0.0)
                    continue;
                in.steel_in2_per_ft = need.required_in2_per_ft;
                near("back", cw_struct_section_flexure(&in, &cw_data, NULL).capacity_ft_lb,
                     in.moment_ft_lb, 1e-5);
                asked++;
            }
    assert_true(asked > 400);
    assert_false(flexure(6.0, 4.5, 0.0, 1e4, 0.0).possible);
}

/* Cracked section by hand: h 10, d 8.75, 0.33 in2, 110 kip in: 40.655 ksi over the cap of 39; 11.80
 * and 8.22 in; with 3 kip of thrust 37.566 ksi and 12.98 in. */
static void cracks_by_hand(void **state)
{
    (void)state;
    cw_struct_flexure_input in = {.thickness_in = 10.0,
                                  .depth_in = 8.75,
                                  .steel_in2_per_ft = 0.33,
                                  .concrete_psi = 5000.0,
                                  .yield_psi = 65000.0,
                                  .service_ft_lb = 110.0 * FT_LB_PER_KIP_IN,
                                  .exposure = 1.0};
    cw_struct_flexure out = cw_struct_section_flexure(&in, &cw_data, NULL);
    near("stress", out.steel_psi, 40655.0, 1.0);
    near("cap", out.steel_limit_psi, 39000.0, 1e-6);
    near("spacing", out.spacing_in, 11.80, 0.005);
    assert_int_equal(out.crack, CW_FAILS);
    in.exposure = 0.75;
    near("spacing", cw_struct_section_flexure(&in, &cw_data, NULL).spacing_in, 8.22, 0.005);
    in.exposure = 1.0;
    in.service_thrust_lb = 3000.0;
    in.spacing_in = 4.0;
    out = cw_struct_section_flexure(&in, &cw_data, NULL);
    near("stress with thrust", out.steel_psi, 37566.0, 2.0);
    near("spacing with thrust", out.spacing_in, 12.98, 0.005);
    assert_int_equal(out.crack, CW_HOLDS);
}

/* 0.002 x 12 x 10 by hand. */
static void least_steel_by_hand(void **state)
{
    (void)state;
    near("least", flexure(10.0, 8.75, 0.33, 0.0, 0.0).least_in2_per_ft, 0.24, 1e-12);
    assert_int_equal(flexure(10.0, 8.75, 0.24, 0.0, 0.0).least, CW_HOLDS);
    assert_int_equal(flexure(10.0, 8.75, 0.23, 0.0, 0.0).least, CW_FAILS);
}

/* Printed coefficients by hand, kip: 0.33 in2, d 8.75, V 7, M 100 kip in: 16.801, cap 29.583,
 * floors 18.572 (lid) and 22.258, beta 2 at h 10: 13.354; 0.50 in2, d 10.5, V 9, M
 * 40: 21.346, 35.500, 22.286, 26.709, 16.026. */
static void shear_by_hand(void **state)
{
    (void)state;
    static const struct {
        double steel, d, v, m, ratio, formula, cap, lid, slab, general;
    } rows[2] = {{0.33, 8.75, 7.0, 100.0, 0.6125, 16801.0, 29583.0, 18572.0, 22258.0, 13354.0},
                 {0.50, 10.5, 9.0, 40.0, 1.0, 21346.0, 35500.0, 22286.0, 26709.0, 16026.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        for (int member = 0; member < 2; member++) {
            const cw_struct_shear_input in = {.member = member,
                                              .cover_ft = 4.0,
                                              .thickness_in = rows[i].d + 1.25,
                                              .depth_in = rows[i].d,
                                              .steel_in2_per_ft = rows[i].steel,
                                              .concrete_psi = 5000.0,
                                              .shear_lb = rows[i].v * 1000.0,
                                              .moment_ft_lb = rows[i].m * FT_LB_PER_KIP_IN};
            const cw_struct_shear out = cw_struct_section_shear(&in, &cw_data, NULL);
            near("ratio", out.ratio, rows[i].ratio, 1e-9);
            near("formula", out.formula_lb, rows[i].formula, 1.0);
            near("cap", out.cap_lb, rows[i].cap, 1.0);
            near("floor", out.floor_lb,
                 member == CW_STRUCT_SIMPLE_SLAB ? rows[i].lid : rows[i].slab, 1.0);
            near("general", out.general_lb, rows[i].general, 1.0);
            near("resistance", out.capacity_lb, 0.9 * fmax(out.formula_lb, out.floor_lb), 1e-6);
            assert_int_equal(out.verdict, CW_HOLDS);
        }
}

/* The rule changes at 2 ft of cover: by hand 28 percent below the floor of a lid. */
static void thin_cover_takes_the_general_rule(void **state)
{
    (void)state;
    cw_struct_shear_input in = {.member = CW_STRUCT_SIMPLE_SLAB,
                                .cover_ft = 1.99,
                                .thickness_in = 10.0,
                                .depth_in = 8.75,
                                .steel_in2_per_ft = 0.33,
                                .concrete_psi = 5000.0,
                                .shear_lb = 14000.0,
                                .moment_ft_lb = 8333.0};
    const cw_struct_shear thin = cw_struct_section_shear(&in, &cw_data, NULL);
    assert_true(thin.general);
    near("28 percent", thin.general_lb / thin.floor_lb, 0.72, 0.005);
    assert_int_equal(thin.verdict, CW_FAILS);
    in.cover_ft = 2.0;
    assert_false(cw_struct_section_shear(&in, &cw_data, NULL).general);
    in.member = CW_STRUCT_WALL_MEMBER;
    assert_true(cw_struct_section_shear(&in, &cw_data, NULL).general);
    in.thickness_in = 18.0;
    in.depth_in = 16.5;
    assert_int_equal(cw_struct_section_shear(&in, &cw_data, NULL).verdict, CW_UNDECIDED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(printed_slab),
        cmocka_unit_test(required_steel_by_hand),
        cmocka_unit_test(required_steel_is_enough),
        cmocka_unit_test(cracks_by_hand),
        cmocka_unit_test(least_steel_by_hand),
        cmocka_unit_test(shear_by_hand),
        cmocka_unit_test(thin_cover_takes_the_general_rule),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
