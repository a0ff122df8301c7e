/**
 * Bytes in and out, with a clock: the line to one rig, real or virtual. Everything above is the same code for both.
 *
 * <p>For: session. It must not know what the bytes mean.
 */
@NullMarked
package snagbench.bench.link;

import org.jspecify.annotations.NullMarked;
