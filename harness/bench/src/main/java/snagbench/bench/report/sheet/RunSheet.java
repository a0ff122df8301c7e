package snagbench.bench.report.sheet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ChecksText;
import snagbench.bench.report.Family;
import snagbench.bench.report.Figures;
import snagbench.bench.report.Sentences;
import snagbench.bench.report.Summary;
import snagbench.bench.run.Conclusion;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** The page of a run: one HTML file that needs nothing else, neither network nor script. */
public final class RunSheet {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "report.html";

    /** With so many results or more, curves are drawn coarser, so that the page stays below 10 MB. */
    private static final int MANY = 120;

    private static final int COLUMNS = 480;
    private static final int COLUMNS_OF_MANY = 200;

    private final RunRecord run;
    private final Sources sources;
    private final List<Family> families;
    private final Conclusions conclusions;
    private final Set<Integer> inconsistent;
    private final Markup out = new Markup();
    private final RepeatSection repeats;

    private RunSheet(RunRecord run, Sources sources) {
        this.run = run;
        this.sources = sources;
        this.families = Family.of(run.results());
        this.conclusions = Conclusions.of(run);
        this.inconsistent = conclusions.rows().stream()
                .filter(Conclusion::inconsistent)
                .flatMap(row -> row.runs().stream())
                .collect(Collectors.toSet());
        this.repeats = new RepeatSection(out, conclusions, families);
    }

    /**
     * Writes the page of a run.
     *
     * @param run as its journal tells it
     * @param sources what is to be said beyond it
     * @param folder takes the file
     * @return the file
     * @throws IOException if it cannot be written
     */
    public static Path write(RunRecord run, Sources sources, Path folder) throws IOException {
        Path file = folder.resolve(FILE_NAME);
        Files.writeString(file, html(run, sources), StandardCharsets.UTF_8);
        return file;
    }

    /**
     * The page of a run.
     *
     * @param run as its journal tells it
     * @param sources what is to be said beyond it
     * @return the file's text
     */
    public static String html(RunRecord run, Sources sources) {
        RunSheet sheet = new RunSheet(run, sources);
        sheet.page();
        return sheet.out.whole();
    }

    private void page() {
        out.open("html", "lang", "en");
        head();
        out.open("body");
        out.leaf("a", "To the list of scripts", "class", "skip", "href", "#plan");
        patterns();
        out.open("header");
        title();
        contents();
        out.closeLine();
        out.open("main");
        firstTrouble();
        plan();
        notRun();
        ScriptSheet sheet = new ScriptSheet(
                out, sources, conclusions, repeats, run.results().size() < MANY ? COLUMNS : COLUMNS_OF_MANY);
        families.forEach(sheet::of);
        checks();
        sources.register().ifPresent(register -> new FailSafeSection(out, register, run).write());
        if (sources.decisions().isPresent()) {
            new DecisionSection(out, sources.decisions().get()).write();
        } else if (sources.register().isPresent()) {
            DecisionSection.writeHowToMakeIt(out);
        }
        out.closeLine();
        footer();
        out.close().closeLine();
    }

    private void head() {
        Asset style = Asset.named("sheet.css");
        Asset program = Asset.named("sheet.js");
        out.open("head");
        out.empty("meta", "charset", "utf-8");
        out.empty(
                "meta",
                "http-equiv",
                "Content-Security-Policy",
                "content",
                "default-src 'none'; style-src " + style.hash() + "; script-src " + program.hash()
                        + "; base-uri 'none'; form-action 'none'");
        out.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
        out.empty("meta", "name", "color-scheme", "content", "light dark");
        out.leaf("title", run.header().plan() + ": " + Sentences.verdict(run));
        out.ours("style", style.text());
        // At the end of the head, and deferred by waiting for the page itself: the policy allows no attribute to do so.
        out.ours("script", program.text());
        out.closeLine();
    }

    /** Hatchings that the charts fill with. */
    private void patterns() {
        out.open("svg", "class", "patterns", "width", "0", "height", "0", "aria-hidden", "true");
        out.open("defs");
        pattern("hatch", "hatch-line", "M0 8L8 0");
        pattern("gap-hatch", "gap-line", "M0 0L8 8M0 8L8 0");
        out.close().closeLine();
    }

    private void pattern(String id, String kind, String path) {
        out.open("pattern", "id", id, "width", "8", "height", "8", "patternUnits", "userSpaceOnUse");
        out.empty("path", "class", kind, "d", path);
        out.close();
    }

    private void title() {
        RunHeader header = run.header();
        Summary summary = Summary.of(run);
        out.open("h1").name(header.plan()).close();
        out.open("p", "class", "outcome");
        Stamp.put(out, summary.worst());
        out.text(" " + Sentences.verdict(run) + ".").closeLine();
        out.open("dl", "class", "head");
        field("Rig", header.rig() + (header.real() ? " (real: it moves)" : " (virtual: nothing moves)"));
        field("Build", header.build());
        field("Started", header.started().truncatedTo(ChronoUnit.SECONDS).toString());
        field("Seed", Integer.toString(header.seed()));
        field("Plan's file", header.file());
        field("Count", summary.words());
        field("Time on the rig's clock", Figures.seconds(summary.rigMicros()));
        field(
                "Made by",
                "Snagbench " + header.harness() + ", Java " + header.java() + ", rig's digest " + header.digest());
        out.closeLine();
    }

    /** Where a register makes the page long. */
    private void contents() {
        if (sources.register().isEmpty()) {
            return;
        }
        out.open("nav", "aria-label", "On this page");
        out.leaf("a", "The plan at a glance", "href", "#plan");
        if (!repeats.isEmpty()) {
            out.leaf("a", "Repeats and claims", "href", "#repeats");
        }
        out.leaf("a", "Fail-safes and what proves them", "href", "#fail-safes");
        out.leaf("a", "What the time reserve bears", "href", "#reserve");
        out.leaf("a", "Decision table", "href", "#decisions");
        out.closeLine();
    }

    private void field(String label, String text) {
        out.open("div");
        out.leaf("dt", label);
        out.open("dd").name(text).close().close();
    }

    private void firstTrouble() {
        Optional<ScriptResult> first = Sentences.firstTrouble(run);
        first.ifPresent(result -> {
            out.open("section", "class", "first", "aria-labelledby", "first");
            out.leaf("h2", "Look here first", "id", "first");
            out.open("p");
            Stamp.put(out, result.judgement().verdict());
            out.text(" ");
            out.open("a", "href", "#" + ScriptSheet.id(result))
                    .name(Sentences.title(result))
                    .close();
            out.closeLine();
            out.open("p", "class", "cause")
                    .name(Sentences.cause(result.judgement()))
                    .text(".")
                    .close();
            out.closeLine();
        });
        if (run.end().isEmpty()) {
            out.leaf("p", "The run was cut short: its journal has no end.", "class", "warning");
        }
        run.end().filter(end -> end.cause() != RunEnd.Cause.COMPLETE).ifPresent(end -> out.open("p", "class", "warning")
                .text("The run went no further: ")
                .name(end.reason())
                .text(".")
                .closeLine());
    }

    private void plan() {
        out.open("section", "aria-labelledby", "plan");
        out.leaf("h2", "The plan at a glance", "id", "plan", "tabindex", "-1");
        out.leaf(
                "p",
                "Detected: from the first tick with the fault to the fail-safe's report. Recovered: to the state that had to come"
                        + " about. Margin: what the tightest limit had to spare; below zero it was missed.",
                "class",
                "small");
        if (!repeats.isEmpty()) {
            repeats.write();
            out.leaf("h3", "The scripts in their order");
        }
        Tables.open(
                out,
                "The scripts in their order",
                "No.",
                "Verdict",
                "Script",
                "Fail-safe",
                "Detected",
                "Recovered",
                "Margin",
                "Evidence");
        families.forEach(this::row);
        Tables.close(out);
        out.closeLine();
    }

    private void row(Family family) {
        ScriptResult result = family.worst();
        boolean many = family.varies();
        Judgement judgement = result.judgement();
        out.open("tr");
        out.leaf("td", Integer.toString(family.members().get(0).index() + 1), "class", "figure");
        out.open("td");
        Stamp.put(out, judgement.verdict());
        out.close();
        out.open("th", "scope", "row").open("a", "href", "#" + ScriptSheet.id(result));
        out.name(many ? result.script() : Sentences.title(result)).close();
        if (many) {
            out.text(" ").leaf("span", "worst of " + family.members().size() + " settings", "class", "small");
        }
        if (family.members().stream().anyMatch(one -> inconsistent.contains(one.index()))) {
            out.text(" ").leaf("strong", "inconsistent: it both passed and failed");
        }
        controls(result);
        repeats.inPlan(family.members());
        out.close();
        out.open("td").names(result.failSafes(), " ").close();
        out.leaf("td", Figures.millis(judgement.detectionMicros()), "class", "figure");
        out.leaf("td", Figures.millis(judgement.recoveryMicros()), "class", "figure");
        out.leaf("td", Figures.margin(judgement.marginMicros()), "class", "figure");
        out.leaf("td", Sentences.evidenceWord(result.evidence()));
        out.closeLine();
    }

    /** How the control runs of a script bear it out, where there are any. */
    private void controls(ScriptResult result) {
        List<ControlCheck> checks = conclusions.controlsOf(result);
        if (checks.isEmpty()) {
            return;
        }
        String words = Arrays.stream(ControlCheck.State.values())
                .filter(state -> checks.stream().anyMatch(check -> check.state() == state))
                .map(state ->
                        checks.stream().filter(check -> check.state() == state).count() + " " + state.word())
                .collect(Collectors.joining(", "));
        out.text(" ").leaf("span", "control runs: " + words, "class", "small");
    }

    /** What control runs and changed control code say of the plan itself. */
    private void checks() {
        List<String> lines = ChecksText.lines(run);
        if (lines.isEmpty()) {
            return;
        }
        out.open("section", "aria-labelledby", "checks");
        out.leaf("h2", "What the plan notices", "id", "checks").open("ul");
        lines.forEach(line -> out.open("li").name(line.strip()).close());
        out.close().closeLine();
    }

    private void notRun() {
        List<String> titles = run.notRun();
        if (titles.isEmpty()) {
            return;
        }
        out.open("section", "aria-labelledby", "not-run");
        out.leaf("h2", "Not run", "id", "not-run");
        out.open("ol", "start", Integer.toString(run.results().size() + 1));
        titles.forEach(title -> out.open("li").name(title).close());
        out.close().closeLine();
    }

    private void footer() {
        out.open("footer");
        out.leaf(
                "p",
                "Told is not physical: a reading that was overridden makes no sag, heat or force. This page says what was seen on"
                        + " this bench, with this build. It is no statement that a machine is safe; that is for qualified people, by"
                        + " the rules that apply where the machine stands.");
        out.leaf(
                "p",
                "Loop times are those of loops that recorded, since nothing else tells of a loop. What recording costs a loop,"
                        + " \"identify --port\" measures: it compares a record in each loop with one in many.");
        boolean left = run.results().stream().anyMatch(one -> one.judgement().verdict() == Verdict.NONE);
        if (left) {
            out.leaf("p", "Scripts with the verdict none were left out; their sheets say why.");
        }
        out.closeLine();
    }
}
