package snagbench.bench.judge;

import java.math.BigDecimal;
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
