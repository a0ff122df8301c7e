package snagbench.bench.explain;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Stretch;

/**
 * A script over time, drawn with characters: one axis for each thing that times are counted from and that no other time
 * tells, a bar for each override, brackets for each window. What is counted from a window begins somewhere in it.
 */
final class TimePicture {
    private static final int WIDTH = 60;
    private static final int WIDEST_NAME = 26;
    private static final long[] ROUND = {1, 2, 5, 10};

    private final FaultScript script;
    private final Map<String, List<Row>> byRoot = new LinkedHashMap<>();

    private TimePicture(FaultScript script) {
        this.script = script;
    }

    /** A root and the times at which something may come about, counted from it. */
    private record Span(String root, long earliest, long latest) {}

    /** A line of the picture; an end of -1 means open. */
    private record Row(String name, long from, long sure, long to, char bar, String note) {}

    static List<String> lines(FaultScript script) {
        TimePicture picture = new TimePicture(script);
        for (int index = 0; index < script.injections().size(); index++) {
            picture.injection(index, script.injections().get(index));
        }
        script.expectations().forEach(picture::expectation);
        picture.end();
        List<String> lines = new ArrayList<>();
        picture.byRoot.forEach((root, rows) -> {
            if (!lines.isEmpty()) {
                lines.add("");
            }
            lines.addAll(drawn(root, rows));
        });
        return lines;
    }

    private void add(String root, Row row) {
        byRoot.computeIfAbsent(root, one -> new ArrayList<>()).add(row);
    }

    /** When an anchor may be. What strikes by a condition has an axis of its own: nobody can tell when that will be. */
    private Span span(Anchor anchor, int depth) {
        if (anchor instanceof Anchor.OfInjection injection) {
            String time = injection.time() == 1 ? "" : ", time " + injection.time();
            return new Span(injection.name() + time, 0, 0);
        }
        if (anchor instanceof Anchor.OfExpectation other
                && depth < script.expectations().size()
                && script.expectations().get(other.index()) instanceof Expectation.Timed timed
                && other.time() == 1) {
            Span before = span(timed.after(), depth + 1);
            return new Span(
                    before.root(),
                    before.earliest() + timed.within().leastMicros(),
                    before.latest() + timed.within().mostMicros());
        }
        return anchor instanceof Anchor.OfExpectation other
                ? new Span(other.name() + ", time " + other.time(), 0, 0)
                : new Span("begin", 0, 0);
    }

    private void injection(int index, Injection injection) {
        Span strike = span(new Anchor.OfInjection(index, injection.name()), 0);
        OptionalLong spike = Spikes.longest(injection);
        long lasts = injection.lastsMicros().orElse(spike.orElse(-1));
        String until = injection.until().map(one -> "until " + Words.holds(one)).orElse("");
        String most = lasts < 0
                ? ""
                : (until.isEmpty() ? "" : ", ") + Words.time(lasts) + (until.isEmpty() ? "" : " at most");
        String note = until + most;
        add(strike.root(), new Row(injection.name(), 0, 0, lasts, '#', note.isEmpty() ? "to the end" : note));
    }

    private void expectation(Expectation expectation) {
        if (expectation instanceof Expectation.Timed timed) {
            Span from = span(timed.after(), 0);
            String note = timed.after() instanceof Anchor.OfExpectation other ? "after " + other.name() : "";
            add(
                    from.root(),
                    new Row(
                            timed.name(),
                            from.earliest() + timed.within().leastMicros(),
                            from.latest() + timed.within().leastMicros(),
                            from.latest() + timed.within().mostMicros(),
                            '=',
                            note));
        } else {
            stretch(expectation).ifPresent(during -> stretch(expectation.name(), during));
        }
    }

    private void stretch(String name, Stretch during) {
        if (during.window().isPresent()) {
            Span from = span(during.from(), 0);
            Expectation.Window window = during.window().get();
            add(
                    from.root(),
                    new Row(
                            name,
                            from.earliest() + window.leastMicros(),
                            from.latest() + window.leastMicros(),
                            from.latest() + window.mostMicros(),
                            '~',
                            ""));
        }
    }

    private static Optional<Stretch> stretch(Expectation expectation) {
        if (expectation instanceof Expectation.Always always) {
            return Optional.of(always.during());
        }
        if (expectation instanceof Expectation.Never never) {
            return Optional.of(never.during());
        }
        if (expectation instanceof Expectation.Peak peak) {
            return Optional.of(peak.during());
        }
        if (expectation instanceof Expectation.Times times) {
            return Optional.of(times.during());
        }
        return expectation instanceof Expectation.MustNotFire quiet ? quiet.during() : Optional.empty();
    }

    private void end() {
        script.end().ifPresent(end -> {
            Span from = span(end.after(), 0);
            long earliest = from.earliest() + end.micros();
            long latest = from.latest() + end.micros();
            add(from.root(), new Row("end", earliest, latest, latest, '|', ""));
        });
    }

    private static List<String> drawn(String root, List<Row> rows) {
        long longest = 1;
        for (Row row : rows) {
            longest = Math.max(longest, Math.max(row.from(), row.to()));
        }
        long mark = mark(longest);
        long whole = (longest + mark - 1) / mark * mark;
        int names = rows.stream()
                .mapToInt(row -> Math.min(WIDEST_NAME, row.name().length()))
                .max()
                .orElse(0);
        List<String> lines = new ArrayList<>();
        lines.add("Time from " + Words.quoted(root) + " on:");
        lines.add(" ".repeat(names + 2) + scale(mark, whole, true));
        lines.add(" ".repeat(names + 2) + scale(mark, whole, false));
        for (Row row : rows) {
            String name =
                    row.name().length() > WIDEST_NAME ? row.name().substring(0, WIDEST_NAME - 1) + "~" : row.name();
            String line = name + " ".repeat(names + 2 - name.length()) + bar(row, whole);
            lines.add((row.note().isEmpty() ? line : line + "  " + row.note()).stripTrailing());
        }
        return lines;
    }

    /** The distance of marks: a round time, of which four to ten fit in. */
    private static long mark(long longest) {
        for (long unit = 1; ; unit *= 10) {
            for (long round : ROUND) {
                if (longest / (unit * round) < 6) {
                    return unit * round;
                }
            }
        }
    }

    private static int at(long micros, long whole) {
        return (int) Math.min(WIDTH, Math.max(0, micros * WIDTH / whole));
    }

    private static String scale(long mark, long whole, boolean figures) {
        StringBuilder line = new StringBuilder(" ".repeat(WIDTH + 1));
        for (long time = 0; time <= whole; time += mark) {
            int column = at(time, whole);
            if (figures) {
                String text = Words.time(time);
                line.replace(column, Math.min(line.length(), column + text.length()), text);
            } else {
                line.setCharAt(column, '+');
            }
        }
        return figures
                ? line.toString().stripTrailing()
                : line.toString().strip().replace(' ', '-');
    }

    private static String bar(Row row, long whole) {
        StringBuilder line = new StringBuilder(" ".repeat(WIDTH + 1));
        int from = at(row.from(), whole);
        int sure = at(row.sure(), whole);
        int to = row.to() < 0 ? WIDTH : at(row.to(), whole);
        for (int column = from; column <= to; column++) {
            line.setCharAt(column, column < sure ? '.' : row.bar());
        }
        if (row.bar() == '=' || row.bar() == '~') {
            line.setCharAt(from, '[');
            line.setCharAt(to, ']');
        }
        if (row.to() < 0) {
            line.setCharAt(to, '>');
        }
        return line.toString().stripTrailing();
    }
}
