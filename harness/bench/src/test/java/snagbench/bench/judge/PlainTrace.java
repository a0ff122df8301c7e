package snagbench.bench.judge;

import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;

/** What really happened in every tick, of which a trace shows some: for an evaluator that has nothing to guess. */
final class PlainTrace {
    final int ticks;
    final long[] micros;
    final int[][] real = new int[4][];
    final int[] told;
    final List<Event> events = new ArrayList<>();
    private boolean forced;

    /** An event in the order of its number. */
    record Event(int number, int tick, EventKind kind, int a, int b) {}

    PlainTrace(int ticks) {
        this.ticks = ticks;
        this.micros = new long[ticks];
        this.told = new int[ticks];
        for (int channel = 0; channel < 4; channel++) {
            real[channel] = new int[ticks];
        }
    }

    /** One with few values, so that limits are met exactly, and struck twice. */
    static PlainTrace random(RandomGenerator random, int ticks) {
        PlainTrace plain = new PlainTrace(ticks);
        boolean uneven = random.nextBoolean();
        int secondStrike = 4 + random.nextInt(5);
        int lastOff = secondStrike + 2;
        int[] reports = new int[3];
        for (int tick = 0; tick < ticks; tick++) {
            plain.micros[tick] =
                    tick == 0 ? 0 : plain.micros[tick - 1] + (uneven ? 500 + random.nextInt(3) * 250 : 1000);
            boolean keeps = tick > 0 && random.nextInt(3) > 0;
            plain.real[CURRENT.index()][tick] = keeps ? plain.real[CURRENT.index()][tick - 1] : random.nextInt(4);
            plain.real[POSITION.index()][tick] =
                    (tick == 0 ? 5 : plain.real[POSITION.index()][tick - 1]) + random.nextInt(3) - 1;
            plain.real[VOLTAGE.index()][tick] = 1200 - random.nextInt(3);
            plain.strike(tick, secondStrike, lastOff);
            plain.told[tick] = plain.real[POSITION.index()][tick] + (plain.forced ? 1 + random.nextInt(2) : 0);
            if (tick > 0 && random.nextInt(6) == 0) {
                int failSafe = 1 + random.nextInt(2);
                plain.event(tick, EventKind.ANSWERED, failSafe, ++reports[failSafe]);
            }
            int before = tick == 0 ? 0 : plain.real[STEP.index()][tick - 1];
            int now = tick > 0 && random.nextInt(4) == 0 ? random.nextInt(4) : before;
            plain.real[STEP.index()][tick] = now;
            if (now != before) {
                plain.event(tick, EventKind.STATE, 0, now);
            }
        }
        return plain;
    }

    private void strike(int tick, int secondStrike, int lastOff) {
        if (tick == 1 || tick == secondStrike) {
            event(tick, EventKind.ENTRY_ON, 0, tick == 1 ? 1 : 2);
            forced = true;
        } else if (tick == 3 || tick == lastOff) {
            event(tick, EventKind.ENTRY_OFF, 0, EntryEnd.LASTED.code());
            forced = false;
        }
    }

    private void event(int tick, EventKind kind, int a, int b) {
        events.add(new Event(events.size() + 1, tick, kind, a, b));
    }

    /** As a rig sends it, nothing lost. */
    SyntheticTrace synthetic() {
        SyntheticTrace trace = new SyntheticTrace(ticks).clock(tick -> (int) micros[Math.max(0, tick)]);
        for (int channel = 0; channel < 4; channel++) {
            int[] values = real[channel];
            trace.real(SyntheticTrace.rig().channels().get(channel), tick -> values[Math.max(0, tick)]);
        }
        trace.told(POSITION, tick -> told[Math.max(0, tick)]);
        events.forEach(one -> trace.event(one.tick(), one.kind(), one.a(), one.b()));
        return trace;
    }

    /** All that was, for the message of a failing test. */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder();
        for (int tick = 0; tick < ticks; tick++) {
            text.append(String.format(
                    "%n  tick %d at %d: step %d, position %d told %d, current %d",
                    tick, micros[tick], real[0][tick], real[1][tick], told[tick], real[2][tick]));
        }
        return text + "\n  " + events;
    }
}
