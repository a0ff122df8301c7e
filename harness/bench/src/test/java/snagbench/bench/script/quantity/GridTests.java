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
        "deg, 0.1, 90 deg, 900, 900",
        "deg, 1, 90°, 90, 90",
        // 1 rad = 57.2957795130823... deg (SI brochure, 9th edition, table 8: 1 deg = (pi/180) rad)
        "deg, 0.01, 1 rad, 5729, 5730",
        "rad, 0.001, 180 deg, 3141, 3142",
        "deg/s, 1, 10 rpm, 60, 60",
        "rpm, 0.1, 90 deg/s, 150, 150",
        "degC, 0.1, 25 °C, 250, 250",
        "degC, 0.1, 300 K, 268, 269",
        "K, 0.01, 0 degC, 27315, 27315",
        "N, 0.1, 0.25 kN, 2500, 2500",
        "N.m, 0.01, 350 mN.m, 35, 35",
        "N.m, 0.01, 0.35 Nm, 35, 35",
        "W, 0.5, 1 kW, 2000, 2000",
        "Ohm, 1, 4.7 kOhm, 4700, 4700",
        "Ohm, 1, 3 Ω, 3, 3",
        "kPa, 1, 2 bar, 200, 200",
        "mm/s, 1, 6 m/min, 100, 100",
        "mm/s2, 1, 9.81 m/s2, 9810, 9810",
        "A/s, 1, 2500 mA/s, 2, 3",
    })
    void aQuantityIsRoundedDownAndUpToWholeSteps(
            String unit, BigDecimal step, String text, BigInteger below, BigInteger above) {
        Grid grid = new Grid(unit, step);

        assertEquals(below, grid.floor(quantity(text)));
        assertEquals(above, grid.ceiling(quantity(text)));
        assertEquals(below.equals(above), grid.has(quantity(text)));
    }

    @ParameterizedTest
    @CsvSource({
        "mm, A",
        "mm, ''",
        "'', mm",
        "furlong, mm",
        "mm, furlong",
        "ms, MS",
        "V, mm/s",
        "%, rad",
        "deg, %",
        "N.m, N",
        "Hz, rpm",
        "degC, N",
        "mm, mm/s",
        "mm/s, mm/s2"
    })
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
                // The factor as the library has it, taken from a grid fine enough to have it whole.
                BigDecimal per = new Grid(other, BigDecimal.ONE).inSteps(new Quantity(BigDecimal.ONE, unit));
                if (per.precision() < 34) {
                    Quantity converted =
                            new Quantity(new BigDecimal(steps).multiply(step).multiply(per), other);
                    assertEquals(steps, grid.floor(converted), "seed " + seed + ": " + converted + " in " + unit);
                    assertEquals(steps, grid.ceiling(converted), "seed " + seed + ": " + converted + " in " + unit);
                }
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

    @ParameterizedTest
    @CsvSource({"degC, 5 K, 5", "K, -2 degC, -2", "mm, 1 cm, 10", "degC, 3 degC, 3"})
    void differencesConvertBySizeAlone(String unit, String text, BigInteger steps) {
        assertEquals(steps, new Grid(unit, BigDecimal.ONE).differences().floor(quantity(text)));
    }

    @Test
    void unitsThatFitAreListedFromTheSmallestOn() {
        assertEquals(List.of("um", "mm", "cm", "m"), Unit.fitting("cm"));
        assertEquals(List.of("us", "ms", "s", "min"), Unit.fitting("µs"));
        assertEquals(List.of("deg/s", "rpm", "rad/s"), Unit.fitting("rpm"));
        assertEquals(List.of("mm/s", "cm/s", "m/s"), Unit.fitting("m/min"));
        assertEquals(List.of("furlong"), Unit.fitting("furlong"));
    }
}
