/* For parts with 8 KB of RAM (ATmega2560) and for Cortex-M: everything, in moderate numbers. */
#ifndef SNAG_CHANNELS
#define SNAG_CHANNELS 20
#endif
#ifndef SNAG_FRAME
#define SNAG_FRAME 128
#endif
