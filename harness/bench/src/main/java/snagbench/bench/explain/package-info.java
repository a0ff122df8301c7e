/**
 * Fault scripts in plain sentences and small pictures, for the person who knows the machine and not the language.
 *
 * <p>For: the command line and reports. It knows the checked model of a script and nothing of runs.
 */
@NullMarked
package snagbench.bench.explain;

import org.jspecify.annotations.NullMarked;
