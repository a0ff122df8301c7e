package snagbench.bench.script.read;

import java.util.Optional;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.wire.Item;

/**
 * Refuses, on a real rig, a lasting fault on a reading over which the control code closes a control loop, unless a guard
 * watches the real reading: a drive that is told it stands still drives on until something gives.
 */
final class LastingFaults {
    private LastingFaults() {}

    static void check(FaultScript script, RigDescription rig, Optional<RigFile> file, Findings findings) {
        if (!rig.limits().real()) {
            return;
        }
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                boolean lasting = injection.lastsMicros().isEmpty() && !(forcing.fault() instanceof Fault.Spike);
                boolean closesLoop = (forcing.channel().flags() & Item.CLOSES_LOOP) != 0;
                if (lasting && closesLoop && !isGuarded(forcing, file)) {
                    findings.error(
                            forcing.place(),
                            "a lasting fault on " + forcing.channel().name()
                                    + ", over which a control loop is closed, and no guard watches it: the real machine"
                                    + " may run into its stops",
                            "give the injection \"lasts\", or the rig's file a guard on this channel");
                }
            }
        }
    }

    /** Whether a guard watches the channel of a forcing. */
    static boolean isGuarded(Injection.Forcing forcing, Optional<RigFile> file) {
        return file.stream().flatMap(rig -> rig.guards().stream()).anyMatch(guard -> guard.channel()
                .name()
                .equals(forcing.channel().name()));
    }
}
