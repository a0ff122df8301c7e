package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;
import snagbench.wire.Event;
import snagbench.wire.FrameReader;
import snagbench.wire.Record;
import snagbench.wire.Reply;

/** No pass on missing data: real frames are taken off the line from the real rig, and the verdict only gets more careful. */
class LossyLineTests {
    private static final List<String> BUILDS =
            List.of("standard", "standard", "without-FS-02", "without-FS-01", "weak-battery");
    private final List<FaultScript> scripts = List.of(
            passingBy("40 mm", "41 mm"),
            passingBy("80 mm", "81.5 mm"),
            Shuttle.script("reach-blocked-midway"),
            Shuttle.script("reach-blocked-near-home"),
            Shuttle.script("reach-current-too-high"),
            Shuttle.script("reach-current-offset"),
            Shuttle.script("current-spike-too-short"),
            Shuttle.script("grip-not-there-yet"),
            Shuttle.script("reach-stopped-short-in-the-rack-zone"),
            Shuttle.script("obstacle-in-the-way"));

    /**
     * Loses whole frames that come from the rig: each with the same chance, or several in a row; and some events however
     * often the rig repeats them.
     */
    private static final class Lossy implements PassingLink {
        private static final int FRAME = 4096;

        private final Link line;
        private final SplittableRandom random;
        private final double loss;
        private final int mostInARow;
        private final double neverHeard;
        private final boolean sparesAnswers;
        private final Map<Integer, Boolean> unheard = new HashMap<>();
        private final FrameReader reader = new FrameReader(FRAME);
        private final ByteArrayOutputStream frame = new ByteArrayOutputStream();
        private int toLose;
        private long lost;

        Lossy(
                Link line,
                SplittableRandom random,
                double loss,
                int mostInARow,
                double neverHeard,
                boolean sparesAnswers) {
            this.line = line;
            this.random = random;
            this.loss = loss;
            this.mostInARow = mostInARow;
            this.neverHeard = neverHeard;
            this.sparesAnswers = sparesAnswers;
        }

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            byte[] all = new byte[into.length / 2];
            int bytes = line.receive(all, untilMicros);
            int kept = 0;
            for (int i = 0; i < bytes; i++) {
                frame.write(all[i]);
                boolean isGood = reader.accept(all[i]);
                if (all[i] == 0) {
                    byte[] whole = frame.toByteArray();
                    frame.reset();
                    if (isLost(isGood)) {
                        lost++;
                    } else {
                        System.arraycopy(whole, 0, into, kept, whole.length);
                        kept += whole.length;
                    }
                }
            }
            return kept;
        }

        private boolean isLost(boolean isGood) {
            Reply reply = isGood ? Reply.read(reader.payload()) : null;
            if (reply instanceof Event event
                    && unheard.computeIfAbsent(event.number, number -> random.nextDouble() < neverHeard)) {
                return true;
            }
            if (sparesAnswers && !(reply instanceof Event || reply instanceof Record)) {
                return false;
            }
            if (toLose > 0) {
                toLose--;
                return true;
            }
            boolean loses = random.nextDouble() < loss;
            toLose = loses ? random.nextInt(mostInARow) : 0;
            return loses;
        }

        @Override
        public Link line() {
            return line;
        }
    }

    private record Case(String build, int script, int seed) {}

    private Runs runs(Case one) {
        return Runs.on(one.build).of(one.seed, scripts.get(one.script));
    }

    /** A violation that one record or two show, so that the verdict hangs on whether those were lost. */
    private static FaultScript passingBy(String from, String to) {
        try {
            return Shuttle.script("passing by " + from, "FS-01", """
                inject:
                  - name: drags
                    when: { step: REACHING, reach.position: at least 100 mm }
                    channels:
                      reach.current: stuck-at 5.8 A
                    until: { failsafe: FS-01 }
                    lasts: 500 ms
                expect:
                  - name: sees it
                    answered-by: FS-01
                    within: 60 ms .. 100 ms
                  - never: { step: REACHING, reach.position: at least %s, reach.position.told: below %s }
                end: 100 ms after sees it
                """.formatted(from, to));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void lossNeverMakesAPassNorAFail() throws Exception {
        check(100);
    }

    @Test
    @Tag("long")
    void lossNeverMakesAPassNorAFailInManyRuns() throws Exception {
        check(1_000);
    }

    private void check(int runs) throws Exception {
        Map<Case, Verdict> whole = new HashMap<>();
        Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
        long lost = 0;
        for (int run = 0; run < runs; run++) {
            SplittableRandom random = new SplittableRandom(run);
            Case one = new Case(
                    BUILDS.get(random.nextInt(BUILDS.size())), random.nextInt(scripts.size()), 1 + random.nextInt(2));
            if (!whole.containsKey(one)) {
                whole.put(one, runs(one).only().judgement().verdict());
            }
            double loss = Math.pow(random.nextDouble(), 3) * 0.3;
            boolean sparesAnswers = random.nextInt(4) > 0;
            int mostInARow = 1 + random.nextInt(8);
            double neverHeard = random.nextBoolean() ? 0 : 0.3 * random.nextDouble();
            Lossy[] line = new Lossy[1];
            Runs lossy = runs(one).over(inner -> {
                line[0] = new Lossy(inner, random, loss, mostInARow, neverHeard, sparesAnswers);
                return line[0];
            });
            Optional<ScriptResult> result = resultOf(lossy);
            Verdict verdict = result.map(it -> it.judgement().verdict()).orElse(Verdict.NONE);
            verdicts.merge(verdict, 1, Integer::sum);
            lost += line[0].lost;
            String what = "run " + run + ", " + one + ", script "
                    + scripts.get(one.script).name() + ", loss " + loss
                    + " up to " + mostInARow + " in a row, answers spared " + sparesAnswers + ", events never heard "
                    + neverHeard + ", without loss "
                    + whole.get(one) + ":\n"
                    + result.map(ResultText::details).orElse(List.of());
            boolean isSettled = verdict == Verdict.PASS || verdict == Verdict.FAIL;
            assertFalse(isSettled && verdict != whole.get(one), () -> verdict + " in " + what);
        }
        assertTrue(lost > 3L * runs, lost + " frames were lost");
        for (Verdict seen : List.of(Verdict.PASS, Verdict.FAIL, Verdict.INCONCLUSIVE)) {
            assertTrue(verdicts.getOrDefault(seen, 0) >= runs / 30, "of each kind some: " + verdicts);
        }
    }

    /** Where too much was lost to come so far as a script, there is none. */
    private static Optional<ScriptResult> resultOf(Runs runs) throws IOException {
        try {
            return runs.run().results().stream().findFirst();
        } catch (SessionException e) {
            return Optional.empty();
        }
    }
}
