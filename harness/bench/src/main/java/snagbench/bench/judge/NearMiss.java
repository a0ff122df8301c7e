package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.trace.Trace;

/** Tells of a condition that never came about which part of it was missing, and how close that came. */
final class NearMiss {
    private final Course course;
    private final Trace trace;
    private final Condition condition;
    private final int firstRow;
    private final int rows;

    /**
     * Looks for the nearest miss.
     *
     * @param course of the script
     * @param condition that never came about
     * @param from what it was looked for from on
     */
    NearMiss(Course course, Condition condition, Anchor from) {
        this.course = course;
        this.trace = course.trace();
        this.condition = condition;
        int firstTick = course.moment(from) instanceof Moment.Known known ? known.tick() : 0;
        this.firstRow = trace.rowAtOrAfter(firstTick);
        this.rows = trace.rowAtOrAfter(course.timeline().lastTick() + 1);
    }

    String words() {
        if (firstRow >= rows) {
            return "no record shows any of it";
        }
        List<String> parts = new ArrayList<>();
        for (Term term : condition.terms()) {
            if (!heldEver(List.of(term))) {
                parts.add(never(term));
            }
        }
        if (!parts.isEmpty()) {
            return String.join("; ", parts);
        }
        return heldEver(condition.terms())
                ? condition.show() + " held, but the rig told of no strike"
                : "each part of it held at some time, but never all in one tick";
    }

    private String never(Term term) {
        String never = term.show() + " never held";
        Optional<Slack> slack = signal(List.of(term)).slack();
        if (slack.isEmpty()) {
            return never;
        }
        List<Term> others =
                condition.terms().stream().filter(other -> other != term).toList();
        Signal rest = signal(others);
        boolean othersHeld = !others.isEmpty() && heldEver(others);
        int best = -1;
        long nearest = Long.MIN_VALUE;
        for (int row = firstRow; row < rows; row++) {
            int tick = trace.tick(row);
            if (othersHeld && rest.at(tick) != Truth.TRUE) {
                continue;
            }
            for (int at = Math.max(0, tick - trace.periodTicks() + 1); at <= tick; at++) {
                if (!slack.get().isOpen(at) && slack.get().greatest(at) > nearest) {
                    nearest = slack.get().greatest(at);
                    best = at;
                }
            }
        }
        if (best < 0) {
            return never;
        }
        int row = trace.rowAtOrAfter(best);
        return never + "; closest was " + slack.get().value(best, false) + " at " + Words.at(trace.micros(row))
                + " from arming";
    }

    private Signal signal(List<Term> terms) {
        return course.signals().of(new Condition(condition.place(), terms));
    }

    private boolean heldEver(List<Term> terms) {
        Signal signal = signal(terms);
        for (int tick = trace.tick(firstRow); tick <= trace.tick(rows - 1); tick++) {
            if (signal.at(tick) == Truth.TRUE) {
                return true;
            }
        }
        return false;
    }
}
