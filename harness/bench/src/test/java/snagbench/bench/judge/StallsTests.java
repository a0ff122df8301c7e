package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/** Driven for 10 ms and moved by less than 5 steps. Ticks are 5 ms apart, so that is this tick and the two before it. */
class StallsTests {
    private record Drawn(String ticks) implements TermSignal {
        @Override
        public int at(int tick) {
            return switch (ticks.charAt(tick)) {
                case 'T' -> Truth.TRUE;
                case 'F' -> Truth.FALSE;
                default -> Truth.UNKNOWN;
            };
        }

        @Override
        public String reading(int tick) {
            return "";
        }

        @Override
        public int firstTick() {
            return 1;
        }
    }

    private static Cells stalled(SyntheticTrace lossy, String driven, Cells cells) {
        Trace trace = lossy.trace();
        return Stalls.of(
                new Timeline(trace),
                cells,
                5,
                10_000,
                new Signal(trace, List.of(new Drawn(driven)), null),
                driven.length());
    }

    private static String read(Cells cells, int ticks) {
        StringBuilder text = new StringBuilder();
        for (int tick = 0; tick < ticks; tick++) {
            text.append(cells.least(tick) == cells.greatest(tick) ? String.valueOf(cells.least(tick)) : "?");
        }
        return text.toString();
    }

    @ParameterizedTest
    @CsvSource({"TTTTTT, 001111", "TTTTFT, 001100", "TFTTTT, 000011", "FTTTTT, 000111", "T?TTTT, 00??11"})
    void itMustBeDrivenInEveryTickOfTheWindow(String driven, String wanted) {
        assertEquals(wanted, read(stalled(new SyntheticTrace(6), driven, Spans.points(new long[6])), 6));
    }

    @ParameterizedTest
    @CsvSource({"4, 0011", "5, 0010", "-4, 0011", "-5, 0010"})
    void itMustHaveMovedByLess(long last, String wanted) {
        assertEquals(wanted, read(stalled(new SyntheticTrace(4), "TTTT", Spans.points(0, 0, 0, last)), 4));
    }

    @Test
    void whereReadingsAreSpansItIsCertainOnlyIfNoneOfThemMoves() {
        Cells narrow = Spans.of(Spans.span(0, 1), Spans.span(2, 4), Spans.span(1, 2));
        Cells wide = Spans.of(Spans.span(0, 1), Spans.span(2, 5), Spans.span(1, 2));
        Cells apart = Spans.of(Spans.span(0, 1), Spans.span(6, 7), Spans.span(1, 2));
        Cells justApart = Spans.of(Spans.span(0, 1), Spans.span(5, 7), Spans.span(1, 2));

        assertEquals("001", read(stalled(new SyntheticTrace(3), "TTT", narrow), 3));
        assertEquals("00?", read(stalled(new SyntheticTrace(3), "TTT", wide), 3));
        assertEquals("000", read(stalled(new SyntheticTrace(3), "TTT", apart), 3));
        assertEquals("00?", read(stalled(new SyntheticTrace(3), "TTT", justApart), 3));
    }

    @Test
    void aReadingThatIsNotKnownLeavesItOpen() {
        assertEquals(
                "00?",
                read(
                        stalled(new SyntheticTrace(3), "TTT", Spans.of(Spans.span(0, 0), Spans.OPEN, Spans.span(0, 0))),
                        3));
    }

    @Test
    void itBeginsWhereBothOfItsPartsHave() {
        assertEquals(
                3, stalled(new SyntheticTrace(3), "TTT", Spans.points(0, 0, 0)).firstTick());
    }
}
