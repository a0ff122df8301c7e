package snagbench.bench.report.register;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.report.register.Registers.BEAM;
import static snagbench.bench.report.register.Registers.X;
import static snagbench.bench.report.register.Registers.Y;
import static snagbench.bench.report.register.Registers.anyOf;
import static snagbench.bench.report.register.Registers.in;
import static snagbench.bench.report.register.Registers.term;
import static snagbench.bench.report.register.Registers.when;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Source;
import snagbench.bench.script.Trigger;
import snagbench.wire.ChannelKind;

/** Which kinds of fault were tried where fail-safes look. */
class CombinationsTests {
    private static final ChannelDescription BOTH =
            new ChannelDescription(4, "both", ChannelKind.SENSOR, "", 1, 0, 0, 18, 0, 0, List.of());

    private static final List<DerivedChannel> DERIVED =
            List.of(new DerivedChannel(Registers.PLACE, BOTH, new DerivedChannel.Sum(X, Source.TOLD, Y, Source.TOLD)));

    private static FaultScript script(Condition when, ChannelDescription channel) {
        Injection injection = new Injection(
                Registers.PLACE,
                "a fault",
                Trigger.at(when),
                List.of(new Injection.Forcing(Registers.PLACE, channel, new Fault.Freeze())),
                Optional.empty(),
                Optional.empty(),
                OptionalLong.empty());
        return new FaultScript(
                Registers.PLACE,
                "a script",
                List.of(),
                "",
                Set.of(),
                List.of(),
                List.of(injection),
                List.of(),
                Optional.empty());
    }

    private static final FailSafeRegister REGISTER = new Registers()
            .failSafe("FS-01", "stop", when(in("OUT"), term(X, Relation.ABOVE, 3)))
            .failSafe("FS-02", "go", when(anyOf(when(in("OUT")), when(in("HOME"))), term(BEAM, Relation.IS, 1)))
            .register();

    private static List<RegisterSheet.Combination> of(FaultScript... scripts) {
        return Combinations.of(REGISTER, DERIVED, List.of(scripts));
    }

    @Test
    void eachStepAndSensorThatASymptomLooksAtIsOneWithTheKindsThatFitIt() {
        List<RegisterSheet.Combination> all = of();

        assertEquals(
                List.of("HOME beam [FS-02]", "OUT beam [FS-02]", "OUT x [FS-01]"),
                all.stream()
                        .map(one -> one.step() + " " + one.channel() + " " + one.failSafes())
                        .toList());
        // Values that have names cannot be scaled, offset, drifted or made noisy.
        assertEquals(
                List.of("stuck-at", "freeze", "spike", "dropout", "delay", "replay"),
                all.get(0).never());
        assertEquals(10, all.get(2).never().size());
    }

    @Test
    void anInjectionCountsForTheStepsOfItsTrigger() {
        List<RegisterSheet.Combination> all = of(script(when(in("OUT")), BEAM), script(when(in("REST")), X));

        assertEquals(List.of(), all.get(0).tried());
        assertEquals(List.of("freeze"), all.get(1).tried());
        assertEquals(5, all.get(1).never().size());
        assertEquals(List.of(), all.get(2).tried());
    }

    @Test
    void anInjectionThatNamesNoStepCountsNowhere() {
        assertEquals(of(), of(script(when(term(Y, Relation.ABOVE, 3)), X)));
    }

    @Test
    void aDerivedChannelStandsForAllThatItIsWorkedOutFrom() {
        FailSafeRegister register = new Registers()
                .failSafe("FS-01", "stop", when(in("OUT"), term(BOTH, Relation.ABOVE, 9)))
                .register();

        assertEquals(
                List.of("x", "y"),
                Combinations.of(register, DERIVED, List.of()).stream()
                        .map(RegisterSheet.Combination::channel)
                        .toList());
    }
}
