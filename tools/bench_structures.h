/* Rows of the bench for the strength of boxes. */
#ifndef CW_BENCH_STRUCTURES_H
#define CW_BENCH_STRUCTURES_H

void bench_structures(void);

#endif
