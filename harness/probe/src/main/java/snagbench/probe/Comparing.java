package snagbench.probe;

import snagbench.wire.Comparison;
import snagbench.wire.Term;

/** Whether a term holds at the end of a tick. */
final class Comparing {
    private Comparing() {}

    static boolean holds(Term term, Comparison comparison, Readings readings, Answers answers) {
        int value = term.value;
        if (comparison == Comparison.ANSWERED) {
            return answers.hasAnswered(value);
        }
        if (comparison == Comparison.AGREES) {
            return Math.abs((long) readings.told[term.channel] - readings.real[term.channel]) <= value;
        }
        boolean ofTold = term.source != 0;
        int now = (ofTold ? readings.told : readings.real)[term.channel];
        switch (comparison) {
            case AT_LEAST:
                return now >= value;
            case ABOVE:
                return now > value;
            case AT_MOST:
                return now <= value;
            case BELOW:
                return now < value;
            case IS:
                return now == value;
            case IS_NOT:
                return now != value;
            case RISES_TO:
                return now >= value && readings.reachesBack(1) && readings.before(term.channel, ofTold) < value;
            case FALLS_TO:
                return now <= value && readings.reachesBack(1) && readings.before(term.channel, ofTold) > value;
            case FASTER_THAN:
                return readings.reachesBack(term.windowTicks) && change(term, ofTold, readings) > value;
            case SLOWER_THAN:
                return readings.reachesBack(term.windowTicks) && change(term, ofTold, readings) < value;
            default:
                return false;
        }
    }

    private static long change(Term term, boolean ofTold, Readings readings) {
        return Math.abs(readings.change(term.channel, ofTold, term.windowTicks));
    }
}
