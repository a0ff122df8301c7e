package snagbench.bench.run;

import snagbench.bench.script.Claim;
import snagbench.bench.script.Place;

/**
 * What a plan wants shown of a script.
 *
 * @param script where the script is written; all scripts that its file stands for count together
 * @param claim what is to be shown
 * @param runs how many runs of it are to show it
 */
public record ClaimedScript(Place script, Claim claim, int runs) {}
