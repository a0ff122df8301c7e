package snagbench.probe;

import snagbench.wire.ChannelKind;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;

/** Limits on real readings, whatever the control code is told. The first that trips wins. */
final class Guards {
    private final Description description;
    private final Guard[] guards;
    private final GuardKind[] kinds;
    private final int[] stalledSinceMicros;
    private final boolean[] stalled;

    /** Travel beyond its limit when a latch was released: going back is allowed, going further is not. */
    private final boolean[] wayBack;

    private final int[] wayBackFrom;
    private int count;

    Guards(int most, Description description) {
        this.description = description;
        guards = new Guard[most];
        kinds = new GuardKind[most];
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

    void add(Guard guard, GuardKind kind) {
        stalled[count] = false;
        wayBack[count] = false;
        kinds[count] = kind;
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

    /** No time from before arming counts. */
    void arm() {
        for (int i = 0; i < count; i++) {
            stalled[i] = false;
        }
    }

    /**
     * Index of the first guard that trips at the end of this tick; -1 for none.
     *
     * @param stopping in a safe stop the drives go past the probe, so that no stall can be told
     */
    int tripped(Readings readings, int tickMicros, boolean stopping) {
        int first = -1;
        for (int i = count - 1; i >= 0; i--) {
            if (trips(i, readings, tickMicros, stopping)) {
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
            wayBack[i] = kinds[i] == GuardKind.TRAVEL && beyond(guards[i], real);
            wayBackFrom[i] = real;
        }
    }

    private boolean trips(int i, Readings readings, int tickMicros, boolean stopping) {
        Guard guard = guards[i];
        switch (kinds[i]) {
            case TRAVEL:
                return tripsOnTravel(i, guard, readings.real[guard.channel]);
            case SPEED:
                return readings.remembers(guard.windowTicks) && change(guard, readings) > guard.a;
            case STALL:
                stalled[i] = !stopping && stands(guard, readings) && keepsStalled(i, tickMicros);
                return stalled[i] && tickMicros - stalledSinceMicros[i] >= guard.timeMicros;
            default:
                return false;
        }
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

    private static long change(Guard guard, Readings readings) {
        return Math.abs(readings.change(guard.channel, false, guard.windowTicks));
    }

    private boolean stands(Guard guard, Readings readings) {
        // What a drive was given, not what was wanted: a motor that is made weak does not push.
        boolean driven = description.channels().get(guard.command).kind() == ChannelKind.ACTUATOR;
        long command = driven ? readings.told[guard.command] : readings.real[guard.command];
        return Math.abs(command) >= guard.a
                && readings.remembers(guard.windowTicks)
                && change(guard, readings) <= guard.b;
    }

    private boolean keepsStalled(int i, int tickMicros) {
        if (!stalled[i]) {
            stalledSinceMicros[i] = tickMicros;
        }
        return true;
    }
}
