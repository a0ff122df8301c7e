package snagbench.bench.report.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Figures;
import snagbench.bench.report.Sentences;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;
import snagbench.wire.EventKind;

/**
 * What somebody with a screwdriver in hand asks first: which sensor, which plug, what did it read, what did the code believe, when
 * did it act, how close was it.
 */
final class InShort {
    private final Markup out;
    private final ScriptResult result;
    private final Trace trace;
    private final Sources sources;
    private final InjectionFacts injection;
    private final long zero;

    private InShort(Markup out, ScriptResult result, Trace trace, Sources sources, InjectionFacts injection) {
        this.out = out;
        this.result = result;
        this.trace = trace;
        this.sources = sources;
        this.injection = injection;
        this.zero = injection.firstMicros().orElse(0);
    }

    static void write(
            Markup out, ScriptResult result, Trace trace, List<ChannelDescription> channels, Sources sources) {
        Optional<InjectionFacts> first = result.judgement().injections().stream()
                .filter(one -> one.firstMicros().isPresent() && one.firstTick().isPresent())
                .findFirst();
        if (first.isPresent()) {
            new InShort(out, result, trace, sources, first.get()).write(channels);
        }
    }

    private void write(List<ChannelDescription> channels) {
        List<ChannelDescription> forced = channels.stream()
                .filter(one -> ChannelChoice.isForced(trace, one.index()))
                .toList();
        List<ChannelDescription> sensors = channels.stream()
                .filter(one -> one.kind() == ChannelKind.SENSOR && !forced.contains(one))
                .toList();
        List<ChannelDescription> shown = new ArrayList<>(forced);
        if (forced.stream().noneMatch(one -> one.kind() == ChannelKind.SENSOR)) {
            shown.addAll(sensors);
        }
        out.leaf("h3", "In short");
        if (!shown.isEmpty()) {
            Tables.open(
                    out, "In short, channel by channel", "Which", "Where it is wired", "It read", "The code believed");
            shown.forEach(this::row);
            Tables.close(out);
        }
        out.open("dl", "class", "words");
        Tables.line(out, "When did it act", acted());
        Tables.line(out, "How close was it", close());
        out.closeLine();
    }

    private void row(ChannelDescription channel) {
        out.open("tr").open("th", "scope", "row").name(channel.name()).close();
        out.open("td").name(sources.wired(channel.name())).close();
        Optional<String> real = range(channel, false);
        Optional<String> told = range(channel, true);
        out.open("td").name(real.orElse("not recorded")).close();
        boolean same = real.equals(told) && !ChannelChoice.isForced(trace, channel.index());
        out.open("td")
                .name(same ? "the same: it was not overridden" : told.orElse("not recorded"))
                .close()
                .closeLine();
    }

    /** Least and greatest while the fault was there. */
    private Optional<String> range(ChannelDescription channel, boolean told) {
        int index = channel.index();
        boolean forced = ChannelChoice.isForced(trace, index);
        int first = (int) injection.firstTick().orElse(0);
        int last = (int) injection.lastTick().orElse(Integer.MAX_VALUE);
        int least = Integer.MAX_VALUE;
        int greatest = Integer.MIN_VALUE;
        for (int row = 0; row < trace.rows(); row++) {
            boolean counts = forced ? trace.wasForced(row, index) : trace.tick(row) >= first && trace.tick(row) <= last;
            if (counts && trace.has(row, index)) {
                least = Math.min(least, told ? trace.leastTold(row, index) : trace.leastReal(row, index));
                greatest = Math.max(greatest, told ? trace.greatestTold(row, index) : trace.greatestReal(row, index));
            }
        }
        if (least > greatest) {
            return Optional.empty();
        }
        return Optional.of(
                least == greatest ? channel.show(least) : channel.show(least) + " to " + channel.show(greatest));
    }

    private String acted() {
        List<String> parts = new ArrayList<>();
        Optional<Happening> first = trace.events().stream()
                .filter(one -> one.kind() == EventKind.ANSWERED && one.micros() >= zero)
                .findFirst();
        String wanted = String.join(" ", result.failSafes());
        if (first.isPresent()) {
            String name = trace.rig().failSafeName(first.get().a());
            boolean other = !result.failSafes().isEmpty() && !result.failSafes().contains(name);
            parts.add((other ? "not " + wanted + " but " : "") + name + " reported "
                    + Figures.millis(first.get().micros() - zero) + " after the fault began");
        } else {
            parts.add("no fail-safe reported" + (wanted.isEmpty() ? "" : ", " + wanted + " neither"));
        }
        step().ifPresent(parts::add);
        return String.join("; ", parts);
    }

    /** The first change of the step under the fault. */
    private Optional<String> step() {
        Optional<ChannelDescription> step = trace.rig().step();
        if (step.isEmpty()) {
            return Optional.empty();
        }
        int index = step.get().index();
        int before = -1;
        for (int row = 0; row < trace.rows(); row++) {
            if (!trace.has(row, index)) {
                continue;
            }
            if (before >= 0 && trace.micros(row) > zero && trace.told(row, index) != trace.told(before, index)) {
                return Optional.of("the step went from " + step.get().show(trace.told(before, index)) + " to "
                        + step.get().show(trace.told(row, index)) + " "
                        + Figures.millis(trace.micros(row) - zero) + " after it");
            }
            before = row;
        }
        return Optional.of("the step stayed as it was");
    }

    private String close() {
        Judgement judgement = result.judgement();
        OptionalLong margin = judgement.marginMicros();
        if (judgement.verdict() == Verdict.PASS || margin.isEmpty()) {
            return Sentences.cause(judgement);
        }
        return margin.getAsLong() < 0
                ? "the tightest limit was missed by " + Figures.millis(-margin.getAsLong())
                : Sentences.cause(judgement);
    }
}
