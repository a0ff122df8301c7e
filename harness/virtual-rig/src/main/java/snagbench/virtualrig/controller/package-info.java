/**
 * A virtual controller: its tick loop, its reset, its brown-out, its clock and its end of the line.
 *
 * <p>For: whoever puts a virtual machine together. It knows the probe's interfaces, and must not know any particular
 * machine, any control code, the bench, threads or the wall clock.
 */
@NullMarked
package snagbench.virtualrig.controller;

import org.jspecify.annotations.NullMarked;
