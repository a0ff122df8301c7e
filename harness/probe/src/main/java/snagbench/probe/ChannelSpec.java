package snagbench.probe;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;
import snagbench.wire.Wire;

/**
 * What a channel is to be; each method gives a new one. Values travel as 32-bit integers in the channel's own step,
 * which is {@code m * 10^e} of its unit: a position in tenths of a millimetre has the unit "mm" and the step (1, -1).
 */
public final class ChannelSpec {
    final String name;
    final ChannelKind kind;
    final String unit;
    final int stepMultiplier;
    final int stepExponent;
    final int lowest;
    final int highest;
    final int absent;
    final int flags;
    final List<String> valueNames;

    private ChannelSpec(
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
        this.name = name;
        this.kind = kind;
        this.unit = unit;
        this.stepMultiplier = stepMultiplier;
        this.stepExponent = stepExponent;
        this.lowest = lowest;
        this.highest = highest;
        this.absent = absent;
        this.flags = flags;
        this.valueNames = valueNames;
    }

    /**
     * A channel without unit, with the step 1 and the range from 0 to 1, 0 when absent.
     *
     * @param kind what it is
     * @param name up to 24 bytes in UTF-8, not empty
     * @return a spec
     * @throws IllegalArgumentException if the name is empty or too long
     */
    public static ChannelSpec of(ChannelKind kind, String name) {
        requireLength("name", name, 1, Wire.LONGEST_NAME);
        return new ChannelSpec(name, kind, "", 1, 0, 0, 1, 0, 0, Collections.<String>emptyList());
    }

    /**
     * A state with named values 0, 1, 2 and so on.
     *
     * @param name of the channel
     * @param valueNames in order, at least one
     * @return a spec
     */
    public static ChannelSpec state(String name, String... valueNames) {
        for (String valueName : valueNames) {
            requireLength("value's name", valueName, 1, Wire.LONGEST_NAME);
        }
        return of(ChannelKind.STATE, name)
                .range(0, Math.max(0, valueNames.length - 1))
                .withValueNames(valueNames);
    }

    /**
     * The step of the control code's sequence: a state, of which a rig has one.
     *
     * @param name of the channel, usually "step"
     * @param valueNames in order, at least one
     * @return a spec
     */
    public static ChannelSpec step(String name, String... valueNames) {
        return state(name, valueNames).withFlag(Item.STEP);
    }

    /**
     * The same with a unit and a step.
     *
     * @param symbol of the unit, up to 12 bytes in UTF-8
     * @param multiplier m, from 1 to 1000
     * @param exponent e, from -9 to 9
     * @return a spec
     * @throws IllegalArgumentException if something is out of range
     */
    public ChannelSpec unit(String symbol, int multiplier, int exponent) {
        requireLength("unit", symbol, 0, Wire.LONGEST_UNIT);
        if (multiplier < 1 || multiplier > 1000 || exponent < -9 || exponent > 9) {
            throw new IllegalArgumentException("channel " + name + ": step " + multiplier + " * 10^" + exponent
                    + ", wanted a multiplier from 1 to 1000 and an exponent from -9 to 9");
        }
        return new ChannelSpec(name, kind, symbol, multiplier, exponent, lowest, highest, absent, flags, valueNames);
    }

    /**
     * The same with a range.
     *
     * @param least lowest value, in steps
     * @param most greatest value, in steps
     * @return a spec
     * @throws IllegalArgumentException if the range is empty
     */
    public ChannelSpec range(int least, int most) {
        if (least > most) {
            throw new IllegalArgumentException(
                    "channel " + name + ": range from " + least + " to " + most + " is empty");
        }
        int withinRange = Math.max(least, Math.min(most, absent));
        return new ChannelSpec(
                name, kind, unit, stepMultiplier, stepExponent, least, most, withinRange, flags, valueNames);
    }

    /**
     * The same with a value that stands for "no reading".
     *
     * @param value in steps, within the range
     * @return a spec
     * @throws IllegalArgumentException if it is out of range
     */
    public ChannelSpec absent(int value) {
        if (value < lowest || value > highest) {
            throw new IllegalArgumentException(
                    "channel " + name + ": value when absent " + value + " is outside " + lowest + " .. " + highest);
        }
        return new ChannelSpec(
                name, kind, unit, stepMultiplier, stepExponent, lowest, highest, value, flags, valueNames);
    }

    /**
     * The same, marked as a reading over which the control code closes a control loop.
     *
     * @return a spec
     */
    public ChannelSpec closesLoop() {
        return withFlag(Item.CLOSES_LOOP);
    }

    /**
     * The same, marked as an actuator that an override may weaken.
     *
     * @return a spec
     */
    public ChannelSpec mayBeWeakened() {
        return withFlag(Item.MAY_BE_WEAKENED);
    }

    /**
     * The same with names for the values 0, 1, 2 and so on, of any kind of channel (a beam: clear, broken).
     *
     * @param names in order
     * @return a spec
     */
    public ChannelSpec withValueNames(String... names) {
        return new ChannelSpec(
                name,
                kind,
                unit,
                stepMultiplier,
                stepExponent,
                lowest,
                highest,
                absent,
                flags,
                Collections.unmodifiableList(Arrays.asList(names.clone())));
    }

    private ChannelSpec withFlag(int flag) {
        return new ChannelSpec(
                name, kind, unit, stepMultiplier, stepExponent, lowest, highest, absent, flags | flag, valueNames);
    }

    static void requireLength(String what, String text, int least, int most) {
        int bytes = text.getBytes(StandardCharsets.UTF_8).length;
        if (bytes < least || bytes > most) {
            throw new IllegalArgumentException(
                    what + " \"" + text + "\" has " + bytes + " bytes, wanted " + least + " to " + most);
        }
    }
}
