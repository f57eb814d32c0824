/* One case: contact states of seat and ground by an active set, then the forces at the named
 * places. */
#include "box_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

enum { ROUNDS_MAX = 60, LINE_STEPS = 16 };
#define CONTACT_RATIO                                                                              \
    1e-9 /* of the load or of a movement: below it a contact counts as touching                    \
          */

const char *cw_struct_status_words(cw_struct_status status)
{
    static const char *const words[] = {
        "solved",
        "the frame can move freely: give it ground to bear on and walls that hold",
        "no part of the floor bears: the loads lift or overturn the box; check water and sides",
        "the contact states did not settle; take the straight-line reaction or change the ground",
        "the dimensions make no box; check thicknesses, haunches and seat",
        "the box needs more points than the solver holds; use equal haunches or none"};
    return words[status];
}

const char *cw_struct_place_words(int place)
{
    static const char *const words[CW_STRUCT_PLACES] = {
        "middle of the top",         "end of the top",        "top at the face",
        "top at the shear section",  "top of the wall",       "middle of the wall",
        "wall at the shear section", "wall above the haunch", "foot of the wall",
        "end of the floor",          "floor at the face",     "floor at the shear section",
        "middle of the floor"};
    return words[place];
}

static void number(cw_box_mesh *mesh)
{
    // Folded from the middle of the floor, so that both sides of the ring stay near each other.
    int order[CW_FRAME_POINTS], count = 0;
    const int middle = mesh->place[CW_STRUCT_FLOOR_MID], n = mesh->path_count;
    order[count++] = mesh->path[middle];
    for (int k = 1; count < n; k++) {
        order[count++] = mesh->path[(middle + k) % n];
        if (count < n)
            order[count++] = mesh->path[(middle - k + n) % n];
    }
    const bool fits = cw_frame_number(&mesh->frame, order);
    assert(fits);
    (void)fits;
}

/* ---- ground ---- */

/* Straight-line reaction under the floor; false when the resultant leaves the floor. */
static bool react_straight(cw_box_mesh *mesh, cw_struct_solution *out)
{
    const cw_box_sum sum = cw_box_load_sum(mesh);
    const double width_ft = mesh->width_ft, down_lb = -sum.up_lb;
    if (!(down_lb > CONTACT_RATIO * sum.size_lb))
        return false;
    const double off_ft = sum.turn_ft_lb / sum.up_lb;
    const double even_psf = down_lb / width_ft;
    if (fabs(off_ft) >= width_ft / 2.0 * (1.0 - CONTACT_RATIO))
        return false;
    if (fabs(off_ft) <= width_ft / 6.0) {
        // Closed form: p = N/B (1 +- 6 e/B).
        const double tilt_psf = 6.0 * off_ft / width_ft * even_psf;
        cw_box_load_floor(mesh, 0.0, width_ft, even_psf - tilt_psf, even_psf + tilt_psf);
        out->bearing_most_psf = even_psf + fabs(tilt_psf);
        out->bearing_least_psf = even_psf - fabs(tilt_psf);
        out->bearing_share = 1.0;
        return true;
    }
    // Closed form: triangle three times as long as the resultant's distance from the edge.
    const double run_ft = 3.0 * (width_ft / 2.0 - fabs(off_ft));
    out->bearing_most_psf = 2.0 * down_lb / run_ft;
    out->bearing_share = run_ft / width_ft;
    if (off_ft > 0.0)
        cw_box_load_floor(mesh, width_ft - run_ft, width_ft, 0.0, out->bearing_most_psf);
    else
        cw_box_load_floor(mesh, 0.0, run_ft, out->bearing_most_psf, 0.0);
    return true;
}

static double floor_share_ft(const cw_box_line *floor, int i)
{
    const int before = i > 0 ? i - 1 : 0;
    const int after = i + 1 < floor->count ? i + 1 : i;
    return (floor->at_ft[after] - floor->at_ft[before]) / 2.0;
}

static void set_springs(cw_box_mesh *mesh, const cw_struct_box *box, const bool *open)
{
    for (int i = 0; i < mesh->floor.count; i++)
        mesh->frame.point[mesh->floor.point[i]].spring =
            open[i] ? 0.0 : box->ground_pcf * floor_share_ft(&mesh->floor, i);
}

/* Springs that pull open, points that sink close; true when none changed. */
static bool springs_agree(const cw_box_mesh *mesh, bool *open)
{
    double most = 0.0;
    bool same = true;
    for (int i = 0; i < mesh->floor.count; i++)
        most = fmax(most, fabs(cw_frame_move(&mesh->frame, mesh->floor.point[i], 1)));
    for (int i = 0; i < mesh->floor.count; i++) {
        const double up = cw_frame_move(&mesh->frame, mesh->floor.point[i], 1);
        const bool lifts = open[i] ? up > -CONTACT_RATIO * most : up > CONTACT_RATIO * most;
        same = same && lifts == open[i];
        open[i] = lifts;
    }
    return same;
}

static void read_springs(const cw_box_mesh *mesh, const cw_struct_box *box, const bool *open,
                         cw_struct_solution *out)
{
    out->bearing_least_psf = CW_ANY_HIGH;
    for (int i = 0; i < mesh->floor.count; i++) {
        const double psf =
            open[i] ? 0.0 : -box->ground_pcf * cw_frame_move(&mesh->frame, mesh->floor.point[i], 1);
        out->bearing_most_psf = fmax(out->bearing_most_psf, psf);
        out->bearing_least_psf = fmin(out->bearing_least_psf, psf);
        if (!open[i])
            out->bearing_share += floor_share_ft(&mesh->floor, i) / mesh->width_ft;
    }
}

/* ---- reading ---- */

static const cw_box_line *line_of(const cw_box_mesh *mesh, int place, bool right)
{
    if (place >= CW_STRUCT_FLOOR_END)
        return &mesh->floor;
    if (place < CW_STRUCT_WALL_TOP)
        return &mesh->top;
    return right ? &mesh->right : &mesh->left;
}

/* The bar that follows point @p i of a line, or the one before it; -1 where there is none. */
static int bar_at(const cw_box_line *line, int i, bool after)
{
    if (after ? i + 1 >= line->count : i == 0)
        return -1;
    if (line->at_ft[i] == line->at_ft[after ? i + 1 : i - 1])
        return -1;
    int bar = line->first_bar;
    for (int k = 0; k + 1 < (after ? i + 1 : i); k++)
        bar += line->at_ft[k] != line->at_ft[k + 1];
    return bar;
}

/* Mean of the two sides of a point: springs are lumped at points. */
static cw_struct_force force_at(const cw_box_mesh *mesh, const cw_box_line *line, int i)
{
    cw_struct_force sum = {0};
    int sides = 0;
    for (int after = 0; after < 2; after++) {
        const int bar = bar_at(line, i, after);
        double ends[6];
        if (bar < 0)
            continue;
        cw_frame_end_forces(&mesh->frame, bar, ends);
        sum.moment_ft_lb += after ? ends[2] : -ends[5];
        sum.shear_lb += after ? ends[1] : -ends[4];
        sum.thrust_lb += after ? ends[0] : -ends[3];
        sides++;
    }
    assert(sides > 0);
    return (cw_struct_force){sum.moment_ft_lb / sides, sum.shear_lb / sides, sum.thrust_lb / sides};
}

static void read_places(const cw_box_mesh *mesh, cw_struct_solution *out)
{
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        for (int right = 0; right < 2; right++) {
            const cw_box_line *line = line_of(mesh, p, right);
            const int i = mesh->place[p], last = line->count - 1;
            // Floor and right wall run from their named end; top and left wall run toward it.
            const bool runs_back = line == &mesh->left || (line == &mesh->top && !right) ||
                                   (line == &mesh->floor && right);
            cw_struct_force force = force_at(mesh, line, runs_back ? last - i : i);
            force.shear_lb = runs_back ? -force.shear_lb : force.shear_lb;
            *(right ? &out->right[p] : &out->left[p]) = force;
        }
}

/* Greatest moment within the walls: cubic through end moments and shears, exact where one
 * straight-line load covers the bar. */
static void read_wall_most(const cw_box_mesh *mesh, cw_struct_solution *out)
{
    const cw_box_line *walls[2] = {&mesh->left, &mesh->right};
    out->wall_most_ft_lb = -CW_ANY_HIGH;
    for (int w = 0; w < 2; w++)
        for (int i = 0; i + 1 < walls[w]->count; i++) {
            const int bar = bar_at(walls[w], i, true);
            double ends[6];
            if (bar < 0)
                continue;
            cw_frame_end_forces(&mesh->frame, bar, ends);
            const double run = mesh->frame.bar[bar].shape.length_ft;
            for (int k = 0; k <= LINE_STEPS; k++) {
                const double t = (double)k / LINE_STEPS, u = 1.0 - t;
                const double moment = ends[2] * u * u * (1.0 + 2.0 * t) -
                                      ends[5] * t * t * (3.0 - 2.0 * t) -
                                      ends[1] * run * t * u * u - ends[4] * run * t * t * u;
                if (moment <= out->wall_most_ft_lb)
                    continue;
                out->wall_most_ft_lb = moment;
                out->wall_most_at_ft = walls[w]->at_ft[i] * u + walls[w]->at_ft[i + 1] * t;
            }
        }
}

static double least_seat_lb(const cw_box_mesh *mesh)
{
    const cw_box_line *walls[2] = {&mesh->left, &mesh->right};
    double least_lb = CW_ANY_HIGH;
    for (int w = 0; w < 2; w++) {
        const bool rises = walls[w] == &mesh->right;
        const int last = walls[w]->count - 1;
        const int from_floor = mesh->wall_joint >= 0 ? mesh->wall_joint : last;
        const cw_struct_force force =
            force_at(mesh, walls[w], rises ? from_floor : last - from_floor);
        least_lb = fmin(least_lb, force.thrust_lb);
    }
    return least_lb;
}

/* Tops of the walls away from each other, less that of the ends of the lid. */
static double seat_gap_in(const cw_box_mesh *mesh)
{
    const cw_frame *frame = &mesh->frame;
    const double walls = cw_frame_move(frame, mesh->right.point[mesh->right.count - 1], 0) -
                         cw_frame_move(frame, mesh->left.point[0], 0);
    const double lid = cw_frame_move(frame, mesh->top.point[0], 0) -
                       cw_frame_move(frame, mesh->top.point[mesh->top.count - 1], 0);
    return (walls - lid) * CW_IN_PER_FT;
}

/* ---- solving ---- */

static void hold(cw_box_mesh *mesh, const cw_struct_box *box)
{
    // Sideways by friction under the floor; up and down only where the reaction is a load, and
    // then these supports carry nothing.
    const int middle = mesh->floor.point[mesh->place[CW_STRUCT_FLOOR_MID]];
    mesh->frame.point[middle].fixed[0] = true;
    if (box->ground == CW_STRUCT_UNIFORM) {
        mesh->frame.point[mesh->floor.point[0]].fixed[1] = true;
        mesh->frame.point[mesh->floor.point[mesh->floor.count - 1]].fixed[1] = true;
    }
}

static bool seat_agrees(const cw_box_mesh *mesh, double size_lb, bool *tied)
{
    bool keep = true;
    if (*tied)
        keep = force_at(mesh, &mesh->top, 0).thrust_lb >= -CONTACT_RATIO * size_lb;
    else
        keep = seat_gap_in(mesh) >= 0.0;
    *tied = keep ? *tied : !*tied;
    return keep;
}

static cw_struct_status settle(cw_box_mesh *mesh, const cw_struct_box *box, double size_lb,
                               bool *open, cw_struct_solution *out)
{
    const bool lid = box->form == CW_STRUCT_LID, springs = box->ground == CW_STRUCT_SPRINGS;
    bool tied = true;
    while (out->rounds < ROUNDS_MAX) {
        out->rounds++;
        out->released = !tied;
        cw_box_mesh_tie(mesh, box, tied);
        number(mesh);
        if (springs)
            set_springs(mesh, box, open);
        if (!cw_frame_solve(&mesh->frame)) {
            bool any = !springs;
            for (int i = 0; i < mesh->floor.count; i++)
                any = any || !open[i];
            return any ? CW_STRUCT_MECHANISM : CW_STRUCT_NO_CONTACT;
        }
        // The ground settles before the seat is asked, so that the two do not chase each other.
        if (springs && !springs_agree(mesh, open))
            continue;
        if (!lid || seat_agrees(mesh, size_lb, &tied))
            return CW_STRUCT_OK;
    }
    return CW_STRUCT_UNSETTLED;
}

bool cw_box_is_one(const cw_struct_box *box)
{
    return box->span_in > 0.0 && box->rise_in > 0.0 && box->wall_in > 0.0 && box->floor_in > 0.0 &&
           box->top_in > 0.0 && box->haunch_in >= 0.0 && box->crown_haunch_in >= 0.0 &&
           box->concrete_psi > 0.0 && 2.0 * box->haunch_in < box->span_in &&
           2.0 * box->crown_haunch_in < box->span_in &&
           box->haunch_in + box->crown_haunch_in < box->rise_in &&
           (box->ground == CW_STRUCT_UNIFORM || box->ground_pcf > 0.0) && box->joint_in >= 0.0 &&
           box->joint_in < box->rise_in;
}

cw_struct_solution cw_struct_solve(const cw_struct_box *box, const cw_struct_case *load)
{
    cw_struct_solution out = {.status = CW_STRUCT_BAD_BOX};
    cw_box_mesh mesh;
    bool open[CW_BOX_LINE] = {false};
    if (!cw_box_is_one(box))
        return out;
    out.status = CW_STRUCT_TOO_LARGE;
    if (!cw_box_mesh_build(&mesh, box))
        return out;
    hold(&mesh, box);
    cw_box_load(&mesh, box, load);
    const cw_box_sum sum = cw_box_load_sum(&mesh);
    out.status = CW_STRUCT_NO_CONTACT;
    if (box->ground == CW_STRUCT_UNIFORM && !react_straight(&mesh, &out))
        return out;
    out.status = settle(&mesh, box, sum.size_lb, open, &out);
    if (out.status != CW_STRUCT_OK)
        return out;
    if (box->ground == CW_STRUCT_SPRINGS)
        read_springs(&mesh, box, open, &out);
    read_places(&mesh, &out);
    read_wall_most(&mesh, &out);
    out.strut_lb = force_at(&mesh, &mesh.top, mesh.place[CW_STRUCT_TOP_MID]).thrust_lb;
    out.gap_in = out.released ? seat_gap_in(&mesh) : 0.0;
    out.seat_lb = least_seat_lb(&mesh);
    const int middle = mesh.floor.point[mesh.place[CW_STRUCT_FLOOR_MID]];
    out.slip_lb = -cw_frame_reaction(&mesh.frame, middle, 0);
    double worst = fmax(cw_frame_residual(&mesh.frame), fabs(sum.right_lb - out.slip_lb));
    for (int i = 0; i < 2 && box->ground == CW_STRUCT_UNIFORM; i++)
        worst = fmax(worst, fabs(cw_frame_reaction(
                                &mesh.frame, mesh.floor.point[i ? mesh.floor.count - 1 : 0], 1)));
    out.residual = worst / sum.size_lb;
    return out;
}
