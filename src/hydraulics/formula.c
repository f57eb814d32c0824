/* Outlet control by the full-flow formula of HDS-5, ch. 3. */
#include <math.h>

#include "hydraulics_internal.h"

/* 2g/1.486^2 is 29.16; HDS-5 prints 29. */
#define FRICTION_FACTOR 29.0

/* HDS-5 tolerates the rule down to this part of the rise (from memory, not verified). */
#define FAIR_FROM 0.75

static const char hds5[] = "FHWA HDS-5, 3rd ed. 2012, ch. 3 (from memory, not verified)";

/* Composite n of the full section. */
static double full_n(const cw_water_barrel *barrel, double rise_ft)
{
    if (barrel->bed_ft <= 0.0)
        return barrel->n;
    return cw_water_composite_n(2.0 * rise_ft + barrel->span_ft, barrel->n, barrel->span_ft,
                                barrel->bed_n, NULL);
}

cw_water_formula cw_water_outlet_formula(const cw_water_barrel *barrel, double flow_cfs,
                                         double tail_ft, double exit_loss, cw_working *working)
{
    const double rise = cw_water_opening_ft(barrel), span = barrel->span_ft;
    const double q = flow_cfs / span, n = full_n(barrel, rise);
    cw_water_formula out = {0};
    out.critical_ft = cw_step_add(working, "d_c", "min((q^2/g)^(1/3), D)",
                                  fmin(cbrt(q * q / CW_WATER_GRAVITY), rise), CW_DIM_COORD_FT,
                                  "critical depth of a rectangle");
    out.velocity_fps = cw_step_add(working, "V", "Q/(B D)", q / rise, CW_DIM_FPS, "full section");
    out.radius_ft =
        cw_step_add(working, "R", "B D/(2 (B + D))", span * rise / (2.0 * (span + rise)),
                    CW_DIM_COORD_FT, "plane geometry");
    out.friction = cw_step_add(working, "k_f", "29 n^2 L/R^(4/3)",
                               FRICTION_FACTOR * n * n * barrel->length_ft /
                                   (out.radius_ft * cbrt(out.radius_ft)),
                               CW_DIM_NONE, hds5);
    const double open = 1.0 - barrel->blocked_ratio;
    const double factor =
        exit_loss + barrel->entrance_loss / (open * open) + barrel->other_loss + out.friction;
    out.loss_ft =
        cw_step_add(working, "H", "(k_o + k_e + k + k_f) V^2/2g",
                    factor * out.velocity_fps * out.velocity_fps / TWO_G, CW_DIM_COORD_FT, hds5);
    out.tail_ft = cw_step_add(working, "h_o", "max(TW, (d_c + D)/2)",
                              fmax(tail_ft, 0.5 * (out.critical_ft + rise)), CW_DIM_COORD_FT, hds5);
    out.headwater_ft =
        cw_step_add(working, "HW", "H + h_o - L S",
                    out.loss_ft + out.tail_ft - barrel->length_ft * cw_water_slope(barrel),
                    CW_DIM_COORD_FT, hds5);
    out.fair = out.headwater_ft >= FAIR_FROM * rise;
    return out;
}
