/**
 * One rig, live: greeting, description, lease, loading a program, arming, listening, letting go. It runs on the caller's
 * thread as a duty cycle; the lease is renewed there and nowhere else, so a harness that hangs lets go.
 *
 * <p>For: run and cli. It must not know what was expected, or what comes of it.
 */
@NullMarked
package snagbench.bench.session;

import org.jspecify.annotations.NullMarked;
