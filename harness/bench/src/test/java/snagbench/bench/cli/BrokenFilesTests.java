package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Five ways to spoil a good file: each is told with its place, what was found and what would do, and nothing moves. */
class BrokenFilesTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-midway.fault.yaml";
    private static final String PLAN = Bench.PLANS + "first-light.plan.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    /** What is changed in which file, the text that the place must point at, and words that must be told. */
    enum Spoilt {
        TAB(
                SCRIPT,
                "      reach.position: freeze ",
                "\treach.position: freeze ",
                "\treach.position: freeze",
                "tab",
                "spaces"),
        UNKNOWN_CHANNEL(
                SCRIPT,
                "reach.current: stuck-at",
                "reach.curent: stuck-at",
                "reach.curent",
                "\"reach.curent\"",
                "\"reach.current\""),
        WRONG_UNIT(SCRIPT, "at least 180 mm", "at least 180 A", "180 A", "\"A\"", "reach.position", "mm"),
        UNKNOWN_STEP(
                SCRIPT,
                "becomes: { step: DRAWING_BACK }",
                "becomes: { step: DRAWING_BAK }",
                "DRAWING_BAK ",
                "\"DRAWING_BAK\"",
                "\"DRAWING_BACK\""),
        MISSING_FILE(
                PLAN,
                "- reach-blocked-midway.fault.yaml",
                "- reach-blocked-midwy.fault.yaml",
                "reach-blocked-midwy",
                "\"reach-blocked-midwy.fault.yaml\"",
                "\"reach-blocked-midway.fault.yaml\"");

        final String file;
        final String was;
        final String becomes;
        final String pointedAt;

        // Reason: made by List.of, so it cannot change, though its type does not say so.
        @SuppressWarnings("ImmutableEnumChecker")
        final List<String> words;

        Spoilt(String file, String was, String becomes, String pointedAt, String... words) {
            this.file = file;
            this.was = was;
            this.becomes = becomes;
            this.pointedAt = pointedAt;
            this.words = List.of(words);
        }

        void in(Bench bench) throws IOException {
            bench.spoil(file, was, becomes);
        }

        /** Line and column of what is wrong, counted in the text. */
        String position(Bench bench) throws IOException {
            String before = bench.read(file).split(Pattern.quote(pointedAt), 2)[0];
            long line = before.chars().filter(one -> one == '\n').count() + 1;
            int column = before.length() - before.lastIndexOf('\n');
            return ":" + line + ":" + column + ": ";
        }

        /** From its place to the next problem. */
        void isToldIn(String output, String place) {
            int start = output.indexOf(place);
            assertTrue(start >= 0, () -> place + " in:\n" + output);
            int end = output.indexOf(".yaml:", start + place.length());
            String told = output.substring(start + place.length(), end < 0 ? output.length() : end);
            for (String word : words) {
                assertTrue(told.contains(word), () -> word + " in:\n" + told);
            }
            assertFalse(output.contains("\tat "), () -> "no stack trace in:\n" + output);
        }
    }

    @ParameterizedTest
    @EnumSource
    void eachIsToldByCheck(Spoilt spoilt) throws IOException {
        spoilt.in(bench);

        Told told = Told.by("check", empty.resolve(spoilt.file).toString());

        assertEquals(ExitStatus.FILES, told.status(), told.out() + told.err());
        spoilt.isToldIn(told.out(), empty.resolve(spoilt.file) + spoilt.position(bench));
        assertTrue(told.out().contains("1 error, 0 warnings"), told.out());
        assertFalse(bench.hasResults());
    }

    @ParameterizedTest
    @EnumSource
    void aPlanWithOneOfThemMovesNothing(Spoilt spoilt) throws IOException {
        spoilt.in(bench);

        Told told = Told.by(
                "run",
                empty.resolve(PLAN).toString(),
                "--out",
                empty.resolve("results").toString());

        assertEquals(ExitStatus.FILES, told.status(), told.out() + told.err());
        spoilt.isToldIn(told.err(), empty.resolve(spoilt.file) + spoilt.position(bench));
        assertTrue(told.err().endsWith("Nothing was run.\n"), told.err());
        assertEquals("", told.out());
        assertFalse(bench.hasResults());
    }

    @Test
    void theRealCommandLineTellsAllFiveAtOnce() throws Exception {
        List<String> args = new ArrayList<>(List.of("check"));
        List<String> places = new ArrayList<>();
        String good = bench.read(SCRIPT);
        for (Spoilt spoilt : Spoilt.values()) {
            spoilt.in(bench);
            String file = spoilt.file.equals(PLAN)
                    ? PLAN
                    : SCRIPT.replace(
                            "midway",
                            "midway-" + spoilt.name().toLowerCase(Locale.ROOT).replace('_', '-'));
            if (!file.equals(PLAN)) {
                bench.write(file, bench.read(SCRIPT));
            }
            args.add(file);
            places.add(file + spoilt.position(bench));
            bench.write(SCRIPT, good);
        }
        args.add(Bench.PLANS + "not-there.fault.yaml");

        BenchProcess.Ended ended = BenchProcess.run(empty, args.toArray(String[]::new));

        assertEquals(2, ended.status(), ended::all);
        // What is not there has no place of its own.
        assertTrue(ended.err().contains("there is no file " + Bench.PLANS + "not-there.fault.yaml"), ended::all);
        for (String place : places) {
            assertTrue(ended.out().contains(place), () -> place + " in:\n" + ended.all());
        }
        assertTrue(ended.out().contains("6 errors, 0 warnings"), ended::all);
        assertFalse(bench.hasResults());
    }

    @Test
    void theRealCommandLineRunsNothingOfAPlanWithOneBadScript() throws Exception {
        Spoilt.UNKNOWN_STEP.in(bench);

        BenchProcess.Ended ended = BenchProcess.run(empty, "run", PLAN);

        assertEquals(2, ended.status(), ended::all);
        Spoilt.UNKNOWN_STEP.isToldIn(ended.err(), SCRIPT + Spoilt.UNKNOWN_STEP.position(bench));
        assertEquals("", ended.out());
        assertFalse(bench.hasResults());
    }

    @Test
    void goodFilesHaveNoErrors() throws IOException {
        Told told = Told.by(
                "check",
                empty.resolve(PLAN).toString(),
                empty.resolve(Bench.PLANS + "first-light-broken.plan.yaml").toString());

        assertEquals(ExitStatus.PASS, told.status(), told.out() + told.err());
        assertEquals("0 errors, 0 warnings\n", told.out());
    }
}
