package snagbench.probe;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.RequestBody;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** Any program that a probe takes, made of small figures so that conditions meet. */
final class RandomProgram {
    private static final EntryKind[] KINDS = {
        EntryKind.STUCK_AT,
        EntryKind.FREEZE,
        EntryKind.OFFSET,
        EntryKind.SCALE,
        EntryKind.DRIFT,
        EntryKind.SPIKE,
        EntryKind.DROPOUT
    };

    final List<Entry> entries = new ArrayList<>();
    final List<Timing> timings = new ArrayList<>();
    final List<Term> terms = new ArrayList<>();

    /** In the order in which they are loaded. */
    final List<RequestBody> messages = new ArrayList<>();

    private final Random random;
    private final Channel[] forced;
    private final Channel[] compared;
    private final Channel command;

    RandomProgram(Random random, TestRig rig) {
        this.random = random;
        forced = new Channel[] {rig.position, rig.current, rig.trigger};
        compared =
                new Channel[] {rig.position, rig.current, rig.trigger, rig.step, rig.start, rig.description.lastAnswer()
                };
        command = rig.start;
        int stages = random.nextInt(4);
        for (int i = 0; i < stages; i++) {
            stage(i);
        }
        int injections = 1 + random.nextInt(4);
        for (int i = 0; i < injections; i++) {
            injection(stages - 1);
        }
    }

    private void stage(int index) {
        int after = index - 1;
        if (random.nextInt(3) == 0) {
            add(Programs.send(index, after, command, 1 + random.nextInt(3)));
        } else {
            add(Programs.waitFor(index, after, random.nextInt(3) == 0 ? micros(12) : 0));
            conditions(index, TermRole.WHEN, 1);
        }
        timing(index);
    }

    private void injection(int lastStage) {
        int leader = entries.size();
        int after = random.nextInt(5) == 0 ? -1 : lastStage;
        add(Programs.after(after, entry(leader, -1)));
        conditions(leader, TermRole.WHEN, 2);
        timing(leader);
        if (random.nextInt(3) == 0) {
            conditions(leader, TermRole.UNTIL, 2);
        }
        if (random.nextInt(3) == 0) {
            conditions(leader, TermRole.WHILE, 2);
        }
        for (int followers = random.nextInt(3); followers > 0; followers--) {
            add(entry(entries.size(), leader));
        }
    }

    private Entry entry(int index, int leader) {
        EntryKind kind = KINDS[random.nextInt(KINDS.length)];
        int a = random.nextInt(61) - 30;
        int b = 0;
        if (kind == EntryKind.SCALE) {
            a = random.nextInt(4 << 16) - (2 << 16);
        } else if (kind == EntryKind.DRIFT) {
            a = random.nextInt(1 << 25) - (1 << 24);
        } else if (kind == EntryKind.OFFSET && random.nextBoolean()) {
            b = (1 + random.nextInt(1 << 23)) * (a < 0 ? -1 : 1);
        }
        if (random.nextInt(20) == 0) {
            a = random.nextInt();
            b = 0;
        }
        int flags = random.nextInt(4) == 0 ? Entry.ONE_TICK : 0;
        int lasts = random.nextBoolean() ? micros(6) : 0;
        int channel = forced[random.nextInt(forced.length)].index();
        return new Entry(index, kind.code(), channel, a, b, leader, -1, lasts, flags);
    }

    private void conditions(int entry, TermRole role, int most) {
        for (int count = random.nextInt(most + 1) + (role == TermRole.WHEN ? 0 : 1); count > 0; count--) {
            Term term = term(entry, role);
            terms.add(term);
            messages.add(term);
        }
    }

    private Term term(int entry, TermRole role) {
        Comparison comparison = Arrays.asList(Comparison.values()).get(random.nextInt(Comparison.values().length));
        if (comparison == Comparison.ANSWERED) {
            return Programs.answered(entry, role, 1 + random.nextInt(2));
        }
        boolean windowed = comparison == Comparison.FASTER_THAN || comparison == Comparison.SLOWER_THAN;
        int value = windowed ? random.nextInt(6) : random.nextInt(7) - 3;
        int channel = compared[random.nextInt(compared.length)].index();
        int window = windowed ? 1 + random.nextInt(random.nextInt(8) == 0 ? Readings.LONGEST_WINDOW : 5) : 0;
        return new Term(entry, role.code(), channel, random.nextInt(2), comparison.code(), value, window);
    }

    private void timing(int entry) {
        if (random.nextBoolean()) {
            int forMicros = random.nextBoolean() ? 0 : micros(4);
            int delay = random.nextBoolean() ? 0 : micros(4);
            Timing timing = Programs.timing(entry, forMicros, delay, 1 + random.nextInt(3), random.nextInt(4));
            timings.add(timing);
            messages.add(timing);
        }
    }

    /** Often a whole number of usual ticks, so that limits are met exactly. */
    private int micros(int ticks) {
        return random.nextBoolean()
                ? (1 + random.nextInt(ticks)) * TestRig.TICK
                : 1 + random.nextInt(ticks * TestRig.TICK);
    }

    private void add(Entry entry) {
        entries.add(entry);
        messages.add(entry);
    }
}
