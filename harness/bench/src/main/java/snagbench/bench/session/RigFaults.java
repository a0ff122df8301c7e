package snagbench.bench.session;

import java.util.List;
import java.util.OptionalInt;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.script.NoiseAmplitude;
import snagbench.bench.script.RampRate;
import snagbench.bench.script.ScaleFactor;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Point;

/** Faults as the rig takes them: a kind with its figures, in the fixed point of the wire. */
final class RigFaults {
    private RigFaults() {}

    static Entry entry(int index, Injection.Forcing forcing, int leader, int after, int lastsMicros, int flags) {
        Figures figures = figures(forcing.fault());
        return new Entry(
                index,
                figures.kind.code(),
                forcing.channel().index(),
                figures.a,
                figures.b,
                leader,
                after,
                lastsMicros,
                flags);
    }

    /** The points of an entry's curve, where it follows one. */
    static List<Point> points(int entry, Fault fault) {
        return fault instanceof Fault.Replay replay
                ? replay.points().stream()
                        .map(point -> new Point(entry, point.ticks(), point.raw()))
                        .toList()
                : List.of();
    }

    private record Figures(EntryKind kind, int a, int b) {}

    private static Figures figures(Fault fault) {
        if (fault instanceof Fault.StuckAt stuck) {
            return new Figures(EntryKind.STUCK_AT, stuck.raw(), 0);
        }
        if (fault instanceof Fault.Offset offset) {
            int rate = checked(RampRate.of(offset.raw(), offset.overMicros()));
            return new Figures(EntryKind.OFFSET, offset.raw(), rate);
        }
        if (fault instanceof Fault.Spike spike) {
            return new Figures(EntryKind.SPIKE, spike.raw(), 0);
        }
        if (fault instanceof Fault.Scale scale) {
            return new Figures(EntryKind.SCALE, checked(ScaleFactor.of(scale.factor())), 0);
        }
        if (fault instanceof Fault.Drift drift) {
            return new Figures(EntryKind.DRIFT, checked(RampRate.perSecond(drift.rawPerSecond())), 0);
        }
        if (fault instanceof Fault.Noise noise) {
            return new Figures(EntryKind.NOISE, checked(NoiseAmplitude.of(noise.raw())), 0);
        }
        if (fault instanceof Fault.Delay delay) {
            return new Figures(EntryKind.DELAY, delay.ticks(), 0);
        }
        if (fault instanceof Fault.Freeze) {
            return new Figures(EntryKind.FREEZE, 0, 0);
        }
        return new Figures(fault instanceof Fault.Dropout ? EntryKind.DROPOUT : EntryKind.REPLAY, 0, 0);
    }

    private static int checked(OptionalInt figure) {
        return figure.orElseThrow(() -> new IllegalStateException("a figure that check refuses"));
    }
}
