package snagbench.probe;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Point;
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
        EntryKind.NOISE,
        EntryKind.DROPOUT,
        EntryKind.DELAY,
        EntryKind.REPLAY
    };

    final List<Entry> entries = new ArrayList<>();
    final List<Timing> timings = new ArrayList<>();
    final List<Term> terms = new ArrayList<>();
    final List<Point> points = new ArrayList<>();

    /** In the order in which they are loaded. */
    final List<RequestBody> messages = new ArrayList<>();

    private final Random random;
    private final Channel[] forced;
    private final Channel[] compared;
    private final Channel command;
    private final Channel[] actuators;

    RandomProgram(Random random, TestRig rig) {
        this.random = random;
        forced = new Channel[] {
            rig.position, rig.current, rig.trigger, rig.wide, rig.start, rig.gain, rig.jam, rig.fs1.inhibition()
        };
        compared = new Channel[] {
            rig.position,
            rig.current,
            rig.trigger,
            rig.step,
            rig.start,
            rig.description.lastAnswer(),
            rig.motor,
            rig.wide
        };
        command = rig.start;
        actuators = new Channel[] {rig.motor, rig.pump};
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
            add(watching(after, Programs.send(index, after, command, 1 + random.nextInt(3))));
        } else {
            add(watching(after, Programs.waitFor(index, after, random.nextInt(3) == 0 ? micros(12) : 0)));
            conditions(index, TermRole.WHEN, 1);
        }
        timing(index);
    }

    /** Now and then what must come about anew, or is looked at in its stage's own tick. */
    private Entry watching(int after, Entry entry) {
        int anew = random.nextInt(6) == 0 ? Entry.ANEW : 0;
        int sameTick = after >= 0 && random.nextInt(3) == 0 ? Entry.SAME_TICK : 0;
        return Programs.flagged(anew | sameTick, entry);
    }

    private int anyStage() {
        int from = random.nextInt(entries.size());
        for (int i = from; i >= 0; i--) {
            if ((entries.get(i).flags & Entry.STAGE) != 0) {
                return i;
            }
        }
        return -1;
    }

    private void injection(int lastStage) {
        if (!entries.isEmpty() && random.nextInt(6) == 0) {
            int index = entries.size();
            int stage = anyStage();
            add(watching(stage, Programs.waitFor(index, stage, 0)));
            conditions(index, TermRole.WHEN, 1);
            timing(index);
        }
        int leader = entries.size();
        int after = random.nextInt(5) == 0 ? -1 : lastStage;
        if (!entries.isEmpty() && random.nextInt(6) == 0) {
            after = anyStage();
        }
        Entry leading = Programs.after(after, entry(leader, -1));
        force(watching(after, random.nextInt(3) == 0 ? Programs.flagged(Entry.STAGE, leading) : leading));
        conditions(leader, TermRole.WHEN, 1 + random.nextInt(2));
        timing(leader);
        if (random.nextInt(3) == 0) {
            conditions(leader, TermRole.UNTIL, 2);
        }
        if (random.nextInt(4) == 0) {
            conditions(leader, TermRole.WHILE, 1);
        }
        for (int followers = random.nextInt(3); followers > 0; followers--) {
            int follower = entries.size();
            force(entry(follower, leader));
            if (random.nextInt(3) == 0) {
                add(new Timing(follower, 0, 0, micros(4), micros(4), 1, 1));
            }
        }
    }

    private void force(Entry entry) {
        add(entry);
        if (entry.kind == EntryKind.REPLAY.code()) {
            int ticks = random.nextInt(3);
            for (int left = random.nextInt(6); left > 0; left--) {
                Point point = new Point(entry.index, ticks, random.nextInt(200) - 100);
                points.add(point);
                messages.add(point);
                ticks += 1 + random.nextInt(4);
            }
        }
    }

    private Entry entry(int index, int leader) {
        int flags = random.nextInt(4) == 0 ? Entry.ONE_TICK : 0;
        int lasts = random.nextBoolean() ? micros(6) : 0;
        if (random.nextInt(8) == 0) {
            boolean dead = random.nextBoolean();
            EntryKind weakening = dead ? EntryKind.STUCK_AT : EntryKind.SCALE;
            int share = dead ? 0 : random.nextInt((1 << 16) + 1);
            int channel = actuators[random.nextInt(actuators.length)].index();
            return new Entry(index, weakening.code(), channel, share, 0, leader, -1, lasts, flags);
        }
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
        if (kind == EntryKind.NOISE) {
            a = random.nextInt(1 << 13);
        } else if (kind == EntryKind.DELAY) {
            a = 1 + random.nextInt(12);
        } else if (random.nextInt(20) == 0) {
            a = random.nextInt();
            b = 0;
        }
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
        if (comparison == Comparison.AGREES) {
            int channel = compared[random.nextInt(compared.length)].index();
            return new Term(entry, role.code(), channel, 0, comparison.code(), random.nextInt(12), 0);
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
            boolean intermittent = entries.get(entry).kind != EntryKind.WAIT.code() && random.nextInt(3) == 0;
            int on = intermittent ? micros(4) : 0;
            int off = intermittent && random.nextInt(8) != 0 ? micros(4) : 0;
            int occasion = random.nextBoolean() ? 1 : 1 + random.nextInt(3);
            add(new Timing(entry, forMicros, delay, on, off, occasion, random.nextInt(4)));
        }
    }

    private void add(Timing timing) {
        timings.add(timing);
        messages.add(timing);
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
