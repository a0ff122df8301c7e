package snagbench.probe;

import snagbench.wire.ChannelKind;

/** One named quantity of the rig, as its {@link Description} holds it. The control code keeps these as handles. */
public final class Channel {
    private final int index;
    private final ChannelSpec spec;

    Channel(int index, ChannelSpec spec) {
        this.index = index;
        this.spec = spec;
    }

    /**
     * Its place in the description.
     *
     * @return from 0
     */
    public int index() {
        return index;
    }

    /**
     * Its name.
     *
     * @return up to 24 bytes in UTF-8
     */
    public String name() {
        return spec.name;
    }

    /**
     * What it is.
     *
     * @return its kind
     */
    public ChannelKind kind() {
        return spec.kind;
    }

    /**
     * Lowest value that the control code is ever told.
     *
     * @return in steps
     */
    public int lowest() {
        return spec.lowest;
    }

    /**
     * Greatest value that the control code is ever told.
     *
     * @return in steps
     */
    public int highest() {
        return spec.highest;
    }

    /**
     * What the control code is told when there is no reading.
     *
     * @return in steps
     */
    public int absent() {
        return spec.absent;
    }

    /**
     * Flags as they travel.
     *
     * @return flags of {@link snagbench.wire.Item}, added
     */
    public int flags() {
        return spec.flags;
    }

    ChannelSpec spec() {
        return spec;
    }

    @Override
    public String toString() {
        return spec.name;
    }
}
