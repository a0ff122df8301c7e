package snagbench.bench.session;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;

/** Keeps each frame that the harness sent over a line. */
final class Tap implements Link {
    private final Link line;
    private final List<byte[]> sent = new ArrayList<>();

    Tap(Link line) {
        this.line = line;
    }

    List<byte[]> sent() {
        return List.copyOf(sent);
    }

    @Override
    public long nowMicros() {
        return line.nowMicros();
    }

    @Override
    public void send(byte[] bytes, int length) throws LinkException {
        sent.add(Arrays.copyOf(bytes, length));
        line.send(bytes, length);
    }

    @Override
    public int receive(byte[] into, long untilMicros) throws LinkException {
        return line.receive(into, untilMicros);
    }

    @Override
    public String name() {
        return line.name();
    }

    @Override
    public void close() {
        line.close();
    }
}
