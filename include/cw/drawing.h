/** @file
 * The drawing model: one display list for browser, PDF and exchange files.  Nothing is drawn twice.
 *
 * A drawing is composed for a frame on paper (points, 72 to the inch).  Calls take REAL coordinates
 * (x to the right, y up, in the unit of the view) for what is built, and PAPER points for what is
 * written about it (offsets, sizes), so lettering keeps its size at any scale.  The list itself
 * holds paper points from the frame's top left, y down.
 *
 * Order of work: cw_view_fit, cw_drawing_new, cw_draw_..., cw_drawing_finish (places the labels),
 * then a back end. All text given to these calls is UTF-8 and must live as long as the drawing
 * (literals or the same arena). Sense is never carried by colour: fills are patterns and greys, an
 * accent only repeats what line and word say. */
#ifndef CW_DRAWING_H
#define CW_DRAWING_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/font.h"

#define CW_PT_PER_IN 72.0

/** A place: real units in calls (unless the name says paper or pt), paper points in the list. */
typedef struct cw_xy {
    double x, y;
} cw_xy;

/* ---- View: how real units come onto the frame ---- */

typedef enum cw_view_unit { CW_VIEW_FT = 0, CW_VIEW_IN } cw_view_unit;

/** x_pt = left_pt + scale_x x;  y_pt = base_pt - scale_y y. */
typedef struct cw_view {
    double width_pt, height_pt; /**< the frame */
    double scale_x, scale_y;    /**< points per real unit; equal unless the view is exaggerated */
    double left_pt, base_pt;    /**< paper place of real (0, 0) */
    cw_view_unit unit;
} cw_view;

/** What to show and in how much room. */
typedef struct cw_view_wish {
    double width_pt, height_pt; /**< the frame; > 0 */
    cw_xy min, max;             /**< real window that must be inside the margins; max > min */
    double left_pt, right_pt, top_pt, bottom_pt; /**< margins for dimensions and notes */
    double exaggeration;                         /**< scale_y / scale_x; 0 means 1 */
    bool exact_fit; /**< fill the room; otherwise the scale is rounded down to 1, 1.5, 2, 2.5, 3, 4,
                       5, 6 or 8 x 10^n ft to the inch */
    cw_view_unit unit;
} cw_view_wish;

/** The window centred in the margins at the largest scale that fits. @pre window and room are
 * positive. */
cw_view cw_view_fit(cw_view_wish wish);

/** Paper place (top left, y down) of a real place, and back. */
cw_xy cw_view_paper(const cw_view *view, cw_xy real);
cw_xy cw_view_real(const cw_view *view, cw_xy paper_pt);

/** "Scale 1 in = 4 ft", or "Horizontal 1 in = 20 ft, vertical 1 in = 5 ft (heights 4 times)". */
const char *cw_view_scale_text(cw_arena *arena, const cw_view *view);

/* ---- The list ---- */

/** What a line means; fixes its width and dashes (widths of the ISO 128 series). */
typedef enum cw_layer {
    CW_LAYER_OUTLINE = 0, /**< 0.35 mm, visible edges */
    CW_LAYER_CUT,         /**< 0.50 mm, outline of what the section cuts */
    CW_LAYER_HIDDEN,      /**< 0.25 mm dashed */
    CW_LAYER_CENTER,      /**< 0.18 mm long-short: centre lines, baselines */
    CW_LAYER_GROUND,      /**< 0.25 mm long dashes: existing ground */
    CW_LAYER_DIMENSION,   /**< 0.18 mm: dimension, extension and leader lines */
    CW_LAYER_TEXT,        /**< lettering */
    CW_LAYER_HATCH,       /**< 0.13 mm, grey */
    CW_LAYER_WATER,       /**< 0.25 mm, accent */
    CW_LAYER_FUTURE, /**< 0.25 mm long-two-short, grey: pieces not yet set, seen beyond, or moving
                      */
    CW_LAYER_HIGHLIGHT, /**< 0.70 mm: the piece or place this sheet is about */
    CW_LAYER_GRID,      /**< 0.13 mm light grey */
    CW_LAYER_RULE,      /**< 0.13 mm black: table rules, thin detail */
    CW_LAYER_BORDER,    /**< 0.70 mm */
    CW_LAYER_COUNT
} cw_layer;

/** Layer name for exchange files and classes: "outline", "cut", ... */
const char *cw_layer_name(cw_layer layer);

typedef enum cw_dash {
    CW_DASH_NONE = 0,
    CW_DASH_SHORT,  /**< hidden edges */
    CW_DASH_LONG,   /**< existing ground */
    CW_DASH_CENTER, /**< long short */
    CW_DASH_PHANTOM /**< long short short */
} cw_dash;

/** Lengths on, off, on, ... in points; count 0 for a full line. */
int cw_dash_lengths_pt(cw_dash dash, double lengths_pt[6]);

typedef enum cw_fill {
    CW_FILL_NONE = 0,
    CW_FILL_WHITE,        /**< hides what lies behind */
    CW_FILL_CONCRETE,     /**< concrete seen, not cut: very light grey */
    CW_FILL_CONCRETE_CUT, /**< concrete cut: grey with dots and small triangles */
    CW_FILL_EARTH,        /**< groups of strokes at 45 degrees, both ways */
    CW_FILL_BEDDING,      /**< granular: dots */
    CW_FILL_BACKFILL,     /**< placed fill: sparse dots and strokes */
    CW_FILL_GROUT,        /**< close strokes at 45 degrees on grey */
    CW_FILL_ROCK,         /**< crossed broken strokes */
    CW_FILL_WATER,        /**< broken level strokes */
    CW_FILL_SHADE,        /**< plain light grey: the piece this sheet is about, table heads */
    CW_FILL_SOLID,        /**< black: arrow heads, quarters of a mark */
    CW_FILL_COUNT
} cw_fill;

typedef struct cw_pen {
    double width_pt; /**< 0: not stroked */
    cw_dash dash;
    double grey; /**< 0 black .. 1 white */
    bool accent; /**< may be printed in the one discreet colour */
} cw_pen;

typedef enum cw_item_kind { CW_ITEM_PATH = 0, CW_ITEM_ARC, CW_ITEM_TEXT } cw_item_kind;

/** One thing to paint, in paper points (y down), painted in order. */
typedef struct cw_item {
    cw_item_kind kind;
    cw_layer layer;
    cw_pen pen;
    cw_fill fill;
    /* path: rings one after the other, ring r ends before points[ring_end[r]]; fill is even-odd
     * over all */
    const cw_xy *points;
    const int *ring_end;
    int ring_count;
    bool closed;
    /* arc: from from_deg counterclockwise (as seen) to to_deg; a full circle when they differ by
     * 360 */
    cw_xy center;
    double radius_pt, from_deg, to_deg;
    /* text: at is on the baseline; angle counterclockwise */
    const char *text;
    cw_xy at;
    double size_pt, angle_deg, width_pt;
    cw_font_weight weight;
    cw_align align;
    bool halo; /**< white rim, so that it reads over lines */
} cw_item;

struct cw_label_queue;

typedef struct cw_drawing {
    cw_arena *arena;
    cw_view view;
    double pen_factor; /**< all line widths times this; 1, less for small figures.  May be set after
                          cw_drawing_new */
    double text_pt;    /**< size used where a call is given 0; 7.5 at first */
    cw_item *items;
    int count, capacity;
    struct cw_label_queue *labels; /**< labels that wait for cw_drawing_finish */
    const char **dropped;          /**< labels for which no place was found */
    int dropped_count;
    bool finished;
} cw_drawing;

cw_drawing *cw_drawing_new(cw_arena *arena, cw_view view);

/** Place the waiting labels, first come first served, against all text that is there.  Call once,
 * last. */
void cw_drawing_finish(cw_drawing *drawing);

/** Copy the items of @p figure into @p drawing with its frame's top left at paper place @p at_pt.
 */
void cw_drawing_insert(cw_drawing *drawing, const cw_drawing *figure, cw_xy at_pt);

/** The real place that lies at paper (x_pt, y_pt) from the frame's top left, y down: for titles,
 * bars, north arrows. */
cw_xy cw_at_paper(const cw_drawing *drawing, double x_pt, double y_pt);

/** @p real moved by paper points to the right and UP. */
cw_xy cw_moved(const cw_drawing *drawing, cw_xy real, double right_pt, double up_pt);

/* ---- Things that are built (real coordinates) ---- */

void cw_draw_line(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b);
void cw_draw_polyline(cw_drawing *drawing, cw_layer layer, const cw_xy *points, int count);
/** Closed; filled with @p fill, outlined in @p layer's pen. */
void cw_draw_polygon(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_xy *points,
                     int count);
void cw_draw_rectangle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy min, cw_xy max);

typedef struct cw_draw_ring {
    const cw_xy *points;
    int count;
} cw_draw_ring;
/** Several closed rings filled together, even-odd: outline with holes.  Fill a whole cut section by
 * ONE call, so that the pattern runs through.  @p outlined false paints only the fill. */
void cw_draw_region(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_draw_ring *rings,
                    int count, bool outlined);

/** Radius in real units.  In an exaggerated view it comes out as the ellipse it is. */
void cw_draw_circle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy center, double radius);
/** Counterclockwise from @p from_deg to @p to_deg (degrees from +x). */
void cw_draw_arc(cw_drawing *drawing, cw_layer layer, cw_xy center, double radius, double from_deg,
                 double to_deg);
/** Line with a filled head at @p b. */
void cw_draw_arrow(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b);

/* ---- Text ---- */

typedef enum cw_valign {
    CW_VALIGN_BASELINE = 0,
    CW_VALIGN_MIDDLE,
    CW_VALIGN_TOP,
    CW_VALIGN_BOTTOM
} cw_valign;

typedef struct cw_text_style {
    double size_pt; /**< 0: the drawing's text_pt */
    cw_font_weight weight;
    cw_align align;
    cw_valign valign;
    double angle_deg; /**< on paper, counterclockwise; lines of one text stack along it */
    double grey;      /**< 0 black */
    bool halo;
} cw_text_style;

/** Write @p text ('\n' starts a new line) with its anchor at @p at.  Stays where it is put,
 * whatever it covers. */
void cw_draw_text(cw_drawing *drawing, cw_xy at, cw_text_style style, const char *text);

/* ---- Annotation (paper sizes at real places) ---- */

typedef enum cw_dimension_kind {
    CW_DIMENSION_ALIGNED = 0, /**< true distance from a to b */
    CW_DIMENSION_HORIZONTAL,  /**< x distance */
    CW_DIMENSION_VERTICAL     /**< y distance */
} cw_dimension_kind;

typedef struct cw_dimension {
    cw_xy a, b;
    double offset_pt; /**< line's distance to the LEFT of the way a to b when aligned (seen on
                         paper); above (+) or below (-) both points when horizontal, right (+) or
                         left (-) of both when vertical */
    const char *text; /**< as it shall be read: the caller formats the true value */
    cw_dimension_kind kind;
} cw_dimension;

/** Dimension line with oblique ticks and extension lines; text above the line, read from the bottom
 * or the right; beside it or lifted on a leader when the line is too short or the place is taken.
 */
void cw_draw_dimension(cw_drawing *drawing, cw_dimension dimension);

/** count-1 dimensions in one line between consecutive points; texts[i] belongs to
 * points[i]..points[i+1] (NULL: no text there, only ticks). */
void cw_draw_dimension_chain(cw_drawing *drawing, cw_dimension like, const cw_xy *points, int count,
                             const char *const *texts);

/** A note with an arrow to @p tip; the text starts right_pt, up_pt from it (left of it when
 * right_pt < 0). */
void cw_draw_leader(cw_drawing *drawing, cw_xy tip, double right_pt, double up_pt,
                    const char *text);

/** Which side of its place a label tries first. */
typedef enum cw_label_side {
    CW_SIDE_ANY = 0,
    CW_SIDE_ABOVE,
    CW_SIDE_BELOW,
    CW_SIDE_LEFT_OF,
    CW_SIDE_RIGHT_OF
} cw_label_side;

typedef struct cw_label {
    cw_xy at;
    const char *text; /**< may have '\n' */
    double size_pt;   /**< 0: the drawing's text_pt */
    double clear_pt;  /**< distance kept from the place; 0: 3 pt */
    cw_font_weight weight;
    cw_label_side side;
    bool leader; /**< may move away on a leader when all near places are taken */
    bool boxed;  /**< in a frame with white ground, as a piece tag */
    bool must; /**< placed at its best place even when that overlaps (cw_drawing_overlaps then says
                  so) */
} cw_label;

/** Queue a label; cw_drawing_finish finds its place: free of other text first, then crossing the
 * fewest lines. */
void cw_draw_label(cw_drawing *drawing, cw_label label);

/** Piece tag: boxed bold text centred ON @p at, fixed. */
void cw_draw_piece_tag(cw_drawing *drawing, cw_xy at, const char *text);
/** Small triangle standing on @p at with the level's text on a shelf to the right (left when @p
 * to_left). */
void cw_draw_level_mark(cw_drawing *drawing, cw_xy at, bool to_left, const char *text);
/** Slope text over the middle of a..b, along it, with an arrow that points to the lower end. */
void cw_draw_slope_mark(cw_drawing *drawing, cw_xy a, cw_xy b, const char *text);
/** Center of gravity: quartered circle. */
void cw_draw_cg_mark(cw_drawing *drawing, cw_xy at);
/** Lifting point: ring with a cross, text as a label (may be ""). */
void cw_draw_lift_mark(cw_drawing *drawing, cw_xy at, const char *text);
/** North arrow 40 pt high around @p at; @p north_deg is the way to north on paper, counterclockwise
 * from +x. */
void cw_draw_north_arrow(cw_drawing *drawing, cw_xy at, double north_deg);
/** Flow arrow 36 pt long around @p at, pointing @p direction_deg (on paper), with FLOW written on
 * it. */
void cw_draw_flow_arrow(cw_drawing *drawing, cw_xy at, double direction_deg);
/** Scale bar of a 1-2-5 length near 1.5 in. whose left end is at @p at; length and unit are written
 * over it. For the x scale. */
void cw_draw_scale_bar(cw_drawing *drawing, cw_xy at);
/** Break line from a to b with one zigzag in the middle. */
void cw_draw_break_line(cw_drawing *drawing, cw_xy a, cw_xy b);
/** Level of water or ground: the line a..b with the mark (triangle over short strokes for water) at
 * its middle. */
void cw_draw_water_line(cw_drawing *drawing, cw_xy a, cw_xy b, const char *text);

/* ---- What a test can ask ---- */

typedef struct cw_overlap {
    const char *a, *b; /**< the two texts; b is NULL when a leaves the frame */
    cw_xy at_pt;       /**< place of a */
} cw_overlap;

/** Texts whose boxes (capital height, tight) overlap by more than 0.3 pt, or leave the frame.
 * Number found; the list is in the arena. */
int cw_drawing_overlaps(const cw_drawing *drawing, cw_arena *arena, const cw_overlap **list);

/** Corners (paper points) of the tight box of a text item. */
void cw_item_text_box(const cw_item *item, cw_xy corners[4]);

/* ---- For back ends ---- */

/** Ground grey of a fill (0 black .. 1 white); negative when it has none. */
double cw_fill_grey(cw_fill fill);

/** The strokes of @p item's pattern, to be clipped to the shape (even-odd): pairs of points; a dot
 * is a pair of equal points (round cap).  NULL and 0 when the fill has no strokes.  The pattern
 * hangs on the paper's origin, so it runs through from shape to shape. */
const cw_xy *cw_fill_strokes(cw_arena *arena, const cw_item *item, int *count);
/** Pen of the strokes. */
cw_pen cw_fill_pen(cw_fill fill);

/** Box of a path or arc in paper points. */
void cw_item_bounds(const cw_item *item, cw_xy *min_pt, cw_xy *max_pt);

#endif
