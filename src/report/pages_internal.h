/* The state of laying a document out on pages, shared by the files that place blocks. */
#ifndef CW_PAGES_INTERNAL_H
#define CW_PAGES_INTERNAL_H

#include "cw/document.h"

#define CW_MUTED_GREY 0.32 /* captions, units, keys: lighter than text, still copies */

/* Measures of one paper, in points from the top left. */
typedef struct cw_sheet {
    double width, height;
    double border_left, border_top, border_right, border_bottom;
    double left, right, top, bottom; /* content */
    double gap;                      /* between columns */
    int columns;
    double body, table, small, heading, part; /* text sizes */
    double title_strip; /* height (letter) or width (tabloid) of the title block */
} cw_sheet;

const cw_sheet *cw_sheet_of(cw_paper paper);

typedef struct cw_anchor {
    const char *name;
    int page;
} cw_anchor;

typedef struct cw_anchors {
    cw_anchor *items;
    int count, capacity;
} cw_anchors;

typedef struct cw_part_entry {
    const char *title;
    int page;
} cw_part_entry;

typedef struct cw_flow {
    const cw_document *document;
    const cw_sheet *sheet;
    cw_arena *arena;
    cw_diags *diags; /* NULL in trial passes */

    cw_drawing **pages;
    const char **page_parts; /* title of the part each page belongs to */
    int page_count, page_capacity;
    cw_drawing *target; /* the page that is written on */
    const char *part;   /* current */

    int column;        /* current */
    double y;          /* next free place in the column */
    double region_top; /* where the current set of columns starts */
    double region_low; /* lowest place used in earlier columns of the set */
    bool fresh;        /* nothing was placed in this column yet */

    cw_bookmark *bookmarks;
    int bookmark_count, bookmark_capacity;
    cw_part_entry *parts;
    int part_count, part_capacity;
    cw_anchors anchors;      /* found in this pass */
    const cw_anchors *known; /* of the last pass, or NULL */
    const cw_part_entry *known_parts;
    int known_part_count;
} cw_flow;

/* Left edge and width of the current column, or of the whole sheet. */
double cw_flow_left(const cw_flow *flow);
double cw_flow_width(const cw_flow *flow);
double cw_full_width(const cw_sheet *sheet);
double cw_column_width(const cw_sheet *sheet);

/* Make sure that height_pt is free below; go to the next column or page otherwise.  True when it
 * moved. */
bool cw_flow_need(cw_flow *flow, double height_pt);
void cw_flow_new_page(cw_flow *flow);
/* Leave the columns: what follows goes across the sheet until cw_flow_columns. */
void cw_flow_across(cw_flow *flow, double height_pt);
void cw_flow_columns(cw_flow *flow);
/* Space before a block, nothing at the top of a column. */
void cw_flow_space(cw_flow *flow, double height_pt);
void cw_flow_use(cw_flow *flow, double height_pt);

void cw_flow_anchor(cw_flow *flow, const char *name);
/* "{page:x}" replaced. */
const char *cw_flow_text(cw_flow *flow, const char *text);

/* Paint at a place of the page. */
typedef struct cw_lettering {
    double size_pt;
    cw_font_weight weight;
    cw_align align;
    double grey;
} cw_lettering;
void cw_flow_write(cw_flow *flow, double x, double baseline, cw_lettering lettering,
                   const char *text);
void cw_flow_rule(cw_flow *flow, cw_layer layer, cw_xy from, cw_xy to);
void cw_flow_box(cw_flow *flow, cw_layer layer, cw_fill fill, cw_xy min, cw_xy max);
/* A grey ground without an outline. */
void cw_flow_shade(cw_flow *flow, cw_xy min, cw_xy max);
__attribute__((format(printf, 3, 4))) void cw_flow_fault(cw_flow *flow, cw_code code,
                                                         const char *format, ...);

void cw_place_table(cw_flow *flow, const cw_doc_block *block);
void cw_place_sheet_list(cw_flow *flow);
void cw_place_figures(cw_flow *flow, const cw_doc_block *block);
void cw_title_blocks(cw_flow *flow);

#endif
