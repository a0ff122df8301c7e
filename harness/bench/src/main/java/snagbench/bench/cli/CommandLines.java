package snagbench.bench.cli;

import java.nio.file.InvalidPathException;
import java.util.Arrays;
import picocli.CommandLine;
import snagbench.bench.script.yaml.Shown;

/** Puts the commands together and turns whatever happens into an exit status and a sentence. */
final class CommandLines {
    /** Of an endless recursion the rest is the same again. */
    private static final int MOST_FRAMES = 30;

    private CommandLines() {}

    static int run(Surroundings surroundings, String... args) {
        try {
            return of(surroundings).execute(args);
        } catch (OutOfMemoryError e) {
            surroundings.err().println();
            surroundings
                    .err()
                    .println("snagbench: not enough memory for this (" + e.getMessage()
                            + "): give it less at once, or more memory with JAVA_TOOL_OPTIONS=-Xmx4g");
            return ExitStatus.OURS;
        } catch (Error e) {
            return ours(surroundings, e);
        }
    }

    /** All commands with their options. */
    static CommandLine of(Surroundings surroundings) {
        CommandLine line = new CommandLine(new RootCommand());
        line.addSubcommand(new RunCommand(surroundings));
        line.addSubcommand(new CheckCommand(surroundings));
        line.addSubcommand(new ExplainCommand(surroundings));
        line.addSubcommand(new NewCommand(surroundings));
        line.addSubcommand(new SchemaCommand(surroundings));
        line.addSubcommand(new IdentifyCommand(surroundings));
        line.addSubcommand(new PortsCommand(surroundings));
        line.addSubcommand(new ReportCommand(surroundings));
        line.addSubcommand(new CheckSheetCommand(surroundings));
        line.addSubcommand(new JudgeCommand(surroundings));
        line.addSubcommand(new RecordCommand(surroundings));
        line.addSubcommand(new ServeCommand(surroundings));
        line.addSubcommand(new CompletionCommand(surroundings));
        line.setOut(surroundings.out());
        line.setErr(surroundings.err());
        line.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
        line.setExecutionExceptionHandler((failure, command, parsed) -> failed(surroundings, failure));
        return line;
    }

    private static int failed(Surroundings surroundings, Exception failure) {
        if (failure instanceof UserError error) {
            surroundings.err().println("snagbench: " + error.getMessage());
            return error.status();
        }
        if (failure instanceof InvalidPathException path) {
            surroundings
                    .err()
                    .println("snagbench: " + Shown.quoted(path.getInput()) + " is no path here: " + path.getReason()
                            + "; if it has letters beyond ASCII, set LC_ALL=C.UTF-8");
            return ExitStatus.FILES;
        }
        return ours(surroundings, failure);
    }

    /** A sentence of its own line, whatever was being written; then as much of the way there as tells where it was. */
    private static int ours(Surroundings surroundings, Throwable failure) {
        surroundings.err().println();
        surroundings
                .err()
                .println("snagbench: a fault of our own (" + failure.getClass().getName()
                        + "), please report it with what follows");
        StackTraceElement[] way = failure.getStackTrace();
        failure.setStackTrace(Arrays.copyOf(way, Math.min(way.length, MOST_FRAMES)));
        failure.printStackTrace(surroundings.err());
        return ExitStatus.OURS;
    }
}
