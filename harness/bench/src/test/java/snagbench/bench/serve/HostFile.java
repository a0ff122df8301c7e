package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;

import java.io.Closeable;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;

/** A host that opens a port as a plain file and sets nothing on it. Reading waits with a bound. */
final class HostFile implements Closeable {
    private static final Duration LONGEST = Duration.ofSeconds(10);

    private final InputStream in;
    private final OutputStream out;

    HostFile(Path port) throws IOException {
        in = new FileInputStream(port.toFile());
        out = new FileOutputStream(port.toFile());
    }

    void write(byte[] bytes) throws IOException {
        out.write(bytes);
    }

    /** Bytes that lie there now. */
    int waiting() throws IOException {
        return in.available();
    }

    /** Reads so many bytes, or fails. */
    byte[] read(int length) throws IOException {
        byte[] read = new byte[length];
        int[] got = {0};
        await().atMost(LONGEST).pollInterval(Duration.ofMillis(1)).until(() -> {
            got[0] += in.read(read, got[0], Math.min(in.available(), length - got[0]));
            return got[0] == length;
        });
        return read;
    }

    /** Reads what lies there, perhaps nothing. */
    byte[] readWaiting() throws IOException {
        byte[] read = new byte[in.available()];
        return Arrays.copyOf(read, Math.max(in.read(read), 0));
    }

    /** True once the device is gone. */
    boolean hasEnded() {
        try {
            return in.read() < 0;
        } catch (IOException e) {
            return true;
        }
    }

    @Override
    public void close() throws IOException {
        in.close();
        out.close();
    }
}
