package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;

/** The recovery time is that to the recovery state, and not to what the fault itself brings about. */
class RecoveryTimeTests {
    private static final FaultScript OBSTACLE = Shuttle.script("obstacle-in-the-way");

    private static Finding named(Judgement judgement, String name) {
        return judgement.findings().stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void endsWithTheLatestStateBehindTheAnswer() throws Exception {
        Judgement judgement = Runs.on("standard").of(1, OBSTACLE).only().judgement();

        Finding drawsBack = named(judgement, "draws back");
        long strike = judgement.injections().get(0).firstMicros().orElseThrow();
        assertEquals(OptionalLong.of(drawsBack.metMicros().orElseThrow() - strike), judgement.recoveryMicros());
        assertTrue(judgement.recoveryMicros().getAsLong()
                >= judgement.detectionMicros().orElseThrow());
    }

    @Test
    void thereIsNoneWhereTheFailSafeNeverAnswered() throws Exception {
        Judgement judgement = Runs.on("without-FS-02").of(1, OBSTACLE).only().judgement();

        assertEquals(Verdict.PASS, named(judgement, "runs into it").verdict(), "the fault itself came about");
        assertEquals(OptionalLong.empty(), judgement.detectionMicros());
        assertEquals(OptionalLong.empty(), judgement.recoveryMicros());
    }
}
