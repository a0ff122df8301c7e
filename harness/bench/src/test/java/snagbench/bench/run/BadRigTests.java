package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;
import snagbench.wire.FrameReader;
import snagbench.wire.MessageType;
import snagbench.wire.Request;

/** Rigs and lines that fail while a plan runs: it is said what, what was finished stays, nothing is guessed. */
class BadRigTests {
    private final FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");

    private final AtomicBoolean bad = new AtomicBoolean();

    /** Half a second into the second script things go bad. */
    private final RunListener inTheSecondScript = new RunListener() {
        @Override
        public void started(int index, PlannedRun run) {
            // not yet
        }

        @Override
        public void progressed(int index, long rigMicros) {
            bad.set(bad.get() || (index == 1 && rigMicros >= 500_000));
        }

        @Override
        public void ended(ScriptResult result) {
            // not then
        }
    };

    /** Goes bad once the switch is thrown. */
    private abstract static class GoesBad implements PassingLink {
        private final Link line;
        private final AtomicBoolean bad;

        GoesBad(Link line, AtomicBoolean bad) {
            this.line = line;
            this.bad = bad;
        }

        /** What comes instead of what the rig says. */
        abstract int instead(byte[] into, int bytes) throws LinkException;

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            int bytes = line.receive(into, untilMicros);
            return bad.get() ? instead(into, bytes) : bytes;
        }

        @Override
        public Link line() {
            return line;
        }
    }

    private static Link breaks(Link line, AtomicBoolean bad) {
        return new GoesBad(line, bad) {
            @Override
            int instead(byte[] into, int bytes) throws LinkException {
                throw new LinkException("the cable is out");
            }
        };
    }

    private static Link fallsSilent(Link line, AtomicBoolean bad) {
        return new GoesBad(line, bad) {
            @Override
            int instead(byte[] into, int bytes) {
                return 0;
            }
        };
    }

    private static Link turnsToNoise(Link line, AtomicBoolean bad) {
        SplittableRandom random = new SplittableRandom(42);
        return new GoesBad(line, bad) {
            @Override
            int instead(byte[] into, int bytes) {
                for (int i = 0; i < bytes; i++) {
                    into[i] = (byte) random.nextInt(256);
                }
                return bytes;
            }
        };
    }

    private static void endedForTheRig(RunRecord run, String why) {
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().contains(why), end.reason());
    }

    private static ScriptResult last(RunRecord run) {
        return run.results().get(run.results().size() - 1);
    }

    @Test
    void aLineThatBreaksInAScriptIsAnErrorAndEndsThePlan() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, script, script, script)
                .over(line -> breaks(line, bad))
                .run(inTheSecondScript);

        assertEquals(2, run.results().size());
        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict(), "what was finished stays");
        assertEquals(Verdict.ERROR, last(run).judgement().verdict());
        List<String> details = ResultText.details(last(run));
        assertTrue(details.stream().anyMatch(one -> one.contains("the cable is out")), details::toString);
        endedForTheRig(run, "the cable is out");
        assertEquals(1, run.notRun().size());
    }

    @Test
    void aRigThatFallsSilentInAScriptIsAnErrorAndEndsThePlan() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, script, script, script)
                .over(line -> fallsSilent(line, bad))
                .run(inTheSecondScript);

        assertEquals(2, run.results().size());
        assertEquals(Verdict.ERROR, last(run).judgement().verdict());
        endedForTheRig(run, "virtual rig seedling-shuttle did not answer");
    }

    @Test
    void noiseOnTheLineIsNeverTakenForAnything() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, script, script, script)
                .over(line -> turnsToNoise(line, bad))
                .run(inTheSecondScript);

        assertEquals(2, run.results().size());
        assertEquals(Verdict.ERROR, last(run).judgement().verdict());
        endedForTheRig(run, "did not answer");
    }

    @Test
    void nothingButNoiseFromTheStartAsksForTheBaudRate() {
        SessionException refused = assertThrows(SessionException.class, () -> Runs.on("standard")
                .of(1, script)
                .over(line -> turnsToNoise(line, new AtomicBoolean(true)))
                .run());

        assertEquals(SessionException.Reason.SILENT, refused.reason());
        assertTrue(refused.getMessage().contains("is the baud rate right?"), refused.getMessage());
    }

    @Test
    void silenceFromTheStartDoesNot() {
        SessionException refused = assertThrows(SessionException.class, () -> Runs.on("standard")
                .of(1, script)
                .over(line -> fallsSilent(line, new AtomicBoolean(true)))
                .run());

        assertEquals(SessionException.Reason.SILENT, refused.reason());
        assertTrue(refused.getMessage().contains("did not answer"), refused.getMessage());
        assertTrue(!refused.getMessage().contains("baud"), refused.getMessage());
    }

    /** A part of the script never reaches it. */
    @Test
    void aRigThatDoesNotTakeAScriptIsLetGoAndNotLeftToItsLease() throws Exception {
        FaultScript tooMuch = Shuttle.script("reach-blocked-midway");
        int[] last = new int[1];
        RunRecord run = Runs.on("standard")
                .of(1, tooMuch, script)
                .over(line -> new GoesBad(line, bad) {
                    @Override
                    int instead(byte[] into, int bytes) {
                        return bytes;
                    }

                    @Override
                    public void send(byte[] bytes, int length) throws LinkException {
                        int type = typeOf(bytes, length);
                        last[0] = type;
                        if (type != MessageType.TERM.code()) {
                            super.send(bytes, length);
                        }
                    }
                })
                .run();

        assertEquals(1, run.results().size());
        assertEquals(Verdict.ERROR, last(run).judgement().verdict());
        List<String> details = ResultText.details(last(run));
        assertTrue(details.stream().anyMatch(one -> one.contains("could not be armed")), details::toString);
        assertEquals(MessageType.LET_GO.code(), last[0], "the last thing asked of it");
    }

    private static int typeOf(byte[] frame, int length) {
        FrameReader reader = new FrameReader(4096);
        for (int i = 0; i < length; i++) {
            if (reader.accept(frame[i])) {
                Request request = Request.read(reader.payload());
                return request == null ? -1 : request.body.type().code();
            }
        }
        return -1;
    }
}
