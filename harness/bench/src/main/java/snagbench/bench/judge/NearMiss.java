package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Compares;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.trace.Trace;

/** Tells of a condition that never came about which part of it was missing, and how close that came. */
final class NearMiss {
    private final Course course;
    private final Trace trace;
    private final Condition condition;
    private final int firstRow;
    private final int rows;

    NearMiss(Course course, Condition condition) {
        this.course = course;
        this.trace = course.trace();
        this.condition = condition;
        int from = course.beginning() instanceof Moment.Known known ? known.tick() : 0;
        this.firstRow = trace.rowAtOrAfter(from);
        this.rows = trace.rowAtOrAfter(course.timeline().lastTick() + 1);
    }

    String words() {
        if (firstRow >= rows) {
            return "no record shows any of it";
        }
        List<String> parts = new ArrayList<>();
        for (int i = 0; i < condition.terms().size(); i++) {
            if (!heldEver(List.of(condition.terms().get(i)))) {
                parts.add(never(condition.terms().get(i)));
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
        if (!(term instanceof Compares compares)) {
            return never;
        }
        int best = -1;
        long least = Long.MAX_VALUE;
        boolean othersHeld = heldEver(others(term));
        for (int row = firstRow; row < rows; row++) {
            if (trace.has(row, compares.channel().index())
                    && (!othersHeld || holds(row, others(term)))
                    && distance(row, compares) < least) {
                least = distance(row, compares);
                best = row;
            }
        }
        if (best < 0 || !compares.channel().valueNames().isEmpty()) {
            return never;
        }
        return never + "; closest was " + compares.channel().show(reading(best, compares)) + " at "
                + Words.at(trace.micros(best)) + " from arming";
    }

    private List<Term> others(Term term) {
        return condition.terms().stream().filter(other -> other != term).toList();
    }

    private boolean heldEver(List<Term> terms) {
        Signal signal = terms.isEmpty() ? null : new Signal(course.timeline(), new Condition(condition.place(), terms));
        if (signal == null) {
            return false;
        }
        for (int tick = trace.tick(firstRow); tick <= trace.tick(rows - 1); tick++) {
            if (signal.at(tick) == Truth.TRUE) {
                return true;
            }
        }
        return false;
    }

    private boolean holds(int row, List<Term> terms) {
        return new Signal(course.timeline(), new Condition(condition.place(), terms)).at(trace.tick(row)) == Truth.TRUE;
    }

    private long distance(int row, Compares compares) {
        return Math.abs((long) reading(row, compares) - compares.raw());
    }

    /** The reading of the row's period that lies nearest to the limit. */
    private int reading(int row, Compares compares) {
        Relation relation = compares.relation();
        if (relation == Relation.AT_LEAST || relation == Relation.ABOVE) {
            return Signal.greatest(trace, row, compares);
        }
        if (relation == Relation.AT_MOST || relation == Relation.BELOW) {
            return Signal.least(trace, row, compares);
        }
        return Signal.point(trace, row, compares);
    }
}
