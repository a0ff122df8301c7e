package snagbench.bench.script;

import java.math.BigDecimal;
import java.util.List;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;

/**
 * One channel, as the rig describes it. Values are 32-bit integers in the channel's step, {@code m * 10^e} of the unit.
 *
 * @param index its place in the rig's description, from 0
 * @param name its name
 * @param kind what it is
 * @param unit symbol of its unit; empty for none
 * @param stepMultiplier m, from 1
 * @param stepExponent e
 * @param lowest lowest value, in steps
 * @param highest greatest value, in steps
 * @param absent what the control code is told when there is no reading, in steps
 * @param flags flags of {@link Item}, added
 * @param valueNames names of the values 0, 1, 2 and so on; empty for none
 */
public record ChannelDescription(
        int index,
        String name,
        ChannelKind kind,
        String unit,
        int stepMultiplier,
        int stepExponent,
        int lowest,
        int highest,
        int absent,
        int flags,
        List<String> valueNames) {
    /** Copies the list. */
    public ChannelDescription {
        valueNames = List.copyOf(valueNames);
    }

    /**
     * The step in the channel's unit.
     *
     * @return exact
     */
    public BigDecimal step() {
        return BigDecimal.valueOf(stepMultiplier).scaleByPowerOfTen(stepExponent);
    }

    /**
     * A value as people read it: its name, or figure and unit.
     *
     * @param raw in steps
     * @return such as "5.80 A" or "REACHING"
     */
    public String show(int raw) {
        if (raw >= 0 && raw < valueNames.size()) {
            return valueNames.get(raw);
        }
        String figure = step().multiply(BigDecimal.valueOf(raw)).toPlainString();
        return unit.isEmpty() ? figure : figure + " " + unit;
    }

    /**
     * Tells whether it is the step of the control code's sequence.
     *
     * @return true for the step
     */
    public boolean isStep() {
        return (flags & Item.STEP) != 0;
    }
}
