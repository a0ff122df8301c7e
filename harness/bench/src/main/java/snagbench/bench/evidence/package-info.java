/**
 * Statistics over repeats: what so many passes of so many runs show, how many are needed for a claim, and whether the repeats
 * look independent of each other.
 *
 * <p>For: run, report and the command line. It is pure: no input or output, no clock, no rig. It knows verdicts and the words of
 * plans, and nothing of how a run comes about.
 */
@NullMarked
package snagbench.bench.evidence;

import org.jspecify.annotations.NullMarked;
