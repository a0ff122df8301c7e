package snagbench.bench.link;

import snagbench.probe.VirtualRig;

/**
 * A virtual rig in the same process. To wait is to let the rig run on: its clock is the plant's, so that a run of half a
 * minute takes milliseconds, and is the same however often the harness waits.
 */
public final class VirtualLink implements Link {
    private final String name;
    private final VirtualRig rig;
    private final RigWatch watch;
    private boolean closed;

    /**
     * A link to a rig that nobody else runs.
     *
     * @param name the rig's name, for messages
     * @param rig the rig
     * @param watch is told when the rig's code runs, so that a rig that hangs can be named
     */
    public VirtualLink(String name, VirtualRig rig, RigWatch watch) {
        this.name = name;
        this.rig = rig;
        this.watch = watch;
    }

    @Override
    public long nowMicros() {
        return rig.nowMicros();
    }

    @Override
    public void send(byte[] bytes, int length) throws LinkException {
        requireOpen();
        try {
            rig.send(bytes, 0, length);
        } catch (RuntimeException e) {
            throw threw(e);
        }
    }

    @Override
    public int receive(byte[] into, long untilMicros) throws LinkException {
        requireOpen();
        watch.entered();
        try {
            int bytes = rig.receive(into);
            if (bytes > 0) {
                return bytes;
            }
            rig.runUntil(untilMicros);
            return rig.receive(into);
        } catch (RuntimeException | StackOverflowError e) {
            throw threw(e);
        } finally {
            watch.left();
        }
    }

    private void requireOpen() throws LinkException {
        if (closed) {
            throw new LinkException("the link to " + name() + " is closed");
        }
    }

    private LinkException threw(Throwable cause) {
        StackTraceElement[] trace = cause.getStackTrace();
        String where = trace.length == 0 ? "" : " at " + trace[0];
        return new LinkException(name() + " failed in its own code: " + cause + where, cause);
    }

    @Override
    public String name() {
        return "virtual rig " + name;
    }

    @Override
    public void close() {
        closed = true;
    }
}
