package snagbench.bench.judge;

/**
 * That something was reached, and when.
 *
 * @param tick of the trace
 * @param micros start of that tick, in microseconds since arming
 * @param afterMicros from the first tick with the override to the start of that tick, in microseconds
 */
public record Reached(long tick, long micros, long afterMicros) {}
