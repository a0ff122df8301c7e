/*
 * Limits and features of the probe, all at compile time. Give your own with -DSNAG_...=n on the compiler's command line,
 * or in a header of your own that -DSNAG_CONFIG='"my_config.h"' names. What is not given has the value below.
 */
#ifndef SNAG_CONFIG_H
#define SNAG_CONFIG_H

#ifdef SNAG_CONFIG
#include SNAG_CONFIG
#endif

/* ---- limits ---- */

/* Channels, the two of the fail-safe report included: 2 to 253. */
#ifndef SNAG_CHANNELS
#define SNAG_CHANNELS 16
#endif

/* Longest list of channels that records can tell: 1 to 253. */
#ifndef SNAG_WATCHED
#define SNAG_WATCHED SNAG_CHANNELS
#endif

/* Entries of a program: 1 to 32. */
#ifndef SNAG_SLOTS
#define SNAG_SLOTS 16
#endif

/* Entries that can have a timing message: 0 to SNAG_SLOTS. */
#ifndef SNAG_TIMINGS
#define SNAG_TIMINGS SNAG_SLOTS
#endif

/* Terms of a program: 1 to 255. */
#ifndef SNAG_TERMS
#define SNAG_TERMS 32
#endif

/* Points of all replay entries together: 0 to 65535. 0 leaves the fault kind replay out. */
#ifndef SNAG_POINTS
#define SNAG_POINTS 32
#endif

/* Guards of a session: 0 to 32. 0 leaves them out; a rig that can move something real needs them. */
#ifndef SNAG_GUARDS
#define SNAG_GUARDS 8
#endif

/* Longest window of a term or guard, in ticks: 1 to 253. */
#ifndef SNAG_WINDOW
#define SNAG_WINDOW 32
#endif

/*
 * Channels whose last SNAG_WINDOW real readings are kept, for guards of speed and stall: 0 to SNAG_CHANNELS. Those that
 * close a control loop come first.
 */
#ifndef SNAG_KEPT
#define SNAG_KEPT 4
#endif

/* Ticks of all delays of a program, added up, of 4 bytes each: 0 to 65535. 0 leaves the fault kind delay out. */
#ifndef SNAG_HISTORY
#define SNAG_HISTORY 64
#endif

/* Ticks of the windows of all terms of a program, added up, of 4 bytes each: 0 to 65535. 0 leaves such terms out. */
#ifndef SNAG_WINDOWS
#define SNAG_WINDOWS 64
#endif

/* Events kept until the bench has seen them: 8 to 23. */
#ifndef SNAG_RING
#define SNAG_RING 16
#endif

/* Longest frame, in bytes: 64 to 255. */
#ifndef SNAG_FRAME
#define SNAG_FRAME 64
#endif

/* Bytes that wait for the line: at least a frame. A record in several parts needs room for all of them. */
#ifndef SNAG_OUT
#define SNAG_OUT (3 * SNAG_FRAME)
#endif

/* Most bytes taken from the line in a tick: 16 and more. */
#ifndef SNAG_BYTES_PER_TICK
#define SNAG_BYTES_PER_TICK 32
#endif

/* Highest number of a fail-safe: 1 to 255; each costs 4 bytes of RAM. */
#ifndef SNAG_HIGHEST_FAIL_SAFE
#define SNAG_HIGHEST_FAIL_SAFE 31
#endif

/* Size of the texts in the tables, the closing zero included: 2 to 25, 2 to 13. */
#ifndef SNAG_NAME_SIZE
#define SNAG_NAME_SIZE 25
#endif
#ifndef SNAG_UNIT_SIZE
#define SNAG_UNIT_SIZE 13
#endif

/* ---- features: 1 to have them, 0 to save their flash and RAM ---- */

/* Fault kinds; stuck-at is always there. */
#ifndef SNAG_WITH_FREEZE
#define SNAG_WITH_FREEZE 1
#endif
#ifndef SNAG_WITH_OFFSET
#define SNAG_WITH_OFFSET 1
#endif
#ifndef SNAG_WITH_SCALE
#define SNAG_WITH_SCALE 1
#endif
#ifndef SNAG_WITH_DRIFT
#define SNAG_WITH_DRIFT 1
#endif
#ifndef SNAG_WITH_SPIKE
#define SNAG_WITH_SPIKE 1
#endif
#ifndef SNAG_WITH_NOISE
#define SNAG_WITH_NOISE 1
#endif
#ifndef SNAG_WITH_DROPOUT
#define SNAG_WITH_DROPOUT 1
#endif
#ifndef SNAG_WITH_DELAY
#define SNAG_WITH_DELAY (SNAG_HISTORY > 0)
#endif
#ifndef SNAG_WITH_REPLAY
#define SNAG_WITH_REPLAY (SNAG_POINTS > 0)
#endif

/* Entries that come and go in a rhythm of their own. */
#ifndef SNAG_WITH_INTERMITTENT
#define SNAG_WITH_INTERMITTENT (SNAG_TIMINGS > 0)
#endif

/* Records of more than one tick: 16 bytes of RAM for each watched channel. */
#ifndef SNAG_WITH_PERIODS
#define SNAG_WITH_PERIODS 1
#endif

/*
 * The description: names, units, steps. Without it the bench has to have it from a build with it, in a stored snapshot of the
 * same digest, which the control code gives in snag_rig; a bench that has not is told so. The tables get smaller by it, too.
 */
#ifndef SNAG_WITH_DESCRIPTION
#define SNAG_WITH_DESCRIPTION 1
#endif

/* Table of the checksum: 0 for none (slowest), 16 or 256 entries of 4 bytes. */
#ifndef SNAG_CRC_TABLE
#define SNAG_CRC_TABLE 16
#endif

/* ---- what does not go together ---- */

#if SNAG_CHANNELS < 2 || SNAG_CHANNELS > 253 || SNAG_WATCHED < 1 || SNAG_WATCHED > 253
#error "SNAG_CHANNELS from 2 to 253, SNAG_WATCHED from 1 to 253"
#endif
#if SNAG_SLOTS < 1 || SNAG_SLOTS > 32 || SNAG_TIMINGS < 0 || SNAG_TIMINGS > SNAG_SLOTS
#error "SNAG_SLOTS from 1 to 32, SNAG_TIMINGS from 0 to SNAG_SLOTS"
#endif
#if SNAG_TERMS < 1 || SNAG_TERMS > 255 || SNAG_POINTS < 0 || SNAG_POINTS > 65535
#error "SNAG_TERMS from 1 to 255, SNAG_POINTS from 0 to 65535"
#endif
#if SNAG_GUARDS < 0 || SNAG_GUARDS > 32 || SNAG_WINDOW < 1 || SNAG_WINDOW > 253
#error "SNAG_GUARDS from 0 to 32, SNAG_WINDOW from 1 to 253"
#endif
#if SNAG_KEPT < 0 || SNAG_KEPT > SNAG_CHANNELS || SNAG_HISTORY < 0 || SNAG_HISTORY > 65535
#error "SNAG_KEPT from 0 to SNAG_CHANNELS, SNAG_HISTORY from 0 to 65535"
#endif
#if SNAG_WINDOWS < 0 || SNAG_WINDOWS > 65535
#error "SNAG_WINDOWS from 0 to 65535"
#endif
#if SNAG_RING < 8 || SNAG_RING > 23
#error "SNAG_RING from 8 to 23"
#endif
#if SNAG_FRAME < 64 || SNAG_FRAME > 255 || SNAG_OUT < SNAG_FRAME || SNAG_OUT > 32767
#error "SNAG_FRAME from 64 to 255, SNAG_OUT from SNAG_FRAME to 32767"
#endif
#if SNAG_BYTES_PER_TICK < 16
#error "SNAG_BYTES_PER_TICK of 16 and more"
#endif
#if SNAG_HIGHEST_FAIL_SAFE < 1 || SNAG_HIGHEST_FAIL_SAFE > 255
#error "SNAG_HIGHEST_FAIL_SAFE from 1 to 255"
#endif
#if SNAG_NAME_SIZE < 2 || SNAG_NAME_SIZE > 25 || SNAG_UNIT_SIZE < 2 || SNAG_UNIT_SIZE > 13
#error "SNAG_NAME_SIZE from 2 to 25, SNAG_UNIT_SIZE from 2 to 13"
#endif
#if SNAG_WITH_DELAY && SNAG_HISTORY == 0
#error "SNAG_WITH_DELAY wants SNAG_HISTORY"
#endif
#if SNAG_WITH_REPLAY && SNAG_POINTS == 0
#error "SNAG_WITH_REPLAY wants SNAG_POINTS"
#endif
#if SNAG_WITH_INTERMITTENT && SNAG_TIMINGS == 0
#error "SNAG_WITH_INTERMITTENT wants SNAG_TIMINGS"
#endif
#if SNAG_CRC_TABLE != 0 && SNAG_CRC_TABLE != 16 && SNAG_CRC_TABLE != 256
#error "SNAG_CRC_TABLE of 0, 16 or 256"
#endif

#endif
