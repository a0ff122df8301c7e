/**
 * What control code in Java carries: sensor readings pass through the probe, which can override them, watches guards on
 * the real readings, and tells the bench what happened on the controller's own clock.
 *
 * <p>For: the writer of control code, and of a virtual rig. It stands on {@code snagbench.wire} alone and must not know
 * of the bench, of threads or of ports. While a program is armed it allocates nothing, takes and gives a bounded number
 * of bytes a tick, and never waits.
 */
package snagbench.probe;
