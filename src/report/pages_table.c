/* Placing tables: column widths, heads that repeat, rows that are never split. */
#include <math.h>
#include <string.h>

#include "pages_internal.h"

#define FEED 1.28
#define PAD_X 4.0 /* of a cell, each side */
#define PAD_Y 2.6

typedef struct table_plan {
    const cw_table *table;
    double size, left, width;
    double x[CW_COLUMNS_MAX + 1]; /* edges, relative to left */
    double head_height;
    bool titled; /* the caption was printed once */
} table_plan;

/* ---- Widths ---- */

/* Widest line and widest word of a text. */
static void measure(const char *text, double size, cw_font_weight weight, cw_arena *arena,
                    double out[2])
{
    int count;
    const char *const *lines = cw_font_wrap(arena, text, size, weight, 1e6, &count);
    for (int i = 0; i < count; i++)
        out[0] = fmax(out[0], cw_font_width_pt(lines[i], size, weight));
    while (*text) {
        const size_t length = strcspn(text, " \n");
        out[1] = fmax(out[1], cw_font_width_pt(cw_arena_copy(arena, text, length), size, weight));
        text += length + (text[length] != '\0');
    }
}

static cw_font_weight row_weight(const cw_doc_row *row)
{
    return row->emphasis == CW_ROW_STRONG || row->emphasis == CW_ROW_GROUP ? CW_FONT_BOLD
                                                                           : CW_FONT_REGULAR;
}

static void column_needs(cw_flow *flow, const table_plan *plan, int column, double needs[2])
{
    const cw_table *table = plan->table;
    const cw_column *c = &table->columns[column];
    needs[0] = needs[1] = 0;
    if (c->head)
        measure(c->head, plan->size, CW_FONT_BOLD, flow->arena, needs);
    /* A heading may wrap: it asks for its longest word only. */
    needs[0] = needs[1];
    if (c->unit)
        measure(c->unit, plan->size, CW_FONT_REGULAR, flow->arena, needs);
    for (int r = 0; r < table->row_count; r++) {
        if (table->rows[r].emphasis == CW_ROW_GROUP)
            continue;
        measure(cw_flow_text(flow, table->rows[r].cells[column]), plan->size,
                row_weight(&table->rows[r]), flow->arena, needs);
    }
    /* Numbers are not broken over lines. */
    if (c->align == CW_ALIGN_RIGHT)
        needs[1] = needs[0];
    needs[0] += 2 * PAD_X;
    needs[1] += 2 * PAD_X;
}

/* Columns without a share get what they need; when the room is short the widest give way first, but
 * no column less than its longest word. */
static void shrink_to(double *widths, const double *least, int count, double room)
{
    for (int round = 0; round < 200; round++) {
        double total = 0, widest = 0;
        int which = -1;
        for (int i = 0; i < count; i++) {
            total += widths[i];
            if (widths[i] > least[i] + 0.5 && widths[i] > widest) {
                widest = widths[i];
                which = i;
            }
        }
        if (total <= room || which < 0)
            break;
        widths[which] = fmax(least[which], widths[which] - fmax(4, (total - room) / 8));
    }
    double total = 0;
    for (int i = 0; i < count; i++)
        total += widths[i];
    /* Words that are too long even so are broken. */
    for (int i = 0; i < count && total > room; i++)
        widths[i] *= room / total;
}

/* Width at which no word and no number is broken and columns of text have @p ems of their size, or
 * all they need. */
static double width_for(cw_flow *flow, const table_plan *plan, double ems)
{
    double total = 0;
    for (int i = 0; i < plan->table->column_count; i++) {
        double needs[2];
        column_needs(flow, plan, i, needs);
        total += fmax(needs[1], fmin(needs[0], ems * plan->size));
    }
    return total;
}

/* Across the sheet when one column would break words; in smaller type when even that is cramped.
 * True when the table goes across. */
static bool plan_size(cw_flow *flow, table_plan *plan)
{
    static const double factors[] = {1, 0.93, 0.86};
    enum { FACTORS = sizeof factors / sizeof factors[0] };
    const double text_ems = 11;
    const cw_sheet *sheet = flow->sheet;
    plan->size = sheet->table;
    plan->width = cw_column_width(sheet);
    const bool wide = plan->table->wide || width_for(flow, plan, 0) > plan->width;
    if (wide)
        plan->width = cw_full_width(sheet);
    for (int i = 0; i < FACTORS; i++) {
        plan->size = sheet->table * factors[i];
        if (width_for(flow, plan, text_ems) <= plan->width)
            break;
    }
    return wide;
}

static void plan_widths(cw_flow *flow, table_plan *plan)
{
    const cw_table *table = plan->table;
    double widths[CW_COLUMNS_MAX], least[CW_COLUMNS_MAX], shares = 0, fixed = 0, shared_need = 0;
    for (int i = 0; i < table->column_count; i++) {
        double needs[2];
        column_needs(flow, plan, i, needs);
        widths[i] = needs[0];
        least[i] = needs[1];
        shares += table->columns[i].share;
        if (table->columns[i].share > 0)
            shared_need += needs[1];
        else
            fixed += needs[0];
    }
    const double room = plan->width;
    bool by_share = shares > 0 && fixed + shared_need <= room;
    for (int i = 0; i < table->column_count && by_share; i++) {
        const double share = table->columns[i].share;
        by_share = share <= 0 || (room - fixed) * share / shares >= least[i];
    }
    if (by_share) {
        for (int i = 0; i < table->column_count; i++) {
            if (table->columns[i].share > 0)
                widths[i] = (room - fixed) * table->columns[i].share / shares;
        }
    } else {
        shrink_to(widths, least, table->column_count, room);
        double total = 0;
        for (int i = 0; i < table->column_count; i++)
            total += widths[i];
        /* A little air, but a narrow table stays narrow: the eye must not cross a wide gap. */
        const double stretch = fmin(room / total, 1.5);
        for (int i = 0; i < table->column_count; i++)
            widths[i] *= stretch;
    }
    plan->x[0] = 0;
    for (int i = 0; i < table->column_count; i++)
        plan->x[i + 1] = plan->x[i] + widths[i];
    plan->width = plan->x[table->column_count];
}

/* ---- Cells ---- */

static double cell_x(const table_plan *plan, int column, cw_align align)
{
    const double a = plan->left + plan->x[column], b = plan->left + plan->x[column + 1];
    return align == CW_ALIGN_RIGHT ? b - PAD_X : align == CW_ALIGN_CENTER ? (a + b) / 2 : a + PAD_X;
}

static const char *const *cell_lines(cw_flow *flow, const table_plan *plan, const char *text,
                                     int column, cw_font_weight weight, int *count)
{
    const double width = plan->x[column + 1] - plan->x[column] - 2 * PAD_X;
    return cw_font_wrap(flow->arena, cw_flow_text(flow, text), plan->size, weight, width + 0.05,
                        count);
}

static void write_lines(cw_flow *flow, const table_plan *plan, cw_xy first, cw_lettering lettering,
                        const char *const *lines, int count)
{
    for (int i = 0; i < count; i++)
        cw_flow_write(flow, first.x, first.y + i * plan->size * FEED, lettering, lines[i]);
}

static double lines_height(const table_plan *plan, int lines)
{
    return ((lines - 1) * FEED + CW_FONT_CAP + 0.16) * plan->size + 2 * PAD_Y;
}

/* ---- Head ---- */

static int head_lines(cw_flow *flow, const table_plan *plan, int column)
{
    const cw_column *c = &plan->table->columns[column];
    int count = 0;
    if (c->head && *c->head)
        cell_lines(flow, plan, c->head, column, CW_FONT_BOLD, &count);
    return count + (c->unit != NULL);
}

static double head_height(cw_flow *flow, const table_plan *plan)
{
    int most = 0;
    for (int i = 0; i < plan->table->column_count; i++) {
        const int lines = head_lines(flow, plan, i);
        most = lines > most ? lines : most;
    }
    return most ? lines_height(plan, most) + 1 : 0;
}

static double caption_height(const cw_flow *flow, const table_plan *plan)
{
    return plan->table->caption ? flow->sheet->body * 1.45 : 0;
}

static void vertical_rules(cw_flow *flow, const table_plan *plan, double top, double bottom)
{
    for (int i = 0; plan->table->boxed && i <= plan->table->column_count; i++) {
        const double x = plan->left + plan->x[i];
        cw_flow_rule(flow, CW_LAYER_RULE, (cw_xy){x, top}, (cw_xy){x, bottom});
    }
}

static void place_head(cw_flow *flow, table_plan *plan)
{
    const cw_table *table = plan->table;
    plan->left = cw_flow_left(flow);
    if (table->caption) {
        const char *caption = cw_flow_text(flow, table->caption);
        if (plan->titled)
            caption = cw_arena_print(flow->arena, "%s (continued)", caption);
        const double size = flow->sheet->body;
        cw_flow_write(
            flow, plan->left, flow->y + size * CW_FONT_ASCENT,
            (cw_lettering){.size_pt = size, .weight = CW_FONT_BOLD},
            cw_font_shorten(flow->arena, caption, size, CW_FONT_BOLD, cw_flow_width(flow)));
        cw_flow_use(flow, caption_height(flow, plan));
    }
    plan->titled = true;
    const double top = flow->y, height = plan->head_height, right = plan->left + plan->width;
    cw_flow_rule(flow, CW_LAYER_OUTLINE, (cw_xy){plan->left, top}, (cw_xy){right, top});
    if (height <= 0)
        return;
    for (int i = 0; i < table->column_count; i++) {
        const cw_column *c = &table->columns[i];
        int count = 0;
        const char *const *lines =
            c->head && *c->head ? cell_lines(flow, plan, c->head, i, CW_FONT_BOLD, &count) : NULL;
        /* Heads stand on the rule: the last line of each is level. */
        const int total = count + (c->unit != NULL);
        const double last = top + height - PAD_Y - 0.16 * plan->size;
        const double x = cell_x(plan, i, c->align);
        write_lines(
            flow, plan, (cw_xy){x, last - (total - 1) * plan->size * FEED},
            (cw_lettering){.size_pt = plan->size, .weight = CW_FONT_BOLD, .align = c->align}, lines,
            count);
        if (c->unit)
            cw_flow_write(
                flow, x, last,
                (cw_lettering){.size_pt = plan->size, .align = c->align, .grey = CW_MUTED_GREY},
                c->unit);
    }
    cw_flow_rule(flow, CW_LAYER_DIMENSION, (cw_xy){plan->left, top + height},
                 (cw_xy){right, top + height});
    vertical_rules(flow, plan, top, top + height);
    cw_flow_use(flow, height);
}

/* ---- Rows ---- */

static double row_height(cw_flow *flow, const table_plan *plan, const cw_doc_row *row)
{
    int most = 1;
    for (int i = 0; i < plan->table->column_count && row->emphasis != CW_ROW_GROUP; i++) {
        int count;
        cell_lines(flow, plan, row->cells[i], i, row_weight(row), &count);
        most = count > most ? count : most;
    }
    return fmax(lines_height(plan, most) + (row->emphasis == CW_ROW_GROUP ? 3 : 0), row->height_pt);
}

static void place_row(cw_flow *flow, const table_plan *plan, const cw_doc_row *row, double height)
{
    const cw_table *table = plan->table;
    const double top = flow->y, bottom = top + height, right = plan->left + plan->width;
    const double baseline = top + PAD_Y + plan->size * (CW_FONT_CAP + 0.07);
    if (row->emphasis == CW_ROW_SHADED)
        cw_flow_shade(flow, (cw_xy){plan->left, top}, (cw_xy){right, bottom});
    cw_flow_anchor(flow, row->anchor);
    if (row->emphasis == CW_ROW_GROUP) {
        const char *text = cw_font_shorten(flow->arena, cw_flow_text(flow, row->cells[0]),
                                           plan->size, CW_FONT_BOLD, plan->width - 2 * PAD_X);
        cw_flow_write(flow, plan->left + PAD_X, baseline + 3,
                      (cw_lettering){.size_pt = plan->size, .weight = CW_FONT_BOLD}, text);
    }
    for (int i = 0; i < table->column_count && row->emphasis != CW_ROW_GROUP; i++) {
        int count;
        const cw_align align = table->columns[i].align;
        const char *const *lines =
            cell_lines(flow, plan, row->cells[i], i, row_weight(row), &count);
        /* In a form the numbered line stands in the middle of its height. */
        const double down = table->boxed ? (height - lines_height(plan, count)) / 2 : 0;
        write_lines(
            flow, plan, (cw_xy){cell_x(plan, i, align), baseline + down},
            (cw_lettering){.size_pt = plan->size, .weight = row_weight(row), .align = align}, lines,
            count);
    }
    cw_flow_rule(flow, table->boxed ? CW_LAYER_RULE : CW_LAYER_GRID, (cw_xy){plan->left, bottom},
                 (cw_xy){right, bottom});
    vertical_rules(flow, plan, top, bottom);
    cw_flow_use(flow, height);
}

static void close_table(cw_flow *flow, const table_plan *plan)
{
    cw_flow_rule(flow, CW_LAYER_DIMENSION, (cw_xy){plan->left, flow->y},
                 (cw_xy){plan->left + plan->width, flow->y});
}

void cw_place_table(cw_flow *flow, const cw_doc_block *block)
{
    const cw_table *table = block->table;
    const cw_sheet *sheet = flow->sheet;
    table_plan plan = {.table = table};
    const bool wide = plan_size(flow, &plan);
    if (block->width_pt > 0)
        plan.width = fmin(plan.width, block->width_pt);
    plan_widths(flow, &plan);
    plan.head_height = head_height(flow, &plan);
    const double start = caption_height(flow, &plan) + plan.head_height;
    cw_flow_space(flow, sheet->body * 0.6);
    if (wide)
        cw_flow_across(flow, 0);
    else
        cw_flow_columns(flow);
    /* The head is not left alone at the foot of a page: two rows go with it. */
    double first = 0;
    for (int r = 0; r < table->row_count && r < 2; r++)
        first += row_height(flow, &plan, &table->rows[r]);
    cw_flow_need(flow, start + first);
    cw_flow_anchor(flow, block->anchor);
    place_head(flow, &plan);
    for (int r = 0; r < table->row_count; r++) {
        const cw_doc_row *row = &table->rows[r];
        const double height = row_height(flow, &plan, row);
        /* A group heading goes with the row under it. */
        const double keep = row->emphasis == CW_ROW_GROUP && r + 1 < table->row_count
                                ? row_height(flow, &plan, &table->rows[r + 1])
                                : 0;
        if (start + height > sheet->bottom - sheet->top)
            cw_flow_fault(
                flow, CW_E_RANGE,
                "a row of the table '%.60s' is taller (%.0f pt) than the page; shorten its text",
                table->caption ? table->caption : "", height);
        if (flow->y + height + keep > sheet->bottom + 0.01) {
            close_table(flow, &plan);
            if (cw_flow_need(flow, height + keep))
                place_head(flow, &plan);
        }
        place_row(flow, &plan, row, height);
    }
    close_table(flow, &plan);
    flow->y += sheet->body * 0.8;
}

/* ---- Sheet list ---- */

/* A long list goes in two halves side by side, so that the cover stays one page. */
enum { ONE_COLUMN_SHEETS = 12 };

static void list_part(const cw_flow *flow, const char **cells, int part)
{
    if (part >= flow->known_part_count)
        return;
    cells[0] = flow->known_parts[part].title;
    cells[1] = cw_arena_print(flow->arena, "%d", flow->known_parts[part].page + 1);
}

void cw_place_sheet_list(cw_flow *flow)
{
    static const cw_column columns[] = {{"Sheet", NULL, CW_ALIGN_LEFT, 1},
                                        {"Page", NULL, CW_ALIGN_RIGHT, 0},
                                        {"Sheet", NULL, CW_ALIGN_LEFT, 1},
                                        {"Page", NULL, CW_ALIGN_RIGHT, 0}};
    const bool halves = flow->known_part_count > ONE_COLUMN_SHEETS;
    const int rows = halves ? (flow->known_part_count + 1) / 2 : flow->known_part_count;
    cw_table table = {.arena = flow->arena, .columns = columns, .column_count = halves ? 4 : 2};
    for (int i = 0; i < rows; i++) {
        const char *cells[4] = {"", "", "", ""};
        list_part(flow, cells, i);
        if (halves)
            list_part(flow, cells + 2, i + rows);
        cw_table_row(&table, CW_ROW_PLAIN, cells);
    }
    /* Narrow, so that the eye finds the number that belongs to a title. */
    const double width = 36 * flow->sheet->table;
    cw_place_table(flow, &(cw_doc_block){.type = CW_DOC_TABLE,
                                         .table = &table,
                                         .width_pt = halves ? 0.0 : width});
}
