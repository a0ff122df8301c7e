/**
 * Bytes in and out, with a clock: the line to one rig, real or virtual. Everything above is the same code for both.
 *
 * <p>For: session; cli lists ports. It must not know what the bytes mean. Serial ports work on Linux and macOS; only
 * {@code SerialDevice} touches the library for them.
 */
@NullMarked
package snagbench.bench.link;

import org.jspecify.annotations.NullMarked;
