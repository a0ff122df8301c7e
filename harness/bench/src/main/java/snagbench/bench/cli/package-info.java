/**
 * The command line: the one place, beside the test engine to come, that knows every stage, and the one that asks the
 * system for time, terminal and folders.
 */
@NullMarked
package snagbench.bench.cli;

import org.jspecify.annotations.NullMarked;
