package snagbench.bench.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.write.NewScript;
import snagbench.bench.script.write.Offered;
import snagbench.bench.trace.StoredTrace;

/** Starts a fault script from what the rig has. */
@Command(
        name = "new",
        mixinStandardHelpOptions = true,
        description = {
            "Writes a fault script to begin with: commented, and good by \"check\".",
            "What is not given as an option is asked for on a terminal; only what the rig has will do.",
            "With --from a stored trace and --at a time, the script forces the readings that were told then."
        },
        footer = {
            "",
            "Example: snagbench new my.fault.yaml --rig seedling-shuttle --failsafe FS-02 --step REACHING \\",
            "             --channel reach.current --fault \"stuck-at 4.2 A\"",
            "Example: snagbench new again.fault.yaml --rig seedling-shuttle --from my.trace --at 1200 --channel"
                    + " reach.current"
        })
final class NewCommand implements Callable<Integer> {
    /** A day: no trace is longer. */
    private static final long LONGEST_MILLIS = 86_400_000;

    private final Surroundings surroundings;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The file to be written; it must not be there. Named *.fault.yaml.")
    private String file = "";

    @Mixin
    private SharedOptions shared = new SharedOptions();

    @Option(names = "--failsafe", paramLabel = "FS", description = "The fail-safe that must answer.")
    private @Nullable String failSafe;

    @Option(names = "--step", paramLabel = "STEP", description = "The step in which the fault strikes.")
    private @Nullable String step;

    @Option(
            names = "--channel",
            paramLabel = "CHANNEL",
            description = "The sensor to be overridden, or a disturbance; with --from several.")
    private List<String> channels = new ArrayList<>();

    @Option(names = "--fault", paramLabel = "FAULT", description = "What happens to it, such as \"stuck-at 4.2 A\".")
    private @Nullable String fault;

    @Option(names = "--from", paramLabel = "TRACE", description = "A stored trace, whose readings are to be forced.")
    private @Nullable String from;

    @Option(
            names = "--at",
            paramLabel = "MS",
            description = {
                "From which time of the trace on, in milliseconds since arming. Left out, the times of steps and fail-safes",
                "are listed."
            })
    private @Nullable Long atMillis;

    @Option(
            names = "--for",
            paramLabel = "MS",
            defaultValue = "1000",
            description = "How much of the trace, in milliseconds; 1000 otherwise.")
    private long forMillis;

    NewCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        refuseWhatMeansNothing();
        Path path = surroundings.path(file);
        if (!path.toString().endsWith(".fault.yaml")) {
            throw new UserError(ExitStatus.FILES, file + ": fault scripts are named *.fault.yaml");
        }
        if (Files.exists(path)) {
            throw new UserError(ExitStatus.FILES, file + " is there already, and is left as it is");
        }
        RigChoice rigs = new RigChoice(surroundings);
        List<Problem> problems = new ArrayList<>();
        Path rigFile = shared.rig().isPresent() ? rigs.find(shared.rig().get(), path) : rigs.guessByFolder(path);
        Optional<RigChoice.Rig> rig = rigs.read(rigFile, problems);
        if (rig.isEmpty()) {
            throw new UserError(
                    ExitStatus.FILES,
                    surroundings.show(rigFile) + " has errors, which \"check\" tells: "
                            + problems.get(0).message());
        }
        String text = from == null ? asked(path, rig.get()) : replayed(path, rig.get(), from);
        write(path, text, rig.get());
        return ExitStatus.PASS;
    }

    private void refuseWhatMeansNothing() throws UserError {
        GivenOptions given = new GivenOptions(Objects.requireNonNull(spec));
        if (from != null) {
            given.refuse(
                    List.of("--fault", "--step"), "does not go with --from: the trace says what is forced, and when");
            requireTimes();
            return;
        }
        given.refuse(List.of("--at", "--for"), "goes with --from: a time of which trace?");
        if (channels.size() > 1) {
            throw new UserError(
                    ExitStatus.FILES,
                    "--channel is given " + channels.size() + " times; without --from a script begins with one");
        }
    }

    private void requireTimes() throws UserError {
        if (atMillis != null && (atMillis < 0 || atMillis > LONGEST_MILLIS)) {
            throw new UserError(
                    ExitStatus.FILES, "--at " + atMillis + ": wanted milliseconds from 0 to " + LONGEST_MILLIS);
        }
        if (forMillis < 1 || forMillis > LONGEST_MILLIS) {
            throw new UserError(
                    ExitStatus.FILES, "--for " + forMillis + ": wanted milliseconds from 1 to " + LONGEST_MILLIS);
        }
    }

    private String asked(Path path, RigChoice.Rig rig) throws UserError {
        Offered offered = new Offered(rig.description(), rig.content());
        FailSafeDescription answers = rig.description()
                .failSafe(chosen("--failsafe", "Which fail-safe must answer?", failSafe, offered.failSafes()))
                .orElseThrow();
        String strikesIn = chosen("--step", "In which step does the fault strike?", step, offered.steps());
        String given = channels.isEmpty() ? null : channels.get(0);
        String name = chosen("--channel", "Which channel is overridden?", given, offered.channels());
        ChannelDescription channel = rig.description().channel(name).orElseThrow();
        List<String> faults = offered.faults(channel);
        String what = fault == null ? chosen("--fault", "What happens to it?", null, faults, true) : fault;
        return new NewScript(NewScript.nameOf(path), rig.description(), rig.content())
                .text(answers, strikesIn, channel, what, known(rig, answers));
    }

    private static Optional<FailSafeRegister.Entry> known(RigChoice.Rig rig, FailSafeDescription failSafe) {
        return rig.register().stream()
                .flatMap(register -> register.entries().stream())
                .filter(entry -> entry.failSafe().equals(failSafe))
                .findFirst();
    }

    private String replayed(Path path, RigChoice.Rig rig, String trace) throws UserError {
        StoredTrace stored = new TraceFiles(surroundings).read(trace, rig::file);
        if (atMillis == null) {
            throw new UserError(
                    ExitStatus.FILES,
                    "--from goes with --at MS, a time of the trace in milliseconds since arming. What was seen when:\n"
                            + String.join("\n", Moments.of(stored.trace())));
        }
        List<String> offered = new Offered(rig.description(), rig.content()).sensors();
        for (String channel : channels) {
            chosen("--channel", "", channel, offered);
        }
        Optional<String> failSafeName = failSafe == null
                ? Optional.empty()
                : Optional.of(
                        chosen("--failsafe", "", failSafe, new Offered(rig.description(), rig.content()).failSafes()));
        Curves.Found found;
        try {
            found = Curves.of(stored.trace(), rig.description(), atMillis * 1000, forMillis * 1000, channels);
        } catch (IllegalArgumentException e) {
            throw new UserError(ExitStatus.FILES, trace + ": " + e.getMessage());
        }
        return new NewScript(NewScript.nameOf(path), rig.description(), rig.content())
                .replay(found.moment(), found.curves(), forMillis * 1000, failSafeName);
    }

    private String chosen(String option, String question, @Nullable String given, List<String> right) throws UserError {
        return chosen(option, question, given, right, false);
    }

    /** What was given, or what is asked for; one of those that will do, or another where the list holds examples. */
    private String chosen(String option, String question, @Nullable String given, List<String> right, boolean examples)
            throws UserError {
        if (given != null) {
            if (examples || right.contains(given)) {
                return given;
            }
            throw new UserError(ExitStatus.FILES, option + " " + given + ": there are: " + String.join(", ", right));
        }
        if (!surroundings.terminal()) {
            throw new UserError(
                    ExitStatus.FILES,
                    option + " is missing; " + (examples ? "such as: " : "there are: ") + String.join(", ", right));
        }
        surroundings.err().println(question);
        for (int index = 0; index < right.size(); index++) {
            surroundings.err().println("  " + (index + 1) + "  " + right.get(index));
        }
        while (true) {
            surroundings.err().print(examples ? "A number, or a fault of your own: " : "A number or a name: ");
            surroundings.err().flush();
            String answer = answer();
            if (answer.matches("[0-9]{1,4}")
                    && Integer.parseInt(answer) >= 1
                    && Integer.parseInt(answer) <= right.size()) {
                return right.get(Integer.parseInt(answer) - 1);
            }
            if (right.contains(answer) || (examples && !answer.isEmpty())) {
                return answer;
            }
        }
    }

    private String answer() throws UserError {
        try {
            String line = surroundings.answers().readLine();
            if (line == null) {
                throw new UserError(ExitStatus.FILES, "no answer, and nothing written");
            }
            return line.strip();
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "no answer, and nothing written");
        }
    }

    /** Writes it if it is good, beside its place first: what is wrong then is what the options asked for. */
    private void write(Path path, String text, RigChoice.Rig rig) throws UserError {
        List<Problem> problems = checked(text, rig);
        boolean anyError = problems.stream().anyMatch(problem -> problem.severity() == Problem.Severity.ERROR);
        if (!problems.isEmpty()) {
            problems.forEach(problem -> surroundings
                    .err()
                    .println("snagbench: " + problem.message()
                            + (problem.cure().isEmpty() ? "" : "; " + problem.cure())));
        }
        if (anyError) {
            throw new UserError(ExitStatus.FILES, "nothing written");
        }
        try {
            Files.writeString(path, text, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException e) {
            throw new UserError(ExitStatus.FILES, file + " is there already, and is left as it is");
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, file + " cannot be written: " + RunCommand.reason(e));
        }
        surroundings.out().println("Script: " + surroundings.show(path));
        surroundings
                .out()
                .println("Next: snagbench explain " + surroundings.show(path) + " --rig "
                        + rig.content().name());
    }

    private static List<Problem> checked(String text, RigChoice.Rig rig) throws UserError {
        try {
            Path draft = Files.createTempFile("snagbench-new-", ".fault.yaml");
            try {
                Files.writeString(draft, text, StandardCharsets.UTF_8);
                Checked<List<FaultScript>> read = ScriptReader.readAll(draft, rig.description(), rig.content());
                return read.problems();
            } finally {
                Files.deleteIfExists(draft);
            }
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "no place for a draft: " + RunCommand.reason(e));
        }
    }
}
