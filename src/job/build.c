#include "job_internal.h"

#include <string.h>

#include "cw/ground.h"
#include "cw/text.h"

/* ---- values ---- */

static const char *item_path(const cw_builder *b, const cw_node *node, int item)
{
    return node->section->is_list ? cw_arena_print(b->arena, "%s[%d]", node->path, item)
                                  : node->path;
}

static const char *field_path(const cw_builder *b, const cw_node *node, int item,
                              const cw_field *field)
{
    const char *above = item_path(b, node, item);
    return above[0] ? cw_arena_print(b->arena, "%s.%s", above, field->key) : field->key;
}

static cw_slot *slot_of(cw_node *node, int item, int field)
{
    return &node->slots[item * node->section->field_count + field];
}

static char *item_base(const cw_node *node, int item)
{
    return node->base + (node->section->is_list ? (size_t)item * node->section->item_size : 0);
}

static void say_twice(cw_builder *b, int entry, int first)
{
    const cw_entry *items = b->entries->items;
    cw_diag_add(b->diags, cw_entry_pos(b, entry), CW_E_DUPLICATE,
                "%s is given twice: at line %d and again here; keep one", items[entry].path,
                items[first].line);
}

static void note_section(cw_builder *b, int entry, const cw_target *target)
{
    cw_node *node = &b->nodes[target->node];
    int *known = target->item >= 0 && node->section->is_list ? &node->item_entries[target->item]
                                                             : &node->entry;
    if (*known >= 0)
        say_twice(b, entry, *known);
    else
        *known = entry;
}

/* One item of a list that is written item by item. */
static void read_part(cw_builder *b, int entry, const cw_target *target, cw_slot *slot)
{
    const cw_node *node = &b->nodes[target->node];
    const cw_field *field = &node->section->fields[target->field];
    char *base = item_base(node, target->item);
    cw_list *list = (cw_list *)(void *)(base + field->offset);
    if (target->part != list->count) {
        if (target->part < list->count && !slot->twice)
            say_twice(b, entry, slot->entry);
        return; // a gap in the numbers means an item that is no scalar, already reported
    }
    if (list->count == CW_LIST_MAX) {
        if (slot->state != CW_SLOT_BAD)
            cw_diag_add(b->diags, cw_entry_pos(b, entry), CW_E_TOO_MANY,
                        "%s has more than %d items; shorten the list", field->key,
                        (int)CW_LIST_MAX);
        slot->state = CW_SLOT_BAD;
        return;
    }
    cw_field one = *field;
    one.kind = CW_KIND_NUMBER;
    one.offset = 0;
    one.has_offset = CW_NO_FLAG;
    const bool good =
        cw_field_read(&one, b->entries->items[entry].value, &list->items[list->count++],
                      cw_entry_pos(b, entry), b->arena, b->diags);
    if (!good)
        slot->state = CW_SLOT_BAD;
    else if (slot->state == CW_SLOT_ABSENT)
        slot->state = CW_SLOT_GIVEN;
    if (field->has_offset != CW_NO_FLAG)
        *(bool *)(void *)(base + field->has_offset) = true;
}

static void read_value(cw_builder *b, int entry, const cw_target *target)
{
    cw_node *node = &b->nodes[target->node];
    const cw_entry *at = &b->entries->items[entry];
    const cw_field *field = &node->section->fields[target->field];
    cw_slot *slot = slot_of(node, target->item, target->field);
    if (target->part >= 0) {
        if (slot->entry < 0)
            slot->entry = entry;
        read_part(b, entry, target, slot);
        return;
    }
    if (slot->entry >= 0) {
        say_twice(b, entry, slot->entry);
        slot->twice = true;
        return;
    }
    slot->entry = entry;
    if (at->kind == CW_ENTRY_LIST)
        return; // its items follow
    const bool good =
        cw_field_read(field, at->value ? at->value : "", item_base(node, target->item),
                      cw_entry_pos(b, entry), b->arena, b->diags);
    slot->state = good ? CW_SLOT_GIVEN : CW_SLOT_BAD;
}

/* What an unknown key was taken for counts as given, with a fault. */
static void note_misspelt(cw_builder *b, const cw_target *target)
{
    if (target->meant < 0)
        return;
    cw_node *node = &b->nodes[target->meant];
    if (target->field < 0)
        node->misspelt = true;
    else if (target->item < node->items && slot_of(node, target->item, target->field)->entry < 0)
        slot_of(node, target->item, target->field)->state = CW_SLOT_BAD;
}

static void read_values(cw_builder *b)
{
    for (int i = 0; i < b->entries->count; i++) {
        const cw_target *target = &b->targets[i];
        if (target->node < 0)
            note_misspelt(b, target);
        else if (target->field < 0)
            note_section(b, i, target);
        else
            read_value(b, i, target);
    }
}

/* An entry with a fault of kind was reported there; what it lacks is not news. */
static bool refused(const cw_builder *b, const char *path)
{
    for (int i = 0; i < b->entries->count; i++)
        if (b->targets[i].node < 0 && cw_text_same(b->entries->items[i].path, path))
            return true;
    return false;
}

/* A list value that was begun but has no items. */
static void refuse_empty_lists(cw_builder *b)
{
    for (int i = 0; i < b->entries->count; i++) {
        const cw_target *target = &b->targets[i];
        if (target->node < 0 || target->field < 0 || target->part >= 0)
            continue;
        cw_node *node = &b->nodes[target->node];
        cw_slot *slot = slot_of(node, target->item, target->field);
        if (slot->state != CW_SLOT_ABSENT)
            continue;
        slot->state = CW_SLOT_BAD;
        if (refused(b, cw_arena_print(b->arena, "%s[0]", b->entries->items[i].path)))
            continue;
        const cw_field *field = &node->section->fields[target->field];
        cw_diag_add(b->diags, cw_entry_pos(b, i), CW_E_VALUE, "%s is an empty list; write %s",
                    field->key, cw_field_hint(b->arena, field));
    }
}

/* ---- what is missing ---- */

static void need_section(cw_builder *b, const cw_node *node)
{
    const cw_section *section = node->section;
    const cw_pos where = cw_entries_place(b->entries, node->path);
    if (node->misspelt || refused(b, node->path))
        return;
    const char *above = b->nodes[node->parent].path;
    cw_diag_add(b->diags, where, CW_E_MISSING, "%s has no %s (%s); add it with %s",
                above[0] ? above : "the job file", section->key, section->meaning,
                cw_section_keys(b->arena, section, true));
}

static void set_live(cw_builder *b)
{
    for (int i = 0; i < b->node_count; i++) {
        cw_node *node = &b->nodes[i];
        const cw_section *section = node->section;
        const bool above = node->parent < 0 || b->nodes[node->parent].live;
        const bool always = node->parent < 0 || section->need == CW_NEED_DEFAULTED;
        node->live = above && (node->given || always) && !refused(b, node->path);
        const bool empty_list = section->is_list && node->items == 0;
        if (above && section->need == CW_NEED_REQUIRED && (!node->live || empty_list))
            need_section(b, node);
        if (section->present_offset != CW_NO_FLAG)
            *(bool *)(void *)(node->base + section->present_offset) = node->live;
    }
}

static void need_field(cw_builder *b, const cw_node *node, int item, const cw_field *field)
{
    const char *path = field_path(b, node, item, field);
    if (refused(b, path) || (node->section->is_list && refused(b, item_path(b, node, item))))
        return;
    const char *above = item_path(b, node, item);
    cw_diag_add(b->diags, cw_entries_place(b->entries, path), CW_E_MISSING,
                "%s has no %s (%s); write %s: %s", above[0] ? above : "the job file", field->key,
                field->meaning, field->key, cw_field_hint(b->arena, field));
}

static void need_fields(cw_builder *b)
{
    for (int i = 0; i < b->node_count; i++) {
        cw_node *node = &b->nodes[i];
        for (int item = 0; node->live && item < node->items; item++)
            for (int f = 0; f < node->section->field_count; f++)
                if (node->section->fields[f].required &&
                    slot_of(node, item, f)->state == CW_SLOT_ABSENT)
                    need_field(b, node, item, &node->section->fields[f]);
    }
}

/* ---- defaults ---- */

typedef struct assumptions {
    cw_assumption *items;
    int count, capacity;
} assumptions;

static void assume(cw_builder *b, assumptions *all, cw_assumption one)
{
    if (all->count == all->capacity) {
        all->capacity = all->capacity ? all->capacity * 2 : 64;
        all->items = cw_arena_grow(b->arena, all->items, (size_t)all->count, (size_t)all->capacity,
                                   sizeof *all->items);
    }
    all->items[all->count++] = one;
}

/* The same of the ground sections: no ground, no cut; no camber, no shape of it. */
static bool ground_matters(const cw_job *job, const char *path)
{
    const cw_job_grade *grade = &job->grade;
    if (cw_text_same(path, "trench.working_space"))
        return true;
    if (cw_text_same(path, "trench.below_shield"))
        return job->ground.present && job->trench.protection == CW_JOB_SHIELD;
    if (strncmp(path, "trench.", sizeof "trench." - 1) == 0)
        return job->ground.present;
    if (cw_text_same(path, "grade_control.rod"))
        return grade->has_backsight;
    if (cw_text_same(path, "grade_control.camber_shape") || cw_text_same(path, "grade_control.pond"))
        return grade->camber_ft > 0.0 || grade->settlement_ft > 0.0;
    return true;
}

/* Does this default bear on the job?  One that does not is taken silently. */
static bool matters(const cw_job *job, const char *path)
{
    static const char *const of_many[] = {"barrels.clear_gap", "fill_between.", "order.barrels",
                                          "order.spread", "order.first_barrel"};
    for (size_t i = 0; i < sizeof of_many / sizeof of_many[0]; i++)
        if (strncmp(path, of_many[i], strlen(of_many[i])) == 0)
            return job->barrels.count > 1;
    if (cw_text_same(path, "ground.order"))
        return job->ground.file[0] != '\0';
    if (cw_text_same(path, "pieces.rows"))
        return job->box.form != CW_FORM_RING;
    if (cw_text_same(path, "pieces.stagger"))
        return job->pieces.rows == 1;
    if (cw_text_same(path, "box.top_haunch"))
        return job->box.form != CW_FORM_LID;
    if (cw_text_same(path, "sealant.seat_rows") || cw_text_same(path, "order.ahead"))
        return job->box.form != CW_FORM_RING;
    return ground_matters(job, path);
}

static void take_default(cw_builder *b, assumptions *all, const cw_node *node, int item,
                         const cw_field *field, cw_slot *slot)
{
    char *base = item_base(node, item);
    const char *path = field_path(b, node, item, field);
    const int faults = b->diags->count;
    const cw_row *row = cw_field_default(field, &b->job->rows, base, b->arena, b->diags);
    if (b->diags->count > faults) {
        b->diags->items[faults].where = cw_entries_place(b->entries, "profile");
        slot->state = CW_SLOT_BAD;
        return;
    }
    if (!field->fallback)
        return;
    slot->state = CW_SLOT_DEFAULT;
    if (!matters(b->job, path))
        return;
    assume(b, all,
           (cw_assumption){
               .path = path,
               .value = cw_field_print(field, base, (cw_unit_system)b->job->head.units, b->arena),
               .meaning = field->meaning,
               .source = row ? cw_row_source(b->arena, row) : field->source,
               .status = row ? row->status : CW_STATUS_PRACTICE,
           });
}

/* The tops come in the lengths of the bases unless the job says otherwise. */
static void default_top_lengths(cw_builder *b, assumptions *all)
{
    cw_job_pieces *pieces = &b->job->pieces;
    if (pieces->has_top_lengths || !cw_job_sound(b, "pieces.lengths"))
        return;
    pieces->top_lengths_in = pieces->lengths_in;
    if (pieces->rows != 1)
        return;
    cw_text value = cw_text_on(b->arena);
    for (int i = 0; i < pieces->lengths_in.count; i++)
        cw_text_print(&value, "%s%s", i > 0 ? ", " : "",
                      cw_quantity_format(b->arena, pieces->lengths_in.items[i], CW_DIM_IN,
                                         (cw_unit_system)b->job->head.units));
    assume(b, all,
           (cw_assumption){"pieces.top_lengths", cw_text_string(&value),
                           "laying lengths of the tops", "the lengths of the bases",
                           CW_STATUS_PRACTICE});
}

static void take_defaults(cw_builder *b)
{
    assumptions all = {0};
    for (int i = 0; i < b->node_count; i++) {
        cw_node *node = &b->nodes[i];
        for (int item = 0; node->live && item < node->items; item++) {
            for (int f = 0; f < node->section->field_count; f++) {
                const cw_field *field = &node->section->fields[f];
                cw_slot *slot = slot_of(node, item, f);
                if (slot->state == CW_SLOT_ABSENT && !field->required)
                    take_default(b, &all, node, item, field, slot);
            }
        }
    }
    default_top_lengths(b, &all);
    b->job->assumptions = all.items;
    b->job->assumption_count = all.count;
}

/* Texts of sections that are not there, and of values with a fault, read as "" and never as NULL.
 */
static void fill_texts(cw_builder *b)
{
    for (int i = 0; i < b->node_count; i++) {
        cw_node *node = &b->nodes[i];
        for (int item = 0; item < node->items; item++) {
            for (int f = 0; f < node->section->field_count; f++) {
                const cw_field *field = &node->section->fields[f];
                const char **text = (const char **)(void *)(item_base(node, item) + field->offset);
                if (field->kind == CW_KIND_TEXT && !*text)
                    *text = "";
            }
        }
    }
}

/* ---- the whole ---- */

static bool too_much(const cw_entries *entries, cw_diags *diags)
{
    if (entries->count <= CW_JOB_ENTRIES_MAX)
        return false;
    const cw_entry *past = &entries->items[CW_JOB_ENTRIES_MAX];
    cw_diag_add(diags, (cw_pos){entries->file, past->path, past->line, past->column}, CW_E_TOO_MANY,
                "the file has %d entries and the program takes %d; put ground points into a survey "
                "file or split the job",
                entries->count, (int)CW_JOB_ENTRIES_MAX);
    return true;
}

static int error_count(const cw_diags *diags)
{
    int count = diags->dropped;
    for (int i = 0; i < diags->count; i++)
        count += diags->items[i].code < CW_W_MEMORY;
    return count;
}

const cw_job *cw_job_build(const cw_entries *entries, const cw_job_files *files, cw_arena *arena,
                           cw_diags *diags)
{
    static const cw_job_files no_files = {0};
    if (too_much(entries, diags))
        return NULL;
    const int errors_before = error_count(diags);
    cw_builder *b = CW_TAKE(arena, cw_builder, 1);
    *b = (cw_builder){.job = CW_TAKE(arena, cw_job, 1),
                      .entries = entries,
                      .files = files ? files : &no_files,
                      .arena = arena,
                      .diags = diags};
    b->job->entries = entries;
    cw_job_place_entries(b);
    read_values(b);
    refuse_empty_lists(b);
    set_live(b);
    need_fields(b);
    fill_texts(b);
    cw_job_rows(b);
    take_defaults(b);
    cw_job_validate(b);
    if (error_count(diags) == errors_before)
        cw_ground_from_files(b->job, b->files, cw_entries_place(entries, "ground.file"), arena,
                             diags);
    if (error_count(diags) == errors_before)
        cw_job_read_charts(b);
    cw_diags_sort(diags);
    return error_count(diags) == errors_before ? b->job : NULL;
}
