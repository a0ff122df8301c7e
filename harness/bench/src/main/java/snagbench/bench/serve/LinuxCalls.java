package snagbench.bench.serve;

import com.sun.jna.LastErrorException;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Pointer;
import org.jspecify.annotations.Nullable;

/**
 * The calls of the C library that a pseudo-terminal needs, with Linux's figures (asm-generic headers, the same on x86-64 and
 * on 64-bit ARM). What fails throws, with the error number.
 */
final class LinuxCalls {
    static final int O_RDWR = 02;
    static final int O_NOCTTY = 0400;
    static final int O_NONBLOCK = 04000;
    static final int O_CLOEXEC = 02000000;

    static final int EINTR = 4;
    static final int EIO = 5;
    static final int EAGAIN = 11;
    static final int EBUSY = 16;

    static final short POLLIN = 0x001;
    static final short POLLOUT = 0x004;
    static final short POLLERR = 0x008;
    static final short POLLHUP = 0x010;
    static final short POLLNVAL = 0x020;

    static final int TCSANOW = 0;
    static final int TCIFLUSH = 0;
    static final int TCIOFLUSH = 2;

    /** {@code TCGETS2} and {@code TCSETS2}: the attributes with the speed as a figure. */
    static final long TCGETS2 = 0x802C542AL;

    static final long TCSETS2 = 0x402C542BL;

    static {
        Native.register(LinuxCalls.class, "c");
    }

    private LinuxCalls() {}

    // The names are the C library's.

    static native int posix_openpt(int flags) throws LastErrorException;

    static native int grantpt(int master) throws LastErrorException;

    static native int unlockpt(int master) throws LastErrorException;

    /** Gives the error number back; it throws nothing. */
    static native int ptsname_r(int master, byte[] name, NativeLong length);

    static native int open(byte[] path, int flags) throws LastErrorException;

    static native int close(int file) throws LastErrorException;

    static native int tcgetattr(int file, byte[] attributes) throws LastErrorException;

    static native int tcsetattr(int file, int when, byte[] attributes) throws LastErrorException;

    static native int tcflush(int file, int queue) throws LastErrorException;

    static native void cfmakeraw(byte[] attributes);

    static native int ioctl(int file, NativeLong request, byte[] argument) throws LastErrorException;

    static native int ppoll(byte[] files, NativeLong count, byte[] time, @Nullable Pointer signals)
            throws LastErrorException;

    static native NativeLong read(int file, byte[] into, NativeLong length) throws LastErrorException;

    static native NativeLong write(int file, byte[] bytes, NativeLong length) throws LastErrorException;
}
