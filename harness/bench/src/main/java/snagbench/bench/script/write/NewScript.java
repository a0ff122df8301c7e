package snagbench.bench.script.write;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Fault;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;

/** Writes a script to begin with, with comments that say what to make of it. */
public final class NewScript {
    private static final int COMMENT_COLUMN = 44;
    private static final String ENDING = ".fault.yaml";
    private static final String STRIKE = "the fault";
    private static final long END_AFTER_MICROS = 2_000_000;

    private final String name;
    private final RigDescription rig;
    private final Offered offered;
    private final Lines lines = new Lines();

    /**
     * A script for a rig.
     *
     * @param name what it is called
     * @param rig what the rig tells of itself
     * @param file what people know of it
     */
    public NewScript(String name, RigDescription rig, RigFile file) {
        this.name = name;
        this.rig = rig;
        this.offered = new Offered(rig, file);
    }

    /**
     * Where in a sequence something happened.
     *
     * @param step the step that was on
     * @param time which time that step was on, from 1
     * @param micros how long it had been on, in microseconds
     * @param follows what followed: a fail-safe or a step, and how long after, in microseconds
     */
    public record Moment(String step, int time, long micros, Optional<Follows> follows) {}

    /**
     * What followed a moment.
     *
     * @param failSafe true for the report of a fail-safe, false for a step
     * @param name of the fail-safe or the step
     * @param micros how long after the moment
     */
    public record Follows(boolean failSafe, String name, long micros) {}

    /**
     * A channel with what it is told.
     *
     * @param channel the channel
     * @param fault the curve
     */
    public record Curve(ChannelDescription channel, Fault.Replay fault) {}

    /**
     * The name of a script in a file.
     *
     * @param file such as "arm-stands-still.fault.yaml"
     * @return such as "arm stands still"
     */
    public static String nameOf(Path file) {
        String text = String.valueOf(file.getFileName());
        String stem = text.endsWith(ENDING) ? text.substring(0, text.length() - ENDING.length()) : text;
        String words = stem.replaceAll("[^A-Za-z0-9]+", " ").strip();
        return words.isEmpty() ? "a fault" : words;
    }

    /**
     * A script of one fault on one channel.
     *
     * @param failSafe which must answer
     * @param step in which the fault strikes
     * @param channel what is overridden
     * @param fault what happens to it, as it is written in a script
     * @param known what the register says of the fail-safe, for the rig that has one
     * @return the file's text
     */
    public String text(
            FailSafeDescription failSafe,
            String step,
            ChannelDescription channel,
            String fault,
            Optional<FailSafeRegister.Entry> known) {
        Optional<KnownFailSafe> register = known.map(entry -> new KnownFailSafe(entry, rig));
        head(Optional.of(failSafe.name()), register.map(KnownFailSafe::cause));
        begin(Optional.of(step));
        lines.add(0, "inject:");
        register.ifPresent(one -> one.looksFor().forEach(line -> lines.add(1, "# " + line)));
        lines.add(1, "- name: " + STRIKE);
        Optional<String> place = register.flatMap(one -> one.placeIn(step, channel));
        commented(
                "    when: { step: " + step + place.map(where -> ", " + where).orElse("") + " }",
                place.isPresent()
                        ? "where " + failSafe.name() + " looks"
                        : "be exact: add a channel, such as one \"at least\" a value");
        lines.add(2, "channels:");
        lines.add(3, channel.name() + ": " + fault);
        commented("    until: { failsafe: " + failSafe.name() + " }", "it ends when the control code has seen it ...");
        commented("    lasts: 1 s", "... or after this time");
        lines.add(0, "");
        lines.add(0, "expect:");
        answered(failSafe.name(), "500 ms");
        if (register.isPresent()) {
            commented(
                    "  - becomes: " + register.get().recovered(),
                    "the recovery state, and the time allowed, of the register");
            lines.add(2, "within: " + Figures.time(register.get().withinMicros()));
            lines.add(2, "after: " + STRIKE);
        } else {
            commented("  # - becomes: { step: NAME }", "then what the machine must do");
            commented("  #   within: 2 s", "in what time");
            commented("  #   after: sees it", "counted from what");
        }
        lines.add(0, "");
        long end = register.map(KnownFailSafe::withinMicros).orElse(0L) + END_AFTER_MICROS;
        lines.add(0, "end: " + Figures.time(end) + " after " + STRIKE);
        return lines.toString();
    }

    /**
     * A script that forces readings that were seen.
     *
     * @param moment where in the sequence
     * @param curves what the channels were told, at least one
     * @param lastsMicros how long they are forced, in microseconds
     * @param failSafe which must answer; otherwise what followed then is expected again
     * @return the file's text
     */
    public String replay(Moment moment, List<Curve> curves, long lastsMicros, Optional<String> failSafe) {
        Optional<String> answers =
                failSafe.or(() -> moment.follows().filter(Follows::failSafe).map(Follows::name));
        head(answers, Optional.empty());
        begin(Optional.empty());
        lines.add(0, "inject:");
        lines.add(1, "- name: " + STRIKE);
        lines.add(2, "when: { step: " + moment.step() + " }");
        if (moment.time() > 1) {
            commented("    count: " + moment.time(), "which time that this step is on");
        }
        if (wholeMillis(moment.micros()) > 0) {
            commented("    delay: " + Figures.time(wholeMillis(moment.micros())), "how long it had been on");
        }
        commented("    channels:", "ticks since the strike, and what was told from there on");
        for (Curve curve : curves) {
            StringBuilder points = new StringBuilder();
            for (Fault.Point point : curve.fault().points()) {
                points.append(points.isEmpty() ? "" : ", ")
                        .append(point.ticks())
                        .append(": ")
                        .append(Lines.text(Figures.value(curve.channel(), point.raw())));
            }
            lines.add(3, curve.channel().name() + ": { replay: { " + points + " } }");
        }
        commented(
                "    lasts: " + Figures.time(lastsMicros), "from the strike on; then the real readings are told again");
        lines.add(0, "");
        lines.add(0, "expect:");
        if (answers.isPresent()) {
            long micros = moment.follows()
                    .filter(Follows::failSafe)
                    .map(Follows::micros)
                    .orElse(0L);
            answered(answers.get(), Figures.time(roundedUp(micros)));
        } else if (moment.follows().isPresent()) {
            lines.add(1, "- name: goes on");
            commented("    becomes: { step: " + moment.follows().get().name() + " }", "what followed then");
            lines.add(
                    2,
                    "within: " + Figures.time(roundedUp(moment.follows().get().micros())));
        } else {
            commented("  - stays: { step: " + moment.step() + " }", "what was seen then; write what must follow");
            lines.add(2, "for: 100 ms");
        }
        lines.add(0, "");
        lines.add(0, "end: 3 s after " + STRIKE);
        return lines.toString();
    }

    private static long wholeMillis(long micros) {
        return (micros + 500) / 1000 * 1000;
    }

    /** Twice the time that it took, in tenths of a second, from half a second on. */
    private static long roundedUp(long micros) {
        long tenth = 100_000;
        return Math.max(5 * tenth, (2 * micros + tenth - 1) / tenth * tenth);
    }

    private void head(Optional<String> failSafe, Optional<String> cause) {
        lines.add(0, "fault-script", Lines.text(name));
        failSafe.ifPresent(one -> commented("failsafe: " + one, "what it is evidence for"));
        lines.add(0, "why: >");
        cause.ifPresent(text -> lines.add(1, text));
        lines.add(1, "Say here, for whoever reads the report, what goes wrong in the machine.");
        lines.add(0, "");
    }

    private void begin(Optional<String> step) {
        if (offered.start().isEmpty() && step.isEmpty()) {
            return;
        }
        commented("begin:", "on the rig, before the fault; arming is tick 0");
        offered.start().ifPresent(command -> lines.add(1, "- send: " + command.name()));
        if (step.isPresent()) {
            lines.add(1, "- wait-for: { step: " + step.get() + " }");
            lines.add(2, "within: 10 s");
        }
        lines.add(0, "");
    }

    private void answered(String failSafe, String within) {
        lines.add(1, "- name: sees it");
        lines.add(2, "answered-by: " + failSafe);
        commented("    within: " + within, "a window, such as 80 ms .. 250 ms, once you know it");
        lines.add(2, "after: " + STRIKE);
    }

    private void commented(String text, String comment) {
        lines.add(0, text + " ".repeat(Math.max(2, COMMENT_COLUMN - text.length())) + "# " + comment);
    }
}
