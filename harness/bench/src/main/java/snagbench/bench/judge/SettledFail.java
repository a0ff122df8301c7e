package snagbench.bench.judge;

import java.util.OptionalLong;
import java.util.stream.IntStream;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Trace;

/**
 * Judges while a script still runs, for one question: has it failed for certain? Only a fail is ever settled so: what must
 * always hold is not true before its end. What was seen so far is judged by the same judge as a whole trace; what is still to
 * come is a gap to it, and a fail that no completion of a gap can mend stays one. Not threadsafe.
 */
public final class SettledFail {
    private final FaultScript script;
    private final RigFile rig;
    private int rowsNotFailed;
    private OptionalLong tick = OptionalLong.empty();

    /**
     * Nothing was seen yet.
     *
     * @param script what has to follow
     * @param rig what only people know of the rig
     */
    public SettledFail(FaultScript script, RigFile rig) {
        this.script = script;
        this.rig = rig;
    }

    /**
     * Looks at what was seen so far.
     *
     * @param soFar a trace that goes on from the one of the last look
     * @return the tick by which a fail was settled; empty while none is
     */
    public OptionalLong look(Trace soFar) {
        if (tick.isEmpty() && soFar.rows() > 0) {
            if (hasFailed(soFar)) {
                tick = OptionalLong.of(firstFailed(soFar));
            } else {
                rowsNotFailed = soFar.rows();
            }
        }
        return tick;
    }

    /** Once failed is failed for ever, so that the first row with which it is can be searched for by halves. */
    private long firstFailed(Trace trace) {
        int notFailed = rowsNotFailed - 1;
        int failed = trace.rows() - 1;
        while (failed - notFailed > 1) {
            int middle = (failed + notFailed) >>> 1;
            if (hasFailed(trace.upTo(trace.micros(middle)))) {
                failed = middle;
            } else {
                notFailed = middle;
            }
        }
        return trace.tick(failed);
    }

    private boolean hasFailed(Trace trace) {
        Course course = new Course(script, trace, rig.settlingMicros());
        return IntStream.range(0, script.expectations().size())
                .anyMatch(i -> course.outcome(i).finding().verdict() == Verdict.FAIL);
    }

    /** Of a whole trace of which it is known that it failed. */
    static OptionalLong tick(FaultScript script, Trace trace, RigFile rig) {
        return new SettledFail(script, rig).look(trace);
    }
}
