/* As large as the probe of harness/probe in the comparison of both (CrossCheckFiles there), and in the tests here. */
#define SNAG_CHANNELS 32
#define SNAG_SLOTS 32
#define SNAG_TERMS 128
#define SNAG_POINTS 200
#define SNAG_HISTORY 200
#define SNAG_GUARDS 8
#define SNAG_WINDOW 64
#define SNAG_KEPT SNAG_CHANNELS
#define SNAG_WINDOWS (SNAG_TERMS * SNAG_WINDOW)
#define SNAG_RING 23
#define SNAG_FRAME 255
#define SNAG_OUT 4096
#define SNAG_BYTES_PER_TICK 64
#define SNAG_HIGHEST_FAIL_SAFE 255
