package snagbench.virtualrig.shuttle.control;

/** The steps of the shuttle's sequence, in the order of their values. */
enum Step {
    /** Still: after a start, after a safe stop, and while it homes. */
    STOPPED,
    /** Home, open, waiting for the run to begin. */
    READY,
    /** Going out to the pot. */
    REACHING,
    /** Motor off for a moment, since it drew too much. */
    EASING,
    /** Coming home, with the pot or for another try. */
    DRAWING_BACK,
    /** Fingers closing round the pot. */
    GRIPPING,
    /** Home with the pot: the run is done. */
    HOLDING,
    /** All tries used: home without a pot. */
    GIVEN_UP;

    static String[] names() {
        Step[] steps = values();
        String[] names = new String[steps.length];
        for (int i = 0; i < steps.length; i++) {
            names[i] = steps[i].name();
        }
        return names;
    }
}
