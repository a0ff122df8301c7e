package snagbench.bench.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snagbench.bench.script.Checked;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.serve.FaultyRig;
import snagbench.bench.serve.LineFaults;
import snagbench.bench.serve.RigLog;
import snagbench.bench.serve.ServedRig;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/** Hangs a virtual rig on a port of this computer, in real time. */
@Command(
        name = "serve",
        mixinStandardHelpOptions = true,
        description = {
            "Runs a virtual rig in real time on a pseudo-terminal, which is then used like a serial port (Linux only)."
                    + " Its first line is \"port\" and the path; it runs until it is stopped (Ctrl-C).",
            "The line can be given a speed and faults. The rig itself starts as it always does; its seed comes with"
                    + " each run."
        },
        footer = {
            "",
            "Example: snagbench serve --rig seedling-shuttle --baud 500000 --link /tmp/shuttle --log shuttle.log",
            "Example: snagbench serve --rig seedling-shuttle --loss 0.001 --disconnect-after 8 --for 2"
        })
final class ServeCommand implements Callable<Integer> {
    private static final double MICROS_PER_SECOND = 1e6;
    private static final double MICROS_PER_MILLI = 1e3;

    /** Longest time that an option may give, in seconds: a day. */
    private static final double LONGEST_SECONDS = 86_400;

    private final Surroundings surroundings;

    @Mixin
    private RigOption which = new RigOption();

    @Option(
            names = "--build",
            paramLabel = "BUILD",
            description = "Build of its control code; the usual one unless given.")
    private @Nullable String build;

    @Option(
            names = "--baud",
            paramLabel = "BAUD",
            description =
                    "Speed of its line, both ways; a host that sets another gets garbage. Without it the line takes no"
                            + " time, and a host may set any.")
    private @Nullable Integer baud;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "Seed of the line's faults, 1 unless given.")
    private long seed;

    @Option(names = "--loss", paramLabel = "SHARE", description = "Share of bytes that are lost, such as 0.001.")
    private double loss;

    @Option(names = "--flip", paramLabel = "SHARE", description = "Share of bytes in which one bit is turned over.")
    private double flip;

    @Option(names = "--double", paramLabel = "SHARE", description = "Share of bytes that come twice.")
    private double doubling;

    @Option(names = "--latency", paramLabel = "MS", description = "How much later each byte comes, in milliseconds.")
    private double latencyMillis;

    @Option(
            names = "--jitter",
            paramLabel = "MS",
            description = "Up to how much later still, drawn for each burst, in milliseconds.")
    private double jitterMillis;

    @Option(
            names = "--disconnect-after",
            paramLabel = "S",
            description = "Pulls the cable once: so many seconds after a host has first opened the port.")
    private @Nullable Double disconnectAfter;

    @Option(
            names = "--for",
            paramLabel = "S",
            description = "Puts the cable back after so many seconds; never unless given.")
    private @Nullable Double disconnectFor;

    @Option(
            names = "--link",
            paramLabel = "PATH",
            description =
                    "Keeps a symbolic link to the port there, so that the path stays the same when the cable was out.")
    private @Nullable String link;

    @Option(
            names = "--log",
            paramLabel = "FILE",
            description =
                    "Writes what the machine itself did: on the plant's clock, seen from the rig's side of the line.")
    private @Nullable String logFile;

    ServeCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        int speed = baud == null ? 0 : baud;
        if (baud != null && (speed < 1 || speed > 10_000_000)) {
            throw new UserError(ExitStatus.FILES, "--baud " + speed + ": wanted from 1 to 10000000, such as 500000");
        }
        LineFaults faults = faults();
        Optional<ServedRig.Disconnection> disconnection = disconnection();
        VirtualRigProvider provider = provider();
        String chosen = VirtualRigs.build(provider, Optional.ofNullable(build));
        try (Writer logWriter = logWriter()) {
            RigLog log = new RigLog(lines(logWriter));
            FaultyRig rig = new FaultyRig(log.around(made(provider, chosen, speed)), speed, faults, seed);
            serve(rig, disconnection, log);
        } catch (IOException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
        }
        return ExitStatus.PASS;
    }

    @SuppressWarnings("try") // It counts for as long as it is open, and nothing is asked of it.
    private void serve(FaultyRig rig, Optional<ServedRig.Disconnection> disconnection, RigLog log) throws IOException {
        Optional<Path> linkPath = Optional.ofNullable(link).map(surroundings::path);
        try (OpenLines.Opened opened = surroundings.lines().open();
                ServedRig served =
                        ServedRig.open(rig, linkPath, disconnection, System::nanoTime, log, path -> surroundings
                                .out()
                                .println("port " + path))) {
            served.run(surroundings.cancelled());
        }
    }

    private LineFaults faults() throws UserError {
        return new LineFaults(
                share("--loss", loss),
                share("--flip", flip),
                share("--double", doubling),
                micros("--latency", latencyMillis, MICROS_PER_MILLI, "milliseconds"),
                micros("--jitter", jitterMillis, MICROS_PER_MILLI, "milliseconds"));
    }

    private static double share(String option, double given) throws UserError {
        if (!(given >= 0 && given < 1)) {
            throw new UserError(
                    ExitStatus.FILES, option + " " + given + ": wanted a share from 0 to below 1, such as 0.001");
        }
        return given;
    }

    private static long micros(String option, double given, double microsPerUnit, String unit) throws UserError {
        double micros = given * microsPerUnit;
        if (!(micros >= 0 && micros <= LONGEST_SECONDS * MICROS_PER_SECOND)) {
            throw new UserError(
                    ExitStatus.FILES, option + " " + given + ": wanted " + unit + " from 0 to those of a day");
        }
        return Math.round(micros);
    }

    private Optional<ServedRig.Disconnection> disconnection() throws UserError {
        if (disconnectAfter == null) {
            if (disconnectFor != null) {
                throw new UserError(
                        ExitStatus.FILES, "--for goes with --disconnect-after: when is the cable to be pulled?");
            }
            return Optional.empty();
        }
        long after = micros("--disconnect-after", disconnectAfter, MICROS_PER_SECOND, "seconds");
        if (disconnectFor == null) {
            return Optional.of(new ServedRig.Disconnection(after, Long.MAX_VALUE));
        }
        long out = micros("--for", disconnectFor, MICROS_PER_SECOND, "seconds");
        if (out == 0) {
            throw new UserError(
                    ExitStatus.FILES, "--for 0: a cable that is pulled is out for some time; leave it away for ever");
        }
        return Optional.of(new ServedRig.Disconnection(after, out));
    }

    private VirtualRigProvider provider() throws UserError {
        Path file = which.file(surroundings);
        Checked<Optional<String>> read = RigFiles.providerOf(file);
        read.problems()
                .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        if (read.value().isEmpty()) {
            throw new UserError(ExitStatus.FILES, "the rig's file cannot be read");
        }
        String name = read.value()
                .get()
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES, surroundings.show(file) + " names no virtual rig; only such can be served"));
        return VirtualRigs.onClassPath().required(name);
    }

    private static VirtualRig made(VirtualRigProvider provider, String build, int speed) throws UserError {
        try {
            return speed == 0 ? provider.create(build) : provider.create(build, speed);
        } catch (RuntimeException e) {
            throw new UserError(ExitStatus.RIG, "virtual rig " + provider.name() + " could not be made: " + e);
        }
    }

    private Writer logWriter() throws UserError {
        if (logFile == null) {
            return Writer.nullWriter();
        }
        try {
            return Files.newBufferedWriter(surroundings.path(logFile), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "the log cannot be written: " + RunCommand.reason(e));
        }
    }

    /** Each line is on the disk at once: whoever reads along must see it. A full disk must not stop the rig. */
    private Consumer<String> lines(Writer to) {
        PrintWriter printer = new PrintWriter(to);
        boolean[] failed = {false};
        return line -> {
            printer.println(line);
            if (printer.checkError() && !failed[0]) {
                failed[0] = true;
                surroundings.err().println("snagbench: the log cannot be written any more; the rig runs on without");
            }
        };
    }
}
