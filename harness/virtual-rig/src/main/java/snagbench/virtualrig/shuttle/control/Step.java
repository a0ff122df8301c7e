package snagbench.virtualrig.shuttle.control;

/** The steps of the shuttle's sequence, in the order of their values, which start at 0. */
enum Step {
    /** Still: after a start, after a safe stop, and while it homes. */
    STOPPED(0),
    /** Home, open, waiting for the run to begin. */
    READY(1),
    /** Going out to the pot. */
    REACHING(2),
    /** Reach motor off for a moment, since it drew too much. */
    EASING(3),
    /** Coming home, with the pot or for another try. */
    DRAWING_BACK(4),
    /** Fingers closing round the pot. */
    GRIPPING(5),
    /** Pot on the lift, standing still until the shelf is clear. */
    HOLDING(6),
    /** Skips this pot: lets go of it where it can fall, goes back to the rack's place. */
    GIVEN_UP(7),
    /** Lift takes the pot out of throat and fingers. */
    HANDING_OVER(8),
    /** Base to the shelf, lift above the peg. */
    TO_SHELF(9),
    /** Pot onto the peg. */
    SETTING(10),
    /** Base back to the rack, lift down. */
    TO_RACK(11),
    /** Arm a little out, to get loose what is caught behind it. */
    NUDGING(12),
    /** Arm out while the base moves, to get a pot loose in the throat. */
    FREEING(13),
    /** Arm home before the base may drive. */
    FOLDING_IN(14),
    /** Base off, to take up its place anew. */
    MOVING_AWAY(15),
    /** Base back until it stands against the rack's foot. */
    COMING_BACK(16),
    /** Arm home, lift down, base to where it parks. */
    PARKING(17),
    /** The run is done. */
    PARKED(18);

    private final int value;

    Step(int value) {
        this.value = value;
    }

    /** What the step's channel has for it. */
    int value() {
        return value;
    }

    /** A run is on, and its time runs. */
    boolean isOfRun() {
        return this != STOPPED && this != READY && this != PARKED;
    }

    static String[] names() {
        Step[] steps = values();
        String[] names = new String[steps.length];
        for (int i = 0; i < steps.length; i++) {
            names[steps[i].value] = steps[i].name();
        }
        return names;
    }
}
