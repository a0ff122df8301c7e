package snagbench.bench.link;

import java.util.List;

/** Why a port could not be opened, from the system's error number, in words that carry the cure. */
final class OpeningTrouble {
    // Linux's numbers (asm-generic/errno-base.h); macOS has the same for all but EAGAIN.
    private static final int ENOENT = 2;
    private static final int EIO = 5;
    private static final int ENXIO = 6;
    private static final int EAGAIN = 11;
    private static final int EACCES = 13;
    private static final int EBUSY = 16;
    private static final int ENODEV = 19;
    private static final int EINVAL = 22;
    private static final int ENOTTY = 25;
    private static final int EAGAIN_ON_MACOS = 35;

    private OpeningTrouble() {}

    /**
     * A sentence for the user.
     *
     * @param port as the user calls it
     * @param error the system's number; the serial library gives 2 too when this process has the port open already
     * @param exists whether the device file is there
     * @param baud what was asked for
     * @param holders programs that have it open, as far as can be seen
     */
    static String words(String port, int error, boolean exists, int baud, List<String> holders) {
        String who = holders.isEmpty() ? "another program" : String.join(" and ", holders);
        String cannot = "serial port " + port + " cannot be opened: ";
        return switch (error) {
            case ENOENT ->
                exists
                        ? cannot + "this program has it open already; one rig, one connection"
                        : cannot + "it has just gone: is the cable loose?";
            case EAGAIN, EBUSY, EAGAIN_ON_MACOS ->
                cannot + "it is in use by " + who + ". End that (another run of this harness, a terminal program, a"
                        + " serial monitor), and try again";
            case EACCES -> cannot + "this user may not open it";
            case EIO, ENXIO, ENODEV ->
                cannot + "nothing is behind it (error " + error + "): is the cable in, has the controller power?";
            case ENOTTY -> cannot + "it is a device, but not a serial port";
            case EINVAL -> cannot + "it does not do " + baud + " baud; try a usual rate, such as 115200 or 500000";
            default -> cannot + "error " + error + " of the system";
        };
    }
}
