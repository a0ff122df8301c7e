package snagbench.bench.link;

import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Hands bytes from the thread that reads a port to the one that wants them. A ring of fixed size: nothing is allocated on
 * the way, and nothing is dropped. This class is thread-safe.
 */
final class ByteQueue {
    private final byte[] ring;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition filled = lock.newCondition();
    private final Condition emptied = lock.newCondition();
    private int first;
    private int size;
    private boolean ended;

    ByteQueue(int capacity) {
        ring = new byte[capacity];
    }

    /**
     * Puts all bytes in, or none; waits for room.
     *
     * @param length at most the capacity
     * @param nanos longest wait
     * @return false if there was no room in that time
     */
    boolean put(byte[] from, int length, long nanos) throws InterruptedException {
        lock.lock();
        try {
            long left = nanos;
            while (ring.length - size < length) {
                if (left <= 0) {
                    return false;
                }
                left = emptied.awaitNanos(left);
            }
            int at = (first + size) % ring.length;
            int straight = Math.min(length, ring.length - at);
            System.arraycopy(from, 0, ring, at, straight);
            System.arraycopy(from, straight, ring, 0, length - straight);
            size += length;
            filled.signal();
            return true;
        } finally {
            lock.unlock();
        }
    }

    /**
     * Takes what is there; waits for something.
     *
     * @param nanos longest wait, 0 to look only
     * @return how many bytes, 0 if the time passed without, -1 if there are none and there will be none
     */
    int take(byte[] into, long nanos) throws InterruptedException {
        lock.lock();
        try {
            long left = nanos;
            while (size == 0 && !ended && left > 0) {
                left = filled.awaitNanos(left);
            }
            if (size == 0) {
                return ended ? -1 : 0;
            }
            int length = Math.min(size, into.length);
            int straight = Math.min(length, ring.length - first);
            System.arraycopy(ring, first, into, 0, straight);
            System.arraycopy(ring, 0, into, straight, length - straight);
            first = (first + length) % ring.length;
            size -= length;
            emptied.signal();
            return length;
        } finally {
            lock.unlock();
        }
    }

    /** Nothing more will come. */
    void end() {
        lock.lock();
        try {
            ended = true;
            filled.signalAll();
        } finally {
            lock.unlock();
        }
    }
}
