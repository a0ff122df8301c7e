package snagbench.bench.report.sheet;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Figures;
import snagbench.bench.report.PlainText;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.Gap;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * Strips above one time axis, as SVG: injections, steps, fail-safe reports, limits, and the channels' readings, real and told. Told
 * readings are dashed and thicker, limits have a bar and a foot, what never came about has a dashed line to its limit and words
 * behind it, so that nothing is told by colour alone.
 */
final class StripChart {
    static final int MOST_SIGNALS = 6;
    private static final int WIDTH = 960;
    private static final int GUTTER = 170;
    private static final int RIGHT = 20;
    private static final int PLOT = WIDTH - GUTTER - RIGHT;
    private static final int BAND = 24;
    private static final int SIGNAL = 60;
    private static final int BETWEEN = 8;
    private static final int AXIS = 30;
    private static final int LETTER = 7;
    private static final int WIDE_LETTER = 9;
    private static final int LONGEST_LABEL = 24;
    private static final int MARKS = 8;

    private final Markup out;
    private final Judgement judgement;
    private final Trace trace;
    private final Stretch stretch;
    private final int columns;
    private final long zero;
    private int y = BETWEEN;

    private StripChart(Markup out, Judgement judgement, Trace trace, int columns) {
        this.out = out;
        this.judgement = judgement;
        this.trace = trace;
        this.columns = columns;
        this.stretch = Stretch.of(judgement, trace);
        this.zero = judgement.injections().stream()
                .map(InjectionFacts::firstMicros)
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .min()
                .orElse(0);
    }

    /**
     * Draws.
     *
     * @param out takes it
     * @param title what it shows, for those who do not see it
     * @param judgement of the script
     * @param trace with at least one row
     * @param channels whose readings are drawn
     * @param columns how many columns a curve has
     */
    static void draw(
            Markup out,
            String title,
            Judgement judgement,
            Trace trace,
            List<ChannelDescription> channels,
            int columns) {
        new StripChart(out, judgement, trace, columns).draw(title, channels);
    }

    private void draw(String title, List<ChannelDescription> channels) {
        List<ChannelDescription> bands = new ArrayList<>();
        trace.rig().step().ifPresent(bands::add);
        List<ChannelDescription> signals = new ArrayList<>();
        for (ChannelDescription channel : channels) {
            if (channel.isStep() || !trace.isWatched(channel.index())) {
                continue;
            }
            (channel.valueNames().isEmpty() ? signals : bands).add(channel);
        }
        List<ChannelDescription> drawn = signals.subList(0, Math.min(MOST_SIGNALS, signals.size()));
        List<Finding> timed = judgement.findings().stream()
                .filter(one -> one.metMicros().isPresent() || one.limitMicros().isPresent())
                .filter(one -> trace.restart().isEmpty())
                .toList();
        boolean answers = trace.events().stream().anyMatch(one -> one.kind() == EventKind.ANSWERED);
        int height = BETWEEN
                + (BAND + BETWEEN) * (judgement.injections().size() + bands.size() + timed.size() + (answers ? 1 : 0))
                + (SIGNAL + BETWEEN) * drawn.size()
                + AXIS;
        out.open(
                "svg",
                "viewBox",
                "0 0 " + WIDTH + " " + height,
                "role",
                "img",
                "aria-label",
                title,
                "data-from",
                Long.toString(stretch.fromMicros() - zero),
                "data-to",
                Long.toString(stretch.toMicros() - zero),
                "data-left",
                Integer.toString(GUTTER),
                "data-plot",
                Integer.toString(PLOT));
        window(height - AXIS);
        gaps(height - AXIS);
        judgement.injections().forEach(this::injection);
        bands.forEach(this::states);
        if (answers) {
            answers();
        }
        timed.forEach(this::limit);
        drawn.forEach(this::signal);
        axis();
        out.closeLine();
    }

    private double x(long micros) {
        long within = Math.max(stretch.fromMicros(), Math.min(stretch.toMicros(), micros));
        return GUTTER + (double) (within - stretch.fromMicros()) * PLOT / stretch.micros();
    }

    private boolean isShown(long micros) {
        return micros >= stretch.fromMicros() && micros <= stretch.toMicros();
    }

    private static String figure(double number) {
        return new BigDecimal(number)
                .setScale(1, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    private void rect(String kind, double from, double to, int top, int height) {
        out.empty(
                "rect",
                "class",
                kind,
                "x",
                figure(from),
                "y",
                Integer.toString(top),
                "width",
                figure(Math.max(1, to - from)),
                "height",
                Integer.toString(height));
    }

    private void line(String kind, double x1, int y1, double x2, int y2) {
        out.empty(
                "line",
                "class",
                kind,
                "x1",
                figure(x1),
                "y1",
                Integer.toString(y1),
                "x2",
                figure(x2),
                "y2",
                Integer.toString(y2));
    }

    private void text(String kind, double x, int at, String text) {
        out.leaf("text", text, "class", kind, "x", figure(x), "y", Integer.toString(at));
    }

    private void label(String text, int top) {
        text("label", 4, top + 16, PlainText.brief(text, LONGEST_LABEL));
    }

    private void window(int bottom) {
        for (InjectionFacts one : judgement.injections()) {
            if (one.firstMicros().isPresent()) {
                rect("window", x(one.firstMicros().getAsLong()), x(end(one)), 0, bottom);
            }
        }
    }

    private long end(InjectionFacts one) {
        return one.lastedMicros().isPresent()
                ? one.firstMicros().orElse(0) + one.lastedMicros().getAsLong()
                : stretch.toMicros();
    }

    private void gaps(int bottom) {
        for (Gap gap : trace.gaps()) {
            int behind = trace.rowAtOrAfter(gap.firstTick());
            if (behind > 0 && behind < trace.rows()) {
                long from = trace.micros(behind - 1);
                long to = trace.micros(behind);
                if (to >= stretch.fromMicros() && from <= stretch.toMicros()) {
                    rect("gap", x(from), x(to), 0, bottom);
                }
            }
        }
    }

    private void injection(InjectionFacts one) {
        label(one.name(), y);
        if (one.firstMicros().isPresent()) {
            double from = x(one.firstMicros().getAsLong());
            double to = x(end(one));
            rect("injection", from, to, y + 4, BAND - 8);
        } else {
            text("note", GUTTER + 4, y + 16, "never seen to take effect");
        }
        y += BAND + BETWEEN;
    }

    private void states(ChannelDescription channel) {
        label(channel.name(), y);
        line("base", GUTTER, y + BAND, GUTTER + PLOT, y + BAND);
        int index = channel.index();
        int row = 0;
        while (row < trace.rows()) {
            if (!trace.has(row, index)) {
                row++;
                continue;
            }
            int value = trace.told(row, index);
            int last = row;
            while (last + 1 < trace.rows() && trace.has(last + 1, index) && trace.told(last + 1, index) == value) {
                last++;
            }
            long from = trace.micros(row);
            long to = last + 1 < trace.rows() ? trace.micros(last + 1) : trace.micros(last);
            if (to > stretch.fromMicros() && from < stretch.toMicros()) {
                state(channel.show(value), x(from), x(to));
            }
            row = last + 1;
        }
        y += BAND + BETWEEN;
    }

    private void state(String name, double from, double to) {
        out.open("g", "data-state", name);
        rect("state", from, to, y, BAND);
        int room = (int) ((to - from - 6) / WIDE_LETTER);
        if (room > 2) {
            text("name", from + 4, y + 16, PlainText.brief(name, room));
        }
        out.leaf("title", name).close();
    }

    private void answers() {
        label("fail-safe reports", y);
        line("base", GUTTER, y + BAND, GUTTER + PLOT, y + BAND);
        double free = 0;
        for (Happening one : trace.events()) {
            if (one.kind() == EventKind.ANSWERED && isShown(one.micros())) {
                double at = x(one.micros());
                line("answer", at, y, at, y + BAND);
                String name = PlainText.brief(trace.rig().failSafeName(one.a()), 16);
                double width = name.length() * LETTER + 8;
                double start = at + 4 + width > GUTTER + PLOT ? at - width : at + 4;
                if (start >= free) {
                    text("name", start, y + 16, name);
                    free = start + width;
                }
            }
        }
        y += BAND + BETWEEN;
    }

    /** From the injection to the limit; a dot where it came about, and a foot where the limit is. */
    private void limit(Finding finding) {
        label(finding.name(), y);
        int middle = y + BAND / 2;
        OptionalLong itsLimit = limitOf(finding);
        boolean came = finding.metMicros().isPresent();
        if (itsLimit.isPresent()) {
            long limit = itsLimit.getAsLong();
            line(came ? "span" : "span open", x(zero), middle, x(limit), middle);
            if (isShown(limit)) {
                line("limit", x(limit), y + 2, x(limit), y + BAND - 2);
            }
            if (!came) {
                notMet(finding.verdict() == Verdict.FAIL ? "\u2715 not in time" : "? not settled", x(limit));
            }
        }
        long met = finding.metMicros().orElse(Long.MIN_VALUE);
        if (isShown(met)) {
            boolean good = finding.verdict() == Verdict.PASS;
            out.leaf(
                    "text",
                    good ? "\u25cf" : "\u2715",
                    "class",
                    good ? "met" : "missed",
                    "x",
                    figure(x(met)),
                    "y",
                    Integer.toString(middle + 5));
        }
        y += BAND + BETWEEN;
    }

    /** Where journals do not have the limit, what was to spare tells it. */
    private static OptionalLong limitOf(Finding finding) {
        if (finding.limitMicros().isPresent()
                || finding.marginMicros().isEmpty()
                || finding.metMicros().isEmpty()) {
            return finding.limitMicros();
        }
        return OptionalLong.of(
                finding.metMicros().getAsLong() + finding.marginMicros().getAsLong());
    }

    /** Behind the limit, or before it where there is no room. */
    private void notMet(String words, double limit) {
        double width = words.length() * LETTER + 8;
        boolean isRoom = limit + width <= GUTTER + PLOT;
        text("not-met", isRoom ? limit + 6 : limit - width, y + (isRoom ? 16 : 10), words);
    }

    private void signal(ChannelDescription channel) {
        Curve real = new Curve(trace, channel.index(), false, stretch, columns);
        Curve told = new Curve(trace, channel.index(), true, stretch, columns);
        long least = Long.MAX_VALUE;
        long greatest = Long.MIN_VALUE;
        boolean differs = false;
        for (int row = 0; row < trace.rows(); row++) {
            if (real.shows(row)) {
                least = Math.min(least, Math.min(real.least(row), told.least(row)));
                greatest = Math.max(greatest, Math.max(real.greatest(row), told.greatest(row)));
                differs |= trace.real(row, channel.index()) != trace.told(row, channel.index())
                        || real.least(row) != told.least(row)
                        || real.greatest(row) != told.greatest(row);
            }
        }
        label(channel.name(), y);
        rect("field", GUTTER, GUTTER + PLOT, y, SIGNAL);
        if (least > greatest) {
            text("note", GUTTER + 4, y + 34, "not recorded here");
        } else {
            text("scale", GUTTER - 4, y + 12, PlainText.brief(channel.show((int) greatest), 14));
            if (least != greatest) {
                text("scale", GUTTER - 4, y + SIGNAL, PlainText.brief(channel.show((int) least), 14));
            }
            long low = least == greatest ? least - 1 : least;
            long high = least == greatest ? greatest + 1 : greatest;
            curve("real", channel, real, low, high);
            if (differs) {
                curve("told", channel, told, low, high);
            }
        }
        y += SIGNAL + BETWEEN;
    }

    private void curve(String kind, ChannelDescription channel, Curve curve, long low, long high) {
        BigDecimal step = channel.step();
        out.open(
                "g",
                "transform",
                "translate(" + GUTTER + " " + (y + 2) + ") scale(" + scale((double) PLOT / (columns - 1)) + " "
                        + scale((double) (SIGNAL - 4) / Curve.HEIGHT) + ")");
        out.empty(
                "path",
                "class",
                kind,
                "d",
                curve.path(low, high),
                "data-of",
                channel.name(),
                "data-low",
                step.multiply(BigDecimal.valueOf(low)).toPlainString(),
                "data-high",
                step.multiply(BigDecimal.valueOf(high)).toPlainString(),
                "data-unit",
                channel.unit(),
                "data-columns",
                Integer.toString(columns));
        out.close();
    }

    private static String scale(double factor) {
        return new BigDecimal(factor)
                .setScale(5, java.math.RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    private void axis() {
        line("axis", GUTTER, y, GUTTER + PLOT, y);
        long step = markStep();
        long first = Math.floorDiv(stretch.fromMicros() - zero + step - 1, step) * step;
        for (long mark = first; mark <= stretch.toMicros() - zero; mark += step) {
            double at = x(mark + zero);
            line("axis", at, y, at, y + 5);
            text("mark", at, y + 18, (mark > 0 ? "+" : "") + mark / 1000 + (mark == 0 ? " ms" : ""));
        }
    }

    /** 1, 2 or 5 times a power of ten, so that there are not too many marks. */
    private long markStep() {
        long step = 1000;
        for (int i = 0; stretch.micros() / step > MARKS; i++) {
            step = step * (i % 3 == 1 ? 5 : 4) / 2;
        }
        return step;
    }

    /** What time 0 on the axis is. */
    static String zeroIs(Judgement judgement) {
        return judgement.injections().stream().anyMatch(one -> one.firstMicros().isPresent())
                ? "0 ms is the first tick with an override, "
                        + Figures.millis(judgement.injections().stream()
                                .map(InjectionFacts::firstMicros)
                                .filter(OptionalLong::isPresent)
                                .mapToLong(OptionalLong::getAsLong)
                                .min())
                        + " after arming"
                : "0 ms is arming";
    }
}
