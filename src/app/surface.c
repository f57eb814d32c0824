#include "surface.h"

#include <libxml/parser.h>
#include <libxml/tree.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "cw/text.h"
#include "cw/units.h"

enum { FAULTS_MAX = 20, TOKEN_MAX = 40, CORNERS = 3 };

/** An id of the file and the index of its point. */
typedef struct id_row {
    const char *id;
    int index;
} id_row;

typedef struct surface_reader {
    const char *file;
    cw_arena *arena;
    cw_diags *diags;
    double ft_per_unit;
    cw_survey_point *points;
    id_row *ids;
    int point_count, point_capacity;
    int (*faces)[CORNERS];
    int face_count, face_capacity;
    int faults;
    const char *xml_fault;
    cw_pos xml_fault_at;
} surface_reader;

static cw_pos place(const surface_reader *r, const xmlNode *node)
{
    const long line = node ? xmlGetLineNo(node) : 0;
    return (cw_pos){r->file, NULL, line > 0 ? (int)line : 0, line > 0 ? 1 : 0};
}

static bool is_element(const xmlNode *node, const char *name)
{
    return node->type == XML_ELEMENT_NODE && strcmp((const char *)node->name, name) == 0;
}

static const xmlNode *first_child(const xmlNode *parent, const char *name)
{
    const xmlNode *child = parent->children;
    while (child && !is_element(child, name))
        child = child->next;
    return child;
}

/* The attribute's text in the arena, or NULL. */
static const char *attribute(const surface_reader *r, const xmlNode *node, const char *name)
{
    xmlChar *value = xmlGetNoNsProp(node, (const xmlChar *)name);
    const char *copy =
        value ? cw_arena_copy(r->arena, (const char *)value, strlen((const char *)value)) : NULL;
    xmlFree(value);
    return copy;
}

/* ---- units ---- */

static bool read_unit(surface_reader *r, const xmlNode *root)
{
    static const struct {
        const char *name;
        double ft;
    } units[] = {
        {"foot", 1.0}, {"USSurveyFoot", CW_M_PER_USFT / CW_M_PER_FT}, {"meter", 1.0 / CW_M_PER_FT}};
    const xmlNode *block = first_child(root, "Units"), *kind = NULL;
    if (block)
        kind = first_child(block, "Imperial") ? first_child(block, "Imperial")
                                              : first_child(block, "Metric");
    const char *unit = kind ? attribute(r, kind, "linearUnit") : NULL;
    for (size_t i = 0; unit && i < sizeof units / sizeof units[0]; i++)
        if (strcmp(unit, units[i].name) == 0) {
            r->ft_per_unit = units[i].ft;
            return true;
        }
    if (unit)
        cw_diag_add(
            r->diags, place(r, kind), CW_E_UNIT,
            "linear unit '%s' is not taken; export the surface in foot, USSurveyFoot or meter",
            unit);
    else
        cw_diag_add(
            r->diags, place(r, block ? block : root), CW_E_MISSING,
            "the file does not name its linear unit; export it with Units, linearUnit foot, "
            "USSurveyFoot or meter");
    return false;
}

/* ---- points ---- */

/* Next word of the text; its decimal comma, which some programs write, becomes a point.  False at
 * the end or when it is no number. */
static bool next_number(const char **text, double *value)
{
    char digits[TOKEN_MAX + 1];
    const char *word = *text + strspn(*text, " \t\r\n");
    const size_t length = strcspn(word, " \t\r\n");
    *text = word + length;
    if (length == 0 || length > TOKEN_MAX || strspn(word, "+-.,0123456789eE") < length)
        return false;
    memcpy(digits, word, length);
    digits[length] = '\0';
    char *comma = strchr(digits, ',');
    if (comma && !strchr(digits, '.'))
        *comma = '.';
    char *end = NULL;
    *value = strtod(digits, &end);
    return *end == '\0' && isfinite(*value);
}

static bool values_are_sound(surface_reader *r, const xmlNode *node, const double ft[CORNERS])
{
    if (fabs(ft[0]) <= CW_GROUND_COORD_MAX_FT && fabs(ft[1]) <= CW_GROUND_COORD_MAX_FT &&
        ft[2] >= CW_GROUND_ELEV_LOW_FT && ft[2] <= CW_GROUND_ELEV_HIGH_FT)
        return true;
    cw_diag_add(r->diags, place(r, node), CW_E_RANGE,
                "point at N %.1f, E %.1f, elevation %.1f ft is outside +-%.0f ft and %.0f to %.0f "
                "ft; check "
                "the file's unit",
                ft[0], ft[1], ft[2], CW_GROUND_COORD_MAX_FT, CW_GROUND_ELEV_LOW_FT,
                CW_GROUND_ELEV_HIGH_FT);
    return false;
}

static bool read_point(surface_reader *r, const xmlNode *node)
{
    const char *id = attribute(r, node, "id");
    xmlChar *content = xmlNodeGetContent(node);
    const char *text = content ? (const char *)content : "";
    double ft[CORNERS] = {0};
    int count = 0;
    while (count < CORNERS && next_number(&text, &ft[count]))
        ft[count++] *= r->ft_per_unit;
    const bool whole = count == CORNERS && text[strspn(text, " \t\r\n")] == '\0';
    xmlFree(content);
    if (!id || !whole) {
        cw_diag_add(
            r->diags, place(r, node), CW_E_VALUE,
            "a point needs an id and three numbers, northing, easting and elevation; export the "
            "surface again");
        return false;
    }
    if (!values_are_sound(r, node, ft))
        return false;
    if (r->point_count == r->point_capacity) {
        r->point_capacity = r->point_capacity ? r->point_capacity * 2 : 1024;
        r->points = cw_arena_grow(r->arena, r->points, (size_t)r->point_count,
                                  (size_t)r->point_capacity, sizeof *r->points);
        r->ids = cw_arena_grow(r->arena, r->ids, (size_t)r->point_count, (size_t)r->point_capacity,
                               sizeof *r->ids);
    }
    r->ids[r->point_count] = (id_row){id, r->point_count};
    r->points[r->point_count++] =
        (cw_survey_point){ft[0], ft[1], ft[2], id, "", place(r, node).line};
    return true;
}

static int compare_ids(const void *left, const void *right)
{
    const id_row *a = left, *b = right;
    const int order = strcmp(a->id, b->id);
    return order ? order : (a->index > b->index) - (a->index < b->index);
}

static void sort_ids(surface_reader *r)
{
    if (r->point_count > 0)
        qsort(r->ids, (size_t)r->point_count, sizeof *r->ids, compare_ids);
    for (int i = 1; i < r->point_count && r->faults < FAULTS_MAX; i++)
        if (strcmp(r->ids[i - 1].id, r->ids[i].id) == 0) {
            cw_diag_add(r->diags, (cw_pos){r->file, NULL, r->points[r->ids[i].index].line, 1},
                        CW_E_DUPLICATE,
                        "point id '%s' was given before, in line %d; export the surface again",
                        r->ids[i].id, r->points[r->ids[i - 1].index].line);
            r->faults++;
        }
}

static int point_of(const surface_reader *r, const char *id)
{
    int low = 0, high = r->point_count - 1;
    while (low <= high) {
        const int middle = low + (high - low) / 2;
        const int order = strcmp(id, r->ids[middle].id);
        if (order == 0)
            return r->ids[middle].index;
        if (order < 0)
            high = middle - 1;
        else
            low = middle + 1;
    }
    return -1;
}

/* ---- faces ---- */

static bool corner_of(surface_reader *r, const xmlNode *node, const char *id, int *index)
{
    *index = point_of(r, id);
    if (*index >= 0)
        return true;
    cw_diag_add(
        r->diags, place(r, node), CW_E_VALUE,
        "this face names point '%s', which the surface does not have; export the surface again",
        id);
    return false;
}

static bool read_corners(surface_reader *r, const xmlNode *node, const char *text,
                         int corners[CORNERS])
{
    int count = 0;
    for (const char *word = text + strspn(text, " \t\r\n"); *word;) {
        const size_t length = strcspn(word, " \t\r\n");
        if (count < CORNERS &&
            !corner_of(r, node, cw_arena_copy(r->arena, word, length), &corners[count]))
            return false;
        count++;
        word += length;
        word += strspn(word, " \t\r\n");
    }
    if (count == CORNERS)
        return true;
    cw_diag_add(r->diags, place(r, node), CW_E_VALUE,
                "a face of %d points, only triangles are taken; export the surface as a TIN",
                count);
    return false;
}

static bool read_face(surface_reader *r, const xmlNode *node)
{
    const char *invisible = attribute(r, node, "i");
    if (invisible && strcmp(invisible, "1") == 0)
        return true;
    int corners[CORNERS] = {0};
    xmlChar *content = xmlNodeGetContent(node);
    const bool read = read_corners(r, node, content ? (const char *)content : "", corners);
    xmlFree(content);
    if (!read)
        return false;
    if (r->face_count >= CW_MESH_FACES_MAX) {
        cw_diag_add(r->diags, place(r, node), CW_E_TOO_MANY,
                    "more than %d faces; cut the surface down to the crossing", CW_MESH_FACES_MAX);
        r->faults = FAULTS_MAX;
        return false;
    }
    if (r->face_count == r->face_capacity) {
        r->face_capacity = r->face_capacity ? r->face_capacity * 2 : 1024;
        r->faces = cw_arena_grow(r->arena, r->faces, (size_t)r->face_count,
                                 (size_t)r->face_capacity, sizeof *r->faces);
    }
    memcpy(r->faces[r->face_count++], corners, sizeof corners);
    return true;
}

/* ---- the surface ---- */

/* Reads every @p item in every @p group of the surface's definitions; a file may split them. */
static void read_items(surface_reader *r, const xmlNode *surface, const char *group,
                       const char *item, bool (*read)(surface_reader *, const xmlNode *))
{
    for (const xmlNode *d = surface->children; d; d = d->next)
        for (const xmlNode *g = is_element(d, "Definition") ? d->children : NULL; g; g = g->next)
            for (const xmlNode *n = is_element(g, group) ? g->children : NULL; n; n = n->next)
                if (is_element(n, item) && r->faults < FAULTS_MAX)
                    r->faults += !read(r, n);
}

static bool is_tin(const surface_reader *r, const xmlNode *surface)
{
    const xmlNode *definition = first_child(surface, "Definition");
    const char *kind = definition ? attribute(r, definition, "surfType") : NULL;
    return kind && (strcmp(kind, "TIN") == 0 || strcmp(kind, "tin") == 0);
}

static const xmlNode *find_surface(surface_reader *r, const xmlNode *root)
{
    const xmlNode *found = NULL;
    for (const xmlNode *list = root->children; list; list = list->next)
        for (const xmlNode *s = is_element(list, "Surfaces") ? list->children : NULL; s;
             s = s->next) {
            if (!is_element(s, "Surface") || !is_tin(r, s))
                continue;
            if (found) {
                cw_diag_add(
                    r->diags, place(r, s), CW_E_TOO_MANY,
                    "a second surface '%s' stands in this file, one is taken; export only that of "
                    "the existing ground",
                    attribute(r, s, "name") ? attribute(r, s, "name") : "");
                return NULL;
            }
            found = s;
        }
    if (!found)
        cw_diag_add(
            r->diags, place(r, root), CW_E_MISSING,
            "the file holds no triangulated surface; export the existing ground as LandXML with "
            "a TIN definition");
    return found;
}

static const cw_ground_mesh *read_root(surface_reader *r, const xmlNode *root)
{
    if (!is_element(root, "LandXML")) {
        cw_diag_add(r->diags, place(r, root), CW_E_KIND,
                    "this is '%s', not LandXML; export the surface as LandXML 1.2",
                    (const char *)root->name);
        return NULL;
    }
    const xmlNode *surface = read_unit(r, root) ? find_surface(r, root) : NULL;
    if (!surface)
        return NULL;
    read_items(r, surface, "Pnts", "P", read_point);
    sort_ids(r);
    if (r->faults == 0)
        read_items(r, surface, "Faces", "F", read_face);
    if (r->faults == 0 && r->face_count == 0) {
        cw_diag_add(r->diags, place(r, surface), CW_E_MISSING,
                    "the surface has no visible face; export it with its triangles");
        r->faults++;
    }
    if (r->faults > 0)
        return NULL;
    cw_ground_mesh *mesh = CW_TAKE(r->arena, cw_ground_mesh, 1);
    *mesh =
        (cw_ground_mesh){r->points, r->point_count, (const int(*)[CORNERS])r->faces, r->face_count};
    return mesh;
}

/* ---- the file ---- */

bool cw_surface_is_named(const char *file)
{
    const char *ending = strrchr(file, '.');
    return ending && (strcasecmp(ending, ".xml") == 0 || strcasecmp(ending, ".landxml") == 0);
}

static bool is_taken(surface_reader *r, const char *bytes, size_t length)
{
    const cw_pos start = {r->file, NULL, 1, 1};
    if (length > CW_SURFACE_BYTES_MAX) {
        cw_diag_add(r->diags, start, CW_E_TOO_MANY,
                    "the file has %zu bytes, the limit is %d; cut the surface down to the crossing",
                    length, CW_SURFACE_BYTES_MAX);
        return false;
    }
    static const char mark[] = "<!DOCTYPE";
    for (size_t i = 0; i + sizeof mark - 1 <= length; i++)
        if (bytes[i] == '<' && memcmp(bytes + i, mark, sizeof mark - 1) == 0) {
            cw_diag_add(
                r->diags, start, CW_E_SYNTAX,
                "the file declares a document type, which LandXML does not need and which is not "
                "taken; export the surface again");
            return false;
        }
    return true;
}

/* The first fault is the cause; libxml2 itself keeps the last. */
static void keep_first_fault(void *context, xmlErrorPtr error)
{
    const xmlParserCtxt *parser = context;
    surface_reader *r = parser->_private;
    if (r->xml_fault || error->level < XML_ERR_ERROR || error->domain != XML_FROM_PARSER)
        return;
    const char *reason = error->message ? error->message : "no reason given";
    r->xml_fault = cw_arena_copy(r->arena, reason, strcspn(reason, "\n"));
    r->xml_fault_at = (cw_pos){r->file, NULL, error->line, error->int2};
}

static xmlDoc *parse(surface_reader *r, xmlParserCtxt *context, const char *bytes, size_t length)
{
    context->_private = r;
    context->sax->serror = keep_first_fault;
    xmlDoc *document = xmlCtxtReadMemory(context, bytes, (int)length, NULL, NULL,
                                         XML_PARSE_NONET | XML_PARSE_NOCDATA | XML_PARSE_BIG_LINES);
    if (!document)
        cw_diag_add(r->diags, r->xml_fault ? r->xml_fault_at : (cw_pos){r->file, NULL, 1, 1},
                    CW_E_SYNTAX, "the XML is not well formed: %s; export the surface again",
                    r->xml_fault ? r->xml_fault : "the file is empty");
    return document;
}

const cw_ground_mesh *cw_surface_read(const char *bytes, size_t length, const char *file,
                                      cw_arena *arena, cw_diags *diags)
{
    surface_reader r = {.file = file, .arena = arena, .diags = diags};
    if (!is_taken(&r, bytes, length))
        return NULL;
    const cw_ground_mesh *mesh = NULL;
    xmlParserCtxt *context = xmlNewParserCtxt();
    xmlDoc *document = context ? parse(&r, context, bytes, length) : NULL;
    if (!context)
        cw_diag_add(diags, (cw_pos){file, NULL, 0, 0}, CW_E_FILE,
                    "no memory left to read the surface; close other programs and try again");
    else if (document && document->intSubset)
        cw_diag_add(
            diags, (cw_pos){file, NULL, 1, 1}, CW_E_SYNTAX,
            "the file declares a document type, which is not taken; export the surface again");
    else if (document)
        mesh = read_root(&r, xmlDocGetRootElement(document));
    xmlFreeDoc(document);
    if (context)
        xmlFreeParserCtxt(context);
    return mesh;
}
