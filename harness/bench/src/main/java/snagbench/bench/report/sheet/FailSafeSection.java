package snagbench.bench.report.sheet;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.report.Figures;
import snagbench.bench.report.Sentences;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.Reserve;
import snagbench.bench.report.register.Traceability;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** What the register says, what this run proves of it, what it does not, and which recoveries the time reserve bears. */
final class FailSafeSection {
    private static final String ENDING = ".fault.yaml";

    private final Markup out;
    private final RegisterSheet register;
    private final RunRecord run;
    private final Traceability matrix;

    FailSafeSection(Markup out, RegisterSheet register, RunRecord run) {
        this.out = out;
        this.register = register;
        this.run = run;
        this.matrix = Traceability.of(register, run.results());
    }

    /** Where a fail-safe is on the page; empty where the register does not have it. */
    static Optional<String> id(RegisterSheet register, String failSafe) {
        List<String> names =
                register.failSafes().stream().map(RegisterSheet.FailSafe::name).toList();
        int place = names.indexOf(failSafe);
        return place < 0 ? Optional.empty() : Optional.of("f" + (place + 1));
    }

    void write() {
        out.open("section", "aria-labelledby", "fail-safes");
        out.leaf("h2", "Fail-safes and what proves them", "id", "fail-safes", "tabindex", "-1");
        register.severityBy().ifPresent(by -> out.open("p", "class", "small")
                .text("Severity from I, the worst, to IV, by ")
                .name(by)
                .text(".")
                .closeLine());
        Tables.open(
                out, "Fail-safes and the scripts that prove them", "Fail-safe", "Severity", "Proved by", "In words");
        register.failSafes().forEach(this::row);
        Tables.close(out);
        amiss("Fail-safes without a script", matrix.withoutScript());
        amiss("Fail-safes of which nothing was run", matrix.withoutResult());
        amiss("Scripts without a fail-safe", matrix.withoutFailSafe());
        amiss("Register and scripts do not agree", matrix.notInRegister());
        neverTried();
        out.closeLine();
        reserve(Reserve.of(register, run.results()));
    }

    private void row(RegisterSheet.FailSafe failSafe) {
        out.open("tr");
        out.open("th", "scope", "row", "id", id(register, failSafe.name()).orElse(""));
        out.names(List.of(failSafe.name()), "").text(" ").name(failSafe.title()).close();
        out.leaf("td", failSafe.severity());
        out.open("td");
        List<Traceability.Row> rows = matrix.rows().stream()
                .filter(row -> row.failSafe().equals(failSafe.name()))
                .toList();
        if (rows.isEmpty()) {
            out.text("no script");
        }
        rows.stream().filter(row -> row.runs() > 0).forEach(this::proof);
        if (isNotAsked(rows)) {
            out.leaf("div", "No proof: nothing that passed asked it to answer.");
        }
        notRun(rows.stream().filter(row -> row.runs() == 0).toList());
        out.close();
        out.open("td");
        failSafe.words().ifPresent(words -> {
            out.open("details");
            out.open("summary").name(words.effect()).close();
            words(words);
            out.close();
        });
        out.close().closeLine();
    }

    private static boolean isNotAsked(List<Traceability.Row> rows) {
        return rows.stream().anyMatch(Traceability.Row::onlyQuiet)
                && rows.stream().noneMatch(row -> row.verdict() == Verdict.PASS && row.asked());
    }

    private void proof(Traceability.Row row) {
        out.open("div", "class", "proof");
        Stamp.put(out, row.verdict());
        out.text(" ");
        Optional<ScriptResult> worst = worst(row);
        if (worst.isPresent()) {
            out.open("a", "href", "#" + ScriptSheet.id(worst.get()))
                    .name(brief(row.script()))
                    .close();
        } else {
            out.name(brief(row.script()));
        }
        row.evidence().ifPresent(evidence -> out.text(", " + Sentences.evidenceWord(evidence)));
        if (row.runs() > 1) {
            out.text(", worst of " + row.runs());
        }
        if (row.onlyQuiet()) {
            out.text(", it only had to keep quiet");
        }
        out.closeLine();
    }

    /** That result whose sheet is on the page. */
    private Optional<ScriptResult> worst(Traceability.Row row) {
        return Family.of(run.results()).stream()
                .map(Family::worst)
                .filter(one -> String.valueOf(one.place().file().getFileName()).equals(row.script()))
                .filter(one -> one.judgement().verdict() == row.verdict())
                .findFirst();
    }

    private void notRun(List<Traceability.Row> rows) {
        if (rows.isEmpty()) {
            return;
        }
        out.open("div", "class", "small");
        out.open("span", "class", "stamp none").text("not run").close().text(" ");
        out.name(rows.stream().map(row -> brief(row.script())).collect(Collectors.joining(", ")));
        out.closeLine();
    }

    private static String brief(String script) {
        return script.endsWith(ENDING) ? script.substring(0, script.length() - ENDING.length()) : script;
    }

    private void words(RegisterSheet.Words words) {
        out.open("dl", "class", "words");
        Tables.line(out, "Cause", words.cause());
        Tables.line(out, "Effect", words.effect());
        Tables.line(out, "Seen by", words.symptoms());
        Tables.line(out, "Response", words.response());
        Tables.line(out, "Recovered", words.recovery());
        Tables.line(out, "Parts", String.join(", ", words.parts()));
        for (RegisterSheet.Sensor sensor : words.sensors()) {
            Tables.line(
                    out,
                    "Looks at " + sensor.channel(),
                    sensor.wired().isEmpty() ? "the rig's file does not say" : sensor.wired());
        }
        out.close();
    }

    private void amiss(String what, List<String> names) {
        if (names.isEmpty()) {
            return;
        }
        out.open("p").leaf("strong", what + ": ").name(String.join("; ", names)).closeLine();
    }

    private void neverTried() {
        if (matrix.possible() == 0) {
            return;
        }
        out.open("details")
                .leaf(
                        "summary",
                        "Kinds of fault tried on what fail-safes look at, step by step: " + matrix.tried() + " of "
                                + matrix.possible());
        Tables.open(
                out, "Kinds of fault tried and never tried", "Step", "Channel", "Looked at by", "Tried", "Never tried");
        for (RegisterSheet.Combination one : matrix.combinations()) {
            out.open("tr").open("th", "scope", "row").name(one.step()).close();
            out.open("td").name(one.channel()).close();
            out.open("td").names(one.failSafes(), " ").close();
            out.leaf("td", one.tried().isEmpty() ? "none" : String.join(", ", one.tried()));
            out.leaf("td", String.join(", ", one.never())).closeLine();
        }
        Tables.close(out);
        out.closeLine();
    }

    private void reserve(Reserve reserve) {
        out.open("section", "aria-labelledby", "reserve");
        out.leaf("h2", "What the time reserve bears", "id", "reserve");
        out.leaf(
                "p",
                "The run has " + Figures.seconds(reserve.reserveMicros())
                        + " in reserve. Each recovery counts with the most that it takes; that one takes as long whatever came"
                        + " before it is an assumption.");
        costs(reserve);
        if (!reserve.costs().isEmpty()) {
            pairs(reserve);
            for (int recoveries = 1; recoveries <= 3; recoveries++) {
                out.leaf(
                        "p",
                        List.of("One recovery", "Two recoveries", "Three recoveries")
                                        .get(recoveries - 1) + ": "
                                + reserve.fitting(recoveries) + " of "
                                + reserve.of(recoveries).size() + " fit.");
            }
            tooMuch(reserve.leastTooMuch());
        }
        out.closeLine();
    }

    private void costs(Reserve reserve) {
        Tables.open(out, "What a recovery takes of the reserve", "Fail-safe", "At most", "Where that is from", "Also");
        for (Reserve.Cost cost : reserve.costs()) {
            out.open("tr")
                    .open("th", "scope", "row")
                    .names(List.of(cost.failSafe()), "")
                    .close();
            out.leaf("td", Figures.seconds(cost.micros()), "class", "figure");
            out.leaf("td", words(cost.basis()));
            out.open("td").name(cost.except()).close().closeLine();
        }
        Tables.close(out);
        amiss("Not counted in time", reserve.notTimes());
    }

    private static String words(Reserve.Basis basis) {
        return switch (basis) {
            case MEASURED -> "this run, against nominal runs";
            case REGISTER -> "the register, against nominal runs";
            case RECOVERY_SEEN -> "the longest recovery of this run, from the fault on; it may take more";
        };
    }

    /** Down and across: any two in one run; the upper half says all. */
    private void pairs(Reserve reserve) {
        List<String> names =
                reserve.costs().stream().map(Reserve.Cost::failSafe).toList();
        List<Reserve.Combination> pairs = reserve.of(2);
        out.leaf("h3", "Any two recoveries in one run");
        String[] heads = new String[names.size() + 1];
        heads[0] = "and then";
        for (int i = 0; i < names.size(); i++) {
            heads[i + 1] = names.get(i);
        }
        Tables.open(out, "Any two recoveries in one run", heads);
        int next = 0;
        for (int row = 0; row < names.size(); row++) {
            out.open("tr")
                    .open("th", "scope", "row")
                    .names(List.of(names.get(row)), "")
                    .close();
            for (int column = 0; column < names.size(); column++) {
                if (column < row) {
                    out.leaf("td", "");
                    continue;
                }
                Reserve.Combination pair = pairs.get(next++);
                out.leaf(
                        "td",
                        (pair.fits() ? "\u2713 " : "\u2715 ") + Figures.seconds(pair.micros()),
                        "class",
                        pair.fits() ? "figure fits" : "figure too-much");
            }
            out.closeLine();
        }
        Tables.close(out);
        out.leaf("p", "\u2713 fits in the reserve, \u2715 does not.", "class", "small");
    }

    private void tooMuch(List<Reserve.Combination> all) {
        if (all.isEmpty()) {
            return;
        }
        out.open("details").leaf("summary", "What does not fit, though with one recovery less it would: " + all.size());
        out.open("ul");
        all.forEach(one -> out.open("li")
                .name(one.words())
                .text(": " + Figures.seconds(one.micros()))
                .close());
        out.close().closeLine();
    }

    /** The fail-safes that a script is about, on its sheet. */
    static void ofScript(Markup out, RegisterSheet register, ScriptResult result) {
        for (String name : result.failSafes()) {
            Optional<RegisterSheet.FailSafe> found = register.failSafe(name);
            if (found.isEmpty() || found.get().words().isEmpty()) {
                continue;
            }
            RegisterSheet.FailSafe failSafe = found.get();
            RegisterSheet.Words words = failSafe.words().get();
            out.open("p", "class", "about")
                    .open("a", "href", "#" + id(register, name).orElse(""));
            out.name(name).close();
            out.text(" ").open("strong").name(failSafe.title()).close();
            out.text(", severity " + failSafe.severity() + ". Otherwise: ").name(words.effect());
            out.text(". The machine is to ").name(words.response());
            out.text("; recovered: ").name(words.recovery());
            out.text(". Parts: ").name(String.join(", ", words.parts())).text(".");
            if (result.judgement().verdict() == Verdict.FAIL) {
                out.text(" What makes it necessary: ").name(words.cause()).text(".");
            }
            out.closeLine();
        }
    }
}
