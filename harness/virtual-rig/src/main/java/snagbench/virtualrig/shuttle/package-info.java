/**
 * The seedling shuttle as a virtual rig: plant, sensors and actuators, a controller, and the control code that runs on it.
 *
 * <p>For: the bench, which finds it by its provider. It knows the probe, and must not know the bench.
 */
@NullMarked
package snagbench.virtualrig.shuttle;

import org.jspecify.annotations.NullMarked;
