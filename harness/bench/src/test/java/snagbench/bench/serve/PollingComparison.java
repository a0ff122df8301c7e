package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Predicate;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Answer;
import snagbench.wire.Do;
import snagbench.wire.Keep;
import snagbench.wire.Record;
import snagbench.wire.Watch;

/**
 * How exact the times are that come of a test which polls the rig over its port, as one would write it by hand, beside those of
 * a fault script. Both talk to the same rig, served in real time on a pseudo-terminal, and both are held against what the rig's
 * own records say: in which tick the arm was first 18 cm out, and from which tick to which the answer took.
 *
 * <p>The test that polls waits for 18 cm, gives the order to park, which stands for the fault, and takes the time until it sees
 * that the arm has folded in. The script freezes the arm's sensor at 18 cm and takes the time until the arm reaches again.
 */
final class PollingComparison {
    private static final int USUAL_RUNS = 100;
    private static final int PARK = 12;
    private static final int READY = 1;
    private static final int REACHING = 2;
    private static final int DRAWING_BACK = 4;
    private static final int FOLDING_IN = 14;
    private static final int OUT_STEPS = 1800;
    /** Place of that expectation in the script. */
    private static final int TRIES_AGAIN = 2;

    private static final int LEASE_MILLIS = 10_000;
    private static final int LONGEST_MICROS = 10_000_000;
    private static final Duration PATIENCE = Duration.ofSeconds(20);
    private static final FaultScript SCRIPT = snagbench.bench.session.Shuttle.script("reach-blocked-midway");

    private PollingComparison() {}

    /**
     * Errors of one run.
     *
     * @param lateTicks in how many ticks behind the first that could be it the stimulus came
     * @param timeMicros by how much the measured time is off, in microseconds
     */
    record Errors(long lateTicks, long timeMicros) {}

    /** A reading of the rig, from one of its records. */
    private record Seen(int tick, int micros, int step, int position) {
        static Seen of(Record record, int stepPlace, int positionPlace) {
            return new Seen(record.tick, record.micros, record.real(stepPlace), record.real(positionPlace));
        }

        boolean isOut() {
            return step == REACHING && position >= OUT_STEPS;
        }

        /** The steps behind that are moving away, coming back, parking and parked. */
        boolean hasFoldedIn() {
            return step > FOLDING_IN;
        }
    }

    /**
     * Measures and prints a table.
     *
     * @param words how many runs of each, usually 100
     */
    @SuppressWarnings("SystemOut") // A program of its own: what it prints is its result.
    public static void main(String[] words) throws Exception {
        int runs = words.length > 0 ? Integer.parseInt(words[0]) : USUAL_RUNS;
        table(runs).forEach(System.out::println);
    }

    static List<String> table(int runs) throws Exception {
        List<Errors> usual = new ArrayList<>();
        List<Errors> quick = new ArrayList<>();
        List<Errors> script = new ArrayList<>();
        // Turn about, so that what else the machine does strikes all alike.
        for (int run = 0; run < runs; run++) {
            usual.add(polled(Duration.ofMillis(100)));
            quick.add(polled(Duration.ofMillis(1)));
            script.add(scripted(run + 1));
        }
        return List.of(
                "| " + runs + " runs each | stimulus late, ticks: median, worst | time off, ms: median, worst |",
                "| --- | ---: | ---: |",
                row("polling every 100 ms (Awaitility's default)", usual),
                row("polling every 1 ms", quick),
                row("fault script", script));
    }

    private static String row(String name, List<Errors> errors) {
        long[] late = errors.stream().mapToLong(Errors::lateTicks).sorted().toArray();
        long[] off = errors.stream()
                .mapToLong(one -> Math.abs(one.timeMicros))
                .sorted()
                .toArray();
        return String.format(
                Locale.ROOT,
                "| %s | %d, %d | %.1f, %.1f |",
                name,
                late[late.length / 2],
                late[late.length - 1],
                off[off.length / 2] / 1000.0,
                off[off.length - 1] / 1000.0);
    }

    /** What one would write by hand: wait until it is seen, do, wait until the answer is seen, by the host's clock. */
    static Errors polled(Duration interval) throws IOException {
        try (Serving served = Serving.plain();
                HostFile port = new HostFile(served.port())) {
            WireHost host = WireHost.on(port, 7);
            host.open();
            host.done(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION));
            host.done(new Keep(LEASE_MILLIS, 0));
            host.tell(new Do(Do.COMMAND, Shuttle.READY, 1));
            poll(host, interval, () -> isNow(host, one -> one.step == READY));
            host.done(new Keep(LEASE_MILLIS, 0));
            host.tell(new Do(Do.COMMAND, Shuttle.START_RUN, 1));
            poll(host, interval, () -> isNow(host, Seen::isOut));
            int answers = host.all(Answer.class).size();
            long began = System.nanoTime();
            host.tell(new Do(Do.COMMAND, PARK, 1));
            poll(host, interval, () -> host.all(Answer.class).size() > answers && isNow(host, Seen::hasFoldedIn));
            long measured = (System.nanoTime() - began) / 1000;
            Answer given = host.all(Answer.class).get(answers);
            Seen out = first(host, Seen::isOut);
            Seen folded = first(host, Seen::hasFoldedIn);
            return new Errors(given.tick - (out.tick + 1), measured - (folded.micros - given.micros));
        }
    }

    private static void poll(WireHost host, Duration interval, BooleanSupplier come) {
        await().atMost(PATIENCE).pollDelay(interval).pollInterval(interval).until(() -> {
            host.hear();
            return come.getAsBoolean();
        });
    }

    private static boolean isNow(WireHost host, Predicate<Seen> wanted) {
        List<Record> records = host.all(Record.class);
        return !records.isEmpty() && wanted.test(Seen.of(records.get(records.size() - 1), 0, 1));
    }

    private static Seen first(WireHost host, Predicate<Seen> wanted) {
        return host.all(Record.class).stream()
                .map(one -> Seen.of(one, 0, 1))
                .filter(wanted)
                .findFirst()
                .orElseThrow();
    }

    /** The same rig under a fault script, held against the records by themselves. */
    static Errors scripted(int seed) throws Exception {
        RigFile file = snagbench.bench.session.Shuttle.patientFile();
        List<Seen> seen = new ArrayList<>();
        try (Serving served = Serving.plain();
                SerialLink link =
                        SerialLink.open(served.port().toString(), SerialSettings.at(115_200), System::nanoTime);
                RigSession session = RigSession.open(
                        link, SessionSettings.usual(1, file.leaseMillis(), () -> false), Optional.empty())) {
            session.watch(1);
            session.makeReady(file.ready().orElseThrow(), false);
            List<Seen> begun = new ArrayList<>();
            session.observe(record -> {
                if (record.first == 0) {
                    begun.add(Seen.of(record, Shuttle.STEP, Shuttle.POSITION));
                }
                // A record of so many channels comes in parts, and is one only with the last.
                if ((record.flags & Record.MORE) == 0) {
                    seen.addAll(begun);
                    begun.clear();
                }
            });
            TraceRecorder recorder = session.arm(SCRIPT, seed);
            Judgement judgement = Judge.judge(SCRIPT, recorder.trace(), file);
            while (judgement.findings().get(TRIES_AGAIN).verdict() != Verdict.PASS
                    && (recorder.trace().rows() == 0
                            || recorder.trace().micros(recorder.trace().rows() - 1) < LONGEST_MICROS)) {
                session.work(session.nowMicros() + 100_000);
                judgement = Judge.judge(SCRIPT, recorder.trace(), file);
            }
            Errors errors = errors(seen, recorder, judgement);
            session.endRecording();
            session.letGo();
            return errors;
        }
    }

    private static Errors errors(List<Seen> seen, TraceRecorder recorder, Judgement judgement) {
        int out = index(seen, 0, Seen::isOut);
        int back = index(seen, out, one -> one.step == DRAWING_BACK);
        int again = index(seen, back, one -> one.step == REACHING);
        // The trace counts from arming, the records from the controller's start.
        long strikeMicros = judgement.injections().get(0).firstMicros().orElseThrow();
        int strike = (int) judgement.injections().get(0).firstTick().orElseThrow();
        int armedTick = seen.get(seen.size() - 1).tick
                - recorder.trace().tick(recorder.trace().rows() - 1);
        int struck = index(seen, 0, one -> one.tick == armedTick + strike);
        long took = seen.get(again).micros - seen.get(struck).micros;
        return new Errors(
                strike + armedTick - (seen.get(out).tick + 1),
                judgement.split().recovered().orElseThrow().micros() - strikeMicros - took);
    }

    private static int index(List<Seen> seen, int from, Predicate<Seen> wanted) {
        for (int i = from; i < seen.size(); i++) {
            if (wanted.test(seen.get(i))) {
                return i;
            }
        }
        throw new IllegalStateException("the rig's records do not show it");
    }
}
