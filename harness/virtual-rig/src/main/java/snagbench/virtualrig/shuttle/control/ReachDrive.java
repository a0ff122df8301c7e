package snagbench.virtualrig.shuttle.control;

/**
 * The drive of the reach arm: grows gently, so that starting does not pull the battery down, and falls at once. In
 * 0.1 %, above 0 outwards.
 */
final class ReachDrive {
    /** 80 % in 160 ms. */
    static final int USUAL_GROWTH = 5;

    private static final int MICROS_PER_MILLISECOND = 1000;

    /** Enough to overcome the slide's stiction. */
    private static final int CREEP = 200;

    /** 2 % for each millimetre still to go. */
    private static final int DRIVE_PER_STEP = 2;

    private static final int NEAR_HOME = 10;
    private static final int AT_HOME = 20;

    private final int growthPerMillisecond;
    private int drive;

    ReachDrive() {
        this(USUAL_GROWTH);
    }

    ReachDrive(int growthPerMillisecond) {
        this.growthPerMillisecond = growthPerMillisecond;
    }

    int towards(int wanted, int elapsedMicros) {
        int growth = elapsedMicros * growthPerMillisecond / MICROS_PER_MILLISECOND;
        int from = sameWay(wanted, drive) ? Math.abs(drive) : 0;
        int size = Math.min(Math.abs(wanted), from + growth);
        drive = wanted < 0 ? -size : size;
        return drive;
    }

    void off() {
        drive = 0;
    }

    /** What takes the arm home from a position, in 0.1 mm, slower as it comes near. */
    static int homewards(int position, int fastest) {
        int distance = Math.abs(position);
        if (distance <= NEAR_HOME) {
            return 0;
        }
        int size = Math.min(fastest, Math.max(CREEP, distance * DRIVE_PER_STEP));
        return position > 0 ? -size : size;
    }

    /** Near enough to home to count as there; from here on it needs no more drive than {@link #homewards} gives. */
    static boolean isHome(int position) {
        return Math.abs(position) <= AT_HOME;
    }

    private static boolean sameWay(int one, int other) {
        return (one > 0 && other > 0) || (one < 0 && other < 0);
    }
}
