package snagbench.probe;

/** Least and greatest values of all channels, which were forced, and the loop times, over the ticks of one record. */
final class Period {
    final int[] leastReal;
    final int[] greatestReal;
    final int[] leastTold;
    final int[] greatestTold;
    final boolean[] forced;

    private int ticks;
    private int shortestLoop;
    private int longestLoop;

    Period(int channels) {
        leastReal = new int[channels];
        greatestReal = new int[channels];
        leastTold = new int[channels];
        greatestTold = new int[channels];
        forced = new boolean[channels];
        restart();
    }

    void restart() {
        ticks = 0;
        shortestLoop = Integer.MAX_VALUE;
        longestLoop = 0;
    }

    void loopTook(int micros) {
        shortestLoop = Math.min(shortestLoop, micros);
        longestLoop = Math.max(longestLoop, micros);
    }

    /** In microseconds; 0 where no loop was timed. */
    int shortestLoop() {
        return Math.min(shortestLoop, longestLoop);
    }

    int longestLoop() {
        return longestLoop;
    }

    int ticks() {
        return ticks;
    }

    /** A channel that was not read in the tick had its old value in it, which counts. */
    void take(Readings readings, int[] channels, int count) {
        boolean first = ticks++ == 0;
        for (int i = 0; i < count; i++) {
            int channel = channels[i];
            int real = readings.real[channel];
            int told = readings.told[channel];
            leastReal[channel] = first ? real : Math.min(leastReal[channel], real);
            greatestReal[channel] = first ? real : Math.max(greatestReal[channel], real);
            leastTold[channel] = first ? told : Math.min(leastTold[channel], told);
            greatestTold[channel] = first ? told : Math.max(greatestTold[channel], told);
            forced[channel] = readings.forced[channel] || (!first && forced[channel]);
        }
    }
}
