package snagbench.bench.report.register;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;

/** Puts down what register and plan say. */
public final class SheetMaker {
    private SheetMaker() {}

    /**
     * What register and plan say.
     *
     * @param plan name of the plan
     * @param reserveMicros what recoveries may cost in one run, in microseconds
     * @param register of the rig
     * @param rig the rig's file, with its derived channels
     * @param scripts that the plan runs; the same one may come again
     * @return the sheet
     */
    public static RegisterSheet of(
            String plan, long reserveMicros, FailSafeRegister register, RigFile rig, List<FaultScript> scripts) {
        Map<Path, FaultScript> once = new LinkedHashMap<>();
        scripts.forEach(script -> once.putIfAbsent(script.place().file(), script));
        return new RegisterSheet(
                plan,
                reserveMicros,
                register.entries().stream().map(SheetMaker::failSafe).toList(),
                once.entrySet().stream()
                        .map(one -> script(one.getKey(), one.getValue()))
                        .toList(),
                Combinations.of(register, rig.derived(), scripts),
                List.of());
    }

    private static RegisterSheet.FailSafe failSafe(FailSafeRegister.Entry entry) {
        return new RegisterSheet.FailSafe(
                entry.failSafe().name(),
                entry.title(),
                entry.severity().name(),
                entry.scripts().stream().map(SheetMaker::nameOf).toList(),
                entry.costs()
                        .reserve()
                        .map(window -> new RegisterSheet.Cost(window.leastMicros(), window.mostMicros())),
                entry.costs().words());
    }

    private static RegisterSheet.Script script(Path file, FaultScript script) {
        return new RegisterSheet.Script(
                nameOf(file),
                script.name(),
                script.failSafes().stream().map(FailSafeDescription::name).toList());
    }

    static String nameOf(Path file) {
        return String.valueOf(file.getFileName());
    }
}
