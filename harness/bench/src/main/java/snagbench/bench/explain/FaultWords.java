package snagbench.bench.explain;

import java.math.BigDecimal;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;

/** What happens to a channel, in words. */
final class FaultWords {
    private final RigDescription rig;

    FaultWords(RigDescription rig) {
        this.rig = rig;
    }

    String of(Injection.Forcing forcing) {
        String base = what(forcing.channel(), forcing.fault());
        return forcing.gate()
                .map(gate -> base + " (" + Words.time(gate.onMicros()) + " so, " + Words.time(gate.offMicros())
                        + " not, by turns)")
                .orElse(base);
    }

    private String what(ChannelDescription channel, Fault fault) {
        String name = channel.name();
        return switch (channel.kind()) {
            case DISTURBANCE -> name + " is really set to " + value(channel, fault);
            case INHIBITION -> "the control code leaves out what " + name + " inhibits";
            case ACTUATOR -> "the drive " + name + " is weakened: " + change(channel, fault);
            default -> name + " " + reading(channel, fault);
        };
    }

    private static String value(ChannelDescription channel, Fault fault) {
        return fault instanceof Fault.StuckAt stuck ? Words.value(channel, stuck.raw()) : "another value";
    }

    private static String change(ChannelDescription channel, Fault fault) {
        return fault instanceof Fault.Scale scale
                ? percent(scale.factor()) + " of it"
                : "it is " + value(channel, fault);
    }

    private static String percent(BigDecimal factor) {
        BigDecimal hundred = factor.movePointRight(2).stripTrailingZeros();
        return (hundred.signum() == 0 ? "0" : hundred.toPlainString()) + " %";
    }

    private String reading(ChannelDescription channel, Fault fault) {
        if (fault instanceof Fault.StuckAt stuck) {
            return "reads " + Words.value(channel, stuck.raw());
        }
        if (fault instanceof Fault.Freeze) {
            return "freezes at its last reading";
        }
        if (fault instanceof Fault.Offset offset) {
            return "reads " + more(channel, offset.raw())
                    + (offset.overMicros() > 0 ? ", climbing there in " + Words.time(offset.overMicros()) : "");
        }
        if (fault instanceof Fault.Spike spike) {
            return "reads " + more(channel, spike.raw()) + " for "
                    + (spike.forMicros().isPresent()
                            ? Words.time(spike.forMicros().getAsLong())
                            : "one tick");
        }
        if (fault instanceof Fault.Scale scale) {
            return "reads " + percent(scale.factor()) + " of what is real";
        }
        if (fault instanceof Fault.Drift drift) {
            BigDecimal rate = drift.rawPerSecond().multiply(channel.step()).stripTrailingZeros();
            return "drifts by " + (rate.signum() == 0 ? "0" : rate.toPlainString())
                    + (channel.unit().isEmpty() ? "" : " " + channel.unit()) + " per second";
        }
        if (fault instanceof Fault.Noise noise) {
            BigDecimal deviation = noise.raw().multiply(channel.step()).stripTrailingZeros();
            return "is noisy, with a standard deviation of " + deviation.toPlainString()
                    + (channel.unit().isEmpty() ? "" : " " + channel.unit());
        }
        if (fault instanceof Fault.Dropout) {
            return "has no reading, which the control code gets as " + Words.value(channel, channel.absent());
        }
        if (fault instanceof Fault.Delay delay) {
            return "reads what was real " + Words.ticks(delay.ticks()) + inTime(delay.ticks()) + " ago";
        }
        Fault.Replay replay = (Fault.Replay) fault;
        Fault.Point last = replay.points().get(replay.points().size() - 1);
        return "follows a curve of " + replay.points().size() + (replay.points().size() == 1 ? " point" : " points")
                + " over " + Words.ticks(last.ticks()) + inTime(last.ticks()) + ", from "
                + Words.value(channel, replay.points().get(0).raw()) + " to " + Words.value(channel, last.raw());
    }

    private static String more(ChannelDescription channel, int raw) {
        return Words.value(channel, Math.abs(raw)) + (raw < 0 ? " less" : " more") + " than is real";
    }

    private String inTime(int ticks) {
        long loop = rig.limits().tickMicros();
        return loop == 0 ? "" : " (" + Words.time(loop * ticks) + ")";
    }
}
