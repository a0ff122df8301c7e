package snagbench.bench.script.write;

import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;

/** Faults as they stand behind a channel. */
final class FaultText {
    private FaultText() {}

    static String of(Injection.Forcing forcing) {
        String fault = of(forcing.fault(), forcing.channel());
        return forcing.gate()
                .map(gate -> "{ intermittent: " + fault + ", on: " + Figures.time(gate.onMicros()) + ", off: "
                        + Figures.time(gate.offMicros()) + " }")
                .orElse(fault);
    }

    private static String of(Fault fault, ChannelDescription channel) {
        if (fault instanceof Fault.Replay replay) {
            return replay.points().stream()
                    .map(point -> point.ticks() + ": " + Lines.text(Figures.value(channel, point.raw())))
                    .collect(Collectors.joining(", ", "{ replay: { ", " } }"));
        }
        return Lines.text(words(fault, channel));
    }

    private static String words(Fault fault, ChannelDescription channel) {
        if (fault instanceof Fault.StuckAt stuck) {
            return "stuck-at " + Figures.value(channel, stuck.raw());
        }
        if (fault instanceof Fault.Offset offset) {
            String over = offset.overMicros() == 0 ? "" : " over " + Figures.time(offset.overMicros());
            return "offset " + Figures.value(channel, offset.raw()) + over;
        }
        if (fault instanceof Fault.Spike spike) {
            String lasting = spike.forMicros().isEmpty()
                    ? ""
                    : " for " + Figures.time(spike.forMicros().getAsLong());
            return "spike " + Figures.value(channel, spike.raw()) + lasting;
        }
        if (fault instanceof Fault.Scale scale) {
            return "scale " + Figures.factor(scale.factor());
        }
        if (fault instanceof Fault.Drift drift) {
            return "drift " + Figures.steps(channel, drift.rawPerSecond()) + " per s";
        }
        if (fault instanceof Fault.Noise noise) {
            return "noise " + Figures.steps(channel, noise.raw());
        }
        if (fault instanceof Fault.Delay delay) {
            return "delay " + Figures.ticks(delay.ticks());
        }
        return fault instanceof Fault.Freeze ? "freeze" : "dropout";
    }
}
