package snagbench.bench.cli;

import picocli.CommandLine;

/** Puts the commands together and turns whatever happens into an exit status and a sentence. */
final class CommandLines {
    private CommandLines() {}

    static int run(Surroundings surroundings, String... args) {
        return of(surroundings).execute(args);
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
        surroundings.err().println("snagbench: a fault of our own, please report it with what follows");
        failure.printStackTrace(surroundings.err());
        return ExitStatus.OURS;
    }
}
