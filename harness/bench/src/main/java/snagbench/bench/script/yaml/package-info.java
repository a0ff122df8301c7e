/**
 * YAML as a tree of texts, lists and mappings, each of which knows where it stands in its file, together with all that
 * is wrong with the YAML itself.
 *
 * <p>For: the readers of the files that users write. It must not know what is in those files.
 */
@NullMarked
package snagbench.bench.script.yaml;

import org.jspecify.annotations.NullMarked;
