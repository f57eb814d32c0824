/* The setting simulation against closed forms, hand-worked cases and a textbook network. */
#include "../base/calc_test_help.h"

#include "cw/schedule.h"

enum { MOST = 512 };

typedef struct model {
    cw_setting_step steps[MOST];
    int edges[4 * MOST][2], edge_count;
    int follow_from[MOST + 1], follows[4 * MOST], rank[MOST], load_gate[MOST];
    cw_law laws[MOST];
    cw_setting_job job;
    cw_arena arena;
} model;

static const cw_calendar always = {.work_min = {1440, 1440, 1440, 1440, 1440, 1440, 1440}};

static void open_model(model *m, const cw_calendar *calendar, int days)
{
    memset(m, 0, sizeof *m);
    m->arena = cw_arena_on(NULL);
    m->job = (cw_setting_job){
        .steps = m->steps,
        .follow_from = m->follow_from,
        .follows = m->follows,
        .rank = m->rank,
        .laws = m->laws,
        .load_gate = m->load_gate,
        .crane = -1,
        .move_law = -1,
        .load_law = -1,
        .out_law = -1,
        .back_law = -1,
        .clock = cw_clock_make(calendar, cw_date_day(2026, 5, 4), days, &m->arena)};
    for (int i = 0; i < CW_LEARNING_MAX; i++)
        m->job.learning[i] = (cw_learning_group){1.0, 0.0};
}

static int law(model *m, cw_law one)
{
    m->laws[m->job.law_count] = one;
    return m->job.law_count++;
}

static int fixed(model *m, double minutes)
{
    return law(m, (cw_law){.kind = CW_LAW_FIXED, .likely = minutes});
}

static int step(model *m, int of_law, unsigned crews)
{
    const int i = m->job.step_count++;
    m->steps[i] = (cw_setting_step){.law = of_law,
                                    .crews = crews,
                                    .setup = -1,
                                    .learning = -1,
                                    .from_load = -1,
                                    .off_load = -1,
                                    .stream = (uint64_t)i};
    m->rank[i] = i;
    return i;
}

static void after(model *m, int from, int to)
{
    m->edges[m->edge_count][0] = from;
    m->edges[m->edge_count++][1] = to;
}

static const cw_setting *ready(model *m)
{
    int at = 0;
    for (int i = 0; i < m->job.step_count; i++) {
        m->follow_from[i] = at;
        for (int k = 0; k < m->edge_count; k++)
            if (m->edges[k][0] == i)
                m->follows[at++] = m->edges[k][1];
    }
    m->follow_from[m->job.step_count] = at;
    const char *fault = cw_setting_fault(&m->job, &m->arena);
    if (fault)
        fail_msg("%s", fault);
    return cw_setting_prepare(&m->job, &m->arena);
}

/* ---- networks without crews ---- */

/* Three-point example of university operations course notes; A to H; one unit is an hour. */
static void textbook(model *m, int kind)
{
    static const double times[8][3] = {{6, 7, 14},  {8, 10, 12}, {2, 3, 4}, {6, 7, 8},
                                       {5, 5.5, 9}, {5, 7, 9},   {4, 6, 8}, {2.5, 3, 3.5}};
    static const int links[][2] = {{0, 2}, {0, 3}, {1, 4}, {2, 4}, {1, 5},
                                   {2, 5}, {3, 6}, {4, 6}, {5, 7}};
    open_model(m, &always, 60);
    for (int i = 0; i < 8; i++)
        step(m, law(m, (cw_law){kind, 60 * times[i][0], 60 * times[i][1], 60 * times[i][2], 0, 0}),
             0);
    for (size_t k = 0; k < COUNT_OF(links); k++)
        after(m, links[k][0], links[k][1]);
}

/* Figures of an independent simulation of the same network, 2,000,000 runs with numpy. */
static void network_by_chance(void **state)
{
    (void)state;
    static const struct {
        int kind;
        double mean, sd, p10, p50, p80, p90, by25;
    } known[] = {{CW_LAW_BETA, 23.241, 1.541, 21.38, 23.10, 24.49, 25.31, 0.8687},
                 {CW_LAW_TRIANGULAR, 24.641, 2.074, 22.10, 24.44, 26.43, 27.51, 0.5989}};
    static const double critical[8] = {0.720, 0.280, 0.719, -1, 0.944, 0.055, 0.945, 0.055};
    enum { RUNS = 200000 };
    static model m;
    static double finish[RUNS];
    for (size_t k = 0; k < COUNT_OF(known); k++) {
        textbook(&m, known[k].kind);
        const cw_setting *s = ready(&m);
        cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
        for (int r = 0; r < RUNS; r++)
            finish[r] = cw_setting_run(s, 11, r, scratch).finish_min / 60.0;
        const cw_figures got = cw_figures_of(finish, RUNS);
        // Five standard errors of 200,000 runs, and the three decimals of the figures.
        near("mean", got.mean, known[k].mean, 5.0 * known[k].sd / sqrt(RUNS) + 0.001);
        near("sd", got.sd, known[k].sd, 0.02);
        near("P10", got.p10, known[k].p10, 0.03);
        near("P50", got.p50, known[k].p50, 0.03);
        near("P80", got.p80, known[k].p80, 0.03);
        near("P90", got.p90, known[k].p90, 0.03);
        near("P(25)", cw_figures_share(finish, RUNS, 25.0), known[k].by25, 0.006);
        for (int i = 0; i < 8 && k == 0; i++)
            if (critical[i] >= 0.0)
                near("criticality", (double)scratch->critical_count[i] / RUNS, critical[i], 0.006);
        cw_arena_release(&m.arena);
    }
}

/* Mean of the later of two normal paths is 10 + 2/sqrt(pi) (Clark 1961); here of two lognormal ones
 * with the same moments, integrated with scipy: 11.1137. */
static void later_of_two(void **state)
{
    (void)state;
    static model m;
    enum { RUNS = 100000 };
    open_model(&m, &always, 10);
    const int both = law(&m, (cw_law){.kind = CW_LAW_LOGNORMAL, .mean = 10.0, .variation = 0.2});
    step(&m, both, 0);
    step(&m, both, 0);
    const cw_setting *s = ready(&m);
    cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
    double sum = 0.0;
    for (int r = 0; r < RUNS; r++)
        sum += cw_setting_run(s, 5, r, scratch).finish_min;
    near("mean of the later", sum / RUNS, 11.1137, 5.0 * 1.75 / sqrt(RUNS));
    cw_arena_release(&m.arena);
}

/* ---- trucks and crane ---- */

/* Loads of one piece: wait for the truck, then the crane for s minutes. */
static void truck_loop(model *m, int loads, int trucks, int away_law, int unload_law, bool in_order)
{
    m->job.crew_count = 1;
    m->job.crew_size[0] = 1;
    m->job.crane = 0;
    m->job.load_count = loads;
    m->job.truck_count = trucks;
    m->job.out_law = away_law;
    for (int l = 0; l < loads; l++) {
        const int i = step(m, unload_law, 1U);
        m->steps[i].from_load = m->steps[i].off_load = l;
        m->load_gate[l] = -1;
        if (in_order && l > 0)
            after(m, i - 1, i);
    }
}

/* Twelve loads, all trucks loaded at time 0, 120 min away and 44 min of crane, no chance: an
 * independent event program gives 908, 624 and 528 min for 2, 3 and 4 trucks.  Its first loads
 * stand on the site at once; here they drive 120 min first: hand for 1 truck, 12 x 164. */
static void steady_trucks(void **state)
{
    (void)state;
    static const struct {
        int trucks;
        double finish;
    } known[] = {{1, 12 * 164.0}, {2, 908.0 + 120.0}, {3, 624.0 + 120.0}, {4, 528.0 + 120.0}};
    static model m;
    for (size_t k = 0; k < COUNT_OF(known); k++) {
        open_model(&m, &always, 30);
        const int away = fixed(&m, 120.0), unload = fixed(&m, 44.0);
        truck_loop(&m, 12, known[k].trucks, away, unload, true);
        const cw_setting *s = ready(&m);
        const cw_setting_outcome got =
            cw_setting_run(s, 1, 0, cw_setting_scratch_make(s, &m.arena));
        assert_int_equal(got.status, CW_SETTING_DONE);
        near("finish min", got.finish_min, known[k].finish, 1e-6);
        near("crane min", got.crane_used_min, 528.0, 1e-6);
        near("idle min", got.crane_idle_min, known[k].finish - 120.0 - 528.0, 1e-6);
        cw_arena_release(&m.arena);
    }
}

/* Both times nearly exponential (lognormal with variation 1 has the same two moments): between the
 * steady loop and the finite-source formula.  With a single truck both are the sum of the means. */
static void random_trucks(void **state)
{
    (void)state;
    static model m;
    enum { LOADS = 480 };
    for (int trucks = 1; trucks <= 5; trucks++) {
        const cw_truck_cycle form =
            cw_schedule_truck_cycle(&(cw_truck_cycle_input){120.0, 44.0, trucks}, NULL);
        double rate[2];
        for (int k = 0; k < 2; k++) {
            open_model(&m, &always, 400);
            const double variation = k == 0 ? 0.1 : 1.0;
            const int away =
                law(&m, (cw_law){.kind = CW_LAW_LOGNORMAL, .mean = 120.0, .variation = variation});
            const int unload =
                law(&m, (cw_law){.kind = CW_LAW_LOGNORMAL, .mean = 44.0, .variation = variation});
            truck_loop(&m, LOADS, trucks, away, unload, false);
            const cw_setting *s = ready(&m);
            cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
            double finish = 0.0;
            enum { RUNS = 40 };
            for (int r = 0; r < RUNS; r++)
                finish += cw_setting_run(s, 3, r, scratch).finish_min / RUNS;
            rate[k] = LOADS * 60.0 / finish;
            cw_arena_release(&m.arena);
        }
        near("steady loads/h", rate[0], form.steady_per_h, 0.04 * form.steady_per_h);
        near("random loads/h", rate[1], form.random_per_h, 0.04 * form.random_per_h);
        assert_true(rate[1] < form.steady_per_h * 1.01);
    }
}

/* Exponential times to the letter need an exponential law, which no duration has; so the mean of
 * the finite-source formula is held against a chain of states integrated by balance: p_k N-k/Z =
 * p_k+1/s.  Random N, Z, s. */
static void finite_source_balances(void **state)
{
    (void)state;
    uint64_t seed = 20260302u;
    for (int i = 0; i < 300; i++) {
        const cw_truck_cycle_input in = {between(&seed, 5.0, 600.0), between(&seed, 5.0, 200.0),
                                         1 + (int)(next_random(&seed) * 20.0)};
        const cw_truck_cycle got = cw_schedule_truck_cycle(&in, NULL);
        // Trucks are either away or at the crane: N = X (Z + W + s).
        const double per_min = got.random_per_h / 60.0;
        near("trucks (Little's law)", per_min * (in.away_min + got.wait_min + in.unload_min),
             in.trucks, 1e-6 * in.trucks);
        assert_true(got.random_per_h <= got.steady_per_h * (1.0 + 1e-9));
    }
}

/* ---- crews, learning, crane moves, shifts, weather ---- */

static const cw_calendar shift = {.start_min = {420, 420, 420, 420, 420, 0, 0},
                                  .work_min = {480, 480, 480, 480, 480, 0, 0}};

static cw_setting_outcome once(model *m, const cw_setting_scratch **scratch)
{
    const cw_setting *s = ready(m);
    cw_setting_scratch *made = cw_setting_scratch_make(s, &m->arena);
    if (scratch)
        *scratch = made;
    return cw_setting_run(s, 1, 0, made);
}

/* Hand: six picks of 100 min from 7:00 with 480 min a day.  Begun late or broken off overnight: 600
 * min end on Tuesday at 9:00.  Whole picks: four on Monday, two on Tuesday, to 10:20. */
static void whole_picks_wait_for_the_morning(void **state)
{
    (void)state;
    static model m;
    for (int whole = 0; whole < 2; whole++) {
        open_model(&m, &shift, 30);
        m.job.crew_count = m.job.crew_size[0] = 1;
        const int pick = fixed(&m, 100.0);
        for (int i = 0; i < 6; i++) {
            step(&m, pick, 1U);
            m.steps[i].whole = whole;
        }
        near("finish min", once(&m, NULL).finish_min,
             whole ? 1440.0 + 420.0 + 200.0 : 1440.0 + 420.0 + 120.0, 1e-9);
        cw_arena_release(&m.arena);
    }
}

/* Hand: learning 0.9 in the unit form, 12 picks of 30 min first: 281.23 min; a floor at 0.8: 30 +
 * 27 + 25.386
 * + 24.3 + 8 x 24. */
static void learning_in_the_run(void **state)
{
    (void)state;
    static model m;
    for (int floor_on = 0; floor_on < 2; floor_on++) {
        open_model(&m, &always, 5);
        m.job.crew_count = m.job.crew_size[0] = 1;
        m.job.learning[2] = (cw_learning_group){0.9, floor_on ? 0.8 : 0.0};
        const int pick = fixed(&m, 30.0);
        for (int i = 0; i < 12; i++)
            m.steps[step(&m, pick, 1U)].learning = 2;
        near("finish min", once(&m, NULL).finish_min,
             floor_on ? 30.0 + 27.0 + 25.386 + 24.3 + 8 * 24.0 : 281.23, 0.005);
        cw_arena_release(&m.arena);
    }
}

/* Hand: picks 10 min at positions 0 0 1 1 0: two moves of 45 min. */
static void crane_moves(void **state)
{
    (void)state;
    static const int setups[] = {0, 0, 1, 1, 0};
    static model m;
    open_model(&m, &always, 5);
    m.job.crew_count = m.job.crew_size[0] = 1;
    m.job.crane = 0;
    m.job.move_law = fixed(&m, 45.0);
    const int pick = fixed(&m, 10.0);
    for (size_t i = 0; i < COUNT_OF(setups); i++)
        m.steps[step(&m, pick, 1U)].setup = setups[i];
    near("finish min", once(&m, NULL).finish_min, 5 * 10.0 + 2 * 45.0, 1e-9);
    cw_arena_release(&m.arena);
}

/* Hand: two crews.  A 0..10 (crew 1), B after A 20 (crew 2), C 30 (crew 1, rank last), D after B 5
 * (both crews): D waits for C, which ends at 40; the chain to the finish is A (crew) C D. */
static void crews_hold_one_another(void **state)
{
    (void)state;
    static model m;
    open_model(&m, &always, 5);
    m.job.crew_count = 2;
    m.job.crew_size[0] = m.job.crew_size[1] = 1;
    const int a = step(&m, fixed(&m, 10.0), 1U), b = step(&m, fixed(&m, 20.0), 2U);
    const int c = step(&m, fixed(&m, 30.0), 1U), d = step(&m, fixed(&m, 5.0), 3U);
    after(&m, a, b);
    after(&m, b, d);
    const cw_setting_scratch *run;
    near("finish min", once(&m, &run).finish_min, 45.0, 1e-9);
    near("D min", run->start_min[d], 40.0, 1e-9);
    assert_int_equal(run->critical_count[a], 1);
    assert_int_equal(run->critical_count[b], 0);
    assert_int_equal(run->critical_count[c], 1);
    assert_int_equal(run->critical_count[d], 1);
    cw_arena_release(&m.arena);
}

/* Curing goes on at night: pour 8 h on Friday, 72 h, then 1 h of crew: Monday 15:00 is the end of
 * the shift, so Tuesday. */
static void curing_by_the_clock(void **state)
{
    (void)state;
    static model m;
    open_model(&m, &shift, 30);
    m.job.crew_count = m.job.crew_size[0] = 1;
    const int day = fixed(&m, 480.0), cure = fixed(&m, 3 * 1440.0), hour = fixed(&m, 60.0);
    int last = -1;
    for (int i = 0; i < 5; i++) {
        const int now = step(&m, day, 1U);
        if (last >= 0)
            after(&m, last, now);
        last = now;
    }
    const int wait = step(&m, cure, 0), work = step(&m, hour, 1U);
    after(&m, last, wait);
    after(&m, wait, work);
    near("finish min", once(&m, NULL).finish_min, 8 * 1440.0 + 420.0 + 60.0, 1e-9);
    cw_arena_release(&m.arena);
}

/* Days for ten one-day steps with a fifth of the days lost: the waiting time of the weather-days
 * calculator. */
static void weather_in_the_run(void **state)
{
    (void)state;
    static model m;
    enum { RUNS = 20000 };
    for (int k = 0; k < 3; k++) {
        const double r = k == 1 ? 0.3 : 0.0;
        open_model(&m, &(cw_calendar){.work_min = {480, 480, 480, 480, 480, 480, 480}}, 200);
        m.job.crew_count = m.job.crew_size[0] = 1;
        m.job.rain = (cw_bad_days){0.2, r};
        m.job.wind = (cw_bad_days){k == 2 ? 0.5 : 0.0, 0.0}; // stops nothing here
        const int day = fixed(&m, 480.0);
        for (int i = 0; i < 10; i++)
            m.steps[step(&m, day, 1U)].exposed = CW_EXPOSED_RAIN;
        const cw_setting *s = ready(&m);
        cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
        const cw_weather_days want =
            cw_schedule_weather_days(&(cw_weather_days_input){10, 0.8, r, true, 14.0}, NULL);
        double sum = 0.0, squares = 0.0, by = 0.0;
        for (int i = 0; i < RUNS; i++) {
            const double days = 1.0 + floor(cw_setting_run(s, 9, i, scratch).finish_min / 1440.0);
            sum += days;
            squares += days * days;
            by += days <= 14.0;
        }
        near("mean days", sum / RUNS, want.mean_days, 5.0 * want.sd_days / sqrt(RUNS));
        near("sd days", sqrt(squares / RUNS - sum * sum / RUNS / RUNS), want.sd_days, 0.06);
        near("by 14 days", by / RUNS, want.by_share, 0.015);
        cw_arena_release(&m.arena);
    }
}

/* Drying: with independent rain a day is fit when neither it nor the day before had rain: 0.8 x 0.8
 * in the long run. */
static void drying_takes_a_day_more(void **state)
{
    (void)state;
    static model m;
    open_model(&m, &(cw_calendar){.work_min = {480, 480, 480, 480, 480, 480, 480}}, 2000);
    m.job.crew_count = m.job.crew_size[0] = 1;
    m.job.rain = (cw_bad_days){0.2, 0.0};
    const int day = fixed(&m, 480.0);
    for (int i = 0; i < 400; i++)
        m.steps[step(&m, day, 1U)].exposed = CW_EXPOSED_RAIN | CW_EXPOSED_DRYING;
    const cw_setting *s = ready(&m);
    cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
    double sum = 0.0;
    for (int i = 0; i < 100; i++)
        sum += cw_setting_run(s, 9, i, scratch).finish_min / 1440.0 / 100.0;
    near("days", sum, 400.0 / 0.64, 6.0);
    cw_arena_release(&m.arena);
}

/* Common factors: of the day and of the job.  Ten steps of 100 min, one a day; variance of the sum
 * by hand: independent days add, the job's factor multiplies all. */
static void common_factors(void **state)
{
    (void)state;
    static model m;
    enum { RUNS = 20000 };
    for (int k = 0; k < 2; k++) {
        open_model(&m, &(cw_calendar){.work_min = {480, 480, 480, 480, 480, 480, 480}}, 60);
        m.job.crew_count = m.job.crew_size[0] = 1;
        m.job.day_variation = k == 0 ? 0.2 : 0.0;
        m.job.job_variation = k == 1 ? 0.2 : 0.0;
        const int pick = fixed(&m, 30.0), rest = fixed(&m, 1300.0);
        int last = -1;
        for (int i = 0; i < 10; i++) { // one pick at the beginning of each day
            const int now = step(&m, pick, 1U), wait = step(&m, rest, 0);
            if (last >= 0)
                after(&m, last, now);
            after(&m, now, wait);
            last = wait;
        }
        const cw_setting *s = ready(&m);
        cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
        double sum = 0.0, squares = 0.0;
        for (int i = 0; i < RUNS; i++) {
            cw_setting_run(s, 9, i, scratch);
            double time = 0.0;
            for (int j = 0; j < 20; j += 2)
                time += scratch->finish_min[j] - scratch->start_min[j];
            sum += time;
            squares += time * time;
        }
        const double sd = sqrt(squares / RUNS - sum / RUNS * sum / RUNS);
        near("mean min", sum / RUNS, 300.0, 1.5);
        near("sd min", sd, k == 0 ? 6.0 * sqrt(10.0) : 60.0, k == 0 ? 0.5 : 1.5);
        cw_arena_release(&m.arena);
    }
}

/* ---- order and threads ---- */

/* Any graph with crews and trucks: the needs are kept, no crew is in two places, the same run gives
 * the same bytes in any order of runs and with another scratch. */
static void any_model(model *m, uint64_t *seed)
{
    open_model(m, &shift, 400);
    m->job.crew_count = 3;
    for (int c = 0; c < 3; c++)
        m->job.crew_size[c] = 1 + (int)(next_random(seed) * 2.0);
    m->job.crane = 0;
    m->job.rain = (cw_bad_days){0.15, 0.3};
    m->job.day_variation = 0.15;
    m->job.job_variation = 0.1;
    m->job.load_count = 8;
    m->job.truck_count = 1 + (int)(next_random(seed) * 3.0);
    const int pick = law(m, (cw_law){CW_LAW_BETA, 15, 20, 40, 0, 0});
    const int work = law(m, (cw_law){CW_LAW_TRIANGULAR, 20, 30, 90, 0, 0});
    m->job.out_law = m->job.back_law =
        law(m, (cw_law){.kind = CW_LAW_LOGNORMAL, .mean = 50, .variation = 0.3});
    for (int i = 0; i < 60; i++) {
        const int s = step(m,
                           next_random(seed) < 0.5   ? pick
                           : next_random(seed) < 0.8 ? work
                                                     : -1,
                           (unsigned)(next_random(seed) * 8.0));
        m->steps[s].exposed = next_random(seed) < 0.4 ? CW_EXPOSED_RAIN : 0;
        m->steps[s].whole = next_random(seed) < 0.3;
        for (int k = 0; k < 2 && i > 0; k++)
            after(m, (int)(next_random(seed) * i), s);
    }
    for (int l = 0; l < 8;
         l++) { // a step that waits for the load and one that takes it off, in line
        m->steps[5 + 6 * l].from_load = l;
        m->steps[5 + 6 * l + 1].off_load = l;
        after(m, 5 + 6 * l, 5 + 6 * l + 1);
        m->load_gate[l] = l < 4 ? -1 : 3;
        if (l > 0)
            after(m, 5 + 6 * l - 5, 5 + 6 * l);
    }
}

static int busy_at(const model *m, const cw_setting_scratch *run, int crew, double at)
{
    int busy = 0;
    for (int i = 0; i < m->job.step_count; i++)
        busy +=
            (m->steps[i].crews >> crew & 1U) && run->start_min[i] <= at && at < run->finish_min[i];
    return busy;
}

static bool same_outcome(const cw_setting_outcome *a, const cw_setting_outcome *b)
{
    return a->status == b->status && a->finish_min == b->finish_min &&
           a->crane_used_min == b->crane_used_min && a->crane_idle_min == b->crane_idle_min &&
           a->crane_days == b->crane_days && a->truck_wait_min == b->truck_wait_min;
}

static void any_model_keeps_its_rules(void **state)
{
    (void)state;
    uint64_t seed = 20260302u;
    static model m;
    for (int turn = 0; turn < 60; turn++) {
        any_model(&m, &seed);
        const cw_setting *s = ready(&m);
        cw_setting_scratch *one = cw_setting_scratch_make(s, &m.arena),
                           *two = cw_setting_scratch_make(s, &m.arena);
        cw_setting_outcome seen[5];
        for (int r = 0; r < 5; r++) {
            seen[r] = cw_setting_run(s, 42, r, one);
            assert_int_equal(seen[r].status, CW_SETTING_DONE);
            for (int k = 0; k < m.edge_count; k++)
                assert_true(one->start_min[m.edges[k][1]] >= one->finish_min[m.edges[k][0]]);
            for (int i = 0; i < m.job.step_count; i++) {
                assert_true(one->finish_min[i] >= one->start_min[i] &&
                            one->finish_min[i] <= seen[r].finish_min);
                for (int c = 0; c < 3; c++)
                    if (busy_at(&m, one, c, one->start_min[i]) > m.job.crew_size[c])
                        fail_msg("turn %d: crew %d is in two places", turn, c);
            }
        }
        for (int r = 4; r >= 0; r--) {
            const cw_setting_outcome again = cw_setting_run(s, 42, r, two);
            assert_true(same_outcome(&again, &seen[r]));
        }
        assert_memory_equal(one->critical_count, two->critical_count,
                            (size_t)m.job.step_count * sizeof(int));
        cw_arena_release(&m.arena);
    }
}

/* With common numbers a step added at the end moves no draw of the others. */
static void added_step_moves_no_draw(void **state)
{
    (void)state;
    static model m;
    double before = 0.0;
    for (int extra = 0; extra < 2; extra++) {
        textbook(&m, CW_LAW_BETA);
        if (extra)
            step(&m, 0, 0);
        const cw_setting *s = ready(&m);
        cw_setting_scratch *scratch = cw_setting_scratch_make(s, &m.arena);
        cw_setting_run(s, 1, 7, scratch);
        if (extra)
            assert_true(before == scratch->finish_min[6]);
        before = scratch->finish_min[6];
        cw_arena_release(&m.arena);
    }
}

static void stuck_and_too_long_are_said(void **state)
{
    (void)state;
    static model m;
    open_model(&m, &always, 5);
    const int a = step(&m, fixed(&m, 5.0), 0), b = step(&m, fixed(&m, 5.0), 0), c = step(&m, 0, 0);
    after(&m, a, b);
    after(&m, b, c);
    after(&m, c, b);
    cw_setting_outcome got = once(&m, NULL);
    assert_int_equal(got.status, CW_SETTING_STUCK);
    assert_int_equal(got.stuck_step, b);
    cw_arena_release(&m.arena);

    open_model(&m, &shift, 3);
    m.job.crew_count = m.job.crew_size[0] = 1;
    step(&m, fixed(&m, 5000.0), 1U);
    got = once(&m, NULL);
    assert_int_equal(got.status, CW_SETTING_TOO_LONG);
    cw_arena_release(&m.arena);

    // The second load holds what must be set first, and there is one truck.
    open_model(&m, &always, 5);
    m.job.crew_count = m.job.crew_size[0] = 1;
    m.job.load_count = 2;
    m.job.truck_count = 1;
    m.load_gate[0] = m.load_gate[1] = -1;
    const int first = step(&m, fixed(&m, 5.0), 1U), second = step(&m, 0, 1U);
    m.steps[first].from_load = m.steps[first].off_load = 1;
    m.steps[second].from_load = m.steps[second].off_load = 0;
    after(&m, first, second);
    got = once(&m, NULL);
    assert_int_equal(got.status, CW_SETTING_STUCK);
    assert_int_equal(got.stuck_step, first);
    cw_arena_release(&m.arena);
}

static void faults_are_named(void **state)
{
    (void)state;
    static model m;
    static const struct {
        int law, learning, from_load;
        unsigned crews;
        const char *said;
    } rows[] = {{7, -1, -1, 0, "law 7 of 1"},
                {0, 9, -1, 0, "learning group 9"},
                {0, -1, 3, 0, "load past"},
                {0, -1, -1, 4, "crew"}};
    for (size_t k = 0; k < COUNT_OF(rows); k++) {
        open_model(&m, &always, 5);
        const int i = step(&m, fixed(&m, 1.0), rows[k].crews);
        m.steps[i].law = rows[k].law;
        m.steps[i].learning = rows[k].learning;
        m.steps[i].from_load = rows[k].from_load;
        const char *fault = cw_setting_fault(&m.job, &m.arena);
        if (!fault || !strstr(fault, rows[k].said))
            fail_msg("said %s, wanted %s", fault ? fault : "nothing", rows[k].said);
        cw_arena_release(&m.arena);
    }
    open_model(&m, &always, 5);
    step(&m, fixed(&m, 1.0), 0);
    step(&m, 0, 0);
    m.rank[1] = 0;
    assert_non_null(strstr(cw_setting_fault(&m.job, &m.arena), "rank 0"));
    m.rank[1] = 1;
    m.job.day_variation = 2.0;
    assert_non_null(strstr(cw_setting_fault(&m.job, &m.arena), "variation"));
    m.job.day_variation = 0.0;
    m.job.wind.share = 1.0;
    assert_non_null(strstr(cw_setting_fault(&m.job, &m.arena), "bad days"));
    m.job.wind.share = 0.0;
    m.job.load_count = 1;
    assert_non_null(strstr(cw_setting_fault(&m.job, &m.arena), "trucks"));
    m.job.load_count = 0;
    m.laws[0].likely = -1.0;
    assert_non_null(strstr(cw_setting_fault(&m.job, &m.arena), "law 0"));
    m.laws[0].likely = 1.0;
    assert_null(cw_setting_fault(&m.job, &m.arena));
    cw_arena_release(&m.arena);
}

/* Hand: a chain of two triangular laws; medians and P10, P90 of each by the closed form. */
static void swings_by_hand(void **state)
{
    (void)state;
    static model m;
    open_model(&m, &always, 5);
    const cw_law small = {CW_LAW_TRIANGULAR, 10, 12, 14, 0, 0},
                 large = {CW_LAW_TRIANGULAR, 15, 20, 40, 0, 0};
    const int first = step(&m, law(&m, small), 0);
    after(&m, first, step(&m, law(&m, large), 0));
    const cw_setting *s = ready(&m);
    double share[2];
    cw_finish_swing swings[2];
    cw_setting_swings(s, cw_setting_scratch_make(s, &m.arena), share, swings);
    assert_int_equal(swings[0].law, 1);
    near("large low", swings[0].low_min, 12.0 + 18.5355, 1e-3);
    near("large high", swings[0].high_min, 12.0 + 32.9289, 1e-3);
    near("small low", swings[1].low_min, 24.1886 + 10.0 + sqrt(0.1 * 4 * 2), 1e-3);
    near("small high", swings[1].high_min, 24.1886 + 14.0 - sqrt(0.1 * 4 * 2), 1e-3);
    cw_arena_release(&m.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(network_by_chance),
        cmocka_unit_test(later_of_two),
        cmocka_unit_test(steady_trucks),
        cmocka_unit_test(random_trucks),
        cmocka_unit_test(finite_source_balances),
        cmocka_unit_test(whole_picks_wait_for_the_morning),
        cmocka_unit_test(learning_in_the_run),
        cmocka_unit_test(crane_moves),
        cmocka_unit_test(crews_hold_one_another),
        cmocka_unit_test(curing_by_the_clock),
        cmocka_unit_test(weather_in_the_run),
        cmocka_unit_test(drying_takes_a_day_more),
        cmocka_unit_test(common_factors),
        cmocka_unit_test(any_model_keeps_its_rules),
        cmocka_unit_test(added_step_moves_no_draw),
        cmocka_unit_test(stuck_and_too_long_are_said),
        cmocka_unit_test(faults_are_named),
        cmocka_unit_test(swings_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
