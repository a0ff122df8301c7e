package snagbench.probe;

import java.util.Arrays;

/** Which fail-safes reported in this tick, and how often each, and all together, since arming. */
final class Answers {
    /** One more than the highest number of a fail-safe. */
    private static final int NUMBERS = 256;

    private final boolean[] now = new boolean[NUMBERS];
    private final int[] counts = new int[NUMBERS];
    private boolean any;
    private int count;

    void add(int number) {
        now[number] = true;
        any = true;
        counts[number]++;
        count++;
    }

    static boolean isNumber(int number) {
        return number >= 1 && number < NUMBERS;
    }

    boolean hasAnswered(int number) {
        return now[number];
    }

    /** How often this one has. */
    int countOf(int number) {
        return counts[number];
    }

    /** How often all together have. */
    int count() {
        return count;
    }

    void arm() {
        Arrays.fill(counts, 0);
        count = 0;
    }

    void endTick() {
        if (any) {
            any = false;
            Arrays.fill(now, false);
        }
    }
}
