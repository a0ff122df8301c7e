package snagbench.bench.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.serve.FaultyRig;
import snagbench.bench.serve.LineFaults;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;

/**
 * Fault scripts over lines that lose, flip and double bytes and are late, each held against the same script, on the same
 * rig with the same seed, over a line without faults. Its runs are numbered, and the number is the seed of all that is drawn for one.
 */
final class LineFaultCampaign {
    /** Shares of the bytes that are struck, in both directions; the first is a line that is only slow and late. */
    static final List<Double> RATES = List.of(0.0, 1e-5, 3e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2);

    private static final List<String> BUILDS = List.of(
            "standard",
            "standard",
            "standard",
            "without-FS-01",
            "without-FS-02",
            "without-FS-03",
            "weak-battery",
            "without-rack");
    private static final List<Integer> BAUDS = List.of(0, 0, 1_000_000, 3_000_000);
    private static final int MOST_LATENCY_MICROS = 20_000;
    private static final int MOST_JITTER_MICROS = 20_000;
    private static final int OWN_SCRIPTS = 40;
    private static final int SEEDS = 20;

    private final List<FaultScript> scripts;
    private final int cases;
    private final Map<Case, Verdict> whole = new ConcurrentHashMap<>();
    private final Tally tally = new Tally();

    /** What strikes the bytes. */
    enum Kind {
        LOSS("loss"),
        FLIP("flips"),
        DOUBLING("doubling"),
        ALL_THREE("all three");

        private final String title;

        Kind(String title) {
            this.title = title;
        }

        String title() {
            return title;
        }

        LineFaults faults(double rate, long latencyMicros, long jitterMicros) {
            return switch (this) {
                case LOSS -> new LineFaults(rate, 0, 0, latencyMicros, jitterMicros);
                case FLIP -> new LineFaults(0, rate, 0, latencyMicros, jitterMicros);
                case DOUBLING -> new LineFaults(0, 0, rate, latencyMicros, jitterMicros);
                case ALL_THREE -> new LineFaults(rate / 3, rate / 3, rate / 3, latencyMicros, jitterMicros);
            };
        }
    }

    /** What came of a run, beside what came of it without line faults. */
    enum Outcome {
        /** The verdict of the line without faults. */
        SAME("the right verdict"),
        /** A pass or fail is not known any more. */
        INCONCLUSIVE("inconclusive"),
        /** Not known, and the harness or the rig had to break off. */
        ERROR("error"),
        /** The session did not come so far as a script. */
        NOT_BEGUN("not begun"),
        /** What must never be. */
        WRONG("another verdict");

        private final String title;

        Outcome(String title) {
            this.title = title;
        }

        String title() {
            return title;
        }
    }

    /** Which script on which rig. */
    private record Case(String build, int script, int seed) {}

    /** The counts: by outcome, and how many bytes were struck. */
    static final class Tally {
        private final Map<List<Object>, Map<Outcome, Integer>> counts = new HashMap<>();
        private final List<String> wrong = new ArrayList<>();
        private final Map<Verdict, Integer> whole = new HashMap<>();
        private long struck;

        private synchronized void add(
                double rate, Kind kind, Verdict right, Outcome outcome, long bytesStruck, Optional<String> trouble) {
            whole.merge(right, 1, Integer::sum);
            struck += bytesStruck;
            trouble.ifPresent(wrong::add);
            counts.computeIfAbsent(List.of(rate, kind), cell -> new HashMap<>()).merge(outcome, 1, Integer::sum);
        }

        int count(double rate, Outcome outcome) {
            int sum = 0;
            for (Kind kind : Kind.values()) {
                sum += count(rate, kind, outcome);
            }
            return sum;
        }

        int count(double rate, Kind kind, Outcome outcome) {
            return counts.getOrDefault(List.of(rate, kind), Map.of()).getOrDefault(outcome, 0);
        }

        int runs(double rate) {
            int sum = 0;
            for (Kind kind : Kind.values()) {
                sum += runs(rate, kind);
            }
            return sum;
        }

        int runs(double rate, Kind kind) {
            return counts.getOrDefault(List.of(rate, kind), Map.of()).values().stream()
                    .mapToInt(count -> count)
                    .sum();
        }

        /** Runs whose verdict on the faulty line is one that the whole line does not give. */
        List<String> wrong() {
            return wrong;
        }

        /** How many bytes were lost, flipped or doubled in all. */
        long struck() {
            return struck;
        }

        /** Verdicts of the runs over the line without faults, counted once for each run held against them. */
        int whole(Verdict verdict) {
            return whole.getOrDefault(verdict, 0);
        }
    }

    /**
     * A campaign.
     *
     * @param cases how many different scripts, builds and seeds the runs draw from: each is run once more without faults
     */
    LineFaultCampaign(int cases) {
        this.cases = cases;
        scripts = scripts();
    }

    /** Runs those with numbers from one up to below another, on all cores: no run knows of another, and only counts are kept. */
    Tally run(int from, int below) throws IOException {
        try {
            IntStream.range(from, below).parallel().forEach(number -> {
                try {
                    runOne(number);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        return tally;
    }

    private void runOne(int number) throws IOException {
        SplittableRandom random = new SplittableRandom(number);
        Kind kind = Kind.values()[number % Kind.values().length];
        double rate = RATES.get(number / Kind.values().length % RATES.size());
        Case drawn = drawCase(random.nextInt(cases));
        int baud = BAUDS.get(random.nextInt(BAUDS.size()));
        boolean late = rate == 0 || random.nextBoolean();
        LineFaults faults = kind.faults(
                rate, late ? random.nextInt(MOST_LATENCY_MICROS) : 0, late ? random.nextInt(MOST_JITTER_MICROS) : 0);
        Verdict right = wholeVerdict(drawn);
        FaultyRig rig = new FaultyRig(Shuttle.rig(drawn.build), baud, faults, number);
        Optional<ScriptResult> result = resultOf(
                runs(drawn).over(unused -> new BoundedLink(new VirtualLink("seedling-shuttle", rig, new RigWatch()))));
        Outcome outcome = outcome(right, result);
        Optional<String> trouble = outcome == Outcome.WRONG
                ? Optional.of("run " + number + ": " + drawn + ", script \""
                        + scripts.get(drawn.script).name() + "\", baud " + baud + ", " + faults
                        + ", on a line without faults "
                        + right + ":\n"
                        + result.map(ResultText::details).orElse(List.of()))
                : Optional.empty();
        tally.add(rate, kind, right, outcome, struck(rig), trouble);
    }

    private static long struck(FaultyRig rig) {
        return rig.toRig().lost()
                + rig.toRig().flipped()
                + rig.toRig().doubled()
                + rig.toBench().lost()
                + rig.toBench().flipped()
                + rig.toBench().doubled();
    }

    private static Outcome outcome(Verdict right, Optional<ScriptResult> result) {
        if (result.isEmpty()) {
            return Outcome.NOT_BEGUN;
        }
        Verdict verdict = result.get().judgement().verdict();
        if (verdict == right) {
            return Outcome.SAME;
        }
        return switch (verdict) {
            case INCONCLUSIVE -> Outcome.INCONCLUSIVE;
            case ERROR -> Outcome.ERROR;
            case NONE, PASS, FAIL -> Outcome.WRONG;
        };
    }

    private Case drawCase(int number) {
        SplittableRandom random = new SplittableRandom(~number);
        return new Case(
                BUILDS.get(random.nextInt(BUILDS.size())), random.nextInt(scripts.size()), 1 + random.nextInt(SEEDS));
    }

    private Verdict wholeVerdict(Case one) throws IOException {
        Verdict known = whole.get(one);
        if (known == null) {
            known = resultOf(runs(one)).orElseThrow().judgement().verdict();
            whole.put(one, known);
        }
        return known;
    }

    private Runs runs(Case one) {
        return Runs.on(one.build).of(one.seed, scripts.get(one.script));
    }

    /** Where too much was lost to come so far as a script, there is none. */
    private static Optional<ScriptResult> resultOf(Runs runs) throws IOException {
        try {
            return runs.run().results().stream().findFirst();
        } catch (SessionException e) {
            return Optional.empty();
        }
    }

    /** The project's own scripts, and more with figures drawn around the limits of the control code. */
    private static List<FaultScript> scripts() {
        List<FaultScript> all = new ArrayList<>();
        for (String name : List.of(
                "reach-blocked-midway",
                "reach-blocked-near-home",
                "reach-current-too-high",
                "reach-current-offset",
                "current-spike-too-short",
                "grip-not-there-yet",
                "reach-stopped-short-in-the-rack-zone",
                "obstacle-in-the-way")) {
            all.add(Shuttle.script(name));
        }
        for (int i = 0; i < OWN_SCRIPTS; i++) {
            all.add(drawScript(i));
        }
        return all;
    }

    private static FaultScript drawScript(int number) {
        SplittableRandom random = new SplittableRandom(number);
        int place = random.nextInt(20, 300);
        try {
            return switch (number % 4) {
                case 0 -> drags(number, place, random);
                case 1 -> freezes(number, place, random);
                case 2 -> passesBy(number, place);
                default -> spikes(number, place, random);
            };
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** FS-01 answers above 4.5 A, after 60 ms. */
    private static FaultScript drags(int number, int place, SplittableRandom random) throws IOException {
        return Shuttle.script("drags " + number, "FS-01", """
            inject:
              - name: drags
                when: { step: REACHING, reach.position: at least %d mm }
                channels:
                  reach.current: stuck-at %.1f A
                until: { failsafe: FS-01 }
                lasts: %d ms
            expect:
              - name: sees it
                answered-by: FS-01
                within: %d ms .. %d ms
                no-other: true
              - name: goes on
                becomes: { step: REACHING }
                within: 250 ms
                after: sees it
            end: 200 ms after goes on
            """.formatted(
                        place,
                        random.nextDouble(4.3, 6),
                        random.nextInt(40, 300),
                        random.nextInt(56, 62),
                        random.nextInt(63, 80)));
    }

    /** FS-02 answers to an arm that has stood for 100 ms. */
    private static FaultScript freezes(int number, int place, SplittableRandom random) throws IOException {
        return Shuttle.script("freezes " + number, "FS-02", """
            inject:
              - name: stands
                when: { step: REACHING, reach.position: at least %d mm }
                channels:
                  reach.position: freeze
                until: { failsafe: FS-02 }
                lasts: %d ms
            expect:
              - name: sees it
                answered-by: FS-02
                within: 90 ms .. %d ms
              - name: draws back
                becomes: { step: DRAWING_BACK }
                within: 6 ms
                after: sees it
              - name: tries again
                becomes: { step: REACHING }
                within: %d ms
                after: draws back
              - never: { step: GIVEN_UP }
            end: 100 ms after tries again
            """.formatted(
                        place, random.nextInt(130, 500), random.nextInt(122, 200), random.nextInt(400, 3000)));
    }

    /** A violation that one record or two show, so that the verdict hangs on whether those were lost. */
    private static FaultScript passesBy(int number, int place) throws IOException {
        return Shuttle.script("passes by " + number, "FS-01", """
            inject:
              - name: drags
                when: { step: REACHING, reach.position: at least 10 mm }
                channels:
                  reach.current: stuck-at 5.8 A
                until: { failsafe: FS-01 }
                lasts: 500 ms
            expect:
              - name: sees it
                answered-by: FS-01
                within: 60 ms .. 100 ms
              - never: { step: REACHING, reach.position: at least %d mm, reach.position.told: below %d.5 mm }
            end: 300 ms after sees it
            """.formatted(place / 3, place / 3 + 1));
    }

    private static FaultScript spikes(int number, int place, SplittableRandom random) throws IOException {
        return Shuttle.script("spikes " + number, "FS-01", """
            inject:
              - name: spike
                when: { step: REACHING, reach.position: at least %d mm }
                channels:
                  reach.current: spike 8 A for %d ms
            expect:
              - must-not-fire: FS-01
              - always: { reach.current.told: below %d A }
            end: 300 ms after spike
            """.formatted(
                        place, random.nextInt(20, 75), random.nextInt(10) < 3 ? 7 : 9));
    }

    /** Fails where a run would hang: by its clock, or with a clock that stands. */
    private static final class BoundedLink implements PassingLink {
        /**
         * Far above what the harness may wait: 40 requests, each 8 times 0.25 s, then 10 s to get ready, 32 s for the
         * run, 2 s for late events, and 10 s for each of two stops.
         */
        private static final long LONGEST_MICROS = 150_000_000;

        private static final int MOST_CALLS_AT_ONE_TIME = 10_000;

        private final Link line;
        private long lastMicros;
        private int calls;

        BoundedLink(Link line) {
            this.line = line;
        }

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            int bytes = line.receive(into, untilMicros);
            long now = line.nowMicros();
            calls = now == lastMicros ? calls + 1 : 0;
            lastMicros = now;
            if (now > LONGEST_MICROS || calls > MOST_CALLS_AT_ONE_TIME) {
                throw new AssertionError("hangs: " + calls + " times received at " + now + " us");
            }
            return bytes;
        }

        @Override
        public Link line() {
            return line;
        }
    }
}
