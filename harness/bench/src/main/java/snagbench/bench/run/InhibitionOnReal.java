package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigFile;
import snagbench.wire.ChannelKind;

/** When a real rig may meet a fault with a fail-safe left out, be it by a control run or by the script itself. */
final class InhibitionOnReal {
    private InhibitionOnReal() {}

    /** Whether a script has a fail-safe left out by itself, from arming on or by an injection; its twin apart. */
    static boolean isWantedBy(FaultScript script) {
        return !script.inhibited().isEmpty() || forces(script.injections(), ChannelKind.INHIBITION);
    }

    /** Why a script with a fail-safe left out is not run on a real rig; empty where it may be. */
    static Optional<String> objection(FaultScript script, RigFile rig, boolean askedFor) {
        if (!askedFor) {
            return Optional.of(
                    "a real rig would meet the fault without its fail-safe; --inhibited-on-real asks for it");
        }
        if (forces(script.injections(), ChannelKind.DISTURBANCE)) {
            return Optional.of("never on a real rig together with a physical disturbance");
        }
        if (script.needs().contains(FaultScript.Need.HANDS)) {
            return Optional.of("never on a real rig with somebody's hands at it");
        }
        return rig.guards().isEmpty() ? Optional.of("never on a real rig without a guard") : Optional.empty();
    }

    private static boolean forces(List<Injection> injections, ChannelKind kind) {
        Stream<Injection.Forcing> forcings = injections.stream().flatMap(one -> one.forcings().stream());
        return forcings.anyMatch(forcing -> forcing.channel().kind() == kind);
    }
}
