package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SplitMix64Tests {
    /** The JDK's SplittableRandom is by one of the generator's authors and, from a given seed, the same sequence. */
    @Test
    void drawsWhatTheAuthorsOwnGeneratorDraws() {
        for (long seed : new long[] {0, 1, -1, 1234567, Long.MIN_VALUE, 0x0123456789ABCDEFL}) {
            SplitMix64 ours = new SplitMix64(seed);
            SplittableRandom theirs = new SplittableRandom(seed);
            for (int i = 0; i < 1000; i++) {
                assertEquals(theirs.nextLong(), ours.nextLong(), "seed " + seed + ", draw " + i);
            }
        }
    }

    /** First draws of seed 1234567 as often quoted for this generator (from memory). */
    @Test
    void drawsThePublishedSequence() {
        SplitMix64 generator = new SplitMix64(1234567);
        assertEquals("6457827717110365317", Long.toUnsignedString(generator.nextLong()));
        assertEquals("3203168211198807973", Long.toUnsignedString(generator.nextLong()));
        assertEquals("9817491932198370423", Long.toUnsignedString(generator.nextLong()));
    }

    @Test
    void keepsStreamsApart() {
        for (int seed = 0; seed < 100; seed++) {
            long first = SplitMix64.stream(seed, 1).nextLong();
            assertNotEquals(first, SplitMix64.stream(seed, 2).nextLong());
            assertNotEquals(first, SplitMix64.stream(seed + 1, 1).nextLong());
            assertEquals(first, SplitMix64.stream(seed, 1).nextLong());
        }
    }

    @Test
    void drawsEvenlyWithinBounds() {
        SplitMix64 generator = new SplitMix64(7);
        double sum = 0;
        int draws = 100_000;
        for (int i = 0; i < draws; i++) {
            double draw = generator.between(-3, 5);
            assertTrue(draw >= -3 && draw < 5);
            sum += draw;
        }
        // The mean of 100,000 draws of width 8 has the standard deviation 0.0073.
        assertEquals(1, sum / draws, 0.03);
    }

    /** Sum of four even draws: mean 0, standard deviation 1, excess kurtosis -6/5/4 (standard), bound sqrt(12). */
    @Test
    void makesNoiseNearToNormal() {
        SplitMix64 generator = new SplitMix64(11);
        int draws = 200_000;
        double sum = 0;
        double squares = 0;
        double fourths = 0;
        for (int i = 0; i < draws; i++) {
            double x = generator.noise();
            assertTrue(Math.abs(x) <= 3.4642);
            sum += x;
            squares += x * x;
            fourths += x * x * x * x;
        }
        double variance = squares / draws;
        assertEquals(0, sum / draws, 0.01);
        assertEquals(1, variance, 0.01);
        assertEquals(-0.3, fourths / draws / variance / variance - 3, 0.05);
    }
}
