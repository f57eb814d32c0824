#include "job_internal.h"

#include <assert.h>
#include <string.h>

#include "cw/text.h"

cw_pos cw_entry_pos(const cw_builder *builder, int entry)
{
    const cw_entry *at = &builder->entries->items[entry];
    return (cw_pos){builder->entries->file, at->path, at->line, at->column};
}

const char *cw_section_keys(cw_arena *arena, const cw_section *section, bool needed)
{
    cw_text text = cw_text_on(arena);
    for (int i = 0; i < section->field_count; i++)
        if (!needed || section->fields[i].required)
            cw_text_print(&text, "%s%s", text.length > 0 ? ", " : "", section->fields[i].key);
    for (int i = 0; i < section->child_count; i++)
        if (!needed || section->children[i].need == CW_NEED_REQUIRED)
            cw_text_print(&text, "%s%s", text.length > 0 ? ", " : "", section->children[i].key);
    return cw_text_string(&text);
}

static const cw_target nowhere = {.node = -1, .item = -1, .field = -1, .part = -1, .meant = -1};

/* ---- the nodes: the format as a flat list, parents first ---- */

static void add_node(cw_builder *b, const cw_section *section, int parent)
{
    assert(b->node_count < CW_NODES_MAX && parent < CW_NODES_MAX);
    // The checker does not see that a parent is always an earlier node.
    // cppcheck-suppress arrayIndexOutOfBoundsCond
    const char *above = parent > 0 ? b->nodes[parent].path : "";
    const char *path =
        above[0] ? cw_arena_print(b->arena, "%s.%s", above, section->key) : section->key;
    b->nodes[b->node_count++] = (cw_node){.section = section,
                                          .parent = parent,
                                          .path = path,
                                          .items = section->is_list ? 0 : 1,
                                          .entry = -1};
}

static void add_nodes(cw_builder *b)
{
    add_node(b, &cw_job_format, -1);
    for (int i = 0; i < b->node_count; i++)
        for (int child = 0; child < b->nodes[i].section->child_count; child++)
            add_node(b, &b->nodes[i].section->children[child], i);
}

/* ---- finding the place of a path ---- */

/* A path being walked. */
typedef struct walk {
    const char *at; /* what is left */
    const char *key;
    size_t key_length;
    int index;
} walk;

static bool take_key(walk *w)
{
    w->key = w->at;
    w->key_length = strcspn(w->at, ".[");
    w->at += w->key_length;
    return w->key_length > 0;
}

static bool take_index(walk *w)
{
    enum { INDEX_MAX = 1000000 };
    if (w->at[0] != '[')
        return false;
    w->index = 0;
    const char *digit = w->at + 1;
    for (; *digit >= '0' && *digit <= '9' && w->index < INDEX_MAX; digit++)
        w->index = w->index * 10 + (*digit - '0');
    if (digit == w->at + 1 || *digit != ']')
        return false;
    w->at = digit + 1;
    return true;
}

static bool key_is(const walk *w, const char *key)
{
    return strncmp(w->key, key, w->key_length) == 0 && key[w->key_length] == '\0';
}

static int child_node(const cw_builder *b, int parent, const walk *w)
{
    for (int i = parent + 1; i < b->node_count; i++)
        if (b->nodes[i].parent == parent && key_is(w, b->nodes[i].section->key))
            return i;
    return -1;
}

static int field_of(const cw_section *section, const walk *w)
{
    for (int i = 0; i < section->field_count; i++)
        if (key_is(w, section->fields[i].key))
            return i;
    return -1;
}

static const char *section_name(const cw_node *node)
{
    return node->path[0] ? node->path : "the job file";
}

/* The sections, other than @p not_here, that have a field or section of this name. */
static const char *homes_of(cw_builder *b, const char *key, int not_here)
{
    cw_text text = cw_text_on(b->arena);
    for (int i = 0; i < b->node_count; i++) {
        const cw_section *section = b->nodes[i].section;
        bool has = false;
        for (int f = 0; f < section->field_count; f++)
            has = has || cw_text_same(section->fields[f].key, key);
        for (int c = 0; c < section->child_count; c++)
            has = has || cw_text_same(section->children[c].key, key);
        if (has && i != not_here)
            cw_text_print(&text, "%s%s", text.length > 0 ? " or " : "",
                          i == 0 ? "the top level" : b->nodes[i].path);
    }
    return cw_text_string(&text);
}

static const char *nearest_key(const cw_section *section, const char *key)
{
    enum { KEYS_MAX = 40 };
    const char *keys[KEYS_MAX];
    int count = 0;
    for (int i = 0; i < section->field_count && count < KEYS_MAX; i++)
        keys[count++] = section->fields[i].key;
    for (int i = 0; i < section->child_count && count < KEYS_MAX; i++)
        keys[count++] = section->children[i].key;
    return cw_text_nearest(key, keys, count);
}

/* Says what is known about an unknown key; the key that it is taken for, if any, is not reported as
 * missing. */
static cw_target unknown(cw_builder *b, int entry, int node, int item, const walk *w)
{
    const char *key = cw_arena_copy(b->arena, w->key, w->key_length);
    const cw_section *section = b->nodes[node].section;
    const char *shown = cw_text_clip(b->arena, key);
    const char *name = section_name(&b->nodes[node]);
    const cw_pos where = cw_entry_pos(b, entry);
    const char *near = nearest_key(section, key);
    const char *homes = homes_of(b, key, node);
    if (near)
        cw_diag_add(b->diags, where, CW_E_UNKNOWN_KEY, "%s has no key %s; did you mean %s?", name,
                    shown, near);
    else if (homes[0])
        cw_diag_add(b->diags, where, CW_E_UNKNOWN_KEY,
                    "%s has no key %s; such a key belongs under %s", name, shown, homes);
    else
        cw_diag_add(b->diags, where, CW_E_UNKNOWN_KEY, "%s has no key %s; it takes %s", name, shown,
                    cw_section_keys(b->arena, section, false));
    const char *path = b->entries->items[entry].path;
    b->skip = cw_arena_copy(b->arena, path, (size_t)(w->key + w->key_length - path));
    cw_target guess = nowhere;
    if (near) {
        const walk meant = {.key = near, .key_length = strlen(near)};
        const int child = child_node(b, node, &meant);
        guess.meant = child >= 0 ? child : node;
        guess.field = child >= 0 ? -1 : field_of(section, &meant);
        guess.item = item;
    }
    return guess;
}

static bool under(const char *path, const char *above)
{
    const size_t length = strlen(above);
    return strncmp(path, above, length) == 0 && (path[length] == '.' || path[length] == '[');
}

static void say_kind(cw_builder *b, int entry, const char *message)
{
    cw_diag_add(b->diags, cw_entry_pos(b, entry), CW_E_KIND, "%s", message);
    b->skip = b->entries->items[entry].path;
}

/* A value of a field, or one item of a list value. */
static cw_target field_target(cw_builder *b, int entry, cw_target found, walk *w)
{
    const cw_field *field = &b->nodes[found.node].section->fields[found.field];
    const char *hint = cw_field_hint(b->arena, field);
    const cw_entry_kind kind = b->entries->items[entry].kind;
    if (field->kind == CW_KIND_LIST && take_index(w))
        found.part = w->index;
    if (w->at[0]) { // something hangs below a value whose own entry is not there
        say_kind(b, entry,
                 cw_arena_print(b->arena, "%s takes no keys or items; write %s", field->key, hint));
        return nowhere;
    }
    const bool list_allowed = field->kind == CW_KIND_LIST && found.part < 0;
    if (kind == CW_ENTRY_SCALAR || (kind == CW_ENTRY_LIST && list_allowed))
        return found;
    say_kind(b, entry,
             cw_arena_print(b->arena, "%s is a %s here; write one value, %s",
                            b->entries->items[entry].path,
                            kind == CW_ENTRY_MAP ? "map of keys" : "list", hint));
    return nowhere;
}

static bool is_empty(const cw_entry *entry)
{
    return entry->kind == CW_ENTRY_SCALAR && (!entry->value || !entry->value[0]);
}

/* The entry of a section or of one item: is it of the right kind? */
static cw_target section_target(cw_builder *b, int entry, cw_target found)
{
    static const char *const words[] = {"one value", "a map of keys", "a list"};
    const cw_node *node = &b->nodes[found.node];
    const cw_entry *at = &b->entries->items[entry];
    const bool list = node->section->is_list && found.item < 0;
    if (at->kind == (list ? CW_ENTRY_LIST : CW_ENTRY_MAP) || is_empty(at))
        return found;
    const char *keys = cw_section_keys(b->arena, node->section, false);
    if (list)
        say_kind(b, entry,
                 cw_arena_print(b->arena,
                                "%s is %s here; write a list, each item with a dash before its "
                                "first key: %s",
                                node->path, words[at->kind], keys));
    else
        say_kind(b, entry,
                 cw_arena_print(b->arena, "%s is %s here; write keys with their values: %s",
                                at->path[0] ? at->path : "the job file", words[at->kind], keys));
    return nowhere;
}

/* Stop at a place where the path goes on in a way that the format does not have, such as an item of
 * a map. */
static cw_target misplaced(cw_builder *b, int entry, int node)
{
    const cw_section *section = b->nodes[node].section;
    say_kind(
        b, entry,
        cw_arena_print(b->arena, "%s is %s; write %s", section_name(&b->nodes[node]),
                       section->is_list ? "a list" : "a map of keys",
                       section->is_list ? "each item with a dash" : "its keys without dashes"));
    return nowhere;
}

static cw_target target_of(cw_builder *b, int entry)
{
    walk w = {.at = b->entries->items[entry].path};
    cw_target found = {.node = 0, .item = 0, .field = -1, .part = -1, .meant = -1};
    for (int depth = 0; depth < CW_JOB_DEPTH_MAX && w.at[0]; depth++) {
        if (!take_key(&w))
            return misplaced(b, entry, found.node);
        const int child = child_node(b, found.node, &w);
        if (child < 0) {
            found.field = field_of(b->nodes[found.node].section, &w);
            if (found.field >= 0)
                return field_target(b, entry, found, &w);
            return unknown(b, entry, found.node, found.item, &w);
        }
        found.node = child;
        const bool list = b->nodes[child].section->is_list;
        found.item = list ? -1 : 0;
        if (list && take_index(&w))
            found.item = w.index;
        if (w.at[0] == '.' && found.item >= 0)
            w.at++;
        else if (w.at[0])
            return misplaced(b, entry, child);
    }
    return section_target(b, entry, found);
}

/* ---- counting and room ---- */

static bool fits(cw_builder *b, int entry, const cw_target *target)
{
    cw_node *node = &b->nodes[target->node];
    if (!node->section->is_list || target->item < node->section->max_items)
        return true;
    if (!node->too_many)
        cw_diag_add(b->diags, cw_entry_pos(b, entry), CW_E_TOO_MANY,
                    "%s has more than %d items; the program takes %d, so split the job or leave "
                    "some out",
                    node->path, node->section->max_items, node->section->max_items);
    node->too_many = true;
    return false;
}

static void mark_given(cw_builder *b, int node)
{
    for (; node >= 0; node = b->nodes[node].parent)
        b->nodes[node].given = true;
}

static void take_room(cw_builder *b, cw_node *node)
{
    const cw_section *section = node->section;
    char *above = node->parent < 0 ? (char *)b->job : b->nodes[node->parent].base;
    if (section->is_list) {
        node->base = cw_arena_take(b->arena, (size_t)node->items, section->item_size);
        *(void **)(above + section->offset) = node->base;
        *(int *)(above + section->count_offset) = node->items;
        node->item_entries = CW_TAKE(b->arena, int, node->items);
        for (int i = 0; i < node->items; i++)
            node->item_entries[i] = -1;
    } else {
        node->base = above + section->offset;
    }
    const int count = node->items * section->field_count;
    node->slots = CW_TAKE(b->arena, cw_slot, count);
    for (int i = 0; i < count; i++)
        node->slots[i].entry = -1;
}

void cw_job_place_entries(cw_builder *b)
{
    add_nodes(b);
    b->targets = CW_TAKE(b->arena, cw_target, b->entries->count);
    for (int i = 0; i < b->entries->count; i++) {
        cw_target *target = &b->targets[i];
        *target = nowhere;
        if (b->skip && under(b->entries->items[i].path, b->skip))
            continue;
        *target = target_of(b, i);
        if (target->node < 0)
            continue;
        mark_given(b, target->node);
        if (!fits(b, i, target))
            target->node = -1;
        else if (target->item >= b->nodes[target->node].items)
            b->nodes[target->node].items = target->item + 1;
    }
    for (int i = 0; i < b->node_count; i++)
        take_room(b, &b->nodes[i]);
}

/* ---- looking things up by path ---- */

const cw_slot *cw_job_slot(const cw_builder *b, const char *path)
{
    walk w = {.at = path};
    int node = 0, item = 0;
    for (int depth = 0; depth < CW_JOB_DEPTH_MAX && take_key(&w); depth++) {
        const int child = child_node(b, node, &w);
        if (child < 0) {
            const int field = field_of(b->nodes[node].section, &w);
            if (field < 0 || item >= b->nodes[node].items)
                return NULL;
            return &b->nodes[node].slots[item * b->nodes[node].section->field_count + field];
        }
        node = child;
        item = take_index(&w) ? w.index : 0;
        if (w.at[0] == '.')
            w.at++;
    }
    return NULL;
}

bool cw_job_sound(const cw_builder *b, const char *path)
{
    const cw_slot *slot = cw_job_slot(b, path);
    return slot && (slot->state == CW_SLOT_GIVEN || slot->state == CW_SLOT_DEFAULT);
}

bool cw_job_given(const cw_builder *b, const char *path)
{
    const cw_slot *slot = cw_job_slot(b, path);
    return slot && slot->state == CW_SLOT_GIVEN;
}
