package snagbench.virtualrig.shuttle.control;

/** The steps of the shuttle's sequence, in the order of their values, which start at 0. */
enum Step {
    /** Still: after a start, after a safe stop, and while it homes. */
    STOPPED(0),
    /** Home, open, waiting for the run to begin. */
    READY(1),
    /** Going out to the pot. */
    REACHING(2),
    /** Motor off for a moment, since it drew too much. */
    EASING(3),
    /** Coming home, with the pot or for another try. */
    DRAWING_BACK(4),
    /** Fingers closing round the pot. */
    GRIPPING(5),
    /** Home with the pot: the run is done. */
    HOLDING(6),
    /** All tries used: home without a pot. */
    GIVEN_UP(7);

    private final int value;

    Step(int value) {
        this.value = value;
    }

    /** What the step's channel has for it. */
    int value() {
        return value;
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
