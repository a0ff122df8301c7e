package snagbench.bench.link;

import com.sun.jna.Native;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What this process does when a signal comes. The serial library sets seven signals to "ignored" when it is loaded: SIGHUP
 * would no longer end the harness, and children would inherit that. So what was there before is put back.
 */
final class SignalDispositions {
    /** The classic signals are 1 to 31 on Linux and macOS; what is above is not touched by anybody here. */
    private static final int HIGHEST = 31;

    /** Larger than {@code struct sigaction} on any system (152 bytes on Linux, x86-64); its inside does not matter here. */
    private static final int ROOM = 512;

    private final byte[][] saved;

    private SignalDispositions(byte[][] saved) {
        this.saved = saved;
    }

    /** Takes down what is there now. */
    static SignalDispositions save() {
        return new SignalDispositions(current());
    }

    /** Puts back what was changed since, and touches nothing else. */
    void restore() {
        byte[][] now = current();
        for (int i = 0; i < saved.length; i++) {
            if (!Arrays.equals(saved[i], now[i])) {
                SystemCalls.sigaction(i + 1, saved[i], null);
            }
        }
    }

    private static byte[][] current() {
        byte[][] actions = new byte[HIGHEST][];
        for (int i = 0; i < HIGHEST; i++) {
            actions[i] = new byte[ROOM];
            SystemCalls.sigaction(i + 1, null, actions[i]);
        }
        return actions;
    }

    /** The C library's. */
    private static final class SystemCalls {
        static {
            Native.register(SystemCalls.class, "c");
        }

        /** POSIX: sets {@code action} unless it is null, after telling what was there in {@code old} unless that is null. */
        static native int sigaction(int signal, byte @Nullable [] action, byte @Nullable [] old);
    }
}
