package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ChecksText;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.Between;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;

/** Control runs on the virtual shuttle: what a pass is worth. */
class ControlRunsTests {
    private static final ChecksWanted BOTH = new ChecksWanted(true, true, Optional.empty());

    private static RunRecord run(FaultScript... scripts) throws IOException, SessionException {
        return Runs.on("standard").of(1, scripts).checking(BOTH).run();
    }

    private static Conclusion only(RunRecord run) {
        List<Conclusion> rows = Conclusions.of(run).rows();
        assertEquals(1, rows.size());
        return rows.get(0);
    }

    private static List<String> states(Conclusion row) {
        return row.controls().stream()
                .map(one -> one.control().role() + " " + one.state())
                .toList();
    }

    /** FS-02 does answer, but what is asked for comes about without it as well. */
    private static FaultScript saysLittle() throws IOException {
        return Shuttle.script("says little", "FS-02", """
                inject:
                  - when: { step: REACHING, reach.position: at least 120 mm }
                    channels: { reach.position: freeze, reach.current: stuck-at 4.2 A }
                    until: { failsafe: FS-02 }
                    lasts: 900 ms
                expect:
                  - always: { battery.voltage: above 7 V }
                    within: 0 ms .. 900 ms
                    after: injection 1
                end: 1 s after injection 1
                """);
    }

    @Test
    void whatASoundScriptShowsIsBorneOut() throws Exception {
        RunRecord run = run(Shuttle.script("reach-blocked-midway"));

        Conclusion row = only(run);
        assertEquals(List.of("NO_FAULT HOLDS", "INHIBITED HOLDS"), states(row));
        assertEquals(Verdict.PASS, row.verdict());
        assertEquals(1, run.results().size());
        assertEquals(List.of(), run.notRun());
        assertTrue(ResultText.summary(run).stream().anyMatch(line -> line.startsWith("2 control runs: 2 hold; ")));
    }

    @Test
    void aScriptThatPassesWithItsFailSafeLeftOutProvesNothing() throws Exception {
        RunRecord run = run(saysLittle());

        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict(), () -> ResultText.details(
                        run.results().get(0))
                .toString());
        Conclusion row = only(run);
        assertEquals(List.of("NO_FAULT HOLDS", "INHIBITED FALLS_SHORT"), states(row));
        assertEquals(Verdict.INCONCLUSIVE, row.verdict());
        assertEquals(List.of("passes with FS-02 inhibited: it proves nothing"), row.reasons());
        assertTrue(ResultText.details(run.concluded().results().get(0)).stream()
                .anyMatch(line -> line.contains("passes with FS-02 inhibited: it proves nothing")));
    }

    /** The control code is one whose FS-01 takes the current of an ordinary stretch for a jam. */
    @Test
    void aFailSafeThatAnswersWithoutTheFaultTooIsFoundOut() throws Exception {
        FaultScript script = Shuttle.script("jam", "FS-01", """
                inject:
                  - when: { step: REACHING, reach.position: at least 120 mm }
                    channels: { reach.current: stuck-at 8 A }
                    until: { failsafe: FS-01 }
                    lasts: 1 s
                expect:
                  - answered-by: FS-01
                    within: 1 s
                end: 500 ms after injection 1
                """);
        assertEquals(Verdict.PASS, only(run(script)).verdict());

        ChannelDescription limit =
                Shuttle.description().channel("reach.current-limit").orElseThrow();
        Conclusion row = only(run(script.adjusting(new FaultScript.Adjustment(limit, 20))));
        assertEquals(List.of("NO_FAULT FALLS_SHORT", "INHIBITED HOLDS"), states(row));
        assertEquals(Verdict.INCONCLUSIVE, row.verdict());
        assertTrue(
                row.reasons().get(0).startsWith("answers without the fault too"),
                row.reasons().get(0));
    }

    @Test
    void aScriptWhosePointIsThatAFailSafeMustNotFireIsHeldAgainstItsTwin() throws Exception {
        FaultScript script = Shuttle.script("current-spike-too-short");
        assertEquals(List.of("TWIN HOLDS"), states(only(run(script))));

        Injection spike = script.injections().get(0);
        Injection.Forcing forcing = spike.forcings().get(0);
        Fault.Spike was = (Fault.Spike) forcing.fault();
        Injection stillTooShort = new Injection(
                spike.place(),
                spike.name(),
                spike.trigger(),
                List.of(new Injection.Forcing(
                        forcing.place(), forcing.channel(), new Fault.Spike(was.raw(), OptionalLong.of(40_000)))),
                spike.whileHolds(),
                spike.until(),
                spike.lastsMicros());
        Conclusion row = only(run(script.withTwin(List.of(stillTooShort))));
        assertEquals(List.of("TWIN FALLS_SHORT"), states(row));
        assertEquals(Verdict.INCONCLUSIVE, row.verdict());

        Conclusion without = only(run(script.withTwin(List.of())));
        assertEquals(List.of("TWIN UNSETTLED"), states(without));
        assertTrue(
                without.reasons().get(0).contains("names no twin"),
                without.reasons().get(0));
    }

    @Test
    void aScriptThatFailsGetsNoControlRuns() throws Exception {
        RunRecord run = Runs.on("without-FS-02")
                .of(1, Shuttle.script("reach-blocked-midway"))
                .checking(BOTH)
                .run();

        assertEquals(Verdict.FAIL, only(run).verdict());
        assertEquals(List.of(), run.controls());
    }

    @Test
    void repeatsGetTheirControlRunsOnce() throws Exception {
        FaultScript script = Shuttle.script("reach-blocked-midway");
        RunRecord run = run(script, script);

        assertEquals(2, run.results().size());
        assertEquals(2, run.controls().size());
        assertEquals(
                List.of(2, 3), run.controls().stream().map(ScriptResult::index).toList());
        assertEquals(
                List.of(0, 0),
                run.controls().stream()
                        .map(one -> one.controlOf().orElseThrow())
                        .toList());
    }

    /** At an empty rack the arm pushes on until a guard has enough of it. */
    @Test
    void aGuardThatStopsAnInhibitedRunIsAnAnswer() throws Exception {
        RunRecord run = run(Shuttle.script("rack-empty"));

        ScriptResult inhibited = run.controls().get(1);
        assertEquals(Role.INHIBITED, inhibited.role());
        assertTrue(
                inhibited.judgement().findings().stream()
                        .anyMatch(one -> one.name().startsWith("guard ")),
                () -> inhibited.judgement().findings().toString());
        assertEquals(Verdict.FAIL, inhibited.judgement().verdict());
        assertEquals(Verdict.PASS, only(run).verdict());
    }

    @Test
    void theSameSeedGivesTheSameBytesWithControlRunsToo() throws Exception {
        ChecksWanted all = new ChecksWanted(true, true, Optional.of(smallAdequacy()));
        FaultScript[] scripts = {Shuttle.script("reach-blocked-midway"), Shuttle.script("current-spike-too-short")};
        Runs one = Runs.on("standard").of(7, scripts).checking(all);
        Runs other = Runs.on("standard").of(7, scripts).checking(all);
        RunRecord first = one.run();
        assertEquals(first, other.run());
        assertEquals(one.linesBehindTheHeader(), other.linesBehindTheHeader());
        assertEquals(
                Set.copyOf(one.traces().keySet()), Set.copyOf(other.traces().keySet()));
        one.traces()
                .forEach(
                        (name, bytes) -> assertArrayEquals(bytes, other.traces().get(name), name));
    }

    private static FailSafeDescription failSafe(String name) {
        return Shuttle.description().failSafe(name).orElseThrow();
    }

    private static AdequacyPlan.Change change(String constant, int raw, String failSafe) {
        ChannelDescription channel = Shuttle.description().channel(constant).orElseThrow();
        Place place = new Place(Path.of("rig.yaml"), 1, 1);
        return new AdequacyPlan.Change(
                new RigFile.Adjustable(place, channel, raw == 0 ? BigDecimal.valueOf(50) : BigDecimal.ZERO, raw),
                Set.of(failSafe));
    }

    private static AdequacyPlan smallAdequacy() {
        return new AdequacyPlan(
                List.of(failSafe("FS-02"), failSafe("FS-08")),
                List.of(change("reach.current-time", 40, "FS-01"), change("shelf.patience", 10, "FS-10")));
    }

    /** Two scripts on the way to the rack notice nothing of what is looked at on the way to the shelf. */
    @Test
    void whatAPlanDoesNotNoticeIsListedByName() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, Shuttle.script("reach-blocked-midway"), Shuttle.script("current-spike-too-short"))
                .checking(new ChecksWanted(false, false, Optional.of(smallAdequacy())))
                .run();

        Adequacy adequacy = Adequacy.of(run.changes());
        assertEquals(2, adequacy.failSafes());
        assertEquals(1, adequacy.failSafesNoticed());
        assertEquals(4, adequacy.constants());
        assertEquals(
                List.of(
                        "without FS-08",
                        "reach.current-time 60 ms -> 100 ms",
                        "shelf.patience 3000 ms -> 2990 ms",
                        "shelf.patience 3000 ms -> 3010 ms"),
                adequacy.unnoticed().stream().map(ChangeResult::words).toList());
        assertEquals(1, adequacy.constantsNoticed());
        List<String> lines = ChecksText.adequacy(run.changes());
        assertTrue(lines.contains("not noticed: without FS-08"), lines::toString);
        assertTrue(lines.get(lines.size() - 1).startsWith("adequacy: the plan notices 1 of 2 (50 %)"), lines::toString);
        assertEquals(Verdict.PASS, only(firstRowOf(run)).verdict(), "adequacy changes no verdict");
    }

    private static RunRecord firstRowOf(RunRecord run) {
        return new RunRecord(run.header(), run.results().subList(0, 1), run.controls(), run.changes(), run.end());
    }

    private static RunTerms terms(boolean inhibitedOnReal) {
        return new RunTerms(EnumSet.of(FaultScript.Need.MOTION), Optional.empty(), false, false, inhibitedOnReal);
    }

    private static List<String> onARealRig(RunTerms terms, String script, RigFile rig) {
        RunPlan plan = new RunPlan(
                "a test",
                "a",
                rig,
                Shuttle.description(),
                "",
                1,
                30_000_000,
                List.of(),
                Between.nothing(),
                List.of(),
                BOTH);
        return new ControlRuns(plan, terms, true)
                .of(0, Shuttle.script(script), 1_000_000).stream()
                        .filter(one -> one.control().role() == Role.INHIBITED)
                        .map(one -> one.instead()
                                .map(judgement -> judgement.reasons().get(0))
                                .orElse("run"))
                        .toList();
    }

    @Test
    void aRealRigMeetsNoFaultWithoutItsFailSafeUnlessThatIsAskedFor() {
        List<String> refused = onARealRig(terms(false), "reach-blocked-midway", Shuttle.file());
        assertEquals(1, refused.size());
        assertTrue(refused.get(0).contains("--inhibited-on-real"), refused.get(0));
        assertEquals(List.of("run"), onARealRig(terms(true), "reach-blocked-midway", Shuttle.file()));
    }

    @Test
    void aRealRigNeverMeetsAPhysicalDisturbanceWithoutItsFailSafeNorWithoutAGuard() {
        assertEquals(
                List.of("never on a real rig together with a physical disturbance"),
                onARealRig(terms(true), "obstacle-in-the-way", Shuttle.file()));
        RigFile file = Shuttle.file();
        RigFile unguarded = new RigFile(
                file.place(),
                file.name(),
                file.virtual(),
                file.leaseMillis(),
                file.settlingMicros(),
                file.ready(),
                List.of(),
                file.wiring(),
                file.snapshot());
        assertEquals(
                List.of("never on a real rig without a guard"),
                onARealRig(terms(true), "reach-blocked-midway", unguarded));
    }

    @Test
    void aRigThatCannotLeaveAFailSafeOutSaysSo() throws Exception {
        FaultScript script = Shuttle.script("reach-blocked-midway");
        FailSafeDescription fixed = new FailSafeDescription(failSafe("FS-02").number(), "FS-02", OptionalInt.empty());
        FaultScript other = new FaultScript(
                script.place(),
                script.name(),
                List.of(fixed),
                script.why(),
                script.needs(),
                script.begin(),
                script.injections(),
                script.expectations(),
                script.end());
        RunRecord run = run(other);

        Conclusion row = only(run);
        assertEquals(List.of("NO_FAULT HOLDS", "INHIBITED NOT_POSSIBLE"), states(row));
        assertEquals(Verdict.PASS, row.verdict());
        assertFalse(row.controls().get(1).takesThePass());
        assertTrue(
                ResultText.summary(run).stream()
                        .anyMatch(line -> line.endsWith(
                                "inhibited run, FS-02 inhibited not possible: the rig cannot leave out FS-02")),
                () -> ResultText.summary(run).toString());
    }
}
