package snagbench.bench.script.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Figures with units, and what they are in whole steps. */
class GridTests {
    private static final List<String> UNITS =
            List.of("um", "mm", "cm", "m", "uA", "mA", "A", "uV", "mV", "V", "us", "ms", "s", "min", "%", "Hz", "kHz");

    private static Quantity quantity(String text) {
        return Quantity.parse(text).orElseThrow();
    }

    @ParameterizedTest
    @CsvSource({
        // Worked by hand.
        "mm, 0.1, 180 mm, 1800, 1800",
        "mm, 0.1, 18 cm, 1800, 1800",
        "mm, 0.1, 0.18m, 1800, 1800",
        "mm, 0.1, 180.04 mm, 1800, 1801",
        "mm, 0.1, -180.04 mm, -1801, -1800",
        "mm, 0.1, -0.01 mm, -1, 0",
        "mm, 0.1, 1 um, 0, 1",
        "A, 0.01, 250 mA, 25, 25",
        "A, 0.01, 4.205 A, 420, 421",
        "A, 0.25, 0.6 A, 2, 3",
        "mA, 3, 0.01 A, 3, 4",
        "V, 0.01, 7 V, 700, 700",
        "%, 0.1, 50 %, 500, 500",
        "%, 0.1, 50%, 500, 500",
        "us, 1, 250 ms, 250000, 250000",
        "us, 1, 1.5 s, 1500000, 1500000",
        "us, 1, 2 min, 120000000, 120000000",
        "us, 1, 0.5 us, 0, 1",
        "min, 1, 90 s, 1, 2",
        "us, 1, 7 µs, 7, 7",
        "us, 1, 7 μs, 7, 7",
        "'', 1, 3, 3, 3",
        "'', 1000, 2500, 2, 3",
        "furlong, 1, 3 furlong, 3, 3",
    })
    void aQuantityIsRoundedDownAndUpToWholeSteps(
            String unit, BigDecimal step, String text, BigInteger below, BigInteger above) {
        Grid grid = new Grid(unit, step);

        assertEquals(below, grid.floor(quantity(text)));
        assertEquals(above, grid.ceiling(quantity(text)));
        assertEquals(below.equals(above), grid.has(quantity(text)));
    }

    @ParameterizedTest
    @CsvSource({"mm, A", "mm, ''", "'', mm", "furlong, mm", "mm, furlong", "ms, MS", "V, mm/s"})
    void aUnitOfAnotherKindDoesNotFit(String unit, String other) {
        Grid grid = new Grid(unit, BigDecimal.ONE);

        assertFalse(grid.takes(other));
        assertThrows(IllegalArgumentException.class, () -> grid.floor(new Quantity(BigDecimal.ONE, other)));
    }

    @Test
    void whatAGridShowsItReadsBackInAnyUnitThatFits() {
        for (long seed = 1; seed <= 500; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            String unit = UNITS.get(random.nextInt(UNITS.size()));
            BigDecimal step = BigDecimal.valueOf(random.nextInt(1, 1001)).scaleByPowerOfTen(random.nextInt(-9, 10));
            Grid grid = new Grid(unit, step);
            BigInteger steps = BigInteger.valueOf(random.nextInt());
            String shown = grid.show(steps);

            assertEquals(Optional.of(steps), Quantity.parse(shown).map(grid::floor), "seed " + seed + ": " + shown);
            for (String other : Unit.fitting(unit)) {
                BigDecimal times = Unit.of(unit).orElseThrow().factor();
                BigDecimal per = Unit.of(other).orElseThrow().factor();
                // The other way round, so that the division has an end: so many of the unit in which it is shown.
                Grid fine = new Grid(unit, step.multiply(per));
                Quantity converted =
                        new Quantity(new BigDecimal(steps).multiply(step).multiply(times), other);
                assertEquals(steps, fine.floor(converted), "seed " + seed + ": " + converted + " in " + unit);
            }
        }
    }

    @Test
    void roundingIsNeverOffByAStepOrMore() {
        for (long seed = 1; seed <= 500; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Grid grid = new Grid("mm", BigDecimal.valueOf(random.nextInt(1, 1001), random.nextInt(5)));
            BigDecimal millimetres = BigDecimal.valueOf(random.nextInt(), random.nextInt(8));
            Quantity written = new Quantity(millimetres, "mm");

            BigDecimal below = grid.step().multiply(new BigDecimal(grid.floor(written)));
            BigDecimal above = grid.step().multiply(new BigDecimal(grid.ceiling(written)));

            String which = "seed " + seed + ": " + written;
            assertTrue(below.compareTo(millimetres) <= 0 && millimetres.compareTo(above) <= 0, which);
            assertTrue(millimetres.subtract(below).compareTo(grid.step()) < 0, which);
            assertTrue(above.subtract(millimetres).compareTo(grid.step()) < 0, which);
            assertEquals(grid.has(written), below.compareTo(above) == 0, which);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "", " ", "mm", "1,5 mm", "1e3 mm", "--1 mm", "+-1", "1 .5 mm", "1. mm", "1.2.3 V", "1 2 mm", "5 - 3",
                "∞", "NaN", "٣ mm", "1 -", "1 mm 2"
            })
    void whatIsNoFigureWithAUnitIsNotTaken(String text) {
        assertEquals(Optional.empty(), Quantity.parse(text));
    }

    @ParameterizedTest
    @CsvSource({"+.5 mm, 0.5, mm", "-0.25A, -0.25, A", "' 180  mm ', 180, mm", "007, 7, ''", "5 mm/s, 5, mm/s"})
    void aFigureIsTakenWithItsSignAndUnit(String text, BigDecimal number, String unit) {
        Quantity quantity = quantity(text);

        assertEquals(0, number.compareTo(quantity.number()), text);
        assertEquals(unit, quantity.unit());
    }

    @Test
    void figuresOfManyDigitsAreExactUpTo40AndRefusedBeyond() {
        String forty = "9".repeat(40);

        assertEquals(new BigInteger(forty), new Grid("mm", BigDecimal.ONE).floor(quantity(forty + " mm")));
        assertEquals(Optional.empty(), Quantity.parse("9" + forty + " mm"));
        assertEquals(Optional.empty(), Quantity.parse("1 " + "m".repeat(200)));
    }

    @Test
    void unitsThatFitAreListedFromTheSmallestOn() {
        assertEquals(List.of("um", "mm", "cm", "m"), Unit.fitting("cm"));
        assertEquals(List.of("us", "ms", "s", "min"), Unit.fitting("µs"));
        assertEquals(List.of("furlong"), Unit.fitting("furlong"));
    }
}
