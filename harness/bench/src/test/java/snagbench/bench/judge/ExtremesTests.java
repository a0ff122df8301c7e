package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The greatest of a window that moves on, against the greatest looked for anew each time. */
class ExtremesTests {
    @ParameterizedTest
    @CsvSource({"1, 3", "5, 3", "40, 100", "100, 2"})
    void itIsTheGreatestOfTheWindow(int window, int values) {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(11);
        long[] all = random.longs(400, 0, values).toArray();
        Extremes extremes = new Extremes();
        for (int tick = 0; tick < all.length; tick++) {
            extremes.add(tick, all[tick]);
            int from = Math.max(0, tick - window + 1);
            extremes.dropBefore(from);
            long greatest = Arrays.stream(all, from, tick + 1).max().orElseThrow();
            assertEquals(greatest, extremes.greatest(), "tick " + tick);
        }
    }

    /** Ever smaller values all stay, and ever greater ones leave one. */
    @Test
    void manyThatAllCountFindRoom() {
        Extremes falling = new Extremes();
        Extremes rising = new Extremes();
        for (int tick = 0; tick < 100; tick++) {
            falling.add(tick, -tick);
            rising.add(tick, tick);
        }
        for (int tick = 0; tick < 100; tick++) {
            falling.dropBefore(tick);
            assertEquals(-tick, falling.greatest());
        }
        assertEquals(99, rising.greatest());
    }
}
