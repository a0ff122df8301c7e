/**
 * The readers of the files that users write: each gives back a checked model and all problems of a file, and throws for
 * no mistake of a user's.
 *
 * <p>For: the command line and whatever else runs scripts. It must not know of links, sessions or clocks.
 */
@NullMarked
package snagbench.bench.script.read;

import org.jspecify.annotations.NullMarked;
