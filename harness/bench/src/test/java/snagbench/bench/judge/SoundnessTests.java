package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.quantity;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.judge.Scripts.yesOrNo;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
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

    private static Condition busy() {
        return when(term(CURRENT, Relation.AT_LEAST, 1));
    }

    private static Scripts expect(Function<Place, Expectation> expectation) {
        return new Scripts().expect(expectation).end(20, BEGIN);
    }

    private static Stretch upTo(Anchor to) {
        return new Stretch(INJECTION, Optional.empty(), Optional.of(to));
    }

    private static Stretch window(long least, long most) {
        return new Stretch(INJECTION, Optional.of(within(least, most)), Optional.empty());
    }

    private static Scripts never(
            ChannelDescription channel, DerivedChannel.Formula formula, Relation relation, int raw) {
        Condition condition = when(term(channel, relation, raw));
        return new Scripts()
                .derive(channel, formula)
                .expect(at -> new Expectation.Never(at, "never", condition, window(5, 15)));
    }

    private static Stream<Arguments> later() {
        Place at = Scripts.place(9);
        return Stream.of(
                Arguments.of(
                        "stays",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Stays(it, "stays", busy(), 5000, within(10), INJECTION))),
                Arguments.of(
                        "stays at once",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Stays(it, "stays", busy(), 10_000, within(0), INJECTION))),
                Arguments.of(
                        "settles for a time",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Settles(
                                it, "settles", busy(), OptionalLong.of(5000), within(5, 10), INJECTION))),
                Arguments.of(
                        "settles to the end",
                        currentsAndSteps(),
                        new Scripts()
                                .expect(it -> new Expectation.Settles(
                                        it,
                                        "settles",
                                        when(term(CURRENT, Relation.AT_MOST, 0)),
                                        OptionalLong.empty(),
                                        within(15),
                                        INJECTION))
                                .end(25, BEGIN)),
                Arguments.of(
                        "always in a window",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Always(it, "always", busy(), window(5, 10)))),
                Arguments.of(
                        "always up to a moment",
                        currentsAndSteps(),
                        new Scripts()
                                .becomes("reaches", when(step("REACHING")), within(15), INJECTION)
                                .expect(it -> new Expectation.Always(it, "always", busy(), upTo(after(0, "reaches"))))),
                Arguments.of(
                        "a peak",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Peak(
                                it, "peak", (Condition.Compares) term(CURRENT, Relation.AT_MOST, 0), window(5, 15)))),
                Arguments.of(
                        "twice",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Times(it, "twice", busy(), 2, OptionalInt.of(2), window(0, 15)))),
                Arguments.of(
                        "the second time",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Becomes(it, "again", busy(), within(15), BEGIN, 2))),
                Arguments.of(
                        "one of two",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Becomes(
                                it,
                                "one of two",
                                when(new Condition.AnyOf(at, List.of(busy(), when(step("REACHING"))))),
                                within(10),
                                INJECTION))),
                Arguments.of(
                        "never one of two",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Never(
                                it,
                                "one of two",
                                when(new Condition.AnyOf(at, List.of(busy(), when(step("REACHING"))))),
                                window(5, 15)))),
                Arguments.of(
                        "a rise",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Never(
                                it,
                                "no rise",
                                when(new Condition.Crosses(at, CURRENT, Source.REAL, true, 1)),
                                window(5, 15)))),
                Arguments.of(
                        "a change",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Never(
                                it,
                                "still",
                                when(new Condition.Moves(at, CURRENT, Source.REAL, true, 0, 2)),
                                window(5, 15)))),
                Arguments.of(
                        "the value at the strike",
                        currentsAndSteps(),
                        expect(it -> new Expectation.Always(
                                it,
                                "no more than at the strike",
                                when(new Condition.ComparesToStrike(
                                        at, CURRENT, Source.REAL, Relation.AT_MOST, (Anchor.OfInjection) INJECTION, 0)),
                                window(0, 15)))),
                Arguments.of(
                        "an order",
                        currentsAndSteps(),
                        new Scripts()
                                .becomes("reaches", when(step("REACHING")), within(15), INJECTION)
                                .becomes("busy", busy(), within(15), INJECTION)
                                .expect(it -> new Expectation.Order(
                                        it, "order", List.of(after(0, "reaches"), after(1, "busy"))))),
                Arguments.of(
                        "the second answer",
                        answers(),
                        expect(it -> new Expectation.AnsweredBy(it, "twice", FS_02, within(15), INJECTION, false, 2))),
                Arguments.of(
                        "answers counted",
                        answers(),
                        expect(it -> new Expectation.Times(
                                it,
                                "once",
                                when(new Condition.Answers(it, FS_02)),
                                1,
                                OptionalInt.of(1),
                                window(0, 15)))),
                Arguments.of(
                        "silence in a window",
                        answers(),
                        expect(it -> new Expectation.MustNotFire(it, "quiet", FS_01, Optional.of(window(5, 10))))),
                Arguments.of(
                        "a rate",
                        currentsAndSteps(),
                        never(
                                quantity(0, "rate", "A/s", 1, -2),
                                new DerivedChannel.Rate(CURRENT, Source.REAL, 5000),
                                Relation.ABOVE,
                                0)),
                Arguments.of(
                        "a mean",
                        currentsAndSteps(),
                        never(
                                quantity(0, "mean", "A", 1, -3),
                                new DerivedChannel.Mean(CURRENT, Source.REAL, 10_000),
                                Relation.ABOVE,
                                5)),
                Arguments.of(
                        "a root mean square",
                        currentsAndSteps(),
                        never(
                                quantity(0, "rms", "A", 1, -3),
                                new DerivedChannel.RootMeanSquare(CURRENT, Source.REAL, 10_000),
                                Relation.AT_LEAST,
                                9)),
                Arguments.of(
                        "a difference",
                        currentsAndSteps(),
                        never(
                                quantity(0, "difference", "A", 1, -2),
                                new DerivedChannel.Difference(CURRENT, Source.REAL, STEP, Source.REAL),
                                Relation.BELOW,
                                0)),
                Arguments.of(
                        "a sum",
                        currentsAndSteps(),
                        never(
                                quantity(0, "sum", "A", 1, -2),
                                new DerivedChannel.Sum(CURRENT, Source.REAL, STEP, Source.REAL),
                                Relation.ABOVE,
                                2)),
                Arguments.of(
                        "a stall",
                        currentsAndSteps(),
                        never(
                                yesOrNo(0, "stalled"),
                                new DerivedChannel.Stalled(CURRENT, Source.REAL, 1, 5000, when(step("REACHING"))),
                                Relation.IS,
                                1)),
                Arguments.of(
                        "a debounced condition",
                        currentsAndSteps(),
                        never(yesOrNo(0, "pressed"), new DerivedChannel.Debounced(busy(), 5000), Relation.IS, 1)));
    }

    private static Stream<Arguments> small() {
        return Stream.concat(first(), later());
    }

    private static Stream<Arguments> first() {
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
        int settled = new Completions(what, world, scripts.script()).settledUnder(Completions.losses(TICKS));

        assertTrue(settled > 1000, what + ": only " + settled + " verdicts were settled, too few to mean anything");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("small")
    void neverSettlesWhatTheTicksBetweenRecordsWouldTurnRound(
            String what, List<Supplier<SyntheticTrace>> world, Scripts scripts) {
        int settled = new Completions(what, world, scripts.script()).settledUnder(Completions.periods());

        assertTrue(settled > 10, what + ": only " + settled + " verdicts were settled, too few to mean anything");
    }

    @Test
    void aWholeTraceIsAlwaysSettled() {
        FaultScript script = new Scripts()
                .becomes("both", when(step("REACHING"), term(CURRENT, Relation.IS, 1)), within(5, 15), INJECTION)
                .script();
        List<Verdict> verdicts = new Completions("both", currentsAndSteps(), script).whole();

        assertEquals(EnumSet.of(Verdict.PASS, Verdict.FAIL), EnumSet.copyOf(verdicts));
    }
}
