// A box as a model of CalculiX (ccx), a general-purpose finite element program: 40 beam elements to a
// member, textbook nodal loads, springs one by one.  Needs mkdtemp, and ccx to run.
#ifndef CW_CCX_MODEL_H
#define CW_CCX_MODEL_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cw/structures.h"
#include "cw/units.h"

enum { PARTS = 40, MEMBERS = 4, NODES = MEMBERS * (PARTS + 2), FLOOR = 0, RIGHT, TOP, LEFT };

typedef struct node {
    double x, y, load[3], spring;
} node;

typedef struct model {
    node nodes[NODES];
    int count;
    int first[MEMBERS][PARTS + 1]; // node at the start of each part, and at the end
    int last[MEMBERS][PARTS];      // node at the end of each part: another one at a hinge
    double width, height;
    double move[NODES][3];
    double moment[MEMBERS * PARTS][2]; // inside tension +, at both ends of each element
    double held[MEMBERS * PARTS][2];   // that of the load between the nodes, which ccx does not see
} model;

static inline int node_add(model *m, double x, double y)
{
    m->nodes[m->count] = (node){.x = x, .y = y};
    return m->count++;
}

static inline void place(const model *m, int member, int i, double *x, double *y)
{
    const double t = (double)i / PARTS;
    const double xs[MEMBERS] = {t * m->width, m->width, (1.0 - t) * m->width, 0.0};
    const double ys[MEMBERS] = {0.0, t * m->height, m->height, (1.0 - t) * m->height};
    *x = xs[member];
    *y = ys[member];
}

// Hinges: at the tops of both walls (lid), or at mid height (double-u).
static inline bool hinged_before(int form, int member, int i)
{
    if (form == CW_STRUCT_LID)
        return i == 0 && (member == TOP || member == LEFT);
    return form == CW_STRUCT_DOUBLE_U && i == PARTS / 2 && (member == RIGHT || member == LEFT);
}

static inline void build(model *m, const cw_struct_box *box)
{
    memset(m, 0, sizeof *m);
    m->width = (box->span_in + box->wall_in) / CW_IN_PER_FT;
    m->height = (box->rise_in + (box->floor_in + box->top_in) / 2.0) / CW_IN_PER_FT;
    int before = node_add(m, 0.0, 0.0);
    for (int member = 0; member < MEMBERS; member++)
        for (int i = 0; i < PARTS; i++) {
            double x, y;
            if (hinged_before(box->form, member, i)) {
                place(m, member, i, &x, &y);
                before = node_add(m, x, y);
            }
            m->first[member][i] = before;
            place(m, member, i + 1, &x, &y);
            const bool closes = member == LEFT && i == PARTS - 1;
            before = closes ? 0 : node_add(m, x, y);
            m->last[member][i] = before;
        }
}

static inline double depth_at(const cw_struct_box *box, const model *m, int member, double t)
{
    const bool wall = member == RIGHT || member == LEFT;
    const double along = t * (wall ? m->height : m->width) * CW_IN_PER_FT;
    const double whole = (wall ? m->height : m->width) * CW_IN_PER_FT;
    const double from_low = member == LEFT ? whole - along : along;
    double low = box->haunch_in, high = box->crown_haunch_in, near_in, far_in;
    if (!wall) {
        near_in = far_in = fmin(along, whole - along) - box->wall_in / 2.0;
        low = high = member == TOP ? box->crown_haunch_in : box->haunch_in;
    } else {
        near_in = from_low - box->floor_in / 2.0;
        far_in = whole - from_low - box->top_in / 2.0;
    }
    const double own = wall ? box->wall_in : member == TOP ? box->top_in : box->floor_in;
    const double more =
        fmax(fmax(0.0, low - fmax(0.0, near_in)), fmax(0.0, high - fmax(0.0, far_in)));
    return (own + more) / CW_IN_PER_FT;
}

// Inward pressure at a place of a member, without the reaction of the ground.
static inline double inward(const cw_struct_box *box, const cw_struct_case *load, const model *m,
                     int member, double x, double y)
{
    double psf = 0.0;
    const double pcf = load->weight * box->concrete_pcf;
    if (member == TOP)
        return load->top_psf + pcf * box->top_in / CW_IN_PER_FT;
    if (member == FLOOR)
        return -pcf * box->floor_in / CW_IN_PER_FT;
    const cw_struct_side *sides = member == LEFT ? load->left : load->right;
    for (int i = 0; i < (member == LEFT ? load->left_count : load->right_count); i++)
        psf += sides[i].from_psf + (sides[i].to_psf - sides[i].from_psf) * y / m->height;
    (void)x;
    return psf;
}

static inline void node_load(node *n, double nx, double ny, double force, double turn)
{
    n->load[0] += nx * force;
    n->load[1] += ny * force;
    n->load[2] += turn;
}

// Textbook nodal loads of a straight-line load on a beam element; (nx, ny) points inward.
static inline void element_load(model *m, int member, int i, double w1, double w2)
{
    node *a = &m->nodes[m->first[member][i]], *b = &m->nodes[m->last[member][i]];
    const double l = hypot(b->x - a->x, b->y - a->y), nx = -(b->y - a->y) / l,
                 ny = (b->x - a->x) / l;
    node_load(a, nx, ny, l * (7.0 * w1 + 3.0 * w2) / 20.0, l * l * (3.0 * w1 + 2.0 * w2) / 60.0);
    node_load(b, nx, ny, l * (3.0 * w1 + 7.0 * w2) / 20.0, -l * l * (2.0 * w1 + 3.0 * w2) / 60.0);
    m->held[member * PARTS + i][0] -= l * l * (3.0 * w1 + 2.0 * w2) / 60.0;
    m->held[member * PARTS + i][1] -= l * l * (2.0 * w1 + 3.0 * w2) / 60.0;
}

static inline void load_member(model *m, const cw_struct_box *box, const cw_struct_case *load, int member)
{
    for (int i = 0; i < PARTS; i++) {
        const int from = m->first[member][i], to = m->last[member][i];
        double w[2];
        for (int e = 0; e < 2; e++)
            w[e] =
                inward(box, load, m, member, m->nodes[e ? to : from].x, m->nodes[e ? to : from].y);
        // Strips begin and end at nodes in the cases below.
        const double middle = (m->nodes[from].x + m->nodes[to].x) / 2.0;
        for (int p = 0; member == TOP && p < load->patch_count; p++)
            for (int e = 0;
                 middle > load->patches[p].from_ft && middle < load->patches[p].to_ft && e < 2; e++)
                w[e] += load->patches[p].psf;
        element_load(m, member, i, w[0], w[1]);
        if (member == RIGHT || member == LEFT)
            for (int e = 0; e < 2; e++)
                m->nodes[e ? to : from].load[1] -= load->weight * box->concrete_pcf * box->wall_in /
                                                   CW_IN_PER_FT * m->height / PARTS / 2.0;
    }
}

// N/B (1 +- 6 e/B) under the floor, or a spring at each node.
static inline void bear(model *m, const cw_struct_box *box)
{
    if (box->ground == CW_STRUCT_SPRINGS) {
        for (int i = 0; i <= PARTS; i++)
            m->nodes[i < PARTS ? m->first[FLOOR][i] : m->last[FLOOR][i - 1]].spring =
                box->ground_pcf * m->width / PARTS * (i % PARTS == 0 ? 0.5 : 1.0);
        return;
    }
    double up = 0.0, turn = 0.0;
    for (int i = 0; i < m->count; i++) {
        const node *n = &m->nodes[i];
        up += n->load[1];
        turn += n->load[1] * (n->x - m->width / 2.0) - n->load[0] * n->y + n->load[2];
    }
    const double even = -up / m->width, tilt = -turn * 6.0 / (m->width * m->width);
    for (int i = 0; i < PARTS; i++) {
        const double a = 2.0 * i / PARTS - 1.0, b = 2.0 * (i + 1) / PARTS - 1.0;
        element_load(m, FLOOR, i, even + tilt * a, even + tilt * b);
    }
}

static inline void write_elements(FILE *deck, const model *m, const cw_struct_box *box)
{
    fprintf(deck, "*USER ELEMENT,TYPE=U1,NODES=2,INTEGRATION POINTS=2,MAXDOF=6\n");
    for (int member = 0; member < MEMBERS; member++)
        for (int i = 0; i < PARTS; i++) {
            const int id = member * PARTS + i + 1;
            fprintf(deck, "*ELEMENT,TYPE=U1,ELSET=E%d\n%d,%d,%d\n", id, id, m->first[member][i] + 1,
                    m->last[member][i] + 1);
        }
    fprintf(deck, "*MATERIAL,NAME=CONCRETE\n*ELASTIC\n%.10g,0.\n",
            box->concrete_psi * CW_SQIN_PER_SQFT);
    static const char *const inward_of[MEMBERS] = {"0.,1.,0.", "-1.,0.,0.", "0.,-1.,0.",
                                                   "1.,0.,0."};
    for (int member = 0; member < MEMBERS; member++)
        for (int i = 0; i < PARTS; i++) {
            const double d = depth_at(box, m, member, (i + 0.5) / PARTS),
                         inertia = d * d * d / 12.0;
            // The last number is the shear factor: so large that shear bends nothing.
            fprintf(deck,
                    "*BEAM "
                    "SECTION,ELSET=E%d,MATERIAL=CONCRETE,SECTION=GENERAL\n%.10g,%.10g,0.,%.10g,"
                    "1e6\n%s\n",
                    member * PARTS + i + 1, d, inertia, inertia, inward_of[member]);
        }
    int id = MEMBERS * PARTS;
    for (int i = 0; i < m->count; i++)
        if (m->nodes[i].spring > 0.0) {
            id++;
            fprintf(deck, "*ELEMENT,TYPE=SPRING1,ELSET=S%d\n%d,%d\n*SPRING,ELSET=S%d\n2\n%.6f\n",
                    id, id, i + 1, id, m->nodes[i].spring);
        }
}

static inline void write_holds(FILE *deck, const model *m, const cw_struct_box *box, bool released)
{
    fprintf(deck, "*BOUNDARY\n");
    for (int i = 0; i < m->count; i++)
        fprintf(deck, "%d,3,5\n", i + 1);
    fprintf(deck, "%d,1,1\n", m->first[FLOOR][PARTS / 2] + 1);
    if (box->ground == CW_STRUCT_UNIFORM)
        fprintf(deck, "%d,2,2\n%d,2,2\n", m->first[FLOOR][0] + 1, m->last[FLOOR][PARTS - 1] + 1);
    if (released)
        fprintf(deck, "%d,1,1\n", m->last[TOP][PARTS - 1] + 1);
    for (int member = 0; member < MEMBERS; member++)
        for (int i = 0; i < PARTS; i++)
            for (int d = released ? 2 : 1; hinged_before(box->form, member, i) && d <= 2; d++) {
                const int before = i > 0 ? m->last[member][i - 1] : m->last[member - 1][PARTS - 1];
                fprintf(deck, "*EQUATION\n2\n%d,%d,1.,%d,%d,-1.\n", m->first[member][i] + 1, d,
                        before + 1, d);
            }
}

static inline void write_deck(FILE *deck, const model *m, const cw_struct_box *box, bool released)
{
    fprintf(deck, "*NODE,NSET=ALL\n");
    for (int i = 0; i < m->count; i++)
        fprintf(deck, "%d,%.12g,%.12g,0.\n", i + 1, m->nodes[i].x, m->nodes[i].y);
    write_elements(deck, m, box);
    fprintf(deck, "*ELSET,ELSET=BEAMS,GENERATE\n1,%d\n", MEMBERS * PARTS);
    write_holds(deck, m, box, released);
    fprintf(deck, "*STEP\n*STATIC\n*CLOAD\n");
    static const int dofs[3] = {1, 2, 6};
    for (int i = 0; i < m->count; i++)
        for (int d = 0; d < 3; d++)
            fprintf(deck, "%d,%d,%.12g\n", i + 1, dofs[d], m->nodes[i].load[d]);
    fprintf(deck, "*NODE PRINT,NSET=ALL\nU\n*EL PRINT,ELSET=BEAMS\nS\n*END STEP\n");
}

static inline bool read_answer(FILE *answer, model *m)
{
    char line[512];
    bool moves = false, stresses = false;
    int found = 0;
    while (fgets(line, sizeof line, answer)) {
        int id, point;
        double v[6];
        if (strstr(line, "displacements"))
            moves = true;
        if (strstr(line, "stresses")) {
            moves = false;
            stresses = true;
        }
        if (moves && sscanf(line, "%d %lf %lf %lf %lf %lf %lf", &id, &v[0], &v[1], &v[2], &v[3],
                            &v[4], &v[5]) == 7) {
            m->move[id - 1][0] = v[0];
            m->move[id - 1][1] = v[1];
            m->move[id - 1][2] = v[5];
            found++;
        }
        if (stresses && sscanf(line, "%d %d %lf %lf", &id, &point, &v[0], &v[1]) == 4) {
            // Thrust and moment stand as stresses along and across the element, in global axes.
            const bool slab = (id - 1) / PARTS % 2 == 0;
            m->moment[id - 1][point - 1] = (slab ? v[1] : v[0]) + m->held[id - 1][point - 1];
            found++;
        }
    }
    return found == m->count + 2 * MEMBERS * PARTS;
}

// Writes the deck, runs ccx and reads what it wrote; false when one of them fails.
static inline bool run_ccx(model *m, const cw_struct_box *box, bool released)
{
    const char *folder = getenv("TMPDIR");
    char path[512], command[1200], name[600];
    snprintf(path, sizeof path, "%s/ccx-oracle-XXXXXX", folder ? folder : P_tmpdir);
    if (!mkdtemp(path))
        return false;
    snprintf(name, sizeof name, "%s/box.inp", path);
    FILE *deck = fopen(name, "w");
    if (!deck)
        return false;
    write_deck(deck, m, box, released);
    fclose(deck);
    snprintf(command, sizeof command, "cd '%s' && OMP_NUM_THREADS=1 ccx -i box >box.log 2>&1",
             path);
    bool good = system(command) == 0;
    snprintf(name, sizeof name, "%s/box.dat", path);
    FILE *answer = good ? fopen(name, "r") : NULL;
    good = answer && read_answer(answer, m);
    if (answer)
        fclose(answer);
    snprintf(command, sizeof command, "rm -rf '%s'", path);
    return system(command) == 0 && good;
}

static inline bool has_ccx(void)
{
    return system("command -v ccx >/dev/null 2>&1") == 0;
}

// The model with its loads and the reaction of the ground.
static inline void lay_model(model *m, const cw_struct_box *box, const cw_struct_case *load)
{
    build(m, box);
    for (int member = 0; member < MEMBERS; member++)
        load_member(m, box, load, member);
    bear(m, box);
}

// One of the boxes that are compared: three forms on both kinds of ground.
static inline cw_struct_box ccx_box(int form, int ground)
{
    return (cw_struct_box){.form = form,
                           .span_in = 168.0,
                           .rise_in = 96.0,
                           .wall_in = 10.0,
                           .floor_in = 12.0,
                           .top_in = 11.0,
                           .concrete_psi = 4287e3,
                           .concrete_pcf = 150.0,
                           .ground = ground,
                           .ground_pcf = 120e3};
}

static inline cw_struct_case ccx_case(const cw_struct_box *box, int kind)
{
    const double width = (box->span_in + box->wall_in) / CW_IN_PER_FT;
    const double height = (box->rise_in + (box->floor_in + box->top_in) / 2.0) / CW_IN_PER_FT;
    cw_struct_case load = {.weight = 1.0, .top_psf = 500.0, .left_count = 1, .right_count = 1};
    load.left[0] = load.right[0] = (cw_struct_side){0.0, height, 810.0, 270.0};
    if (kind == 1) // a strip off the middle, and more earth on the left
        load.left[0] = (cw_struct_side){0.0, height, 900.0, 300.0};
    if (kind == 2) // little side pressure: the seat of a lid opens
        load.left[0] = load.right[0] = (cw_struct_side){0.0, height, 300.0, 60.0};
    if (kind >= 1)
        load.patches[load.patch_count++] = (cw_struct_patch){0.25 * width, 0.55 * width, 700.0};
    return load;
}

#endif
