package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.Reader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What goes wrong within: never the status of a fail, and a sentence first. */
class OwnFaultsTests {
    @TempDir
    Path empty = Path.of("");

    /** What the command line makes of something that happens while it waits for an answer. */
    private Told where(Supplier<String> happens) throws Exception {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        BufferedReader answers = new BufferedReader(Reader.nullReader()) {
            @Override
            public String readLine() {
                return happens.get();
            }
        };
        Surroundings surroundings = new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                Bench.in(empty).folder(),
                true,
                Clock.systemUTC(),
                () -> false,
                () -> 1,
                answers);
        int status = CommandLines.run(
                surroundings,
                "new",
                empty.resolve("my.fault.yaml").toString(),
                "--rig",
                empty.resolve(Bench.RIG).toString());
        return new Told(status, out.toString(), err.toString());
    }

    private static void assertSaidLast(Told told, String sentence) {
        assertEquals(70, told.status(), told::all);
        assertTrue(told.err().contains("\nsnagbench: " + sentence + "\n"), told::all);
    }

    @Test
    void anErrorIsNoFail() throws Exception {
        Told told = where(() -> endless(1));

        assertSaidLast(told, "a fault of our own (java.lang.StackOverflowError), please report it with what follows");
        assertTrue(told.err().lines().filter(line -> line.startsWith("\tat ")).count() <= 30, told::all);
    }

    private static String endless(int depth) {
        return depth < 0 ? "" : endless(depth + 1) + depth;
    }

    @Test
    void tooLittleMemoryIsSaidInPlainWords() throws Exception {
        Told told = where(() -> {
            throw new OutOfMemoryError("Java heap space");
        });

        assertSaidLast(
                told,
                "not enough memory for this (Java heap space): give it less at once, or more memory with"
                        + " JAVA_TOOL_OPTIONS=-Xmx4g");
        assertTrue(told.err().lines().noneMatch(line -> line.startsWith("\tat ")), told::all);
    }

    @Test
    void anExceptionStaysWhatItWas() throws Exception {
        Told told = where(() -> {
            throw new IllegalStateException("of ours");
        });

        assertSaidLast(
                told, "a fault of our own (java.lang.IllegalStateException), please report it with what follows");
        assertTrue(told.err().contains("IllegalStateException: of ours\n\tat "), told::all);
    }
}
