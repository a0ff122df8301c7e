package snagbench.virtualrig.shuttle;

import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.RequestBody;
import snagbench.wire.Term;
import snagbench.wire.TermRole;

/** Parts of programs for the shuttle. */
final class Programs {
    static final Guard[] NO_GUARDS = {};

    private Programs() {}

    /** Entry 0: begins the run. */
    static RequestBody startRun() {
        return new Entry(
                0, EntryKind.STUCK_AT.code(), TestBench.START_RUN, 1, 0, -1, -1, 0, Entry.ONE_TICK | Entry.STAGE);
    }

    /** An entry after the start. */
    static RequestBody force(int index, EntryKind kind, int channel, int value) {
        return new Entry(index, kind.code(), channel, value, 0, -1, 0, 0, 0);
    }

    /** An entry after the start, with its own time. */
    static RequestBody forceFor(int index, int channel, int value, int micros) {
        return new Entry(index, EntryKind.STUCK_AT.code(), channel, value, 0, -1, 0, micros, 0);
    }

    /** Strikes when the real reading compares so. */
    static RequestBody when(int entry, int channel, Comparison comparison, int value) {
        return new Term(entry, TermRole.WHEN.code(), channel, 0, comparison.code(), value, 0);
    }

    /** Ends when the real reading compares so. */
    static RequestBody until(int entry, int channel, Comparison comparison, int value) {
        return new Term(entry, TermRole.UNTIL.code(), channel, 0, comparison.code(), value, 0);
    }

    /** Strikes when the real position comes to at least this. */
    static RequestBody fromPosition(int entry, int position) {
        return new Term(entry, TermRole.WHEN.code(), TestBench.POSITION, 0, Comparison.AT_LEAST.code(), position, 0);
    }

    /** Strikes when the step is this. */
    static RequestBody inStep(int entry, int step) {
        return new Term(entry, TermRole.WHEN.code(), TestBench.STEP, 0, Comparison.IS.code(), step, 0);
    }

    /** Ends when a fail-safe answers. */
    static RequestBody untilAnswered(int entry, int failSafe) {
        return new Term(entry, TermRole.UNTIL.code(), -1, 0, Comparison.ANSWERED.code(), failSafe, 0);
    }

    static Guard travel(int least, int most) {
        return new Guard(0, GuardKind.TRAVEL.code(), TestBench.POSITION, least, most, 0, 0, -1);
    }
}
