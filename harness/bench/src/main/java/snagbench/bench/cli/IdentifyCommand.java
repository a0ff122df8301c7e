package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.RigWatch;
import snagbench.bench.run.DescriptionCheck;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.RigDescription;
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
        description = "Connects to a rig and shows what it tells of itself. Nothing moves.",
        footer = {"", "Example: snagbench identify --rig seedling-shuttle --save"})
final class IdentifyCommand implements Callable<Integer> {
    private static final int LEASE_MILLIS = 1000;

    private final Surroundings surroundings;

    @Mixin
    private SharedOptions shared = new SharedOptions();

    @Option(
            names = "--save",
            description = "Keeps the description beside the rig's file, so that scripts can be checked with no rig.")
    private boolean save;

    IdentifyCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        String given =
                shared.rig().orElseThrow(() -> new UserError(ExitStatus.FILES, "which rig? Say so with --rig NAME"));
        Path file = new RigChoice(surroundings).find(given, surroundings.folder());
        VirtualRigProvider provider = provider(file);
        RigSession session = connect(provider);
        show(session);
        Path snapshot = RigFiles.snapshotOf(file);
        return save ? save(snapshot, session.description()) : compare(snapshot, session.description());
    }

    private VirtualRigProvider provider(Path file) throws UserError {
        Checked<Optional<String>> read = RigFiles.providerOf(file);
        read.problems()
                .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        if (read.value().isEmpty()) {
            throw new UserError(ExitStatus.FILES, "the rig's file cannot be read");
        }
        String name = read.value()
                .get()
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        surroundings.show(file) + " names no virtual rig; this version drives no others"));
        VirtualRigs rigs = VirtualRigs.onClassPath();
        return rigs.named(name)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        "there is no virtual rig \"" + name + "\" on the class path; there is: " + rigs.names()));
    }

    private RigSession connect(VirtualRigProvider provider) throws UserError {
        try {
            Link link = VirtualRigs.connect(provider, provider.builds().get(0), new RigWatch());
            SessionSettings settings =
                    SessionSettings.usual(surroundings.nonces().getAsInt(), LEASE_MILLIS, surroundings.cancelled());
            return RigSession.open(link, settings, Optional.empty());
        } catch (LinkException | SessionException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
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
        surroundings.out().println(String.format(Locale.ROOT, "%-11s %s", label, text));
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
