package snagbench.virtualrig.controller;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import snagbench.probe.Arming;
import snagbench.probe.ProbeLine;
import snagbench.probe.VirtualRig;
import snagbench.virtualrig.plant.SplitMix64;
import snagbench.wire.ResetCause;

/**
 * A controller in a machine. Its loop runs free, pass after pass; the machine's physics go between the passes in steps of
 * {@link #SUB_STEP_MICROS}, counted from the pass, after each of which the supply is looked at. A pass itself takes no
 * time; what it gives to the line is there at its start.
 *
 * <p>While the supply is too low the controller stands still and hears nothing; then it starts anew, with another boot id
 * and its clock at 0.
 *
 * <p>All that happens hangs on the bytes sent and their times alone: the machine only ever moves on by whole intervals
 * between passes, never by how {@link #runUntil} is called. What lies ready to be taken must be taken: until then the
 * clock stands.
 *
 * <p>This class is not thread-safe.
 */
public final class VirtualController implements VirtualRig {
    /** Longest step of the physics. */
    public static final int SUB_STEP_MICROS = 250;

    private static final int LOOP_STREAM = 0x100;
    private static final int ROOM_TO_RIG = 1 << 20;

    private final Machine machine;
    private final LoopTime loopTime;
    private final BrownOut brownOut;
    private final ByteFifo toRig;
    private final ByteFifo toBench;
    private final Line line = new Line();
    private final OnArming arming = new OnArming();

    private enum Power {
        /** The supply is too low. */
        HELD,
        /** The supply is there again, the start is under way. */
        STARTING,
        RUNNING
    }

    private Power power = Power.STARTING;
    private SplitMix64 loopNoise = SplitMix64.stream(0, LOOP_STREAM);
    private @Nullable Firmware firmware;
    private ResetCause cause = ResetCause.POWER_ON;
    private int boots;
    private long now;
    private long machineTime;
    private long bootTime;
    private long nextTick;

    /**
     * A controller whose power is switched on now, in a machine as its seed 0 makes it.
     *
     * @param machine around it
     * @param loopTime of its loop
     * @param brownOut of its supply
     * @param rate of its line
     */
    public VirtualController(Machine machine, LoopTime loopTime, BrownOut brownOut, LineRate rate) {
        this.machine = machine;
        this.loopTime = loopTime;
        this.brownOut = brownOut;
        toRig = new ByteFifo(rate.nanosPerByte(), ROOM_TO_RIG);
        toBench = new ByteFifo(rate.nanosPerByte(), rate.transmitBuffer());
        nextTick = brownOut.startMicros();
        machine.reset(0);
    }

    @Override
    public long nowMicros() {
        return now;
    }

    @Override
    public void send(byte[] bytes, int from, int length) {
        Objects.checkFromIndexSize(from, length, bytes.length);
        toRig.put(bytes, from, length, now);
    }

    @Override
    public int receive(byte[] into) {
        int taken = 0;
        while (taken < into.length) {
            int next = toBench.take(now);
            if (next < 0) {
                break;
            }
            into[taken++] = (byte) next;
        }
        return taken;
    }

    @Override
    public void runUntil(long micros) {
        while (now < micros && toBench.nextMicros() > now) {
            long until = Math.min(micros, toBench.nextMicros());
            switch (power) {
                case HELD -> waitForSupply(until);
                case STARTING -> start(until);
                case RUNNING -> run(until);
            }
        }
    }

    /** Goes on to the next tick, or as far as it may. */
    private void run(long until) {
        if (nextTick > until) {
            now = until;
            return;
        }
        if (!letPassUntil(nextTick)) {
            return;
        }
        now = nextTick;
        tick(Objects.requireNonNull(firmware));
    }

    private void start(long until) {
        if (nextTick > until) {
            now = until;
            return;
        }
        if (!letPassUntil(nextTick)) {
            return;
        }
        now = nextTick;
        toRig.dropUntil(now);
        bootTime = now;
        boots++;
        Firmware started = machine.boot(new Boot(boots, cause, line, () -> (int) (now - bootTime), arming));
        firmware = started;
        power = Power.RUNNING;
        tick(started);
    }

    private void waitForSupply(long until) {
        long next = machineTime + SUB_STEP_MICROS;
        if (next > until) {
            now = until;
            return;
        }
        machine.advance(SUB_STEP_MICROS);
        machineTime = next;
        now = Math.max(now, next);
        if (machine.supplyVolts() > brownOut.releaseVolts()) {
            power = Power.STARTING;
            nextTick = machineTime + brownOut.startMicros();
        }
    }

    private void tick(Firmware running) {
        running.tick();
        int extra = (int) loopNoise.between(0, loopTime.extraMicros() + 1.0);
        nextTick = now + loopTime.shortestMicros() + extra;
    }

    /** Moves the machine on; false where the supply gave way before. */
    private boolean letPassUntil(long time) {
        while (machineTime < time) {
            int step = (int) Math.min(SUB_STEP_MICROS, time - machineTime);
            machine.advance(step);
            machineTime += step;
            if (machine.supplyVolts() < brownOut.levelVolts()) {
                machine.outputsOff();
                firmware = null;
                cause = ResetCause.BROWN_OUT;
                power = Power.HELD;
                return false;
            }
        }
        return true;
    }

    private final class Line implements ProbeLine {
        @Override
        public int read() {
            return toRig.take(now);
        }

        @Override
        public int write(byte[] bytes, int from, int length) {
            return toBench.put(bytes, from, length, now);
        }
    }

    private final class OnArming implements Arming {
        @Override
        public boolean isEnabled() {
            return true;
        }

        @Override
        public void armed(int seed) {
            machine.reset(seed);
            loopNoise = SplitMix64.stream(seed, LOOP_STREAM);
        }
    }
}
