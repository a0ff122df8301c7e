package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RankSumTests {
    /** Expected values of the test MannWhitneyUTestTest of Commons Statistics, there from R 3.4.0; the first made anew two ways. */
    @ParameterizedTest
    @CsvSource({
        "19 22 16 29 24, 20 11 17 12, 17, 0.1111111111111111",
        "1 2 3 4, 5 6 7 8, 0, 0.028571428571428571",
        "1 3 5 7, 2 4 6, 6, 1",
        "2 4 6 8 10 12 14 16 18, -3 -1 1 3 5 7 9 11, 57, 0.046400658165364046"
    })
    void theExactTestGivesThePublishedFigures(String first, String second, double u, double chance) {
        RankSum sum = RankSum.of(figures(first), figures(second));
        assertEquals(u, sum.u());
        assertEquals(chance, sum.chance(), 1e-12);
    }

    /** Data of NIST/SEMATECH handbook 7.3.5 (wafers), with ties; the figures made anew two ways. */
    @Test
    void tiesAreCorrectedFor() {
        RankSum sum = RankSum.of(
                figures(".55 .67 .43 .51 .48 .60 .71 .53 .44 .65 .75"),
                figures(".49 .68 .59 .72 .67 .75 .65 .77 .62 .48 .59"));
        assertEquals(40, sum.u());
        assertEquals(0.18845679155, sum.chance(), 1e-10);
    }

    /**
     * Two-sided critical values at 5 % and 1 % for groups of the same size (classical tables, from memory; the exact null distribution
     * was counted anew). A group with that U is significant, one with a U greater by 1 is not.
     */
    @ParameterizedTest
    @CsvSource({
        "4, 0, -1",
        "5, 2, 0",
        "6, 5, 2",
        "7, 8, 4",
        "8, 13, 7",
        "9, 17, 11",
        "10, 23, 16",
        "12, 37, 27",
        "15, 64, 51",
        "20, 127, 105"
    })
    void theCriticalValuesAreThoseOfTheTables(int size, int at5, int at1) {
        assertTrue(chanceOf(size, size, at5) <= 0.05);
        assertFalse(chanceOf(size, size, at5 + 1) <= 0.05);
        assertFalse(chanceOf(size, size, at1 + 1) <= 0.01);
        if (at1 >= 0) {
            assertTrue(chanceOf(size, size, at1) <= 0.01);
        }
    }

    /** The same for groups of different sizes, at 5 %. */
    @ParameterizedTest
    @CsvSource({"3, 5, 0", "4, 6, 2", "5, 8, 6", "6, 10, 11", "8, 12, 22", "10, 20, 55", "11, 11, 30"})
    void theCriticalValuesOfUnequalGroupsAreThoseOfTheTables(int first, int second, int at5) {
        assertTrue(chanceOf(first, second, at5) <= 0.05);
        assertFalse(chanceOf(first, second, at5 + 1) <= 0.05);
    }

    /** Groups without ties of which the first has just that U. */
    private static double chanceOf(int first, int second, int u) {
        double[] one = new double[first];
        int left = u;
        for (int i = first - 1; i >= 0; i--) {
            int above = Math.min(left, second);
            left -= above;
            one[i] = above - 0.5 + i * 1e-3;
        }
        double[] other = IntStream.range(0, second).asDoubleStream().toArray();
        RankSum sum = RankSum.of(one, other);
        assertEquals(u, sum.u(), "the groups are as they were meant");
        return sum.chance();
    }

    @Test
    void nothingButTiesShowsNothing() {
        assertEquals(1, RankSum.of(new double[] {5, 5, 5}, new double[] {5, 5}).chance());
    }

    private static double[] figures(String text) {
        return Arrays.stream(text.split(" ")).mapToDouble(Double::parseDouble).toArray();
    }
}
