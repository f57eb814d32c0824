/** @file
 * Parts of the plan's JSON that lie in files of their own. */
#ifndef CW_PLAN_JSON_INTERNAL_H
#define CW_PLAN_JSON_INTERNAL_H

#include "cw/json.h"
#include "cw/report.h"

void cw_plan_json_water(cw_json *json, const cw_plan *plan);
void cw_plan_json_end_works(cw_json *json, const cw_plan *plan, const cw_plan_end_works *works);
void cw_plan_json_conflicts(cw_json *json, const cw_plan *plan);
void cw_plan_json_site_water(cw_json *json, const cw_plan *plan);
void cw_plan_json_trench(cw_json *json, const cw_plan *plan);
void cw_plan_json_grade(cw_json *json, const cw_plan *plan);
void cw_plan_json_closing(cw_json *json, const cw_plan *plan);
void cw_plan_json_strength(cw_json *json, const cw_plan *plan);
void cw_plan_json_schedule(cw_json *json, const cw_plan *plan, cw_arena *arena);
void cw_plan_json_cranes(cw_json *json, const cw_plan *plan);

#endif
