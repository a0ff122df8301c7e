package snagbench.bench.judge;

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

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;

/**
 * What {@link SoundnessTests} leaves out: readings that are told, ticks of uneven length, faults that strike twice, a beginning
 * that takes its time, restarts, and every other kind of condition and expectation.
 */
class CompletionTests {
    private static final int TICKS = 6;
    private static final int STRIKE = 1;

    /** Only one in so many ways of losing something is gone through where there is no time for all of them. */
    private static final int EVERY = 5;

    private static final Place AT = Scripts.place(9);

    /** Told positions 0 or 1 in ticks 1 to 4, real ones 0 or 1 in ticks 2 and 3: a fault that may change nothing at all. */
    private static List<Supplier<SyntheticTrace>> tolds() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int bits = 0; bits < 1 << 6; bits++) {
            int told = bits & 15;
            int real = bits >>> 4;
            world.add(() -> new SyntheticTrace(TICKS)
                    .told(POSITION, tick -> tick < 1 || tick > 4 ? 0 : told >>> (tick - 1) & 1)
                    .real(POSITION, tick -> tick < 2 || tick > 3 ? 0 : real >>> (tick - 2) & 1)
                    .on(STRIKE, 0));
        }
        return world;
    }

    /** Currents 0 to 2 in ticks 1 to 3, READY or REACHING in tick 3. */
    private static List<Supplier<SyntheticTrace>> currents() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int number = 0; number < 54; number++) {
            int[] current = {0, number % 3, number / 3 % 3, number / 9 % 3, 0, 0};
            boolean reaches = number >= 27;
            world.add(() -> {
                SyntheticTrace trace = struck().real(CURRENT, tick -> current[Math.max(0, tick)]);
                return reaches ? trace.step(3, "REACHING").step(4, "READY") : trace;
            });
        }
        return world;
    }

    /** Loops of 3 or 7 ms behind the strike, currents 0 or 1 in ticks 1 to 4, an answer in one of ticks 1 to 4 or none. */
    private static List<Supplier<SyntheticTrace>> unevenLoops() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int bits = 0; bits < 1 << 7; bits++) {
            int current = bits & 15;
            int answered = bits % 5;
            int[] micros = {0, 5000, 0, 0, 0, 0};
            for (int tick = 2; tick < TICKS; tick++) {
                micros[tick] = micros[tick - 1] + (tick > 4 || (bits >>> (tick + 2) & 1) == 0 ? 3000 : 7000);
            }
            world.add(() -> {
                SyntheticTrace trace = struck().clock(tick -> micros[Math.max(0, tick)])
                        .real(CURRENT, tick -> tick < 1 || tick > 4 ? 0 : current >>> (tick - 1) & 1);
                return answered > 0 ? trace.answered(answered, 2) : trace;
            });
        }
        return world;
    }

    /** It ends in tick 2 or 3 and strikes again in one of ticks 3 to 5 or never; one answer or none. */
    private static List<Supplier<SyntheticTrace>> strikesTwice() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int off = 2; off <= 3; off++) {
            for (int second = off + 1; second <= TICKS; second++) {
                for (int answer = 0; answer < TICKS; answer++) {
                    int[] ticks = {off, second, answer};
                    world.add(() -> {
                        SyntheticTrace trace = struck().off(ticks[0], 0, EntryEnd.LASTED);
                        if (ticks[1] < TICKS) {
                            trace.event(ticks[1], EventKind.ENTRY_ON, 0, 2);
                        }
                        return ticks[2] > 0 ? trace.answered(ticks[2], 2) : trace;
                    });
                }
            }
        }
        return world;
    }

    /** The beginning is over in tick 1 to 3 or runs out of time; then it strikes one tick later; currents 0 or 1. */
    private static List<Supplier<SyntheticTrace>> beginnings() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int bits = 0; bits < 1 << 6; bits++) {
            int current = bits & 15;
            int over = bits >>> 4;
            world.add(() -> {
                SyntheticTrace trace = new SyntheticTrace(TICKS)
                        .told(POSITION, tick -> 100)
                        .real(CURRENT, tick -> tick < 1 || tick > 4 ? 0 : current >>> (tick - 1) & 1);
                return over == 0
                        ? trace.stageTimedOut(2, 0)
                        : trace.stageDone(over, 0).on(over + 1, 1);
            });
        }
        return world;
    }

    /** Up to three answers of either fail-safe in ticks 1 to 3, some of them in one tick. */
    private static List<Supplier<SyntheticTrace>> manyAnswers() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int first = 0; first <= 6; first++) {
            for (int second = 0; second <= 6; second++) {
                for (int third = 0; third <= 6; third++) {
                    int[] answers = {first, second, third};
                    if (inOrder(answers)) {
                        world.add(() -> {
                            SyntheticTrace trace = struck();
                            for (int one : answers) {
                                if (one > 0) {
                                    trace.answered((one + 1) / 2, 1 + one % 2);
                                }
                            }
                            return trace;
                        });
                    }
                }
            }
        }
        return world;
    }

    /** Those of one tick in either order; and none behind none. */
    private static boolean inOrder(int[] answers) {
        for (int i = 1; i < answers.length; i++) {
            boolean isEarlier = (answers[i] + 1) / 2 < (answers[i - 1] + 1) / 2;
            if (answers[i] > 0 && (isEarlier || answers[i - 1] == 0)) {
                return false;
            }
        }
        return answers[0] > 0 || (answers[1] == 0 && answers[2] == 0);
    }

    /** It restarts behind one of ticks 2 to 5 or not at all, heard of at one of three times; an answer or none. */
    private static List<Supplier<SyntheticTrace>> restarts() {
        List<Supplier<SyntheticTrace>> world = new ArrayList<>();
        for (int last = 2; last <= TICKS; last++) {
            for (int heard : new int[] {14_000, 15_000, 30_000}) {
                for (int answer = 0; answer <= 4 && heard >= last * SyntheticTrace.LOOP_MICROS; answer++) {
                    int[] ticks = {last, answer, heard};
                    world.add(() -> {
                        SyntheticTrace trace = struck();
                        if (ticks[0] < TICKS) {
                            trace.restartsAfter(ticks[0], ticks[2]).goesOn(10);
                        }
                        return ticks[1] > 0 ? trace.answered(ticks[1], 2) : trace;
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

    private static Stretch window(long least, long most) {
        return new Stretch(INJECTION, Optional.of(within(least, most)), Optional.empty());
    }

    private static Stretch between(Anchor from, Anchor to) {
        return new Stretch(from, Optional.empty(), Optional.of(to));
    }

    private static Stretch from(Anchor from) {
        return new Stretch(from, Optional.empty(), Optional.empty());
    }

    private static Scripts never(Condition.Term term) {
        return expect(it -> new Expectation.Never(it, "never", when(term), window(5, 15)));
    }

    private static Scripts always(Condition.Term... terms) {
        return expect(it -> new Expectation.Always(it, "always", when(terms), window(5, 15)));
    }

    private static Scripts becomes(Condition.Term term, Window within) {
        return new Scripts().becomes("becomes", when(term), within, INJECTION);
    }

    private static Condition.Term told(Relation relation, int raw) {
        return new Condition.Compares(AT, POSITION, Source.TOLD, relation, raw);
    }

    private static Scripts over(DerivedChannel.Formula formula, int raw) {
        return new Scripts()
                .derive(quantity(0, "derived", "mm", 1, -3), formula)
                .expect(it -> new Expectation.Never(
                        it,
                        "never",
                        when(term(quantity(0, "derived", "mm", 1, -3), Relation.ABOVE, raw)),
                        window(5, 15)))
                .end(20, BEGIN);
    }

    private static Arguments of(String what, List<Supplier<SyntheticTrace>> world, Scripts script) {
        return Arguments.of(what, world, script);
    }

    private static Stream<Arguments> ofToldReadings() {
        return Stream.of(
                of("told", tolds(), becomes(told(Relation.AT_LEAST, 1), within(5, 10))),
                of("told at once", tolds(), always(told(Relation.BELOW, 1))),
                of("told is", tolds(), becomes(told(Relation.IS, 1), within(10))),
                of("told is not", tolds(), always(told(Relation.IS_NOT, 1))),
                of("agrees", tolds(), always(new Condition.Agrees(AT, POSITION, 0))),
                of("comes to agree", tolds(), becomes(new Condition.Agrees(AT, POSITION, 0), within(10))),
                of("told falls", tolds(), never(new Condition.Crosses(AT, POSITION, Source.TOLD, false, 0))),
                of("told moves", tolds(), never(new Condition.Moves(AT, POSITION, Source.TOLD, true, 0, 1))),
                of("told stands still", tolds(), never(new Condition.Moves(AT, POSITION, Source.TOLD, false, 1, 2))),
                of(
                        "told against the real value at the strike",
                        tolds(),
                        always(new Condition.ComparesToStrike(
                                AT, POSITION, Source.TOLD, Relation.BELOW, (Anchor.OfInjection) INJECTION, 1))),
                of("a told rate", tolds(), over(new DerivedChannel.Rate(POSITION, Source.TOLD, 10_000), 0)),
                of(
                        "told less real",
                        tolds(),
                        over(new DerivedChannel.Difference(POSITION, Source.TOLD, POSITION, Source.REAL), 0)),
                of("a told mean", tolds(), over(new DerivedChannel.Mean(POSITION, Source.TOLD, 10_000), 50)));
    }

    private static Stream<Arguments> ofOtherConditions() {
        return Stream.of(
                of(
                        "a band",
                        currents(),
                        expect(it -> new Expectation.Always(
                                it,
                                "always",
                                when(term(CURRENT, Relation.AT_LEAST, 1), term(CURRENT, Relation.AT_MOST, 1)),
                                window(5, 10)))),
                of(
                        "outside of a band",
                        currents(),
                        expect(it -> new Expectation.Never(
                                it,
                                "never",
                                when(new Condition.AnyOf(
                                        AT,
                                        List.of(
                                                when(term(CURRENT, Relation.BELOW, 1)),
                                                when(term(CURRENT, Relation.ABOVE, 1))))),
                                window(5, 10)))),
                of("is", currents(), becomes(term(CURRENT, Relation.IS, 1), within(5, 10))),
                of("is not", currents(), never(term(CURRENT, Relation.IS_NOT, 0))),
                of("falls", currents(), never(new Condition.Crosses(AT, CURRENT, Source.REAL, false, 1))),
                of("moves less", currents(), never(new Condition.Moves(AT, CURRENT, Source.REAL, false, 2, 1))),
                of("moves", currents(), becomes(new Condition.Moves(AT, CURRENT, Source.REAL, true, 1, 2), within(15))),
                of(
                        "least of a peak",
                        currents(),
                        expect(it -> new Expectation.Peak(
                                it, "peak", (Condition.Compares) term(CURRENT, Relation.AT_LEAST, 1), window(5, 10)))),
                of(
                        "settles into a band",
                        currents(),
                        expect(it -> new Expectation.Settles(
                                it,
                                "settles",
                                when(term(CURRENT, Relation.AT_LEAST, 1), term(CURRENT, Relation.AT_MOST, 2)),
                                OptionalLong.of(5000),
                                within(5, 10),
                                INJECTION))),
                of(
                        "at most once",
                        currents(),
                        expect(it -> new Expectation.Times(it, "once", busy(), 0, OptionalInt.of(1), window(0, 15)))),
                of(
                        "once at least",
                        currents(),
                        expect(it -> new Expectation.Times(it, "once", busy(), 1, OptionalInt.empty(), window(5, 15)))),
                of(
                        "crossings counted",
                        currents(),
                        expect(it -> new Expectation.Times(
                                it,
                                "once",
                                when(new Condition.Crosses(AT, CURRENT, Source.REAL, true, 2)),
                                1,
                                OptionalInt.of(1),
                                window(0, 15)))),
                of(
                        "the rate of a mean",
                        currents(),
                        new Scripts()
                                .derive(
                                        quantity(0, "mean", "A", 1, -3),
                                        new DerivedChannel.Mean(CURRENT, Source.REAL, 10_000))
                                .derive(
                                        quantity(1, "rate", "A/s", 1, -2),
                                        new DerivedChannel.Rate(quantity(0, "mean", "A", 1, -3), Source.REAL, 5000))
                                .expect(it -> new Expectation.Never(
                                        it,
                                        "never",
                                        when(term(quantity(1, "rate", "A/s", 1, -2), Relation.ABOVE, 100)),
                                        window(5, 15)))),
                of(
                        "one moment and then its second time",
                        currents(),
                        new Scripts()
                                .becomes("busy", busy(), within(15), INJECTION)
                                .expect(it -> new Expectation.Never(
                                        it,
                                        "no third step",
                                        when(step("REACHING")),
                                        from(new Anchor.OfExpectation(0, "busy", 2))))
                                .end(20, BEGIN)),
                of(
                        "holds from one moment to another",
                        currents(),
                        new Scripts()
                                .becomes("busy", busy(), within(10), INJECTION)
                                .becomes("idle", when(term(CURRENT, Relation.BELOW, 1)), within(15), after(0, "busy"))
                                .expect(it -> new Expectation.Always(
                                        it,
                                        "not above 1",
                                        when(term(CURRENT, Relation.AT_MOST, 1)),
                                        between(after(0, "busy"), after(1, "idle"))))));
    }

    private static Stream<Arguments> ofUnevenLoops() {
        return Stream.of(
                of("comes about", unevenLoops(), new Scripts().becomes("busy", busy(), within(6, 10), INJECTION)),
                of(
                        "stays",
                        unevenLoops(),
                        expect(it -> new Expectation.Stays(it, "stays", busy(), 6000, within(6), INJECTION))),
                of(
                        "settles",
                        unevenLoops(),
                        expect(it -> new Expectation.Settles(
                                it, "settles", busy(), OptionalLong.of(3000), within(3, 10), INJECTION))),
                of("always", unevenLoops(), expect(it -> new Expectation.Always(it, "always", busy(), window(6, 10)))),
                of("never", unevenLoops(), expect(it -> new Expectation.Never(it, "never", busy(), window(7, 13)))),
                of(
                        "peak",
                        unevenLoops(),
                        expect(it -> new Expectation.Peak(
                                it, "peak", (Condition.Compares) term(CURRENT, Relation.AT_MOST, 0), window(6, 9)))),
                of(
                        "times",
                        unevenLoops(),
                        expect(it -> new Expectation.Times(it, "once", busy(), 1, OptionalInt.of(1), window(3, 10)))),
                of("answers", unevenLoops(), new Scripts().answeredBy("sees it", FS_02, within(6, 10), INJECTION)),
                of(
                        "silent",
                        unevenLoops(),
                        expect(it -> new Expectation.MustNotFire(it, "silent", FS_02, Optional.of(window(6, 10))))),
                of(
                        "answers counted",
                        unevenLoops(),
                        expect(it -> new Expectation.Times(
                                it,
                                "once",
                                when(new Condition.Answers(it, FS_02)),
                                1,
                                OptionalInt.of(1),
                                window(6, 10)))),
                of(
                        "order",
                        unevenLoops(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(20), INJECTION)
                                .becomes("busy", busy(), within(20), INJECTION)
                                .expect(it -> new Expectation.Order(
                                        it, "order", List.of(after(0, "sees it"), after(1, "busy"))))),
                of("rate", unevenLoops(), over(new DerivedChannel.Rate(CURRENT, Source.REAL, 7000), 0)),
                of("mean", unevenLoops(), over(new DerivedChannel.Mean(CURRENT, Source.REAL, 7000), 5)),
                of(
                        "root mean square",
                        unevenLoops(),
                        over(new DerivedChannel.RootMeanSquare(CURRENT, Source.REAL, 7000), 7)),
                of(
                        "debounced",
                        unevenLoops(),
                        new Scripts()
                                .derive(yesOrNo(0, "pressed"), new DerivedChannel.Debounced(busy(), 6000))
                                .expect(it -> new Expectation.Never(
                                        it,
                                        "never",
                                        when(term(yesOrNo(0, "pressed"), Relation.IS, 1)),
                                        window(6, 13)))),
                of(
                        "stalled",
                        unevenLoops(),
                        new Scripts()
                                .derive(
                                        yesOrNo(0, "stalled"),
                                        new DerivedChannel.Stalled(CURRENT, Source.REAL, 1, 6000, busy()))
                                .expect(it -> new Expectation.Never(
                                        it,
                                        "never",
                                        when(term(yesOrNo(0, "stalled"), Relation.IS, 1)),
                                        window(3, 13)))));
    }

    private static Scripts twice() {
        return new Scripts().injectTimes(2);
    }

    private static final Anchor SECOND = new Anchor.OfInjection(0, "injection 1", 2);

    private static Stream<Arguments> ofEvents() {
        return Stream.of(
                of(
                        "answers the second strike",
                        strikesTwice(),
                        twice().answeredBy("sees it", FS_02, within(5), SECOND)),
                of(
                        "silent until the second strike",
                        strikesTwice(),
                        twice().expect(it -> new Expectation.MustNotFire(
                                it, "silent", FS_02, Optional.of(between(INJECTION, SECOND))))),
                of(
                        "answers before the second strike",
                        strikesTwice(),
                        twice().answeredBy("sees it", FS_02, within(20), INJECTION)
                                .expect(it -> new Expectation.Order(
                                        it, "order", List.of(INJECTION, after(0, "sees it"), SECOND)))),
                of(
                        "answers twice and no other",
                        manyAnswers(),
                        expect(it -> new Expectation.AnsweredBy(it, "twice", FS_02, within(10), INJECTION, true, 2))),
                of(
                        "the second answer and what follows it",
                        manyAnswers(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(10), INJECTION)
                                .answeredBy("and then", FS_01, within(10), new Anchor.OfExpectation(0, "sees it", 2))),
                of(
                        "silent up to an answer",
                        manyAnswers(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(10), INJECTION)
                                .expect(it -> new Expectation.MustNotFire(
                                        it, "silent", FS_01, Optional.of(between(INJECTION, after(0, "sees it")))))),
                of(
                        "silent from an answer on",
                        manyAnswers(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(10), INJECTION)
                                .expect(it -> new Expectation.MustNotFire(
                                        it, "silent", FS_01, Optional.of(from(after(0, "sees it")))))
                                .end(20, BEGIN)),
                of(
                        "two answers in order",
                        manyAnswers(),
                        new Scripts()
                                .answeredBy("one", FS_01, within(10), INJECTION)
                                .answeredBy("other", FS_02, within(10), INJECTION)
                                .expect(it -> new Expectation.Order(
                                        it, "order", List.of(after(0, "one"), after(1, "other"))))),
                of(
                        "one or two answers up to another",
                        manyAnswers(),
                        new Scripts()
                                .answeredBy("sees it", FS_01, within(10), INJECTION)
                                .expect(it -> new Expectation.Times(
                                        it,
                                        "once or twice",
                                        when(new Condition.Answers(it, FS_02)),
                                        1,
                                        OptionalInt.of(2),
                                        between(INJECTION, after(0, "sees it"))))),
                of(
                        "always behind the beginning",
                        beginnings(),
                        begun().expect(it -> new Expectation.Always(it, "always", busy(), from(BEGIN)))
                                .end(10, BEGIN)),
                of(
                        "comes about behind the beginning",
                        beginnings(),
                        begun().becomes("busy", busy(), within(10), BEGIN)),
                of(
                        "comes about behind the strike",
                        beginnings(),
                        begun().becomes("busy", busy(), within(5), INJECTION)),
                of(
                        "never in a time behind the strike",
                        beginnings(),
                        begun().expect(it -> new Expectation.Never(it, "never", busy(), window(0, 5)))),
                of("restarts", restarts(), restarting(within(10))),
                of("restarts not too early", restarts(), restarting(within(10, 25))),
                of(
                        "does not restart",
                        restarts(),
                        new Scripts().mustNotFire(FS_01).end(15, INJECTION)),
                of(
                        "answers and then restarts",
                        restarts(),
                        new Scripts()
                                .answeredBy("sees it", FS_02, within(15), INJECTION)
                                .expect(it ->
                                        new Expectation.Restart(it, "restarts", within(50), after(0, "sees it")))),
                of(
                        "restarts and goes on",
                        restarts(),
                        restarting(within(15))
                                .answeredBy("starts over", FS_01, within(35), after(0, "restarts"))
                                .expect(it -> new Expectation.Order(
                                        it,
                                        "order",
                                        List.of(INJECTION, after(0, "restarts"), after(1, "starts over"))))));
    }

    private static Scripts begun() {
        return new Scripts().waitFor(when(step("REACHING")), 100);
    }

    private static Scripts restarting(Window within) {
        return new Scripts().expect(it -> new Expectation.Restart(it, "restarts", within, INJECTION));
    }

    private static Stream<Arguments> all() {
        return Stream.of(ofToldReadings(), ofOtherConditions(), ofUnevenLoops(), ofEvents())
                .flatMap(one -> one);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("all")
    void neverSettlesWhatACompletionWouldTurnRound(String what, List<Supplier<SyntheticTrace>> world, Scripts scripts) {
        settlesSoundly(what, world, scripts, EVERY);
    }

    @Tag("long")
    @ParameterizedTest(name = "{0}")
    @MethodSource("all")
    void neverSettlesWhatAnyCompletionWouldTurnRound(
            String what, List<Supplier<SyntheticTrace>> world, Scripts scripts) {
        settlesSoundly(what, world, scripts, 1);
    }

    private static void settlesSoundly(
            String what, List<Supplier<SyntheticTrace>> world, Scripts scripts, int everySoManieth) {
        Completions completions = new Completions(what, world, scripts.script());
        List<Consumer<SyntheticTrace>> losses = Stream.of(
                        Completions.losses(TICKS),
                        Completions.scatteredLosses(TICKS),
                        Completions.periods(),
                        Completions.lostPeriods(TICKS))
                .flatMap(List::stream)
                .toList();

        int settled = completions.settledUnder(IntStream.range(0, losses.size())
                .filter(i -> i % everySoManieth == 0)
                .mapToObj(losses::get)
                .toList());

        Set<Verdict> whole = EnumSet.copyOf(completions.whole());
        assertTrue(whole.contains(Verdict.PASS) && whole.contains(Verdict.FAIL), what + ": only " + whole);
        assertTrue(settled > 50, what + ": only " + settled + " verdicts were settled, too few to mean anything");
    }
}
