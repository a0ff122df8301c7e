/*
 * The probe: control code passes its readings, drives and states through it, and the bench can override what it is told.
 *
 *     snag_start(&rig, &boot);
 *     for (;;) {
 *         wait_for_the_next_tick();
 *         snag_begin_tick();
 *         position = snag_read(POSITION, encoder());
 *         ...
 *         snag_report(STEP, step);
 *         motor(snag_drive(COMMAND, wanted));
 *         snag_end_tick();
 *     }
 *
 * With no bench on the line, what is read is what is told. There is one probe in a program. It has all its memory from
 * the start, takes a bounded number of bytes and does a bounded amount of work in a tick, and never waits. All calls
 * belong to the control loop: none may come from an interrupt.
 *
 * CAUTION: what comes over the line makes a machine move on readings that are not true. Lease, safe stop and guards bound
 * that; none of them is an emergency stop. A switch in the motors' supply that no software can overrule comes first.
 *
 * What travels and what each override does is in firmware-notes/wire-format.md. Limits and features: snag_config.h.
 */
#ifndef SNAG_PROBE_H
#define SNAG_PROBE_H

#include "snag_config.h"

#include <stdbool.h>
#include <stdint.h>

/* Tables live in flash. Where that is not part of the ordinary address space, SNAG_ROM puts them there. */
#ifdef __AVR__
#include <avr/pgmspace.h>
#define SNAG_ROM PROGMEM
#else
#define SNAG_ROM
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Kind of a channel. */
enum {
    SNAG_SENSOR = 0,
    SNAG_ACTUATOR = 1,
    SNAG_COMMAND = 2,
    SNAG_STATE = 3,
    SNAG_COUNTER = 4,
    SNAG_DISTURBANCE = 5,
    SNAG_INHIBITION = 6,
    SNAG_CONSTANT = 7
};

/* Flags of a channel, added. */
enum {
    SNAG_CLOSES_LOOP = 1,     /* the control code closes a control loop over it */
    SNAG_MAY_BE_WEAKENED = 2, /* an actuator that an override may weaken; not one that holds a load up */
    SNAG_STEP = 4             /* the state that is the step of the control code's sequence */
};

/* Why the controller started. */
enum {
    SNAG_UNKNOWN_RESET = 0,
    SNAG_POWER_ON = 1,
    SNAG_EXTERNAL_RESET = 2,
    SNAG_BROWN_OUT = 3,
    SNAG_WATCHDOG = 4,
    SNAG_SOFTWARE_RESET = 5
};

/* Why the safe stop was asked for. */
enum { SNAG_STOP_LET_GO = 0, SNAG_STOP_LEASE = 1, SNAG_STOP_GUARD = 2 };

/* One channel. A value v stands for v * multiplier * 10^exponent of the unit: its step. */
typedef struct {
#if SNAG_WITH_DESCRIPTION
    char name[SNAG_NAME_SIZE];
    char unit[SNAG_UNIT_SIZE]; /* symbol; empty for a plain number */
#endif
    uint8_t kind;
    uint8_t flags;
#if SNAG_WITH_DESCRIPTION
    uint16_t multiplier; /* 1 to 1000 */
    int8_t exponent;     /* -9 to 9 */
#endif
    int32_t lowest;      /* least and greatest that the control code may be told, in steps */
    int32_t highest;
    int32_t absent; /* what it is told where there is no reading, in steps, within these */
} snag_channel;

/* One row of the table, the same with and without the description in the probe. */
#if SNAG_WITH_DESCRIPTION
#define SNAG_CHANNEL(name, unit, kind, flags, multiplier, exponent, lowest, highest, absent)                           \
    { name, unit, kind, flags, multiplier, exponent, lowest, highest, absent }
#else
#define SNAG_CHANNEL(name, unit, kind, flags, multiplier, exponent, lowest, highest, absent)                           \
    { kind, flags, lowest, highest, absent }
#endif

/* Channels 0 and 1 of every table. */
#define SNAG_FAIL_SAFE_REPORT                                                                                          \
    SNAG_CHANNEL("failsafe.last", "", SNAG_STATE, 0, 1, 0, 0, 255, 0),                                                 \
        SNAG_CHANNEL("failsafe.count", "", SNAG_COUNTER, 0, 1, 0, 0, INT32_MAX, 0)

/* The name of one value of a channel. The table is sorted by channel. */
typedef struct {
    uint8_t channel;
    int32_t value;
    char name[SNAG_NAME_SIZE];
} snag_value_name;

/* A fail-safe, its number as snag_answered() tells it. */
typedef struct {
    uint8_t number;     /* 1 to SNAG_HIGHEST_FAIL_SAFE */
    int16_t inhibition; /* channel by which it is left out; -1 for none */
    char name[SNAG_NAME_SIZE];
} snag_fail_safe;

/* What the rig tells of itself. The tables are in flash (SNAG_ROM), this structure and `build` are not. */
typedef struct {
    const snag_channel *channels;
    uint8_t channel_count;
    const snag_value_name *value_names;
    uint16_t value_name_count;
    const snag_fail_safe *fail_safes;
    uint8_t fail_safe_count;
    const char *build;    /* names the control code's build, up to 12 bytes in UTF-8 */
    bool real;            /* true where something real can move */
    uint16_t tick_micros; /* loop time where it is fixed, else 0 */
#if !SNAG_WITH_DESCRIPTION
    uint32_t digest; /* of the same tables in a build with the description, as its greeting tells it ("identify") */
#endif
} snag_rig;

/*
 * Starts the probe, with everything off. Call it once, before the first tick.
 *
 * boot  is not 0 and another one after each start of the controller, also after a loss of supply: keep it in memory that
 *       survives that (EEPROM, flash, backup registers), not in RAM alone. The bench knows a restart by it, and a request
 *       from before a restart cannot move the machine.
 * cause is why the controller started.
 *
 * Returns false where the tables do not fit SNAG_CHANNELS, SNAG_HIGHEST_FAIL_SAFE or SNAG_FRAME or boot is 0. The probe
 * then stays off: it passes everything on as it is and says nothing. `rig` must stay where it is.
 */
bool snag_start(const snag_rig *rig, uint32_t boot, uint8_t cause);

/* Starts a tick: reads the clock once, takes what came on the line, lets the program's decisions take effect. */
void snag_begin_tick(void);

/*
 * Passes a reading of a sensor, command, disturbance, inhibition or constant, in the channel's steps, and returns it as
 * the control code is to take it. The first call for a channel in a tick decides; later ones in the same tick give the
 * same. Read every command in every tick: the bench tells one for a single tick, and one that was not read is gone.
 */
int32_t snag_read(uint8_t channel, int32_t real);

/* Passes what the control code wants of an actuator; returns what it may be given: between 0 and what was wanted. */
int32_t snag_drive(uint8_t channel, int32_t wanted);

/* Reports a state or a counter of the control code. A change of a state becomes a numbered event. */
void snag_report(uint8_t channel, int32_t value);

/* The fail-safe report: this fail-safe answers in this tick. */
void snag_answered(uint8_t fail_safe);

/* Ends a tick: guards, lease, the program's conditions, the safe stop's progress, and what the bench is told. */
void snag_end_tick(void);

/* The probe's word on motion: false while the safe stop runs or is latched. After a restart it knows nothing: true. */
bool snag_may_move(void);

/* The clock as it was read at the start of this tick. */
uint32_t snag_tick_micros(void);

/* Frames that came damaged, since the start. */
uint32_t snag_bad_frames(void);

/* ---- the port: the program has these functions ---- */

/* Takes bytes for the line, as many as there is room for at once; returns how many. Must not wait. */
uint16_t snag_port_put(const uint8_t *bytes, uint16_t count);

/* The next byte from the line, 0 to 255; -1 where there is none now. Must not wait. */
int16_t snag_port_get(void);

/* The controller's clock in microseconds, modulo 2^32. It must not stand still or jump. */
uint32_t snag_port_micros(void);

/*
 * The safe stop begins: the control code is to bring the machine to a stand, as it knows best (a lift may have to hold
 * its load), and to hold it there. Called at the end of a tick.
 */
void snag_port_stop(uint8_t reason);

/* Whether the machine stands safe. Asked at the end of each tick while a stop runs, from the tick after its begin on. */
bool snag_port_stopped(void);

/* The physical enable (a key, a held switch); false to have arming and commands refused. */
bool snag_port_enabled(void);

/* A program starts with this tick. A rig with a simulated plant resets it here; others do nothing. */
void snag_port_armed(uint32_t seed);

#ifdef __cplusplus
}
#endif

#endif
