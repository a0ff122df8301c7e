package snagbench.bench.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * An open serial port. Nothing else touches the serial library: its booleans and error numbers end here.
 *
 * <p>One thread may read, one write and any close at the same time.
 */
final class SerialDevice {
    /** Longest wait of one read; the library makes whole tenths of a second of anything. */
    static final int READ_MILLIS = 100;

    /** The library copies the whole array at each read: keep it small. */
    static final int READ_BYTES = 4096;

    private static final int DATA_BITS = 8;

    /** How long the end of the process waits for whoever still makes a machine stop over a port. */
    private static final int END_SECONDS = 25;

    private final SerialPort port;

    private SerialDevice(SerialPort port) {
        this.port = port;
    }

    /**
     * Opens a port, 8 data bits, no parity, 1 stop bit, no flow control, and throws away what lay there.
     *
     * @param shown the port as the user calls it
     * @param device the device file, known to be there, no link
     * @param baud bits a second
     * @throws LinkException if that cannot be done, with the cure
     */
    static SerialDevice open(String shown, Path device, int baud) throws LinkException {
        requireAccess(shown, device);
        requireLibrary();
        SerialPort port;
        try {
            port = SerialPort.getCommPort(device.toString());
        } catch (SerialPortInvalidPortException e) {
            throw new LinkException("serial port " + shown + " has just gone: is the cable loose?", e);
        }
        port.setComPortParameters(baud, DATA_BITS, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MILLIS, 0);
        // Before opening: then the library waits 10 ms and drops what the device said to whoever was there before.
        port.flushIOBuffers();
        int error = openOrError(port);
        if (error != 0) {
            throw new LinkException(
                    OpeningTrouble.words(shown, error, Files.exists(device), baud, PortHolders.of(device)));
        }
        Library.OPEN.opened();
        return new SerialDevice(port);
    }

    /** Opens it; gives back the system's error number, 0 for none. */
    private static int openOrError(SerialPort port) {
        // The number is one for the whole process, and of use only right after a failure.
        synchronized (Library.OPEN) {
            return port.openPort() ? 0 : Math.max(port.getLastErrorCode(), 1);
        }
    }

    private static void requireAccess(String shown, Path device) throws LinkException {
        try {
            PortAccess access = PortAccess.of(device);
            if (!access.allowed()) {
                throw new LinkException("serial port " + shown + ": " + access.refusal(device));
            }
        } catch (IOException e) {
            throw new LinkException("serial port " + shown + " cannot be looked at: " + e, e);
        }
    }

    /**
     * The ports that the system knows; pseudo-terminals are not among them.
     *
     * @throws LinkException if the serial library does not run here
     */
    static List<Listed> list() throws LinkException {
        requireLibrary();
        return Stream.of(SerialPort.getCommPorts())
                .map(port -> new Listed(
                        port.getSystemPortPath(),
                        port.getPortDescription(),
                        port.getVendorID(),
                        port.getProductID(),
                        port.getManufacturer(),
                        port.getSerialNumber()))
                .toList();
    }

    /** A port as the library describes it: -1 and "Unknown" where it does not know. */
    record Listed(String path, String description, int vendor, int product, String manufacturer, String serialNumber) {}

    /**
     * Reads what is there; waits {@link #READ_MILLIS} at most.
     *
     * @return how many bytes, -1 if the device is gone or the port closed
     */
    int read(byte[] into) {
        return port.readBytes(into, into.length);
    }

    /**
     * Writes all bytes; does not come back while the device takes none, unless the port is closed.
     *
     * @return false if they were not all taken: the device is gone or the port closed
     */
    boolean write(byte[] bytes, int length) {
        // A device that is gone takes 0 bytes; that is no error to the library.
        return port.writeBytes(bytes, length) == length;
    }

    /** Bytes that the driver still holds; a pseudo-terminal always tells 0. */
    int awaitingWrite() {
        return Math.max(port.bytesAwaitingWrite(), 0);
    }

    /** Closes the port, once; frees whoever is stuck in {@link #write}. What was not sent is lost. */
    void close() {
        synchronized (port) {
            if (port.isOpen()) {
                port.closePort();
                Library.OPEN.closed();
            }
        }
    }

    private static void requireLibrary() throws LinkException {
        if (Library.TROUBLE != null) {
            throw new LinkException("the library for serial ports does not run here: " + Library.TROUBLE);
        }
    }

    /** The library is loaded once for the whole process. */
    private static final class Library {
        static final OpenPorts OPEN = new OpenPorts();
        static final @Nullable String TROUBLE = load();

        /** Loads it; gives back what went wrong. */
        private static @Nullable String load() {
            try {
                SignalDispositions signals = SignalDispositions.save();
                try (NativeFolder folder = NativeFolder.unpack(Library.class)) {
                    String before = System.getProperty(NativeFolder.PROPERTY);
                    System.setProperty(
                            NativeFolder.PROPERTY,
                            before == null ? folder.path().toString() : before);
                    SerialPort.addShutdownHook(new Thread(Library::awaitClosed, "serial ports"));
                    restore(before);
                } finally {
                    signals.restore();
                }
                return null;
            } catch (IOException e) {
                return e.getMessage();
            } catch (LinkageError e) {
                Throwable cause = e.getCause() == null ? e : e.getCause();
                return cause + ". It unpacks native code into the folder for temporary files; one where that may run"
                        + " is set with -Djava.io.tmpdir=FOLDER and -Djna.tmpdir=FOLDER in JAVA_TOOL_OPTIONS";
            }
        }

        private static void restore(@Nullable String before) {
            if (before == null) {
                System.clearProperty(NativeFolder.PROPERTY);
            }
        }

        /** Runs before the library closes all ports at the end of the process. */
        private static void awaitClosed() {
            try {
                OPEN.awaitNone(END_SECONDS, TimeUnit.SECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
