package snagbench.bench.report.sheet;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.explain.Explanation;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.report.Figures;
import snagbench.bench.report.Sentences;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.write.ScriptWriter;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Restart;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/** The sheet of one script, or of all that one file stands for. */
final class ScriptSheet {
    private static final int MOST_REPORTS = 20;

    private final Markup out;
    private final Sources sources;
    private final Conclusions conclusions;
    private final RepeatSection repeats;
    private final int columns;

    ScriptSheet(Markup out, Sources sources, Conclusions conclusions, RepeatSection repeats, int columns) {
        this.out = out;
        this.sources = sources;
        this.conclusions = conclusions;
        this.repeats = repeats;
        this.columns = columns;
    }

    /** Where a result's sheet is on the page. */
    static String id(ScriptResult result) {
        return "s" + (result.index() + 1);
    }

    void of(Family family) {
        ScriptResult result = family.worst();
        Judgement judgement = result.judgement();
        Optional<FaultScript> script = sources.scripts().apply(result);
        out.open("article", "class", "sheet", "aria-labelledby", id(result));
        out.open("h2", "id", id(result), "tabindex", "-1");
        out.text("No. " + (result.index() + 1) + " ");
        out.name(Sentences.title(result)).closeLine();
        out.open("p", "class", "outcome");
        Stamp.put(out, judgement.verdict());
        out.text(" ").name(Sentences.cause(judgement)).text(".").closeLine();
        out.leaf("p", "That is: " + Sentences.meaning(judgement.verdict()) + ".", "class", "small");
        repeats.onSheet(result);
        script.map(FaultScript::why).filter(why -> !why.isBlank()).ifPresent(why -> {
            out.open("p", "class", "why")
                    .leaf("strong", "Why: ")
                    .name(why.strip())
                    .closeLine();
        });
        sources.register().ifPresent(register -> FailSafeSection.ofScript(out, register, result));
        Optional<StoredTrace> stored =
                sources.traces().apply(result).filter(one -> one.trace().rows() > 0);
        stored.ifPresent(one ->
                InShort.write(out, result, one.trace(), ChannelChoice.of(judgement, one.trace(), script), sources));
        if (family.varies()) {
            range(family);
        }
        reasons(judgement);
        stored.ifPresent(one -> seen(result, one, script));
        findings(judgement);
        controls(conclusions.controlsOf(result));
        if (script.isPresent() && stored.isPresent()) {
            plainWords(Explanation.sentences(script.get(), stored.get().trace().rig()));
        }
        out.leaf("h3", "The run in figures");
        facts(result);
        script.ifPresent(this::source);
        out.leaf("a", "back to the list", "href", "#plan", "class", "back");
        out.closeLine();
    }

    private void plainWords(List<String> sentences) {
        out.leaf("h3", "The script in plain words").open("ul");
        // The first only says the name once more.
        for (String sentence : sentences.subList(1, sentences.size())) {
            boolean below = sentence.startsWith("- ");
            out.open("li", "class", below ? "below" : "")
                    .name(below ? sentence.substring(2) : sentence)
                    .close();
        }
        out.closeLine();
    }

    private void range(Family family) {
        out.leaf("h3", "Margin over the range");
        out.open("figure")
                .open(
                        "div",
                        "class",
                        "scroll",
                        "role",
                        "region",
                        "tabindex",
                        "0",
                        "aria-label",
                        "Margin over the range");
        MarginChart.draw(out, family, "Margin of each setting; the table below has the figures");
        out.close();
        out.leaf(
                "figcaption",
                "Above the limit's line there was time to spare. A dot passed, a cross did not. This sheet shows the"
                        + " worst of "
                        + family.members().size() + ".");
        out.closeLine();
        boolean few = family.members().size() <= 12;
        if (!few) {
            out.open("details").leaf("summary", "All " + family.members().size() + " settings in figures");
        }
        Tables.open(out, "All settings", "No.", "Setting", "Verdict", "Detected", "Recovered", "Margin", "In words");
        for (ScriptResult one : family.members()) {
            out.open("tr").leaf("td", Integer.toString(one.index() + 1), "class", "figure");
            out.open("th", "scope", "row")
                    .name(one.variant().map(ScriptResult.Variation::setting).orElse(""))
                    .close();
            out.open("td");
            Stamp.put(out, one.judgement().verdict());
            out.close();
            out.leaf("td", Figures.millis(one.judgement().detectionMicros()), "class", "figure");
            out.leaf("td", Figures.millis(one.judgement().recoveryMicros()), "class", "figure");
            out.leaf("td", Figures.margin(Family.marginOf(one)), "class", "figure");
            boolean passed = one.judgement().verdict() == Verdict.PASS;
            out.open("td").name(passed ? "" : Sentences.cause(one.judgement())).close();
            out.closeLine();
        }
        Tables.close(out);
        if (!few) {
            out.closeLine();
        }
    }

    private void facts(ScriptResult result) {
        Judgement judgement = result.judgement();
        out.open("dl", "class", "head");
        out.open("div").leaf("dt", "Fail-safe").open("dd");
        if (result.failSafes().isEmpty()) {
            out.text("none named");
        }
        out.names(result.failSafes(), " ").close().close();
        Tables.line(out, "Evidence", Sentences.evidence(result.evidence()));
        Tables.line(out, "Detected", Figures.millis(judgement.detectionMicros()));
        Tables.line(out, "Recovered", Figures.millis(judgement.recoveryMicros()));
        Tables.line(out, "Margin", Figures.margin(judgement.marginMicros()));
        Tables.line(
                out,
                "Loop times",
                "median " + Figures.millis(result.loops().medianMicros()) + ", longest "
                        + Figures.millis(result.loops().longestMicros()) + ", with records on");
        Tables.line(out, "Ticks without a record", Long.toString(result.gapTicks()));
        Tables.line(out, "Ran for", Figures.seconds(result.rigMicros()) + ", seed " + result.seed());
        Tables.line(out, "Script", result.place().toString());
        result.trace().ifPresent(trace -> Tables.line(out, "Trace", trace));
        for (InjectionFacts one : judgement.injections()) {
            Tables.line(out, "Injection: " + one.name(), Sentences.injection(one));
        }
        out.closeLine();
    }

    private void reasons(Judgement judgement) {
        if (judgement.reasons().isEmpty()) {
            return;
        }
        out.leaf("h3", judgement.verdict() == Verdict.PASS ? "Notes" : "Reasons and notes")
                .open("ul");
        judgement.reasons().forEach(reason -> out.open("li").name(reason).close());
        out.closeLine();
    }

    private void seen(ScriptResult result, StoredTrace stored, Optional<FaultScript> script) {
        Trace trace = stored.trace();
        Judgement judgement = result.judgement();
        List<ChannelDescription> channels = ChannelChoice.of(judgement, trace, script);
        out.leaf("h3", "What was seen");
        out.open("figure", "class", "strips");
        out.open(
                "div",
                "class",
                "scroll",
                "role",
                "region",
                "tabindex",
                "0",
                "aria-label",
                "Chart of " + Sentences.title(result));
        StripChart.draw(
                out,
                "Injections, steps, reports, limits and readings over time; the tables on this sheet have the figures",
                judgement,
                trace,
                channels,
                columns);
        out.close();
        out.open("figcaption");
        key("M0 5H30", "real", "real reading");
        key("M0 5H30", "told", "what the control code was told, where that differs");
        out.open("span", "class", "key").open("svg", "width", "30", "height", "12", "aria-hidden", "true");
        out.empty("rect", "class", "window", "width", "30", "height", "12")
                .close()
                .text(" injection ")
                .close();
        out.text(
                "\u25cf came about, \u2502 its limit (the line to it dashed: nothing came about), \u2715 did not go well. "
                        + StripChart.zeroIs(judgement) + ".");
        out.close().closeLine();
        readings(judgement, trace, channels);
        reports(trace, "Fail-safe reports", "after arming");
        trace.restart().ifPresent(restart -> behindRestart(restart, trace, channels));
        wiring(trace, channels);
    }

    private void key(String path, String kind, String text) {
        out.open("span", "class", "key").open("svg", "width", "30", "height", "10", "aria-hidden", "true");
        out.empty("path", "class", kind, "d", path)
                .close()
                .text(" " + text + " ")
                .close();
    }

    /** What was read and what was believed, at the moments that matter. */
    private void readings(Judgement judgement, Trace trace, List<ChannelDescription> channels) {
        List<Moments.Moment> moments = Moments.of(judgement, trace);
        if (moments.isEmpty() || channels.isEmpty()) {
            return;
        }
        out.leaf("h3", "Readings at the moments that matter");
        String[] heads = new String[moments.size() + 1];
        heads[0] = "Channel";
        for (int i = 0; i < moments.size(); i++) {
            heads[i + 1] = moments.get(i).name() + ", "
                    + Figures.millis(trace.micros(moments.get(i).row()));
        }
        Tables.open(out, "Readings at the moments that matter", heads);
        for (ChannelDescription channel : channels) {
            out.open("tr").open("th", "scope", "row").name(channel.name()).close();
            for (Moments.Moment moment : moments) {
                out.open("td").name(reading(trace, moment.row(), channel)).close();
            }
            out.closeLine();
        }
        Tables.close(out);
    }

    private static String reading(Trace trace, int row, ChannelDescription channel) {
        if (!trace.has(row, channel.index())) {
            return "not recorded";
        }
        String real = channel.show(trace.real(row, channel.index()));
        String told = channel.show(trace.told(row, channel.index()));
        String stale = trace.stale(row, channel.index()) ? " (older: not read in this tick)" : "";
        return (real.equals(told) ? real : "told " + told + ", real " + real) + stale;
    }

    /** The new boot has a clock and ticks of its own, so that it has a drawing of its own. */
    private void behindRestart(Restart restart, Trace before, List<ChannelDescription> channels) {
        out.leaf("h3", "Behind the restart");
        String when = restart.noLaterMicros().isPresent()
                ? ", no later than " + Figures.millis(restart.noLaterMicros()) + " after arming by the host's clock"
                : "";
        out.leaf(
                "p",
                "The controller restarted ("
                        + restart.cause().name().toLowerCase(Locale.ROOT).replace('_', ' ') + ")" + when
                        + ". All overrides ended with it.");
        Optional<Trace> after = before.afterRestart().filter(part -> part.rows() > 0);
        if (after.isEmpty()) {
            out.leaf("p", "Nothing was recorded behind it.");
            return;
        }
        Trace part = after.get();
        OptionalLong none = OptionalLong.empty();
        Judgement nothingAsked = new Judgement(Verdict.NONE, List.of(), none, none, none, List.of(), List.of());
        out.open("figure", "class", "strips");
        out.open("div", "class", "scroll", "role", "region", "tabindex", "0", "aria-label", "Chart behind the restart");
        StripChart.draw(out, "Steps, reports and readings behind the restart", nothingAsked, part, channels, columns);
        out.close();
        out.leaf("figcaption", "0 ms is the start of the new boot, by its own clock.")
                .closeLine();
        reports(part, "Fail-safe reports behind the restart", "after the new boot");
    }

    private void reports(Trace trace, String title, String since) {
        List<Happening> reports = trace.events().stream()
                .filter(one -> one.kind() == EventKind.ANSWERED)
                .toList();
        out.leaf("h3", title);
        if (reports.isEmpty()) {
            out.leaf("p", "No fail-safe reported.");
            return;
        }
        out.open("ol");
        for (Happening one : reports.subList(0, Math.min(MOST_REPORTS, reports.size()))) {
            out.open("li").name(trace.rig().failSafeName(one.a()));
            out.text(" at " + Figures.millis(one.micros()) + " " + since + ", report no. " + one.b() + " of it")
                    .close();
        }
        out.close();
        if (reports.size() > MOST_REPORTS) {
            out.leaf("p", "And " + (reports.size() - MOST_REPORTS) + " more.");
        }
        out.text("\n");
    }

    private void wiring(Trace trace, List<ChannelDescription> channels) {
        if (channels.isEmpty()) {
            return;
        }
        out.leaf("h3", "Wiring of the channels involved");
        Tables.open(out, "Wiring of the channels involved", "Channel", "Wired", "Kind", "Range", "Overridden here");
        for (ChannelDescription channel : channels) {
            out.open("tr").open("th", "scope", "row").name(channel.name()).close();
            out.open("td").name(sources.wired(channel.name())).close();
            out.leaf("td", channel.kind().name().toLowerCase(Locale.ROOT));
            out.open("td")
                    .name(channel.show(channel.lowest()) + " to " + channel.show(channel.highest()))
                    .close();
            out.leaf("td", ChannelChoice.isForced(trace, channel.index()) ? "yes" : "no")
                    .closeLine();
        }
        Tables.close(out);
    }

    private void findings(Judgement judgement) {
        if (judgement.findings().isEmpty()) {
            return;
        }
        out.leaf("h3", "What was asked for, one by one");
        Tables.open(out, "What was asked for", "Verdict", "What", "Came about", "Margin", "What that rests on");
        for (Finding one : judgement.findings()) {
            out.open("tr").open("td");
            Stamp.put(out, one.verdict());
            out.close();
            out.open("th", "scope", "row").name(one.name()).close();
            out.leaf("td", Figures.millis(one.metMicros()), "class", "figure");
            out.open("td", "class", "figure").text(margins(one)).close();
            out.open("td");
            for (Fact fact : one.facts()) {
                out.open("div")
                        .leaf("span", fact.label() + ": ", "class", "small")
                        .name(fact.text())
                        .close();
            }
            out.close().closeLine();
        }
        Tables.close(out);
    }

    private void controls(List<ControlCheck> checks) {
        if (checks.isEmpty()) {
            return;
        }
        out.leaf("h3", "Control runs");
        Tables.open(out, "Control runs", "Run", "Bears the script out", "In words", "Came to by itself");
        for (ControlCheck check : checks) {
            out.open("tr")
                    .open("th", "scope", "row")
                    .name(check.control().words())
                    .close();
            out.leaf("td", check.state().word());
            out.open("td").name(check.sentence()).close();
            out.open("td");
            Stamp.put(out, check.verdict());
            out.close().closeLine();
        }
        Tables.close(out);
    }

    private static String margins(Finding finding) {
        String value = finding.marginValue().map(ValueMargin::show).orElse("");
        OptionalLong time = finding.marginMicros();
        if (time.isEmpty()) {
            return value.isEmpty() ? "-" : value;
        }
        return Figures.margin(time) + (value.isEmpty() ? "" : "; " + value);
    }

    private void source(FaultScript script) {
        out.open("details").leaf("summary", "The script as it was read");
        out.open("pre", "tabindex", "0").text(ScriptWriter.yaml(script)).close().closeLine();
    }
}
