package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snagbench.bench.run.Recordings;
import snagbench.bench.run.RigRecorder;
import snagbench.bench.run.RunTerms;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;
import snagbench.bench.script.Stage;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.SessionException;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;

/** Records a rig without a fault, or turns a trace into a table and back. */
@Command(
        name = "record",
        mixinStandardHelpOptions = true,
        description = {
            "Records a rig without a fault. It is brought to ready first and then begins as --begin or --send say.",
            "A real rig is driven only with --motion. Ctrl-C makes the machine's safe stop; what was seen is kept.",
            "With --from, no rig is driven: a trace becomes a table, or a table a trace."
        },
        footer = {
            "",
            "Example: snagbench record --rig seedling-shuttle --send start-run --for 30",
            "Example: snagbench record --from 0001-reach-blocked-midway.trace --csv reach.csv",
            "Example: snagbench record --rig seedling-shuttle --from log.csv --trace log.trace"
        })
final class RecordCommand implements Callable<Integer> {
    private static final double MICROS_PER_SECOND = 1e6;
    private static final double LONGEST_SECONDS = 86_400;
    private static final List<String> OF_A_RIG = List.of(
            "--port",
            "--baud",
            "--motion",
            "--hands",
            "--wheels-up",
            "--clear-floor",
            "--release-latch",
            "--for",
            "--begin",
            "--send",
            "--seed",
            "--build");
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH-mm-ss", Locale.ROOT);

    private final Surroundings surroundings;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private RigOption which = new RigOption();

    @Mixin
    private LineOptions line = new LineOptions();

    @Mixin
    private Grants grants = new Grants();

    @Option(
            names = "--for",
            paramLabel = "S",
            defaultValue = "10",
            description = "For so many seconds on the rig's clock. Usually ${DEFAULT-VALUE}.")
    private double seconds;

    @Option(
            names = "--begin",
            paramLabel = "SCRIPT",
            description = "Begins as this fault script does; its fault is left out.")
    private @Nullable String begin;

    @Option(names = "--send", paramLabel = "COMMAND", description = "Begins with this command, such as start-run.")
    private @Nullable String send;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "Seed of a virtual rig's variation. Usually ${DEFAULT-VALUE}.")
    private int seed;

    @Option(names = "--build", paramLabel = "BUILD", description = "Build of a virtual rig's control code.")
    private @Nullable String build;

    @Option(names = "--from", paramLabel = "FILE", description = "A *.trace or a *.csv, instead of a rig.")
    private @Nullable String from;

    @Option(
            names = "--trace",
            paramLabel = "FILE",
            description = "Takes the trace. Usually a new file in results/; with --from, none.")
    private @Nullable String trace;

    @Option(names = "--csv", paramLabel = "FILE", description = "Takes the trace as a table.")
    private @Nullable String csv;

    RecordCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        if (from != null) {
            new GivenOptions(Objects.requireNonNull(spec))
                    .refuse(OF_A_RIG, "does not go with --from: a file is turned into another, and no rig is driven");
        }
        requireFree(trace);
        requireFree(csv);
        return from == null ? record() : convert(from);
    }

    private void requireFree(@Nullable String given) throws UserError {
        if (given != null && Files.exists(surroundings.path(given))) {
            throw new UserError(
                    ExitStatus.FILES, given + " is there already; give another name, or take it away first");
        }
        Path folder =
                given == null ? null : surroundings.path(given).toAbsolutePath().getParent();
        if (folder != null && !Files.isDirectory(folder)) {
            throw new UserError(
                    ExitStatus.FILES,
                    given + ": there is no folder " + surroundings.show(folder)
                            + "; make it first, or give another name");
        }
    }

    private int convert(String given) throws UserError {
        if (trace == null && csv == null) {
            throw new UserError(
                    ExitStatus.FILES, "--from " + given + ": into what? Say so with --csv FILE or --trace FILE");
        }
        TraceFiles files = new TraceFiles(surroundings);
        StoredTrace stored = files.read(given, () -> which.file(surroundings));
        if (trace != null) {
            files.write(stored, surroundings.path(trace));
        }
        finish(files, stored);
        return ExitStatus.PASS;
    }

    private int record() throws UserError {
        if (!(seconds > 0 && seconds <= LONGEST_SECONDS)) {
            throw new UserError(
                    ExitStatus.FILES, "--for " + seconds + ": wanted seconds above 0, up to those of a day");
        }
        List<Problem> problems = new ArrayList<>();
        Optional<RigChoice.Rig> read = new RigChoice(surroundings).read(which.file(surroundings), problems);
        Optional<FaultScript> beginning = read.isPresent() ? beginning(read.get(), problems) : Optional.empty();
        problems.forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        if (read.isEmpty() || beginning.isEmpty()) {
            surroundings.err().println("Nothing was recorded.");
            return ExitStatus.FILES;
        }
        RigChoice.Rig rig = read.get();
        try (RigWay way = RigWay.choose(surroundings, line, rig.content(), Optional.ofNullable(build), "")) {
            return record(rig, beginning.get(), way);
        }
    }

    private Optional<FaultScript> beginning(RigChoice.Rig rig, List<Problem> problems) throws UserError {
        if (begin != null && send != null) {
            throw new UserError(ExitStatus.FILES, "--begin or --send, not both");
        }
        if (begin != null) {
            Checked<FaultScript> script = ScriptReader.read(surroundings.path(begin), rig.description(), rig.content());
            problems.addAll(script.problems());
            return script.value().map(Recordings::beginningOf);
        }
        Place place = rig.content().place();
        String name = "recording of " + rig.content().name();
        if (send == null) {
            return Optional.of(Recordings.script(place, name, List.of()));
        }
        ChannelDescription command = rig.description()
                .channel(send)
                .filter(channel -> channel.kind() == ChannelKind.COMMAND)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        "--send " + send + ": the rig has no such command; it has: "
                                + String.join(
                                        ", ",
                                        rig.description().channels().stream()
                                                .filter(channel -> channel.kind() == ChannelKind.COMMAND)
                                                .map(ChannelDescription::name)
                                                .toList())));
        return Optional.of(Recordings.script(place, name, List.of(new Stage.Send(place, command, 1))));
    }

    private int record(RigChoice.Rig rig, FaultScript beginning, RigWay way) throws UserError {
        Path file = surroundings.path(
                trace == null
                        ? "results/" + STAMP.format(LocalDateTime.now(surroundings.clock())) + "-"
                                + rig.content().name() + ".trace"
                        : trace);
        RigRecorder recorder = new RigRecorder(
                rig.content(),
                rig.description(),
                new RunTerms(grants.needs(), Optional.empty()),
                way.connector(),
                surroundings.cancelled(),
                way.isOverPort() ? surroundings.nonces().getAsInt() : 1);
        LiveLine live = new LiveLine(surroundings);
        RigRecorder.Recorded recorded;
        try {
            recorded = recorder.record(
                    beginning, seed, Math.round(seconds * MICROS_PER_SECOND), file, micros -> show(live, micros));
            live.erase();
        } catch (SessionException e) {
            live.erase();
            throw new UserError(ExitStatus.RIG, e.getMessage() + "\nNothing was recorded.");
        } catch (IOException e) {
            live.erase();
            throw new UserError(ExitStatus.FILES, "the trace cannot be written: " + RunCommand.reason(e));
        }
        surroundings
                .out()
                .println(words(recorded.stored().trace(), rig.content().name() + " (" + way.words() + ")"));
        surroundings.out().println("Trace: " + surroundings.show(file));
        finish(new TraceFiles(surroundings), recorded.stored());
        if (recorded.trouble().isPresent()) {
            throw new UserError(
                    ExitStatus.RIG,
                    "the recording ended early: " + recorded.trouble().get());
        }
        return surroundings.cancelled().getAsBoolean() ? ExitStatus.CANCELLED : ExitStatus.PASS;
    }

    private void show(LiveLine live, long micros) {
        if (live.isDue()) {
            live.show(String.format(Locale.ROOT, "%.1f of %.1f s recorded", micros / MICROS_PER_SECOND, seconds));
        }
    }

    private String words(Trace seen, String of) {
        int rows = seen.rows();
        long lost = seen.gaps().stream()
                .mapToLong(gap -> (long) gap.lastTick() - gap.firstTick() + 1)
                .sum();
        return String.format(
                Locale.ROOT,
                "%.1f s of %s, seed %d: %d ticks recorded, %d lost, %d events; loops %.1f ms, the longest %.1f ms",
                rows == 0 ? 0.0 : seen.micros(rows - 1) / MICROS_PER_SECOND,
                of,
                seed,
                rows,
                lost,
                seen.events().size(),
                seen.medianLoopMicros() / 1000.0,
                seen.longestLoopMicros() / 1000.0);
    }

    private void finish(TraceFiles files, StoredTrace stored) throws UserError {
        if (csv != null) {
            files.writeTable(stored, surroundings.path(csv));
        }
    }
}
