/**
 * The page of a run, like the job sheets of a workshop: what was asked, what was seen, how close it was, and which plug to look at.
 * A function of the journal, the stored traces and what the user's files say.
 *
 * <p>For: cli. It must not know of links, sessions or rigs, and writes markup through {@link snagbench.bench.report.sheet.Markup}
 * alone, which escapes all that it is given.
 */
@NullMarked
package snagbench.bench.report.sheet;

import org.jspecify.annotations.NullMarked;
