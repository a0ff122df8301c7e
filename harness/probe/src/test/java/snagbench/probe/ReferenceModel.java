package snagbench.probe;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import snagbench.wire.ChannelKind;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryEnd;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Point;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/**
 * What a program does, slowly and by the book: the whole past is kept, time does not wrap, numbers have no size, and
 * every question is answered by looking through the past anew. Ticks are counted from arming.
 */
final class ReferenceModel {
    private final List<Entry> entries;
    private final Map<Integer, Timing> timings = new HashMap<>();
    private final List<Term> terms;
    private final List<Point> points;
    private final int seed;
    private final List<Channel> channels;

    private final List<Long> micros = new ArrayList<>();
    private final List<int[]> reals = new ArrayList<>();
    private final List<int[]> tolds = new ArrayList<>();
    private final List<Set<Integer>> answers = new ArrayList<>();

    /** For each entry the ticks at whose end it struck. */
    private final List<List<Integer>> strikes = new ArrayList<>();

    /** For each entry its spells of activity: first tick, first tick after, reason. */
    private final List<List<Spell>> spells = new ArrayList<>();

    /** For each entry the tick in which its delay began; null while none runs. */
    private final List<@Nullable Integer> delays = new ArrayList<>();

    private final Map<Integer, Integer> doneTicks = new HashMap<>();
    private int endedTick = Integer.MAX_VALUE;

    /** As "tick:kind:a:b", in order. */
    final List<String> events = new ArrayList<>();

    ReferenceModel(RandomProgram program, int seed, List<Channel> channels) {
        this.entries = program.entries;
        this.terms = program.terms;
        this.points = program.points;
        this.seed = seed;
        this.channels = channels;
        for (Timing timing : program.timings) {
            this.timings.put(timing.entry, timing);
        }
        for (int i = 0; i < entries.size(); i++) {
            strikes.add(new ArrayList<>());
            spells.add(new ArrayList<>());
            delays.add(null);
        }
    }

    private static final class Spell {
        final int from;
        int to = Integer.MAX_VALUE;

        Spell(int from) {
            this.from = from;
        }
    }

    private int now() {
        return micros.size() - 1;
    }

    private Timing timing(int entry) {
        return timings.getOrDefault(entry, new Timing(entry, 0, 0, 0, 0, 1, 1));
    }

    private void event(EventKind kind, int a, int b) {
        events.add(now() + ":" + kind + ":" + a + ":" + b);
    }

    /** Begins the next tick. */
    void begin(long clock) {
        micros.add(clock);
        int tick = now();
        for (int i = 0; i < entries.size(); i++) {
            Spell spell = lastSpell(i);
            if (spell != null && isActive(i, tick - 1)) {
                EntryEnd end = endAtStartOf(tick, i, spell);
                if (end != null) {
                    spell.to = tick;
                    event(EventKind.ENTRY_OFF, i, end.code());
                }
            }
            if (strikes.get(i).contains(tick - 1)) {
                spells.get(i).add(new Spell(tick));
                event(EventKind.ENTRY_ON, i, spells.get(i).size());
            }
        }
    }

    private @Nullable Spell lastSpell(int entry) {
        List<Spell> all = spells.get(entry);
        return all.isEmpty() ? null : all.get(all.size() - 1);
    }

    boolean isActive(int entry, int tick) {
        for (Spell spell : spells.get(entry)) {
            if (spell.from <= tick && tick < spell.to) {
                return true;
            }
        }
        return false;
    }

    int activeMask() {
        int mask = 0;
        for (int i = 0; i < entries.size(); i++) {
            mask |= isActive(i, now()) ? 1 << i : 0;
        }
        return mask;
    }

    /** Conditions of the tick before beat the entry's own time; a follower's conditions are its leader's. */
    private @Nullable EntryEnd endAtStartOf(int tick, int i, Spell spell) {
        Entry entry = entries.get(i);
        int conditions = entry.leader >= 0 ? entry.leader : i;
        if (isActive(conditions, tick - 1)) {
            if (has(conditions, TermRole.UNTIL) && all(conditions, TermRole.UNTIL, tick - 1)) {
                return EntryEnd.UNTIL;
            }
            if (has(conditions, TermRole.WHILE) && !all(conditions, TermRole.WHILE, tick - 1)) {
                return EntryEnd.WHILE;
            }
        }
        boolean lasted = entry.lastsMicros != 0 && micros.get(tick) - micros.get(spell.from) >= entry.lastsMicros;
        if (lasted || (entry.flags & Entry.ONE_TICK) != 0) {
            return EntryEnd.LASTED;
        }
        // Only its own time can have ended the leader by now.
        return entry.leader >= 0 && !isActive(entry.leader, tick) ? EntryEnd.LASTED : null;
    }

    /** What the control code is told; the first read in a tick. */
    int told(int channel, int real) {
        BigInteger value = BigInteger.valueOf(real);
        boolean forced = false;
        for (int i = 0; i < entries.size(); i++) {
            if (forces(i, channel)) {
                value = forced(i, value);
                forced = true;
            }
        }
        if (!forced) {
            return real;
        }
        Channel bounds = channels.get(channel);
        int told = value.max(BigInteger.valueOf(bounds.lowest()))
                .min(BigInteger.valueOf(bounds.highest()))
                .intValueExact();
        if (bounds.kind() == ChannelKind.ACTUATOR) {
            return real >= 0 ? Math.max(0, Math.min(real, told)) : Math.min(0, Math.max(real, told));
        }
        return told;
    }

    private boolean forces(int i, int channel) {
        return entries.get(i).channel == channel && isActive(i, now()) && gateIsOpen(i);
    }

    private boolean gateIsOpen(int i) {
        int from = Objects.requireNonNull(lastSpell(i)).from;
        Timing timing = timing(i);
        boolean open = true;
        long edge = micros.get(from) + timing.onMicros;
        for (int k = from + 1; k <= now() && timing.onMicros != 0; k++) {
            if (micros.get(k) >= edge) {
                open = !open;
                edge += open ? timing.onMicros : timing.offMicros;
            }
        }
        return open;
    }

    /** The sum of the bytes of this tick's draw, less its middle: a draw for each tick in which the entry was active. */
    private long grey(int i) {
        long x = (seed + i * 0x9E3779B9L) & 0xFFFFFFFFL;
        x = x == 0 ? 1 : x;
        for (int k = 0; k <= now(); k++) {
            if (isActive(i, k)) {
                x = (x ^ x << 13) & 0xFFFFFFFFL;
                x = x ^ x >> 17;
                x = (x ^ x << 5) & 0xFFFFFFFFL;
            }
        }
        return x % 256 + x / 256 % 256 + x / 65536 % 256 + x / 16777216 - 510;
    }

    private BigInteger replayed(int i, int ticks, BigInteger value) {
        BigInteger replayed = value;
        for (Point point : points) {
            if (point.entry == i && point.ticks <= ticks) {
                replayed = BigInteger.valueOf(point.value);
            }
        }
        return replayed;
    }

    /** Kinds of the entries that force something in this tick. */
    Set<EntryKind> forcing() {
        Set<EntryKind> kinds = EnumSet.noneOf(EntryKind.class);
        for (int i = 0; i < entries.size(); i++) {
            if (forces(i, entries.get(i).channel)) {
                kinds.add(Objects.requireNonNull(EntryKind.of(entries.get(i).kind)));
            }
        }
        return kinds;
    }

    /** Entries that are active and held back by their gate in this tick. */
    int heldBack() {
        int count = 0;
        for (int i = 0; i < entries.size(); i++) {
            count += isActive(i, now()) && !gateIsOpen(i) ? 1 : 0;
        }
        return count;
    }

    /** Comparisons that hold at the end of the last tick, on a channel that is forced in it or on any. */
    Set<Comparison> holding() {
        Set<Comparison> holding = EnumSet.noneOf(Comparison.class);
        for (Term term : terms) {
            Comparison comparison = Objects.requireNonNull(Comparison.of(term.comparison));
            boolean plain = comparison == Comparison.AGREES && !isForced(term.channel);
            if (!plain && holds(term, now())) {
                holding.add(comparison);
            }
        }
        return holding;
    }

    boolean isForced(int channel) {
        for (int i = 0; i < entries.size(); i++) {
            if (forces(i, channel)) {
                return true;
            }
        }
        return false;
    }

    private BigInteger forced(int i, BigInteger value) {
        Entry entry = entries.get(i);
        int from = Objects.requireNonNull(lastSpell(i)).from;
        BigInteger elapsed = BigInteger.valueOf(micros.get(now()) - micros.get(from));
        BigInteger a = BigInteger.valueOf(entry.a);
        return switch (Objects.requireNonNull(EntryKind.of(entry.kind))) {
            case STUCK_AT -> a;
            case FREEZE -> BigInteger.valueOf(reals.get(from - 1)[entry.channel]);
            case OFFSET -> value.add(offset(entry, elapsed));
            case SCALE ->
                floorDivide(
                        value.max(BigInteger.valueOf(Integer.MIN_VALUE))
                                .min(BigInteger.valueOf(Integer.MAX_VALUE))
                                .multiply(a)
                                .add(BigInteger.valueOf(1 << 15)),
                        16);
            case DRIFT -> value.add(floorDivide(a.multiply(elapsed), 32));
            case SPIKE -> value.add(a);
            case NOISE ->
                value.add(floorDivide(a.multiply(BigInteger.valueOf(grey(i))).add(BigInteger.valueOf(1 << 13)), 14));
            case DROPOUT -> BigInteger.valueOf(channels.get(entry.channel).absent());
            case DELAY -> BigInteger.valueOf(reals.get(Math.max(0, now() - entry.a))[entry.channel]);
            case REPLAY -> replayed(i, now() - from, value);
            case WAIT -> throw new AssertionError("forces nothing");
        };
    }

    private static BigInteger offset(Entry entry, BigInteger elapsed) {
        BigInteger whole = BigInteger.valueOf(entry.a);
        if (entry.b == 0) {
            return whole;
        }
        BigInteger ramp = floorDivide(BigInteger.valueOf(entry.b).multiply(elapsed), 32);
        return entry.a < 0 ? ramp.max(whole) : ramp.min(whole);
    }

    private static BigInteger floorDivide(BigInteger value, int bits) {
        BigInteger[] parts = value.divideAndRemainder(BigInteger.ONE.shiftLeft(bits));
        return parts[1].signum() < 0 ? parts[0].subtract(BigInteger.ONE) : parts[0];
    }

    /** Ends the tick: what every channel read and was told in it, or keeps from before, and who answered. */
    void end(int[] real, int[] told, Set<Integer> answered) {
        reals.add(real.clone());
        tolds.add(told.clone());
        answers.add(new HashSet<>(answered));
        int tick = now();
        for (int i = 0; i < entries.size() && endedTick > tick; i++) {
            decide(i, tick);
        }
    }

    private void decide(int i, int tick) {
        Entry entry = entries.get(i);
        if (entry.leader >= 0) {
            if (strikes.get(entry.leader).contains(tick)) {
                strikes.get(i).add(tick);
            }
            return;
        }
        boolean waits = entry.kind == EntryKind.WAIT.code();
        boolean stage = (entry.flags & Entry.STAGE) != 0;
        if (stage && isActive(i, tick) && !doneTicks.containsKey(i)) {
            doneTicks.put(i, tick);
            event(EventKind.STAGE_DONE, i, 0);
        }
        int enabled = enabledTick(i);
        if (tick < enabled || (waits && doneTicks.containsKey(i))) {
            return;
        }
        int enabling = entry.after >= 0 ? doneTicks.get(entry.after) : 0;
        if (waits && entry.lastsMicros != 0 && micros.get(tick) - micros.get(enabling) > entry.lastsMicros) {
            endedTick = tick;
            strikes.forEach(each -> each.remove((Integer) tick));
            event(EventKind.STAGE_TIMED_OUT, i, 0);
        } else if (strikesNow(i, tick)) {
            if (waits) {
                doneTicks.put(i, tick);
                event(EventKind.STAGE_DONE, i, 0);
            } else {
                strikes.get(i).add(tick);
            }
        }
    }

    private int enabledTick(int i) {
        int after = entries.get(i).after;
        int later = (entries.get(i).flags & Entry.SAME_TICK) != 0 ? 0 : 1;
        return after < 0 ? 0 : doneTicks.getOrDefault(after, Integer.MAX_VALUE - 1) + later;
    }

    private boolean isAnew(int i) {
        return (entries.get(i).flags & Entry.ANEW) != 0;
    }

    /** The first tick in which the condition is looked at. */
    private int firstLook(int i) {
        return isAnew(i) ? 0 : enabledTick(i);
    }

    private boolean strikesNow(int i, int tick) {
        Timing timing = timing(i);
        Integer delay = delays.get(i);
        if (delay == null && isOccasion(i, tick) && !isActive(i, tick)) {
            int nth = 0;
            for (int k = enabledTick(i); k <= tick; k++) {
                nth += isOccasion(i, k) ? 1 : 0;
            }
            boolean mayStrike = timing.times == 0 || spells.get(i).size() < timing.times;
            if (nth >= timing.occasion && mayStrike) {
                delay = tick;
            }
        }
        if (delay != null && micros.get(tick) - micros.get(delay) >= timing.delayMicros) {
            delays.set(i, null);
            return true;
        }
        delays.set(i, delay);
        return false;
    }

    /** The rising edge of "the whole condition has held for its time", looked at from the enabling tick on. */
    private boolean isOccasion(int i, int tick) {
        boolean began = !(tick > firstLook(i) && hasHeldFor(i, tick - 1));
        return hasHeldFor(i, tick) && began && !(isAnew(i) && holdsSinceTheStart(i, tick));
    }

    /** Holds in all ticks of the program so far: so it did not come about in any of them. */
    private boolean holdsSinceTheStart(int i, int tick) {
        for (int k = 0; k <= tick; k++) {
            if (!all(i, TermRole.WHEN, k)) {
                return false;
            }
        }
        return true;
    }

    private boolean hasHeldFor(int i, int tick) {
        for (int since = tick; since >= firstLook(i) && all(i, TermRole.WHEN, since); since--) {
            if (micros.get(tick) - micros.get(since) >= timing(i).forMicros) {
                return true;
            }
        }
        return false;
    }

    private boolean has(int entry, TermRole role) {
        for (Term term : terms) {
            if (term.entry == entry && term.role == role.code()) {
                return true;
            }
        }
        return false;
    }

    private boolean all(int entry, TermRole role, int tick) {
        for (Term term : terms) {
            if (term.entry == entry && term.role == role.code() && !holds(term, tick)) {
                return false;
            }
        }
        return true;
    }

    private boolean holds(Term term, int tick) {
        Comparison comparison = Objects.requireNonNull(Comparison.of(term.comparison));
        if (comparison == Comparison.ANSWERED) {
            return answers.get(tick).contains(term.value);
        }
        List<int[]> values = term.source == 0 ? reals : tolds;
        int value = values.get(tick)[term.channel];
        return switch (comparison) {
            case AT_LEAST -> value >= term.value;
            case ABOVE -> value > term.value;
            case AT_MOST -> value <= term.value;
            case BELOW -> value < term.value;
            case IS -> value == term.value;
            case IS_NOT -> value != term.value;
            case RISES_TO -> tick > 0 && value >= term.value && values.get(tick - 1)[term.channel] < term.value;
            case FALLS_TO -> tick > 0 && value <= term.value && values.get(tick - 1)[term.channel] > term.value;
            case FASTER_THAN -> tick >= term.windowTicks && change(term, values, tick) > term.value;
            case SLOWER_THAN -> tick >= term.windowTicks && change(term, values, tick) < term.value;
            case AGREES -> Math.abs((long) tolds.get(tick)[term.channel] - reals.get(tick)[term.channel]) <= term.value;
            case ANSWERED -> throw new AssertionError("has no values");
        };
    }

    private static long change(Term term, List<int[]> values, int tick) {
        return Math.abs((long) values.get(tick)[term.channel] - values.get(tick - term.windowTicks)[term.channel]);
    }
}
