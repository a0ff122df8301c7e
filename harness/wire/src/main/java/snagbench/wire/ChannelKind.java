package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What a channel is. */
public enum ChannelKind {
    /** A reading of the machine. */
    SENSOR(0),

    /** A drive that the control code gives; an override can only weaken it. */
    ACTUATOR(1),

    /** An order to the control code. */
    COMMAND(2),

    /** A state of the control code, with named values. */
    STATE(3),

    /** A count that the control code keeps. */
    COUNTER(4),

    /** A physical fault that the rig can make. */
    DISTURBANCE(5),

    /** Not 0: the control code leaves a fail-safe out. */
    INHIBITION(6),

    /** A constant of the control code that may be adjusted. */
    CONSTANT(7);

    private static final ChannelKind[] ALL = values();

    private final int code;

    ChannelKind(int code) {
        this.code = code;
    }

    /**
     * The number on the line.
     *
     * @return the code
     */
    public int code() {
        return code;
    }

    /**
     * Finds by the number on the line.
     *
     * @param code from the line
     * @return the constant, or null where this version knows none
     */
    public static @Nullable ChannelKind of(int code) {
        for (ChannelKind one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
