package snagbench.probe;

import snagbench.wire.ResetCause;
import snagbench.wire.Wire;

/** What the greeting tells of the controller and its build. */
public final class Controller {
    final String build;
    final int bootId;
    final ResetCause cause;
    final boolean real;
    final int tickMicros;

    /**
     * Sets all of it.
     *
     * @param build names the control code's build, up to {@link Wire#LONGEST_BUILD} bytes in UTF-8
     * @param bootId another one after each restart, not 0; it must not live in RAM alone
     * @param cause why the controller started
     * @param real true if it moves something real
     * @param tickMicros loop time in microseconds where it is fixed, else 0
     * @throws IllegalArgumentException if the build's name is too long, the boot id is 0 or the loop time negative
     */
    public Controller(String build, int bootId, ResetCause cause, boolean real, int tickMicros) {
        ChannelSpec.requireLength("build", build, 0, Wire.LONGEST_BUILD);
        if (bootId == 0) {
            throw new IllegalArgumentException("boot id 0 stands for none");
        }
        if (tickMicros < 0) {
            throw new IllegalArgumentException("loop time of " + tickMicros + " us, wanted 0 or more");
        }
        this.build = build;
        this.bootId = bootId;
        this.cause = cause;
        this.real = real;
        this.tickMicros = tickMicros;
    }
}
