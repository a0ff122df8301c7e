package snagbench.bench.link;

import org.jspecify.annotations.Nullable;
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
    private long clock;
    private @Nullable LinkException clockFailed;

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
        watch.entered();
        try {
            clock = Math.max(clock, rig.nowMicros());
        } catch (RuntimeException | AssertionError | LinkageError e) {
            // Told by whoever sends or receives next.
            clockFailed = threw(e);
        } finally {
            watch.left();
        }
        return clock;
    }

    @Override
    public void send(byte[] bytes, int length) throws LinkException {
        requireOpen();
        watch.entered();
        try {
            rig.send(bytes, 0, length);
        } catch (RuntimeException | AssertionError | LinkageError | StackOverflowError e) {
            throw threw(e);
        } finally {
            watch.left();
        }
    }

    @Override
    public int receive(byte[] into, long untilMicros) throws LinkException {
        requireOpen();
        watch.entered();
        try {
            int bytes = checked(rig.receive(into), into.length);
            if (bytes > 0) {
                return bytes;
            }
            rig.runUntil(untilMicros);
            bytes = checked(rig.receive(into), into.length);
            if (bytes == 0 && rig.nowMicros() < untilMicros) {
                throw new LinkException(name() + " came back at " + rig.nowMicros() + " us of its clock without bytes,"
                        + " though it was to run on to " + untilMicros + " us: so its time would stand still for ever");
            }
            return bytes;
        } catch (RuntimeException | AssertionError | LinkageError | StackOverflowError e) {
            throw threw(e);
        } finally {
            watch.left();
        }
    }

    private int checked(int bytes, int room) throws LinkException {
        if (bytes < 0 || bytes > room) {
            throw new LinkException(
                    name() + " says that it gave " + bytes + " bytes, where there was room for " + room);
        }
        return bytes;
    }

    private void requireOpen() throws LinkException {
        if (closed) {
            throw new LinkException("the link to " + name() + " is closed");
        }
        if (clockFailed != null) {
            throw clockFailed;
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
