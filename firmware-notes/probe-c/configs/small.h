/*
 * For parts with 2 KB of RAM and 32 KB of flash (ATmega328P): stuck-at, freeze, spike and dropout, guards of every kind; no
 * timings, no windows in terms, no records of more than one tick.
 */
#ifndef SNAG_CHANNELS
#define SNAG_CHANNELS 8
#endif
#ifndef SNAG_WATCHED
#define SNAG_WATCHED SNAG_CHANNELS
#endif
#ifndef SNAG_SLOTS
#define SNAG_SLOTS 4
#endif
#ifndef SNAG_TIMINGS
#define SNAG_TIMINGS 0
#endif
#ifndef SNAG_TERMS
#define SNAG_TERMS 8
#endif
#ifndef SNAG_POINTS
#define SNAG_POINTS 0
#endif
#ifndef SNAG_HISTORY
#define SNAG_HISTORY 0
#endif
#ifndef SNAG_GUARDS
#define SNAG_GUARDS 2
#endif
#ifndef SNAG_WINDOW
#define SNAG_WINDOW 8
#endif
#ifndef SNAG_KEPT
#define SNAG_KEPT 1
#endif
#ifndef SNAG_WINDOWS
#define SNAG_WINDOWS 0
#endif
#ifndef SNAG_RING
#define SNAG_RING 8
#endif
#ifndef SNAG_FRAME
#define SNAG_FRAME 64
#endif
#ifndef SNAG_OUT
#define SNAG_OUT 64
#endif
#ifndef SNAG_HIGHEST_FAIL_SAFE
#define SNAG_HIGHEST_FAIL_SAFE 8
#endif
#ifndef SNAG_WITH_OFFSET
#define SNAG_WITH_OFFSET 0
#endif
#ifndef SNAG_WITH_SCALE
#define SNAG_WITH_SCALE 0
#endif
#ifndef SNAG_WITH_DRIFT
#define SNAG_WITH_DRIFT 0
#endif
#ifndef SNAG_WITH_NOISE
#define SNAG_WITH_NOISE 0
#endif
#ifndef SNAG_WITH_PERIODS
#define SNAG_WITH_PERIODS 0
#endif
