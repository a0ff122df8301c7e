package snagbench.virtualrig.shuttle.control;

/** Where things are, in 0.1 mm. */
final class Places {
    /** The base at the rack. */
    static final int RACK = 0;
    /** The base at the shelf. */
    static final int SHELF = 3600;
    /** As near the shelf as the base may go before the lift is up. */
    static final int BEFORE_SHELF = 2400;
    /** Where the base parks. */
    static final int PARK = 1800;
    /** How far the base drives off before it takes up a place anew. */
    static final int AWAY = 1000;
    /** The front sensor's distance to an empty shelf, from the rack's place. */
    static final int SHELF_FROM_RACK = 5200;
    /** So near is at a place. */
    static final int BASE_NEAR = 60;
    /** From here on nearer the rack the lift may come down. */
    static final int CLEAR_OF_SHELF = 2400;

    /** The lift with its cup under the pot. */
    static final int LIFT_DOWN = 0;
    /** The lift with the pot out of the throat. */
    static final int LIFT_CLEAR = 600;

    static final int LIFT_NEAR = 25;
    /** So far below its height it will be there before the base is at the shelf. */
    static final int LIFT_SOON = 600;

    /** The arm so far out that a pot that is let go falls clear of the throat. */
    static final int DROP = 1500;

    private static final int LOWEST_PEG = 1000;
    private static final int PEG_STEP = 250;
    private static final int ABOVE_PEG = 200;
    private static final int BELOW_PEG = 100;

    private Places() {}

    /** The lift with the pot above a peg, from 0 on. */
    static int above(int peg) {
        return LOWEST_PEG + peg * PEG_STEP + ABOVE_PEG;
    }

    /** The lift with the pot on a peg, from 0 on. */
    static int on(int peg) {
        return LOWEST_PEG + peg * PEG_STEP - BELOW_PEG;
    }
}
