// A sound job: values, defaults, profiles, places; the tables of the format; bounds and memory.
#include "job_test_lines.h"

/* ---- a sound job ---- */

static void values_are_stored(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job = built(&try, "-run.length\n@road\n@opening\nrun.skew=-20 deg\n"
                                    "barrels.count=2\nbarrels.drops=0 in, 6 in\n"
                                    "acceptance.form=accepted\nacceptance.reference=SP 12");
    assert_int_equal(job->format, 1);
    assert_string_equal(job->head.name, "Test crossing");
    assert_string_equal(job->head.owner, "");
    assert_true(job->box.span_in == 144.0 && job->box.top_in == 11.0);
    assert_int_equal(job->box.form, CW_FORM_LID);
    assert_true(job->run.skew_deg == -20.0 && job->run.slope == 0.01 && !job->run.has_length);
    assert_true(job->road.present && job->road.station_ft == 1250.0);
    assert_int_equal(job->road.inlet_side, CW_RIGHT);
    assert_int_equal(job->road.inlet.strip_count, 1);
    assert_true(job->road.inlet.strips[0].width_ft == 12.0 && job->road.inlet.side_slope == 2.0);
    assert_int_equal(job->pieces.lengths_in.count, 2);
    assert_true(job->pieces.lengths_in.items[1] == 72.0);
    assert_true(job->pieces.top_lengths_in.items[1] == 72.0 && !job->pieces.has_top_lengths);
    assert_true(job->barrels.has_drops && job->barrels.drops_in.items[1] == 6.0);
    assert_int_equal(job->opening_count, 1);
    assert_int_equal(job->openings[0].barrel, 1);
    assert_true(job->openings[0].has_diameter && !job->openings[0].has_width);
    assert_int_equal(job->acceptance.form, CW_ACCEPTED);
    assert_false(job->ground.present);
    assert_ptr_equal(job->entries, &try.entries);
    done(&try);
}

/* 1040 + 320 / 2 = 1200 mm, but not to the last bit in inches. */
static void an_opening_may_touch_what_bounds_it(void **state)
{
    (void)state;
    assert_true(1040.0 / 25.4 + 320.0 / 25.4 / 2.0 > 1200.0 / 25.4);
    attempt try;
    const cw_job *job = built(&try, "box.rise=1200 mm\n@opening\nopenings[0].height=1040 mm\n"
                                    "openings[0].diameter=320 mm\n");
    assert_int_equal(job->opening_count, 1);
    done(&try);
    job = built(&try, "box.span=2400 mm\n@opening\nopenings[0].face=top\n"
                      "openings[0].height=1040 mm\nopenings[0].diameter=320 mm\n");
    assert_int_equal(job->opening_count, 1);
    done(&try);
}

/* The words of a choice stand in the order of its enum. */
static void choices_follow_their_enums(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job =
        built(&try, "box.form=double-u\nbox.leg=2 ft\nrun.cut=road\nrun.excess=shared\n"
                    "run.outlet.treatment=none\nrun.inlet.treatment=collar\n"
                    "acceptance.form=pending\nsurvey.foot=us-survey\njob.units=si\n"
                    "pieces.ends[0].end=inlet\npieces.ends[0].row=both\npieces.ends[0].name=H\n"
                    "pieces.ends[0].length=8 ft\n@opening\nopenings[0].face=top\n"
                    "openings[0].height=0 in\nfill_between.kind=granular\n");
    assert_int_equal(job->box.form, CW_FORM_DOUBLE_U);
    assert_int_equal(job->run.cut, CW_CUT_ROAD);
    assert_int_equal(job->run.excess, CW_EXCESS_SHARED);
    assert_int_equal(job->run.outlet.treatment, CW_END_NONE);
    assert_int_equal(job->run.inlet.treatment, CW_END_COLLAR);
    assert_int_equal(job->acceptance.form, CW_PENDING);
    assert_int_equal(job->survey.foot, CW_FOOT_US_SURVEY);
    assert_int_equal(job->head.units, CW_SI);
    assert_int_equal(job->pieces.ends[0].row, CW_ROW_BOTH);
    assert_int_equal(job->pieces.ends[0].end, 1);
    assert_int_equal(job->openings[0].face, CW_FACE_TOP);
    assert_int_equal(job->fill.kind, 2);
    done(&try);
}

/* Sections with nothing under them, as an editor leaves them, mean all their defaults. */
static void empty_sections_are_defaults(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job = built(&try, "joint=\nopenings=\nbends=[]\nsealant={}\njob.notes=");
    assert_true(job->joint.gap_in == 0.5);
    assert_int_equal(job->opening_count, 0);
    assert_string_equal(job->head.notes, "");
    done(&try);
}

/* Fields that cross-check only when sound: one slip, one message (see the table); several slips,
 * several messages in the order of the file. */
static void all_faults_come_in_one_pass(void **state)
{
    (void)state;
    attempt try;
    build_with(&try, "box.span=3 in\nbox.wall=10\nbox.form=arch\n-run.slope\njoint.gap=9 in", NULL);
    assert_null(try.job);
    assert_int_equal(try.diags.count, 5);
    static const cw_code codes[] = {CW_E_MISSING, CW_E_CHOICE, CW_E_RANGE, CW_E_UNIT, CW_E_RANGE};
    for (int i = 0; i < 5; i++) {
        assert_int_equal(try.diags.items[i].code, codes[i]);
        assert_true(try.diags.items[i].where.line > 0 && try.diags.items[i].where.path);
    }
    done(&try);
}

/* ---- defaults ---- */

static void defaults_are_listed_exactly(void **state)
{
    (void)state;
    static const char *const wanted[] = {
        "job.units = us: US customary, the units of the governing US documents",
        "profile.name = generic: the rows shipped with the program; they are not from the contract",
        "survey.foot = international: exact foot of 0.3048 m, federal standard since the end of "
        "2022 (85 FR 62698)",
        "survey.northing = 0.000 ft: local coordinates with their origin at the crossing",
        "survey.easting = 0.000 ft: local coordinates with their origin at the crossing",
        "survey.azimuth = 0.00 deg: local coordinates with this line running north",
        "run.skew = 0.00 deg: a square crossing",
        "run.cut = square: common practice",
        "run.excess = inlet: common practice",
        "run.end_tolerance = 1/4\": common practice",
        "run.overrun = 2.00 ft: common practice",
        "box.concrete = 150 lb/ft3: AASHTO LRFD Bridge Design Specifications, 3.5.1 (from memory, "
        "not verified)",
        "box.strength = 5,000 psi: common practice",
        "joint.gap = 1/2\": common practice",
        "joint.gap_min = 1/4\": from memory, not verified",
        "joint.gap_max = 3/4\": from memory, not verified",
        "joint.gap_mode = gauge: common practice",
        "joint.tongue = 3 1/2\": common practice",
        "joint.groove = 3 1/2\": common practice",
        "joint.tongue_share = 0.45: common practice",
        "joint.groove_share = 0.5: common practice",
        "barrels.count = 1: a single barrel",
        "pieces.rows = aligned: common practice",
        "pieces.max_setups = 4: common practice",
        "pieces.payload = 46,000 lb: common practice",
        "bedding.thickness = 6\": common practice",
        "bedding.leveling = 2\": common practice",
        "bedding.extra = 1.00 ft: common practice",
        "sealant.rows = 1: common practice",
        "sealant.seat_rows = 1: common practice",
        "sealant.roll = 14.50 ft: from memory, not verified",
        "sealant.waste = 10.0 %: common practice",
        "sealant.splice = 3\": common practice",
        "sealant.compression = 50.0 %: common practice",
        "sealant.room_tolerance = 1/16\": common practice; take the precaster's drawing",
        "sealant.temperature_min = 40 deg F: common practice",
        "lifting.hook = 12.00 ft: common practice",
        "lifting.end_ratio = 0.2: common practice",
        "lifting.factor = 1.05: common practice",
        "lifting.spreader = no: slings to one hook",
        "order.ahead = 4: common practice",
        "order.backfill_lift = 6\": Ohio DOT Construction and Material Specifications, 602.03-B",
        "order.side_difference = 2'-0\": from memory, not verified",
        "order.cover_before_equipment = 2.00 ft: from memory, not verified",
        "trench.working_space = 3.00 ft: common practice",
        "grade_control.instrument = level: common practice",
        "grade_control.camber = 0.00 ft: no settlement is forecast",
        "grade_control.settlement = 0.00 ft: no settlement is forecast",
        "grade_control.stake_offset = 10.00 ft: common practice",
        "grade_control.stake_spacing = 25.00 ft: common practice",
        "grade_control.stake_side = left: common practice",
        "backfill.loose_ratio = 1.25: common practice",
        "backfill.test_volume = 250.0 cy: common practice",
        "backfill.tests_least = 1: common practice",
        "backfill.hand_zone = 2.00 ft: common practice",
        "backfill.hand_lift = 4\": common practice",
        "run.outlet.treatment = headwall: common practice",
        "run.outlet.parapet = 1'-0\": common practice",
        "run.outlet.thickness = 1'-0\": common practice",
        "run.outlet.overhang = 1'-0\": common practice",
        "run.inlet.treatment = headwall: common practice",
        "run.inlet.parapet = 1'-0\": common practice",
        "run.inlet.thickness = 1'-0\": common practice",
        "run.inlet.overhang = 1'-0\": common practice",
        "pieces.cost.piece = $450.00: common practice",
        "pieces.cost.joint = $120.00: common practice",
        "pieces.cost.setup = $2,500.00: common practice",
        "pieces.cost.per_ft = $0.00: common practice",
        "pieces.cost.gap = $5.00: common practice",
        "grade_control.growth.gap_tolerance = 1/8\": common practice",
        "grade_control.growth.length_bias = 0\": no piece was taped yet",
        "grade_control.growth.length_tolerance = 1/4\": common practice; the product standard allows "
        "more (from memory, not verified)",
    };
    const int count = (int)(sizeof wanted / sizeof wanted[0]);
    attempt try;
    const cw_job *job = built(&try, "");
    int wrong = job->assumption_count != count;
    for (int i = 0; i < job->assumption_count; i++) {
        const cw_assumption *one = &job->assumptions[i];
        const char *line =
            cw_arena_print(&try.arena, "%s = %s: %s", one->path, one->value, one->source);
        if (i >= count || strcmp(line, wanted[i]) != 0) {
            print_message("default %s\n", line);
            wrong++;
        }
        assert_true(one->meaning[0] != '\0');
    }
    assert_int_equal(wrong, 0);
    done(&try);
}

static const cw_assumption *assumption(const cw_job *job, const char *path)
{
    for (int i = 0; i < job->assumption_count; i++)
        if (strcmp(job->assumptions[i].path, path) == 0)
            return &job->assumptions[i];
    return NULL;
}

static void defaults_that_do_not_bear_are_silent(void **state)
{
    (void)state;
    static const struct {
        const char *path, *edits; // the default is listed with the edits and not without
    } cases[] = {
        {"barrels.clear_gap", "barrels.count=2"},
        {"fill_between.cure", "barrels.count=3"},
        {"order.spread", "barrels.count=2"},
        {"pieces.stagger", "pieces.rows=staggered"},
        {"pieces.top_lengths", "pieces.rows=staggered"},
        {"box.top_haunch", "box.form=double-u\nbox.leg=2 ft"},
        {"bends[0].within", "bends[0].at=20 ft\nbends[0].turn=5 deg"},
        {"phases[0].within", "phases[0].at=20 ft\nphases[0].name=A"},
        {"openings[0].barrel", "@opening"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        attempt try;
        assert_non_null(assumption(built(&try, cases[i].edits), cases[i].path));
        done(&try);
        assert_null(assumption(built(&try, ""), cases[i].path));
        done(&try);
    }
}

static void a_given_value_is_no_assumption(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job = built(&try, "joint.gap=3/8 in");
    assert_null(assumption(job, "joint.gap"));
    assert_true(job->joint.gap_in == 0.375);
    done(&try);
}

/* ---- profile ---- */

static void an_override_replaces_a_row(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job = built(&try, "profile.overrides[0].row=joint.gap_max\n"
                                    "profile.overrides[0].value=25 mm\n"
                                    "profile.overrides[0].because=plan note 4");
    const cw_row *row = cw_rows_find(&job->rows, "joint.gap_max");
    assert_int_equal(row->status, CW_STATUS_CONTRACT);
    assert_string_equal(cw_row_source(&try.arena, row), "plan note 4 (set by this job)");
    assert_true(row->value == 25.0 / 25.4 && job->joint.gap_max_in == row->value);
    assert_int_equal(assumption(job, "joint.gap_max")->status, CW_STATUS_CONTRACT);
    // The shipped row stays as it was.
    assert_true(cw_rows_find(&cw_data, "joint.gap_max")->value == 0.75);
    assert_string_equal(job->rows_name, "generic");
    done(&try);
}

#define HEADING "id,value,unit,low,high,source,edition,clause,status,note\n"

static void a_named_profile_replaces_rows(void **state)
{
    (void)state;
    attempt try;
    const cw_job_files files = {.profile_text =
                                    HEADING "joint.gap_max,1,in,0,2,State standard,2020,12.3,S,\n"};
    build_with(&try, "profile.name=owner.csv", &files);
    assert_non_null(try.job);
    assert_string_equal(try.job->rows_name, "owner.csv");
    assert_true(try.job->joint.gap_max_in == 1.0 && try.job->joint.gap_min_in == 0.25);
    assert_string_equal(assumption(try.job, "joint.gap_max")->source, "State standard, 2020, 12.3");
    done(&try);
}

/* A profile may open the limits of a row; what its default goes into still has its own. */
static void an_override_may_not_break_a_default(void **state)
{
    (void)state;
    attempt try;
    const cw_job_files files = {.profile_text =
                                    HEADING "joint.gap_max,1,in,,,State standard,,,S,\n"};
    build_with(&try,
               "profile.name=owner.csv\n"
               "profile.overrides[0].row=joint.gap_min\nprofile.overrides[0].value=1/8 in\n"
               "profile.overrides[0].because=plan note 3\n"
               "profile.overrides[1].row=joint.gap_max\nprofile.overrides[1].value=5 in\n"
               "profile.overrides[1].because=plan note 4",
               &files);
    assert_null(try.job);
    assert_int_equal(try.diags.count, 1);
    assert_string_equal(
        cw_diag_line(&try.arena, &try.diags.items[0]),
        "job.yaml:15:1: error 103: row joint.gap_max is 5 in, which does not serve as "
        "gap_max; set the row to a value from 0 in to 3 in");
    done(&try);
}

static void faults_of_a_profile_have_their_line(void **state)
{
    (void)state;
    static const struct {
        const char *row, *fault;
    } cases[] = {
        {"joint.gapmax,1,in,,,a,,,P,", "owner.csv:3:1: error 102: there is no profile row "
                                       "joint.gapmax; did you mean joint.gap_max?"},
        {"joint.gap_max,1,lb,,,a,,,P,", "owner.csv:3:1: error 104: the unit of row joint.gap_max "
                                        "must be in; convert its value and limits"},
        {"joint.gap_max,9,in,,,a,,,P,",
         "owner.csv:3:1: error 103: row joint.gap_max is 9\", outside the sensible limits 0\" to "
         "3\"; correct it or its unit"},
        {"joint.gap_max,1,in,,,,,,P,", "owner.csv:3:22: error 106: row joint.gap_max has no "
                                       "source; name a publication, or write common practice"},
        {"  joint.gap_max,9,in,,,a,,,P,",
         "owner.csv:3:1: error 103: row joint.gap_max is 9\", outside the sensible limits 0\" to "
         "3\"; correct it or its unit"},
        {"wrap.width,12,in,,,a,,,P,",
         "owner.csv:3:1: error 107: row wrap.width is there already at line 2; keep one"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        attempt try;
        char text[400];
        snprintf(text, sizeof text, "%s\"wrap.width\",12,in,,,a,,,P,\n%s\n", HEADING, cases[i].row);
        const cw_job_files files = {.profile_text = text};
        build_with(&try, "profile.name=owner.csv", &files);
        assert_null(try.job);
        assert_int_equal(try.diags.count, 1);
        assert_string_equal(cw_diag_line(&try.arena, &try.diags.items[0]), cases[i].fault);
        done(&try);
    }
}

/* ---- places and names ---- */

static void places_fall_back_to_what_encloses(void **state)
{
    (void)state;
    attempt try;
    const cw_job *job = built(&try, "@opening");
    const cw_pos exact = cw_entries_place(job->entries, "box.span");
    assert_true(exact.line == 7 && exact.column == 10);
    assert_string_equal(exact.file, "job.yaml");
    assert_int_equal(cw_entries_place(job->entries, "box.leg").line, 6);
    assert_int_equal(cw_entries_place(job->entries, "openings[0].clear").line, 15);
    assert_int_equal(cw_entries_place(job->entries, "openings[3].at").line, 15);
    assert_int_equal(cw_entries_place(job->entries, "survey.datum").line, 0);
    assert_string_equal(cw_entries_place(job->entries, "survey.datum").path, "survey.datum");
    done(&try);
}

static void named_files_are_found(void **state)
{
    (void)state;
    attempt try;
    built(&try, "profile.name=generic");
    cw_job_names names = cw_job_file_names(&try.entries);
    assert_true(!names.profile && !names.ground);
    done(&try);
    build_with(&try, "profile.name=owner.csv\nground.file=points.csv", NULL);
    names = cw_job_file_names(&try.entries);
    assert_string_equal(names.profile, "owner.csv");
    assert_string_equal(names.ground, "points.csv");
    assert_int_equal(names.profile_at.line, 15);
    assert_int_equal(names.ground_at.column, 13);
    done(&try);
}

/* ---- the format itself ---- */

enum { SECTIONS_MAX = 128 };

static int all_sections(const cw_section *sections[SECTIONS_MAX])
{
    int count = 0;
    sections[count++] = &cw_job_format;
    for (int i = 0; i < count; i++)
        for (int c = 0; c < sections[i]->child_count; c++) {
            assert_true(count < SECTIONS_MAX);
            sections[count++] = &sections[i]->children[c];
        }
    return count;
}

/* Write, read back, write again: the same value and the same text; and it prints. */
static void check_round_trip(const cw_field *field, const char *text, cw_arena *arena)
{
    union {
        char bytes[sizeof(cw_job)];
        cw_job align;
    } *first = cw_arena_take(arena, 1, sizeof *first),
      *second = cw_arena_take(arena, 1, sizeof *second);
    cw_diags diags = cw_diags_on(arena);
    const cw_pos where = {.path = field->key};
    assert_true(cw_field_read(field, text, first, where, arena, &diags));
    const char *written = cw_field_write(field, first, arena);
    assert_true(cw_field_read(field, written, second, where, arena, &diags));
    if (field->kind != CW_KIND_TEXT)
        assert_memory_equal(first, second, sizeof *first);
    assert_string_equal(cw_field_write(field, second, arena), written);
    assert_true(cw_field_print(field, first, CW_US, arena)[0] != '\0');
    assert_true(cw_field_print(field, first, CW_SI, arena)[0] != '\0');
}

static void check_field(const cw_field *field, cw_arena *arena)
{
    assert_true(field->meaning && strlen(field->meaning) > 8);
    const size_t length = strlen(field->meaning);
    assert_true(field->meaning[length - 1] != '.' && field->meaning[length - 1] != ' ');
    const bool row = field->fallback && field->fallback[0] == '@';
    assert_false(field->required && field->fallback);
    assert_true(!field->fallback || row || field->source); // a default says where it is from
    if (row) {
        const cw_row *found = cw_rows_find(&cw_data, field->fallback + 1);
        assert_non_null(found);
        assert_int_equal(found->dim, field->dim);
        assert_true(found->low >= field->low && found->high <= field->high);
    }
    if (field->fallback && !row)
        check_round_trip(field, field->fallback, arena);
    switch (field->kind) {
    case CW_KIND_CHOICE:
        for (int i = 0; field->choices[i]; i++)
            check_round_trip(field, field->choices[i], arena);
        break;
    case CW_KIND_FLAG:
        check_round_trip(field, "yes", arena);
        break;
    case CW_KIND_TEXT:
        check_round_trip(field, "a b: c", arena);
        break;
    case CW_KIND_NUMBER:
    case CW_KIND_COUNT:
    case CW_KIND_LIST:
        check_round_trip(field, cw_quantity_write(arena, field->low, field->dim), arena);
        check_round_trip(field, cw_quantity_write(arena, field->high, field->dim), arena);
        if (field->kind == CW_KIND_NUMBER)
            check_round_trip(
                field,
                cw_quantity_write(arena, field->low + (field->high - field->low) / 7.0, field->dim),
                arena);
        break;
    }
}

static void every_field_is_whole_and_round_trips(void **state)
{
    (void)state;
    const cw_section *sections[SECTIONS_MAX];
    const int count = all_sections(sections);
    int fields = 0;
    for (int i = 0; i < count; i++) {
        cw_arena arena = cw_arena_on(NULL);
        assert_true(strlen(sections[i]->meaning) > 8);
        assert_true(!sections[i]->is_list ||
                    (sections[i]->max_items > 0 && sections[i]->item_size > 0));
        for (int f = 0; f < sections[i]->field_count; f++, fields++)
            check_field(&sections[i]->fields[f], &arena);
        cw_arena_release(&arena);
    }
    assert_true(fields > 100);
}

static void every_shipped_row_has_its_source(void **state)
{
    (void)state;
    for (int i = 0; i < cw_data.count; i++) {
        const cw_row *row = &cw_data.items[i];
        assert_true(row->source[0] != '\0' && row->value >= row->low && row->value <= row->high);
        assert_true(i == 0 || strcmp(cw_data.items[i - 1].id, row->id) < 0);
        // A row that was not read says so in its source or carries a publication with status M.
        if (row->status == CW_STATUS_PRACTICE)
            assert_string_equal(row->source, "common practice");
    }
}

/* ---- bounds and memory ---- */

static void too_many_entries_are_refused(void **state)
{
    (void)state;
    enum { MANY = CW_JOB_ENTRIES_MAX + 1 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_entry *items = CW_TAKE(&arena, cw_entry, MANY);
    for (int i = 0; i < MANY; i++)
        items[i] = (cw_entry){"x", CW_ENTRY_SCALAR, "1", i + 1, 1};
    const cw_entries entries = {"job.yaml", items, MANY};
    assert_null(cw_job_build(&entries, NULL, &arena, &diags));
    assert_int_equal(diags.count, 1);
    assert_string_equal(
        cw_diag_line(&arena, &diags.items[0]),
        "job.yaml:20001:1: error 110: the file has 20001 entries and the program takes "
        "20000; put ground points into a survey file or split the job");
    cw_arena_release(&arena);
}

static void every_list_has_its_bound(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        int most;
    } lists[] = {
        {"profile.overrides", CW_OVERRIDES_MAX},
        {"road.outlet_template.strips", CW_STRIPS_MAX},
        {"road.inlet_template.strips", CW_STRIPS_MAX},
        {"bends", CW_BENDS_MAX},
        {"pieces.ends", CW_ENDS_MAX},
        {"pieces.limits", CW_LIMITS_MAX},
        {"openings", CW_OPENINGS_MAX},
        {"phases", CW_PHASES_MAX},
        {"ground.profile", CW_GROUND_MAX},
    };
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        attempt try;
        char line[80];
        snprintf(line, sizeof line, "%s[%d]={}", lists[i].path, lists[i].most);
        build_with(&try, line, NULL);
        assert_null(try.job);
        const char *wanted =
            cw_arena_print(&try.arena, "%s has more than %d items; ", lists[i].path, lists[i].most);
        bool told = false;
        for (int f = 0; f < try.diags.count; f++)
            told = told || (try.diags.items[f].code == CW_E_TOO_MANY &&
                            strncmp(try.diags.items[f].message, wanted, strlen(wanted)) == 0);
        assert_true(told);
        done(&try);
    }
}

/* Paths that no reader makes must not break the walk. */
static void odd_paths_are_refused(void **state)
{
    (void)state;
    static const char *const paths[] = {"[0]",
                                        "[",
                                        "]",
                                        "..",
                                        "box..span",
                                        "box.",
                                        ".box",
                                        "box[",
                                        "bends[x]",
                                        "bends[1",
                                        "bends[-1].at",
                                        "bends[99999999999].at",
                                        "a.b.c.d.e.f.g.h.i.j.k.l.m.n.o",
                                        "pieces.lengths[x]",
                                        "bends[0]x",
                                        "box.span."};
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        attempt try;
        char line[80];
        snprintf(line, sizeof line, "+%s=1 ft", paths[i]);
        build_with(&try, line, NULL);
        assert_null(try.job);
        assert_true(try.diags.count > 0);
        done(&try);
    }
}

typedef struct meter {
    int blocks_left;
    jmp_buf out;
} meter;

static void *metered_obtain(void *self, size_t bytes)
{
    meter *m = self;
    return m->blocks_left-- > 0 ? malloc(bytes) : NULL;
}

static void metered_give_back(void *self, void *block)
{
    (void)self;
    free(block);
}

static void metered_exhausted(void *self, size_t bytes)
{
    (void)bytes;
    longjmp(((meter *)self)->out, 1);
}

/* Build with memory that runs out at each block in turn: nothing is read after it, nothing leaks
 * (the sanitizer build watches both). */
static void memory_may_run_out_at_each_block(void **state)
{
    (void)state;
    attempt made;
    built(&made, "@opening");
    volatile int failed = 0;
    volatile bool built_once = false;
    for (volatile int blocks = 0; !built_once && blocks < 1000; blocks++) {
        meter m = {.blocks_left = blocks};
        const cw_memory memory = {metered_obtain, metered_give_back, metered_exhausted, &m};
        cw_arena arena = cw_arena_on(&memory);
        cw_diags diags = cw_diags_on(&arena);
        if (setjmp(m.out) == 0)
            built_once = cw_job_build(&made.entries, NULL, &arena, &diags) != NULL;
        else
            failed++;
        cw_arena_release(&arena);
    }
    assert_true(built_once);
    assert_true(failed >= 1);
    done(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_stored),
        cmocka_unit_test(choices_follow_their_enums),
        cmocka_unit_test(an_opening_may_touch_what_bounds_it),
        cmocka_unit_test(empty_sections_are_defaults),
        cmocka_unit_test(all_faults_come_in_one_pass),
        cmocka_unit_test(defaults_are_listed_exactly),
        cmocka_unit_test(defaults_that_do_not_bear_are_silent),
        cmocka_unit_test(a_given_value_is_no_assumption),
        cmocka_unit_test(an_override_replaces_a_row),
        cmocka_unit_test(a_named_profile_replaces_rows),
        cmocka_unit_test(an_override_may_not_break_a_default),
        cmocka_unit_test(faults_of_a_profile_have_their_line),
        cmocka_unit_test(places_fall_back_to_what_encloses),
        cmocka_unit_test(named_files_are_found),
        cmocka_unit_test(every_field_is_whole_and_round_trips),
        cmocka_unit_test(every_shipped_row_has_its_source),
        cmocka_unit_test(too_many_entries_are_refused),
        cmocka_unit_test(every_list_has_its_bound),
        cmocka_unit_test(odd_paths_are_refused),
        cmocka_unit_test(memory_may_run_out_at_each_block),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
