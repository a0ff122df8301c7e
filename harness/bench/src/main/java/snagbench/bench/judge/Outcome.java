package snagbench.bench.judge;

/**
 * What an expectation came to.
 *
 * @param finding for the report
 * @param moment what others count from
 */
record Outcome(Finding finding, Moment moment) {}
