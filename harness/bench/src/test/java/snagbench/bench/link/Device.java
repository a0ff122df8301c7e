package snagbench.bench.link;

import static org.awaitility.Awaitility.await;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import snagbench.bench.serve.PseudoTerminal;

/** A device at the far end of a real pseudo-terminal, that says and hears what a test wants. */
final class Device implements LinkContract.FarEnd {
    static final Duration LONGEST = Duration.ofSeconds(20);
    static final int BAUD = 500_000;

    private final PseudoTerminal terminal;
    private final ByteArrayOutputStream heard = new ByteArrayOutputStream();
    private final byte[] chunk = new byte[4096];

    Device() throws IOException {
        terminal = PseudoTerminal.open(BAUD);
    }

    Path port() {
        return terminal.port();
    }

    @Override
    public SerialLink connect() throws LinkException {
        return connect(SerialSettings.at(BAUD));
    }

    SerialLink connect(SerialSettings settings) throws LinkException {
        return SerialLink.open(port().toString(), settings, System::nanoTime);
    }

    int baud() throws IOException {
        return terminal.baud();
    }

    boolean hasHost() throws IOException {
        return terminal.hasHost();
    }

    @Override
    public void says(byte[] bytes) {
        int[] done = {0};
        await().pollInterval(Duration.ofMillis(1)).atMost(LONGEST).until(() -> {
            done[0] += terminal.write(bytes, done[0], bytes.length - done[0]);
            return done[0] == bytes.length;
        });
    }

    @Override
    public byte[] heard(int length) {
        await().pollInterval(Duration.ofMillis(1)).atMost(LONGEST).until(() -> {
            int bytes = terminal.read(chunk);
            heard.write(chunk, 0, bytes);
            return heard.size() >= length;
        });
        return heard.toByteArray();
    }

    @Override
    public void dies() {
        terminal.close();
    }

    @Override
    public void close() {
        terminal.close();
    }
}
