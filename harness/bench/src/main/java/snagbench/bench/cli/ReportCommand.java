package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snagbench.bench.report.Family;
import snagbench.bench.report.register.DecisionSheet;
import snagbench.bench.report.register.DecisionText;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.RegisterText;
import snagbench.bench.report.register.Reserve;
import snagbench.bench.report.register.Traceability;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.StoredTrace;

/** Makes the results again from a journal. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = "Makes the results of a run again from its journal, also of one that was cut short.",
        footer = {"", "Example: snagbench report results/2026-03-01T22-15-00-nightly"})
final class ReportCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(paramLabel = "RUN", description = "A run's folder, or its journal.")
    private String given = "";

    @Option(
            names = "--tables",
            description = {
                "Also writes each trace as a table (*.csv, one record a tick) and as value changes (*.vcd, for"
                        + " programs",
                "that show waveforms), beside it."
            })
    private boolean tables;

    @Option(
            names = "--matrix",
            description = "Shows which script proves which fail-safe, what was never tried, and which recoveries the"
                    + " plan's reserve can bear.")
    private boolean matrix;

    @Option(
            names = "--decision-table",
            description = {
                "Lays the symptoms of the rig's fail-safe register, as it is now, side by side: what two fail-safes claim,",
                "and what none answers; and holds them against the run's traces: whether that one answered whose symptom",
                "was there."
            })
    private boolean decisions;

    @Option(
            names = "--nominal",
            paramLabel = "TRACE",
            description = {
                "With --matrix: a run without a fault (\"record\"), against which recoveries are measured. A virtual rig's",
                "run brings its own; without one, the register's word goes."
            })
    private String nominal = "";

    @Mixin
    private Talk talk = new Talk();

    ReportCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        talk.check();
        if (!nominal.isEmpty() && !matrix) {
            throw new UserError(
                    ExitStatus.FILES,
                    "--nominal goes with --matrix, which shows what recoveries cost against that run");
        }
        Path path = surroundings.path(given);
        Path journal = Files.isDirectory(path) ? path.resolve(Journal.FILE_NAME) : path;
        try {
            RunRecord run = RunRecord.read(journal).concluded();
            Results results = new Results(surroundings, talk);
            show(run, results);
            Path folder = journal.toAbsolutePath().getParent();
            if (folder != null) {
                RunPages pages = new RunPages(surroundings, folder, results);
                if (matrix) {
                    showMatrix(run, folder, pages);
                } else {
                    warn(run, folder, results);
                }
                if (decisions) {
                    showDecisions(run, folder, pages);
                }
                pages.write(run);
                if (tables) {
                    new TraceExport(surroundings, folder).write(run);
                }
            }
            return ExitStatus.of(run);
        } catch (NoSuchFileException e) {
            throw new UserError(
                    ExitStatus.FILES, "there is no journal " + surroundings.show(journal) + "; give a run's folder");
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, String.valueOf(e.getMessage()));
        }
    }

    private void warn(RunRecord run, Path folder, Results results) throws IOException {
        String how = "report " + surroundings.show(folder) + " --matrix";
        RegisterSheet.read(folder)
                .flatMap(sheet -> RegisterText.warning(Traceability.of(sheet, run.results()), how))
                .ifPresent(results::note);
    }

    private void showMatrix(RunRecord run, Path folder, RunPages pages) throws IOException, UserError {
        RegisterSheet sheet = RegisterSheet.read(folder)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        "there is no " + RegisterSheet.FILE_NAME + " in " + surroundings.show(folder)
                                + ": only a plan whose rig has a fail-safe register leaves one"));
        if (!nominal.isEmpty()) {
            List<RegisterSheet.Measured> measured = measured(run, folder, pages);
            if (measured.isEmpty()) {
                surroundings
                        .err()
                        .println("warning: nothing was measured against " + nominal
                                + ": no run in which one fail-safe answered once came back to its steps; what was measured"
                                + " before stays");
            } else {
                sheet = sheet.with(measured);
                sheet.write(folder);
            }
        }
        surroundings.out().println();
        RegisterText.matrix(sheet, Traceability.of(sheet, run.results())).forEach(surroundings.out()::println);
        surroundings.out().println();
        RegisterText.reserve(Reserve.of(sheet, run.results())).forEach(surroundings.out()::println);
        surroundings.out().println();
    }

    private List<RegisterSheet.Measured> measured(RunRecord run, Path folder, RunPages pages) throws UserError {
        StoredTrace trace = new TraceFiles(surroundings).read(nominal, () -> new RigChoice(surroundings)
                .find(run.header().rig(), surroundings.path(nominal)));
        ChannelDescription step = trace.trace()
                .rig()
                .step()
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES, nominal + ": that rig tells of no step, by which runs could be compared"));
        return new NominalRuns(surroundings, folder, pages).costs(run, step, trace, nominal);
    }

    private void showDecisions(RunRecord run, Path folder, RunPages pages) throws IOException, UserError {
        DecisionSheet sheet = new DecisionCheck(surroundings, folder, pages).of(run);
        surroundings.out().println();
        DecisionText.lines(sheet).forEach(surroundings.out()::println);
        surroundings.out().println();
        surroundings.out().println("Table:   " + surroundings.show(sheet.write(folder)));
    }

    private static void show(RunRecord run, Results results) {
        results.begin(run.header().plan() + " on " + run.header().rig() + ", build "
                + run.header().build() + ", seed " + run.header().seed() + ", started "
                + run.header().started());
        List<Family> families = Family.of(run.results());
        families.forEach(results::rows);
        results.details(families);
        results.summary(run);
    }
}
