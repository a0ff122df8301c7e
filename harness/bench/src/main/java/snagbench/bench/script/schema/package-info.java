/**
 * The JSON Schemas of the files that users write, as they are and for one rig.
 *
 * <p>For: editors, by the command line. The readers do not use them: they tell more, and where. A test holds both to
 * each other.
 */
@NullMarked
package snagbench.bench.script.schema;

import org.jspecify.annotations.NullMarked;
