package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Names with which a file could rewrite what a terminal shows: they are shown as what they are. */
class HostileNamesTests {
    private static final String SCRIPT = Bench.PLANS + "reach-current-too-high.fault.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
        String text = bench.read(SCRIPT);
        bench.write(SCRIPT, text.replaceFirst("fault-script: .*", "fault-script: \"\\\\e[31mred\\\\u202e\""));
    }

    private static void assertPlain(Told told, int status, String shown) {
        assertEquals(status, told.status(), told::all);
        assertFalse(told.all().contains("\u001b"), told::all);
        assertFalse(told.all().contains("\u202e"), told::all);
        assertTrue(told.out().contains(shown), told::all);
    }

    @Test
    void resultsShowThemPlainly() throws IOException {
        assertPlain(Told.in(empty, "run", SCRIPT), 0, "\u241b[31mred[U+202E]");
        assertPlain(Told.in(empty, "report", bench.run().toString()), 0, "\u241b[31mred[U+202E]");
    }

    @Test
    void explanationsShowThemPlainly() throws IOException {
        assertPlain(Told.in(empty, "explain", SCRIPT), 0, "\u241b[31mred[U+202E]");
        String register = Bench.RIG + "failsafes.yaml";
        bench.write(register, bench.read(register).replaceFirst("cause: .*", "cause: \"\\\\e[2Kgone\""));
        assertPlain(Told.in(empty, "explain", register), 0, "\u241b[2K");
    }

    @Test
    void theLineOfProgressShowsThemPlainlyAndColoursStay() {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Surroundings surroundings = new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                Path.of("").toAbsolutePath(),
                true,
                Clock.systemUTC(),
                () -> false,
                () -> 1,
                new java.io.BufferedReader(java.io.Reader.nullReader()),
                new Looks(true, true, 100),
                new OpenLines());
        int status = CommandLines.run(
                surroundings,
                "run",
                bench.file(SCRIPT).toString(),
                "--out",
                bench.file("results").toString());

        assertEquals(0, status, () -> out.toString() + err);
        assertTrue(out.toString().contains("\u001b[32mpass\u001b[0m "), out::toString);
        assertFalse(out.toString().contains("\u001b[31m"), out::toString);
        assertTrue(err.toString().contains("\r1 of 1  \u241b[31mred[U+202E]  "), err::toString);
        assertFalse(err.toString().contains("\u001b"), err::toString);
    }
}
