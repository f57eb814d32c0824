/* The drawings, lists and points of a plan as files. */
#include <string.h>

#include "app.h"
#include "cw/render.h"
#include "cw/report.h"
#include "cw/text.h"

#define SHEET_WIDE_PT 1100.0
#define SHEET_TALL_PT 600.0

enum { SHEETS_MAX = 512 };

typedef struct sheet {
    const char *name;
    const cw_drawing *drawing;
} sheet;

typedef struct sheets {
    sheet items[SHEETS_MAX];
    int count;
} sheets;

static void add(sheets *list, const char *name, const cw_drawing *drawing)
{
    if (list->count < SHEETS_MAX)
        list->items[list->count++] = (sheet){name, drawing};
}

static void add_water(sheets *list, const cw_plan *plan, cw_arena *arena)
{
    const cw_plan_water *water = &plan->water;
    if (!water->present || water->status != CW_WATER_OK)
        return;
    add(list, "performance", cw_draw_performance(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    for (int i = 0; i < water->flow_count; i++) {
        if (water->flows[i].answer.status == CW_WATER_OK)
            add(list, cw_arena_print(arena, "water-%d", i + 1),
                cw_draw_water_profile(plan, i, 0, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
        if (water->flows[i].has_apron)
            add(list, cw_arena_print(arena, "apron-%d", i + 1),
                cw_draw_apron(plan, i, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    }
}

static void add_strength(sheets *list, const cw_plan *plan, cw_arena *arena)
{
    const cw_plan_strength *strength = &plan->strength;
    if (strength->present && strength->status == CW_STRUCT_OK) {
        for (int i = 0; i < strength->cover_count; i++) {
            add(list, cw_arena_print(arena, "loads-%d", i + 1),
                cw_draw_loads(plan, i, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
            for (int g = 0; g < CW_PLAN_GROUNDS; g++)
                add(list, cw_arena_print(arena, "forces-%d-%s", i + 1, g == CW_STRUCT_UNIFORM ? "line" : "springs"),
                    cw_draw_forces(plan, i, g, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
        }
        if (strength->cover_count > 0)
            add(list, "resistance", cw_draw_resistance(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    }
    if (strength->crossing_count > 0)
        add(list, "crossings", cw_draw_crossings(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
}

static void add_ends(sheets *list, const cw_plan *plan, cw_arena *arena)
{
    if (plan->outlet.works.present)
        add(list, "outlet-end", cw_draw_end(plan, false, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    if (plan->inlet.works.present)
        add(list, "inlet-end", cw_draw_end(plan, true, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    if (plan->conflicts.present)
        add(list, "obstacles", cw_draw_obstacles(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
}

/* Every drawing of the plan under the name of its file. */
static void find_sheets(sheets *list, const cw_plan *plan, cw_arena *arena)
{
    add(list, "plan", cw_draw_plan_view(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    for (int b = 0; b < plan->barrel_count; b++)
        add(list, b == 0 ? "profile" : cw_arena_print(arena, "profile-%d", b + 1),
            cw_draw_long_profile(plan, b, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    add(list, "section", cw_draw_typical_section(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    add(list, "layout", cw_draw_layout(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    add(list, "joint", cw_draw_joint_detail(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    add_ends(list, plan, arena);
    add_water(list, plan, arena);
    add_strength(list, plan, arena);
    if (plan->schedule.present && plan->schedule.status == CW_SETTING_DONE) {
        add(list, "schedule", cw_draw_schedule(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
        add(list, "advance", cw_draw_advance(plan, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
    }
    for (int i = 0; i < plan->type_count; i++)
        add(list, cw_arena_print(arena, "piece-%s", plan->types[i].mark),
            cw_draw_piece(plan, i, SHEET_WIDE_PT, SHEET_TALL_PT, arena));
}

/* ---- forms ---- */

static bool write_svg(cw_session *s, const sheets *list, const char *folder)
{
    bool good = true;
    for (int i = 0; good && i < list->count; i++)
        good = cw_write_text(cw_arena_print(&s->arena, "%s/%s.svg", folder, list->items[i].name),
                             cw_svg_write(list->items[i].drawing, "", &s->arena), &s->arena, &s->diags);
    return good;
}

static bool write_dxf(cw_session *s, const sheets *list, const char *folder)
{
    bool good = true;
    for (int i = 0; good && i < list->count; i++)
        good = cw_write_text(cw_arena_print(&s->arena, "%s/%s.dxf", folder, list->items[i].name),
                             cw_dxf_write(list->items[i].drawing, &s->arena), &s->arena, &s->diags);
    return good;
}

static bool write_csv(cw_session *s, const sheets *list, const char *folder)
{
    cw_arena *arena = &s->arena;
    (void)list;
    return cw_write_text(cw_arena_print(arena, "%s/pieces.csv", folder), cw_pieces_csv(s->plan, arena), arena,
                         &s->diags) &&
           cw_write_text(cw_arena_print(arena, "%s/points-pnezd.csv", folder), cw_points_csv(s->plan, arena), arena,
                         &s->diags);
}

static const struct form {
    const char *name;
    bool draws;
    bool (*write)(cw_session *s, const sheets *list, const char *folder);
} forms[] = {{"csv", false, write_csv}, {"dxf", true, write_dxf}, {"svg", true, write_svg}};

enum { FORMS = (int)(sizeof forms / sizeof forms[0]) };

/* The forms of a list such as "svg,csv"; false after a message when one is unknown. */
static bool read_forms(const char *text, bool wanted[FORMS])
{
    for (const char *at = text; *at;) {
        const size_t length = strcspn(at, ",");
        int form = 0;
        while (form < FORMS && (strlen(forms[form].name) != length || strncmp(at, forms[form].name, length) != 0))
            form++;
        if (form == FORMS) {
            fprintf(stderr, "culvertwright export: \"%.*s\" is not a form; write one or more of csv, dxf, svg with commas between\n",
                    (int)length, at);
            return false;
        }
        wanted[form] = true;
        at += length + (at[length] == ',');
    }
    return true;
}

cw_exit cw_command_export(int count, char **arguments)
{
    const char *as = NULL, *out = NULL;
    const cw_option options[] = {
        {"--as", "csv, dxf, svg or several: dxf,csv", "forms to write", &as},
        {"-o", "a folder that exists", "where the files go", &out},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 2, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "export");
    bool wanted[FORMS] = {false}, draws = false, good = true;
    cw_session s;
    if (!path)
        return CW_EXIT_INPUT;
    if (!as || !out) {
        fprintf(stderr, "culvertwright export: say what and where: --as dxf,svg,csv -o FOLDER\n");
        return CW_EXIT_INPUT;
    }
    if (!read_forms(as, wanted))
        return CW_EXIT_INPUT;
    if (!cw_session_open(&s, path))
        return cw_session_close(&s, CW_EXIT_INPUT);
    if (!s.plan->laid) {
        fprintf(stderr, "culvertwright: there is no division into pieces to export; culvertwright check says why\n");
        return cw_session_close(&s, CW_EXIT_FAILS);
    }
    for (int i = 0; i < FORMS; i++)
        draws = draws || (wanted[i] && forms[i].draws);
    sheets *list = CW_TAKE(&s.arena, sheets, 1);
    if (draws)
        find_sheets(list, s.plan, &s.arena);
    for (int i = 0; good && i < FORMS; i++)
        good = !wanted[i] || forms[i].write(&s, list, out);
    return cw_session_close(&s, good ? cw_plan_exit(s.plan) : CW_EXIT_INPUT);
}
