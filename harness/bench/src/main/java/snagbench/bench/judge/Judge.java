package snagbench.bench.judge;

import java.util.List;
import java.util.OptionalLong;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Trace;

/** Judges what was seen against what a script expects. Same trace, same judgement, always. */
public final class Judge {
    private Judge() {}

    /**
     * Judges a trace.
     *
     * @param script what had to follow
     * @param trace what was seen
     * @param guards the guards that were armed, in their order on the rig
     * @return verdict, margins and reasons
     */
    public static Judgement judge(FaultScript script, Trace trace, List<RigFile.GuardSpec> guards) {
        return new Judgement(
                Verdict.NONE,
                List.of(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                List.of(),
                List.of());
    }
}
