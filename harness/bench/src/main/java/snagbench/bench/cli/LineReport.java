package snagbench.bench.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import snagbench.bench.link.Link;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.session.ClockMatch;
import snagbench.bench.session.ClockReading;
import snagbench.bench.session.Reception;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;

/** Measures how rig and line do, then shows live values. Nothing moves: no lease is taken. */
final class LineReport {
    private static final long MEASURED_MICROS = 3_000_000;
    private static final long BETWEEN_READINGS_MICROS = 90_000;
    private static final long SELDOM_MICROS = 1_000_000;
    private static final int SELDOM_TICKS = 50;
    private static final long BETWEEN_LINES_MICROS = 1_000_000;
    private static final double MICROS_PER_MILLI = 1e3;
    private static final double MICROS_PER_SECOND = 1e6;

    private final RigSession session;
    private final Link link;
    private final PrintWriter out;
    private final Reception reception = new Reception();
    private final Reception seldom = new Reception();
    private final Map<ChannelDescription, Integer> shown = new HashMap<>();

    LineReport(RigSession session, Link link, PrintWriter out) {
        this.session = session;
        this.link = link;
        this.out = out;
    }

    /** Takes some seconds, on the link's clock. */
    void measure() throws SessionException {
        session.observe(reception);
        List<ClockReading> readings = new ArrayList<>();
        long end = session.nowMicros() + MEASURED_MICROS;
        while (session.nowMicros() < end) {
            readings.addAll(session.watch(1));
            listen(session.nowMicros() + BETWEEN_READINGS_MICROS);
        }
        reception.lookAway();
        session.observe(part -> {});
        session.watch(SELDOM_TICKS);
        session.observe(seldom);
        listen(session.nowMicros() + SELDOM_MICROS);
        session.observe(part -> {});
        session.watch(1);
        session.observe(reception);
        ClockMatch.of(readings).ifPresent(this::clock);
        line("loop times", loops());
        records();
    }

    private void listen(long untilMicros) throws SessionException {
        while (session.nowMicros() < untilMicros) {
            session.work(untilMicros);
        }
    }

    private void clock(ClockMatch match) {
        line(
                "offset",
                String.format(
                        Locale.ROOT,
                        "%+.6f s, the controller's clock less this one's since connecting, within %s",
                        match.offsetMicros() / MICROS_PER_SECOND,
                        millis(match.offsetBoundMicros())));
        line(
                "drift",
                match.drift()
                        .map(drift -> String.format(
                                Locale.ROOT,
                                "%+.0f millionths, within %.0f",
                                drift.perMillion(),
                                drift.boundPerMillion()))
                        .orElse("not known"));
        line(
                "round trip",
                "shortest " + millis((double) match.shortestRoundTripMicros()) + ", median "
                        + millis((double) match.medianRoundTripMicros()) + ", the wait for the next loop within it; "
                        + match.readings() + " readings");
    }

    private String loops() {
        String each =
                "median " + millis(reception.medianLoopMicros()) + ", longest " + millis(reception.longestLoopMicros());
        return seldom.meanLoopMicros().isEmpty()
                ? each
                : each + "; with a record only every " + SELDOM_TICKS + "th loop mean "
                        + millis(seldom.meanLoopMicros()) + ", longest " + millis(seldom.longestLoopMicros());
    }

    /** What came and what did not, so far. */
    void records() {
        RigSession.LineTroubles troubles = session.troubles();
        line(
                "records",
                reception.records() + " came, " + reception.missing() + " are missing"
                        + (reception.dropped() > 0
                                ? " (for " + reception.dropped() + " the rig had no room: the line is slow for them)"
                                : ""));
        line("line", troubles.badFrames() + " damaged frames, " + troubles.repeatedRequests() + " requests sent again");
        List<String> others = reception.missing() > 0 ? link.others() : List.of();
        if (!others.isEmpty()) {
            line("others", String.join(" and ", others) + " has the port open too, and may take away bytes");
        }
    }

    /** Shows values once a second, each when it has changed; all at first. */
    void live(Optional<Long> micros) throws SessionException {
        long began = session.nowMicros();
        long end = micros.map(some -> began + some).orElse(Long.MAX_VALUE);
        while (session.nowMicros() < end) {
            listen(Math.min(end, session.nowMicros() + BETWEEN_LINES_MICROS));
            values((session.nowMicros() - began) / MICROS_PER_SECOND);
        }
    }

    private void values(double seconds) {
        List<String> changed = new ArrayList<>();
        for (ChannelDescription channel : session.description().channels()) {
            OptionalInt told = session.told(channel);
            if (told.isPresent() && !Integer.valueOf(told.getAsInt()).equals(shown.put(channel, told.getAsInt()))) {
                changed.add(channel.name() + " " + channel.show(told.getAsInt()));
            }
        }
        String text = changed.isEmpty() ? "nothing has changed" : String.join("   ", changed);
        out.println(String.format(Locale.ROOT, "%8.1f s  %s", seconds, text));
        out.flush();
    }

    private static String millis(OptionalLong micros) {
        return micros.isPresent() ? millis((double) micros.getAsLong()) : "-";
    }

    private static String millis(double micros) {
        return String.format(Locale.ROOT, "%.2f ms", micros / MICROS_PER_MILLI);
    }

    private void line(String label, String text) {
        out.println(IdentifyCommand.row(label, text));
    }
}
