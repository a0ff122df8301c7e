package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.run.DescriptionCheck;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.Snapshots;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.probe.VirtualRigProvider;
import snagbench.wire.Hello;
import snagbench.wire.ResetCause;

/** Asks a rig who it is; nothing moves. */
@Command(
        name = "identify",
        mixinStandardHelpOptions = true,
        description = {
            "Connects to a rig and shows what it tells of itself. Nothing moves.",
            "Over a port it also measures clocks, loop times and losses, and shows live values until Ctrl-C."
        },
        footer = {
            "",
            "Example: snagbench identify --rig seedling-shuttle --save",
            "Example: snagbench identify --port /dev/ttyUSB0 --baud 500000 --for 10"
        })
final class IdentifyCommand implements Callable<Integer> {
    private static final int LEASE_MILLIS = 1000;
    private static final double MICROS_PER_SECOND = 1e6;

    /** Longest time that the option may give, in seconds: a day. */
    private static final double LONGEST_SECONDS = 86_400;

    private final Surroundings surroundings;

    @Mixin
    private RigOption which = new RigOption();

    @Mixin
    private LineOptions line = new LineOptions();

    @Option(
            names = "--save",
            description = "Keeps the description beside the rig's file, so that scripts can be checked with no rig.")
    private boolean save;

    @Option(
            names = "--for",
            paramLabel = "S",
            description = "Measures, and then shows live values for so many seconds; 0 for none.")
    private @Nullable Double liveSeconds;

    IdentifyCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    @SuppressWarnings("try") // It counts for as long as it is open, and nothing is asked of it.
    public Integer call() throws UserError {
        Optional<Long> live = live();
        Optional<Path> file = file();
        if (save && file.isEmpty()) {
            throw new UserError(ExitStatus.FILES, "--save goes with --rig NAME: beside which rig's file?");
        }
        Optional<LineOptions.Chosen> port = line.chosen(lineOf(file));
        boolean measures = live.isPresent() || (port.isPresent() && !save);
        try (OpenLines.Opened opened = surroundings.lines().open();
                Link link = port.isPresent() ? serial(port.get()) : virtual(file);
                RigSession session = open(link, port.isPresent())) {
            show(session);
            int status = file.isPresent() ? keepOrCompare(file.get(), session) : ExitStatus.PASS;
            if (measures) {
                measure(session, link, live);
            }
            return status;
        } catch (LinkException | SessionException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
        }
    }

    private Optional<Long> live() throws UserError {
        if (liveSeconds == null) {
            return Optional.empty();
        }
        if (!(liveSeconds >= 0 && liveSeconds <= LONGEST_SECONDS)) {
            throw new UserError(ExitStatus.FILES, "--for " + liveSeconds + ": wanted seconds from 0 to those of a day");
        }
        return Optional.of(Math.round(liveSeconds * MICROS_PER_SECOND));
    }

    private Optional<Path> file() throws UserError {
        Optional<String> given = which.rig();
        if (given.isEmpty() && !line.isPortGiven()) {
            throw new UserError(ExitStatus.FILES, "which rig? Say so with --rig NAME, or on which --port it hangs");
        }
        return given.isEmpty()
                ? Optional.empty()
                : Optional.of(new RigChoice(surroundings).find(given.get(), surroundings.folder()));
    }

    private RigFile.SerialLine lineOf(Optional<Path> file) throws UserError {
        return file.isEmpty() ? RigFile.SerialLine.usual() : value(RigFiles.lineOf(file.get()));
    }

    private <T> T value(Checked<T> read) throws UserError {
        read.problems()
                .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        return read.value().orElseThrow(() -> new UserError(ExitStatus.FILES, "the rig's file cannot be read"));
    }

    private static Link serial(LineOptions.Chosen port) throws LinkException {
        return SerialLink.open(port.port(), SerialSettings.at(port.baud()), System::nanoTime);
    }

    private Link virtual(Optional<Path> file) throws UserError, LinkException {
        VirtualRigProvider provider = provider(file.orElseThrow());
        return VirtualRigs.connect(provider, provider.builds().get(0), new RigWatch());
    }

    private VirtualRigProvider provider(Path file) throws UserError {
        String name = value(RigFiles.providerOf(file))
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        surroundings.show(file)
                                + " names neither a virtual rig nor a port; say on which --port it hangs"));
        return VirtualRigs.onClassPath().required(name);
    }

    private RigSession open(Link link, boolean board) throws SessionException {
        SessionSettings usual =
                SessionSettings.usual(surroundings.nonces().getAsInt(), LEASE_MILLIS, surroundings.cancelled());
        return RigSession.open(
                link, board ? usual.withGreeting(SessionSettings.BOARD_GREETING_MICROS, 0) : usual, Optional.empty());
    }

    private int keepOrCompare(Path file, RigSession session) throws UserError {
        Path snapshot = RigFiles.snapshotOf(file);
        return save ? save(snapshot, session.description()) : compare(snapshot, session.description());
    }

    /** The user's Ctrl-C is how this usually ends. */
    private void measure(RigSession session, Link link, Optional<Long> live) throws SessionException {
        LineReport report = new LineReport(session, link, surroundings.out());
        surroundings.out().println();
        try {
            report.measure();
            surroundings.out().println();
            report.live(live);
        } catch (SessionException e) {
            if (e.reason() != SessionException.Reason.CANCELLED) {
                throw e;
            }
        }
        if (live.orElse(1L) > 0) {
            report.records();
        }
    }

    private void show(RigSession session) {
        Hello hello = session.hello();
        RigDescription rig = session.description();
        ResetCause cause = ResetCause.of(hello.cause);
        line("build", hello.build + (hello.real == 0 ? ", virtual" : ", real"));
        line(
                "started by",
                (cause == null
                        ? "cause " + hello.cause
                        : cause.name().toLowerCase(Locale.ROOT).replace('_', ' ')));
        line("loop", hello.tickMicros == 0 ? "runs free" : hello.tickMicros + " us");
        line(
                "holds",
                hello.slots + " entries, " + hello.terms + " terms, " + hello.guards + " guards, " + hello.ring
                        + " events");
        line("digest", String.format(Locale.ROOT, "%08x", hello.digest));
        surroundings.out().println();
        for (ChannelDescription channel : rig.channels()) {
            surroundings.out().println(channelLine(channel));
        }
        surroundings.out().println();
        line(
                "fail-safes",
                String.join(
                        ", ", rig.failSafes().stream().map(one -> one.name()).toList()));
    }

    private static String channelLine(ChannelDescription channel) {
        String range = channel.valueNames().isEmpty()
                ? channel.show(channel.lowest()) + " .. " + channel.show(channel.highest()) + ", step "
                        + channel.show(1)
                : String.join(", ", channel.valueNames());
        return String.format(
                Locale.ROOT,
                "%-24s %-12s %s",
                channel.name(),
                channel.isStep() ? "step" : channel.kind().name().toLowerCase(Locale.ROOT),
                range);
    }

    private void line(String label, String text) {
        surroundings.out().println(row(label, text));
    }

    static String row(String label, String text) {
        return String.format(Locale.ROOT, "%-11s %s", label, text);
    }

    private int save(Path snapshot, RigDescription description) throws UserError {
        try {
            Snapshots.write(snapshot, description);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "the description cannot be kept: " + RunCommand.reason(e));
        }
        surroundings.out().println();
        line("kept in", surroundings.show(snapshot).toString());
        return ExitStatus.PASS;
    }

    private int compare(Path snapshot, RigDescription live) {
        if (!Files.exists(snapshot)) {
            line("stored", "no description is stored; --save keeps this one");
            return ExitStatus.PASS;
        }
        Checked<RigDescription> stored = Snapshots.read(snapshot);
        if (stored.value().isEmpty()) {
            stored.problems()
                    .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
            line("stored", "a description that cannot be read; --save puts this one in its place");
            return ExitStatus.FILES;
        }
        List<String> differences = DescriptionCheck.differences(stored.value().get(), live);
        line("stored", differences.isEmpty() ? "the same" : "differs: " + String.join("; ", differences));
        return differences.isEmpty() ? ExitStatus.PASS : ExitStatus.RIG;
    }
}
