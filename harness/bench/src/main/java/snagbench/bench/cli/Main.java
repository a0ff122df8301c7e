package snagbench.bench.cli;

import java.io.BufferedReader;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.ZoneId;

/** Where the process starts: takes from the system what the command line needs, and nothing else does. */
public final class Main {
    private Main() {}

    /**
     * Runs the command line and ends the process with its exit status.
     *
     * @param args the command and its options
     */
    public static void main(String[] args) {
        OpenLines lines = new OpenLines();
        Interruption interruption = new Interruption(lines);
        SecureRandom random = new SecureRandom();
        Surroundings surroundings = new Surroundings(
                writer(FileDescriptor.out),
                writer(FileDescriptor.err),
                Path.of("").toAbsolutePath(),
                isTerminal(2),
                Clock.system(ZoneId.systemDefault()),
                interruption::isWanted,
                () -> random.nextInt(1, Integer.MAX_VALUE),
                new BufferedReader(new InputStreamReader(System.in, charset())),
                Looks.of(System.getenv(), isTerminal(1), isTerminal(2), Integer.getInteger("snagbench.columns", 0)),
                lines);
        interruption.install();
        int status = ExitStatus.OURS;
        try {
            status = CommandLines.run(surroundings, args);
        } finally {
            surroundings.out().flush();
            surroundings.err().flush();
            interruption.finished();
        }
        // After a signal the process is ending already, with the signal's own status.
        if (!interruption.isWanted()) {
            System.exit(status);
        }
    }

    /** The launcher tells which of its descriptors lead to a terminal: Java cannot, for one alone. */
    private static boolean isTerminal(int descriptor) {
        return System.getProperty("snagbench.terminals", "").contains(Integer.toString(descriptor));
    }

    private static PrintWriter writer(FileDescriptor to) {
        OutputStream stream = new FileOutputStream(to);
        return new PrintWriter(new OutputStreamWriter(stream, charset()), true);
    }

    private static Charset charset() {
        String encoding = System.getProperty("native.encoding");
        return encoding == null ? StandardCharsets.UTF_8 : Charset.forName(encoding);
    }
}
