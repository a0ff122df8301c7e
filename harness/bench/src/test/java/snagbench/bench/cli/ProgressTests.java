package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whoever looks on at a terminal sees what runs and how much time is left; elsewhere there are plain lines only. */
class ProgressTests {
    private static final int WIDE = 90;

    @TempDir
    Path empty = Path.of("");

    /** Goes on by a quarter of a second whenever somebody asks. */
    private static final class Hasty extends Clock {
        private long millis = Instant.parse("2026-03-01T22:15:00Z").toEpochMilli();

        @Override
        public Instant instant() {
            millis += 250;
            return Instant.ofEpochMilli(millis);
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }
    }

    private Told run(boolean terminal) throws Exception {
        Bench bench = Bench.in(empty);
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Surroundings surroundings = new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                Path.of("").toAbsolutePath(),
                terminal,
                new Hasty(),
                () -> false,
                () -> 1,
                new java.io.BufferedReader(java.io.Reader.nullReader()),
                new Looks(false, terminal, WIDE),
                new OpenLines());
        int status = CommandLines.run(
                surroundings,
                "run",
                bench.file(bench.plan("reach-current-too-high", 3)).toString(),
                "--out",
                bench.file("results").toString());
        return new Told(status, out.toString(), err.toString());
    }

    @Test
    void onATerminalOneLineTellsWhatRunsAndHowMuchTimeIsLeftAndIsTakenAwayAgain() throws Exception {
        Told told = run(true);

        assertEquals(0, told.status(), told::all);
        List<String> shown = List.of(told.err().split("\r"));
        assertTrue(
                shown.stream()
                        .anyMatch(one -> one.startsWith("1 of 3  reach current too high while moving (1 of 3)  ")),
                () -> "the first in " + shown);
        assertTrue(
                shown.stream().anyMatch(one -> one.startsWith("2 of 3") && one.matches(".*  about \\d+ s left *")),
                () -> "time left in " + shown);
        assertFalse(told.err().contains("\n"), "it is one line");
        assertTrue(
                shown.stream().allMatch(one -> one.isEmpty() || one.length() == WIDE),
                () -> "as wide as it may: " + shown);
        assertTrue(told.err().endsWith("\r"), "and the cursor is at its start again");
        assertTrue(shown.get(shown.size() - 1).isBlank(), () -> "erased at the end, but for " + shown);
    }

    @Test
    void elsewhereTheResultsAreTheSameAndNothingElseIsShown() throws Exception {
        Told told = run(false);

        assertEquals("", told.err());
        assertEquals(
                3, told.out().lines().filter(line -> line.startsWith("pass ")).count());
        assertFalse(told.out().contains("\r"));
    }
}
