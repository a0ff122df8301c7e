package snagbench.bench.session;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;

/** Keeps each frame that the harness sent over a line. */
public final class Tap implements PassingLink {
    private final Link line;
    private final List<byte[]> sent = new ArrayList<>();

    public Tap(Link line) {
        this.line = line;
    }

    public List<byte[]> sent() {
        return List.copyOf(sent);
    }

    @Override
    public Link line() {
        return line;
    }

    @Override
    public void send(byte[] bytes, int length) throws LinkException {
        sent.add(Arrays.copyOf(bytes, length));
        line.send(bytes, length);
    }
}
