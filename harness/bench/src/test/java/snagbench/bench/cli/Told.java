package snagbench.bench.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;

/** What the command line told, run within this process on real files. Paths that are given must be absolute. */
record Told(int status, String out, String err) {
    static Told by(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Surroundings surroundings = new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                Path.of("").toAbsolutePath(),
                false,
                Clock.systemUTC(),
                () -> false,
                () -> 1,
                new java.io.BufferedReader(java.io.Reader.nullReader()));
        int status = CommandLines.run(surroundings, args);
        return new Told(status, out.toString(), err.toString());
    }

    /** Both outputs, for messages of failed assertions. */
    String all() {
        return "status " + status + "\n--- out\n" + out + "--- err\n" + err;
    }
}
