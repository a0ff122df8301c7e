package snagbench.bench.script.read;

import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.yaml.Position;

/**
 * A channel in a condition whose name does not say whether the real or the told reading is meant.
 *
 * @param at where
 * @param channel the channel
 * @param use what the condition is for
 * @param injection the injection that it belongs to, from 0; -1 for none
 */
record Mention(Position at, ChannelDescription channel, Use use, int injection) {}
