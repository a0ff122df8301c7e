package snagbench.virtualrig.controller;

/**
 * When the controller resets for want of supply.
 *
 * @param levelVolts below it the controller resets
 * @param releaseVolts above it the reset is let go
 * @param startMicros from there to the first tick, also after power-on; above 0
 */
public record BrownOut(double levelVolts, double releaseVolts, int startMicros) {
    /** Refuses a release below the level. */
    public BrownOut {
        if (!(releaseVolts >= levelVolts) || startMicros <= 0) {
            throw new IllegalArgumentException("brown-out below " + levelVolts + " V, released above " + releaseVolts
                    + " V, start after " + startMicros + " us; wanted a release no lower, a start after more than 0");
        }
    }
}
