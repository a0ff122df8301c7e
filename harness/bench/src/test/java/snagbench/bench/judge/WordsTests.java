package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Stretch;

/** How times, windows and numbers read. */
class WordsTests {
    @ParameterizedTest
    @CsvSource({"250000, 250 ms", "0, 0 ms", "62400, 62.4 ms", "1, 0.001 ms", "100000000, 100000 ms"})
    void aDurationIsExact(long micros, String words) {
        assertEquals(words, Words.duration(micros));
    }

    /** Of halves the even one, as IEEE 754 rounds. */
    @ParameterizedTest
    @CsvSource({
        "999, 0.999 ms",
        "-999, -0.999 ms",
        "1000, 1.0 ms",
        "-1000, -1.0 ms",
        "1049, 1.0 ms",
        "1050, 1.0 ms",
        "1051, 1.1 ms",
        "1150, 1.2 ms",
        "0, 0 ms"
    })
    void aSpanHasOneDecimalUnlessItIsShort(long micros, String words) {
        assertEquals(words, Words.span(micros));
    }

    @ParameterizedTest
    @CsvSource({"0, +0 ms", "250100, +250.1 ms", "-250100, -250.1 ms", "-1, -0.001 ms"})
    void aMomentHasItsSign(long micros, String words) {
        assertEquals(words, Words.at(micros));
    }

    @Test
    void aWindowTellsItsFirstEdgeWhereThatIsNotItsAnchor() {
        assertEquals("within 250 ms of the injection", Words.window(within(250), INJECTION));
        assertEquals("50 ms to 250 ms after the injection", Words.window(within(50, 250), INJECTION));
    }

    @Test
    void aStretchTellsItsWindowItsTwoEndsOrThatItIsOpen() {
        assertEquals(
                ", 50 ms to 100 ms after the injection",
                Words.stretch(new Stretch(INJECTION, Optional.of(within(50, 100)), Optional.empty())));
        assertEquals(
                ", from " + BEGIN.show() + " up to the injection",
                Words.stretch(new Stretch(BEGIN, Optional.empty(), Optional.of(INJECTION))));
        assertEquals(
                ", from the injection on", Words.stretch(new Stretch(INJECTION, Optional.empty(), Optional.empty())));
    }

    @Test
    void ticksAreOneOrARange() {
        assertEquals("tick 7", Words.ticks(7, 7));
        assertEquals("ticks 7 to 8", Words.ticks(7, 8));
    }

    @ParameterizedTest
    @CsvSource({
        "1, 1st",
        "2, 2nd",
        "3, 3rd",
        "4, 4th",
        "10, 10th",
        "11, 11th",
        "12, 12th",
        "13, 13th",
        "14, 14th",
        "21, 21st",
        "22, 22nd",
        "23, 23rd",
        "111, 111th",
        "113, 113th",
        "121, 121st"
    })
    void ordinalsEndAsTheyAreSpoken(int number, String words) {
        assertEquals(words, Words.ordinal(number));
    }

    @Test
    void aListHasAnAndBeforeItsLast() {
        assertEquals("", Words.listed(List.of()));
        assertEquals("a", Words.listed(List.of("a")));
        assertEquals("a and b", Words.listed(List.of("a", "b")));
        assertEquals("a, b and c", Words.listed(List.of("a", "b", "c")));
    }
}
