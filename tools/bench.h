/** @file
 * Parts of the bench that stand in files of their own. */
#ifndef CW_BENCH_H
#define CW_BENCH_H

/** The setting simulation of a 400 ft job, beside the same in a scripting library.  @p self is the
 * path of the bench. */
void bench_setting(const char *self);

#endif
