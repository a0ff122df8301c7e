package snagbench.probe;

/** What the rig has to say to, and do at, the start of a program. */
public interface Arming {
    /** A rig without a physical enable and with nothing to reset. */
    Arming ALWAYS = new Arming() {
        @Override
        public boolean isEnabled() {
            return true;
        }

        @Override
        public void armed(int seed) {
            // Nothing to reset on a real machine: the bench brings it to ready before.
        }
    };

    /**
     * Tells whether the physical enable (a key, a held switch) is on. A rig that can move something real should have one.
     *
     * @return false to have arming and commands refused
     */
    boolean isEnabled();

    /**
     * The program starts with this tick. A virtual rig resets its whole plant here: charge, position, heat, variation.
     *
     * @param seed of the plant's variation
     */
    void armed(int seed);
}
