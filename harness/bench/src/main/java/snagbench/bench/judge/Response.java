package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** Whether the recovery was the named fail-safe's doing, under the fault; and what that time was made of. */
final class Response {
    private final Course course;
    private final FaultScript script;
    private final List<Struck> injections;

    Response(Course course, List<Struck> injections) {
        this.course = course;
        this.script = course.script();
        this.injections = injections;
    }

    /** Detection, response and recovery, as far as they were seen. */
    Split split() {
        Optional<Reached> detected = detected();
        return new Split(detected, begun(detected), recovered(detected));
    }

    /** The first report of the fail-safe that must answer. */
    private Optional<Reached> detected() {
        Optional<Expectation.AnsweredBy> answer = firstAnswer();
        if (answer.isEmpty() || !(strikeBefore(answer.get().after()) instanceof Moment.Known strike)) {
            return Optional.empty();
        }
        return firstReport(answer.get().failSafe(), strike)
                .map(one -> new Reached(one.tick(), one.micros(), one.micros() - strike.micros()));
    }

    /** The first change of the step that the control code makes once it has answered; once it was struck, where none must. */
    private Optional<Reached> begun(Optional<Reached> detected) {
        Optional<ChannelDescription> step = course.trace().rig().step();
        Optional<Expectation.AnsweredBy> answer = firstAnswer();
        Moment from = answer.isPresent() ? strikeBefore(answer.get().after()) : course.strike(0);
        if (step.isEmpty() || (answer.isPresent() && detected.isEmpty()) || !(from instanceof Moment.Known strike)) {
            return Optional.empty();
        }
        long tick = detected.map(Reached::tick).orElse((long) strike.tick());
        return course.timeline().events().stream()
                .filter(one -> one.is(EventKind.STATE, step.get().index()) && one.tick() >= tick)
                .findFirst()
                .map(one -> new Reached(one.tick(), one.micros(), one.micros() - strike.micros()));
    }

    /**
     * The recovery state: the latest state that had to come about and did. Where a fail-safe must answer, what came about before
     * it did is the fault, and no recovery.
     */
    private Optional<Reached> recovered(Optional<Reached> detected) {
        if (firstAnswer().isPresent() && detected.isEmpty()) {
            return Optional.empty();
        }
        Optional<Reached> recovery = Optional.empty();
        long latest = detected.map(Reached::micros).orElse(0L);
        for (int i = 0; i < script.expectations().size(); i++) {
            if (isState(script.expectations().get(i))
                    && script.expectations().get(i) instanceof Expectation.Timed it
                    && course.chain().part(it) == 0
                    && strikeBefore(it.after()) instanceof Moment.Known strike) {
                Finding finding = course.outcome(i).finding();
                if (finding.verdict() == Verdict.PASS
                        && finding.metMicros().isPresent()
                        && finding.metMicros().getAsLong() >= latest) {
                    latest = finding.metMicros().getAsLong();
                    recovery = Optional.of(new Reached(finding.metTick().orElse(-1), latest, latest - strike.micros()));
                }
            }
        }
        return recovery;
    }

    private static boolean isState(Expectation expectation) {
        return expectation instanceof Expectation.Becomes
                || expectation instanceof Expectation.Stays
                || expectation instanceof Expectation.Settles;
    }

    private Optional<Expectation.AnsweredBy> firstAnswer() {
        return script.expectations().stream()
                .filter(one ->
                        one instanceof Expectation.AnsweredBy && course.chain().part(one) == 0)
                .map(Expectation.AnsweredBy.class::cast)
                .findFirst();
    }

    private Moment strikeBefore(Anchor anchor) {
        Optional<Anchor.OfInjection> injection = course.chain().injection(anchor);
        return injection.isPresent() ? course.moment(injection.get()) : course.strike(0);
    }

    private Optional<Happening> firstReport(FailSafeDescription failSafe, Moment.Known strike) {
        return course.timeline().events().stream()
                .filter(one -> one.is(EventKind.ANSWERED, failSafe.number()) && one.tick() >= strike.tick())
                .findFirst();
    }

    /** Why a recovery proves nothing, for as far as that is so. */
    List<Finding> withoutCause() {
        List<Finding> found = new ArrayList<>();
        anotherRoad().ifPresent(found::add);
        endedBefore().ifPresent(found::add);
        return found;
    }

    private Optional<Finding> anotherRoad() {
        List<FailSafeDescription> silent = new ArrayList<>();
        for (FailSafeDescription failSafe : script.failSafes()) {
            // One that is left out cannot answer: if all goes well without it, that is what its control run is to show.
            if (!isAskedFor(failSafe)
                    && !script.inhibited().contains(failSafe)
                    && course.strike(0) instanceof Moment.Known strike
                    && firstReport(failSafe, strike).isEmpty()) {
                silent.add(failSafe);
            }
        }
        if (silent.isEmpty()) {
            return Optional.empty();
        }
        String names =
                Words.listed(silent.stream().map(FailSafeDescription::name).toList());
        return Optional.of(new Findings("fail-safe", script.place())
                .expected(names + " answers, which the script is evidence for")
                .butWas("recovery was reached by another road: " + names + " was not seen to answer")
                .where(-1)
                .of(Verdict.INCONCLUSIVE));
    }

    private boolean isAskedFor(FailSafeDescription failSafe) {
        return script.expectations().stream().anyMatch(one -> isAbout(one, failSafe));
    }

    private static boolean isAbout(Expectation expectation, FailSafeDescription failSafe) {
        if (expectation instanceof Expectation.AnsweredBy it) {
            return it.failSafe().number() == failSafe.number();
        }
        if (expectation instanceof Expectation.Times it) {
            // "at most 2" is met by none at all.
            boolean wantsSomeOrNone = it.least() > 0 || it.most().equals(OptionalInt.of(0));
            return wantsSomeOrNone
                    && it.what().terms().stream()
                            .anyMatch(term -> term instanceof Condition.Answers answers
                                    && answers.failSafe().number() == failSafe.number());
        }
        return expectation instanceof Expectation.MustNotFire it
                && it.failSafe().number() == failSafe.number();
    }

    /** Of each injection the first answer counts that hangs on it: what answers later may well come when it is over. */
    private Optional<Finding> endedBefore() {
        Set<Integer> answered = new HashSet<>();
        for (int i = 0; i < script.expectations().size(); i++) {
            Finding finding = course.outcome(i).finding();
            if (!(script.expectations().get(i) instanceof Expectation.AnsweredBy it)
                    || finding.metTick().isEmpty()) {
                continue;
            }
            int tick = (int) finding.metTick().getAsLong();
            OptionalInt root = course.chain().injection(it.after()).stream()
                    .mapToInt(Anchor.OfInjection::index)
                    .findFirst();
            if (root.isPresent() ? !answered.add(root.getAsInt()) : !answered.isEmpty()) {
                continue;
            }
            Optional<String> why = Optional.empty();
            for (int one = 0; one < injections.size(); one++) {
                if ((root.isPresent() && root.getAsInt() != one)
                        || !injections.get(one).isKnown()) {
                    continue;
                }
                why = injections.get(one).endedBefore(tick, it.failSafe().name() + " answered");
                if (why.isEmpty()) {
                    break;
                }
            }
            if (why.isPresent()) {
                return Optional.of(new Findings("fault", script.place())
                        .expected("the fault is there until " + it.failSafe().name() + " answers")
                        .butWas(why.get())
                        .where(tick)
                        .of(Verdict.INCONCLUSIVE));
            }
        }
        return Optional.empty();
    }
}
