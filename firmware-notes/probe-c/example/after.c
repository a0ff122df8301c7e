/* The same with the probe in it. */
#include "board.h"
#include "snag_probe.h"

enum { RESTING, LIFTING, UP, STOPPED };
enum { TOP = 2400, LIFT_DRIVE = 600, MOST_CURRENT = 300 };

/* What the rig tells of itself: a channel for each thing that is read, driven or reported. */
enum { LAST, COUNT, STEP, START, HEIGHT, CURRENT, DRIVE, INHIBIT_LF_01, CHANNELS };
enum { LF_01 = 1 };

static const snag_channel channels[CHANNELS] SNAG_ROM = {
    SNAG_FAIL_SAFE_REPORT,
    SNAG_CHANNEL("step", "", SNAG_STATE, SNAG_STEP, 1, 0, 0, STOPPED, 0),
    SNAG_CHANNEL("start", "", SNAG_COMMAND, 0, 1, 0, 0, 1, 0),
    SNAG_CHANNEL("lift.height", "mm", SNAG_SENSOR, SNAG_CLOSES_LOOP, 1, -1, -100, 2600, 0),
    SNAG_CHANNEL("lift.current", "A", SNAG_SENSOR, 0, 1, -2, 0, 2000, 0),
    SNAG_CHANNEL("lift.drive", "%", SNAG_ACTUATOR, 0, 1, -1, -1000, 1000, 0), /* not to be weakened: the pot would drop */
    SNAG_CHANNEL("inhibit LF-01", "", SNAG_INHIBITION, 0, 1, 0, 0, 1, 0),
};
static const snag_value_name names[] SNAG_ROM = {
    {STEP, RESTING, "RESTING"}, {STEP, LIFTING, "LIFTING"}, {STEP, UP, "UP"}, {STEP, STOPPED, "STOPPED"}};
static const snag_fail_safe fail_safes[] SNAG_ROM = {{LF_01, INHIBIT_LF_01, "LF-01"}};
static const snag_rig rig = {channels, CHANNELS, names, 4, fail_safes, 1, "lifter 7", true, 0};

/* The safe stop of this machine: the drive holds the pot where it is; a brake would be better. */
void snag_port_stop(uint8_t reason) {
    (void)reason;
    board_motor_hold();
}

bool snag_port_stopped(void) {
    return board_is_standing();
}

/* Enabled by the key beside the machine, and by nothing else. */
bool snag_port_enabled(void) {
    return board_key();
}

void snag_port_armed(uint32_t seed) {
    (void)seed;
}

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    return board_send(bytes, count);
}

int16_t snag_port_get(void) {
    return board_receive();
}

uint32_t snag_port_micros(void) {
    return board_micros();
}

int main(void) {
    int32_t step = RESTING;
    board_start();
    (void)snag_start(&rig, board_next_boot_id(), board_reset_cause());
    for (;;) {
        board_wait_for_tick();
        snag_begin_tick();
        int32_t height = snag_read(HEIGHT, board_height());
        int32_t current = snag_read(CURRENT, board_current());
        bool start = snag_read(START, board_start_button()) != 0; /* in each tick, needed or not */
        bool too_much = current > MOST_CURRENT && snag_read(INHIBIT_LF_01, 0) == 0;
        if (step == RESTING && start && snag_may_move()) {
            step = LIFTING;
        } else if (step == LIFTING && too_much) {
            step = STOPPED;
            snag_answered(LF_01);
        } else if (step == LIFTING && height >= TOP) {
            step = UP;
        }
        if (!snag_may_move()) {
            step = RESTING;
        }
        int32_t drive = snag_drive(DRIVE, step == LIFTING ? LIFT_DRIVE : 0);
        snag_report(STEP, step);
        if (snag_may_move()) { /* in a stop the motor is the stop's */
            board_motor((int)drive);
        }
        snag_end_tick();
    }
}
