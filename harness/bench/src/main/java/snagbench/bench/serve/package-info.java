/**
 * A virtual rig in real time on a pseudo-terminal, and the faults that a line can have: so that the serial way to a rig can
 * be tried with no machine.
 *
 * <p>For: cli, and tests of the line. It knows virtual rigs by their interface alone, and what their frames tell; it must not
 * know the harness that drives them.
 */
@NullMarked
package snagbench.bench.serve;

import org.jspecify.annotations.NullMarked;
