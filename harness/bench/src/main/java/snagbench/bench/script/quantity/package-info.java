/**
 * Figures with units, and the grids of whole steps on which channels have their values; all of it exact.
 *
 * <p>For: the readers of the files that users write. It must not know of channels, files or times of a rig.
 */
@NullMarked
package snagbench.bench.script.quantity;

import org.jspecify.annotations.NullMarked;
