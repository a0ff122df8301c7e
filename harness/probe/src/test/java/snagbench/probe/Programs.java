package snagbench.probe;

import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** Short ways to write programs in tests. */
final class Programs {
    static final int FOREVER = 0;

    private Programs() {}

    static Entry entry(int index, EntryKind kind, Channel channel, int a) {
        return entry(index, kind, channel, a, FOREVER, 0);
    }

    static Entry entry(int index, EntryKind kind, Channel channel, int a, int lastsMicros, int flags) {
        return new Entry(index, kind.code(), channel.index(), a, 0, -1, -1, lastsMicros, flags);
    }

    static Entry follower(int index, int leader, EntryKind kind, Channel channel, int a, int lastsMicros, int flags) {
        return new Entry(index, kind.code(), channel.index(), a, 0, leader, -1, lastsMicros, flags);
    }

    static Entry after(int stage, Entry entry) {
        return new Entry(
                entry.index,
                entry.kind,
                entry.channel,
                entry.a,
                entry.b,
                entry.leader,
                stage,
                entry.lastsMicros,
                entry.flags);
    }

    static Entry flagged(int flags, Entry entry) {
        return new Entry(
                entry.index,
                entry.kind,
                entry.channel,
                entry.a,
                entry.b,
                entry.leader,
                entry.after,
                entry.lastsMicros,
                entry.flags | flags);
    }

    static Entry send(int index, int after, Channel command, int value) {
        int flags = Entry.ONE_TICK | Entry.STAGE;
        return after(after, entry(index, EntryKind.STUCK_AT, command, value, FOREVER, flags));
    }

    static Entry waitFor(int index, int after, int limitMicros) {
        return new Entry(index, EntryKind.WAIT.code(), -1, 0, 0, -1, after, limitMicros, Entry.STAGE);
    }

    static Term when(int entry, Channel channel, Comparison comparison, int value) {
        return term(entry, TermRole.WHEN, channel, comparison, value);
    }

    static Term term(int entry, TermRole role, Channel channel, Comparison comparison, int value) {
        return new Term(entry, role.code(), channel.index(), 0, comparison.code(), value, 0);
    }

    static Term ofTold(Term term) {
        return new Term(term.entry, term.role, term.channel, 1, term.comparison, term.value, term.windowTicks);
    }

    static Term answered(int entry, TermRole role, int failSafe) {
        return new Term(entry, role.code(), -1, 0, Comparison.ANSWERED.code(), failSafe, 0);
    }

    static Timing timing(int entry, int forMicros, int delayMicros, int occasion, int times) {
        return new Timing(entry, forMicros, delayMicros, 0, 0, occasion, times);
    }
}
