package snagbench.probe;

import java.util.Arrays;
import java.util.List;

/**
 * What every channel read, as it came in and as the control code was told, now and over the last ticks. A channel that
 * was not read in a tick keeps its last value. All in the channels' steps.
 */
final class Readings {
    /** Longest window over which a change can be asked for, in ticks. */
    static final int LONGEST_WINDOW = 64;

    final int[] real;
    final int[] told;

    /** Read in this tick. */
    final boolean[] readNow;

    /** The value, of whatever tick it is, was under an override. */
    final boolean[] forced;

    /** The value, of whatever tick it is, was the one for "no reading". */
    final boolean[] absent;

    private final int[][] realHistory;
    private final int[][] toldHistory;
    private int newest;
    private int ticksSinceArming;
    private int ticksKept;

    Readings(List<Channel> channels) {
        int count = channels.size();
        real = new int[count];
        told = new int[count];
        readNow = new boolean[count];
        forced = new boolean[count];
        absent = new boolean[count];
        realHistory = new int[LONGEST_WINDOW + 1][count];
        toldHistory = new int[LONGEST_WINDOW + 1][count];
        for (Channel channel : channels) {
            int resting = Math.max(channel.lowest(), Math.min(channel.highest(), 0));
            real[channel.index()] = resting;
            told[channel.index()] = resting;
        }
    }

    /** Takes a value that nothing forces. */
    void set(int channel, int value) {
        real[channel] = value;
        told[channel] = value;
        readNow[channel] = true;
        forced[channel] = false;
        absent[channel] = false;
    }

    void setForced(int channel, int realValue, int toldValue, boolean isAbsent) {
        real[channel] = realValue;
        told[channel] = toldValue;
        readNow[channel] = true;
        forced[channel] = true;
        absent[channel] = isAbsent;
    }

    /** Tells whether a term can look that many ticks back: nothing from before arming counts. */
    boolean reachesBack(int ticks) {
        return ticksSinceArming >= ticks;
    }

    /** Tells whether a guard can look that many ticks back. */
    boolean remembers(int ticks) {
        return ticksKept >= ticks;
    }

    /** Value in the tick before this one. */
    int before(int channel, boolean ofTold) {
        return (ofTold ? toldHistory : realHistory)[newest][channel];
    }

    /** Change of the real or told value over the window that ends with this tick. */
    long change(int channel, boolean ofTold, int windowTicks) {
        int then = newest - (windowTicks - 1);
        int place = then < 0 ? then + realHistory.length : then;
        return ofTold
                ? (long) told[channel] - toldHistory[place][channel]
                : (long) real[channel] - realHistory[place][channel];
    }

    /**
     * Begins a program.
     *
     * @param plantIsReset the readings are about to jump, which is no motion; on a real machine they are not, and its
     *     guards look on over the moment of arming
     */
    void arm(boolean plantIsReset) {
        ticksSinceArming = 0;
        if (plantIsReset) {
            ticksKept = 0;
        }
    }

    void beginTick() {
        Arrays.fill(readNow, false);
    }

    void endTick() {
        newest = newest == LONGEST_WINDOW ? 0 : newest + 1;
        System.arraycopy(real, 0, realHistory[newest], 0, real.length);
        System.arraycopy(told, 0, toldHistory[newest], 0, told.length);
        ticksSinceArming = Math.min(ticksSinceArming + 1, LONGEST_WINDOW);
        ticksKept = Math.min(ticksKept + 1, LONGEST_WINDOW);
    }
}
