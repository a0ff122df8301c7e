/**
 * What a journal says, for people and for other programs. Everything here is a function of the journal, so that it can be
 * made again at any time.
 *
 * <p>For: cli. It must not know of links, sessions or rigs.
 */
@NullMarked
package snagbench.bench.report;

import org.jspecify.annotations.NullMarked;
