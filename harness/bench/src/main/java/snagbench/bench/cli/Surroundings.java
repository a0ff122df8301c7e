package snagbench.bench.cli;

import java.io.BufferedReader;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.function.BooleanSupplier;
import java.util.function.IntSupplier;

/**
 * All that the command line takes from the system, so that nothing else need ask it.
 *
 * @param out for results; its lines are shown plainly ({@link PlainPrinter})
 * @param err for problems and progress, in the same way
 * @param folder the current folder
 * @param terminal true if somebody looks at {@code err} on a terminal
 * @param clock the host's
 * @param cancelled true once the user wants to stop
 * @param nonces gives sessions on a cable their names, none of them 0
 * @param answers what the user types
 * @param looks what can be shown there
 * @param lines counts those that are open to a rig
 */
record Surroundings(
        PrintWriter out,
        PrintWriter err,
        Path folder,
        boolean terminal,
        Clock clock,
        BooleanSupplier cancelled,
        IntSupplier nonces,
        BufferedReader answers,
        Looks looks,
        OpenLines lines) {
    Surroundings {
        out = PlainPrinter.around(out);
        err = PlainPrinter.around(err);
    }

    /** Where nobody looks on. */
    Surroundings(
            PrintWriter out,
            PrintWriter err,
            Path folder,
            boolean terminal,
            Clock clock,
            BooleanSupplier cancelled,
            IntSupplier nonces,
            BufferedReader answers) {
        this(out, err, folder, terminal, clock, cancelled, nonces, answers, Looks.plain(), new OpenLines());
    }

    /** A path as the user gave it: it stays so in messages and in the journal. It starts at {@link #folder}. */
    Path path(String given) {
        return path(Path.of(given));
    }

    /** The same of a path that was made of what the user gave. */
    Path path(Path path) {
        return folder.equals(Path.of("").toAbsolutePath()) ? path : folder.resolve(path);
    }

    /** A path as the user would write it. */
    Path show(Path path) {
        return path.isAbsolute() && path.normalize().startsWith(folder) ? folder.relativize(path.normalize()) : path;
    }
}
