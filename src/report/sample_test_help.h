/* Sample drawings and a sample document for the tests of the back ends: invented sizes, no real
 * job. */
#ifndef CW_SAMPLE_TEST_HELP_H
#define CW_SAMPLE_TEST_HELP_H

#include "cw/document.h"
#include "cw/drawing.h"

/* Section of a base with hood, in inches: 10 ft x 6 ft clear, 10 in walls. */
static inline cw_drawing *sample_section(cw_arena *arena, double width_pt, double height_pt,
                                         double text_pt)
{
    cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                              .height_pt = height_pt,
                                              .min = {-100, -24},
                                              .max = {100, 108},
                                              .left_pt = 64,
                                              .right_pt = 74,
                                              .top_pt = 40,
                                              .bottom_pt = 56,
                                              .unit = CW_VIEW_IN});
    cw_drawing *d = cw_drawing_new(arena, view);
    d->text_pt = text_pt;
    const cw_xy bed[] = {{-94, -6}, {94, -6}, {94, 0}, {-94, 0}};
    const cw_xy earth[] = {{-100, -24}, {100, -24}, {100, -6}, {-100, -6}};
    cw_draw_region(d, CW_LAYER_OUTLINE, CW_FILL_EARTH, &(cw_draw_ring){earth, 4}, 1, false);
    cw_draw_polygon(d, CW_LAYER_OUTLINE, CW_FILL_BEDDING, bed, 4);
    const cw_xy base[] = {{-70, 0}, {70, 0},   {70, 45},  {60, 45},
                          {60, 10}, {-60, 10}, {-60, 45}, {-70, 45}};
    const cw_xy hood[] = {{-70, 46}, {-60, 46}, {-60, 82}, {60, 82},
                          {60, 46},  {70, 46},  {70, 92},  {-70, 92}};
    cw_draw_polygon(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, base, 8);
    cw_draw_polygon(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, hood, 8);
    cw_draw_line(d, CW_LAYER_CENTER, (cw_xy){0, -12}, (cw_xy){0, 102});
    cw_draw_water_line(d, (cw_xy){-60, 30}, (cw_xy){60, 30}, "HW 812.40 ft");
    const cw_xy across[] = {{-70, 0}, {-60, 0}, {60, 0}, {70, 0}};
    const char *const widths[] = {"10 in", "10′-0″", "10 in"};
    cw_draw_dimension_chain(d, (cw_dimension){.offset_pt = -26, .kind = CW_DIMENSION_HORIZONTAL},
                            across, 4, widths);
    cw_draw_dimension(d, (cw_dimension){{-70, 0}, {70, 0}, -46, "11′-8″", CW_DIMENSION_HORIZONTAL});
    const cw_xy up[] = {{70, 0}, {70, 10}, {70, 45}, {70, 46}, {70, 82}, {70, 92}};
    const char *const heights[] = {"10″", "2′-11″", "1″", "3′-0″", "10″"};
    cw_draw_dimension_chain(d, (cw_dimension){.offset_pt = 22, .kind = CW_DIMENSION_VERTICAL}, up,
                            6, heights);
    cw_draw_dimension(d, (cw_dimension){{70, 0}, {70, 92}, 50, "7′-8″", CW_DIMENSION_VERTICAL});
    cw_draw_level_mark(d, (cw_xy){-30, 10}, false, "Invert 808.25");
    cw_draw_cg_mark(d, (cw_xy){0, 62});
    cw_draw_label(d,
                  (cw_label){.at = {0, 62}, .text = "c.g. of hood", .clear_pt = 7, .leader = true});
    cw_draw_lift_mark(d, (cw_xy){-35, 92}, "P1 lift");
    cw_draw_lift_mark(d, (cw_xy){35, 92}, "P2 lift");
    cw_draw_leader(d, (cw_xy){-65, 45.5}, -24, 16, "Grout the\nbed joint");
    cw_draw_leader(d, (cw_xy){-90, -3}, -12, 22, "6 in bedding");
    cw_draw_piece_tag(d, (cw_xy){-45, 87}, "H-07");
    cw_draw_scale_bar(d, cw_at_paper(d, 10, height_pt - 6));
    cw_drawing_finish(d);
    return d;
}

/* Profile at 4 : 1, with ground, pieces, slope and water. */
static inline cw_drawing *sample_profile(cw_arena *arena, double width_pt, double height_pt,
                                         double text_pt)
{
    cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                              .height_pt = height_pt,
                                              .min = {-20, 804},
                                              .max = {120, 826},
                                              .left_pt = 44,
                                              .right_pt = 16,
                                              .top_pt = 20,
                                              .bottom_pt = 50,
                                              .exaggeration = 2});
    cw_drawing *d = cw_drawing_new(arena, view);
    d->text_pt = text_pt;
    for (int e = 804; e <= 826; e += 2) {
        cw_draw_line(d, CW_LAYER_GRID, (cw_xy){-20, e}, (cw_xy){120, e});
        cw_draw_text(d, cw_moved(d, (cw_xy){-20, e}, -4, 0),
                     (cw_text_style){.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE},
                     cw_arena_print(arena, "%d", e));
    }
    for (int s = -20; s <= 120; s += 20) {
        cw_draw_line(d, CW_LAYER_GRID, (cw_xy){s, 804}, (cw_xy){s, 826});
        cw_draw_text(
            d, cw_moved(d, (cw_xy){s, 804}, 0, -4),
            (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP, .halo = true},
            cw_arena_print(arena, "%d+%02d", s < 0 ? 11 : 12 + s / 100, s < 0 ? 80 : s % 100));
    }
    const cw_xy ground[] = {{-20, 808},  {0, 809},  {18, 815},  {40, 822},
                            {62, 822.4}, {84, 816}, {104, 811}, {120, 810.5}};
    cw_draw_polyline(d, CW_LAYER_GROUND, ground, 8);
    for (int i = 0; i < 13; i++) {
        const double s = 8.04 * i, y = 808.25 + 0.01 * s;
        const cw_xy piece[] = {{s, y}, {s + 8, y + 0.08}, {s + 8, y + 7.75}, {s, y + 7.67}};
        cw_draw_polygon(d,
                        i == 5  ? CW_LAYER_HIGHLIGHT
                        : i > 5 ? CW_LAYER_FUTURE
                                : CW_LAYER_OUTLINE,
                        i == 5  ? CW_FILL_SHADE
                        : i > 5 ? CW_FILL_NONE
                                : CW_FILL_CONCRETE,
                        piece, 4);
        cw_draw_text(d, (cw_xy){s + 4, y + 4},
                     (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE},
                     cw_arena_print(arena, "B%d", i + 1));
    }
    cw_draw_slope_mark(d, (cw_xy){20, 809.2}, (cw_xy){60, 809.6}, "1.00 %");
    cw_draw_level_mark(d, (cw_xy){0, 808.25}, true, "808.25");
    cw_draw_level_mark(d, (cw_xy){104.5, 809.3}, false, "809.30");
    cw_draw_flow_arrow(d, (cw_xy){84, 805.6}, 180);
    cw_draw_dimension(
        d, (cw_dimension){
               {0, 808.25}, {104.5, 809.3}, -46, "104′-6″ over all", CW_DIMENSION_HORIZONTAL});
    cw_draw_label(d, (cw_label){.at = {30, 818.8},
                                .text = "Existing ground",
                                .leader = true,
                                .side = CW_SIDE_LEFT_OF});
    cw_draw_scale_bar(d, cw_at_paper(d, 48, height_pt - 8));
    cw_drawing_finish(d);
    return d;
}

/* Plan with north arrow, centre line, break line and piece tags. */
static inline cw_drawing *sample_plan(cw_arena *arena, double width_pt, double height_pt,
                                      double text_pt)
{
    cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                              .height_pt = height_pt,
                                              .min = {-12, -14},
                                              .max = {76, 14},
                                              .left_pt = 14,
                                              .right_pt = 40,
                                              .top_pt = 14,
                                              .bottom_pt = 30});
    cw_drawing *d = cw_drawing_new(arena, view);
    d->text_pt = text_pt;
    for (int i = 0; i < 8; i++)
        cw_draw_rectangle(d, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, (cw_xy){8.04 * i, -5.8},
                          (cw_xy){8.04 * i + 8, 5.8});
    cw_draw_line(d, CW_LAYER_CENTER, (cw_xy){-10, 0}, (cw_xy){72, 0});
    cw_draw_break_line(d, (cw_xy){66, -8}, (cw_xy){66, 8});
    cw_draw_arc(d, CW_LAYER_HIDDEN, (cw_xy){30, -12}, 14, 20, 160);
    cw_draw_circle(d, CW_LAYER_CUT, CW_FILL_WHITE, (cw_xy){30, -12}, 1.2);
    for (int i = 0; i < 8; i++)
        cw_draw_piece_tag(d, (cw_xy){8.04 * i + 4, 2.5}, cw_arena_print(arena, "B%d", i + 1));
    cw_draw_label(
        d, (cw_label){
               .at = {30, -12}, .text = "Crane, radius ≤ 14 ft", .clear_pt = 8, .leader = true});
    cw_draw_arrow(d, CW_LAYER_HIGHLIGHT, (cw_xy){44, -11}, (cw_xy){52, -3});
    cw_draw_flow_arrow(d, (cw_xy){-7, 5}, 180);
    cw_draw_north_arrow(d, cw_at_paper(d, width_pt - 20, 34), 70);
    cw_draw_scale_bar(d, cw_at_paper(d, 20, height_pt - 6));
    cw_drawing_finish(d);
    return d;
}

/* One small step picture: k pieces are set, one is moving. */
static inline cw_drawing *sample_step(cw_arena *arena, double width_pt, double height_pt, int k)
{
    cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                              .height_pt = height_pt,
                                              .min = {-2, -2},
                                              .max = {36, 15},
                                              .left_pt = 4,
                                              .right_pt = 4,
                                              .top_pt = 4,
                                              .bottom_pt = 4,
                                              .exact_fit = true});
    cw_drawing *d = cw_drawing_new(arena, view);
    d->pen_factor = 0.6;
    d->text_pt = 6.5;
    const cw_xy bed[] = {{-2, -1}, {36, -1}, {36, 0}, {-2, 0}};
    cw_draw_region(d, CW_LAYER_OUTLINE, CW_FILL_BEDDING, &(cw_draw_ring){bed, 4}, 1, true);
    for (int i = 0; i <= k; i++) {
        const double lift = i == k ? 5 : 0, s = 8.1 * i + (i == k ? 0.8 : 0);
        cw_draw_rectangle(d, i == k ? CW_LAYER_HIGHLIGHT : CW_LAYER_OUTLINE,
                          i == k ? CW_FILL_SHADE : CW_FILL_CONCRETE, (cw_xy){s, lift},
                          (cw_xy){s + 8, lift + 4});
        cw_draw_text(d, (cw_xy){s + 4, lift + 2},
                     (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE},
                     cw_arena_print(arena, "B%d", i + 1));
    }
    cw_draw_arrow(d, CW_LAYER_DIMENSION, (cw_xy){8.1 * k + 4.8, 5}, (cw_xy){8.1 * k + 4, 0.6});
    cw_drawing_finish(d);
    return d;
}

static inline void sample_tables(cw_document *doc, cw_arena *arena)
{
    static const cw_column pieces[] = {
        {"No.", NULL, CW_ALIGN_RIGHT, 0},         {"Piece", NULL, CW_ALIGN_LEFT, 0},
        {"Station", NULL, CW_ALIGN_RIGHT, 0},     {"Length", "ft-in", CW_ALIGN_RIGHT, 0},
        {"Weight", "lb", CW_ALIGN_RIGHT, 0},      {"Invert", "ft", CW_ALIGN_RIGHT, 0},
        {"What to watch", NULL, CW_ALIGN_LEFT, 1}};
    cw_table *t = cw_doc_table(doc, "pieces", "Pieces in setting order", pieces, 7);
    static const char *const remarks[] = {
        "", "Opening 24 in Ø in the left wall; keep the strap clear of it", "",
        "Hold point: see page {page:hold}"};
    for (int i = 0; i < 70; i++) {
        const char *cells[] = {cw_arena_print(arena, "%d", i + 1),
                               cw_arena_print(arena, "B1-%02d", i + 1),
                               cw_arena_print(arena, "12+%02d.%02d", i % 100, i * 7 % 100),
                               "8′-0″",
                               cw_arena_print(arena, "%d,%03d", 16 + i % 7, i * 37 % 1000),
                               cw_arena_print(arena, "%.2f", 808.25 + 0.08 * i),
                               remarks[i % 4]};
        if (i % 20 == 0)
            cw_table_row(t, CW_ROW_GROUP,
                         (const char *const[]){cw_arena_print(arena, "Phase %d", i / 20 + 1), 0, 0,
                                               0, 0, 0, 0});
        cw_table_row(t, i % 11 == 10 ? CW_ROW_SHADED : CW_ROW_PLAIN, cells);
    }
    cw_table_row(t, CW_ROW_STRONG,
                 (const char *const[]){"", "Total", "", "560′-0″", "1,328,400", "", ""});
}

static inline cw_document *sample_document(cw_arena *arena, cw_paper paper)
{
    const cw_title_block title = {.job = "Sample Creek crossing",
                                  .number = "Contract 000-00",
                                  .place = "Route X, Sta. 12+00",
                                  .set = "Setting book",
                                  .revision = "B",
                                  .date = "2024-05-01",
                                  .prepared = "A. B.",
                                  .checked = "C. D.",
                                  .datum = "Vertical datum of the survey, BM 1 = 815.00",
                                  .units = "US survey ft",
                                  .status = "FOR FIELD USE"};
    cw_document *doc = cw_document_new(arena, paper, title);
    const cw_room room = cw_paper_room(paper);
    cw_doc_part(doc, "cover", "Setting book");
    static const cw_pair facts[] = {{"Structure", "Single barrel, base with hood"},
                                    {"Clear opening", "10′-0″ × 6′-0″"},
                                    {"Length", "104′-6″"},
                                    {"Slope", "1.00 % toward the outlet"},
                                    {"Heaviest lift", "16,650 lb at 32 ft"},
                                    {"Skew", "20°30′ left"}};
    cw_doc_pairs(doc, facts, 6, 2);
    cw_doc_notice(doc, "CAUTION",
                  "No one stands under a piece or between a moving piece and one already set. Tag "
                  "lines only; hands stay out of the joint until the piece rests on its bed.");
    cw_doc_heading(doc, NULL, "Sheets");
    cw_doc_sheet_list(doc);
    cw_doc_seal(doc, 190, 120, "Seal and signature of the engineer in charge");
    cw_doc_part(doc, "general", "General drawing");
    cw_doc_figure(doc, "profile", sample_profile(arena, room.full_pt, 230, room.lettering_pt),
                  "Profile along the center line. Heights are drawn twice as large as lengths.");
    cw_doc_figure(doc, "section", sample_section(arena, room.column_pt, 300, room.lettering_pt),
                  "Section, looking upstream.");
    cw_doc_figure(doc, "plan", sample_plan(arena, room.column_pt, 200, room.lettering_pt), "Plan.");
    cw_doc_part(doc, "order", "Setting order");
    cw_doc_paragraph(doc,
                     "Set from the outlet upslope. The tongue of each base goes down into the "
                     "groove of the base already set; the weights are those of page {page:pieces}. "
                     "Check the gap at both walls with the gauge before the rigging is slacked; a "
                     "gap outside ½ in ± ⅛ in is mended before the next piece is lifted.");
    cw_doc_heading(doc, "hold", "Hold points");
    cw_doc_paragraph(doc, "Bedding is accepted before the first base; grade is read on every third "
                          "base; joint seal is looked at before each top is set. F = μ N with μ ≥ "
                          "0.35, θ ≤ 3°, γ = 150 lb/ft³, Δ ≈ 0.02 ft, √2 → 1.414.");
    cw_figure steps[8];
    for (int i = 0; i < 8; i++)
        steps[i] =
            (cw_figure){sample_step(arena, room.column_pt / 4 - 20, 76, i % 4),
                        cw_arena_print(arena, "%d. Set B%d. Gap ½ in.", i + 1, i % 4 + 1), NULL};
    cw_doc_figures(doc, steps, 8, 4);
    sample_tables(doc, arena);
    cw_doc_part(doc, "log", "Setting log");
    static const cw_column form[] = {
        {"No.", NULL, CW_ALIGN_RIGHT, 0},      {"Piece", NULL, CW_ALIGN_LEFT, 1},
        {"Gap left", "in", CW_ALIGN_RIGHT, 1}, {"Gap right", "in", CW_ALIGN_RIGHT, 1},
        {"Invert", "ft", CW_ALIGN_RIGHT, 1},   {"Time", NULL, CW_ALIGN_LEFT, 1},
        {"By", NULL, CW_ALIGN_LEFT, 1}};
    cw_doc_form(doc, "Readings", form, 7, 18, 20);
    cw_doc_sign(doc, (const char *const[]){"Foreman, date", "Inspector, date", "Engineer, date"},
                3);
    return doc;
}

#endif
