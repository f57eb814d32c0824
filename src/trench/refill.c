/* Volumes in the cut below a level, and what goes back by zone and by lift. */
#include <assert.h>
#include <math.h>

#include "clip.h"
#include "cw/tolerance.h"

/* Ground and level over the piece: what lies below both and above the cut. */
static double below_cuft(const clip_piece *piece, const cut_cell *cell, double height_ft)
{
    double over[PIECE_CORNERS_MAX] = {0.0}, under[PIECE_CORNERS_MAX] = {0.0};
    double value[PIECE_CORNERS_MAX] = {0.0};
    for (int i = 0; i < piece->count; i++) {
        const clip_corner *c = &piece->corners[i];
        over[i] = c->z - (plane_at(&cell->bottom, c->e, c->n) + height_ft);
        under[i] = -over[i];
    }
    double volume = 0.0, highest = 0.0;
    for (int i = 0; i < piece->count; i++)
        highest = fmax(highest, over[i]);
    const clip_piece low = clip_positive(piece, under, SIDE_NONE);
    for (int i = 0; i < low.count; i++)
        value[i] = low.corners[i].d;
    if (low.count > 0)
        volume += piece_cuft(&low, value);
    if (highest <= 0.0)
        return volume; // Ground level with the level lies below it, and is counted once.
    const clip_piece high = clip_positive(piece, over, SIDE_NONE);
    // From the ground down to the level, so much less is left over the cut.
    for (int i = 0; i < high.count; i++) {
        const clip_corner *c = &high.corners[i];
        value[i] = c->d - (c->z - (plane_at(&cell->bottom, c->e, c->n) + height_ft));
    }
    const clip_piece level = high.count > 0 ? clip_positive(&high, value, SIDE_NONE) : high;
    for (int i = 0; i < level.count; i++) {
        const clip_corner *c = &level.corners[i];
        value[i] = c->d - (c->z - (plane_at(&cell->bottom, c->e, c->n) + height_ft));
    }
    return level.count > 0 ? volume + piece_cuft(&level, value) : volume;
}

double cw_earthwork_below_cuft(const cw_earthwork_dug *dug, double height_ft)
{
    assert(dug->status == CW_EARTHWORK_KNOWN);
    double volume = 0.0;
    for (int i = 0; i < dug->pieces->count; i++) {
        const dug_piece *p = &dug->pieces->items[i];
        const cut_cell *cell = &dug->pieces->cells.items[p->cell];
        if (cell->zone == 0)
            volume += below_cuft(&p->shape, cell, height_ft);
    }
    return volume;
}

/* ---- boxes ---- */

/* A rectangle along one leg. */
typedef struct strip_of_leg {
    double from_ft, to_ft, left_ft, right_ft;
} strip_of_leg;

static clip_piece in_strip(const clip_piece *piece, const cw_earthwork_leg *leg, const strip_of_leg *s)
{
    const double limits[4] = {s->from_ft, s->to_ft, s->left_ft, s->right_ft};
    clip_piece kept = *piece;
    for (int side = 0; side < 4 && kept.count > 0; side++) {
        double value[PIECE_CORNERS_MAX];
        for (int i = 0; i < kept.count; i++) {
            double along = 0.0, right = 0.0;
            leg_place(leg, kept.corners[i].e, kept.corners[i].n, &along, &right);
            const double away = (side < 2 ? along : right) - limits[side];
            value[i] = side % 2 == 0 ? away : -away;
        }
        kept = clip_positive(&kept, value, SIDE_NONE);
    }
    return kept;
}

/* Over the strip, between its underside and the level, and below the ground. */
static double strip_cuft(const cw_earthwork_dug *dug, const strip_of_leg *s, double seat_ft,
                         double height_ft)
{
    const cw_earthwork_pieces *all = dug->pieces;
    double volume = 0.0;
    for (int i = 0; i < all->count; i++) {
        const cut_cell *cell = &all->cells.items[all->items[i].cell];
        if (!cell->is_floor)
            continue;
        // At a bend the mitre ends the boxes, not a line square to the leg.
        const cw_earthwork_leg *leg = &all->cut->legs[cell->leg];
        strip_of_leg own = *s;
        if (cell->leg > 0 && s->from_ft <= leg->from_ft)
            own.from_ft = -HUGE_VAL;
        if (cell->leg + 1 < all->cut->leg_count && s->to_ft >= leg->to_ft)
            own.to_ft = HUGE_VAL;
        const clip_piece piece = in_strip(&all->items[i].shape, leg, &own);
        if (piece.count > 0)
            volume += below_cuft(&piece, cell, height_ft) - below_cuft(&piece, cell, seat_ft);
    }
    return volume;
}

double cw_earthwork_boxes_cuft(const cw_earthwork_dug *dug, const cw_earthwork_boxes *boxes,
                               bool gaps, double height_ft)
{
    assert(dug->status == CW_EARTHWORK_KNOWN);
    const double top_ft = fmin(height_ft, boxes->seat_ft + boxes->height_ft);
    if (top_ft <= boxes->seat_ft)
        return 0.0;
    const double apart_ft = boxes->width_ft + boxes->clear_gap_ft;
    const double left_ft = -(boxes->barrels * apart_ft - boxes->clear_gap_ft) / 2.0;
    double volume = 0.0;
    for (int i = 0; i < boxes->barrels - (gaps ? 1 : 0); i++) {
        const double from_ft = left_ft + i * apart_ft + (gaps ? boxes->width_ft : 0.0);
        const strip_of_leg s = {boxes->from_ft, boxes->to_ft, from_ft,
                                from_ft + (gaps ? boxes->clear_gap_ft : boxes->width_ft)};
        volume += strip_cuft(dug, &s, boxes->seat_ft, top_ft);
    }
    return volume;
}

/* ---- zones and lifts ---- */

static double solid_cuft(const cw_earthwork_dug *dug, const cw_earthwork_fill_input *in, double height_ft)
{
    return cw_earthwork_boxes_cuft(dug, &in->boxes, false, height_ft) +
           cw_earthwork_boxes_cuft(dug, &in->boxes, true, height_ft);
}

/* Backfill between two levels. */
static double between_cuft(const cw_earthwork_dug *dug, const cw_earthwork_fill_input *in,
                           double from_ft, double to_ft)
{
    if (to_ft <= from_ft)
        return 0.0;
    return cw_earthwork_below_cuft(dug, to_ft) - cw_earthwork_below_cuft(dug, from_ft) -
           (solid_cuft(dug, in, to_ft) - solid_cuft(dug, in, from_ft));
}

cw_earthwork_fill cw_earthwork_fill_of(const cw_earthwork_dug *dug, const cw_earthwork_fill_input *in)
{
    assert(in->lift_ft > 0.0);
    cw_earthwork_fill out = {.bedding_cuft = cw_earthwork_below_cuft(dug, in->bedding_ft),
                             .boxes_cuft = cw_earthwork_boxes_cuft(dug, &in->boxes, false, in->top_ft),
                             .gaps_cuft = cw_earthwork_boxes_cuft(dug, &in->boxes, true, in->top_ft)};
    const double zone_ft = fmin(in->pipe_zone_ft, in->top_ft);
    out.pipe_zone_cuft = between_cuft(dug, in, in->bedding_ft, zone_ft);
    out.final_cuft = between_cuft(dug, in, fmax(zone_ft, in->bedding_ft), in->top_ft);
    const int wanted = cw_count_up((in->top_ft - in->bedding_ft) / in->lift_ft);
    out.all_lifts = wanted <= CW_EARTHWORK_LIFTS_MAX;
    for (int i = 0; i < wanted && i < CW_EARTHWORK_LIFTS_MAX; i++) {
        cw_earthwork_lift *lift = &out.lifts[out.lift_count++];
        lift->from_ft = in->bedding_ft + i * in->lift_ft;
        lift->to_ft = fmin(in->top_ft, lift->from_ft + in->lift_ft);
        lift->volume_cuft = between_cuft(dug, in, lift->from_ft, lift->to_ft);
    }
    return out;
}
