package snagbench.bench.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.ThreadLocalRandom;

/** What the command line told, run within this process on real files. */
record Told(int status, String out, String err) {
    /** In this process's own folder. */
    static Told by(String... args) {
        return run(Path.of("").toAbsolutePath(), args);
    }

    /** In some folder, as the user sees it who stands there: paths that lie in it are told from there on. */
    static Told in(Path folder, String... args) {
        Told told = run(folder, args);
        String above = folder + "/";
        return new Told(told.status, told.out.replace(above, ""), told.err.replace(above, ""));
    }

    private static Told run(Path folder, String... args) {
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
                // Two sessions on one served rig must not have the same name.
                () -> ThreadLocalRandom.current().nextInt(1, Integer.MAX_VALUE),
                new java.io.BufferedReader(java.io.Reader.nullReader()));
    }

    /** Both outputs, for messages of failed assertions. */
    String all() {
        return "status " + status + "\n--- out\n" + out + "--- err\n" + err;
    }
}
