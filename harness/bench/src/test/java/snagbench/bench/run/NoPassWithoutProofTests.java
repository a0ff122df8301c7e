package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ResultText;
import snagbench.bench.session.Shuttle;

/** A recovery that came by another road, or without the fault, proves nothing: on the real virtual rig. */
class NoPassWithoutProofTests {
    private static String details(ScriptResult result) {
        return String.join("\n", ResultText.details(result));
    }

    private static void says(ScriptResult result, Verdict verdict, String... words) {
        assertEquals(verdict, result.judgement().verdict(), () -> details(result));
        for (String word : words) {
            assertTrue(details(result).contains(word), () -> "\"" + word + "\" in:\n" + details(result));
        }
    }

    @Test
    void aRecoveryByAnotherFailSafeThanTheNamedOneIsInconclusive() throws Exception {
        ScriptResult result = Runs.on("without-FS-02")
                .of(1, Shuttle.script("drawn back by FS-03", "FS-02", """
                        inject:
                          - name: nothing there
                            when: { step: REACHING, reach.position: at least 330 mm }
                            channels:
                              gripper.beam: stuck-at clear
                            until: { step: DRAWING_BACK }
                            lasts: 2 s
                        expect:
                          - name: draws back
                            becomes: { step: DRAWING_BACK }
                            within: 2 s
                          - never: { step: GIVEN_UP }
                        end: 500 ms after draws back
                        """))
                .only();

        says(
                result,
                Verdict.INCONCLUSIVE,
                "recovery was reached by another road: FS-02 was not seen to answer",
                "expected : FS-02 answers");
    }

    @Test
    void aRecoveryThatCameOnceTheFaultWasOverIsInconclusive() throws Exception {
        ScriptResult result = Runs.on("without-FS-02")
                .of(1, Shuttle.script("let go by itself", "FS-02", """
                        inject:
                          - name: blocked
                            when: { step: REACHING, reach.position: at least 180 mm }
                            channels:
                              reach.position: freeze
                              reach.current: stuck-at 4.2 A
                            lasts: 600 ms
                        expect:
                          - name: draws back
                            becomes: { step: DRAWING_BACK }
                            within: 4 s
                        end: 500 ms after draws back
                        """))
                .only();

        says(result, Verdict.INCONCLUSIVE, "recovery was reached by another road: FS-02 was not seen to answer");
    }

    @Test
    void whereTheNamedFailSafeMustAnswerAndDoesNotThatIsAFail() throws Exception {
        ScriptResult result = Runs.on("without-FS-02")
                .of(1, Shuttle.script("obstacle-in-the-way"))
                .only();

        says(result, Verdict.FAIL, "but was  : FS-02 silent");
    }

    @Test
    void anAnswerAfterTheFaultEndedByItsOwnClockIsInconclusive() throws Exception {
        ScriptResult result = Runs.on("standard")
                .of(1, Shuttle.script("answered to something else", "FS-03", """
                        inject:
                          - name: early
                            when: { step: REACHING, reach.position: at least 100 mm }
                            channels:
                              reach.current: offset 1 A
                            lasts: 100 ms
                          - name: the true one
                            when: { step: REACHING, reach.position: at least 330 mm }
                            channels:
                              gripper.beam: stuck-at clear
                            until: { failsafe: FS-03 }
                            lasts: 2 s
                        expect:
                          - name: sees it
                            answered-by: FS-03
                            within: 4 s
                            after: early
                        end: 500 ms after sees it
                        """))
                .only();

        says(result, Verdict.INCONCLUSIVE, "early", "before FS-03 answered");
    }

    @Test
    void anOverrideThatNeverStruckIsInconclusiveWithTheClosestReading() throws Exception {
        ScriptResult result = Runs.on("standard")
                .of(1, Shuttle.script("beyond the rack", "FS-02", """
                        inject:
                          - name: blocked
                            when: { step: REACHING, reach.position: at least 410 mm }
                            channels:
                              reach.position: freeze
                            lasts: 900 ms
                        expect:
                          - name: sees it
                            answered-by: FS-02
                            within: 80 ms .. 250 ms
                        """))
                .only();

        says(
                result,
                Verdict.INCONCLUSIVE,
                "never struck",
                "reach.position at least 410.0 mm never held; closest was 3");
    }

    @Test
    void anOverrideThatToldTheTruthIsInconclusive() throws Exception {
        ScriptResult result = Runs.on("standard")
                .of(1, Shuttle.script("clear as it is", "FS-03", """
                        inject:
                          - name: told what is so
                            when: { step: REACHING, reach.position: at least 100 mm }
                            channels:
                              gripper.beam: stuck-at clear
                            lasts: 200 ms
                        expect:
                          - must-not-fire: FS-03
                          - name: gets there
                            becomes: { step: GRIPPING }
                            within: 2 s
                        """))
                .only();

        says(result, Verdict.INCONCLUSIVE, "told and real were the same of gripper.beam");
    }
}
