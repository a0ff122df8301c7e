package snagbench.fitting;

import java.util.function.BooleanSupplier;
import snagbench.probe.Arming;
import snagbench.probe.Controller;
import snagbench.probe.Probe;
import snagbench.probe.ProbeClock;
import snagbench.probe.ProbeLimits;
import snagbench.probe.ProbeLine;
import snagbench.wire.ResetCause;

/** The lift's control code for the bench and for the event. */
final class LiftBuilds {
    private LiftBuilds() {}

    static LiftAfter forTheBench(Lift lift, ProbeLine line, ProbeClock clock, int bootId, BooleanSupplier key) {
        LiftChannels channels = new LiftChannels();
        Controller controller = new Controller("lift 1.4", bootId, ResetCause.POWER_ON, true, 0);
        Probe probe = new Probe(
                channels.description,
                controller,
                ProbeLimits.USUAL,
                line,
                clock,
                new LiftStop(lift),
                Arming.onlyWhile(key));
        return new LiftAfter(lift, channels, probe);
    }

    static LiftAfter forTheEventWithoutALine(Lift lift, ProbeClock clock, int bootId) {
        return forTheBench(lift, ProbeLine.NONE, clock, bootId, () -> false);
    }

    static LiftAfter forTheEventLockedByAJumper(
            Lift lift, ProbeLine line, ProbeClock clock, int bootId, BooleanSupplier jumper) {
        return forTheBench(lift, line, clock, bootId, jumper);
    }
}
