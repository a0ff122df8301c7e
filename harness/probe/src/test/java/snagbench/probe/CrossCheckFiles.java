package snagbench.probe;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import snagbench.wire.Item;
import snagbench.wire.ItemKind;

/**
 * Writes random sessions to compare another probe with: what comes in, and what this probe makes of it, bit for bit. The
 * same seed gives the same files.
 *
 * <pre>java -cp ... snagbench.probe.CrossCheckFiles FOLDER FIRST_SEED CASES</pre>
 *
 * writes {@code FOLDER/inputs.txt} and {@code FOLDER/answers.txt}. The class path is the classes of wire and probe and the
 * test classes of probe.
 *
 * <p>Text, one record a line, fields parted by one blank, numbers decimal, bytes in hexadecimal without blanks or {@code -}
 * for none. Lines that begin with {@code #} are to be passed over.
 *
 * <p>{@code inputs.txt} begins with the rig:
 *
 * <pre>
 * limits SLOTS TERMS POINTS HISTORY GUARDS RING FRAME BYTES_PER_TICK WINDOW
 * rig CAUSE REAL TICK_MICROS BUILD
 * channel INDEX KIND FLAGS MULTIPLIER EXPONENT LOWEST HIGHEST ABSENT UNIT NAME   (UNIT - for none; NAME to the line's end)
 * value CHANNEL VALUE NAME                                                       (right behind its channel)
 * failsafe NUMBER INHIBITION NAME
 * </pre>
 *
 * <p>Then come the cases. In each the controller starts anew, with that boot id:
 *
 * <pre>
 * case SEED BOOT
 * tick CLOCK ENABLED STANDS BYTES N CHANNEL VALUE ... M FAILSAFE ...
 * </pre>
 *
 * In each tick: BYTES come onto the line, behind those that the probe has not taken yet; the clock reads CLOCK (u32); the
 * physical enable is as ENABLED says; the control code begins the tick, passes N channels in that order (actuators as
 * drives, states and counters as reports, all others as readings), lets M fail-safes answer, and ends the tick. Whenever
 * the probe asks in the tick whether the safe stop is done, the answer is STANDS. The line takes all that the probe gives.
 *
 * <p>{@code answers.txt} has a line for each {@code case} and {@code tick} of the other, in order:
 *
 * <pre>
 * case SEED
 * tick STOPS ARMINGS BYTES TOLD ...
 * </pre>
 *
 * STOPS is how often the probe has asked for the safe stop and ARMINGS how often it has said that a program starts, in
 * this case so far; BYTES is what it gave to the line in the tick; TOLD is for each of the N channels what the control code
 * was given (of a state or counter, what it reported).
 */
final class CrossCheckFiles {
    /** Frames of a length that a small part can have; the inputs bring no more bytes a tick than it takes. */
    static final ProbeLimits LIMITS = new ProbeLimits(32, 128, 200, 200, 8, 23, 255, 64);

    private final PrintWriter inputs;
    private final PrintWriter answers;

    private CrossCheckFiles(PrintWriter inputs, PrintWriter answers) {
        this.inputs = inputs;
        this.answers = answers;
    }

    /**
     * Writes the files.
     *
     * @param arguments folder, first seed, how many cases
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] arguments) throws IOException {
        if (arguments.length != 3) {
            System.err.println("wanted: FOLDER FIRST_SEED CASES");
            System.exit(2);
        }
        write(Path.of(arguments[0]), Long.parseLong(arguments[1]), Integer.parseInt(arguments[2]));
    }

    static void write(Path folder, long firstSeed, int cases) throws IOException {
        Files.createDirectories(folder);
        try (PrintWriter inputs = writer(folder.resolve("inputs.txt"));
                PrintWriter answers = writer(folder.resolve("answers.txt"))) {
            CrossCheckFiles files = new CrossCheckFiles(inputs, answers);
            files.describe(new TestRig(LIMITS, false, 0));
            for (int i = 0; i < cases; i++) {
                files.write(firstSeed + i);
            }
            if (inputs.checkError() || answers.checkError()) {
                throw new IOException("the files in " + folder + " could not be written");
            }
        }
    }

    private static PrintWriter writer(Path file) throws IOException {
        return new PrintWriter(Files.newBufferedWriter(file, StandardCharsets.US_ASCII));
    }

    private static void line(PrintWriter to, Object... fields) {
        for (int i = 0; i < fields.length; i++) {
            to.print(i == 0 ? "" : " ");
            to.print(fields[i]);
        }
        to.print('\n');
    }

    private void describe(TestRig rig) {
        line(
                inputs,
                "limits",
                LIMITS.slots,
                LIMITS.terms,
                LIMITS.points,
                LIMITS.history,
                LIMITS.guards,
                LIMITS.ring,
                LIMITS.frame,
                LIMITS.bytesPerTick,
                Readings.LONGEST_WINDOW);
        line(inputs, "rig", TestRig.CAUSE.code(), 0, 0, TestRig.BUILD);
        int index = -1;
        for (Item item : rig.description.items()) {
            if (item.kind == ItemKind.CHANNEL) {
                Channel channel = rig.description.channels().get(++index);
                ChannelSpec spec = channel.spec();
                line(
                        inputs,
                        "channel",
                        index,
                        spec.kind.code(),
                        spec.flags,
                        spec.stepMultiplier,
                        spec.stepExponent,
                        spec.lowest,
                        spec.highest,
                        spec.absent,
                        spec.unit.isEmpty() ? "-" : spec.unit,
                        spec.name);
            } else if (item.kind == ItemKind.VALUE_NAME) {
                line(inputs, "value", index, item.figure(0), item.text(0));
            } else if (item.kind == ItemKind.FAIL_SAFE) {
                line(inputs, "failsafe", item.figure(0), item.figure(1), item.text(0));
            }
        }
    }

    private void write(long seed) {
        Random random = new Random(seed);
        int boot = random.nextInt() | 1;
        TestRig rig = new TestRig(LIMITS, false, random.nextInt(), boot);
        line(inputs, "case", seed, Integer.toUnsignedString(boot));
        line(answers, "case", seed);
        rig.line.takeSent();
        rig.listener = this::write;
        try {
            new RandomSession(random, rig).run();
        } catch (AssertionError | RuntimeException e) {
            throw new IllegalStateException("seed " + seed, e);
        }
    }

    private void write(TestRig rig) {
        StringBuilder in = new StringBuilder();
        StringBuilder out = new StringBuilder();
        int count = 0;
        for (Channel channel : rig.description.channels()) {
            int index = channel.index();
            if (rig.isPassed(channel)) {
                count++;
                in.append(' ').append(index).append(' ').append(rig.real[index]);
                out.append(' ').append(rig.told[index]);
            }
        }
        in.append(' ').append(rig.answering.size());
        for (FailSafe failSafe : rig.answering) {
            in.append(' ').append(failSafe.number());
        }
        line(
                inputs,
                "tick",
                Integer.toUnsignedString(rig.micros),
                rig.enable.enabled ? 1 : 0,
                rig.stop.stands ? 1 : 0,
                hex(rig.line.takeSent()),
                count + in.toString());
        line(answers, "tick", rig.stop.reasons.size(), rig.enable.seeds.size(), hex(rig.line.givenNow()) + out);
    }

    private static String hex(byte[] bytes) {
        if (bytes.length == 0) {
            return "-";
        }
        StringBuilder text = new StringBuilder(2 * bytes.length);
        for (byte one : bytes) {
            text.append(Character.forDigit(one >> 4 & 0xF, 16)).append(Character.forDigit(one & 0xF, 16));
        }
        return text.toString();
    }
}
