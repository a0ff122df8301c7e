package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.Keep;

/**
 * The clock wraps after 71.6 minutes and its sign turns after 35.8: everything that is measured, over both. The clock
 * is started so that it turns in each of the ticks that follow arming.
 */
class ClockTests {
    private static final int TICKS_TO_ARMING = 16;

    private TestRig rig = new TestRig();
    private int zero;

    private void begin(int turnAt, int ticksBefore) {
        rig = new TestRig(TestRig.ROOMY, false, turnAt - (TICKS_TO_ARMING + ticksBefore) * TestRig.TICK);
        rig.open();
        rig.keep();
    }

    private void arm() {
        while (rig.tick < TICKS_TO_ARMING - 2) {
            rig.tick();
        }
        rig.arm();
        zero = rig.tick;
    }

    @ParameterizedTest
    @ValueSource(ints = {0, Integer.MIN_VALUE, 1, Integer.MIN_VALUE + 2500})
    void lastsForDelayLimitRampAndStallRunOverTheTurnOfTheClock(int turnAt) {
        for (int ticksBefore = -2; ticksBefore < 12; ticksBefore++) {
            begin(turnAt, ticksBefore);
            rig.load(
                    new Guard(
                            0,
                            GuardKind.STALL.code(),
                            rig.trigger.index(),
                            500,
                            0,
                            1,
                            9 * TestRig.TICK,
                            rig.motor.index()),
                    Programs.waitFor(0, -1, 8 * TestRig.TICK),
                    Programs.when(0, rig.step, Comparison.IS, 3),
                    Programs.entry(1, EntryKind.STUCK_AT, rig.current, 5, 3 * TestRig.TICK, 0),
                    Programs.timing(1, 2 * TestRig.TICK, 2 * TestRig.TICK, 1, 1),
                    new Entry(2, EntryKind.OFFSET.code(), rig.position.index(), 60, 8_590_000, -1, -1, 0, 0));
            arm();
            rig.real(rig.motor, 500);
            for (int tick = 1; tick <= 10; tick++) {
                rig.tick();
                assertEquals(tick >= 5 && tick < 8 ? 5 : 0, rig.told(rig.current), "tick " + tick);
                // 0.002000013.. steps a microsecond: 10 a tick from tick 1 on, to 60.
                assertEquals(Math.min(60, 10 * (tick - 1)), rig.told(rig.position), "tick " + tick);
            }
            assertEquals(Arrays.asList("9:0:0"), rig.events(EventKind.STAGE_TIMED_OUT, zero));
            assertEquals(Arrays.asList("10:0:0"), rig.events(EventKind.GUARD, zero));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0, Integer.MIN_VALUE, 1, Integer.MIN_VALUE + 2500})
    void theLeaseRunsOverTheTurnOfTheClock(int turnAt) {
        for (int ticksBefore = 0; ticksBefore < 6; ticksBefore++) {
            begin(turnAt, ticksBefore);
            while (rig.tick < TICKS_TO_ARMING - 1) {
                rig.tick();
            }
            rig.askDone(new Keep(15, 0));
            rig.ticks(2);
            assertEquals(Collections.emptyList(), rig.stop.reasons);
            rig.tick();
            assertEquals(1, rig.stop.reasons.size());
        }
    }
}
