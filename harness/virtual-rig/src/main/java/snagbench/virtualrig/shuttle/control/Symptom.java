package snagbench.virtualrig.shuttle.control;

/** What the control code can look for, one to each fail-safe; a build may leave some out. */
public enum Symptom {
    /** FS-01: the reach motor draws too much while the arm moves, which pulls the battery down. */
    CURRENT_OVER_LIMIT(1),
    /** FS-02: the arm stands before it has come to the rack, so something blocks it. */
    STOPPED_EARLY(2),
    /** FS-03: the arm stands at the rack and there is no pot between the fingers. */
    GRIP_NOT_THERE(3),
    /** FS-04: nearly home, and the pot is not in the throat: it was not gripped. */
    GRIP_MISSED(4),
    /** FS-05: the arm stands far out on its way home: something is caught behind its carriage. */
    CAUGHT_BEHIND(5),
    /** FS-06: the arm stands near home on its way home: the pot is jammed in the throat. */
    JAMMED_IN_THROAT(6),
    /** FS-07: the base is off its place, and does not move though it tries. */
    BASE_OFF_PLACE(7),
    /** FS-08: something stands at the shelf. */
    SHELF_BLOCKED(8),
    /** FS-09: the pot is still in the throat after the lift should have taken it. */
    HAND_OVER_FAILED(9),
    /** FS-10: so many tries that the pot is skipped. */
    TRIES_USED_UP(10),
    /** FS-11: the run's time is nearly out. */
    TIME_NEARLY_OUT(11),
    /** FS-12: a sensor contradicts the others. */
    SENSOR_CONTRADICTS(12),
    /** FS-13: the controller restarted in a run. */
    RESTARTED(13);

    private static final int TWO_DIGITS = 10;

    private final int number;

    Symptom(int number) {
        this.number = number;
    }

    /** Number of the fail-safe that answers. */
    int number() {
        return number;
    }

    /** Name of the fail-safe that answers. */
    String failSafe() {
        return "FS-" + (number < TWO_DIGITS ? "0" : "") + number;
    }
}
