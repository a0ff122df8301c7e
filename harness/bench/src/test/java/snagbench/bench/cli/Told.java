package snagbench.bench.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;

/** What the command line told, run within this process on real files. Paths that are given must be absolute. */
record Told(int status, String out, String err) {
    static Told by(String... args) {
        return in(Path.of("").toAbsolutePath(), args);
    }

    /** As if the user stood in a folder. Paths must be absolute all the same. */
    static Told in(Path folder, String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = CommandLines.run(surroundings(folder, out, err), args);
        return new Told(status, out.toString(), err.toString());
    }

    /** Nobody at the terminal, the clock of this machine. */
    static Surroundings surroundings(Path folder, StringWriter out, StringWriter err) {
        return new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                folder,
                false,
                Clock.systemUTC(),
                () -> false,
                () -> 1,
                new java.io.BufferedReader(java.io.Reader.nullReader()));
    }

    /** Both outputs, for messages of failed assertions. */
    String all() {
        return "status " + status + "\n--- out\n" + out + "--- err\n" + err;
    }
}
