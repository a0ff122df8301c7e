/**
 * Scripts and plans are run in order; each result goes to the journal on disk before the next script starts. The journal
 * is this stage's only output.
 *
 * <p>For: cli and, by way of the journal, report. It must not know how results are shown.
 */
@NullMarked
package snagbench.bench.run;

import org.jspecify.annotations.NullMarked;
