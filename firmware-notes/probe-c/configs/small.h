/* For parts with 2 KB of RAM (ATmega328P): no replay, no delay, one entry with a timing. */
#define SNAG_CHANNELS 8
#define SNAG_WATCHED 6
#define SNAG_SLOTS 4
#define SNAG_TIMINGS 1
#define SNAG_TERMS 8
#define SNAG_POINTS 0
#define SNAG_HISTORY 0
#define SNAG_GUARDS 2
#define SNAG_WINDOW 8
#define SNAG_KEPT 1
#define SNAG_WINDOWS 8
#define SNAG_RING 8
#define SNAG_FRAME 64
#define SNAG_OUT 80
