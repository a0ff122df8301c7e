package snagbench.bench.link;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Counts the ports that this process has open, so that the end of the process can wait for them: the serial library closes
 * them all while the process ends, perhaps before a machine could be stopped over one. This class is thread-safe.
 */
final class OpenPorts {
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition fewer = lock.newCondition();
    private int open;

    void opened() {
        lock.lock();
        try {
            open++;
        } finally {
            lock.unlock();
        }
    }

    void closed() {
        lock.lock();
        try {
            open--;
            fewer.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /**
     * Waits until none is open.
     *
     * @return false if that took longer
     */
    boolean awaitNone(long time, TimeUnit unit) throws InterruptedException {
        lock.lock();
        try {
            long left = unit.toNanos(time);
            while (open > 0) {
                if (left <= 0) {
                    return false;
                }
                left = fewer.awaitNanos(left);
            }
            return true;
        } finally {
            lock.unlock();
        }
    }
}
