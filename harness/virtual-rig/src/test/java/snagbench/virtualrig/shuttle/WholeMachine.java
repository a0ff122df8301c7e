package snagbench.virtualrig.shuttle;

import java.util.ArrayList;
import java.util.List;
import snagbench.virtualrig.controller.BrownOut;
import snagbench.virtualrig.controller.LineRate;
import snagbench.virtualrig.controller.LoopTime;
import snagbench.virtualrig.controller.VirtualController;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.RequestBody;

/** The shuttle on a bench, with a look past its line at what really became of the pots. */
final class WholeMachine {
    static final int PARKED = 18;
    private static final long RUN_MICROS = 30_000_000;

    final TestBench bench;
    private final ShuttleMachine machine;
    private int armed;

    private WholeMachine(ShuttleBuild build) {
        machine = new ShuttleMachine(build);
        bench = new TestBench(
                new VirtualController(
                        machine, new LoopTime(5000, 200), new BrownOut(7.0, 7.5, 50_000), LineRate.UNLIMITED),
                77,
                Long.MAX_VALUE);
        bench.openUnwatched();
        bench.home();
    }

    static WholeMachine standard() {
        return new WholeMachine(ShuttleBuild.STANDARD);
    }

    /** Begins a run with those entries behind its start. */
    WholeMachine begin(int seed, List<RequestBody> entries) {
        List<RequestBody> program = new ArrayList<>();
        program.add(Programs.startRun());
        program.addAll(entries);
        armed = bench.arm(seed, Programs.NO_GUARDS, program.toArray(RequestBody[]::new));
        return this;
    }

    /** Lets a run go on to where it parks; false where that is not within its 30 s. */
    boolean parks() {
        return bench.runUntilStep(PARKED, RUN_MICROS);
    }

    List<Integer> answers() {
        return bench.answersSince(armed);
    }

    List<Integer> steps() {
        return bench.stepsSince(armed);
    }

    /** From arming to the last entry into that step, in ms; -1 where it was not entered. */
    int lastEntered(int step) {
        int start = bench.since(armed, EventKind.ARMED).get(0).micros;
        int at = -1;
        for (Event event : bench.since(armed, EventKind.STATE)) {
            if (event.a == TestBench.STEP && event.b == step) {
                at = (event.micros - start) / 1000;
            }
        }
        return at;
    }

    ShuttlePlant plant() {
        return machine.plant();
    }
}
