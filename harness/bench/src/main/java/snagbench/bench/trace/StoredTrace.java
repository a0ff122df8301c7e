package snagbench.bench.trace;

/**
 * A trace with what it is of, as a file keeps it.
 *
 * @param header what it is of
 * @param trace what was seen
 * @param whole true if it was written to its end; false if writing was cut short
 * @param damagedFrames how many pieces of the file could not be read; what was in them is a gap
 */
public record StoredTrace(TraceHeader header, Trace trace, boolean whole, long damagedFrames) {}
