package snagbench.bench.cli;

import java.util.Optional;
import snagbench.bench.link.RigWatch;
import snagbench.bench.run.RigConnector;
import snagbench.bench.script.RigFile;
import snagbench.probe.VirtualRigProvider;

/**
 * The way to a rig, as the user and the rig's file say: over a port, or to a virtual rig in this process, which is watched until
 * this is closed and named if its code does not come back. A signal waits until this is closed.
 */
final class RigWay implements AutoCloseable {
    private final String words;
    private final RigConnector connector;
    private final boolean overPort;
    private final Optional<HangWatch> hangs;
    private final OpenLines.Opened opened;

    private RigWay(
            String words,
            RigConnector connector,
            boolean overPort,
            Optional<HangWatch> hangs,
            OpenLines.Opened opened) {
        this.words = words;
        this.connector = connector;
        this.overPort = overPort;
        this.hangs = hangs;
        this.opened = opened;
    }

    /**
     * Chooses it; nothing is connected yet.
     *
     * @param build of a virtual rig in this process; the usual one where it is empty
     * @param remains what is to be said of the results where the rig's code hangs; empty for nothing
     */
    static RigWay choose(
            Surroundings surroundings, LineOptions line, RigFile rig, Optional<String> build, String remains)
            throws UserError {
        Optional<LineOptions.Chosen> port = line.chosen(rig.line());
        if (port.isPresent()) {
            return new RigWay(
                    port.get().words(),
                    port.get().connector(rig.leaseMillis()),
                    true,
                    Optional.empty(),
                    surroundings.lines().open());
        }
        VirtualRigProvider provider = VirtualRigs.of(rig);
        String chosen = VirtualRigs.build(provider, build);
        RigWatch watch = new RigWatch();
        HangWatch hangs = new HangWatch(watch, () -> hung(surroundings, provider, remains));
        hangs.start();
        return new RigWay(
                "virtual, build " + chosen,
                () -> VirtualRigs.connect(provider, chosen, watch),
                false,
                Optional.of(hangs),
                surroundings.lines().open());
    }

    private static void hung(Surroundings surroundings, VirtualRigProvider provider, String remains) {
        surroundings.err().println();
        surroundings
                .err()
                .println("snagbench: virtual rig " + provider.name() + " has not come back from its own code for "
                        + HangWatch.LONGEST_SECONDS + " s." + (remains.isEmpty() ? "" : " " + remains));
        surroundings.err().flush();
        Runtime.getRuntime().halt(ExitStatus.RIG);
    }

    /** For messages. */
    String words() {
        return words;
    }

    RigConnector connector() {
        return connector;
    }

    /** False for a rig in this process. */
    boolean isOverPort() {
        return overPort;
    }

    @Override
    public void close() {
        hangs.ifPresent(HangWatch::close);
        opened.close();
    }
}
