package snagbench.bench.trace;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.wire.EventKind;

/**
 * A trace as a value change dump (IEEE Std 1364-2005, clause 18), for programs that show waveforms. Times are in microseconds since
 * arming.
 *
 * <p>Channels with named values are vectors of just as many bits as their names need, with the names in a comment; all others are reals
 * in their unit. Scope {@code told} has what the control code was told, scope {@code real} the readings as they came in, and scope
 * {@code bench} what the harness knows: the active entries as a vector, a bit {@code recorded} that is 0 where a record is missing (a real
 * has no "unknown" in this format and keeps its last value there; vectors are x), and an event for each fail-safe's report.
 *
 * <p>Of a trace with a restart it is the part before it. Where a record speaks for several ticks, its last values are written; least and
 * greatest are not.
 */
public final class ValueChangeDump {
    private static final int FIRST_SIGN = '!';
    private static final int SIGNS = '~' - '!' + 1;
    private static final int ENTRIES = 32;

    private final Trace trace;
    private final Writer out;
    private final Set<String> names = new HashSet<>();
    private final List<Variable> variables = new ArrayList<>();
    private int codes;
    private long written = -1;

    private ValueChangeDump(Trace trace, Writer out) {
        this.trace = trace;
        this.out = out;
    }

    /** What the file has of one channel. */
    private static final class Variable {
        private final ChannelDescription channel;
        private final boolean told;
        private final String code;
        private String last = "";

        Variable(ChannelDescription channel, boolean told, String code) {
            this.channel = channel;
            this.told = told;
            this.code = code;
        }

        int bits() {
            return Math.max(
                    1,
                    Integer.SIZE
                            - Integer.numberOfLeadingZeros(channel.valueNames().size() - 1));
        }

        boolean isVector() {
            return !channel.valueNames().isEmpty();
        }

        String unknown() {
            return bits() == 1 ? "x" + code : "bx " + code;
        }

        String change(int raw) {
            if (!isVector()) {
                return "r" + channel.step().multiply(BigDecimal.valueOf(raw)).doubleValue() + " " + code;
            }
            if (raw < 0 || raw >= channel.valueNames().size()) {
                return unknown();
            }
            return bits() == 1 ? raw + code : "b" + Integer.toBinaryString(raw) + " " + code;
        }
    }

    /**
     * Writes a trace.
     *
     * @param trace what was seen
     * @param to takes the text, which is plain ASCII; it is not closed
     * @throws IOException if it does not take it
     */
    public static void write(Trace trace, Writer to) throws IOException {
        new ValueChangeDump(trace, to).write();
        to.flush();
    }

    private void write() throws IOException {
        out.write("$version Snagbench $end\n");
        out.write("$timescale 1 us $end\n");
        for (int index : trace.watchedChannels()) {
            ChannelDescription channel = trace.rig().channels().get(index);
            if (!channel.valueNames().isEmpty()) {
                out.write("$comment " + word(channel.name()) + ":");
                for (int value = 0; value < channel.valueNames().size(); value++) {
                    out.write(" " + value + "=" + word(channel.valueNames().get(value)));
                }
                out.write(" $end\n");
            } else if (!channel.unit().isEmpty()) {
                out.write("$comment " + word(channel.name()) + " in " + word(channel.unit()) + " $end\n");
            }
        }
        scope("told", true);
        scope("real", false);
        out.write("$scope module bench $end\n");
        names.clear();
        String recorded = code();
        out.write("$var wire 1 " + recorded + " recorded $end\n");
        String active = code();
        out.write("$var wire " + ENTRIES + " " + active + " active [" + (ENTRIES - 1) + ":0] $end\n");
        List<String> events = new ArrayList<>();
        for (FailSafeDescription failSafe : trace.rig().failSafes()) {
            String code = code();
            events.add(code);
            out.write("$var event 1 " + code + " " + unique(failSafe.name()) + " $end\n");
        }
        out.write("$upscope $end\n$enddefinitions $end\n");
        changes(recorded, active, events);
    }

    private void scope(String name, boolean told) throws IOException {
        out.write("$scope module " + name + " $end\n");
        names.clear();
        for (int index : trace.watchedChannels()) {
            Variable one = new Variable(trace.rig().channels().get(index), told, code());
            variables.add(one);
            String type = one.isVector() ? "wire " + one.bits() : "real 64";
            String range = one.isVector() && one.bits() > 1 ? " [" + (one.bits() - 1) + ":0]" : "";
            out.write("$var " + type + " " + one.code + " " + unique(one.channel.name()) + range + " $end\n");
        }
        out.write("$upscope $end\n");
    }

    /** Printable signs from "!" to "~", as the standard has it. */
    private String code() {
        StringBuilder code = new StringBuilder();
        int rest = codes++;
        do {
            code.append((char) (FIRST_SIGN + rest % SIGNS));
            rest = rest / SIGNS - 1;
        } while (rest >= 0);
        return code.toString();
    }

    private String unique(String name) {
        String plain = word(name);
        String free = plain;
        for (int i = 2; !names.add(free); i++) {
            free = plain + "_" + i;
        }
        return free;
    }

    /** A simple identifier: other letters could end the declaration, or mean something. */
    private static String word(String name) {
        String plain = name.replaceAll("[^A-Za-z0-9_]", "_");
        return plain.isEmpty() || Character.isDigit(plain.charAt(0)) ? "_" + plain : plain;
    }

    private void changes(String recorded, String active, List<String> events) throws IOException {
        int next = 0;
        String wasRecorded = "";
        int wasActive = 0;
        boolean first = true;
        List<Happening> happenings = trace.events();
        for (int row = 0; row < trace.rows(); row++) {
            int tick = trace.tick(row);
            boolean behindGap = row > 0 && tick - trace.tick(row - 1) > trace.periodTicks();
            if (behindGap) {
                // The first missing tick started when nobody was looking: after the last that was seen, by a tick's
                // usual time.
                long from = Math.min(
                        trace.micros(row),
                        trace.micros(row - 1) + Math.max(1, trace.medianLoopMicros() * trace.periodTicks()));
                if (from >= written && from < trace.micros(row)) {
                    at(from);
                    out.write("0" + recorded + "\n");
                    wasRecorded = "0";
                    for (Variable one : variables) {
                        if (one.isVector()) {
                            change(one, one.unknown());
                        }
                    }
                }
            }
            while (next < happenings.size() && happenings.get(next).tick() < tick) {
                event(happenings.get(next++), events);
            }
            at(trace.micros(row));
            if (first) {
                out.write("$dumpvars\n");
            }
            if (!wasRecorded.equals("1")) {
                out.write("1" + recorded + "\n");
                wasRecorded = "1";
            }
            if (first || trace.active(row) != wasActive) {
                wasActive = trace.active(row);
                out.write("b" + Integer.toBinaryString(wasActive) + " " + active + "\n");
            }
            for (Variable one : variables) {
                int index = one.channel.index();
                if (trace.has(row, index)) {
                    change(one, one.change(one.told ? trace.told(row, index) : trace.real(row, index)));
                } else if (one.isVector()) {
                    change(one, one.unknown());
                }
            }
            if (first) {
                out.write("$end\n");
                first = false;
            }
            while (next < happenings.size() && happenings.get(next).tick() == tick) {
                event(happenings.get(next++), events);
            }
        }
        while (next < happenings.size()) {
            event(happenings.get(next++), events);
        }
    }

    private void event(Happening one, List<String> events) throws IOException {
        if (one.kind() != EventKind.ANSWERED) {
            return;
        }
        for (int i = 0; i < events.size(); i++) {
            if (trace.rig().failSafes().get(i).number() == one.a()) {
                // An event of the first missing tick may lie before where the gap's start was put: time may not run
                // backwards.
                at(Math.max(written, one.micros()));
                out.write("1" + events.get(i) + "\n");
            }
        }
    }

    private void change(Variable one, String change) throws IOException {
        if (!change.equals(one.last)) {
            out.write(change + "\n");
            one.last = change;
        }
    }

    private void at(long micros) throws IOException {
        if (micros > written) {
            out.write("#" + micros + "\n");
            written = micros;
        }
    }
}
