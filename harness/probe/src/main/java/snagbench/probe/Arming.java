package snagbench.probe;

import java.util.function.BooleanSupplier;

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
     * A real rig that may be armed and commanded only while something physical says so: a key, a held switch, a jumper.
     * It is asked at each such request, and not while a program runs: what ends a run is the lease, or a switch in the
     * motors' supply.
     *
     * @param enable true while it is on; asked on the control loop's thread, so it must not wait
     * @return how such a rig arms
     */
    static Arming onlyWhile(BooleanSupplier enable) {
        return new Arming() {
            @Override
            public boolean isEnabled() {
                return enable.getAsBoolean();
            }

            @Override
            public void armed(int seed) {
                // Nothing to reset on a real machine: the bench brings it to ready before.
            }
        };
    }

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
