package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * The steps that a run entered, one after another, and how far it came in those of a nominal run: the steps of the nominal run are
 * taken in their order, and whatever a recovery does between them is passed over.
 */
final class Milestones {
    private Milestones() {}

    /** A step that was entered. */
    record Entry(int step, int tick, long micros) {}

    /**
     * A step of the nominal run that another run came to as well.
     *
     * @param step the step's value
     * @param tick in which the other run entered it
     * @param laterMicros how much later than the nominal run, each from its own first step on
     */
    record Reached(int step, int tick, long laterMicros) {}

    /** Empty where a change of the step may have gone unseen. */
    static Optional<List<Entry>> of(Trace trace, ChannelDescription step) {
        if (trace.rows() == 0 || !trace.hasAllEvents(0, trace.tick(trace.rows() - 1))) {
            return Optional.empty();
        }
        List<Entry> entries = new ArrayList<>();
        for (Happening event : trace.events()) {
            if (event.is(EventKind.STATE, step.index())) {
                entries.add(new Entry(event.b(), event.tick(), event.micros()));
            }
        }
        return Optional.of(entries);
    }

    /** The last of the nominal run's steps that a run came to; empty where it came to none but the first. */
    static Optional<Reached> last(List<Entry> nominal, List<Entry> run) {
        if (nominal.isEmpty()
                || run.isEmpty()
                || nominal.get(0).step() != run.get(0).step()) {
            return Optional.empty();
        }
        Optional<Reached> last = Optional.empty();
        int next = 1;
        for (Entry entry : run.subList(1, run.size())) {
            if (next < nominal.size() && nominal.get(next).step() == entry.step()) {
                long took = entry.micros() - run.get(0).micros();
                long nominally = nominal.get(next).micros() - nominal.get(0).micros();
                last = Optional.of(new Reached(entry.step(), entry.tick(), took - nominally));
                next++;
            }
        }
        return last;
    }
}
