/* A control loop as it was: a pot lifter that goes up until its end, and stops where it draws too much. */
#include "board.h"

enum { RESTING, LIFTING, UP, STOPPED };
enum { TOP = 2400, LIFT_DRIVE = 600, MOST_CURRENT = 300 };

int main(void) {
    int step = RESTING;
    board_start();
    for (;;) {
        board_wait_for_tick();
        int height = board_height();
        int current = board_current();
        if (step == RESTING && board_start_button()) {
            step = LIFTING;
        } else if (step == LIFTING && current > MOST_CURRENT) {
            step = STOPPED;
        } else if (step == LIFTING && height >= TOP) {
            step = UP;
        }
        board_motor(step == LIFTING ? LIFT_DRIVE : 0);
    }
}
