/**
 * What was seen: everything that the rig reported, by tick, with its gaps known. A lost record is a gap, never a guess.
 *
 * <p>For: judge, report and whoever stores traces. It must not know how the bytes came, or what was expected.
 */
@NullMarked
package snagbench.bench.trace;

import org.jspecify.annotations.NullMarked;
