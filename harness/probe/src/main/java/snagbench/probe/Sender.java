package snagbench.probe;

import org.jspecify.annotations.Nullable;
import snagbench.wire.Answer;
import snagbench.wire.FrameWriter;
import snagbench.wire.Reply;

/** What goes to the bench, in this order: answers, events, records. What finds no room waits or, a record, is dropped. */
final class Sender {
    private static final int FRAMES_AHEAD = 4;

    private final FrameWriter frame;
    private final Outbox outbox;
    private final Recording recording;
    private final EventRing events;
    private final byte[] answer;
    private int answerLength;
    private boolean answerWaits;

    @Nullable
    private Reply greeting;

    Sender(ProbeLimits limits, Recording recording, EventRing events) {
        this.frame = new FrameWriter(limits.frame);
        this.outbox = new Outbox(FRAMES_AHEAD * limits.frame);
        this.recording = recording;
        this.events = events;
        this.answer = new byte[limits.frame];
    }

    void loopTook(int micros) {
        recording.loopTook(micros);
    }

    /** The greeting at boot, which goes out when the line takes it. */
    void greet(Reply hello) {
        greeting = hello;
    }

    /** Answers with a message; it is kept, to be given again. */
    void answer(Reply reply) {
        reply.write(frame.begin());
        keepAnswer();
    }

    /** Answers done or refused, without making anything. */
    void answer(int session, int number, int code, int word, int tick, int micros) {
        Answer.write(frame.begin(), session, number, code, word, tick, micros);
        keepAnswer();
    }

    private void keepAnswer() {
        if (!frame.end()) {
            throw new IllegalStateException("an answer longer than the smallest frame");
        }
        answerLength = frame.length();
        System.arraycopy(frame.frame(), 0, answer, 0, answerLength);
        answerWaits = true;
    }

    /** Gives the last answer again. */
    void repeatAnswer() {
        answerWaits = answerLength > 0;
    }

    void endTick(int tick, int micros, int active, int flags, ProbeLine line) {
        if (greeting != null) {
            greeting.write(frame.begin());
            frame.end();
            if (outbox.add(frame)) {
                greeting = null;
            }
        }
        if (answerWaits && outbox.add(answer, answerLength)) {
            answerWaits = false;
        }
        boolean room = true;
        while (events.hasUnsent() && room) {
            events.writeNext(frame.begin());
            room = frame.end() && outbox.add(frame);
            if (room) {
                events.markSent();
            }
        }
        if (recording.isDue()) {
            if (!sendRecord(tick, micros, active, flags)) {
                recording.drop();
            }
            recording.restartPeriod();
        }
        outbox.flush(line);
    }

    /** Sends all parts of a record; false as soon as one finds no room, and what went out of it is a gap. */
    private boolean sendRecord(int tick, int micros, int active, int flags) {
        int from = 0;
        while (from < recording.watchedCount()) {
            int count = recording.nextPart(from);
            while (!recording.write(frame, from, count, tick, micros, active, flags, events.newest())) {
                count /= 2;
                if (count == 0) {
                    return false;
                }
            }
            if (!outbox.add(frame)) {
                return false;
            }
            from += count;
        }
        return true;
    }
}
