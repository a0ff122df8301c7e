package snagbench.bench.judge;

/**
 * One line of what a finding rests on.
 *
 * @param label one of a few: "expected", "but was", "reached", "script", "trace" and such
 * @param text in plain words, with units
 */
public record Fact(String label, String text) {}
