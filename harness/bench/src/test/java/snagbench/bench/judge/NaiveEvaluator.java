package snagbench.bench.judge;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.wire.EventKind;

/**
 * What expectations mean, written down as plainly as can be, on a trace of which everything is known: the oracle for the
 * judge. Slow, and free to be.
 */
final class NaiveEvaluator {
    private static final MathContext EXACT_ENOUGH = new MathContext(60);

    private final FaultScript script;
    private final PlainTrace trace;

    NaiveEvaluator(FaultScript script, PlainTrace trace) {
        this.script = script;
        this.trace = trace;
    }

    /** A moment: its tick, the event that tells it or 0, and from when on states count. */
    private record Moment(int tick, int event, int firstForStates) {}

    /** Met or missed; empty where a trace of which everything is known still settles nothing. */
    Optional<Boolean> isMet(int index) {
        Expectation expectation = script.expectations().get(index);
        if (expectation instanceof Expectation.AnsweredBy it) {
            return moment(it.after())
                    .flatMap(from -> answered(it, from, it.time()).map(found -> found.tick >= 0));
        }
        if (expectation instanceof Expectation.Becomes it) {
            return moment(it.after())
                    .flatMap(from -> became(it, from, it.time()).map(found -> found.tick >= 0));
        }
        if (expectation instanceof Expectation.Stays it) {
            return moment(it.after())
                    .flatMap(from -> held(it.condition(), it.forMicros(), it.within(), from))
                    .map(tick -> tick >= 0);
        }
        if (expectation instanceof Expectation.Settles it) {
            long time = it.forMicros().orElse(-1);
            return moment(it.after())
                    .flatMap(from -> held(it.condition(), time, it.within(), from))
                    .map(tick -> tick >= 0);
        }
        if (expectation instanceof Expectation.Order it) {
            return order(it);
        }
        Optional<Stretch> stretch = Chain.stretchOf(expectation);
        Optional<Moment> from = stretch.isPresent() ? moment(stretch.get().from()) : Optional.of(new Moment(0, 0, 1));
        Optional<Moment> to = stretch.flatMap(Stretch::to).isPresent()
                ? moment(stretch.get().to().get())
                : Optional.of(new Moment(Integer.MAX_VALUE, 0, 0));
        if (from.isEmpty() || to.isEmpty()) {
            return Optional.empty();
        }
        return over(expectation, stretch, from.get(), to.get());
    }

    private Optional<Boolean> over(Expectation expectation, Optional<Stretch> stretch, Moment from, Moment to) {
        if (to.tick <= from.tick) {
            return Optional.empty();
        }
        boolean seen = endOf(stretch, from, to) <= trace.micros[trace.ticks - 1];
        List<Integer> ticks = IntStream.range(0, trace.ticks)
                .filter(tick -> isIn(stretch, from, to, tick))
                .boxed()
                .toList();
        if (expectation instanceof Expectation.MustNotFire it) {
            boolean fired = reports(it.failSafe().number(), from, to, stretch).size() > 0;
            return fired ? Optional.of(false) : seen ? Optional.of(true) : Optional.empty();
        }
        if (expectation instanceof Expectation.Times it) {
            return times(it, ticks, from, to, stretch, seen);
        }
        boolean always = !(expectation instanceof Expectation.Never);
        Condition condition = expectation instanceof Expectation.Always it
                ? it.condition()
                : expectation instanceof Expectation.Never never
                        ? never.condition()
                        : new Condition(expectation.place(), List.of(((Expectation.Peak) expectation).reading()));
        List<Integer> judged =
                ticks.stream().filter(tick -> hasValue(condition, tick)).toList();
        if (judged.stream().anyMatch(tick -> holds(condition, tick) != always)) {
            return Optional.of(false);
        }
        return seen && !judged.isEmpty() ? Optional.of(true) : Optional.empty();
    }

    private Optional<Boolean> times(
            Expectation.Times it,
            List<Integer> ticks,
            Moment from,
            Moment to,
            Optional<Stretch> stretch,
            boolean seen) {
        long count = it.what().terms().get(0) instanceof Condition.Answers answers
                        && it.what().terms().size() == 1
                ? reports(answers.failSafe().number(), from, to, stretch).size()
                : ticks.stream()
                        .filter(tick -> tick >= from.firstForStates && comesAbout(it.what(), tick))
                        .count();
        if (count > it.most().orElse(Integer.MAX_VALUE)) {
            return Optional.of(false);
        }
        if (!seen) {
            return count >= it.least() && it.most().isEmpty() ? Optional.of(true) : Optional.empty();
        }
        return Optional.of(count >= it.least());
    }

    private long endOf(Optional<Stretch> stretch, Moment from, Moment to) {
        if (stretch.flatMap(Stretch::window).isPresent()) {
            return trace.micros[from.tick] + stretch.get().window().get().mostMicros();
        }
        return to.tick == Integer.MAX_VALUE ? end() : trace.micros[to.tick - 1];
    }

    private long end() {
        FaultScript.End end = script.end().orElseThrow();
        return trace.micros[moment(end.after()).orElseThrow().tick] + end.micros();
    }

    private boolean isIn(Optional<Stretch> stretch, Moment from, Moment to, int tick) {
        long since = trace.micros[tick] - trace.micros[from.tick];
        long least = stretch.flatMap(Stretch::window)
                .map(Expectation.Window::leastMicros)
                .orElse(0L);
        return tick >= from.tick && tick < to.tick && since >= least && trace.micros[tick] <= endOf(stretch, from, to);
    }

    private List<PlainTrace.Event> reports(int failSafe, Moment from, Moment to, Optional<Stretch> stretch) {
        return trace.events.stream()
                .filter(one -> one.kind() == EventKind.ANSWERED && one.a() == failSafe)
                .filter(one -> one.number() > from.event)
                .filter(one -> isIn(stretch, from, to, one.tick())
                        || (one.tick() == to.tick && one.number() < to.event && one.tick() >= from.tick))
                .toList();
    }

    private Optional<Boolean> order(Expectation.Order it) {
        List<Moment> moments = new ArrayList<>();
        for (Anchor anchor : it.moments()) {
            Optional<Moment> one = moment(anchor);
            if (one.isEmpty()) {
                return Optional.empty();
            }
            moments.add(one.get());
        }
        for (int i = 1; i < moments.size(); i++) {
            Moment before = moments.get(i - 1);
            Moment next = moments.get(i);
            boolean follows = next.tick > before.tick
                    || (next.tick == before.tick && before.event > 0 && (next.event == 0 || next.event > before.event));
            if (!follows) {
                return Optional.of(false);
            }
        }
        return Optional.of(true);
    }

    private Optional<Moment> moment(Anchor anchor) {
        if (anchor instanceof Anchor.OfBegin) {
            return Optional.of(new Moment(0, 0, 1));
        }
        if (anchor instanceof Anchor.OfInjection it) {
            return trace.events.stream()
                    .filter(one -> one.kind() == EventKind.ENTRY_ON && one.b() == it.time())
                    .map(one -> new Moment(one.tick(), one.number(), one.tick()))
                    .findFirst();
        }
        Anchor.OfExpectation of = (Anchor.OfExpectation) anchor;
        Expectation expectation = script.expectations().get(of.index());
        if (!isMet(of.index()).orElse(false)) {
            return Optional.empty();
        }
        Moment from = moment(((Expectation.Timed) expectation).after()).orElseThrow();
        if (expectation instanceof Expectation.AnsweredBy it) {
            return of.time() == 1 ? answered(it, from, it.time()) : report(it, from, of.time());
        }
        if (expectation instanceof Expectation.Becomes it) {
            return of.time() == 1 ? became(it, from, it.time()) : entry(it, from, of.time());
        }
        Condition condition = expectation instanceof Expectation.Stays stays
                ? stays.condition()
                : ((Expectation.Settles) expectation).condition();
        long time = expectation instanceof Expectation.Stays stays
                ? stays.forMicros()
                : ((Expectation.Settles) expectation).forMicros().orElse(-1);
        return held(condition, time, ((Expectation.Timed) expectation).within(), from)
                .map(tick -> new Moment(tick, 0, tick + 1));
    }

    private static final Moment MISSED = new Moment(-1, 0, 0);

    private Optional<Moment> answered(Expectation.AnsweredBy it, Moment from, int time) {
        Optional<Moment> found = report(it, from, time);
        Optional<Moment> judged = inWindow(found, it.within(), from);
        if (judged.isEmpty() || judged.get().equals(MISSED) || !it.noOther()) {
            return judged;
        }
        boolean other = trace.events.stream()
                .anyMatch(one -> one.kind() == EventKind.ANSWERED
                        && one.a() != it.failSafe().number()
                        && one.tick() >= from.tick
                        && one.number() > from.event
                        && one.number() < found.orElseThrow().event);
        return other ? Optional.of(MISSED) : judged;
    }

    private Optional<Moment> report(Expectation.AnsweredBy it, Moment from, int time) {
        return trace.events.stream()
                .filter(one -> one.kind() == EventKind.ANSWERED
                        && one.a() == it.failSafe().number())
                .filter(one -> one.number() > from.event && one.tick() >= from.tick)
                .skip(time - 1L)
                .map(one -> new Moment(one.tick(), one.number(), one.tick()))
                .findFirst();
    }

    private Optional<Moment> became(Expectation.Becomes it, Moment from, int time) {
        return inWindow(entry(it, from, time), it.within(), from);
    }

    private Optional<Moment> entry(Expectation.Becomes it, Moment from, int time) {
        return IntStream.range(from.firstForStates, trace.ticks)
                .filter(tick -> comesAbout(it.condition(), tick))
                .skip(time - 1L)
                .mapToObj(tick -> new Moment(tick, 0, tick + 1))
                .findFirst();
    }

    private Optional<Moment> inWindow(Optional<Moment> found, Expectation.Window window, Moment from) {
        long closes = trace.micros[from.tick] + window.mostMicros();
        if (found.isEmpty()) {
            return trace.micros[trace.ticks - 1] >= closes ? Optional.of(MISSED) : Optional.empty();
        }
        long at = trace.micros[found.get().tick];
        return at < trace.micros[from.tick] + window.leastMicros() || at > closes ? Optional.of(MISSED) : found;
    }

    /** The first tick of the window from which on it held; -1 where there is none. A negative time is to the end. */
    private Optional<Integer> held(Condition condition, long forMicros, Expectation.Window window, Moment from) {
        boolean open = trace.micros[trace.ticks - 1] < trace.micros[from.tick] + window.mostMicros();
        for (int begin = from.tick; begin < trace.ticks; begin++) {
            long since = trace.micros[begin] - trace.micros[from.tick];
            if (since < window.leastMicros() || since > window.mostMicros()) {
                continue;
            }
            long until = forMicros < 0 ? end() : trace.micros[begin] + forMicros;
            boolean broken = false;
            for (int tick = begin; tick < trace.ticks; tick++) {
                broken |= (tick == begin || trace.micros[tick] <= until) && !holds(condition, tick);
            }
            if (!broken && trace.micros[trace.ticks - 1] >= until) {
                return Optional.of(begin);
            }
            open |= !broken;
        }
        return open ? Optional.empty() : Optional.of(-1);
    }

    private boolean comesAbout(Condition condition, int tick) {
        return holds(condition, tick) && !holds(condition, tick - 1);
    }

    private boolean holds(Condition condition, int tick) {
        return condition.terms().stream().allMatch(term -> holds(term, tick));
    }

    private boolean holds(Condition.Term term, int tick) {
        if (term instanceof Condition.Answers it) {
            return trace.events.stream()
                    .anyMatch(one -> one.kind() == EventKind.ANSWERED
                            && one.tick() == tick
                            && one.a() == it.failSafe().number());
        }
        if (term instanceof Condition.Compares it) {
            return holds(it.relation(), value(it.channel(), it.source(), tick).compareTo(BigDecimal.valueOf(it.raw())));
        }
        if (term instanceof Condition.ComparesToStrike it) {
            int strike = moment(it.injection()).orElseThrow().tick;
            BigDecimal limit = value(it.channel(), Source.REAL, strike).add(BigDecimal.valueOf(it.offset()));
            return holds(it.relation(), value(it.channel(), it.source(), tick).compareTo(limit));
        }
        if (term instanceof Condition.Crosses it) {
            if (tick < 1) {
                return false;
            }
            int now = value(it.channel(), it.source(), tick).compareTo(BigDecimal.valueOf(it.raw()));
            int before = value(it.channel(), it.source(), tick - 1).compareTo(BigDecimal.valueOf(it.raw()));
            return it.rises() ? now >= 0 && before < 0 : now <= 0 && before > 0;
        }
        if (term instanceof Condition.Moves it) {
            if (tick < it.ticks()) {
                return false;
            }
            int change = value(it.channel(), it.source(), tick)
                    .subtract(value(it.channel(), it.source(), tick - it.ticks()))
                    .abs()
                    .compareTo(BigDecimal.valueOf(it.raw()));
            return it.more() ? change > 0 : change < 0;
        }
        if (term instanceof Condition.Agrees it) {
            return value(it.channel(), Source.TOLD, tick)
                            .subtract(value(it.channel(), Source.REAL, tick))
                            .abs()
                            .compareTo(BigDecimal.valueOf(it.raw()))
                    <= 0;
        }
        return ((Condition.AnyOf) term).alternatives().stream().anyMatch(one -> holds(one, tick));
    }

    private static boolean holds(Relation relation, int sign) {
        return relation.holds(sign, 0);
    }

    /** Whether all that a condition is worked out from has a value: a rate has none before its window is full. */
    private boolean hasValue(Condition condition, int tick) {
        return condition.terms().stream()
                .allMatch(term -> !(term instanceof Condition.Compares it)
                        || it.channel().index() < trace.real.length
                        || !(formula(it.channel()) instanceof DerivedChannel.Rate rate)
                        || trace.micros[tick] >= rate.overMicros());
    }

    private DerivedChannel.Formula formula(ChannelDescription channel) {
        return script.derived().get(channel.index() - trace.real.length).formula();
    }

    /** In steps of the channel, exact. */
    private BigDecimal value(ChannelDescription channel, Source source, int tick) {
        if (channel.index() < trace.real.length) {
            return BigDecimal.valueOf(
                    source == Source.TOLD && channel.index() == 1
                            ? trace.told[tick]
                            : trace.real[channel.index()][tick]);
        }
        DerivedChannel.Formula formula = formula(channel);
        if (formula instanceof DerivedChannel.Rate it) {
            int before = tick;
            while (trace.micros[tick] - trace.micros[before] < it.overMicros()) {
                before--;
            }
            return size(it.of(), it.source(), tick)
                    .subtract(size(it.of(), it.source(), before))
                    .multiply(BigDecimal.valueOf(1_000_000))
                    .divide(
                            BigDecimal.valueOf(trace.micros[tick] - trace.micros[before])
                                    .multiply(channel.step()),
                            EXACT_ENOUGH);
        }
        if (formula instanceof DerivedChannel.Difference it) {
            return size(it.of(), it.source(), tick)
                    .subtract(size(it.less(), it.lessSource(), tick))
                    .divide(channel.step(), EXACT_ENOUGH);
        }
        if (formula instanceof DerivedChannel.Sum it) {
            return size(it.of(), it.source(), tick)
                    .add(size(it.and(), it.andSource(), tick))
                    .divide(channel.step(), EXACT_ENOUGH);
        }
        if (formula instanceof DerivedChannel.Mean it) {
            List<BigDecimal> all = window(it.of(), it.source(), tick, it.overMicros() - 1);
            return all.stream()
                    .reduce(BigDecimal.ZERO, BigDecimal::add)
                    .divide(channel.step().multiply(BigDecimal.valueOf(all.size())), EXACT_ENOUGH);
        }
        if (formula instanceof DerivedChannel.RootMeanSquare it) {
            List<BigDecimal> all = window(it.of(), it.source(), tick, it.overMicros() - 1);
            return all.stream()
                    .map(one -> one.multiply(one))
                    .reduce(BigDecimal.ZERO, BigDecimal::add)
                    .divide(channel.step().pow(2).multiply(BigDecimal.valueOf(all.size())), EXACT_ENOUGH)
                    .sqrt(EXACT_ENOUGH);
        }
        return BigDecimal.valueOf(
                formula instanceof DerivedChannel.Stalled it
                        ? (isStalled(it, tick) ? 1 : 0)
                        : (debounced((DerivedChannel.Debounced) formula, tick) ? 1 : 0));
    }

    private BigDecimal size(ChannelDescription channel, Source source, int tick) {
        return value(channel, source, tick).multiply(channel.step());
    }

    /** The readings of all ticks that lie at most so long back. */
    private List<BigDecimal> window(ChannelDescription channel, Source source, int tick, long micros) {
        return IntStream.rangeClosed(0, tick)
                .filter(at -> trace.micros[tick] - trace.micros[at] <= micros)
                .mapToObj(at -> size(channel, source, at))
                .toList();
    }

    private boolean isStalled(DerivedChannel.Stalled it, int tick) {
        List<BigDecimal> all = window(it.of(), it.source(), tick, it.overMicros());
        BigDecimal greatest = all.stream().max(BigDecimal::compareTo).orElseThrow();
        BigDecimal least = all.stream().min(BigDecimal::compareTo).orElseThrow();
        return trace.micros[tick] >= it.overMicros()
                && IntStream.rangeClosed(tick - all.size() + 1, tick).allMatch(at -> holds(it.driven(), at))
                && greatest.subtract(least).compareTo(it.of().step().multiply(BigDecimal.valueOf(it.raw()))) < 0;
    }

    private boolean debounced(DerivedChannel.Debounced it, int tick) {
        boolean state = false;
        for (int at = 0; at <= tick; at++) {
            boolean now = holds(it.condition(), at);
            int begin = at;
            while (begin > 0 && holds(it.condition(), begin - 1) == now) {
                begin--;
            }
            if (trace.micros[at] - trace.micros[begin] >= it.forMicros()) {
                state = now;
            }
        }
        return state;
    }
}
