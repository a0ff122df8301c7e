package snagbench.probe;

import java.util.Arrays;
import java.util.List;

/**
 * What every channel read, as it came in and as the control code was told, in this tick and the one before, and over
 * the period of a record. All in the channels' steps.
 */
final class Readings {
    /** Longest window over which a change can be asked for, in ticks. */
    static final int LONGEST_WINDOW = 64;

    final int[] real;
    final int[] told;
    final int[] previousReal;
    final int[] previousTold;
    final int[] leastReal;
    final int[] greatestReal;
    final int[] leastTold;
    final int[] greatestTold;
    final boolean[] readNow;
    final boolean[] absentNow;
    final boolean[] forcedInPeriod;

    private final boolean[] seenInPeriod;
    private final int[][] realHistory;
    private final int[][] toldHistory;
    private int ticksKept;
    private int newest;

    Readings(List<Channel> channels) {
        int count = channels.size();
        real = new int[count];
        told = new int[count];
        previousReal = new int[count];
        previousTold = new int[count];
        leastReal = new int[count];
        greatestReal = new int[count];
        leastTold = new int[count];
        greatestTold = new int[count];
        readNow = new boolean[count];
        absentNow = new boolean[count];
        forcedInPeriod = new boolean[count];
        seenInPeriod = new boolean[count];
        realHistory = new int[LONGEST_WINDOW + 1][count];
        toldHistory = new int[LONGEST_WINDOW + 1][count];
        for (Channel channel : channels) {
            int resting = Math.max(channel.lowest(), Math.min(channel.highest(), 0));
            real[channel.index()] = resting;
            told[channel.index()] = resting;
        }
    }

    /** Takes the value of a channel in this tick; the first one counts. */
    void set(int channel, int realValue, int toldValue, boolean forced) {
        real[channel] = realValue;
        told[channel] = toldValue;
        readNow[channel] = true;
        forcedInPeriod[channel] |= forced;
        if (seenInPeriod[channel]) {
            leastReal[channel] = Math.min(leastReal[channel], realValue);
            greatestReal[channel] = Math.max(greatestReal[channel], realValue);
            leastTold[channel] = Math.min(leastTold[channel], toldValue);
            greatestTold[channel] = Math.max(greatestTold[channel], toldValue);
        } else {
            seenInPeriod[channel] = true;
            leastReal[channel] = realValue;
            greatestReal[channel] = realValue;
            leastTold[channel] = toldValue;
            greatestTold[channel] = toldValue;
        }
    }

    /** A channel that was never read in the period has kept its value throughout. */
    void closePeriod(int channel) {
        if (!seenInPeriod[channel]) {
            leastReal[channel] = real[channel];
            greatestReal[channel] = real[channel];
            leastTold[channel] = told[channel];
            greatestTold[channel] = told[channel];
        }
    }

    void beginPeriod() {
        Arrays.fill(seenInPeriod, false);
        Arrays.fill(forcedInPeriod, false);
    }

    /** Tells whether a change over that many ticks can be told at the end of this tick. */
    boolean reachesBack(int windowTicks) {
        return ticksKept >= windowTicks;
    }

    /** Change of the real or told value over the window that ends with this tick. */
    long change(int channel, boolean ofTold, int windowTicks) {
        int then = Math.floorMod(newest - (windowTicks - 1), realHistory.length);
        return ofTold
                ? (long) told[channel] - toldHistory[then][channel]
                : (long) real[channel] - realHistory[then][channel];
    }

    /** Forgets the past, so that nothing from before arming counts in a window. */
    void forgetHistory() {
        ticksKept = 0;
    }

    void endTick() {
        newest = (newest + 1) % realHistory.length;
        System.arraycopy(real, 0, realHistory[newest], 0, real.length);
        System.arraycopy(told, 0, toldHistory[newest], 0, told.length);
        ticksKept = Math.min(ticksKept + 1, LONGEST_WINDOW);
        System.arraycopy(real, 0, previousReal, 0, real.length);
        System.arraycopy(told, 0, previousTold, 0, told.length);
    }

    void beginTick() {
        Arrays.fill(readNow, false);
        Arrays.fill(absentNow, false);
    }
}
