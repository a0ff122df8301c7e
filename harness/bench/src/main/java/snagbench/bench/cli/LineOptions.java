package snagbench.bench.cli;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import snagbench.bench.run.RigConnector;
import snagbench.bench.run.SerialConnector;
import snagbench.bench.script.RigFile;

/** Options that say on which serial port a rig hangs. */
final class LineOptions {
    private static final int HIGHEST_BAUD = 10_000_000;

    /** Beyond the lease, how long a port may be gone in mid-run until the plan ends; the whole must stay below a second more. */
    private static final int PATIENCE_MILLIS = 500;

    @Option(
            names = "--port",
            paramLabel = "PATH",
            description =
                    "The rig hangs on this serial port, such as /dev/ttyUSB0; \"ports\" lists them. Goes before what"
                            + " the rig's file says.")
    private @Nullable String port;

    @Option(
            names = "--baud",
            paramLabel = "BAUD",
            description = "Bits a second on that port; otherwise what the rig's file says, or 115200.")
    private @Nullable Integer baud;

    LineOptions() {}

    /** A port to be opened. */
    record Chosen(String port, int baud) {
        /** Connects to the rig there, again where it comes back within its lease and a little. */
        RigConnector connector(int leaseMillis) {
            return new SerialConnector(port, baud, Duration.ofMillis(leaseMillis + PATIENCE_MILLIS), System::nanoTime);
        }

        /** For messages. */
        String words() {
            return "on " + port + " at " + baud + " baud";
        }
    }

    /** The port to drive, if any: the one asked for, else that of the rig's file. */
    Optional<Chosen> chosen(RigFile.SerialLine line) throws UserError {
        if (baud != null && (baud < 1 || baud > HIGHEST_BAUD)) {
            throw new UserError(
                    ExitStatus.FILES, "--baud " + baud + ": wanted from 1 to " + HIGHEST_BAUD + ", such as 115200");
        }
        Optional<String> path = Optional.ofNullable(port).or(line::port);
        if (path.isEmpty() && baud != null) {
            throw new UserError(ExitStatus.FILES, "--baud goes with --port: the rig is a virtual one in this process");
        }
        return path.map(one -> new Chosen(one, baud == null ? line.baud() : baud));
    }

    boolean isPortGiven() {
        return port != null;
    }
}
