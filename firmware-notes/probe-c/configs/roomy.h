/* As large as the probe of harness/probe in the comparison of both (CrossCheckFiles there), and in the tests here. */
#ifndef SNAG_CHANNELS
#define SNAG_CHANNELS 32
#endif
#ifndef SNAG_SLOTS
#define SNAG_SLOTS 32
#endif
#ifndef SNAG_TERMS
#define SNAG_TERMS 128
#endif
#ifndef SNAG_POINTS
#define SNAG_POINTS 200
#endif
#ifndef SNAG_HISTORY
#define SNAG_HISTORY 200
#endif
#ifndef SNAG_GUARDS
#define SNAG_GUARDS 8
#endif
#ifndef SNAG_WINDOW
#define SNAG_WINDOW 64
#endif
#ifndef SNAG_KEPT
#define SNAG_KEPT SNAG_CHANNELS
#endif
#ifndef SNAG_WINDOWS
#define SNAG_WINDOWS (SNAG_TERMS * SNAG_WINDOW)
#endif
#ifndef SNAG_RING
#define SNAG_RING 23
#endif
#ifndef SNAG_FRAME
#define SNAG_FRAME 255
#endif
#ifndef SNAG_OUT
#define SNAG_OUT 4096
#endif
#ifndef SNAG_BYTES_PER_TICK
#define SNAG_BYTES_PER_TICK 64
#endif
#ifndef SNAG_HIGHEST_FAIL_SAFE
#define SNAG_HIGHEST_FAIL_SAFE 255
#endif
