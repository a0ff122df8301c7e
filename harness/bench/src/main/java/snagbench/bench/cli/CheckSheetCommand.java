package snagbench.bench.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.SheetMaker;
import snagbench.bench.report.sheet.CheckSheet;
import snagbench.bench.report.sheet.Readiness;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;

/** Makes the sheet of paper that is gone through before the machine runs. */
@Command(
        name = "check-sheet",
        mixinStandardHelpOptions = true,
        description = {
            "Makes one printable page for before an event: each fail-safe, when it was last proven, on which build, by how",
            "much, told or physical, what to look at, and what is not covered. It asks nothing to move; but with --port, know",
            "that opening a port restarts many boards, and that control code may move something as it starts.",
            "It ends with 0 only if every fail-safe is proven on the build that is on the machine."
        },
        footer = {
            "",
            "Example: snagbench check-sheet --build \"1.4 practice\"",
            "Example: snagbench check-sheet results/2026-03-01T22-15-00-nightly --port /dev/ttyUSB0"
        })
final class CheckSheetCommand implements Callable<Integer> {
    private static final int LEASE_MILLIS = 1000;
    private static final String FILE_NAME = "check-sheet.html";

    private final Surroundings surroundings;

    @Parameters(
            paramLabel = "RUN",
            arity = "0..*",
            description = "Folders of runs, or folders with such folders in them. Usually results.")
    private List<String> given = List.of("results");

    @Mixin
    private SharedOptions shared = new SharedOptions();

    @Mixin
    private LineOptions line = new LineOptions();

    @Option(
            names = "--build",
            paramLabel = "BUILD",
            description = "Name of the build on the machine. Instead of it, --port asks the machine.")
    private @Nullable String build;

    @Option(names = "--out", paramLabel = "FILE", description = "The page. Usually " + FILE_NAME + " beside the runs.")
    private @Nullable String out;

    CheckSheetCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    /** A run and where it lies. */
    private record Found(Path folder, RunRecord run) {}

    @Override
    public Integer call() throws UserError {
        if (build != null && line.isPortGiven()) {
            throw new UserError(
                    ExitStatus.FILES,
                    "--build and --port both say which build is on the machine; give --port alone, and the machine is"
                            + " asked, or --build alone, and no port is opened");
        }
        List<Found> found = find();
        String name = rigName(found);
        Optional<RigChoice.Rig> rig = rig(name, found);
        String rigOfRuns = rig.map(one -> one.content().name()).orElse(name);
        RegisterSheet register = register(rigOfRuns, rig, found);
        Readiness readiness =
                Readiness.of(rigOfRuns, register, found.stream().map(Found::run).toList(), machineBuild(rig));
        Path page = out != null
                ? surroundings.path(out)
                : surroundings.path(given.get(0)).resolve(FILE_NAME);
        try {
            Files.writeString(
                    page, CheckSheet.html(readiness, Instant.now(surroundings.clock())), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "the page cannot be written: " + RunCommand.reason(e));
        }
        show(readiness);
        surroundings.out().println("Check sheet: " + surroundings.show(page));
        return status(readiness);
    }

    private void show(Readiness readiness) {
        long proven = readiness.count(Readiness.State.PROVEN);
        surroundings
                .out()
                .println(readiness.rig() + ": " + proven + " of "
                        + readiness.lines().size() + " fail-safes proven"
                        + readiness
                                .machineBuild()
                                .map(one -> " on build " + one)
                                .orElse("") + "; runs looked at: "
                        + readiness.runs());
        readiness.warnings().forEach(warning -> surroundings.out().println("warning: " + warning));
    }

    private static int status(Readiness readiness) {
        if (readiness.count(Readiness.State.FAILED) > 0) {
            return ExitStatus.FAIL;
        }
        boolean all =
                readiness.count(Readiness.State.PROVEN) == readiness.lines().size();
        return all && readiness.machineBuild().isPresent() ? ExitStatus.PASS : ExitStatus.INCONCLUSIVE;
    }

    private List<Found> find() throws UserError {
        List<Found> found = new ArrayList<>();
        for (String one : given) {
            Path path = surroundings.path(one);
            if (!Files.isDirectory(path)) {
                throw new UserError(
                        ExitStatus.FILES,
                        "there is no folder " + surroundings.show(path)
                                + "; give folders of runs, as \"run\" makes them");
            }
            if (Files.isRegularFile(path.resolve(Journal.FILE_NAME))) {
                read(path, found);
                continue;
            }
            try (Stream<Path> inside = Files.list(path)) {
                inside.filter(folder -> Files.isRegularFile(folder.resolve(Journal.FILE_NAME)))
                        .sorted()
                        .forEach(folder -> read(folder, found));
            } catch (IOException e) {
                throw new UserError(ExitStatus.FILES, surroundings.show(path) + ": " + RunCommand.reason(e));
            }
        }
        if (found.isEmpty()) {
            throw new UserError(
                    ExitStatus.FILES,
                    "there is no run in " + String.join(", ", given) + "; give folders of runs, as \"run\" makes them");
        }
        return found;
    }

    /** A journal that cannot be read proves nothing; the others still count. */
    private void read(Path folder, List<Found> found) {
        try {
            found.add(new Found(folder, RunRecord.read(folder.resolve(Journal.FILE_NAME))));
        } catch (IOException e) {
            surroundings.err().println("warning: left out: " + e.getMessage());
        }
    }

    /** Asked for, or that of the newest run. */
    private String rigName(List<Found> found) {
        return shared.rig()
                .orElseGet(() -> newestFirst(found).get(0).run().header().rig());
    }

    private static List<Found> newestFirst(List<Found> found) {
        return found.stream()
                .sorted(Comparator.comparing((Found one) -> one.run().header().started())
                        .reversed())
                .toList();
    }

    private Optional<RigChoice.Rig> rig(String name, List<Found> found) throws UserError {
        RigChoice rigs = new RigChoice(surroundings);
        Path from = newestFirst(found).stream()
                .flatMap(one -> one.run().results().stream())
                .map(result -> result.place().file())
                .findFirst()
                .orElse(surroundings.folder());
        if (shared.rig().isPresent()) {
            return rigs.read(rigs.find(name, from), new ArrayList<>());
        }
        try {
            return rigs.read(rigs.find(name, from), new ArrayList<>());
        } catch (UserError e) {
            // What was kept with the runs will do.
            return Optional.empty();
        }
    }

    /** As it is now, so that a fail-safe that nobody ever ran is on the sheet; else as it was when last run. */
    private RegisterSheet register(String rig, Optional<RigChoice.Rig> files, List<Found> found) throws UserError {
        Optional<FailSafeRegister> now = files.flatMap(RigChoice.Rig::register);
        if (now.isPresent()) {
            return SheetMaker.of("", 0, now.get(), files.get().content(), List.of());
        }
        for (Found one : newestFirst(found)) {
            try {
                Optional<RegisterSheet> kept = RegisterSheet.read(one.folder());
                if (kept.isPresent() && one.run().header().rig().equals(rig)) {
                    surroundings
                            .err()
                            .println("warning: the register of " + rig + " is not at hand; taken as it was in "
                                    + surroundings.show(one.folder()));
                    return kept.get();
                }
            } catch (IOException e) {
                surroundings.err().println("warning: left out: " + e.getMessage());
            }
        }
        throw new UserError(
                ExitStatus.FILES,
                "rig " + rig
                        + " has no fail-safe register (failsafes.yaml beside its rig.yaml), which the sheet goes by");
    }

    /** Said, or asked of the machine over a port; the rig's file alone is no reason to open one. */
    @SuppressWarnings("try") // It counts for as long as it is open, and nothing is asked of it.
    private Optional<String> machineBuild(Optional<RigChoice.Rig> rig) throws UserError {
        if (!line.isPortGiven()) {
            return Optional.ofNullable(build);
        }
        RigFile.SerialLine usual = rig.map(one -> one.content().line()).orElse(RigFile.SerialLine.usual());
        LineOptions.Chosen port = line.chosen(usual).orElseThrow();
        SessionSettings settings = SessionSettings.usual(
                        surroundings.nonces().getAsInt(), LEASE_MILLIS, surroundings.cancelled())
                .withGreeting(SessionSettings.BOARD_GREETING_MICROS, 0);
        try (OpenLines.Opened opened = surroundings.lines().open();
                Link link = SerialLink.open(port.port(), SerialSettings.at(port.baud()), System::nanoTime);
                RigSession session = RigSession.open(link, settings, Optional.empty())) {
            return Optional.of(session.hello().build);
        } catch (LinkException | SessionException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
        }
    }
}
