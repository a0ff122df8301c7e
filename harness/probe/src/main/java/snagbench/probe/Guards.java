package snagbench.probe;

import snagbench.wire.Guard;
import snagbench.wire.GuardKind;

/** Limits on real readings, whatever the control code is told. The first that trips wins. */
final class Guards {
    private final Guard[] guards;
    private final int[] stalledSinceMicros;
    private final boolean[] stalled;
    /** Travel beyond its limit when a latch was released: going back is allowed, going further is not. */
    private final boolean[] wayBack;
    private final int[] wayBackFrom;
    private int count;

    Guards(int most) {
        guards = new Guard[most];
        stalledSinceMicros = new int[most];
        stalled = new boolean[most];
        wayBack = new boolean[most];
        wayBackFrom = new int[most];
    }

    void clear() {
        count = 0;
    }

    int count() {
        return count;
    }

    boolean isFull() {
        return count == guards.length;
    }

    void add(Guard guard) {
        stalled[count] = false;
        wayBack[count] = false;
        guards[count++] = guard;
    }

    boolean watches(int channel) {
        for (int i = 0; i < count; i++) {
            if (guards[i].channel == channel) {
                return true;
            }
        }
        return false;
    }

    /** Index of the first guard that trips at the end of this tick; -1 for none. */
    int tripped(Readings readings, int tickMicros) {
        int first = -1;
        for (int i = 0; i < count; i++) {
            if (trips(i, readings, tickMicros) && first < 0) {
                first = i;
            }
        }
        return first;
    }

    int channelOf(int guard) {
        return guards[guard].channel;
    }

    /** After a latch is released, the machine may come back from beyond a limit of travel. */
    void allowWayBack(Readings readings) {
        for (int i = 0; i < count; i++) {
            stalled[i] = false;
            int real = readings.real[guards[i].channel];
            wayBack[i] = guards[i].kind == GuardKind.TRAVEL.code() && beyond(guards[i], real);
            wayBackFrom[i] = real;
        }
    }

    private boolean trips(int i, Readings readings, int tickMicros) {
        Guard guard = guards[i];
        int real = readings.real[guard.channel];
        if (guard.kind == GuardKind.TRAVEL.code()) {
            return tripsOnTravel(i, guard, real);
        }
        if (!readings.reachesBack(guard.windowTicks)) {
            return false;
        }
        long change = Math.abs(readings.change(guard.channel, false, guard.windowTicks));
        if (guard.kind == GuardKind.SPEED.code()) {
            return change > guard.a;
        }
        boolean driven = Math.abs((long) readings.real[guard.command]) >= guard.a;
        if (!driven || change > guard.b) {
            stalled[i] = false;
            return false;
        }
        if (!stalled[i]) {
            stalled[i] = true;
            stalledSinceMicros[i] = tickMicros;
        }
        return tickMicros - stalledSinceMicros[i] >= guard.timeMicros;
    }

    private boolean tripsOnTravel(int i, Guard guard, int real) {
        if (!beyond(guard, real)) {
            wayBack[i] = false;
            return false;
        }
        if (!wayBack[i]) {
            return true;
        }
        return real > guard.b ? real > wayBackFrom[i] : real < wayBackFrom[i];
    }

    private static boolean beyond(Guard guard, int real) {
        return real < guard.a || real > guard.b;
    }
}
