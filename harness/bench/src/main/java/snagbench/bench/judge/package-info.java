/**
 * Expectations and a trace become a verdict, with margins and reasons. Same trace, same verdict, always.
 *
 * <p>For: run and report. It reads no clock, does no input or output, and knows no session: only the script's model and
 * the trace.
 */
@NullMarked
package snagbench.bench.judge;

import org.jspecify.annotations.NullMarked;
