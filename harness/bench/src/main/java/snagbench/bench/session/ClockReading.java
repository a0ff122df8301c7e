package snagbench.bench.session;

/**
 * One reading of the rig's clock over the line.
 *
 * @param sentMicros when the request was sent, on the link's clock
 * @param rigMicros the rig's clock at the start of the tick that answered, in microseconds modulo 2^32
 * @param receivedMicros when the answer was there, on the link's clock
 */
public record ClockReading(long sentMicros, int rigMicros, long receivedMicros) {}
