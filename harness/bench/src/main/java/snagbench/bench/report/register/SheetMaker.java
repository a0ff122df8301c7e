package snagbench.bench.report.register;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
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
                Optional.of(register.severityBy()).filter(by -> !by.isBlank()),
                reserveMicros,
                register.entries().stream().map(entry -> failSafe(entry, rig)).toList(),
                once.entrySet().stream()
                        .map(one -> script(one.getKey(), one.getValue()))
                        .toList(),
                Combinations.of(register, rig.derived(), scripts),
                List.of());
    }

    private static RegisterSheet.FailSafe failSafe(FailSafeRegister.Entry entry, RigFile rig) {
        return new RegisterSheet.FailSafe(
                entry.failSafe().name(),
                entry.title(),
                entry.severity().name(),
                entry.scripts().stream().map(SheetMaker::nameOf).toList(),
                entry.costs()
                        .reserve()
                        .map(window -> new RegisterSheet.Cost(window.leastMicros(), window.mostMicros())),
                entry.costs().words(),
                Optional.of(words(entry, rig)));
    }

    private static RegisterSheet.Words words(FailSafeRegister.Entry entry, RigFile rig) {
        return new RegisterSheet.Words(
                entry.cause(),
                entry.effect(),
                entry.symptoms().words(),
                entry.response(),
                recovery(entry.recovery()),
                entry.parts(),
                SensorsOf.symptoms(entry.symptoms(), rig.derived()).stream()
                        .map(sensor -> new RegisterSheet.Sensor(
                                sensor.name(), rig.wiring().getOrDefault(sensor.name(), "")))
                        .toList());
    }

    private static String recovery(FailSafeRegister.Recovery recovery) {
        String values = recovery.values().stream()
                .map(value -> recovery.channel().show(value))
                .collect(Collectors.joining(" or "));
        return recovery.channel().name() + " " + values + " within " + RegisterText.seconds(recovery.withinMicros());
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
