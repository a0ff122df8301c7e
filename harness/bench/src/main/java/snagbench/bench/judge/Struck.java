package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Trigger;
import snagbench.bench.trace.Happening;
import snagbench.wire.EntryEnd;

/** What became of one injection. */
final class Struck {
    private final Course course;
    private final int index;
    private final Injection injection;
    private final Moment moment;
    private final List<Forced> overrides = new ArrayList<>();

    Struck(Course course, int index) {
        this.course = course;
        this.index = index;
        this.injection = course.script().injections().get(index);
        this.moment = course.strike(index);
        if (moment instanceof Moment.Known strike) {
            int entry = course.script().firstEntryOfInjection(index);
            for (Injection.Forcing forcing : injection.forcings()) {
                overrides.add(new Forced(course, forcing, entry++, strike));
            }
        }
    }

    InjectionFacts facts() {
        if (!(moment instanceof Moment.Known strike)) {
            return new InjectionFacts(
                    injection.name(),
                    OptionalLong.empty(),
                    OptionalLong.empty(),
                    OptionalLong.empty(),
                    OptionalLong.empty(),
                    Optional.empty(),
                    false,
                    0);
        }
        Optional<Happening> off = lastOff();
        return new InjectionFacts(
                injection.name(),
                OptionalLong.of(strike.tick()),
                OptionalLong.of(strike.micros()),
                OptionalLong.of(lastTick()),
                off.isPresent() ? OptionalLong.of(off.get().micros() - lastStrikeMicros(strike)) : OptionalLong.empty(),
                off.flatMap(one -> Optional.ofNullable(EntryEnd.of(one.b()))),
                changedSomething(),
                overrides.stream()
                        .flatMap(one -> one.lastStrike().stream())
                        .mapToInt(Happening::b)
                        .max()
                        .orElse(1));
    }

    private long lastStrikeMicros(Moment.Known strike) {
        return overrides.get(0).lastStrike().map(Happening::micros).orElse(strike.micros());
    }

    private Optional<Happening> lastOff() {
        Optional<Happening> last = Optional.empty();
        for (Forced one : overrides) {
            if (one.off().isEmpty()) {
                return Optional.empty();
            }
            if (last.isEmpty() || one.off().get().number() > last.get().number()) {
                last = one.off();
            }
        }
        return last;
    }

    private int lastTick() {
        return overrides.stream().mapToInt(Forced::lastTick).max().orElse(-1);
    }

    private boolean changedSomething() {
        return overrides.stream().anyMatch(Forced::changedSomething);
    }

    /** When it strikes, in words. */
    private String when() {
        Trigger trigger = injection.trigger();
        StringBuilder words = new StringBuilder();
        if (!trigger.when().terms().isEmpty()) {
            words.append(" when ").append(trigger.when().show());
        }
        if (trigger.forMicros() > 0) {
            words.append(" for ").append(Words.duration(trigger.forMicros()));
        }
        if (trigger.occasion() > 1) {
            words.append(" for the ").append(Words.ordinal(trigger.occasion())).append(" time");
        }
        if (trigger.delayMicros() > 0) {
            words.append(", ").append(Words.duration(trigger.delayMicros())).append(" later");
        }
        return trigger.after() instanceof Anchor.OfBegin
                ? words.toString()
                : words.append(" after ").append(trigger.after().show()).toString();
    }

    boolean isKnown() {
        return moment instanceof Moment.Known;
    }

    /** The finding, where it did not take effect. */
    Optional<Finding> withoutEffect() {
        Findings to = new Findings(injection.name(), injection.place());
        if (moment instanceof Moment.Missing missing) {
            if (course.beginning() instanceof Moment.Missing) {
                return Optional.empty();
            }
            to.expected(course.nameOf(index) + " strikes" + when()).butWas(missing.why());
            if (injection.trigger().when().terms().isEmpty()) {
                return Optional.of(to.where(-1).of(Verdict.INCONCLUSIVE));
            }
            return Optional.of(to.fact(
                            "closest",
                            new NearMiss(
                                            course,
                                            injection.trigger().when(),
                                            injection.trigger().after())
                                    .words())
                    .where(-1)
                    .of(Verdict.INCONCLUSIVE));
        }
        Moment.Known strike = (Moment.Known) moment;
        if (changedSomething()) {
            return Optional.empty();
        }
        String channels = Words.listed(injection.forcings().stream()
                .map(forcing -> forcing.channel().name())
                .distinct()
                .toList());
        return Optional.of(to.expected(course.nameOf(index) + " changes what the control code is told")
                .butWas("it changed nothing that was seen: told and real were the same of " + channels)
                .where(strike.tick())
                .of(Verdict.INCONCLUSIVE));
    }

    /** Why it was no longer there when the response came, if so. */
    Optional<String> endedBefore(int responseTick, String response) {
        boolean unknown = false;
        EntryEnd why = null;
        int last = -1;
        for (Forced one : overrides) {
            if (one.isShortByNature()) {
                continue;
            }
            switch (one.stateAt(responseTick)) {
                case ON, ENDED_AS_ASKED -> {
                    return Optional.empty();
                }
                case NOT_KNOWN -> unknown = true;
                case ENDED_BEFORE -> {
                    why = one.ended().orElse(null);
                    last = Math.max(last, one.lastTick());
                }
            }
        }
        if (unknown) {
            return Optional.of("it is not known whether " + course.nameOf(index) + " was still on when " + response
                    + ": " + Holes.between(course.timeline(), 0, responseTick));
        }
        if (why == null) {
            return Optional.empty();
        }
        return Optional.of(course.nameOf(index) + " ended " + Words.end(why) + " before " + response
                + ": its last tick was " + last + ", the answer came in tick " + responseTick);
    }
}
