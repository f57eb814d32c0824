/* The cheapest sequence of crane setups that sets all pieces in their order.
 *
 * A setup is a crane on a line with one boom at one place; it sets a block of the order.  Blocks
 * are hereditary: what is left of a block when pieces are taken off an end can be set from the same
 * place.  So for each first piece there is a farthest last one, every shorter block is possible
 * too, and the cheapest chain of blocks is a shortest path over the places of the order.  The cost
 * of bringing a crane is paid once, so the path is sought within each subset of the cranes. */
#include "lifting_internal.h"

typedef struct group {
    int crane, line;
    int *far; /* of each place in the order: one past the last piece of the longest block from there
               */
    double setup_cents, piece_cents;
} group;

typedef struct search {
    const cw_setup_problem *problem;
    cw_arena *arena;
    int *order;
    int count;
    group *groups;
    int group_count;
    double *near_ft, *far_ft; /* along the line at hand, of each piece on the column at hand; far <
                                 0: not reached */
    cw_spans spans;
} search;

static double counted_lb(const cw_setup_problem *p, int crane, int piece)
{
    const cw_setup_crane *c = &p->cranes[crane];
    return (p->pieces[piece].load_lb + c->deduction_lb) * CW_PERCENT / c->chart_percent;
}

static void start_on_line(const cw_setup_line *line, cw_spans *spans)
{
    spans->count = line->range_count;
    for (int i = 0; i < line->range_count; i++)
        spans->items[i] = line->ranges[i];
}

static bool may_stand(const cw_setup_problem *p, int crane, int line)
{
    return p->lines[line].cranes >> crane & 1u;
}

/* Whether one crane, boom and line can set a piece at all. */
static bool settable(search *s, int piece)
{
    const cw_setup_problem *p = s->problem;
    for (int k = 0; k < p->crane_count; k++)
        for (int c = 0; c < p->cranes[k].column_count; c++) {
            double least_ft, most_ft;
            if (!cw_chart_reach(&p->cranes[k].columns[c], counted_lb(p, k, piece), &least_ft,
                                &most_ft))
                continue;
            for (int l = 0; l < p->line_count; l++) {
                if (!may_stand(p, k, l))
                    continue;
                start_on_line(&p->lines[l], &s->spans);
                cw_spans_reach(&s->spans, p->pieces[piece].at_ft,
                               fabs(p->pieces[piece].offset_ft - p->lines[l].offset_ft), least_ft,
                               most_ft);
                if (s->spans.count > 0)
                    return true;
            }
        }
    return false;
}

/* Pieces of one mark weigh the same: what a column reaches with the last few weights is kept. */
typedef struct reach {
    double weight_lb, least_ft, most_ft;
    bool carries;
} reach;

enum { REACHES = 8 };

static const reach *reach_of(reach kept[REACHES], int *count, const cw_chart_column *column, double weight_lb)
{
    for (int i = 0; i < *count && i < REACHES; i++)
        if (kept[i].weight_lb == weight_lb)
            return &kept[i];
    reach *fresh = &kept[(*count)++ % REACHES];
    fresh->weight_lb = weight_lb;
    fresh->carries = cw_chart_reach(column, weight_lb, &fresh->least_ft, &fresh->most_ft);
    return fresh;
}

/* How far along the line each piece is reached on a column: from near to far on both sides. */
static void reach_all(search *s, int crane, int column, int line)
{
    const cw_setup_problem *p = s->problem;
    reach kept[REACHES];
    int kept_count = 0;
    for (int i = 0; i < s->count; i++) {
        const double d = fabs(p->pieces[s->order[i]].offset_ft - p->lines[line].offset_ft);
        const reach *r = reach_of(kept, &kept_count, &p->cranes[crane].columns[column],
                                  counted_lb(p, crane, s->order[i]));
        const bool reached = r->carries && cw_meets(d, r->most_ft);
        s->far_ft[i] = reached ? sqrt(fmax(0.0, r->most_ft * r->most_ft - d * d)) : -1.0;
        s->near_ft[i] = r->carries && d < r->least_ft ? sqrt(r->least_ft * r->least_ft - d * d) : 0.0;
    }
}

/* False when no place is left. */
static bool keep_reach(search *s, int place)
{
    const double at_ft = s->problem->pieces[s->order[place]].at_ft;
    if (s->far_ft[place] < 0.0)
        s->spans.count = 0;
    cw_spans_clamp(&s->spans, at_ft - s->far_ft[place], at_ft + s->far_ft[place]);
    cw_spans_cut(&s->spans, at_ft - s->near_ft[place], at_ft + s->near_ft[place]);
    return s->spans.count > 0;
}

/* Longest block from each place, the best of the crane's booms. */
static void fill_far(search *s, group *g)
{
    for (int c = 0; c < s->problem->cranes[g->crane].column_count; c++) {
        reach_all(s, g->crane, c, g->line);
        int to = 0;
        // A block that goes to the end does so from every later place too.
        for (int from = 0; from < s->count; from++) {
            if (to < s->count || from == 0) {
                start_on_line(&s->problem->lines[g->line], &s->spans);
                to = from;
                while (to < s->count && keep_reach(s, to))
                    to++;
            }
            if (to > g->far[from])
                g->far[from] = to;
        }
    }
}

static void list_groups(search *s)
{
    const cw_setup_problem *p = s->problem;
    s->groups = CW_TAKE(s->arena, group, p->crane_count * p->line_count);
    for (int k = 0; k < p->crane_count; k++)
        for (int l = 0; l < p->line_count; l++) {
            if (!may_stand(p, k, l))
                continue;
            const cw_setup_crane *crane = &p->cranes[k];
            group *g = &s->groups[s->group_count++];
            *g = (group){k, l, CW_TAKE(s->arena, int, s->count),
                         crane->setup_cents + crane->day_cents * crane->setup_days,
                         crane->day_cents * crane->piece_days};
            fill_far(s, g);
        }
}

/* The cheapest way to the start of the piece at one place of the order with the last setup on one
 * line. */
typedef struct node {
    double cents;
    int setups, crossings;
    int from, from_line, group; /* where the last block came from */
} node;

static bool better(const node *a, const node *than)
{
    if (!isfinite(than->cents))
        return isfinite(a->cents);
    const double slack = CW_RATIO_SLACK * fmax(1.0, fabs(than->cents));
    if (fabs(a->cents - than->cents) > slack)
        return a->cents < than->cents;
    if (a->setups != than->setups)
        return a->setups < than->setups;
    if (a->crossings != than->crossings)
        return a->crossings < than->crossings;
    return a->from > than->from; // long blocks first: what is left over comes at the end
}

/* The best start for a setup on @p line: stay on it, or come over from another. */
static node start_on(const search *s, const node *at, int place, int line)
{
    node best = {.cents = HUGE_VAL};
    for (int l = 0; l < s->problem->line_count; l++) {
        node from = at[l];
        const bool crosses = place > 0 && s->problem->lines[l].bank != s->problem->lines[line].bank;
        from.cents += crosses ? s->problem->cross_cents : 0.0;
        from.crossings += crosses ? 1 : 0;
        from.from = place;
        from.from_line = l;
        if (better(&from, &best))
            best = from;
    }
    best.setups++;
    return best;
}

static void extend(const search *s, node *nodes, int place, int index)
{
    const group *by = &s->groups[index];
    const int lines = s->problem->line_count;
    node next = start_on(s, nodes + place * lines, place, by->line);
    if (!isfinite(next.cents))
        return;
    const double start_cents = next.cents + by->setup_cents;
    next.group = index;
    for (int j = place + 1; j <= by->far[place]; j++) {
        next.cents = start_cents + (j - place) * by->piece_cents;
        if (better(&next, &nodes[j * lines + by->line]))
            nodes[j * lines + by->line] = next;
    }
}

/* The best end of all lines. */
static const node *best_end(const search *s, const node *nodes, int place)
{
    const node *at = nodes + place * s->problem->line_count, *best = at;
    for (int l = 1; l < s->problem->line_count; l++)
        if (better(&at[l], best))
            best = &at[l];
    return best;
}

static void shortest(const search *s, unsigned mask, node *nodes)
{
    const int lines = s->problem->line_count;
    for (int i = 0; i < (s->count + 1) * lines; i++)
        nodes[i] = (node){.cents = i < lines ? 0.0 : HUGE_VAL, .group = -1};
    for (int i = 0; i < s->count; i++)
        for (int g = 0; g < s->group_count; g++)
            if (mask >> s->groups[g].crane & 1u)
                extend(s, nodes, i, g);
}

static double bring_cents(const cw_setup_problem *p, unsigned mask)
{
    double cents = 0.0;
    for (int k = 0; k < p->crane_count; k++)
        if (mask >> k & 1u)
            cents += p->cranes[k].bring_cents;
    return cents;
}

/* Worst share of the chart from @p x_ft over a block; stops above @p enough. */
static double worst_percent(const search *s, const cw_setup *setup, double x_ft, double enough)
{
    const cw_setup_problem *p = s->problem;
    const cw_setup_crane *crane = &p->cranes[setup->crane];
    const cw_chart_column *column = &crane->columns[setup->column];
    double worst = 0.0;
    for (int i = setup->first; i < setup->first + setup->count && worst <= enough; i++) {
        const cw_setup_piece *piece = &p->pieces[s->order[i]];
        const double radius_ft =
            hypot(piece->at_ft - x_ft, piece->offset_ft - p->lines[setup->line].offset_ft);
        int low = 0, high = column->count - 1; // the first row that is not nearer
        while (low < high) {
            const int middle = (low + high) / 2;
            if (cw_meets(radius_ft, column->radius_ft[middle]))
                high = middle;
            else
                low = middle + 1;
        }
        worst = fmax(worst, (piece->load_lb + crane->deduction_lb) / column->capacity_lb[low] *
                                CW_PERCENT);
    }
    return worst;
}

/* The least worst share over whole feet and the ends of the spans. */
static void best_place(const search *s, cw_setup *setup)
{
    const double last_ft = s->spans.items[s->spans.count - 1].to_ft;
    setup->percent = HUGE_VAL;
    setup->from_ft = s->spans.items[0].from_ft;
    setup->to_ft = last_ft;
    for (int i = 0; i < s->spans.count; i++) {
        const cw_setup_range span = s->spans.items[i];
        const int steps = (int)fmin(ceil(span.to_ft - span.from_ft), 10000.0);
        for (int step = 0; step <= steps; step++) {
            const double x_ft = step == steps ? span.to_ft : span.from_ft + step;
            const double percent = worst_percent(s, setup, x_ft, setup->percent);
            if (percent < setup->percent) {
                setup->percent = percent;
                setup->at_ft = x_ft;
                setup->from_ft = span.from_ft;
                setup->to_ft = span.to_ft;
            }
        }
    }
}

/* Boom and place of a block: of all booms that can set it, the one with the most in hand. */
static void place_setup(search *s, const group *g, cw_setup *setup)
{
    cw_setup best = *setup;
    best.percent = HUGE_VAL;
    for (int c = 0; c < s->problem->cranes[g->crane].column_count; c++) {
        cw_setup tried = *setup;
        tried.column = c;
        reach_all(s, g->crane, c, g->line);
        start_on_line(&s->problem->lines[g->line], &s->spans);
        int i = setup->first;
        while (i < setup->first + setup->count && keep_reach(s, i))
            i++;
        if (i < setup->first + setup->count)
            continue;
        best_place(s, &tried);
        if (tried.percent < best.percent)
            best = tried;
    }
    *setup = best;
}

static void list_setups(search *s, const node *nodes, cw_setup_answer *answer)
{
    const node *end = best_end(s, nodes, s->count);
    const int count = end->setups;
    cw_setup *setups = CW_TAKE(s->arena, cw_setup, count);
    int past = s->count;
    for (int n = count - 1; n >= 0; n--) {
        const group *g = &s->groups[end->group];
        setups[n] = (cw_setup){
            .crane = g->crane, .line = g->line, .first = end->from, .count = past - end->from};
        place_setup(s, g, &setups[n]);
        past = end->from;
        end = &nodes[end->from * s->problem->line_count + end->from_line];
    }
    answer->setups = setups;
    answer->setup_count = count;
}

static void sort_out(search *s, cw_setup_answer *answer)
{
    const int all = s->problem->piece_count;
    int *off = CW_TAKE(s->arena, int, all);
    s->order = CW_TAKE(s->arena, int, all);
    for (int i = 0; i < all; i++)
        if (settable(s, i))
            s->order[s->count++] = i;
        else
            off[answer->off_count++] = i;
    answer->order = s->order;
    answer->order_count = s->count;
    answer->off_chart = off;
}

cw_setup_answer cw_lifting_setups(const cw_setup_problem *problem, cw_arena *arena)
{
    cw_setup_answer answer = {0};
    search s = {.problem = problem, .arena = arena};
    s.spans.capacity = problem->piece_count + CW_SETUP_RANGES_MAX + 1;
    s.spans.items = CW_TAKE(arena, cw_setup_range, s.spans.capacity);
    s.near_ft = CW_TAKE(arena, double, problem->piece_count);
    s.far_ft = CW_TAKE(arena, double, problem->piece_count);
    sort_out(&s, &answer);
    if (s.count == 0)
        return answer;
    list_groups(&s);
    const int states = (s.count + 1) * problem->line_count;
    node *nodes = CW_TAKE(arena, node, states), *best = CW_TAKE(arena, node, states);
    node least = {.cents = HUGE_VAL};
    for (unsigned mask = 1; mask < 1u << problem->crane_count; mask++) {
        shortest(&s, mask, nodes);
        node end = *best_end(&s, nodes, s.count);
        end.cents += bring_cents(problem, mask);
        if (!better(&end, &least))
            continue;
        least = end;
        node *const other = best;
        best = nodes;
        nodes = other;
    }
    answer.cents = least.cents;
    list_setups(&s, best, &answer);
    return answer;
}

static const char *fault_of_line(const cw_setup_line *line, int index, cw_arena *arena)
{
    if (!isfinite(line->offset_ft) || line->range_count < 0 ||
        line->range_count > CW_SETUP_RANGES_MAX)
        return cw_arena_print(arena, "line %d has %d ranges; give 0 to %d", index + 1,
                              line->range_count, CW_SETUP_RANGES_MAX);
    for (int r = 0; r < line->range_count; r++)
        if (!(line->ranges[r].from_ft <= line->ranges[r].to_ft) ||
            (r > 0 && !(line->ranges[r].from_ft > line->ranges[r - 1].to_ft)))
            return cw_arena_print(
                arena,
                "range %d of line %d goes from %.6g to %.6g ft; write ranges in order, apart",
                r + 1, index + 1, line->ranges[r].from_ft, line->ranges[r].to_ft);
    return NULL;
}

static const char *fault_of_crane(const cw_setup_crane *crane, int index, cw_arena *arena)
{
    const double costs[] = {crane->deduction_lb, crane->bring_cents, crane->setup_cents,
                            crane->day_cents,    crane->setup_days,  crane->piece_days};
    for (int i = 0; i < COUNT(costs); i++)
        if (!(costs[i] >= 0.0) || !isfinite(costs[i]))
            return cw_arena_print(arena,
                                  "crane %d has a deduction, cost or time of %.6g; give 0 or more",
                                  index + 1, costs[i]);
    if (!(crane->chart_percent > 0.0 && crane->chart_percent <= CW_PERCENT))
        return cw_arena_print(arena,
                              "crane %d may use %.6g percent of its chart; give over 0 to 100",
                              index + 1, crane->chart_percent);
    return NULL;
}

const char *cw_setup_fault(const cw_setup_problem *p, cw_arena *arena)
{
    if (p->piece_count < 1 || p->piece_count > CW_SETUP_PIECES_MAX)
        return cw_arena_print(arena, "%d pieces; give 1 to %d", p->piece_count,
                              CW_SETUP_PIECES_MAX);
    if (p->crane_count < 1 || p->crane_count > CW_SETUP_CRANES_MAX)
        return cw_arena_print(arena, "%d cranes; give 1 to %d", p->crane_count,
                              CW_SETUP_CRANES_MAX);
    if (!(p->cross_cents >= 0.0) || !isfinite(p->cross_cents))
        return cw_arena_print(arena, "changing banks costs %.6g cents; give 0 or more",
                              p->cross_cents);
    if (p->line_count < 1 || p->line_count > CW_SETUP_LINES_MAX)
        return cw_arena_print(arena, "%d lines to stand on; give 1 to %d", p->line_count,
                              CW_SETUP_LINES_MAX);
    for (int i = 0; i < p->piece_count; i++)
        if (!isfinite(p->pieces[i].at_ft) || !isfinite(p->pieces[i].offset_ft) ||
            !(p->pieces[i].load_lb > 0.0))
            return cw_arena_print(arena,
                                  "piece %d has no place or a load of %.6g lb; give more than 0",
                                  i + 1, p->pieces[i].load_lb);
    const char *fault = NULL;
    for (int k = 0; k < p->crane_count && !fault; k++)
        fault = fault_of_crane(&p->cranes[k], k, arena);
    for (int l = 0; l < p->line_count && !fault; l++)
        fault = fault_of_line(&p->lines[l], l, arena);
    return fault;
}

static void keep_nearest(const cw_setup_problem *p, int piece, cw_setup_near tried,
                         cw_setup_near *best)
{
    const cw_chart_column *column = &p->cranes[tried.crane].columns[tried.column];
    double least_ft;
    if (!cw_chart_reach(column, counted_lb(p, tried.crane, piece), &least_ft,
                        &tried.radius_most_ft))
        return;
    const cw_setup_line *line = &p->lines[tried.line];
    cw_setup_range room[CW_SETUP_RANGES_MAX];
    cw_spans spans = {room, 0, CW_SETUP_RANGES_MAX};
    start_on_line(line, &spans);
    if (spans.count == 0)
        return;
    tried.at_ft = cw_spans_nearest(&spans, p->pieces[piece].at_ft);
    tried.radius_ft =
        hypot(tried.at_ft - p->pieces[piece].at_ft, line->offset_ft - p->pieces[piece].offset_ft);
    tried.short_ft = tried.radius_ft > tried.radius_most_ft ? tried.radius_ft - tried.radius_most_ft
                     : tried.radius_ft < least_ft           ? tried.radius_ft - least_ft
                                                            : 0.0;
    tried.found = true;
    if (!best->found || fabs(tried.short_ft) < fabs(best->short_ft))
        *best = tried;
}

cw_setup_near cw_lifting_nearest(const cw_setup_problem *p, int piece)
{
    cw_setup_near best = {0};
    for (int k = 0; k < p->crane_count; k++)
        for (int l = 0; l < p->line_count; l++)
            for (int c = 0; may_stand(p, k, l) && c < p->cranes[k].column_count; c++)
                keep_nearest(p, piece, (cw_setup_near){.crane = k, .line = l, .column = c}, &best);
    return best;
}
