/**
 * What was seen: everything that the rig reported, by tick, with its gaps known. A lost record is a gap, never a guess.
 *
 * <p>A {@link snagbench.bench.trace.TraceRecorder} gathers it, a {@link snagbench.bench.trace.Trace} is a view of what is
 * there, and a {@link snagbench.bench.trace.TraceFile} keeps it, also while it grows. Behind a restart of the controller a
 * trace has a second part with a clock of its own.
 *
 * <p>For: judge, report and whoever stores traces. It must not know how the bytes came, or what was expected.
 */
@NullMarked
package snagbench.bench.trace;

import org.jspecify.annotations.NullMarked;
