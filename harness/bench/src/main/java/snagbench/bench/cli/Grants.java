package snagbench.bench.cli;

import java.util.EnumSet;
import java.util.Set;
import picocli.CommandLine.Option;
import snagbench.bench.script.FaultScript.Need;

/** What the user has seen to at the machine. Nothing of it is taken for granted. */
final class Grants {
    @Option(
            names = "--motion",
            description = "A real rig may move: nobody is in its reach, and its power can be cut without any software.")
    private boolean motion;

    @Option(names = "--hands", description = "Somebody stands by to lend the scripts a hand that need one.")
    private boolean hands;

    @Option(names = "--wheels-up", description = "The machine's wheels are off the ground.")
    private boolean wheelsUp;

    @Option(names = "--clear-floor", description = "The floor around the machine is clear.")
    private boolean clearFloor;

    @Option(
            names = "--release-latch",
            description = "Releases a stop that a real rig has latched before. Look at the machine first.")
    private boolean releaseLatch;

    Grants() {}

    boolean releaseLatch() {
        return releaseLatch;
    }

    Set<Need> needs() {
        Set<Need> granted = EnumSet.noneOf(Need.class);
        add(granted, motion, Need.MOTION);
        add(granted, hands, Need.HANDS);
        add(granted, wheelsUp, Need.WHEELS_UP);
        add(granted, clearFloor, Need.CLEAR_FLOOR);
        return granted;
    }

    private static void add(Set<Need> to, boolean given, Need need) {
        if (given) {
            to.add(need);
        }
    }
}
