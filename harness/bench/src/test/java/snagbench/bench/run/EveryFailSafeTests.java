package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Shuttle;

/** All fail-safes of the register both ways: as it is, their scripts pass; with the fail-safe left out, not all of them do. */
@Tag("long")
class EveryFailSafeTests {
    private static final int SEED = 1;

    private static FailSafeRegister register() {
        Path file = Path.of(System.getProperty("snagbench.root")).resolve("fixtures/seedling-shuttle/failsafes.yaml");
        return RegisterReader.read(file, Shuttle.description(), Shuttle.file())
                .value()
                .orElseThrow();
    }

    static List<FailSafeRegister.Entry> entries() {
        return register().entries();
    }

    private static List<FaultScript> scripts(FailSafeRegister.Entry entry) {
        List<FaultScript> scripts = new ArrayList<>();
        for (Path file : entry.scripts()) {
            scripts.addAll(ScriptReader.readAll(file, Shuttle.description(), Shuttle.file())
                    .value()
                    .orElseThrow());
        }
        return scripts;
    }

    private static FaultScript without(FaultScript script, FailSafeDescription failSafe) {
        List<FailSafeDescription> inhibited = new ArrayList<>(script.inhibited());
        inhibited.add(failSafe);
        return new FaultScript(
                script.place(),
                script.name(),
                script.failSafes(),
                script.why(),
                script.needs(),
                script.begin(),
                script.injections(),
                script.expectations(),
                script.end(),
                inhibited,
                script.derived(),
                script.variant());
    }

    /** Each alone, so that a run that a guard ended takes no other with it. */
    private static ScriptResult result(FaultScript script) throws Exception {
        return Runs.on("standard").of(SEED, script).only();
    }

    @Test
    void theRegisterHasAllThirteenAndEachHasTwoScriptsAtLeast() {
        Set<String> names = new HashSet<>();
        for (FailSafeRegister.Entry entry : entries()) {
            names.add(entry.failSafe().name());
            assertTrue(entry.scripts().size() >= 2, entry.failSafe().name());
        }
        assertEquals(13, names.size());
    }

    @ParameterizedTest
    @MethodSource("entries")
    void asItIsAllItsScriptsPass(FailSafeRegister.Entry entry) throws Exception {
        for (FaultScript script : scripts(entry)) {
            ScriptResult result = result(script);
            assertEquals(
                    Verdict.PASS,
                    result.judgement().verdict(),
                    () -> PlannedRun.nameOf(script) + ": " + result.judgement().reasons());
        }
    }

    @ParameterizedTest
    @MethodSource("entries")
    void leftOutAScriptOfItsOwnDoesNotPass(FailSafeRegister.Entry entry) throws Exception {
        List<String> passed = new ArrayList<>();
        List<String> others = new ArrayList<>();
        for (FaultScript script : scripts(entry)) {
            ScriptResult result = result(without(script, entry.failSafe()));
            boolean passes = result.judgement().verdict() == Verdict.PASS;
            (passes ? passed : others).add(PlannedRun.nameOf(script));
        }
        assertTrue(!others.isEmpty(), () -> entry.failSafe().name() + " left out, and all pass: " + passed);
    }
}
