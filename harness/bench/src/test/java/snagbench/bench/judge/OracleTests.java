package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.place;
import static snagbench.bench.judge.Scripts.quantity;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.yesOrNo;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/**
 * Random scripts on random traces, against an evaluator that is obviously right and sees everything. With nothing lost the
 * judge says the same; with something lost it says the same or nothing.
 */
class OracleTests {
    private static final int TICKS = 14;
    private static final List<Relation> RELATIONS = List.of(Relation.values());
    private static final int CASES = Integer.getInteger("snagbench.oracle.cases", 400);

    /** What is put to the judge; each kind has its own seeds. */
    enum Kind {
        ANSWERED,
        BECOMES,
        STAYS,
        SETTLES,
        ALWAYS,
        NEVER,
        PEAK,
        TIMES,
        REPORTS,
        MUST_NOT_FIRE,
        ORDER,
        DERIVED,
        RATE
    }

    private static Stream<Kind> kinds() {
        return Stream.of(Kind.values());
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void saysTheSameWithNothingLost(Kind kind) {
        Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
        for (int seed = 0; seed < CASES; seed++) {
            int one = seed;
            SplittableRandom random =
                    new SplittableRandom(seed * 2L + kind.name().hashCode());
            PlainTrace plain = PlainTrace.random(random, TICKS);
            FaultScript script = script(random, kind);
            Judgement judgement = Judge.judge(script, plain.synthetic().trace(), Scripts.rig(0));
            for (int i = 0; i < script.expectations().size(); i++) {
                Finding finding = judgement.findings().get(i);
                Verdict plainly = verdict(script, plain, i);
                boolean mayBeRounded = kind == Kind.DERIVED || kind == Kind.RATE;
                if (!(mayBeRounded && finding.verdict() == Verdict.INCONCLUSIVE)) {
                    assertEquals(plainly, finding.verdict(), () -> words(kind, one, script, finding, plain));
                }
                if (i == 1) {
                    verdicts.merge(finding.verdict(), 1, Integer::sum);
                }
            }
        }
        assertMeansSomething(kind, verdicts, CASES / 30);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void saysTheSameOrNothingWithSomethingLost(Kind kind) {
        Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
        for (int seed = 0; seed < CASES; seed++) {
            int one = seed;
            SplittableRandom random =
                    new SplittableRandom(seed * 2L + 1 + kind.name().hashCode());
            PlainTrace plain = PlainTrace.random(random, TICKS);
            FaultScript script = script(random, kind);
            SyntheticTrace lossy = plain.synthetic();
            lose(random, lossy, plain.events.size());
            Judgement judgement = Judge.judge(script, lossy.trace(), Scripts.rig(0));
            for (int i = 0; i < script.expectations().size(); i++) {
                Finding finding = judgement.findings().get(i);
                Verdict plainly = verdict(script, plain, i);
                if (finding.verdict() != Verdict.INCONCLUSIVE) {
                    assertEquals(
                            plainly,
                            finding.verdict(),
                            () -> words(kind, one, script, finding, plain) + SyntheticTrace.seen(lossy.trace()));
                }
                if (i == 1) {
                    verdicts.merge(finding.verdict(), 1, Integer::sum);
                }
            }
        }
        assertMeansSomething(kind, verdicts, CASES / 200);
    }

    private static void assertMeansSomething(Kind kind, Map<Verdict, Integer> verdicts, int least) {
        assertTrue(
                verdicts.getOrDefault(Verdict.PASS, 0) >= least && verdicts.getOrDefault(Verdict.FAIL, 0) >= least,
                kind + ": too few settled to mean anything: " + verdicts);
    }

    private static Verdict verdict(FaultScript script, PlainTrace plain, int index) {
        return new NaiveEvaluator(script, plain)
                .isMet(index)
                .map(met -> met ? Verdict.PASS : Verdict.FAIL)
                .orElse(Verdict.INCONCLUSIVE);
    }

    private static String words(Kind kind, int seed, FaultScript script, Finding finding, PlainTrace plain) {
        return kind + ", seed " + seed + ": " + finding + "\n" + script.expectations() + "\nend " + script.end()
                + plain;
    }

    static void lose(SplittableRandom random, SyntheticTrace trace, int events) {
        int[] periods = {1, 1, 1, 2, 3, 4};
        trace.period(periods[random.nextInt(periods.length)]);
        for (int stretch = random.nextInt(3); stretch > 0; stretch--) {
            int first = random.nextInt(TICKS);
            trace.loseTicks(first, Math.min(TICKS - 1, first + random.nextInt(3)));
        }
        for (int lost = random.nextInt(3); lost > 0 && events > 0; lost--) {
            trace.loseEvent(1 + random.nextInt(events));
        }
        if (random.nextInt(4) == 0) {
            trace.split(2).losePart(random.nextInt(TICKS));
        }
    }

    static FaultScript script(SplittableRandom random, Kind kind) {
        Scripts scripts = derived(new Scripts().injectTimes(2));
        scripts.expect(at -> first(random, at));
        scripts.expect(at -> second(random, kind, at));
        return scripts.end(5 + random.nextInt(9), BEGIN).script();
    }

    /** Something that the other may be counted from. */
    private static Expectation first(SplittableRandom random, Place at) {
        Anchor anchor = random.nextBoolean() ? BEGIN : INJECTION;
        return switch (random.nextInt(3)) {
            case 0 -> new Expectation.AnsweredBy(at, "a", failSafe(random), new Window(0, 10_000), anchor, false, 1);
            case 1 ->
                new Expectation.Stays(at, "a", simple(random), 1000L * random.nextInt(3), new Window(0, 8000), anchor);
            default -> new Expectation.Becomes(at, "a", simple(random), new Window(0, 10_000), anchor, 1);
        };
    }

    private static Expectation second(SplittableRandom random, Kind kind, Place at) {
        Condition condition = kind == Kind.DERIVED ? onDerived(random) : condition(random);
        return switch (kind) {
            case ANSWERED ->
                new Expectation.AnsweredBy(
                        at,
                        "b",
                        failSafe(random),
                        window(random),
                        anchor(random),
                        random.nextBoolean(),
                        1 + random.nextInt(2));
            case BECOMES ->
                new Expectation.Becomes(at, "b", condition, window(random), anchor(random), 1 + random.nextInt(2));
            case STAYS ->
                new Expectation.Stays(
                        at,
                        "b",
                        condition,
                        500L * random.nextInt(7),
                        random.nextBoolean() ? new Window(0, 0) : window(random),
                        anchor(random));
            case SETTLES ->
                new Expectation.Settles(
                        at,
                        "b",
                        condition,
                        random.nextBoolean() ? OptionalLong.empty() : OptionalLong.of(500L * random.nextInt(7)),
                        window(random),
                        anchor(random));
            case ALWAYS -> new Expectation.Always(at, "b", condition, stretch(random));
            case NEVER -> new Expectation.Never(at, "b", condition, stretch(random));
            case PEAK -> new Expectation.Peak(at, "b", (Condition.Compares) current(random), stretch(random));
            case TIMES -> times(random, at, condition);
            case REPORTS -> times(random, at, when(new Condition.Answers(place(9), failSafe(random))));
            case MUST_NOT_FIRE ->
                new Expectation.MustNotFire(
                        at,
                        "b",
                        failSafe(random),
                        random.nextInt(3) == 0 ? Optional.empty() : Optional.of(stretch(random)));
            case ORDER -> new Expectation.Order(at, "b", List.of(anchor(random), anchor(random)));
            case DERIVED -> onDerived(random, at, condition);
            case RATE -> new Expectation.Always(at, "b", when(rate(random)), stretch(random));
        };
    }

    private static Expectation times(SplittableRandom random, Place at, Condition condition) {
        int least = random.nextInt(3);
        OptionalInt most = random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(least + random.nextInt(2));
        return new Expectation.Times(at, "b", condition, least, most, stretch(random));
    }

    private static Expectation onDerived(SplittableRandom random, Place at, Condition condition) {
        return switch (random.nextInt(4)) {
            case 0 -> new Expectation.Always(at, "b", condition, stretch(random));
            case 1 -> new Expectation.Never(at, "b", condition, stretch(random));
            case 2 -> new Expectation.Becomes(at, "b", condition, window(random), anchor(random), 1);
            default ->
                new Expectation.Stays(at, "b", condition, 1000L * random.nextInt(3), window(random), anchor(random));
        };
    }

    private static FailSafeDescription failSafe(SplittableRandom random) {
        return random.nextBoolean() ? FS_01 : FS_02;
    }

    private static Window window(SplittableRandom random) {
        long least = random.nextBoolean() ? 0 : 500L * random.nextInt(6);
        return new Window(least, least + 500L * random.nextInt(14));
    }

    private static Anchor anchor(SplittableRandom random) {
        return switch (random.nextInt(6)) {
            case 0 -> BEGIN;
            case 1 -> new Anchor.OfInjection(0, "injection 1", 2);
            case 2, 3 -> after(0, "a");
            default -> INJECTION;
        };
    }

    private static Stretch stretch(SplittableRandom random) {
        return switch (random.nextInt(3)) {
            case 0 -> new Stretch(anchor(random), Optional.empty(), Optional.empty());
            case 1 -> new Stretch(anchor(random), Optional.of(window(random)), Optional.empty());
            default -> new Stretch(anchor(random), Optional.empty(), Optional.of(anchor(random)));
        };
    }

    private static Condition simple(SplittableRandom random) {
        return when(random.nextBoolean() ? current(random) : aStep(random));
    }

    private static Condition.Term aStep(SplittableRandom random) {
        return step(STEP.valueNames().get(random.nextInt(4)));
    }

    private static Condition.Term current(SplittableRandom random) {
        return new Condition.Compares(place(9), CURRENT, Source.REAL, relation(random), random.nextInt(4));
    }

    private static Relation relation(SplittableRandom random) {
        return RELATIONS.get(random.nextInt(RELATIONS.size()));
    }

    private static Condition condition(SplittableRandom random) {
        return random.nextInt(3) == 0 ? when(term(random), term(random)) : when(term(random));
    }

    private static Condition.Term term(SplittableRandom random) {
        return switch (random.nextInt(9)) {
            case 0 -> aStep(random);
            case 1 -> new Condition.Compares(place(9), POSITION, Source.TOLD, relation(random), 4 + random.nextInt(3));
            case 2 ->
                new Condition.Crosses(place(9), CURRENT, Source.REAL, random.nextBoolean(), 1 + random.nextInt(2));
            case 3 ->
                new Condition.Moves(
                        place(9), CURRENT, Source.REAL, random.nextBoolean(), random.nextInt(3), 1 + random.nextInt(3));
            case 4 -> new Condition.Agrees(place(9), POSITION, random.nextInt(2));
            case 5 -> new Condition.AnyOf(place(9), List.of(when(current(random), aStep(random)), when(aStep(random))));
            case 6 ->
                new Condition.ComparesToStrike(
                        place(9),
                        POSITION,
                        random.nextBoolean() ? Source.REAL : Source.TOLD,
                        relation(random),
                        new Anchor.OfInjection(0, "injection 1", 1 + random.nextInt(2)),
                        random.nextInt(3) - 1);
            default -> current(random);
        };
    }

    private static final ChannelDescription SPEED = quantity(0, "reach.speed", "mm/s", 3, 0);
    private static final ChannelDescription ERROR = quantity(1, "reach.error", "mm", 1, -1);
    private static final ChannelDescription MEAN = quantity(2, "reach.current.mean", "A", 1, -3);
    private static final ChannelDescription RMS = quantity(3, "reach.current.rms", "A", 1, -3);
    private static final ChannelDescription STALLED = yesOrNo(4, "reach.stalled");
    private static final ChannelDescription PRESSED = yesOrNo(5, "pressed");
    private static final ChannelDescription MEAN_ERROR = quantity(6, "reach.error.mean", "mm", 3, -2);

    private static final ChannelDescription BOTH = quantity(7, "reach.both", "mm", 1, -1);

    private static Scripts derived(Scripts scripts) {
        Condition driven = when(Scripts.term(CURRENT, Relation.AT_LEAST, 1));
        Condition pressed = when(Scripts.term(CURRENT, Relation.AT_LEAST, 2));
        return scripts.derive(SPEED, new DerivedChannel.Rate(POSITION, Source.REAL, 2500))
                .derive(ERROR, new DerivedChannel.Difference(POSITION, Source.TOLD, POSITION, Source.REAL))
                .derive(MEAN, new DerivedChannel.Mean(CURRENT, Source.REAL, 2500))
                .derive(RMS, new DerivedChannel.RootMeanSquare(CURRENT, Source.REAL, 2500))
                .derive(STALLED, new DerivedChannel.Stalled(POSITION, Source.REAL, 2, 2000, driven))
                .derive(PRESSED, new DerivedChannel.Debounced(pressed, 1500))
                .derive(MEAN_ERROR, new DerivedChannel.Mean(ERROR, Source.REAL, 1500))
                .derive(BOTH, new DerivedChannel.Sum(POSITION, Source.TOLD, POSITION, Source.REAL));
    }

    private static Condition onDerived(SplittableRandom random) {
        return when(
                switch (random.nextInt(7)) {
                    case 6 -> compares(random, BOTH, random.nextInt(6));
                    case 0 -> compares(random, ERROR, random.nextInt(3));
                    case 1 -> compares(random, MEAN, 10 * random.nextInt(4));
                    case 2 -> compares(random, RMS, 10 + random.nextInt(15));
                    case 3 -> new Condition.Compares(place(9), STALLED, Source.REAL, Relation.IS, random.nextInt(2));
                    case 4 -> new Condition.Compares(place(9), PRESSED, Source.REAL, Relation.IS, random.nextInt(2));
                    default -> compares(random, MEAN_ERROR, random.nextInt(6));
                });
    }

    private static Condition.Term rate(SplittableRandom random) {
        return compares(random, SPEED, random.nextInt(41) - 20);
    }

    private static Condition.Term compares(SplittableRandom random, ChannelDescription channel, int raw) {
        Relation[] withoutIs = {Relation.AT_LEAST, Relation.ABOVE, Relation.AT_MOST, Relation.BELOW};
        return new Condition.Compares(place(9), channel, Source.REAL, withoutIs[random.nextInt(4)], raw);
    }

    @Test
    void theDerivedChannelsOfAWholeTraceAreMostlySettled() {
        int settled = 0;
        for (int seed = 0; seed < CASES; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            PlainTrace plain = PlainTrace.random(random, TICKS);
            FaultScript script = derived(new Scripts())
                    .expect(at -> new Expectation.Always(at, "b", onDerived(random)))
                    .end(9, BEGIN)
                    .script();
            Finding finding = Judge.judge(script, plain.synthetic().trace(), Scripts.rig(0))
                    .findings()
                    .get(0);
            settled += finding.verdict() == Verdict.INCONCLUSIVE ? 0 : 1;
        }
        assertTrue(settled > CASES * 9 / 10, "only " + settled + " of " + CASES);
    }
}
