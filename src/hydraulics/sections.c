/* Wet sections of channels, and their normal and critical depths.
 *
 * Conveyance of one panel with Horton's composite n, written so that the perimeter drops out:
 * K = 1.486 A^(5/3) / (sum P n^1.5)^(2/3). */
#include <math.h>

#include "hydraulics_internal.h"

/* No natural or cast channel is smoother or rougher (common practice); it catches slips of the pen.
 */
#define N_LEAST 0.005
#define N_MOST 1.0
#define SIDE_SLOPE_MOST 100.0
#define WIDTH_MOST_FT 1e5

enum { SCAN_STEPS = 200, DOUBLINGS_MAX = 60 };

static bool is_roughness(double n)
{
    return n >= N_LEAST && n <= N_MOST;
}

static bool points_good(const cw_water_section *section)
{
    const cw_water_point *points = section->points;
    const int count = section->point_count;
    if (!points || count < 3)
        return false;
    for (int i = 0; i < count; i++) {
        if (!isfinite(points[i].x_ft) || !isfinite(points[i].z_ft))
            return false;
        if (i > 0 && (points[i].x_ft < points[i - 1].x_ft || !is_roughness(points[i - 1].n)))
            return false;
    }
    return points[count - 1].x_ft > points[0].x_ft && cw_water_section_full_ft(section) > 0.0;
}

cw_water_status cw_water_section_check(const cw_water_section *section)
{
    if (section->shape == CW_WATER_SURVEYED)
        return points_good(section) ? CW_WATER_OK : CW_WATER_BAD_SECTION;
    const bool sloped = section->shape == CW_WATER_TRAPEZOID;
    const bool slope_good =
        !sloped || (section->side_slope >= 0.0 && section->side_slope <= SIDE_SLOPE_MOST);
    const bool bottom_good = (section->bottom_ft > 0.0 ||
                              (sloped && section->bottom_ft == 0.0 && section->side_slope > 0.0)) &&
                             section->bottom_ft <= WIDTH_MOST_FT;
    const bool n_good =
        is_roughness(section->n) && (section->bed_n == 0.0 || is_roughness(section->bed_n));
    return slope_good && bottom_good && n_good ? CW_WATER_OK : CW_WATER_BAD_SECTION;
}

double cw_water_section_low_ft(const cw_water_section *section)
{
    if (section->shape != CW_WATER_SURVEYED)
        return 0.0;
    double low = section->points[0].z_ft;
    for (int i = 1; i < section->point_count; i++)
        low = fmin(low, section->points[i].z_ft);
    return low;
}

double cw_water_section_full_ft(const cw_water_section *section)
{
    if (section->shape != CW_WATER_SURVEYED)
        return CW_ANY_HIGH;
    const double ends =
        fmin(section->points[0].z_ft, section->points[section->point_count - 1].z_ft);
    return ends - cw_water_section_low_ft(section);
}

/* x^(2/3) without a power. */
static double two_thirds(double x)
{
    const double root = cbrt(x);
    return root * root;
}

static double power_one_half(double n)
{
    return n * sqrt(n);
}

static double conveyance(double area_sqft, double rough_ft)
{
    if (!(area_sqft > 0.0 && rough_ft > 0.0))
        return 0.0;
    return CW_WATER_MANNING * area_sqft * two_thirds(area_sqft / rough_ft);
}

/* The n that one panel of this area and perimeter would need. */
static double whole_n(const cw_water_wet *wet)
{
    if (!(wet->conveyance_cfs > 0.0 && wet->wetted_ft > 0.0))
        return 0.0;
    return CW_WATER_MANNING * wet->area_sqft * two_thirds(wet->area_sqft / wet->wetted_ft) /
           wet->conveyance_cfs;
}

static cw_water_wet at_regular(const cw_water_section *section, double depth_ft)
{
    const double z = section->shape == CW_WATER_TRAPEZOID ? section->side_slope : 0.0;
    const double b = section->bottom_ft;
    const double sides = 2.0 * depth_ft * sqrt(1.0 + z * z);
    const double bed_n = section->bed_n > 0.0 ? section->bed_n : section->n;
    cw_water_wet wet = {
        .area_sqft = (b + z * depth_ft) * depth_ft,
        .wetted_ft = b + sides,
        .top_ft = b + 2.0 * z * depth_ft,
    };
    wet.conveyance_cfs =
        conveyance(wet.area_sqft, sides * power_one_half(section->n) + b * power_one_half(bed_n));
    wet.n = whole_n(&wet);
    return wet;
}

typedef struct panel {
    double area_sqft, wetted_ft, top_ft, rough_ft;
} panel;

static panel segment(const cw_water_point *from, const cw_water_point *to, double level_ft)
{
    const double d1 = level_ft - from->z_ft, d2 = level_ft - to->z_ft;
    if (d1 <= 0.0 && d2 <= 0.0)
        return (panel){0};
    const double rise = fabs(d2 - d1);
    const double deep = fmax(d1, d2), shallow = fmax(fmin(d1, d2), 0.0);
    const double share = rise > 0.0 ? fmin((deep - shallow) / rise, 1.0) : 1.0;
    const double width = (to->x_ft - from->x_ft) * share;
    const double wetted = hypot(width, deep - shallow);
    return (panel){
        .area_sqft = 0.5 * (deep + shallow) * width,
        .wetted_ft = wetted,
        .top_ft = width,
        .rough_ft = wetted * power_one_half(from->n),
    };
}

static cw_water_wet at_surveyed(const cw_water_section *section, double depth_ft)
{
    const double level = cw_water_section_low_ft(section) + depth_ft;
    const cw_water_point *points = section->points;
    cw_water_wet wet = {0};
    panel now = {0};
    double sum = 0.0;
    for (int i = 0; i + 1 < section->point_count; i++) {
        const panel part = segment(&points[i], &points[i + 1], level);
        wet.area_sqft += part.area_sqft;
        wet.wetted_ft += part.wetted_ft;
        wet.top_ft += part.top_ft;
        now.area_sqft += part.area_sqft;
        now.rough_ft += part.rough_ft;
        const bool last = i + 2 == section->point_count;
        if (last || (!section->one_panel && points[i + 1].n != points[i].n)) {
            sum += conveyance(now.area_sqft, now.rough_ft);
            now = (panel){0};
        }
    }
    wet.conveyance_cfs = sum;
    wet.n = whole_n(&wet);
    return wet;
}

cw_water_wet cw_water_section_at(const cw_water_section *section, double depth_ft)
{
    if (!(depth_ft > 0.0))
        return (cw_water_wet){0};
    return section->shape == CW_WATER_SURVEYED ? at_surveyed(section, depth_ft)
                                               : at_regular(section, depth_ft);
}

/* ---- roots ---- */

typedef struct wanted {
    const cw_water_section *section;
    double flow_cfs;
    double root_slope; /* sqrt(S) */
} wanted;

/* Relative miss of the flow at this depth. */
static double normal_miss(const void *about, double depth_ft)
{
    const wanted *want = about;
    const double carried =
        cw_water_section_at(want->section, depth_ft).conveyance_cfs * want->root_slope;
    return carried / want->flow_cfs - 1.0;
}

/* sqrt(g A^3/T) is the critical flow at this depth. */
static double critical_miss(const void *about, double depth_ft)
{
    const wanted *want = about;
    const cw_water_wet wet = cw_water_section_at(want->section, depth_ft);
    if (!(wet.top_ft > 0.0))
        return -1.0;
    const double area = wet.area_sqft;
    return sqrt(CW_WATER_GRAVITY * area * area * area / wet.top_ft) / want->flow_cfs - 1.0;
}

/* The rising function of a regular section: a bracket by doubling. */
static cw_water_root hunt_up(cw_water_miss miss, const wanted *want)
{
    double high = 1.0;
    int doublings = 0;
    while (miss(want, high) < 0.0 && doublings++ < DOUBLINGS_MAX)
        high *= 2.0;
    return cw_water_hunt(miss, want, 0.0, high);
}

static double energy_ft(const wanted *want, double depth_ft)
{
    const double area = cw_water_section_at(want->section, depth_ft).area_sqft;
    const double velocity = want->flow_cfs / area;
    return depth_ft + velocity * velocity / TWO_G;
}

/* A surveyed section: step up from its lowest point.  The first crossing, or that of least energy.
 */
static cw_water_root scan_up(cw_water_miss miss, const wanted *want, bool least_energy)
{
    const double full = cw_water_section_full_ft(want->section);
    cw_water_root best = {.status = CW_WATER_OVER_BANKS, .low = 0.0, .high = full};
    double low = 0.0, below = -1.0;
    for (int i = 1; i <= SCAN_STEPS; i++) {
        const double high = full * i / SCAN_STEPS;
        const double above = miss(want, high);
        if (below < 0.0 && above >= 0.0) {
            const cw_water_root found = cw_water_hunt(miss, want, low, high);
            if (best.status != CW_WATER_OK ||
                energy_ft(want, found.value) < energy_ft(want, best.value))
                best = found;
            if (!least_energy)
                return best;
        }
        low = high;
        below = above;
    }
    if (best.status != CW_WATER_OK)
        best.residual = below;
    return best;
}

static bool flow_good(double flow_cfs)
{
    return flow_cfs >= 0.0 && flow_cfs < CW_ANY_HIGH;
}

cw_water_root cw_water_normal_depth(const cw_water_section *section, double flow_cfs, double slope)
{
    cw_water_root none = {.status = cw_water_section_check(section)};
    if (none.status == CW_WATER_OK && !flow_good(flow_cfs))
        none.status = CW_WATER_BAD_FLOW;
    if (none.status == CW_WATER_OK && !(slope > 0.0))
        none.status = CW_WATER_NO_NORMAL;
    if (none.status != CW_WATER_OK || flow_cfs == 0.0)
        return none;
    const wanted want = {section, flow_cfs, sqrt(slope)};
    return section->shape == CW_WATER_SURVEYED ? scan_up(normal_miss, &want, false)
                                               : hunt_up(normal_miss, &want);
}

cw_water_root cw_water_critical_depth(const cw_water_section *section, double flow_cfs)
{
    cw_water_root none = {.status = cw_water_section_check(section)};
    if (none.status == CW_WATER_OK && !flow_good(flow_cfs))
        none.status = CW_WATER_BAD_FLOW;
    if (none.status != CW_WATER_OK || flow_cfs == 0.0)
        return none;
    if (section->shape == CW_WATER_RECTANGLE) {
        const double q = flow_cfs / section->bottom_ft;
        none.value = cbrt(q * q / CW_WATER_GRAVITY);
        none.low = none.high = none.value;
        return none;
    }
    const wanted want = {section, flow_cfs, 0.0};
    return section->shape == CW_WATER_SURVEYED ? scan_up(critical_miss, &want, true)
                                               : hunt_up(critical_miss, &want);
}

double cw_water_composite_n(double walls_ft, double walls_n, double bed_ft, double bed_n,
                            cw_working *working)
{
    static const char horton[] = "Horton 1933, separate design of open channels (from memory, not "
                                 "verified), as HDS-5 app. D uses it";
    const double walls = cw_step_add(working, "P_w n_w^1.5", "walls",
                                     walls_ft * power_one_half(walls_n), CW_DIM_NONE, horton);
    const double bed = cw_step_add(working, "P_b n_b^1.5", "bed", bed_ft * power_one_half(bed_n),
                                   CW_DIM_NONE, horton);
    const double perimeter = walls_ft + bed_ft;
    const double n = perimeter > 0.0 ? two_thirds((walls + bed) / perimeter) : 0.0;
    return cw_step_add(working, "n", "((P_w n_w^1.5 + P_b n_b^1.5)/(P_w + P_b))^(2/3)", n,
                       CW_DIM_NONE, horton);
}

double cw_water_sequent_ft(double depth_ft, double froude)
{
    return 0.5 * depth_ft * (sqrt(1.0 + 8.0 * froude * froude) - 1.0);
}
