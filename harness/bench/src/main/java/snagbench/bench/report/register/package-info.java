/**
 * What a run says of the rig's fail-safe register: which script proves which fail-safe, what was never tried, and which
 * recoveries the run can afford. For the command line and the results; it knows no session and no link.
 */
@NullMarked
package snagbench.bench.report.register;

import org.jspecify.annotations.NullMarked;
