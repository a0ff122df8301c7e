package snagbench.bench.cli;

import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Summary;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;

/** What the command line ends with. */
final class ExitStatus {
    /** All pass. */
    static final int PASS = 0;
    /** A fail. */
    static final int FAIL = 1;
    /** Files or usage: nothing ran. */
    static final int FILES = 2;
    /** Inconclusive, or something was not run. */
    static final int INCONCLUSIVE = 3;
    /** Rig or link. */
    static final int RIG = 4;
    /** A fault of our own (sysexits: EX_SOFTWARE). */
    static final int OURS = 70;
    /** Ended by Ctrl-C: 128 and the signal's number. */
    static final int CANCELLED = 130;

    private ExitStatus() {}

    static int of(RunRecord run) {
        if (run.end().map(end -> end.cause() == RunEnd.Cause.CANCELLED).orElse(false)) {
            return CANCELLED;
        }
        Summary summary = Summary.of(run);
        return summary.worst() == Verdict.PASS && summary.count(Verdict.NONE) > 0 ? INCONCLUSIVE : of(summary.worst());
    }

    static int of(Verdict verdict) {
        return switch (verdict) {
            case ERROR -> RIG;
            case FAIL -> FAIL;
            case INCONCLUSIVE, NONE -> INCONCLUSIVE;
            case PASS -> PASS;
        };
    }
}
