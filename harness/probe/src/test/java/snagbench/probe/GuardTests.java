package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.Comparison;
import snagbench.wire.Do;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.StopReason;

class GuardTests {
    private static final int GUARD = StopReason.GUARD.code();

    private final TestRig rig = new TestRig();

    private Guard travel(int index, int least, int most) {
        return new Guard(index, GuardKind.TRAVEL.code(), rig.position.index(), least, most, 0, 0, -1);
    }

    private Guard speed(int most, int windowTicks) {
        return new Guard(0, GuardKind.SPEED.code(), rig.position.index(), most, 0, windowTicks, 0, -1);
    }

    private Guard stall(int command, int change, int windowTicks, int micros) {
        return new Guard(
                0,
                GuardKind.STALL.code(),
                rig.position.index(),
                command,
                change,
                windowTicks,
                micros,
                rig.motor.index());
    }

    private boolean trips() {
        return !rig.events(EventKind.GUARD, 0).isEmpty();
    }

    private void positions(int... values) {
        for (int value : values) {
            rig.real(rig.position, value);
            rig.tick();
        }
    }

    @Test
    void travelTripsBeyondItsLimitsAndNotAtThem() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(-10, 20);
        assertFalse(trips());
        positions(21);
        assertEquals(Arrays.asList(rig.tick + ":0:21"), rig.events(EventKind.GUARD, 0));
        assertEquals(Arrays.asList(StopReason.GUARD), rig.stop.reasons);
    }

    @Test
    void watchesTheTruthWhileTheControlCodeIsToldSomethingElse() {
        rig.begin();
        rig.load(travel(0, -10, 20), Programs.entry(0, EntryKind.STUCK_AT, rig.position, 5));
        rig.arm();
        positions(0, 15, 20, 21);
        assertEquals(5, rig.told(rig.position));
        assertTrue(trips());
    }

    @Test
    void aTripStopsAndLatchesAndArmingIsRefused() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(30);
        rig.ticks(3);
        positions(0);
        assertFalse(rig.probe.mayMove());
        assertEquals(Record.LATCHED, rig.record().flags & Record.LATCHED);
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        Answer refused = rig.ask(rig.armRequest());
        assertEquals(Refusal.LATCHED.code(), refused.code);
        assertEquals(GUARD, refused.word);
        refused = rig.ask(new Do(Do.COMMAND, rig.start.index(), 1));
        assertEquals(Refusal.LATCHED.code(), refused.code);
        assertEquals(0, rig.told(rig.start));
    }

    @Test
    void aTripDropsOverridesOnlyOnceTheMachineStands() {
        rig.begin();
        rig.load(travel(0, -10, 20), Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        rig.tick();
        rig.stop.asksUntilStopped = 3;
        positions(30);
        int tripped = rig.tick;
        for (int i = 0; i < 3; i++) {
            rig.tick();
            assertEquals(5, rig.told(rig.current), "tick " + i + " of the stop");
            assertEquals(1, rig.record().active);
        }
        rig.tick();
        assertEquals(0, rig.told(rig.current));
        assertEquals(0, rig.record().active);
        assertEquals(Arrays.asList("0:2:0", "3:2:1"), rig.events(EventKind.STOP, tripped));
        assertEquals(Arrays.asList("4:0:3"), rig.events(EventKind.ENTRY_OFF, tripped));
    }

    @Test
    void theMachineMayComeBackFromBeyondTheLimitButNotGoFurther() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(30);
        rig.ticks(3);
        rig.askDone(new Do(Do.RELEASE_LATCH, -1, 0));
        assertTrue(rig.probe.mayMove());
        positions(30, 25, 21);
        assertEquals(1, rig.stop.reasons.size());
        positions(31);
        assertEquals(2, rig.stop.reasons.size());
    }

    @Test
    void theWayBackEndsWithinTheLimits() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(30);
        rig.ticks(3);
        rig.askDone(new Do(Do.RELEASE_LATCH, -1, 0));
        positions(20);
        assertEquals(1, rig.stop.reasons.size());
        positions(21);
        assertEquals(2, rig.stop.reasons.size());
    }

    @Test
    void theWayBackDoesNotLeadOutOnTheOtherSide() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(30);
        rig.ticks(3);
        rig.askDone(new Do(Do.RELEASE_LATCH, -1, 0));
        positions(-11);
        assertEquals(2, rig.stop.reasons.size());
    }

    @Test
    void releasingALatchThatIsNotThereGivesNoWayBack() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        rig.real(rig.position, 30);
        rig.send(new Do(Do.RELEASE_LATCH, -1, 0));
        rig.tick();
        assertTrue(trips());
    }

    @Test
    void speedTripsOnAChangeAboveTheLimitOverItsWindow() {
        rig.begin();
        rig.load(speed(10, 2));
        rig.ticks(3);
        positions(5, 10, 15, 20);
        assertFalse(trips());
        positions(26);
        assertTrue(trips());
    }

    @Test
    void speedTripsEitherWay() {
        rig.begin();
        rig.load(speed(10, 2));
        rig.ticks(3);
        positions(-5, -11);
        assertTrue(trips());
    }

    @Test
    void stallTripsOnceItHasLastedForItsTime() {
        rig.begin();
        rig.load(stall(500, 2, 2, 3 * TestRig.TICK));
        rig.real(rig.motor, -500);
        rig.ticks(3);
        assertFalse(trips());
        rig.tick();
        // The first tick of the stall is the one in which the motor was driven: 15 ms are over three ticks later.
        assertTrue(trips());
    }

    @Test
    void stallStartsAnewWhenTheMachineMovesOrTheDriveFalls() {
        rig.begin();
        rig.load(stall(500, 2, 1, 3 * TestRig.TICK));
        rig.real(rig.motor, 500);
        positions(0, 0, 3, 3, 3);
        rig.real(rig.motor, 499);
        rig.tick();
        rig.real(rig.motor, 500);
        rig.ticks(3);
        assertFalse(trips());
        rig.tick();
        assertTrue(trips());
    }

    @Test
    void aWeakenedMotorIsNotStalled() {
        rig.begin();
        rig.load(stall(500, 2, 1, 3 * TestRig.TICK), Programs.entry(0, EntryKind.STUCK_AT, rig.motor, 0));
        rig.arm();
        rig.tick();
        rig.real(rig.motor, 800);
        rig.ticks(10);
        assertEquals(0, rig.told(rig.motor));
        assertFalse(trips());
    }

    @Test
    void noStallIsSeenWhileTheRigStopsAndItsDrivesGoPastTheProbe() {
        rig.begin();
        rig.load(stall(500, 2, 1, 3 * TestRig.TICK));
        rig.stop.asksUntilStopped = 8;
        rig.real(rig.motor, 800);
        rig.send(new snagbench.wire.LetGo());
        rig.tick();
        rig.leftOut[rig.motor.index()] = true;
        rig.ticks(8);
        rig.leftOut[rig.motor.index()] = false;
        rig.real(rig.motor, 0);
        rig.ticks(5);
        assertFalse(trips());
    }

    @Test
    void aStallFromBeforeArmingDoesNotCount() {
        rig.begin();
        rig.load(stall(500, 2, 1, 4 * TestRig.TICK), Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.real(rig.motor, 500);
        rig.ticks(3);
        rig.arm();
        rig.ticks(4);
        assertFalse(trips());
        rig.tick();
        assertTrue(trips());
    }

    @Test
    void theJumpOfAPlantThatIsResetAtArmingIsNoMotion() {
        rig.begin();
        rig.load(speed(10, 2), Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.real(rig.position, 0);
        rig.ticks(3);
        rig.send(rig.armRequest());
        rig.real(rig.position, 500);
        rig.ticks(4);
        assertFalse(trips());
    }

    @Test
    void onARealRigTheGuardLooksOnOverTheMomentOfArming() {
        TestRig machine = new TestRig(TestRig.ROOMY, true, 0);
        machine.begin();
        machine.load(
                new Guard(0, GuardKind.SPEED.code(), machine.position.index(), 10, 0, 2, 0, -1),
                Programs.entry(0, EntryKind.STUCK_AT, machine.current, 5));
        machine.ticks(3);
        machine.send(machine.armRequest());
        machine.real(machine.position, 11);
        machine.tick();
        assertEquals(Arrays.asList(StopReason.GUARD), machine.stop.reasons);
    }

    @Test
    void aGuardBeatsTheLeaseAndALetGoInTheSameTick() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        rig.real(rig.position, 30);
        rig.send(new snagbench.wire.LetGo());
        rig.tickAfter(10_000_000);
        int tripped = rig.tick;
        assertEquals(Arrays.asList(StopReason.GUARD), rig.stop.reasons);
        assertEquals(Arrays.asList("0:2:0"), rig.events(EventKind.STOP, tripped));
        rig.tick();
        assertEquals(Arrays.asList("0:2:0", "1:2:1"), rig.events(EventKind.STOP, tripped));
        rig.tick();
        Answer answer = rig.answerTo(rig.number);
        assertNotNull(answer);
        assertTrue(answer.done());
        assertEquals(1, answer.word, "the word tells that a stop is latched");
    }

    @Test
    void aGuardThatTripsInALeaseStopMakesTheLatchAGuards() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        rig.stop.asksUntilStopped = 5;
        rig.tickAfter(10_000_001);
        positions(15, 25);
        assertTrue(trips());
        assertEquals(Arrays.asList(StopReason.LEASE), rig.stop.reasons);
        rig.ticks(8);
        rig.keep();
        assertEquals(GUARD, rig.ask(new Do(Do.COMMAND, rig.start.index(), 1)).word);
    }

    @Test
    void aLeaseThatRunsOutAfterwardsLeavesTheLatchTheGuards() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        positions(30);
        rig.ticks(3);
        positions(0);
        rig.tickAfter(10_000_000);
        rig.ticks(3);
        assertEquals(Arrays.asList(StopReason.GUARD, StopReason.LEASE), rig.stop.reasons);
        rig.keep();
        assertEquals(GUARD, rig.ask(new Do(Do.COMMAND, rig.start.index(), 1)).word);
    }

    @Test
    void aLeaseThatRunsOutInAGuardsStopMakesNoOther() {
        rig.begin();
        rig.load(travel(0, -10, 20));
        rig.stop.asksUntilStopped = 5;
        positions(30);
        rig.tickAfter(10_000_000);
        assertEquals(rig.tick + ":0:0", rig.events(EventKind.LEASE, 0).get(1));
        rig.ticks(8);
        assertEquals(Arrays.asList(StopReason.GUARD), rig.stop.reasons);
        assertEquals(Record.LATCHED, rig.record().flags);
    }

    @Test
    void theProgramStandsStillInTheTickInWhichAGuardTrips() {
        rig.begin();
        rig.load(
                travel(0, -10, 20),
                Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        rig.arm();
        rig.real(rig.trigger, 1);
        rig.real(rig.position, 21);
        rig.tick();
        rig.ticks(4);
        assertEquals(Collections.emptyList(), rig.events(EventKind.ENTRY_ON, 0));
    }

    @Test
    void theFirstOfSeveralGuardsIsNamed() {
        rig.begin();
        rig.load(travel(0, -100, 200), travel(1, -10, 20), travel(2, -10, 20));
        positions(50);
        assertEquals(Arrays.asList(rig.tick + ":1:50"), rig.events(EventKind.GUARD, 0));
    }
}
