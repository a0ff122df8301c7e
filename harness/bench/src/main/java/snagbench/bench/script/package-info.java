/**
 * First stage: files become a checked, immutable model. Fault scripts, test plans, a rig's file and its snapshot are
 * read with positions, checked against the rig's description, and units are resolved to the channels' own steps.
 *
 * <p>For: everybody downstream. It must not know of any other stage, of links or of clocks.
 */
@NullMarked
package snagbench.bench.script;

import org.jspecify.annotations.NullMarked;
