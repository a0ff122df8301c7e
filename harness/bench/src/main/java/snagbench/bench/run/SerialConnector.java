package snagbench.bench.run;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PortReturn;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.session.SessionSettings;

/** Connects to a rig on a serial port, again where it has gone and come back by itself. */
public final class SerialConnector implements RigConnector {
    private static final Path TERMINALS = Path.of("/dev/pts");

    private final String port;
    private final int baud;
    private final Duration patience;
    private final LongSupplier nanos;

    /**
     * A connector; nothing is opened yet.
     *
     * @param port path of the device, or of a link to it
     * @param baud bits a second, above 0
     * @param patience how long a port may be gone and still count as come back, above 0
     * @param nanos the wall's clock, in nanoseconds since some moment
     */
    public SerialConnector(String port, int baud, Duration patience, LongSupplier nanos) {
        this.port = port;
        this.baud = baud;
        this.patience = patience;
        this.nanos = nanos;
    }

    @Override
    public Link connect() throws LinkException {
        return SerialLink.open(port, SerialSettings.at(baud), nanos);
    }

    @Override
    public Optional<Link> reconnect(BooleanSupplier cancelled) throws LinkException {
        // The number of a pseudo-terminal may be another program's by now; a served rig comes back under its link.
        if (Path.of(port).startsWith(TERMINALS)) {
            return Optional.empty();
        }
        return PortReturn.await(port, patience, cancelled) ? Optional.of(connect()) : Optional.empty();
    }

    @Override
    public long greetingMicros() {
        return SessionSettings.BOARD_GREETING_MICROS;
    }
}
