/* Envelope of the forces in a box over cases and positions.
 *
 * Adding up results of single loads is exact as long as no contact changes.  Each position is asked
 * in each case which contacts it leaves closed; positions and cases that agree share the extremes
 * of the live load, so that most positions cost a few sums.  Where springs lift, or the resultant
 * on stiff ground leaves the middle third, a position is worked out on its own. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "envelope_internal.h"

enum {
    GROUPS = 6, /* of one vehicle: as its load grows the three cases change one after the other */
    KEPT = 4,   /* states of contacts that were met last */
    SLOTS = 4,  /* three cases with traffic, and one at a time of those without */
    ROUNDS = 60 /* as cw_struct_solve() */
};
#define CONTACT_RATIO 1e-9 /* of a load, as cw_struct_solve() */

/* Positions that leave the same contacts in the same cases. */
typedef struct group {
    bool tied;
    unsigned cases; /* a bit for each */
    int positions;
    double strut_most_lb, strut_least_lb, bearing_psf;
    double up_least_ft[CW_BOX_LINE];
    cw_extremes live;
} group;

/* One case: its loads, and its answer with the floor bearing throughout, seats tied or open. */
typedef struct case_of {
    bool stands;                  /* the ground carries it without a vehicle */
    bool tied, open[CW_BOX_LINE]; /* on springs: contacts of the last position on its own */
    cw_struct_case load;
    cw_ring_load parts;
    double mid_thrust_lb;
    cw_ring_primary primary;
    struct {
        double strut_lb, even_ft_lb, gap_ft, up_most_ft;
        double up_ft[CW_BOX_LINE];
    } closed[2];
    cw_wall_hull wall;
} case_of;

static int slot_of(int index)
{
    static const int slots[CW_ENVELOPE_CASES] = {[CW_ENVELOPE_ALL_MOST] = 0,
                                                 [CW_ENVELOPE_TOP_MOST] = 1,
                                                 [CW_ENVELOPE_FULL_OF_WATER] = 2,
                                                 [CW_ENVELOPE_SIDES_MOST] = SLOTS - 1,
                                                 [CW_ENVELOPE_FLOODED_GROUND] = SLOTS - 1};
    return slots[index];
}

/* Forces at the left of the stations by live loads of 1: the right is the same or the opposite. */
enum { UNIT_DOWN, UNIT_EVEN, UNIT_TIP, UNIT_ODD, UNITS };
static const int unit_load[UNITS] = {CW_RING_DOWN, CW_RING_EVEN, CW_RING_TIP, CW_RING_ODD};

typedef struct sweep {
    const cw_struct_box *box;
    const cw_ring *ring;
    const cw_ring_contact *closed; /* open seats, tied seats */
    cw_ring_stations at;
    cw_ring_primary units[2][UNITS]; /* with open and tied seats */
    int place[CW_STRUCT_PLACES];     /* station of each */
    double live;                     /* factor */
    int every;                       /* position is taken */
    case_of cases[SLOTS];
    int group_count;
    group groups[GROUPS];
    int kept_count, kept_next;
    cw_ring_contact kept[KEPT];
    cw_reading readings[CW_RING_STATIONS];
    cw_struct_envelope out;
} sweep;

/* What a vehicle adds with the floor bearing throughout. */
typedef struct live_state {
    double strut_lb, even_ft_lb, odd_ft_lb, gap_ft, bearing_psf, up_most_ft;
    double up_ft[CW_BOX_LINE];
} live_state;

/* A vehicle at one position, loads without factor. */
typedef struct standing {
    int count;
    cw_struct_patch patches[CW_STRUCT_PATCHES_MAX];
    cw_ring_live live;
    cw_ring_span span;
    double unit[UNITS]; /* the same as in live.load */
    bool known[2];
    live_state closed[2];
} standing;

/* ---- taking ---- */

/* Thrust at mid height of the wall that an odd moment bends inward; the lesser of both without. */
static double wall_thrust(const sweep *s, const case_of *c, double odd_ft_lb, double left_lb,
                          double right_lb)
{
    const double shift_lb = 2.0 * odd_ft_lb / s->ring->width_ft;
    const double left = c->mid_thrust_lb + left_lb + shift_lb;
    const double right = c->mid_thrust_lb + right_lb - shift_lb;
    return odd_ft_lb > 0.0 ? right : odd_ft_lb < 0.0 ? left : fmin(left, right);
}

static void take_strut(cw_struct_envelope *out, double most_lb, double least_lb)
{
    out->strut_most_lb = fmax(out->strut_most_lb, most_lb);
    out->strut_least_lb = fmin(out->strut_least_lb, least_lb);
}

/* ---- states ---- */

/* Unknown forces of @p parts with the given contacts. */
static void answer(const cw_ring *ring, const cw_ring_contact *contact, const cw_ring_load *parts,
                   cw_ring_state *out)
{
    const bool springs = ring->ground == CW_STRUCT_SPRINGS;
    out->strut_lb = out->even_ft_lb = out->odd_ft_lb = out->gap_ft = 0.0;
    if (springs)
        memset(out->up_ft, 0, sizeof out->up_ft);
    for (int k = 0; k < CW_RING_LOADS; k++) {
        const double part = parts->part[k];
        if (part == 0.0)
            continue;
        out->strut_lb += part * contact->strut[k];
        out->even_ft_lb += part * contact->even[k];
        out->odd_ft_lb += part * contact->odd[k];
        out->gap_ft += part * contact->gap_ft[k];
        for (int i = 0; springs && i < CW_BOX_LINE; i++)
            out->up_ft[i] += part * contact->up_ft[k][i];
    }
}

static double most_of(const double *values, int count)
{
    double most = values[0];
    for (int i = 1; i < count; i++)
        most = values[i] > most ? values[i] : most;
    return most;
}

/* Straight-line reaction that balances the load: N/B (1 +- 6 e/B). */
static void press_evenly(const cw_ring *ring, const cw_ring_load *parts, cw_ring_state *out)
{
    out->partly = false;
    out->floor_psf = -parts->part[CW_RING_FLOOR];
    out->tilt_psf = 0.0;
    if (ring->ground == CW_STRUCT_SPRINGS)
        return;
    out->floor_psf += parts->part[CW_RING_DOWN] / ring->width_ft;
    out->tilt_psf = 6.0 * parts->part[CW_RING_TIP] / (ring->width_ft * ring->width_ft);
}

static bool in_middle_third(double down_lb, double tip_ft_lb, double width_ft)
{
    return down_lb > 0.0 && fabs(tip_ft_lb) <= down_lb * width_ft / 6.0;
}

/* ---- a position on its own ---- */

static void take_state(sweep *s, int index, const cw_ring_state *state, const cw_ring_span *span)
{
    case_of *c = &s->cases[slot_of(index)];
    cw_ring_forces forces;
    cw_ring_forces_of(s->ring, &s->at, state, span, &forces);
    for (int i = 0; i < s->at.count; i++)
        for (int right = 0; right < 2; right++)
            cw_take_force(&s->readings[i],
                          (cw_struct_force){forces.moment[right][i] + c->primary.moment[i],
                                            forces.shear[right][i] + c->primary.shear[i],
                                            forces.thrust[right][i] + c->primary.thrust[i]},
                          index);
    cw_take_moment(&s->out.wall,
                   cw_wall_hull_most(&c->wall, state->strut_lb, s->ring->height_ft) +
                       state->even_ft_lb + fabs(state->odd_ft_lb),
                   wall_thrust(s, c, state->odd_ft_lb, state->left_lb, state->right_lb), index);
    take_strut(&s->out, state->strut_lb, state->strut_lb);
}

/* The mesh's answer, for what does not settle here: it tells why. */
static bool take_solution(sweep *s, int index, const standing *at, double factor)
{
    cw_struct_case load = s->cases[slot_of(index)].load;
    load.patch_count = at->count;
    for (int p = 0; p < at->count; p++) {
        load.patches[p] = at->patches[p];
        load.patches[p].psf *= factor;
    }
    const cw_struct_solution one = cw_struct_solve(s->box, &load);
    s->out.status = one.status;
    if (one.status != CW_STRUCT_OK)
        return false;
    s->out.released += one.released;
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        cw_take_force(&s->readings[s->place[p]], one.left[p], index);
        cw_take_force(&s->readings[s->place[p]], one.right[p], index);
    }
    cw_take_moment(
        &s->out.wall, one.wall_most_ft_lb,
        fmin(one.left[CW_STRUCT_WALL_MID].thrust_lb, one.right[CW_STRUCT_WALL_MID].thrust_lb),
        index);
    take_strut(&s->out, one.strut_lb, one.strut_lb);
    s->out.bearing_most_psf = fmax(s->out.bearing_most_psf, one.bearing_most_psf);
    s->out.residual = fmax(s->out.residual, one.residual);
    return true;
}

/* A triangle three times as long as the resultant's distance from the edge; closed form. */
static bool press_partly(const cw_ring *ring, cw_ring_load *parts, cw_ring_state *out)
{
    const double width_ft = ring->width_ft, down_lb = parts->part[CW_RING_DOWN];
    const double off_ft = parts->part[CW_RING_TIP] / down_lb;
    const double run_ft = 3.0 * (width_ft / 2.0 - fabs(off_ft));
    if (!(down_lb > 0.0) || !(run_ft > CONTACT_RATIO * width_ft))
        return false;
    const double most_psf = 2.0 * down_lb / run_ft;
    out->bed = off_ft > 0.0 ? (cw_frame_line){width_ft - run_ft, width_ft, 0.0, most_psf}
                            : (cw_frame_line){0.0, run_ft, most_psf, 0.0};
    out->partly = true;
    out->floor_psf = -parts->part[CW_RING_FLOOR];
    out->tilt_psf = 0.0;
    const cw_ring_turn turn = cw_ring_floor_turn(ring, &out->bed);
    parts->part[CW_RING_APART] += ring->height_ft * turn.one;
    parts->part[CW_RING_EVEN] += turn.one;
    parts->part[CW_RING_ODD] += turn.line;
    parts->part[CW_RING_DOWN] = parts->part[CW_RING_TIP] = 0.0;
    return true;
}

static bool settle_pressed(sweep *s, cw_ring_load *parts, cw_ring_state *state)
{
    const cw_ring *ring = s->ring;
    const double down_lb = parts->part[CW_RING_DOWN], tip_ft_lb = parts->part[CW_RING_TIP];
    double most_psf;
    if (in_middle_third(down_lb, tip_ft_lb, ring->width_ft)) {
        press_evenly(ring, parts, state);
        most_psf = down_lb / ring->width_ft + fabs(state->tilt_psf);
    } else {
        if (!press_partly(ring, parts, state))
            return false;
        most_psf = fmax(state->bed.from_load, state->bed.to_load);
    }
    answer(ring, &s->closed[1], parts, state);
    if (ring->form == CW_STRUCT_LID && state->strut_lb < 0.0) {
        answer(ring, &s->closed[0], parts, state);
        s->out.released++;
    }
    s->out.bearing_most_psf = fmax(s->out.bearing_most_psf, most_psf);
    return true;
}

static const cw_ring_contact *kept_of(sweep *s, bool tied, const bool *open)
{
    if (memcmp(s->closed[tied].open, open, sizeof s->closed[tied].open) == 0)
        return &s->closed[tied];
    for (int i = 0; i < s->kept_count; i++)
        if (s->kept[i].tied == tied && memcmp(s->kept[i].open, open, sizeof s->kept[i].open) == 0)
            return &s->kept[i];
    const int i = s->kept_next;
    if (!cw_ring_solve(s->ring, tied, open, &s->kept[i])) {
        s->kept_count = s->kept_next = 0;
        return NULL;
    }
    s->out.residual = fmax(s->out.residual, s->kept[i].residual);
    s->kept_next = (i + 1) % KEPT;
    s->kept_count += s->kept_count < KEPT;
    return &s->kept[i];
}

/* Springs that pull open, points that sink close; true when none changed. */
static bool springs_agree(const cw_ring *ring, const double *up_ft, bool *open)
{
    double size_ft = 0.0;
    bool same = true;
    for (int i = 0; i < ring->floor.count; i++)
        size_ft = fmax(size_ft, fabs(up_ft[i]));
    for (int i = 0; i < ring->floor.count; i++) {
        const bool lifts =
            open[i] ? up_ft[i] > -CONTACT_RATIO * size_ft : up_ft[i] > CONTACT_RATIO * size_ft;
        same = same && lifts == open[i];
        open[i] = lifts;
    }
    return same;
}

static bool settle_on_springs(sweep *s, case_of *c, const cw_ring_load *parts, cw_ring_state *state)
{
    const cw_ring *ring = s->ring;
    const bool lid = ring->form == CW_STRUCT_LID;
    press_evenly(ring, parts, state);
    // The contacts of the neighbour are the best guess.
    for (int round = 0; round < ROUNDS; round++) {
        const cw_ring_contact *contact = kept_of(s, c->tied, c->open);
        if (!contact)
            break;
        answer(ring, contact, parts, state);
        if (!springs_agree(ring, state->up_ft, c->open))
            continue;
        // Touching within rounding keeps what it is, so that both answers cannot chase each other.
        const double slack_lb = CONTACT_RATIO * parts->part[CW_RING_DOWN];
        if (lid && (c->tied ? state->strut_lb < -slack_lb : state->gap_ft < 0.0)) {
            c->tied = !c->tied;
            continue;
        }
        s->out.released += !c->tied;
        for (int i = 0; i < ring->floor.count; i++) {
            state->up_ft[i] = c->open[i] ? 0.0 : state->up_ft[i]; // an open spring carries nothing
            s->out.bearing_most_psf =
                fmax(s->out.bearing_most_psf, -ring->ground_pcf * state->up_ft[i]);
        }
        return true;
    }
    c->tied = true;
    memset(c->open, 0, sizeof c->open);
    return false;
}

static bool take_alone(sweep *s, int index, const standing *at, double factor)
{
    const cw_ring *ring = s->ring;
    cw_ring_load parts = s->cases[slot_of(index)].parts;
    cw_ring_state state;
    cw_ring_span span;
    for (int k = 0; k < CW_RING_LOADS; k++)
        parts.part[k] += factor * at->live.load.part[k];
    const int released = s->out.released;
    const bool good = ring->ground == CW_STRUCT_SPRINGS
                          ? settle_on_springs(s, &s->cases[slot_of(index)], &parts, &state)
                          : settle_pressed(s, &parts, &state);
    if (!good) {
        s->out.released = released;
        return take_solution(s, index, at, factor);
    }
    state.left_lb = factor * at->live.left_lb;
    state.right_lb = factor * at->live.right_lb;
    for (int right = 0; right < 2; right++)
        for (int i = 0; i < s->at.top; i++) {
            span.moment[right][i] = factor * at->span.moment[right][i];
            span.slope[right][i] = factor * at->span.slope[right][i];
        }
    take_state(s, index, &state, &span);
    return true;
}

/* ---- positions that share their contacts ---- */

static double unit_sum(const standing *at, const double *by_load)
{
    double sum = 0.0;
    for (int k = 0; k < UNITS; k++)
        sum += at->unit[k] * by_load[unit_load[k]];
    return sum;
}

static void live_floor(const sweep *s, const standing *at, bool tied, live_state *out)
{
    const cw_ring_contact *contact = &s->closed[tied];
    const int count = s->ring->floor.count;
    const double *down = contact->up_ft[CW_RING_DOWN], *tip = contact->up_ft[CW_RING_TIP];
    const double *even = contact->up_ft[CW_RING_EVEN], *odd = contact->up_ft[CW_RING_ODD];
    if (s->ring->ground == CW_STRUCT_UNIFORM) {
        const double width_ft = s->ring->width_ft;
        out->up_most_ft = 0.0;
        out->bearing_psf =
            (at->unit[UNIT_DOWN] + 6.0 * fabs(at->unit[UNIT_TIP]) / width_ft) / width_ft;
        return;
    }
    for (int i = 0; i < count; i++)
        out->up_ft[i] = at->unit[UNIT_DOWN] * down[i] + at->unit[UNIT_TIP] * tip[i];
    for (int i = 0; s->ring->form != CW_STRUCT_LID && i < count; i++)
        out->up_ft[i] += at->unit[UNIT_EVEN] * even[i] + at->unit[UNIT_ODD] * odd[i];
    out->up_most_ft = most_of(out->up_ft, count);
}

static const live_state *live_of(const sweep *s, standing *at, bool tied)
{
    live_state *live = &at->closed[tied];
    const cw_ring_contact *contact = &s->closed[tied];
    if (at->known[tied])
        return live;
    at->known[tied] = true;
    live->strut_lb = unit_sum(at, contact->strut);
    live->even_ft_lb = unit_sum(at, contact->even);
    live->odd_ft_lb = unit_sum(at, contact->odd);
    live->gap_ft = unit_sum(at, contact->gap_ft);
    live_floor(s, at, tied, live);
    return live;
}

/* Whether all springs push; first by the worst of both parts, seldom one by one. */
static bool bears(const sweep *s, int index, standing *at, bool tied)
{
    const case_of *c = &s->cases[slot_of(index)];
    const live_state *live = live_of(s, at, tied);
    if (c->closed[tied].up_most_ft + s->live * live->up_most_ft <= 0.0)
        return true;
    for (int i = 0; i < s->ring->floor.count; i++)
        if (c->closed[tied].up_ft[i] + s->live * live->up_ft[i] > 0.0)
            return false;
    return true;
}

/* 1 with tied seats, 0 with open ones, -1 when the floor does not bear as the group needs it. */
static int contact_of(const sweep *s, int index, standing *at)
{
    const cw_ring *ring = s->ring;
    const case_of *c = &s->cases[slot_of(index)];
    const bool springs = ring->ground == CW_STRUCT_SPRINGS;
    if (!c->stands)
        return -1;
    if (!springs && !in_middle_third(c->parts.part[CW_RING_DOWN] + s->live * at->unit[UNIT_DOWN],
                                     s->live * at->unit[UNIT_TIP], ring->width_ft))
        return -1;
    const double strut_lb = c->closed[1].strut_lb + s->live * unit_sum(at, s->closed[1].strut);
    if (ring->form != CW_STRUCT_LID || strut_lb >= 0.0)
        return springs && !bears(s, index, at, true) ? -1 : 1;
    const double gap_ft = c->closed[0].gap_ft + s->live * unit_sum(at, s->closed[0].gap_ft);
    return springs && !(gap_ft >= 0.0 && bears(s, index, at, false)) ? -1 : 0;
}

/* Even loads do the same on both sides, odd ones the opposite. */
static void widen(cw_extremes *e, const sweep *s, const standing *at, bool tied)
{
    const cw_ring_primary *unit = s->units[tied];
    const double down = at->unit[UNIT_DOWN], even = at->unit[UNIT_EVEN];
    const double tip = at->unit[UNIT_TIP], odd = at->unit[UNIT_ODD];
    for (int i = 0; i < s->at.count; i++) {
        const double moment[2] = {down * unit[0].moment[i] + even * unit[1].moment[i],
                                  tip * unit[2].moment[i] + odd * unit[3].moment[i]};
        const double shear[2] = {down * unit[0].shear[i] + even * unit[1].shear[i],
                                 tip * unit[2].shear[i] + odd * unit[3].shear[i]};
        const double thrust[2] = {down * unit[0].thrust[i] + even * unit[1].thrust[i],
                                  tip * unit[2].thrust[i] + odd * unit[3].thrust[i]};
        const bool top = i < s->at.top;
        cw_extremes_widen(e, i, moment[0] + moment[1] + (top ? at->span.moment[0][i] : 0.0),
                          shear[0] + shear[1] - (top ? at->span.slope[0][i] : 0.0),
                          thrust[0] + thrust[1]);
        cw_extremes_widen(e, i, moment[0] - moment[1] + (top ? at->span.moment[1][i] : 0.0),
                          shear[0] - shear[1] + (top ? at->span.slope[1][i] : 0.0),
                          thrust[0] - thrust[1]);
    }
}

/* The group of these contacts in these cases; NULL when there are as many as there can be. */
static group *group_of(sweep *s, bool tied, unsigned cases)
{
    for (int g = 0; g < s->group_count; g++)
        if (s->groups[g].tied == tied && s->groups[g].cases == cases)
            return &s->groups[g];
    if (s->group_count == GROUPS)
        return NULL;
    group *out = &s->groups[s->group_count++];
    out->tied = tied;
    out->cases = cases;
    out->positions = 0;
    out->strut_most_lb = -CW_ANY_HIGH;
    out->strut_least_lb = CW_ANY_HIGH;
    out->bearing_psf = -CW_ANY_HIGH;
    for (int i = 0; i < CW_BOX_LINE; i++)
        out->up_least_ft[i] = CW_ANY_HIGH;
    for (int i = 0; i < s->at.count; i++) {
        out->live.most[i] = out->live.near_most[i] = -CW_ANY_HIGH;
        out->live.least[i] = out->live.near_least[i] = CW_ANY_HIGH;
        out->live.up[i] = out->live.thrust[i] = -CW_ANY_HIGH;
        out->live.down[i] = CW_ANY_HIGH;
    }
    return out;
}

static void join(const sweep *s, group *g, standing *at)
{
    const live_state *live = live_of(s, at, g->tied);
    widen(&g->live, s, at, g->tied);
    g->positions++;
    g->strut_most_lb = live->strut_lb > g->strut_most_lb ? live->strut_lb : g->strut_most_lb;
    g->strut_least_lb = live->strut_lb < g->strut_least_lb ? live->strut_lb : g->strut_least_lb;
    if (s->ring->ground == CW_STRUCT_UNIFORM) {
        g->bearing_psf = live->bearing_psf > g->bearing_psf ? live->bearing_psf : g->bearing_psf;
        return;
    }
    for (int i = 0; i < s->ring->floor.count; i++)
        g->up_least_ft[i] = live->up_ft[i] < g->up_least_ft[i] ? live->up_ft[i] : g->up_least_ft[i];
}

/* The greatest within the walls is no sum of extremes: it is found for each position. */
static void join_wall(sweep *s, int index, const standing *at, bool tied)
{
    case_of *c = &s->cases[slot_of(index)];
    const live_state *live = &at->closed[tied];
    const double strut_lb = c->closed[tied].strut_lb + s->live * live->strut_lb;
    const double odd_ft_lb = s->live * live->odd_ft_lb;
    cw_take_moment(
        &s->out.wall,
        cw_wall_hull_most(&c->wall, strut_lb, s->ring->height_ft) + c->closed[tied].even_ft_lb +
            s->live * live->even_ft_lb + fabs(odd_ft_lb),
        wall_thrust(s, c, odd_ft_lb, s->live * at->live.left_lb, s->live * at->live.right_lb),
        index);
}

static bool take_position(sweep *s, standing *at)
{
    unsigned cases[2] = {0, 0};
    for (int c = 0; c < CW_ENVELOPE_CASES; c++) {
        if (!cw_envelope_has_traffic(c))
            continue;
        s->out.solves++;
        const int tied = contact_of(s, c, at);
        if (tied >= 0)
            cases[tied] |= 1u << c;
        else if (!take_alone(s, c, at, s->live))
            return false;
    }
    for (int tied = 0; tied < 2; tied++) {
        if (cases[tied] == 0)
            continue;
        group *g = group_of(s, tied, cases[tied]);
        if (g)
            join(s, g, at);
        for (int c = 0; c < CW_ENVELOPE_CASES; c++) {
            if (!(cases[tied] & 1u << c))
                continue;
            if (g)
                join_wall(s, c, at, tied);
            else if (!take_alone(s, c, at, s->live))
                return false;
        }
    }
    return true;
}

static bool take_vehicle(sweep *s, const cw_struct_wheel *wheel)
{
    const cw_envelope_walk walk = cw_envelope_walk_of(s->box, wheel);
    standing at;
    for (int k = 0; k < walk.count; k += s->every) {
        at.count = cw_envelope_place(&walk, wheel, k, at.patches);
        if (at.count == 0)
            continue;
        at.known[0] = at.known[1] = false;
        at.live = cw_ring_of_patches(s->ring, at.patches, at.count);
        for (int u = 0; u < UNITS; u++)
            at.unit[u] = at.live.load.part[unit_load[u]];
        cw_ring_span_of(s->ring, &s->at, at.patches, at.count, &at.span);
        if (!take_position(s, &at))
            return false;
    }
    return true;
}

/* ---- putting together ---- */

static void close_case(sweep *s, int index, const group *g)
{
    const case_of *c = &s->cases[slot_of(index)];
    const double f = s->live;
    const cw_extremes *e = &g->live;
    const cw_ring_span none = {0};
    cw_ring_state state = {.strut_lb = c->closed[g->tied].strut_lb,
                           .even_ft_lb = c->closed[g->tied].even_ft_lb};
    cw_ring_forces forces;
    memcpy(state.up_ft, c->closed[g->tied].up_ft, sizeof state.up_ft);
    press_evenly(s->ring, &c->parts, &state);
    cw_ring_forces_of(s->ring, &s->at, &state, &none, &forces);
    for (int i = 0; i < s->at.count; i++) {
        const double moment = forces.moment[0][i] + c->primary.moment[i];
        const double shear = forces.shear[0][i] + c->primary.shear[i];
        const double thrust = forces.thrust[0][i] + c->primary.thrust[i];
        cw_reading *r = &s->readings[i];
        cw_take_moment(&r->span, moment + f * e->most[i], thrust + f * e->most_thrust[i], index);
        cw_take_moment(&r->span, moment + f * e->least[i], thrust + f * e->least_thrust[i], index);
        cw_take_shear(&r->span,
                      (cw_struct_force){moment + f * e->up_moment[i], shear + f * e->up[i],
                                        thrust + f * e->up_thrust[i]},
                      index);
        cw_take_shear(&r->span,
                      (cw_struct_force){moment + f * e->down_moment[i], shear + f * e->down[i],
                                        thrust + f * e->down_thrust[i]},
                      index);
        cw_take_thrust(r, thrust + f * e->thrust[i], index);
    }
    take_strut(&s->out, state.strut_lb + f * g->strut_most_lb,
               state.strut_lb + f * g->strut_least_lb);
    s->out.released += g->tied ? 0 : g->positions;
    double bearing_psf = c->parts.part[CW_RING_DOWN] / s->ring->width_ft + f * g->bearing_psf;
    if (s->ring->ground == CW_STRUCT_SPRINGS) {
        bearing_psf = 0.0;
        for (int i = 0; i < s->ring->floor.count; i++)
            bearing_psf =
                fmax(bearing_psf, -s->ring->ground_pcf * (state.up_ft[i] + f * g->up_least_ft[i]));
    }
    s->out.bearing_most_psf = fmax(s->out.bearing_most_psf, bearing_psf);
}

static void close_groups(sweep *s)
{
    for (int g = 0; g < s->group_count; g++)
        for (int c = 0; c < CW_ENVELOPE_CASES; c++)
            if (s->groups[g].cases & 1u << c)
                close_case(s, c, &s->groups[g]);
    s->group_count = 0;
}

static void open_case(sweep *s, int index, const cw_struct_site *site,
                      const cw_envelope_factors *factors)
{
    case_of *c = &s->cases[slot_of(index)];
    const cw_ring *ring = s->ring;
    c->load = cw_envelope_case(index, s->box, site, factors);
    c->parts = cw_ring_of_case(ring, &c->load);
    c->mid_thrust_lb = cw_ring_wall_thrust(ring, &c->load,
                                           ring->wall.at_ft[ring->place_point[CW_STRUCT_WALL_MID]]);
    c->tied = true;
    memset(c->open, 0, sizeof c->open);
    c->stands = c->parts.part[CW_RING_DOWN] > 0.0;
    cw_ring_primary_of(ring, &s->at, &c->load, &c->primary);
    cw_wall_hull_of(ring, &c->load, &c->wall);
    for (int tied = 0; tied < 2; tied++) {
        cw_ring_state state;
        answer(ring, &s->closed[tied], &c->parts, &state);
        c->closed[tied].strut_lb = state.strut_lb;
        c->closed[tied].even_ft_lb = state.even_ft_lb;
        c->closed[tied].gap_ft = state.gap_ft;
        c->closed[tied].up_most_ft = most_of(state.up_ft, ring->floor.count);
        memcpy(c->closed[tied].up_ft, state.up_ft, sizeof state.up_ft);
    }
}

static void open_units(sweep *s)
{
    const cw_ring_span none = {0};
    for (int tied = 0; tied < 2; tied++)
        for (int u = 0; u < UNITS; u++) {
            cw_ring_load parts = {{0}};
            cw_ring_state state = {0};
            cw_ring_forces forces;
            parts.part[unit_load[u]] = 1.0;
            answer(s->ring, &s->closed[tied], &parts, &state);
            press_evenly(s->ring, &parts, &state);
            state.left_lb = u == UNIT_DOWN ? 0.5 : u == UNIT_TIP ? -1.0 / s->ring->width_ft : 0.0;
            state.right_lb = fabs(state.left_lb);
            cw_ring_forces_of(s->ring, &s->at, &state, &none, &forces);
            memcpy(s->units[tied][u].moment, forces.moment[0], sizeof forces.moment[0]);
            memcpy(s->units[tied][u].shear, forces.shear[0], sizeof forces.shear[0]);
            memcpy(s->units[tied][u].thrust, forces.thrust[0], sizeof forces.thrust[0]);
        }
}

static const cw_struct_span no_span = {.most_ft_lb = -CW_ANY_HIGH, .least_ft_lb = CW_ANY_HIGH};

static void open_sweep(sweep *s, bool all)
{
    const cw_ring *ring = s->ring;
    s->group_count = s->kept_count = s->kept_next = 0;
    cw_ring_stations_set(ring, all, &s->at);
    open_units(s);
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        const int first = p < CW_STRUCT_WALL_TOP    ? 0
                          : p < CW_STRUCT_FLOOR_END ? s->at.top
                                                    : s->at.top + s->at.wall;
        s->place[p] = all ? first + ring->place_point[p] : p;
    }
    for (int i = 0; i < s->at.count; i++)
        s->readings[i] = (cw_reading){.span = no_span, .thrust_most_lb = -CW_ANY_HIGH};
    s->out = (cw_struct_envelope){.strut_least_lb = CW_ANY_HIGH,
                                  .strut_most_lb = -CW_ANY_HIGH,
                                  .wall = no_span,
                                  .residual = fmax(s->closed[0].residual, s->closed[1].residual)};
}

static void run_sweep(sweep *s, const cw_struct_ask *ask, const cw_rows *rows)
{
    const cw_envelope_factors factors = cw_envelope_factors_of(ask->state, rows);
    const standing empty = {0};
    s->live = factors.live;
    for (int c = 0; c < CW_ENVELOPE_CASES; c++) {
        if (!cw_envelope_has(c, ask->site))
            continue;
        open_case(s, c, ask->site, &factors);
        s->out.solves++;
        if (!take_alone(s, c, &empty, 1.0))
            return;
    }
    for (int w = 0; w < ask->wheel_count; w++) {
        if (ask->wheels[w].counts && !take_vehicle(s, &ask->wheels[w]))
            return;
        close_groups(s);
    }
}

static void read_curve(const sweep *s, int first, int count, cw_struct_curve *out)
{
    assert(count <= CW_STRUCT_CURVE_MAX);
    out->count = count;
    for (int i = 0; i < count; i++) {
        const cw_reading *r = &s->readings[first + i];
        out->at_ft[i] = s->at.at_ft[first + i];
        out->span[i] = r->span;
        out->thrust_most_lb[i] = r->thrust_most_lb;
        out->thrust_case[i] = r->thrust_case;
    }
}

static void read_diagram(const sweep *s, cw_struct_diagram *out)
{
    out->width_ft = s->ring->width_ft;
    out->height_ft = s->ring->height_ft;
    read_curve(s, 0, s->at.top, &out->top);
    read_curve(s, s->at.top, s->at.wall, &out->wall);
    read_curve(s, s->at.top + s->at.wall, s->at.count - s->at.top - s->at.wall, &out->floor);
}

void cw_envelope_every(const cw_struct_box *box, const cw_struct_ask *asks, int count, int every,
                       const cw_rows *rows, cw_struct_envelope *out)
{
    cw_ring ring;
    cw_ring_contact closed[2];
    sweep s = {.box = box, .ring = &ring, .closed = closed, .every = every};
    const bool open[CW_BOX_LINE] = {false};
    cw_struct_status status = cw_ring_build(&ring, box);
    for (int tied = 0; tied < 2 && status == CW_STRUCT_OK; tied++)
        if (!cw_ring_solve(&ring, tied, open, &closed[tied]))
            status = CW_STRUCT_MECHANISM;
    for (int i = 0; i < count; i++) {
        if (status != CW_STRUCT_OK) {
            out[i] = (cw_struct_envelope){.status = status, .solves = 1};
            continue;
        }
        open_sweep(&s, asks[i].diagram != NULL);
        run_sweep(&s, &asks[i], rows);
        for (int p = 0; p < CW_STRUCT_PLACES; p++)
            s.out.at[p] = s.readings[s.place[p]].span;
        if (asks[i].diagram)
            read_diagram(&s, asks[i].diagram);
        out[i] = s.out;
    }
}

void cw_struct_envelop_each(const cw_struct_box *box, const cw_struct_ask *asks, int count,
                            const cw_rows *rows, cw_struct_envelope *out)
{
    cw_envelope_every(box, asks, count, 1, rows, out);
}

cw_struct_envelope cw_struct_envelop(const cw_struct_box *box, const cw_struct_site *site,
                                     const cw_struct_wheel *wheels, int wheel_count, int state,
                                     const cw_rows *rows)
{
    const cw_struct_ask ask = {
        .site = site, .wheels = wheels, .wheel_count = wheel_count, .state = state};
    cw_struct_envelope out;
    cw_struct_envelop_each(box, &ask, 1, rows, &out);
    return out;
}
