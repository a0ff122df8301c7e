package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/**
 * All traces of a small world, judged whole and again with something missing. Whatever looks the same with the missing part
 * gone is a completion of the other.
 */
final class Completions {
    private final String what;
    private final FaultScript script;
    /** Only every so manieth way of losing something: where the judge is changed in thousands of ways, to find who notices. */
    private static final int EVERY = Integer.getInteger("snagbench.completions.every", 1);

    private static final int FEW = 20;

    private final List<Supplier<SyntheticTrace>> world;
    private final List<Verdict> whole;

    /**
     * Judges the whole ones.
     *
     * @param what for the message of a failing test
     * @param world each makes the same trace anew
     * @param script by which they are judged
     */
    Completions(String what, List<Supplier<SyntheticTrace>> world, FaultScript script) {
        this.what = what;
        this.script = script;
        this.world = world;
        this.whole =
                world.stream().map(one -> verdict(script, one.get().trace())).toList();
    }

    /** What the whole ones come to, in the world's order. */
    List<Verdict> whole() {
        return whole;
    }

    /**
     * A pass must be a pass in all completions, and a fail a fail in all of them.
     *
     * @param losses the ways of losing something, of which the world goes through each
     * @return how many verdicts were settled though something was lost; about as many, where only every so manieth way is tried
     */
    int settledUnder(List<Consumer<SyntheticTrace>> losses) {
        int settled = 0;
        int every = losses.size() > FEW ? EVERY : 1;
        for (int nth = 0; nth < losses.size(); nth += every) {
            Consumer<SyntheticTrace> loss = losses.get(nth);
            Map<String, Verdict> judged = new HashMap<>();
            Map<String, Set<Verdict>> completions = new HashMap<>();
            for (int i = 0; i < world.size(); i++) {
                SyntheticTrace lossy = world.get(i).get();
                loss.accept(lossy);
                Trace trace = lossy.trace();
                String seen = SyntheticTrace.seen(trace);
                judged.computeIfAbsent(seen, key -> verdict(script, trace));
                completions
                        .computeIfAbsent(seen, key -> EnumSet.noneOf(Verdict.class))
                        .add(whole.get(i));
            }
            for (Map.Entry<String, Verdict> one : judged.entrySet()) {
                if (one.getValue() == Verdict.PASS || one.getValue() == Verdict.FAIL) {
                    settled++;
                    assertEquals(EnumSet.of(one.getValue()), completions.get(one.getKey()), what + ": " + one.getKey());
                }
            }
        }
        return settled * every;
    }

    private static Verdict verdict(FaultScript script, Trace trace) {
        return Judge.judge(script, trace, Scripts.rig(10)).verdict();
    }

    /** Each way of losing records in one stretch and events in one stretch. */
    static List<Consumer<SyntheticTrace>> losses(int ticks) {
        List<Consumer<SyntheticTrace>> losses = new ArrayList<>();
        losses.add(whole -> {});
        for (int first = 0; first < ticks; first++) {
            for (int last = first; last < ticks; last++) {
                int from = first;
                int to = last;
                losses.add(trace -> trace.loseTicks(from, to));
            }
        }
        for (int first = 1; first <= 4; first++) {
            for (int last = first; last <= 4; last++) {
                int from = first;
                int to = last;
                losses.add(trace -> IntStream.rangeClosed(from, to).forEach(trace::loseEvent));
                for (int tick = 1; tick < ticks; tick++) {
                    int lost = tick;
                    losses.add(trace -> {
                        IntStream.rangeClosed(from, to).forEach(trace::loseEvent);
                        trace.loseTicks(lost, Math.min(lost + 1, ticks - 1));
                    });
                }
            }
        }
        return losses;
    }

    /** Records of two ticks that are no neighbours, and parts of one record. */
    static List<Consumer<SyntheticTrace>> scatteredLosses(int ticks) {
        List<Consumer<SyntheticTrace>> losses = new ArrayList<>();
        for (int first = 1; first < ticks; first++) {
            int one = first;
            losses.add(trace -> trace.split(2).losePart(one));
            for (int second = first + 2; second < ticks; second++) {
                int other = second;
                losses.add(trace -> trace.loseTicks(one, one).loseTicks(other, other));
            }
        }
        return losses;
    }

    /** Records that tell of several ticks, all of them there. */
    static List<Consumer<SyntheticTrace>> periods() {
        List<Consumer<SyntheticTrace>> losses = new ArrayList<>();
        for (int periodTicks : new int[] {2, 3, 6}) {
            losses.add(trace -> trace.period(periodTicks));
        }
        return losses;
    }

    /** Records that tell of several ticks, one of them lost. */
    static List<Consumer<SyntheticTrace>> lostPeriods(int ticks) {
        List<Consumer<SyntheticTrace>> losses = new ArrayList<>();
        for (int periodTicks : new int[] {2, 3}) {
            for (int tick = periodTicks - 1; tick < ticks; tick += periodTicks) {
                int lost = tick;
                losses.add(trace -> trace.period(periodTicks).loseTicks(lost, lost));
            }
        }
        return losses;
    }
}
