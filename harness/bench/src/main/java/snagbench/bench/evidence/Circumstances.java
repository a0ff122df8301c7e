package snagbench.bench.evidence;

/**
 * How repeats came about, as far as their independence hangs on it.
 *
 * @param real whether the rig moves something real, which gets warm and has a battery
 * @param restMicros how long the rig rested between two runs at least
 */
public record Circumstances(boolean real, long restMicros) {}
