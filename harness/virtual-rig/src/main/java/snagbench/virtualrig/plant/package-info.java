/**
 * Motors, slides, batteries and sensors as physics, in SI units.
 *
 * <p>For: whoever puts a virtual machine together. It must know nobody: no probe, no controller, no clock, no particular
 * machine. It uses {@code + - * /} and {@link java.lang.StrictMath} alone, so that every JDK gives the same bits.
 */
@NullMarked
package snagbench.virtualrig.plant;

import org.jspecify.annotations.NullMarked;
