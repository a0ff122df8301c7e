package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;
import snagbench.wire.Answer;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Reply;

/** Lines on which one kind of message never arrives, while all others do: a run must end all the same. */
class HalfDeafTests {
    private static final int FRAME = 4096;
    /** Of the harness's time: a beginning of 2 s, a run of 30 s, late events, a stop, and as much again. */
    private static final long LONG_ENOUGH_MICROS = 90_000_000;

    private final FaultScript jam = Shuttle.script("obstacle-in-the-way");
    private final FaultScript mild = Shuttle.script("current-spike-too-short");

    /** Passes on what is not to be lost, frame by frame, as the harness's reader sees them. */
    private static class Picky implements PassingLink {
        private final Link line;
        private final Predicate<Reply> lost;
        private final FrameReader reader = new FrameReader(FRAME);
        private final FrameWriter writer = new FrameWriter(FRAME);
        private int losses;

        Picky(Link line, Predicate<Reply> lost) {
            this.line = line;
            this.lost = lost;
        }

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            assertTrue(line.nowMicros() < LONG_ENOUGH_MICROS, "still running at " + line.nowMicros() + " us");
            byte[] some = new byte[into.length / 4];
            int bytes = line.receive(some, untilMicros);
            int kept = 0;
            for (int i = 0; i < bytes; i++) {
                if (reader.accept(some[i])) {
                    Reply reply = Reply.read(reader.payload());
                    if (reply == null || lost.test(reply)) {
                        losses++;
                    } else {
                        kept += put(into, kept, changed(reply));
                    }
                }
            }
            return kept;
        }

        Reply changed(Reply reply) {
            return reply;
        }

        private int put(byte[] into, int at, Reply reply) {
            reply.write(writer.begin());
            assertTrue(writer.end());
            System.arraycopy(writer.frame(), 0, into, at, writer.length());
            return writer.length();
        }

        @Override
        public Link line() {
            return line;
        }
    }

    /** A restart is told by a greeting that nobody asked for; it is said once. */
    @Test
    void aRestartWhoseGreetingIsLostIsSeenByTheNextAnswer() throws Exception {
        Picky[] line = new Picky[1];
        RunRecord run = Runs.on("weak-battery")
                .of(1, jam, mild)
                .over(inner -> {
                    line[0] = new Picky(inner, reply -> reply instanceof Hello hello && hello.session == 0);
                    return line[0];
                })
                .run();

        assertTrue(line[0].losses >= 1, "a greeting was lost");
        assertEquals(
                Verdict.FAIL,
                run.results().get(0).judgement().verdict(),
                () -> details(run.results().get(0)));
        assertTrue(
                details(run.results().get(0)).contains("the controller restarted"),
                details(run.results().get(0)));
        assertEquals(
                Verdict.PASS,
                run.results().get(1).judgement().verdict(),
                () -> details(run.results().get(1)));
    }

    /** The rig's time is known by its records, and here it stands still. */
    @Test
    void aRigWhoseRecordsAreAllLostFromArmingOnIsNotListenedToForEver() throws Exception {
        boolean[] armed = new boolean[1];
        ScriptResult result = Runs.on("standard")
                .of(1, mild)
                .over(inner -> new Picky(inner, reply -> {
                    armed[0] |= reply instanceof snagbench.wire.Event event
                            && event.kind == snagbench.wire.EventKind.ARMED.code();
                    return armed[0] && reply instanceof Record;
                }))
                .only();

        assertTrue(armed[0], "it was armed");
        assertEquals(Verdict.ERROR, result.judgement().verdict(), () -> details(result));
        assertTrue(details(result).contains("the rig answers, but no record of it has come"), details(result));
    }

    /** Whoever has the rig now, it is not this harness: it must not listen on as if it were. */
    @Test
    void aLeaseThatTheRigWillNotRenewEndsTheRun() throws Exception {
        boolean[] armed = new boolean[1];
        ScriptResult result = Runs.on("standard")
                .of(1, mild)
                .over(inner -> new Picky(inner, reply -> false) {
                    @Override
                    Reply changed(Reply reply) {
                        if (armed[0] && reply instanceof Answer answer) {
                            return new Answer(
                                    answer.session,
                                    answer.number,
                                    Refusal.OTHER_SESSION.code(),
                                    0,
                                    answer.tick,
                                    answer.micros);
                        }
                        armed[0] |= reply instanceof snagbench.wire.Event event
                                && event.kind == snagbench.wire.EventKind.ARMED.code();
                        return reply;
                    }
                })
                .only();

        assertEquals(Verdict.ERROR, result.judgement().verdict(), () -> details(result));
        assertTrue(
                details(result).contains("the rig would not renew the lease: it is in another session"),
                details(result));
    }

    private static String details(ScriptResult result) {
        return String.join("\n", ResultText.details(result));
    }
}
