package snagbench.bench.judge;

import snagbench.bench.script.Condition;
import snagbench.bench.trace.Trace;

/** What must hold, or must not hold, in every tick of a stretch: G of the condition, or of its opposite. */
final class EveryTick implements OverStretch.Judged {
    private final Timeline timeline;
    private final Trace trace;
    private final Condition condition;
    private final Kind kind;
    private final Signal signal;
    private final RowCursor rows;

    /** How it is put. */
    enum Kind {
        /** It must hold. */
        ALWAYS,
        /** It must not hold. */
        NEVER,
        /** It must hold, and the reading that comes nearest to breaking it is what matters. */
        PEAK
    }

    EveryTick(Course course, Condition condition, Kind kind) {
        this.timeline = course.timeline();
        this.trace = course.trace();
        this.condition = condition;
        this.kind = kind;
        this.signal = course.signals().of(condition);
        this.rows = new RowCursor(trace);
    }

    @Override
    public String what() {
        return switch (kind) {
            case ALWAYS -> "always " + condition.show();
            case NEVER -> "never " + condition.show();
            case PEAK -> "peak of " + condition.show();
        };
    }

    @Override
    public Finding over(Extent extent, Findings to) {
        int wrong = kind == Kind.NEVER ? Truth.TRUE : Truth.FALSE;
        WorstReading worst = new WorstReading(timeline, extent, signal.slack(), kind == Kind.NEVER);
        Edges edges = new Edges(timeline, extent);
        int violated = -1;
        int unknown = -1;
        int lastUnknown = -1;
        int judged = 0;
        int first = Math.max(extent.firstTick(), signal.firstTick());
        for (int tick = first; tick <= extent.lastTick() && !extent.isBehind(tick); tick++) {
            if (!extent.mayHave(tick)) {
                continue;
            }
            int truth = signal.at(tick);
            boolean has = extent.has(tick);
            worst.look(tick);
            if (has && truth == wrong) {
                edges.brokenAt(tick);
            }
            if (violated < 0 && ((has && truth == wrong) || isWrongSomewhere(extent, first, tick, wrong))) {
                violated = tick;
            }
            if ((truth & wrong) != 0) {
                unknown = unknown < 0 ? tick : unknown;
                lastUnknown = tick;
            }
            judged += has ? 1 : 0;
        }
        if (violated >= 0) {
            edges.tellBroken(to);
            return violated(extent, to, violated, worst, edges);
        }
        if (unknown >= 0) {
            return to.butWas("not known: " + Holes.between(timeline, unknown, lastUnknown))
                    .where(unknown)
                    .of(Verdict.INCONCLUSIVE);
        }
        if (!extent.isSeen()) {
            return OverStretch.notSeen(timeline, extent, to);
        }
        if (judged == 0) {
            return to.butWas("not judged: no tick is known to lie in it")
                    .where(-1)
                    .of(Verdict.INCONCLUSIVE);
        }
        if (first > extent.firstTick()) {
            to.fact(
                    "note",
                    "judged from tick " + first + " on: before it there is nothing to work the reading out from");
        }
        edges.tellHeld(to, tick -> tick >= signal.firstTick() && (signal.at(tick) & wrong) != 0);
        worst.tellClosest(to, kind == Kind.PEAK ? "peak" : "closest");
        return to.of(Verdict.PASS);
    }

    private boolean isWrongSomewhere(Extent extent, int first, int tick, int wrong) {
        if (trace.periodTicks() == 1) {
            return false;
        }
        int row = rows.rowAtOrAfter(tick);
        int begins = tick - trace.periodTicks() + 1;
        return row < trace.rows()
                && trace.tick(row) == tick
                && begins >= first
                && extent.has(begins)
                && extent.has(tick)
                && (signal.somewhere(row) & wrong) != 0;
    }

    private Finding violated(Extent extent, Findings to, int tick, WorstReading worst, Edges edges) {
        worst.tellBroken(to);
        if (kind == Kind.PEAK && worst.isBroken()) {
            return edges.tellLength(to.butWas(worst.broken()))
                    .where(worst.tick())
                    .of(Verdict.FAIL);
        }
        String at = Words.at(timeline.latest(tick) - extent.from().micros());
        return edges.tellLength(to.butWas(signal.reading(tick) + " at " + at + worst.beyondAt(tick)))
                .where(tick)
                .of(Verdict.FAIL);
    }
}
