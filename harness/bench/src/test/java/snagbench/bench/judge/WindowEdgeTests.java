package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Source;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/** Windows of time to the microsecond, and what lies in them. Ticks are 5 ms apart. */
class WindowEdgeTests {
    private static final int TICKS = 12;

    private static SyntheticTrace trace() {
        return new SyntheticTrace(TICKS);
    }

    @ParameterizedTest
    @CsvSource({
        // length, whether the edge belongs to it, first tick of the window that ends with tick 8 at 40 ms
        "10000, true, 6",
        "9999, true, 7",
        "10001, true, 6",
        "10000, false, 7",
        "10001, false, 6",
        "5000, false, 8",
        "0, true, 8",
        "40000, true, 0",
        "40000, false, 1",
        "90000, true, 0"
    })
    void aWindowBeginsWithTheFirstTickThatIsNoLongerAgo(long micros, boolean edgeBelongs, int first) {
        TimeWindow window = new TimeWindow(new Timeline(trace().trace()), micros, edgeBelongs);
        for (int tick = 0; tick <= 8; tick++) {
            window.endWith(tick);
        }

        assertEquals(first, window.begins());
        assertEquals(first, window.mayBegin());
    }

    @Test
    void whereTicksAreNotTimedTheWindowLiesBetweenTwo() {
        // Ticks 5 and 6 were at some time from 20.001 ms to 34.999 ms; the window reaches back to 30 ms.
        TimeWindow window = new TimeWindow(new Timeline(trace().loseTicks(5, 6).trace()), 10_000, true);
        for (int tick = 0; tick <= 8; tick++) {
            window.endWith(tick);
        }

        assertEquals(5, window.mayBegin());
        assertEquals(7, window.begins());
    }

    @ParameterizedTest
    @CsvSource({
        // held from tick 2 to this one, for so long, the ticks in which it is told
        "5, 15000, 5 6 7 8",
        "5, 15001, ''",
        "6, 15001, 6 7 8 9 10",
        "4, 10000, 4 5 6",
        "2, 1, ''",
        "2, 0, 2"
    })
    void aConditionIsFollowedInTheTickInWhichItHasLastedJustSoLong(int last, long forMicros, String told) {
        Cells cells = debounced(trace().real(CURRENT, tick -> tick >= 2 && tick <= last ? 1 : 0), forMicros);

        StringBuilder found = new StringBuilder();
        for (int tick = 0; tick < TICKS; tick++) {
            assertEquals(cells.least(tick), cells.greatest(tick), "nothing is missing");
            found.append(cells.least(tick) == 1 ? tick + " " : "");
        }
        assertEquals(told, found.toString().strip());
    }

    /** It held from tick 3 on at the latest, at 15 ms, and from tick 1 on at the earliest, a microsecond behind tick 0. */
    @ParameterizedTest
    @CsvSource({"14999, 3, 6", "15000, 4, 6", "15001, 4, 7"})
    void whatMayHaveLastedIsNotKnownUntilItHas(long forMicros, int mayBe, int is) {
        Cells cells = debounced(trace().real(CURRENT, tick -> tick >= 1 ? 1 : 0).loseTicks(1, 2), forMicros);

        for (int tick = 0; tick < TICKS; tick++) {
            assertEquals(tick >= mayBe ? 1 : 0, cells.greatest(tick), "may be in tick " + tick);
            assertEquals(tick >= is ? 1 : 0, cells.least(tick), "is in tick " + tick);
        }
    }

    private static Cells debounced(SyntheticTrace made, long forMicros) {
        Trace trace = made.trace();
        Course course = new Course(new Scripts().script(), trace, 0);
        Signal signal = course.signals().of(when(term(CURRENT, Relation.AT_LEAST, 1)));
        return Debounce.of(course.timeline(), signal, forMicros, TICKS);
    }

    @Test
    void aHullHasItsFirstTickAndItsLastAndNoOther() {
        int[] values = {9, 2, 5, 3, 4, 1, 7, 6, 8, 0, 0, 0};
        Cells cells = new Course(
                        new Scripts().script(),
                        trace().real(CURRENT, tick -> values[Math.max(0, tick)]).trace(),
                        0)
                .signals()
                .cells(CURRENT, Source.REAL);
        for (int length = 1; length <= 4; length++) {
            Hull hull = new Hull(cells);
            for (int to = 0; to < TICKS; to++) {
                int from = Math.max(0, to - length + 1);
                hull.span(from, to);
                int[] inside = Arrays.copyOfRange(values, from, to + 1);
                String words = "ticks " + from + " to " + to;
                assertEquals(Arrays.stream(inside).min().orElseThrow(), hull.least(), words);
                assertEquals(Arrays.stream(inside).max().orElseThrow(), hull.greatest(), words);
                assertFalse(hull.isOpen(), words);
            }
        }
    }

    @Test
    void aHullIsOpenAsLongAsATickWithoutARecordLiesInIt() {
        DerivedCells cells = new DerivedCells(6);
        for (int tick = 0; tick < 6; tick++) {
            if (tick != 2) {
                cells.set(tick, 3, 4);
            }
        }
        Hull hull = new Hull(cells);
        for (int to = 0; to < 6; to++) {
            hull.span(Math.max(0, to - 1), to);
            assertEquals(to == 2 || to == 3, hull.isOpen(), "up to tick " + to);
        }
        assertTrue(cells.isOpen(2));
    }
}
