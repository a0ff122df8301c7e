/**
 * Writes the files that {@code script.read} reads.
 *
 * <p>For: commands that start a script for the user. It must not know of rigs that are connected.
 */
@NullMarked
package snagbench.bench.script.write;

import org.jspecify.annotations.NullMarked;
