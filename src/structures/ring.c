/* The ring of a box: its flexibility once, and what loads do to the primary frame (derived: force
 * method, principle of virtual work; live loads by the bending line of the unknown forces, Betti).
 * Loads that reach over part of a tapered bar are integrated as the frame does it. */
#include "ring_internal.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/units.h"

#define WHOLE_RATIO 1e-12 /* of a wall: rounding of the heights that make it up */

/* A member's moment that runs straight from its start to its end. */
typedef struct straight {
    double from, to;
} straight;

static straight part_of(const cw_ring_member *member, straight whole, int i)
{
    const double length_ft = member->at_ft[member->count - 1];
    const double slope = (whole.to - whole.from) / length_ft;
    return (straight){whole.from + slope * member->at_ft[i],
                      whole.from + slope * member->at_ft[i + 1]};
}

/* The load between two places; from_ft is not below to_ft where nothing is left of it. */
static cw_frame_line clipped(const cw_frame_line *load, double low_ft, double high_ft)
{
    const double from_ft = fmax(load->from_ft, low_ft), to_ft = fmin(load->to_ft, high_ft);
    if (!(to_ft > from_ft))
        return (cw_frame_line){0};
    const double slope = (load->to_load - load->from_load) / (load->to_ft - load->from_ft);
    return (cw_frame_line){from_ft - low_ft, to_ft - low_ft,
                           load->from_load + slope * (from_ft - load->from_ft),
                           load->from_load + slope * (to_ft - load->from_ft)};
}

/* Turn and offset of a bar's end against its start, with both held as a cantilever. */
static cw_frame_bend bar_bend(double modulus_psf, const cw_ring_bar *bar, straight moment,
                              const cw_frame_line *load)
{
    const bool loaded = load && load->to_ft > load->from_ft;
    const double own = loaded ? cw_frame_load_moment(0.0, load) : 0.0;
    const double force = (moment.from + own - moment.to) / bar->shape.length_ft;
    cw_frame_bend bend = {moment.to * bar->flex.cross + force * bar->flex.across,
                          moment.to * bar->flex.turn + force * bar->flex.cross};
    if (loaded) {
        const cw_frame_bend less = cw_frame_load_bend(modulus_psf, &bar->shape, load);
        bend.across_ft -= less.across_ft;
        bend.turn -= less.turn;
    }
    return bend;
}

/* Work of a bar's bend on a moment that runs straight. */
static double work_on(const cw_ring_bar *bar, cw_frame_bend bend, straight moment)
{
    return bend.turn * moment.to +
           bend.across_ft * (moment.from - moment.to) / bar->shape.length_ft;
}

static double work_of_two(const cw_ring_member *member, straight a, straight b)
{
    double work = 0.0;
    for (int i = 0; i + 1 < member->count; i++)
        work +=
            work_on(&member->bar[i], bar_bend(0.0, &member->bar[i], part_of(member, a, i), NULL),
                    part_of(member, b, i));
    return work;
}

/* Work of moments at the points, and of the load between them, on one and on @p line. */
static cw_ring_turn turn_of(const cw_ring *ring, const cw_ring_member *member, const double *moment,
                            const cw_frame_line *load, straight line)
{
    cw_ring_turn out = {0};
    assert(member->count >= 2);
    for (int i = 0; i + 1 < member->count; i++) {
        const cw_frame_line own = clipped(load, member->at_ft[i], member->at_ft[i + 1]);
        const cw_frame_bend bend = bar_bend(ring->modulus_psf, &member->bar[i],
                                            (straight){moment[i], moment[i + 1]}, &own);
        out.one += bend.turn;
        out.line += work_on(&member->bar[i], bend, part_of(member, line, i));
    }
    return out;
}

/* Bending line against the chord, + to the left of the member.  @p load is even over the member. */
static void sag_of(const cw_ring *ring, const cw_ring_member *member, const double *moment,
                   double load, double *sag_ft)
{
    double slope = 0.0;
    assert(member->count >= 2);
    sag_ft[0] = 0.0;
    for (int i = 0; i + 1 < member->count; i++) {
        const cw_ring_bar *bar = &member->bar[i];
        const cw_frame_line own = {0.0, load != 0.0 ? bar->shape.length_ft : 0.0, load, load};
        const cw_frame_bend bend =
            bar_bend(ring->modulus_psf, bar, (straight){moment[i], moment[i + 1]}, &own);
        sag_ft[i + 1] = sag_ft[i] + slope * bar->shape.length_ft - bend.across_ft;
        slope -= bend.turn;
    }
    const int last = member->count - 1;
    const double chord = sag_ft[last] / member->at_ft[last];
    for (int i = 0; i <= last; i++)
        sag_ft[i] -= chord * member->at_ft[i];
}

/* ---- building ---- */

static void take_line(cw_ring_member *out, const cw_box_mesh *mesh, const cw_box_line *line)
{
    int bar = line->first_bar;
    const double start_ft = line->at_ft[0];
    out->count = 1;
    out->at_ft[0] = 0.0;
    for (int i = 0; i + 1 < line->count; i++) {
        if (line->at_ft[i] == line->at_ft[i + 1])
            continue;
        const cw_frame_bar *from = &mesh->frame.bar[bar++];
        out->bar[out->count - 1] =
            (cw_ring_bar){from->shape, cw_frame_flexibility(mesh->frame.modulus_psf, &from->shape)};
        out->along += 1.0 / from->along;
        out->at_ft[out->count++] = fabs(line->at_ft[i + 1] - start_ft);
    }
}

static void take_places(cw_ring *ring, const cw_box_mesh *mesh)
{
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        const bool wall = p >= CW_STRUCT_WALL_TOP && p < CW_STRUCT_FLOOR_END;
        const bool above = wall && mesh->wall_joint >= 0 && mesh->place[p] > mesh->wall_joint;
        ring->place_point[p] = mesh->place[p] - above;
    }
}

static void set_flexibility(cw_ring *ring)
{
    const double height_ft = ring->height_ft, width_ft = ring->width_ft;
    const straight one = {1.0, 1.0}, arm = {height_ft, 0.0}, odd = {-1.0, 1.0};
    const double floor_one = ring->floor_one = work_of_two(&ring->floor, one, one);
    ring->strut_strut = 2.0 * work_of_two(&ring->wall, arm, arm) +
                        height_ft * height_ft * floor_one + ring->top.along + ring->floor.along;
    ring->strut_even = 2.0 * work_of_two(&ring->wall, arm, one) + height_ft * floor_one;
    ring->even_even =
        2.0 * work_of_two(&ring->wall, one, one) + floor_one + work_of_two(&ring->top, one, one);
    // Odd moments also lift one wall and press the other with twice the moment over the width.
    const double force = 2.0 / width_ft;
    ring->odd_odd = 2.0 * work_of_two(&ring->wall, one, one) + work_of_two(&ring->floor, odd, odd) +
                    work_of_two(&ring->top, odd, odd) + 2.0 * ring->wall.along * force * force;
    ring->odd_down = -force * ring->wall.along;
}

static double even_moment(double at_ft, double width_ft)
{
    return at_ft * (width_ft - at_ft) / 2.0;
}

/* Closed form: simple span under a load that runs straight from -1 to +1. */
static double tilt_moment(double at_ft, double width_ft)
{
    return at_ft * (at_ft / 2.0 - at_ft * at_ft / (3.0 * width_ft) - width_ft / 6.0);
}

static double tilt_slope(double at_ft, double width_ft)
{
    return at_ft - at_ft * at_ft / width_ft - width_ft / 6.0;
}

static cw_ring_turn even_turn(const cw_ring *ring, const cw_ring_member *slab)
{
    double moment[CW_BOX_LINE];
    const cw_frame_line load = {0.0, ring->width_ft, 1.0, 1.0};
    for (int i = 0; i < slab->count; i++)
        moment[i] = even_moment(slab->at_ft[i], ring->width_ft);
    return turn_of(ring, slab, moment, &load, (straight){-1.0, 1.0});
}

static double tilted_floor(const cw_ring *ring)
{
    double moment[CW_BOX_LINE];
    const cw_frame_line load = {0.0, ring->width_ft, -1.0, 1.0};
    for (int i = 0; i < ring->floor.count; i++)
        moment[i] = tilt_moment(ring->floor.at_ft[i], ring->width_ft);
    return turn_of(ring, &ring->floor, moment, &load, (straight){-1.0, 1.0}).line;
}

cw_ring_turn cw_ring_floor_turn(const cw_ring *ring, const cw_frame_line *up)
{
    double moment[CW_BOX_LINE];
    const double start = cw_frame_load_moment(0.0, up);
    for (int i = 0; i < ring->floor.count; i++)
        moment[i] = start * (1.0 - ring->floor.at_ft[i] / ring->width_ft) -
                    cw_frame_load_moment(ring->floor.at_ft[i], up);
    return turn_of(ring, &ring->floor, moment, up, (straight){-1.0, 1.0});
}

/* Both walls under one pressure, + inward; the left one runs down. */
static cw_ring_turn side_turn(const cw_ring *ring, const cw_frame_line *load)
{
    double up[CW_BOX_LINE], down[CW_BOX_LINE];
    const double height_ft = ring->height_ft;
    const int last = ring->wall.count - 1;
    const cw_frame_line mirrored = {height_ft - load->to_ft, height_ft - load->from_ft,
                                    load->to_load, load->from_load};
    for (int i = 0; i <= last; i++)
        up[i] = down[last - i] = -cw_frame_load_moment(ring->wall.at_ft[i], load);
    const cw_ring_turn right = turn_of(ring, &ring->wall, up, load, (straight){height_ft, 0.0});
    const cw_ring_turn left =
        turn_of(ring, &ring->left_wall, down, &mirrored, (straight){0.0, height_ft});
    return (cw_ring_turn){right.one + left.one, right.line + left.line};
}

/* The bending lines of the top under its end moments, and the work of loads of 1 on them. */
static void set_top_sag(cw_ring *ring)
{
    const cw_ring_member *top = &ring->top;
    // From the right end, where odd moments are positive.
    const straight moments[2] = {{1.0, 1.0}, {1.0, -1.0}};
    for (int k = 0; k < 2; k++) {
        double moment[CW_BOX_LINE], sag_ft[CW_BOX_LINE];
        for (int i = 0; i + 1 < top->count; i++) {
            moment[i] = part_of(top, moments[k], i).from;
            moment[i + 1] = part_of(top, moments[k], i).to;
        }
        sag_of(ring, top, moment, 0.0, sag_ft);
        double work = 0.0;
        for (int i = 0; i + 1 < top->count; i++) {
            const cw_ring_bar *bar = &top->bar[i];
            const double length_ft = bar->shape.length_ft;
            const straight own = {moment[i], moment[i + 1]};
            const double bent = bar_bend(0.0, bar, own, NULL).across_ft;
            cw_ring_sag *sag = &ring->top_sag[i];
            sag->sag_ft[k] = sag_ft[i];
            sag->slope[k] = (sag_ft[i + 1] - sag_ft[i] + bent) / length_ft;
            sag->start_moment[k] = own.from;
            sag->end_moment[k] = own.to;
            sag->work[k] = work;
            const cw_frame_line whole = {0.0, length_ft, 1.0, 1.0};
            work += length_ft * (sag->sag_ft[k] + sag->slope[k] * length_ft / 2.0) -
                    work_on(bar, cw_frame_load_bend(ring->modulus_psf, &bar->shape, &whole), own);
        }
    }
}

static void set_springs(cw_ring *ring)
{
    const cw_ring_member *floor = &ring->floor;
    const double width_ft = ring->width_ft;
    const int count = floor->count, last = count - 1;
    double moment[CW_BOX_LINE], sag_ft[CW_BOX_LINE];
    for (int i = 0; i < count; i++) {
        const double before = floor->at_ft[i > 0 ? i - 1 : 0];
        const double after = floor->at_ft[i < last ? i + 1 : last];
        ring->spring[i] = ring->ground_pcf * ((after - before) / 2.0);
        moment[i] = 1.0;
    }
    sag_of(ring, floor, moment, 0.0, ring->bow_even);
    for (int i = 0; i < count; i++)
        moment[i] = 2.0 * floor->at_ft[i] / width_ft - 1.0;
    sag_of(ring, floor, moment, 0.0, ring->bow_odd);
    for (int i = 0; i < count; i++)
        moment[i] = even_moment(floor->at_ft[i], width_ft);
    sag_of(ring, floor, moment, 1.0, ring->sag_even);
    for (int j = 0; j < count; j++) {
        const double from_ft = floor->at_ft[j];
        for (int i = 0; i < count; i++)
            moment[i] = fmin(floor->at_ft[i], from_ft) *
                        (width_ft - fmax(floor->at_ft[i], from_ft)) / width_ft;
        sag_of(ring, floor, moment, 0.0, sag_ft);
        memcpy(&ring->bend[j * (j + 1) / 2], sag_ft, (size_t)(j + 1) * sizeof sag_ft[0]);
    }
}

static void set_weights(cw_ring *ring, const cw_struct_box *box)
{
    const double low_ft = box->haunch_in / CW_IN_PER_FT;
    const double high_ft = box->crown_haunch_in / CW_IN_PER_FT;
    ring->top_psf = box->concrete_pcf * box->top_in / CW_IN_PER_FT;
    ring->floor_psf = box->concrete_pcf * box->floor_in / CW_IN_PER_FT;
    ring->wall_lb_per_ft = box->concrete_pcf * box->wall_in / CW_IN_PER_FT;
    ring->crown_lb = box->concrete_pcf * high_ft * high_ft / 2.0;
    ring->wall_lb = ring->wall_lb_per_ft * ring->height_ft + ring->crown_lb +
                    box->concrete_pcf * low_ft * low_ft / 2.0;
}

cw_struct_status cw_ring_build(cw_ring *ring, const cw_struct_box *box)
{
    cw_box_mesh mesh;
    memset(ring, 0, sizeof *ring);
    if (!cw_box_is_one(box))
        return CW_STRUCT_BAD_BOX;
    if (!cw_box_mesh_build(&mesh, box))
        return CW_STRUCT_TOO_LARGE;
    ring->form = box->form;
    ring->ground = box->ground;
    ring->modulus_psf = mesh.frame.modulus_psf;
    ring->ground_pcf = box->ground_pcf;
    ring->width_ft = mesh.width_ft;
    ring->height_ft = mesh.height_ft;
    take_line(&ring->floor, &mesh, &mesh.floor);
    take_line(&ring->top, &mesh, &mesh.top);
    take_line(&ring->wall, &mesh, &mesh.right);
    take_line(&ring->left_wall, &mesh, &mesh.left);
    ring->joint_ft = mesh.wall_joint >= 0 ? mesh.right.at_ft[mesh.wall_joint] : 0.0;
    take_places(ring, &mesh);
    set_weights(ring, box);
    set_flexibility(ring);
    const cw_frame_line even = {0.0, ring->height_ft, 1.0, 1.0};
    const cw_frame_line deep = {0.0, ring->height_ft, ring->height_ft, 0.0};
    ring->side_even = side_turn(ring, &even);
    ring->side_deep = side_turn(ring, &deep);
    ring->top_even = even_turn(ring, &ring->top).one;
    ring->floor_even = even_turn(ring, &ring->floor).one;
    ring->floor_tilt = tilted_floor(ring);
    set_top_sag(ring);
    if (box->ground == CW_STRUCT_SPRINGS)
        set_springs(ring);
    return CW_STRUCT_OK;
}

/* ---- loads ---- */

static void add_side(const cw_ring *ring, const cw_struct_side *side, cw_ring_load *out)
{
    const double height_ft = ring->height_ft;
    const cw_frame_line whole = {side->from_ft, side->to_ft, side->from_psf, side->to_psf};
    const cw_frame_line load = clipped(&whole, 0.0, height_ft);
    if (!(load.to_ft > load.from_ft))
        return;
    cw_ring_turn turn;
    if (load.from_ft == 0.0 && load.to_ft >= height_ft * (1.0 - WHOLE_RATIO)) {
        const double deep = (load.from_load - load.to_load) / height_ft;
        turn.one = load.to_load * ring->side_even.one + deep * ring->side_deep.one;
        turn.line = load.to_load * ring->side_even.line + deep * ring->side_deep.line;
    } else {
        turn = side_turn(ring, &load);
    }
    // The floor takes the push as a thrust.
    const double push_lb = (load.from_load + load.to_load) / 2.0 * (load.to_ft - load.from_ft);
    out->part[CW_RING_APART] += turn.line - push_lb * ring->floor.along;
    out->part[CW_RING_FOOT] -= cw_frame_load_moment(0.0, &load);
    out->part[CW_RING_EVEN] += turn.one;
    out->part[CW_RING_JOINT] -= cw_frame_load_moment(ring->joint_ft, &load);
}

cw_ring_load cw_ring_of_case(const cw_ring *ring, const cw_struct_case *load)
{
    const double top_psf = load->top_psf + load->weight * ring->top_psf;
    const double floor_psf = load->floor_psf + load->weight * ring->floor_psf;
    cw_ring_load out = {{0}};
    assert(load->left_count == load->right_count);
    for (int i = 0; i < load->right_count; i++)
        add_side(ring, &load->right[i], &out);
    out.part[CW_RING_EVEN] += top_psf * ring->top_even;
    out.part[CW_RING_FLOOR] = floor_psf;
    out.part[CW_RING_DOWN] =
        (top_psf + floor_psf) * ring->width_ft + 2.0 * load->weight * ring->wall_lb;
    return out;
}

/* Work of a load of 1 from the start of a bar to @p x_ft, of even depth. */
static double even_bar_work(const cw_ring_bar *bar, const cw_ring_sag *sag, int k, double x_ft)
{
    const double length_ft = bar->shape.length_ft, over_ei = bar->flex.turn / length_ft;
    const double rise = (sag->end_moment[k] - sag->start_moment[k]) / length_ft;
    // Integral of the bending line, whose second derivative is the moment over E I.
    return x_ft * (sag->sag_ft[k] +
                   x_ft * (sag->slope[k] / 2.0 -
                           x_ft * over_ei * (sag->start_moment[k] / 6.0 + x_ft * rise / 24.0)));
}

static void bar_work(const cw_ring *ring, int i, double from_ft, double to_ft, double work[2])
{
    const cw_ring_bar *bar = &ring->top.bar[i];
    const cw_ring_sag *sag = &ring->top_sag[i];
    if (bar->shape.from_depth_ft == bar->shape.to_depth_ft) {
        for (int k = 0; k < 2; k++)
            work[k] += even_bar_work(bar, sag, k, to_ft) - even_bar_work(bar, sag, k, from_ft);
        return;
    }
    const double run_ft = to_ft - from_ft;
    if (!(run_ft > 0.0))
        return;
    const cw_frame_line load = {from_ft, to_ft, 1.0, 1.0};
    const cw_frame_bend bend = cw_frame_load_bend(ring->modulus_psf, &bar->shape, &load);
    for (int k = 0; k < 2; k++)
        work[k] += run_ft * (sag->sag_ft[k] + sag->slope[k] * (from_ft + to_ft) / 2.0) -
                   work_on(bar, bend, (straight){sag->start_moment[k], sag->end_moment[k]});
}

static int bar_of(const cw_ring_member *member, double at_ft)
{
    int low = 0, high = member->count - 1;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (member->at_ft[middle] <= at_ft)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* @p from_ft and @p to_ft from the right end of the top. */
static void patch_work(const cw_ring *ring, double from_ft, double to_ft, double work[2])
{
    const cw_ring_member *top = &ring->top;
    const int first = bar_of(top, from_ft), last = bar_of(top, to_ft);
    work[0] = work[1] = 0.0;
    if (first == last) {
        bar_work(ring, first, from_ft - top->at_ft[first], to_ft - top->at_ft[first], work);
        return;
    }
    bar_work(ring, first, from_ft - top->at_ft[first], top->bar[first].shape.length_ft, work);
    bar_work(ring, last, 0.0, to_ft - top->at_ft[last], work);
    for (int k = 0; k < 2; k++)
        work[k] += ring->top_sag[last].work[k] - ring->top_sag[first + 1].work[k];
}

cw_ring_live cw_ring_of_patches(const cw_ring *ring, const cw_struct_patch *patches, int count)
{
    const double width_ft = ring->width_ft;
    cw_ring_live out = {0};
    for (int p = 0; p < count; p++) {
        const double from_ft = fmax(0.0, patches[p].from_ft);
        const double to_ft = fmin(width_ft, patches[p].to_ft);
        if (!(to_ft > from_ft))
            continue;
        const double load_lb = patches[p].psf * (to_ft - from_ft);
        const double right_lb = load_lb * (from_ft + to_ft) / 2.0 / width_ft;
        out.right_lb += right_lb;
        out.left_lb += load_lb - right_lb;
        // The end moments of a lid are none: nothing turns against them.
        if (ring->form == CW_STRUCT_LID)
            continue;
        double work[2];
        patch_work(ring, width_ft - to_ft, width_ft - from_ft, work);
        out.load.part[CW_RING_EVEN] += patches[p].psf * work[0];
        out.load.part[CW_RING_ODD] += patches[p].psf * work[1];
    }
    const double more_lb = out.right_lb - out.left_lb;
    out.load.part[CW_RING_ODD] += ring->odd_down * more_lb;
    out.load.part[CW_RING_DOWN] = out.right_lb + out.left_lb;
    out.load.part[CW_RING_TIP] = more_lb * width_ft / 2.0;
    return out;
}

/* ---- forces at stations ---- */

static int stations_of(cw_ring_stations *out, const cw_ring_member *member, int count, double odd)
{
    const double width_ft = member->at_ft[member->count - 1];
    assert(out->count + count <= CW_RING_STATIONS);
    for (int i = 0; i < count; i++) {
        out->point[out->count] = i;
        out->at_ft[out->count] = member->at_ft[i];
        out->odd[out->count++] = odd != 0.0 ? odd : 2.0 * member->at_ft[i] / width_ft - 1.0;
    }
    return out->count;
}

void cw_ring_stations_set(const cw_ring *ring, bool all, cw_ring_stations *out)
{
    out->count = 0;
    if (all) {
        out->top = stations_of(out, &ring->top, (ring->top.count + 1) / 2, 0.0);
        out->wall = stations_of(out, &ring->wall, ring->wall.count, -1.0) - out->top;
        stations_of(out, &ring->floor, (ring->floor.count + 1) / 2, 0.0);
        return;
    }
    out->count = CW_STRUCT_PLACES;
    out->top = CW_STRUCT_WALL_TOP;
    out->wall = CW_STRUCT_FLOOR_END - CW_STRUCT_WALL_TOP;
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        const bool wall = p >= CW_STRUCT_WALL_TOP && p < CW_STRUCT_FLOOR_END;
        const cw_ring_member *member = wall                     ? &ring->wall
                                       : p < CW_STRUCT_WALL_TOP ? &ring->top
                                                                : &ring->floor;
        out->point[p] = ring->place_point[p];
        out->at_ft[p] = member->at_ft[out->point[p]];
        out->odd[p] = wall ? -1.0 : 2.0 * out->at_ft[p] / ring->width_ft - 1.0;
    }
}

/* One side: @p x_ft of the stations counts from the left. */
static void add_patch(double width_ft, const cw_struct_patch *patch, int count, const double *x_ft,
                      double *moment, double *slope)
{
    const double from_ft = patch->from_ft > 0.0 ? patch->from_ft : 0.0;
    const double run_ft = (patch->to_ft < width_ft ? patch->to_ft : width_ft) - from_ft;
    const double left_lb = patch->psf * run_ft * (1.0 - (from_ft + run_ft / 2.0) / width_ft);
    for (int i = 0; i < count; i++) {
        const double past_ft = x_ft[i] - from_ft;
        const double loaded_ft = past_ft < 0.0 ? 0.0 : past_ft < run_ft ? past_ft : run_ft;
        moment[i] += left_lb * x_ft[i] - patch->psf * loaded_ft * (past_ft - loaded_ft / 2.0);
        slope[i] += left_lb - patch->psf * loaded_ft;
    }
}

void cw_ring_span_of(const cw_ring *ring, const cw_ring_stations *at,
                     const cw_struct_patch *patches, int count, cw_ring_span *out)
{
    double right_ft[CW_BOX_LINE];
    for (int i = 0; i < at->top; i++) {
        right_ft[i] = ring->width_ft - at->at_ft[i];
        for (int right = 0; right < 2; right++)
            out->moment[right][i] = out->slope[right][i] = 0.0;
    }
    for (int p = 0; p < count; p++) {
        add_patch(ring->width_ft, &patches[p], at->top, at->at_ft, out->moment[0], out->slope[0]);
        add_patch(ring->width_ft, &patches[p], at->top, right_ft, out->moment[1], out->slope[1]);
    }
}

/* Moment and its slope in the floor as a simple span, rightward from its left end. */
typedef struct floor_span {
    double moment[CW_BOX_LINE], slope[CW_BOX_LINE];
} floor_span;

/* Forces of the springs at the points; the slope at a point is the mean of both sides. */
static void spring_span(const cw_ring *ring, const double *up_ft, floor_span *out)
{
    const cw_ring_member *floor = &ring->floor;
    const int last = floor->count - 1;
    double force[CW_BOX_LINE], shear = 0.0, moment = 0.0;
    // That at the end stands on the wall.
    force[0] = 0.0;
    for (int i = 1; i <= last; i++) {
        force[i] = -ring->spring[i] * up_ft[i];
        shear += force[i] * (1.0 - floor->at_ft[i] / ring->width_ft);
    }
    out->moment[0] = 0.0;
    out->slope[0] = shear;
    for (int i = 1; i <= last; i++) {
        moment += shear * (floor->at_ft[i] - floor->at_ft[i - 1]);
        out->moment[i] = moment;
        out->slope[i] = i < last ? shear - force[i] / 2.0 : shear;
        shear -= force[i];
    }
}

/* Even and tilted pressure, and a bed over a part of the floor. */
static void pressed_span(const cw_ring *ring, const cw_ring_state *state, double x_ft,
                         double *moment, double *slope)
{
    const double width_ft = ring->width_ft;
    *moment += state->floor_psf * even_moment(x_ft, width_ft) +
               state->tilt_psf * tilt_moment(x_ft, width_ft);
    *slope +=
        state->floor_psf * (width_ft / 2.0 - x_ft) + state->tilt_psf * tilt_slope(x_ft, width_ft);
    if (!state->partly)
        return;
    const cw_frame_line *bed = &state->bed;
    const double start = cw_frame_load_moment(0.0, bed);
    const cw_frame_line after = clipped(bed, x_ft, width_ft);
    *moment += start * (1.0 - x_ft / width_ft) - cw_frame_load_moment(x_ft, bed);
    *slope +=
        (after.from_load + after.to_load) / 2.0 * (after.to_ft - after.from_ft) - start / width_ft;
}

static void floor_forces(const cw_ring *ring, const cw_ring_stations *at,
                         const cw_ring_state *state, cw_ring_forces *out)
{
    const bool springs = ring->ground == CW_STRUCT_SPRINGS;
    const double width_ft = ring->width_ft, odd_slope = 2.0 * state->odd_ft_lb / width_ft;
    const double same = state->strut_lb * ring->height_ft + state->even_ft_lb;
    const int last = ring->floor.count - 1;
    floor_span span;
    if (springs)
        spring_span(ring, state->up_ft, &span);
    for (int i = at->top + at->wall; i < at->count; i++) {
        const int point = at->point[i];
        for (int right = 0; right < 2; right++) {
            const int here = right ? last - point : point;
            const double sign = right ? -1.0 : 1.0;
            double moment = springs ? span.moment[here] : 0.0;
            double slope = springs ? span.slope[here] : 0.0;
            pressed_span(ring, state, ring->floor.at_ft[here], &moment, &slope);
            out->moment[right][i] = moment + same + sign * at->odd[i] * state->odd_ft_lb;
            out->shear[right][i] = -sign * (slope + odd_slope);
            out->thrust[right][i] = -state->strut_lb;
        }
    }
}

void cw_ring_forces_of(const cw_ring *ring, const cw_ring_stations *at, const cw_ring_state *state,
                       const cw_ring_span *span, cw_ring_forces *out)
{
    const double odd_slope = 2.0 * state->odd_ft_lb / ring->width_ft;
    const int wall_end = at->top + at->wall;
    for (int right = 0; right < 2; right++) {
        const double sign = right ? -1.0 : 1.0, odd_ft_lb = sign * state->odd_ft_lb;
        for (int i = 0; i < at->top; i++) {
            out->moment[right][i] =
                span->moment[right][i] + state->even_ft_lb + at->odd[i] * odd_ft_lb;
            out->shear[right][i] = -sign * (span->slope[right][i] + odd_slope);
            out->thrust[right][i] = state->strut_lb;
        }
        const double down_lb = right ? state->right_lb - odd_slope : state->left_lb + odd_slope;
        for (int i = at->top; i < wall_end; i++) {
            out->moment[right][i] =
                state->strut_lb * (ring->height_ft - at->at_ft[i]) + state->even_ft_lb - odd_ft_lb;
            out->shear[right][i] = state->strut_lb;
            out->thrust[right][i] = down_lb;
        }
    }
    floor_forces(ring, at, state, out);
}

void cw_ring_side_forces(const cw_ring *ring, const cw_struct_case *load, double y_ft,
                         double *moment, double *push_lb)
{
    *moment = *push_lb = 0.0;
    for (int k = 0; k < load->right_count; k++) {
        const cw_struct_side *side = &load->right[k];
        const cw_frame_line whole = {side->from_ft, side->to_ft, side->from_psf, side->to_psf};
        const cw_frame_line above = clipped(&whole, y_ft, ring->height_ft);
        *moment -= cw_frame_load_moment(0.0, &above);
        *push_lb += (above.from_load + above.to_load) / 2.0 * (above.to_ft - above.from_ft);
    }
}

double cw_ring_wall_thrust(const cw_ring *ring, const cw_struct_case *load, double y_ft)
{
    return (load->top_psf + load->weight * ring->top_psf) * ring->width_ft / 2.0 +
           load->weight * (ring->crown_lb + ring->wall_lb_per_ft * (ring->height_ft - y_ft));
}

void cw_ring_primary_of(const cw_ring *ring, const cw_ring_stations *at, const cw_struct_case *load,
                        cw_ring_primary *out)
{
    const double top_psf = load->top_psf + load->weight * ring->top_psf;
    const int wall_end = at->top + at->wall;
    double foot_ft_lb, push_lb;
    memset(out, 0, sizeof *out);
    for (int i = 0; i < at->top; i++) {
        out->moment[i] = top_psf * even_moment(at->at_ft[i], ring->width_ft);
        out->shear[i] = -top_psf * (ring->width_ft / 2.0 - at->at_ft[i]);
    }
    for (int i = at->top; i < wall_end; i++) {
        double above_lb;
        cw_ring_side_forces(ring, load, at->at_ft[i], &out->moment[i], &above_lb);
        out->shear[i] = -above_lb;
        out->thrust[i] = cw_ring_wall_thrust(ring, load, at->at_ft[i]);
    }
    cw_ring_side_forces(ring, load, 0.0, &foot_ft_lb, &push_lb);
    for (int i = wall_end; i < at->count; i++) {
        out->moment[i] = foot_ft_lb;
        out->thrust[i] = push_lb;
    }
}
