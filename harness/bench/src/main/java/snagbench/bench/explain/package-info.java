/**
 * Fault scripts, plans and registers in plain sentences and small pictures, for the person who knows the machine and not the language.
 *
 * <p>For: the command line and reports. It knows the checked model of the files and nothing of runs.
 */
@NullMarked
package snagbench.bench.explain;

import org.jspecify.annotations.NullMarked;
