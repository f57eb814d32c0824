/* Clipping of convex pieces (I. E. Sutherland and G. W. Hodgman, "Reentrant polygon clipping",
 * Communications of the ACM 17, 1974). */
#include "clip.h"

#include <assert.h>

static clip_corner between(const clip_corner *a, const clip_corner *b, double share, int side)
{
    return (clip_corner){a->e + share * (b->e - a->e), a->n + share * (b->n - a->n),
                         a->z + share * (b->z - a->z), a->d + share * (b->d - a->d), side};
}

clip_piece clip_positive(const clip_piece *piece, const double *value, int side)
{
    clip_piece kept = {0};
    for (int i = 0; i < piece->count; i++) {
        const int next = (i + 1) % piece->count;
        const clip_corner *a = &piece->corners[i], *b = &piece->corners[next];
        assert(kept.count + 2 <= PIECE_CORNERS_MAX);
        if (value[i] >= 0.0)
            kept.corners[kept.count++] = *a;
        if ((value[i] >= 0.0) == (value[next] >= 0.0))
            continue;
        const double share = value[i] / (value[i] - value[next]);
        kept.corners[kept.count++] = between(a, b, share, value[i] >= 0.0 ? side : a->side);
    }
    if (kept.count < 3)
        kept.count = 0;
    return kept;
}

clip_piece clip_by(const clip_piece *piece, const half_plane *by)
{
    double within[PIECE_CORNERS_MAX];
    bool all = true;
    for (int i = 0; i < piece->count; i++) {
        within[i] = by->c - by->a * piece->corners[i].e - by->b * piece->corners[i].n;
        all = all && within[i] >= 0.0;
    }
    return all ? *piece : clip_positive(piece, within, by->line);
}

double piece_sqft(const clip_piece *piece)
{
    double twice = 0.0;
    const clip_corner *o = &piece->corners[0];
    for (int i = 1; i + 1 < piece->count; i++) {
        const clip_corner *a = &piece->corners[i], *b = &piece->corners[i + 1];
        twice += (a->e - o->e) * (b->n - o->n) - (a->n - o->n) * (b->e - o->e);
    }
    return twice / 2.0;
}

double piece_cuft(const clip_piece *piece, const double *value)
{
    double six = 0.0;
    const clip_corner *o = &piece->corners[0];
    for (int i = 1; i + 1 < piece->count; i++) {
        const clip_corner *a = &piece->corners[i], *b = &piece->corners[i + 1];
        // closed form: a prism over a triangle holds its area times the mean of its three heights
        six += ((a->e - o->e) * (b->n - o->n) - (a->n - o->n) * (b->e - o->e)) *
               (value[0] + value[i] + value[i + 1]);
    }
    return six / 6.0;
}
