package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/** Alternatives over records of four ticks, of which least and greatest tell that something was so at some tick. */
class OneOfTests {
    /** The first record speaks for ticks 0 to 3. */
    private static final Trace RECORDS = new SyntheticTrace(8).period(4).trace();

    /** T true, F false, ? unknown, of a tick each; what it certainly was somewhere, of the record. */
    private record Drawn(String ticks, int some, int firstTick) implements TermSignal {
        @Override
        public int at(int tick) {
            return switch (ticks.charAt(tick)) {
                case 'T' -> Truth.TRUE;
                case 'F' -> Truth.FALSE;
                default -> Truth.UNKNOWN;
            };
        }

        @Override
        public int somewhere(int row, int first, int last) {
            return some;
        }

        @Override
        public String reading(int tick) {
            return ticks.substring(tick, tick + 1);
        }
    }

    private static Signal signal(String ticks, int some) {
        return new Signal(RECORDS, List.of(new Drawn(ticks, some, ticks.length())), null);
    }

    private static OneOf oneOf(String a, int someOfA, String b, int someOfB) {
        return new OneOf(List.of(signal(a, someOfA), signal(b, someOfB)));
    }

    @ParameterizedTest
    @CsvSource({"T, F, T", "F, T, T", "F, F, F", "?, F, ?", "F, ?, ?", "?, T, T", "T, ?, T", "?, ?, ?"})
    void itHoldsWhereOneOfThemHolds(String a, String b, String both) {
        int truth = oneOf(a, 0, b, 0).at(0);

        assertEquals(both, truth == Truth.TRUE ? "T" : truth == Truth.FALSE ? "F" : "?");
    }

    /**
     * Somewhere true where one of them is; somewhere false where all others are false throughout and the last is false
     * somewhere: of two that waver, each may hold while the other does not.
     */
    @ParameterizedTest
    @CsvSource({
        "FFFF, FFFF, 0, 0, false, true",
        "TTTT, FFFF, 0, 0, true, false",
        "FFFF, TTTT, 0, 0, true, false",
        "????, FFFF, TRUE, 0, true, false",
        "????, FFFF, FALSE, 0, false, true",
        "FFFF, ????, 0, FALSE, false, true",
        "????, FFFF, BOTH, 0, true, true",
        "????, ????, FALSE, FALSE, false, false",
        "????, ????, TRUE, FALSE, true, false",
        "????, TTTT, FALSE, 0, true, false"
    })
    void ofARecordItIsCertainWhatOneOfThemWasSomewhere(
            String a, String b, String someOfA, String someOfB, boolean isTrue, boolean isFalse) {
        int some = oneOf(a, bits(someOfA), b, bits(someOfB)).somewhere(0, 0, 3);

        assertEquals(isTrue, (some & Truth.TRUE) != 0, "true somewhere");
        assertEquals(isFalse, (some & Truth.FALSE) != 0, "false somewhere");
    }

    private static int bits(String word) {
        return switch (word) {
            case "TRUE" -> Truth.TRUE;
            case "FALSE" -> Truth.FALSE;
            case "BOTH" -> Truth.TRUE | Truth.FALSE;
            default -> 0;
        };
    }

    @Test
    void itReadsAsAllOfThemAndEqualOnesOnce() {
        assertEquals("T, F", oneOf("T", 0, "F", 0).reading(0));
        assertEquals("T", oneOf("T", 0, "T", 0).reading(0));
    }

    @Test
    void itBeginsWhereAllOfThemHave() {
        assertEquals(4, oneOf("TT", 0, "FFFF", 0).firstTick());
        assertEquals(4, oneOf("TTTT", 0, "FF", 0).firstTick());
    }
}
