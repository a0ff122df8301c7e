package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.virtualrig.shuttle.Programs.force;
import static snagbench.virtualrig.shuttle.Programs.forceFor;
import static snagbench.virtualrig.shuttle.Programs.fromPosition;
import static snagbench.virtualrig.shuttle.Programs.inStep;
import static snagbench.virtualrig.shuttle.Programs.untilAnswered;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.wire.Comparison;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Hello;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;

/** Each fail-safe against the trouble that it is there for: answers it, brings the machine back, and not when inhibited. */
class FailSafeTests {
    private static final int SEEDS = 6;
    private static final int REACHING = 2;
    private static final int DRAWING_BACK = 4;
    private static final int GRIPPING = 5;
    private static final int HANDING_OVER = 8;
    private static final int SETTING = 10;
    private static final int RESTARTED = 13;
    /** Index of failsafe.last. */
    private static final int LAST_ANSWER = 0;

    /**
     * One trouble.
     *
     * @param name of it
     * @param failSafe that answers
     * @param pots that must be set by the time the machine parks, at least
     * @param entries of the program, from number 1 on
     */
    record Trouble(String name, int failSafe, int pots, List<RequestBody> entries) {
        Trouble(String name, int failSafe, int pots, RequestBody... entries) {
            this(name, failSafe, pots, List.of(entries));
        }

        @Override
        public String toString() {
            return name + " (FS-" + failSafe + ")";
        }
    }

    private static int channel(String name) {
        return TestBench.channel(name);
    }

    private static RequestBody stuck(String channel, int value) {
        return force(1, EntryKind.STUCK_AT, channel(channel), value);
    }

    static Stream<Trouble> troubles() {
        return Stream.of(
                new Trouble("arm drags", 1, 4, stuck("reach.drag", 58), fromPosition(1, 600), untilAnswered(1, 1)),
                new Trouble(
                        "current told too high",
                        1,
                        4,
                        stuck("reach.current", 580),
                        fromPosition(1, 600),
                        untilAnswered(1, 1)),
                new Trouble(
                        "obstacle midway",
                        2,
                        3,
                        stuck("obstacle.position", 2200),
                        fromPosition(1, 600),
                        untilAnswered(1, 2)),
                new Trouble("rack empty", 3, 3, stuck("rack.empty", 1), fromPosition(1, 600), untilAnswered(1, 3)),
                new Trouble("pot slips", 4, 3, stuck("pot.slips", 1), inStep(1, GRIPPING), untilAnswered(1, 4)),
                new Trouble("caught behind the carriage", 5, 4, stuck("jam.position", 3400), inStep(1, GRIPPING)),
                new Trouble("jammed in the throat", 6, 4, stuck("jam.position", 500), inStep(1, GRIPPING)),
                new Trouble(
                        "jam that ends when the fail-safe answers",
                        6,
                        4,
                        stuck("jam.position", 500),
                        inStep(1, GRIPPING),
                        untilAnswered(1, 6)),
                new Trouble(
                        "pot off the middle meets the throat's rim",
                        6,
                        4,
                        forceFor(1, channel("pot.offset"), 120, 3_000_000),
                        inStep(1, REACHING)),
                new Trouble(
                        "jam told near home",
                        6,
                        4,
                        force(1, EntryKind.FREEZE, TestBench.POSITION, 0),
                        inStep(1, DRAWING_BACK),
                        Programs.when(1, TestBench.POSITION, Comparison.AT_MOST, 500),
                        untilAnswered(1, 6)),
                new Trouble(
                        "shoved from the rack",
                        7,
                        3,
                        stuck("base.push", 800),
                        fromPosition(1, 1000),
                        untilAnswered(1, 7)),
                new Trouble(
                        "shoved from the shelf",
                        7,
                        3,
                        forceFor(1, channel("base.push"), -800, 1_000_000),
                        inStep(1, SETTING)),
                new Trouble(
                        "odometry told off its place, and staying so",
                        7,
                        3,
                        force(1, EntryKind.OFFSET, channel("base.position"), 800),
                        fromPosition(1, 1000)),
                new Trouble(
                        "somebody at the shelf for a while",
                        8,
                        3,
                        forceFor(1, channel("shelf.visitor"), 2500, 3_000_000),
                        inStep(1, HANDING_OVER)),
                new Trouble(
                        "hand-over fails once",
                        9,
                        4,
                        stuck("pot.stays", 1),
                        inStep(1, HANDING_OVER),
                        untilAnswered(1, 9)),
                new Trouble(
                        "hand-over fails three times",
                        10,
                        3,
                        stuck("pot.stays", 1),
                        inStep(1, HANDING_OVER),
                        untilAnswered(1, 10)),
                new Trouble(
                        "somebody at the shelf for good",
                        10,
                        3,
                        forceFor(1, channel("shelf.visitor"), 2500, 6_000_000),
                        inStep(1, HANDING_OVER)),
                new Trouble("less time than usual", 11, 1, stuck("park-by", 8000), inStep(1, REACHING)),
                new Trouble(
                        "time told to be nearly out",
                        11,
                        1,
                        force(1, EntryKind.OFFSET, channel("run.time"), 20_000),
                        inStep(1, REACHING),
                        Programs.when(1, channel("pots.set"), Comparison.IS, 1)),
                new Trouble("hand in the fingers' beam", 12, 4, stuck("gripper.hand", 1), fromPosition(1, 600)),
                new Trouble("hand in the throat's beam", 12, 4, stuck("throat.hand", 1), fromPosition(1, 600)),
                new Trouble(
                        "encoder frozen",
                        12,
                        0,
                        force(1, EntryKind.FREEZE, TestBench.POSITION, 0),
                        fromPosition(1, 1800)));
    }

    @ParameterizedTest
    @MethodSource("troubles")
    void isAnsweredAndTheMachineComesBack(Trouble trouble) {
        for (int seed = 1; seed <= SEEDS; seed++) {
            WholeMachine run = WholeMachine.standard().begin(seed, trouble.entries);
            String what = trouble + ", seed " + seed;
            assertTrue(run.parks(), () -> what + ": not parked, steps " + run.steps() + ", answers " + run.answers());
            assertTrue(run.answers().contains(trouble.failSafe), () -> what + ": answers " + run.answers());
            int set = run.plant().potsOnPegs();
            assertTrue(set >= trouble.pots, () -> what + ": " + set + " pots set, steps " + run.steps());
        }
    }

    /** What answers before it, where giving up only comes after trying. */
    @ParameterizedTest
    @MethodSource("troubles")
    void isAnsweredByNoOtherFailSafeBefore(Trouble trouble) {
        List<Integer> allowed = trouble.failSafe == 10 ? List.of(8, 9, 10) : List.of(trouble.failSafe);
        for (int seed = 1; seed <= SEEDS; seed++) {
            WholeMachine run = WholeMachine.standard().begin(seed, trouble.entries);
            run.parks();
            List<Integer> before = run.answers().subList(0, run.answers().indexOf(trouble.failSafe) + 1);
            assertTrue(
                    allowed.containsAll(before),
                    () -> trouble + ": answers " + run.answers() + ", steps " + run.steps());
        }
    }

    @ParameterizedTest
    @MethodSource("troubles")
    void isNotAnsweredByAFailSafeThatIsInhibited(Trouble trouble) {
        List<RequestBody> inhibited = new ArrayList<>(trouble.entries);
        String name = "inhibit FS-" + (trouble.failSafe < 10 ? "0" : "") + trouble.failSafe;
        inhibited.add(force(2, EntryKind.STUCK_AT, channel(name), 1));
        inhibited.add(inStep(2, REACHING));
        WholeMachine run = WholeMachine.standard().begin(3, inhibited);
        run.parks();
        assertFalse(run.answers().contains(trouble.failSafe), () -> trouble + ": answers " + run.answers());
    }

    @Test
    void comesUpStillAfterARestartInARunAndStaysSo() {
        for (int seed = 1; seed <= SEEDS; seed++) {
            WholeMachine run = restarted(seed, 0);
            // It answered before anybody listened: what it answered last can be read, the event is gone.
            assertEquals(RESTARTED, run.bench.lastRecord().told(LAST_ANSWER), "seed " + seed);
            int stands = run.plant().reachPosition();
            run.bench.run(3_000_000);
            assertEquals(stands, run.plant().reachPosition(), "seed " + seed);
            assertEquals(List.of(), stepsOfThisBoot(run), "seed " + seed);
        }
    }

    @Test
    void goesOnByItselfAfterARestartWhereThatFailSafeIsInhibited() {
        WholeMachine run = restarted(3, 1);
        assertEquals(0, run.bench.lastRecord().told(LAST_ANSWER));
        run.bench.run(3_000_000);
        assertTrue(stepsOfThisBoot(run).contains(HANDING_OVER), () -> "steps " + stepsOfThisBoot(run));
    }

    private static WholeMachine restarted(int seed, int inhibited) {
        WholeMachine run = WholeMachine.standard()
                .begin(
                        seed,
                        List.of(
                                stuck("supply.cut", 1),
                                inStep(1, DRAWING_BACK),
                                force(2, EntryKind.STUCK_AT, channel("inhibit FS-13"), inhibited),
                                inStep(2, REACHING)));
        Hello first = run.bench.hello();
        assertTrue(run.bench.runUntil(() -> run.bench.hello().boot != first.boot, 5_000_000), "seed " + seed);
        assertEquals(ResetCause.BROWN_OUT.code(), run.bench.hello().cause);
        run.bench.loseLease();
        run.bench.events.clear();
        run.bench.open();
        run.bench.run(100_000);
        return run;
    }

    private static List<Integer> stepsOfThisBoot(WholeMachine run) {
        return run.bench.events.stream()
                .filter(event -> event.kind == EventKind.STATE.code() && event.a == TestBench.STEP)
                .map(event -> event.b)
                .toList();
    }
}
