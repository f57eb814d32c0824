/* The simulation between its files: what is worked out once, and what a run writes on. */
#ifndef CW_SETTING_INTERNAL_H
#define CW_SETTING_INTERNAL_H

#include "schedule_internal.h"

/* Steps that take the same set of crews queue together. */
typedef struct crew_set {
    unsigned crews;
    int step_count;
} crew_set;

struct cw_setting {
    cw_setting_job job;
    const cw_sampler *samplers;
    const double *median; /* of each law */
    crew_set sets[CW_CREW_SETS_MAX];
    int set_count;
    const int *set_of;                       /* of each step; -1 when it takes no crew */
    const int *at_rank;                      /* step at each rank */
    const int *needs;                        /* steps and loads that each step waits for */
    int words;                               /* of 64 steps each, in rank order */
    const int *load_steps, *load_steps_from; /* steps that wait for each load */
    const int *gated, *gated_from;           /* loads that each step lets go: by step */
    const int *off_count;                    /* steps that unload each load */
    const double *learned[CW_LEARNING_MAX];  /* factor of the k-th of a group */
    const double *opens, *shuts;             /* working window of each day */
    const double *before;                    /* work before each day */
    double day_sd, job_sd;                   /* of the logarithm */
};

/* A moment at which something ends: step i, arrival of load i - steps, or return of its truck. */
typedef struct event {
    double at;
    int id;
} event;

typedef struct cw_setting_state {
    int *needs;
    uint64_t *queue; /* words for each set of crews: steps that may begin, by rank */
    int *queue_from; /* words before it are empty */
    int *queue_count;
    event *events;
    int event_count;
    double *start, *finish;
    int *cause; /* step or load (steps + load) whose end let this one begin; -1 */
    int free_crews[CW_CREWS_MAX];
    unsigned busy;    /* bits of the crews of which none is free */
    unsigned waiting; /* bits of the sets of crews for which a step waits */
    int last_user[CW_CREWS_MAX];
    int learned[CW_LEARNING_MAX];
    int at_setup;
    int *off_left, *let_go; /* pieces on each load; the step that let its truck go */
    double *arrive, *served;
    bool *gate_open;
    int next_load, free_trucks;
    uint64_t stream;
    const double *share; /* of each law; NULL: at random */
    unsigned char *weather;
    int weather_known;
    double *day_factor; /* 0: not drawn */
    double job_factor;
    int *done_now; /* zero-time steps to finish */
    int done_count, steps_done;
    bool too_long;
    double crane_first, crane_last, crane_used, truck_wait;
    int *critical;
    cw_setting_scratch face;
} cw_setting_state;

/* Work that begins at or after a moment. */
typedef struct stretch {
    double at, minutes;
    unsigned exposed; /* no work on days that a bit of it spoils */
    bool whole;       /* not begun when the shift would end before it */
} stretch;

/* First day on which a step that is so exposed may be worked at after @p at; the count of days when
 * there is none. */
int cw_setting_open_day(const cw_setting *s, cw_setting_state *st, double at, unsigned exposed);
/* End of the work, not before @p day; *begin gets its beginning.  Past the last day it sets
 * too_long. */
double cw_setting_advance(const cw_setting *s, cw_setting_state *st, const stretch *work, int day,
                          double *begin);
/* Work of the shifts, good weather or bad, from the beginning to @p at. */
double cw_setting_worked(const cw_setting *s, double at);
/* Factor of a day. */
double cw_setting_day_factor(const cw_setting *s, cw_setting_state *st, int day);
/* Factor of the whole run. */
double cw_setting_job_factor(const cw_setting *s, uint64_t stream);

#endif
