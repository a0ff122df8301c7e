package snagbench.bench.link;

import java.util.concurrent.atomic.AtomicLong;

/**
 * Counts the calls into the code of a virtual rig, so that somebody on another thread can tell when one does not come
 * back. This class is thread-safe.
 */
public final class RigWatch {
    private final AtomicLong calls = new AtomicLong();

    /** Nobody is in the rig's code. */
    public RigWatch() {}

    void entered() {
        calls.lazySet(calls.get() + 1);
    }

    void left() {
        calls.lazySet(calls.get() + 1);
    }

    /**
     * How often the rig's code was entered or left: odd while somebody is in it. The same odd number after a while
     * means that a call has not come back since.
     *
     * @return a count
     */
    public long count() {
        return calls.get();
    }
}
