package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.write.NewScript;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;
import snagbench.wire.EventKind;

/** Takes from a trace what was told from a moment on, as curves of few points. */
final class Curves {
    private static final int MOST_POINTS = 24;

    private final Trace trace;
    private final RigDescription rig;
    private final int first;
    private final int end;

    private Curves(Trace trace, RigDescription rig, int first, int end) {
        this.trace = trace;
        this.rig = rig;
        this.first = first;
        this.end = end;
    }

    /** What was found at a moment of a trace. */
    record Found(NewScript.Moment moment, List<NewScript.Curve> curves) {}

    /**
     * Looks into a trace.
     *
     * @param names of the channels; all sensors that were recorded, if none
     * @throws IllegalArgumentException if nothing was recorded there
     */
    static Found of(Trace trace, RigDescription rig, long atMicros, long forMicros, List<String> names) {
        int first = 0;
        while (first < trace.rows() && trace.micros(first) < atMicros) {
            first++;
        }
        int end = first;
        while (end < trace.rows() && trace.micros(end) < atMicros + forMicros) {
            end++;
        }
        if (first == end) {
            long last = trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1) / 1000;
            throw new IllegalArgumentException(
                    "nothing was recorded from " + atMicros / 1000 + " ms on; the last record is at " + last + " ms");
        }
        Curves curves = new Curves(trace, rig, first, end);
        return new Found(curves.moment(), curves.all(names));
    }

    private List<NewScript.Curve> all(List<String> names) {
        List<ChannelDescription> channels = rig.channels().stream()
                .filter(channel -> channel.kind() == ChannelKind.SENSOR)
                .filter(channel -> names.isEmpty() || names.contains(channel.name()))
                .toList();
        int most = Math.max(1, Math.min(MOST_POINTS, rig.limits().points() / Math.max(1, channels.size())));
        List<NewScript.Curve> found = new ArrayList<>();
        for (ChannelDescription channel : channels) {
            Optional<Integer> recorded = trace.rig().channel(channel.name()).map(ChannelDescription::index);
            if (recorded.isPresent()) {
                curve(channel, recorded.get(), most).ifPresent(found::add);
            }
        }
        if (found.isEmpty()) {
            throw new IllegalArgumentException("none of these channels was recorded then");
        }
        return found;
    }

    private Optional<NewScript.Curve> curve(ChannelDescription channel, int recorded, int most) {
        for (long tolerance = 0; tolerance <= Integer.MAX_VALUE; tolerance = 2 * tolerance + 1) {
            List<Fault.Point> points = points(recorded, tolerance);
            if (points.isEmpty()) {
                return Optional.empty();
            }
            if (points.size() <= most) {
                return Optional.of(new NewScript.Curve(channel, new Fault.Replay(points)));
            }
        }
        return Optional.empty();
    }

    /** A new point wherever the reading has strayed farther from the last one than the tolerance. */
    private List<Fault.Point> points(int channel, long tolerance) {
        List<Fault.Point> points = new ArrayList<>();
        for (int row = first; row < end; row++) {
            if (trace.has(row, channel)) {
                int raw = trace.told(row, channel);
                boolean strayed = points.isEmpty()
                        || Math.abs((long) raw - points.get(points.size() - 1).raw()) > tolerance;
                if (strayed) {
                    points.add(new Fault.Point(trace.tick(row) - trace.tick(first), raw));
                }
            }
        }
        return points;
    }

    /** Which step was on, for which time, and for how long. */
    private NewScript.Moment moment() {
        ChannelDescription step = trace.rig()
                .step()
                .orElseThrow(() -> new IllegalArgumentException("its rig tells no step, on which a fault could hang"));
        int last = Integer.MIN_VALUE;
        int now = Integer.MIN_VALUE;
        int since = first;
        for (int row = first; row >= 0 && now == Integer.MIN_VALUE; row--) {
            now = trace.has(row, step.index()) ? trace.real(row, step.index()) : now;
        }
        if (now == Integer.MIN_VALUE) {
            throw new IllegalArgumentException("its step was not recorded then");
        }
        int time = 0;
        for (int row = 0; row <= first; row++) {
            if (trace.has(row, step.index())) {
                int value = trace.real(row, step.index());
                if (value == now && value != last) {
                    time++;
                    since = row;
                }
                last = value;
            }
        }
        long delay = trace.micros(first) - trace.micros(since);
        return new NewScript.Moment(step.show(now), Math.max(1, time), delay, follows(step, now));
    }

    private Optional<NewScript.Follows> follows(ChannelDescription step, int now) {
        long at = trace.micros(first);
        for (Happening event : trace.events()) {
            if (event.micros() >= at && event.kind() == EventKind.ANSWERED) {
                return Optional.of(
                        new NewScript.Follows(true, trace.rig().failSafeName(event.a()), event.micros() - at));
            }
        }
        for (int row = first; row < trace.rows(); row++) {
            if (trace.has(row, step.index()) && trace.real(row, step.index()) != now) {
                String name = step.show(trace.real(row, step.index()));
                return Optional.of(new NewScript.Follows(false, name, trace.micros(row) - at));
            }
        }
        return Optional.empty();
    }
}
