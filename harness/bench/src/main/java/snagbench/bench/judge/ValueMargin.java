package snagbench.bench.judge;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import snagbench.bench.script.ChannelDescription;

/**
 * By how much a reading stayed within its limit; negative when it went beyond. It is the robustness in value of temporal
 * logic. At 0 a limit that is "above" or "below" is broken, one that is "at least" or "at most" is not.
 *
 * @param channel whose reading
 * @param steps in steps of the channel
 * @param stepMultiplier m of the channel's step, {@code m * 10^e} of the unit
 * @param stepExponent e of the channel's step
 * @param unit symbol of the unit; empty for none
 */
public record ValueMargin(String channel, long steps, int stepMultiplier, int stepExponent, String unit) {
    static ValueMargin of(ChannelDescription channel, long steps) {
        return new ValueMargin(channel.name(), steps, channel.stepMultiplier(), channel.stepExponent(), channel.unit());
    }

    /** By how often something was within the count that was asked for. */
    static ValueMargin times(String what, long times) {
        return new ValueMargin(what, times, 1, 0, "times");
    }

    /**
     * The least margin of each channel: those that were missed first, the others behind them, else in the order in which they
     * come. Between channels there is no measure.
     *
     * @param margins of findings
     * @return one of each channel
     */
    public static List<ValueMargin> least(Stream<ValueMargin> margins) {
        Map<String, ValueMargin> least = new LinkedHashMap<>();
        margins.forEach(one -> least.merge(one.channel(), one, ValueMargin::lesser));
        return least.values().stream()
                .sorted(Comparator.comparing(one -> !one.isMissed()))
                .toList();
    }

    /** The one that is nearer to the other verdict, or the worse miss; both of the same channel. */
    private ValueMargin lesser(ValueMargin other) {
        return figure().compareTo(other.figure()) <= 0 ? this : other;
    }

    /** Tells whether it was surely missed. */
    private boolean isMissed() {
        return steps < 0;
    }

    /**
     * The margin in the channel's unit.
     *
     * @return exact
     */
    public BigDecimal figure() {
        return BigDecimal.valueOf(stepMultiplier)
                .scaleByPowerOfTen(stepExponent)
                .multiply(BigDecimal.valueOf(steps));
    }

    /**
     * As people read it, signed so that a miss cannot be taken for a margin.
     *
     * @return such as "+0.44 V"
     */
    public String show() {
        return (steps < 0 ? "" : "+") + figure().toPlainString() + (unit.isEmpty() ? "" : " " + unit);
    }
}
