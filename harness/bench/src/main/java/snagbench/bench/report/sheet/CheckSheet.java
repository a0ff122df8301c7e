package snagbench.bench.report.sheet;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.report.Figures;
import snagbench.bench.report.Sentences;
import snagbench.bench.report.register.RegisterSheet;

/** A sheet of paper to go through at the machine, before it runs with nobody near it. */
public final class CheckSheet {
    private static final String ENDING = ".fault.yaml";

    private final Readiness readiness;
    private final Instant made;
    private final Markup out = new Markup();

    private CheckSheet(Readiness readiness, Instant made) {
        this.readiness = readiness;
        this.made = made;
    }

    /**
     * The page.
     *
     * @param readiness how the fail-safes stand
     * @param made when, by the host's clock
     * @return the file's text
     */
    public static String html(Readiness readiness, Instant made) {
        CheckSheet sheet = new CheckSheet(readiness, made);
        sheet.page();
        return sheet.out.whole();
    }

    private void page() {
        Asset style = Asset.named("sheet.css");
        Asset own = Asset.named("check.css");
        out.open("html", "lang", "en").open("head");
        out.empty("meta", "charset", "utf-8");
        out.empty(
                "meta",
                "http-equiv",
                "Content-Security-Policy",
                "content",
                "default-src 'none'; style-src " + style.hash() + " " + own.hash()
                        + "; base-uri 'none'; form-action 'none'");
        out.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
        out.empty("meta", "name", "color-scheme", "content", "light dark");
        out.leaf("title", "Before the run: " + readiness.rig());
        out.ours("style", style.text());
        out.ours("style", own.text());
        out.closeLine();
        out.open("body", "class", "check").open("main");
        head();
        warnings();
        failSafes();
        sign();
        out.close().close().closeLine();
    }

    private void head() {
        out.open("h1").text("Before the run: ").name(readiness.rig()).closeLine();
        out.open("dl", "class", "head");
        Tables.line(
                out, "Build on the machine", readiness.machineBuild().orElse("not told; by hand: ________________"));
        Tables.line(
                out,
                "Proven on it",
                readiness.count(Readiness.State.PROVEN) + " of "
                        + readiness.lines().size() + " fail-safes"
                        + (readiness.machineBuild().isEmpty() ? ", if it is the build below" : ""));
        Tables.line(out, "Runs looked at", Integer.toString(readiness.runs()));
        Tables.line(out, "Made", made.truncatedTo(ChronoUnit.MINUTES).toString());
        out.closeLine();
    }

    private void warnings() {
        List<String> warnings = readiness.warnings();
        if (warnings.isEmpty()) {
            return;
        }
        out.open("div", "class", "warning").leaf("strong", "Mind:").open("ul");
        warnings.forEach(one -> out.open("li").name(one).close());
        out.close().closeLine();
    }

    private void failSafes() {
        Tables.open(
                out,
                "Fail-safes",
                "Seen to",
                "Fail-safe, severity",
                "Stands",
                "Last proven",
                "Least margin",
                "Look at",
                "Not covered");
        readiness.lines().forEach(this::row);
        Tables.close(out);
    }

    private void row(Readiness.Line line) {
        RegisterSheet.FailSafe failSafe = line.failSafe();
        boolean troubled = !line.trouble().isEmpty();
        out.open("tr", "class", troubled ? "troubled" : "");
        out.open("td").open("span", "class", "box").close().close();
        out.open("th", "scope", "row").name(failSafe.name()).text(" ").name(failSafe.title());
        out.text(", " + failSafe.severity()).close();
        out.open("td");
        state(line.state());
        out.close();
        out.open("td");
        line.proof().ifPresentOrElse(this::proof, () -> out.text("never"));
        out.close();
        out.open("td")
                .open("div")
                .text(line.proof().map(one -> Figures.margin(one.margin())).orElse("-"))
                .close();
        line.proof().ifPresent(proof -> proof.marginValues()
                .forEach(one -> out.open("div").name(one).close()));
        out.close();
        lookAt(failSafe);
        out.open("td").name(notCovered(line)).close();
        out.closeLine();
        if (troubled) {
            out.open("tr", "class", "trouble");
            out.open("td", "colspan", "7")
                    .leaf("strong", "Why: ")
                    .name(line.trouble())
                    .close();
            out.closeLine();
        }
    }

    private void state(Readiness.State state) {
        String kind =
                switch (state) {
                    case PROVEN -> "pass";
                    case OTHER_BUILD, NOT_ASKED, UNSETTLED -> "inconclusive";
                    case FAILED -> "fail";
                    case NEVER -> "none";
                };
        out.leaf("span", words(state), "class", "stamp " + kind);
    }

    private static String words(Readiness.State state) {
        return switch (state) {
            case PROVEN -> "\u2713 proven";
            case OTHER_BUILD -> "! other build";
            case NOT_ASKED -> "? not asked";
            case UNSETTLED -> "? not settled";
            case FAILED -> "\u2715 failed";
            case NEVER -> "\u2013 never run";
        };
    }

    private void proof(Readiness.Proof proof) {
        long days = Duration.between(proof.when(), made).toDays();
        String since = Readiness.day(proof.since());
        String when = Readiness.day(proof.when());
        out.open("div").text((since.compareTo(when) < 0 ? since + " to " + when : when) + ago(days) + ", build ");
        out.name(proof.build()).text(proof.real() ? ", real" : ", virtual").close();
        out.open("div")
                .text(Sentences.evidenceWord(proof.evidence()) + "; " + count(proof.scripts(), "script")
                        + (proof.runs() > proof.scripts() ? ", " + proof.runs() + " runs" : ""))
                .close();
    }

    private static String ago(long days) {
        return days <= 0 ? "" : ", " + count(days, "day") + " ago";
    }

    private static String count(long count, String what) {
        return count + " " + what + (count == 1 ? "" : "s");
    }

    private void lookAt(RegisterSheet.FailSafe failSafe) {
        out.open("td");
        Optional<RegisterSheet.Words> words = failSafe.words();
        if (words.isEmpty()) {
            out.text("the register was not kept with the run");
        } else {
            out.open("div").name(String.join(", ", words.get().parts())).close();
            // What hangs on one plug is said once.
            List<String> plugs = words.get().sensors().stream()
                    .filter(sensor -> !sensor.wired().isEmpty())
                    .map(sensor -> sensor.wired())
                    .distinct()
                    .toList();
            if (!plugs.isEmpty()) {
                out.open("div", "class", "small").name(String.join("; ", plugs)).close();
            }
        }
        out.close();
    }

    private static String notCovered(Readiness.Line line) {
        if (line.failSafe().scripts().isEmpty()) {
            return "the register names no script";
        }
        String scripts = line.notCovered().stream()
                .map(one -> one.endsWith(ENDING) ? one.substring(0, one.length() - ENDING.length()) : one)
                .collect(Collectors.joining(", "));
        boolean toldOnly = line.proof()
                .map(one -> Sentences.evidenceWord(one.evidence()).equals("told"))
                .orElse(false);
        String told = toldOnly ? "told only: no real sag, heat or force" : "";
        if (scripts.isEmpty() && told.isEmpty()) {
            return "-";
        }
        return scripts.isEmpty() || told.isEmpty() ? scripts + told : told + "; " + scripts;
    }

    private void sign() {
        out.open("section", "aria-labelledby", "sign");
        out.leaf("h2", "At the machine", "id", "sign");
        out.leaf(
                "p",
                "Power off, and what could fall clamped or blocked, before a hand goes in. Then: plugs seated, cables free over the"
                        + " whole travel, slides clean, battery charged and strapped, floor clear, the switch that takes the power"
                        + " away tried. This sheet says what was seen on a bench; it is no statement that the machine is safe, which"
                        + " is for qualified people, by the rules that apply where it stands.");
        out.open("dl", "class", "sign");
        for (String line : List.of("Battery, V at rest", "Found and mended", "Checked by", "Date and time", "Signed")) {
            out.open("div").leaf("dt", line).open("dd").text("\u00a0").close().close();
        }
        out.close().closeLine();
    }
}
