package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;
import snagbench.wire.EntryEnd;

/**
 * All traces of a small world are judged whole, and again with something missing. Whatever looks the same with the missing
 * part gone is a completion of the other: a pass must be a pass in all of them, and a fail a fail in all of them.
 */
class SoundnessTests {
    private static final int TICKS = 6;
    private static final int STRIKE = 1;

    /** The current is 0 or 1 in ticks 1 to 4, the step is READY or REACHING in ticks 2 to 4. */
    private static List<Supplier<SyntheticTrace>> currentsAndSteps() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int currents = 0; currents < 1 << 4; currents++) {
            for (int steps = 0; steps < 1 << 3; steps++) {
                int current = currents;
                int step = steps;
                world.add(() -> {
                    SyntheticTrace trace =
                            struck().real(CURRENT, tick -> tick < 1 || tick > 4 ? 0 : current >>> (tick - 1) & 1);
                    int before = 0;
                    for (int tick = 2; tick <= 4; tick++) {
                        int now = step >>> (tick - 2) & 1;
                        if (now != before) {
                            trace.step(tick, now == 1 ? "REACHING" : "READY");
                        }
                        before = now;
                    }
                    return trace;
                });
            }
        }
        return world;
    }

    /** Up to two reports of either fail-safe in ticks 1 to 4, and an end of the override. */
    private static List<Supplier<SyntheticTrace>> answers() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int first = 0; first <= 8; first++) {
            for (int second = first; second <= 8; second++) {
                for (int off : new int[] {0, 3, 4}) {
                    int[] reports = {first, second};
                    int end = off;
                    world.add(() -> {
                        SyntheticTrace trace = struck();
                        if (end > STRIKE) {
                            trace.off(end, 0, end % 2 == 0 ? EntryEnd.LASTED : EntryEnd.UNTIL);
                        }
                        for (int report : reports) {
                            if (report > 0) {
                                trace.answered((report + 1) / 2, 1 + report % 2);
                            }
                        }
                        return trace;
                    });
                }
            }
        }
        return world;
    }

    private static SyntheticTrace struck() {
        return new SyntheticTrace(TICKS).told(POSITION, tick -> 100).on(STRIKE, 0);
    }

    /** Each way of losing records in one stretch and events in one stretch. */
    private static List<Consumer<SyntheticTrace>> losses() {
        List<Consumer<SyntheticTrace>> losses = new ArrayList<>();
        losses.add(whole -> {});
        for (int first = 0; first < TICKS; first++) {
            for (int last = first; last < TICKS; last++) {
                int from = first;
                int to = last;
                losses.add(trace -> trace.loseTicks(from, to));
            }
        }
        for (int first = 1; first <= 4; first++) {
            for (int last = first; last <= 4; last++) {
                int from = first;
                int to = last;
                losses.add(trace -> IntStream.rangeClosed(from, to).forEach(trace::loseEvent));
                for (int tick = 1; tick < TICKS; tick++) {
                    int lost = tick;
                    losses.add(trace -> {
                        IntStream.rangeClosed(from, to).forEach(trace::loseEvent);
                        trace.loseTicks(lost, Math.min(lost + 1, TICKS - 1));
                    });
                }
            }
        }
        return losses;
    }

    private static Stream<Arguments> small() {
        return Stream.of(
                Arguments.of(
                        "a step",
                        currentsAndSteps(),
                        new Scripts().becomes("reaches", when(step("REACHING")), within(10), INJECTION)),
                Arguments.of(
                        "a step with a lower edge",
                        currentsAndSteps(),
                        new Scripts().becomes("reaches", when(step("REACHING")), within(5, 10), INJECTION)),
                Arguments.of(
                        "a reading",
                        currentsAndSteps(),
                        new Scripts()
                                .becomes("eases", when(term(CURRENT, Relation.AT_LEAST, 1)), within(10), INJECTION)),
                Arguments.of(
                        "a reading with a lower edge",
                        currentsAndSteps(),
                        new Scripts().becomes("eases", when(term(CURRENT, Relation.BELOW, 1)), within(5, 15), BEGIN)),
                Arguments.of(
                        "step and reading",
                        currentsAndSteps(),
                        new Scripts()
                                .becomes(
                                        "both",
                                        when(step("REACHING"), term(CURRENT, Relation.IS, 1)),
                                        within(5, 15),
                                        INJECTION)),
                Arguments.of(
                        "one after the other",
                        currentsAndSteps(),
                        new Scripts()
                                .becomes("reaches", when(step("REACHING")), within(10), INJECTION)
                                .becomes("stops", when(step("READY")), within(10), after(0, "reaches"))),
                Arguments.of(
                        "always", currentsAndSteps(), new Scripts().always(when(term(CURRENT, Relation.BELOW, 1)))),
                Arguments.of(
                        "always one of two",
                        currentsAndSteps(),
                        new Scripts().always(when(step("READY"), term(CURRENT, Relation.AT_MOST, 0)))),
                Arguments.of(
                        "never both",
                        currentsAndSteps(),
                        new Scripts()
                                .never(when(step("REACHING"), term(CURRENT, Relation.ABOVE, 0)))
                                .end(15, INJECTION)),
                Arguments.of("an answer", answers(), new Scripts().answeredBy("sees it", FS_02, within(10), INJECTION)),
                Arguments.of(
                        "an answer with a lower edge",
                        answers(),
                        new Scripts().answeredBy("sees it", FS_02, within(5, 10), INJECTION)),
                Arguments.of(
                        "an answer and no other",
                        answers(),
                        new Scripts().answeredByNoOther("sees it", FS_02, within(10))),
                Arguments.of(
                        "two answers",
                        answers(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(10), INJECTION)
                                .answeredBy("sees it again", FS_02, within(10), after(0, "sees it"))),
                Arguments.of("silence", answers(), new Scripts().mustNotFire(FS_01)),
                Arguments.of(
                        "a spike",
                        answers(),
                        new Scripts()
                                .inject(when(step("REACHING")), new Fault.Spike(7, OptionalLong.empty()))
                                .answeredBy("sees it", FS_02, within(10), INJECTION)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("small")
    void neverSettlesWhatACompletionWouldTurnRound(String what, List<Supplier<SyntheticTrace>> world, Scripts scripts) {
        FaultScript script = scripts.script();
        List<Verdict> whole =
                world.stream().map(one -> verdict(script, one.get().trace())).toList();
        int settled = 0;
        for (Consumer<SyntheticTrace> loss : losses()) {
            Map<String, Verdict> judged = new HashMap<>();
            Map<String, Set<Verdict>> completions = new HashMap<>();
            for (int i = 0; i < world.size(); i++) {
                SyntheticTrace lossy = world.get(i).get();
                loss.accept(lossy);
                Trace trace = lossy.trace();
                String seen = SyntheticTrace.seen(trace);
                judged.computeIfAbsent(seen, key -> verdict(script, trace));
                completions
                        .computeIfAbsent(seen, key -> EnumSet.noneOf(Verdict.class))
                        .add(whole.get(i));
            }
            for (Map.Entry<String, Verdict> one : judged.entrySet()) {
                if (one.getValue() == Verdict.PASS || one.getValue() == Verdict.FAIL) {
                    settled++;
                    assertEquals(EnumSet.of(one.getValue()), completions.get(one.getKey()), what + ": " + one.getKey());
                }
            }
        }
        assertTrue(settled > 1000, what + ": only " + settled + " verdicts were settled, too few to mean anything");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("small")
    void neverSettlesWhatTheTicksBetweenRecordsWouldTurnRound(
            String what, List<Supplier<SyntheticTrace>> world, Scripts scripts) {
        FaultScript script = scripts.script();
        List<Verdict> whole =
                world.stream().map(one -> verdict(script, one.get().trace())).toList();
        int settled = 0;
        for (int period : new int[] {2, 3, 6}) {
            Map<String, Verdict> judged = new HashMap<>();
            Map<String, Set<Verdict>> completions = new HashMap<>();
            for (int i = 0; i < world.size(); i++) {
                Trace trace = world.get(i).get().period(period).trace();
                String seen = SyntheticTrace.seen(trace);
                judged.computeIfAbsent(seen, key -> verdict(script, trace));
                completions
                        .computeIfAbsent(seen, key -> EnumSet.noneOf(Verdict.class))
                        .add(whole.get(i));
            }
            for (Map.Entry<String, Verdict> one : judged.entrySet()) {
                if (one.getValue() == Verdict.PASS || one.getValue() == Verdict.FAIL) {
                    settled++;
                    assertEquals(EnumSet.of(one.getValue()), completions.get(one.getKey()), what + ": " + one.getKey());
                }
            }
        }
        assertTrue(settled > 10, what + ": only " + settled + " verdicts were settled, too few to mean anything");
    }

    @Test
    void aWholeTraceIsAlwaysSettled() {
        List<Verdict> verdicts = new ArrayList<>();
        FaultScript script = new Scripts()
                .becomes("both", when(step("REACHING"), term(CURRENT, Relation.IS, 1)), within(5, 15), INJECTION)
                .script();
        currentsAndSteps().forEach(one -> verdicts.add(verdict(script, one.get().trace())));

        assertEquals(EnumSet.of(Verdict.PASS, Verdict.FAIL), EnumSet.copyOf(verdicts));
    }

    private static Verdict verdict(FaultScript script, Trace trace) {
        return Judge.judge(script, trace, Scripts.rig(10)).verdict();
    }
}
