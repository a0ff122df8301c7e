package snagbench.probe;

import org.jspecify.annotations.Nullable;
import snagbench.wire.Answer;
import snagbench.wire.FrameWriter;
import snagbench.wire.Reply;

/**
 * What goes to the bench, in this order: answers, events, records. Records have an outbox of their own, which answers
 * and events overtake between two frames. What finds no room waits or, a record, is dropped.
 */
final class Sender {
    private static final int FRAMES_AHEAD = 4;

    private final FrameWriter frame;
    private final Outbox first;
    private final Outbox records;
    private final int recordsAhead;
    private final Recording recording;
    private final EventRing events;
    private final byte[] answer;
    private int answerLength;
    private boolean answerWaits;
    private final byte[] aside;
    private int asideLength;
    private boolean open;

    private @Nullable Reply greeting;

    Sender(ProbeLimits limits, int channels, Recording recording, EventRing events) {
        this.frame = new FrameWriter(limits.frame);
        this.first = new Outbox(FRAMES_AHEAD * limits.frame);
        // A record that the frames cut into its channels must still find room as a whole.
        this.recordsAhead = FRAMES_AHEAD * limits.frame;
        this.records = new Outbox(recordsAhead + channels * limits.frame);
        this.recording = recording;
        this.events = events;
        this.answer = new byte[limits.frame];
        this.aside = new byte[limits.frame];
    }

    /** Makes sure before the control loop starts that a message fits. */
    void requireFits(String what, Reply reply) {
        reply.write(frame.begin());
        if (!frame.end()) {
            throw new IllegalArgumentException("the " + what + " does not fit a frame of " + answer.length
                    + " bytes; take longer frames, fewer or smaller limits, or shorter names");
        }
    }

    /** The greeting at boot, which goes out when the line takes it. */
    void greet(Reply hello) {
        greeting = hello;
    }

    /** From now on there is somebody to tell what happens. */
    void open() {
        open = true;
    }

    /** Answers with a message; it is kept, to be given again. */
    void answer(Reply reply) {
        reply.write(frame.begin());
        keepAnswer();
    }

    /** Answers done or refused, without making anything; it is kept, to be given again. */
    void answer(int session, int number, int code, int word, int tick, int micros) {
        Answer.write(frame.begin(), session, number, code, word, tick, micros);
        keepAnswer();
    }

    private void keepAnswer() {
        answerLength = closeInto(answer);
        answerWaits = true;
    }

    /** Answers what is no request of the session; the kept answer stays. */
    void answerAside(int session, int number, int code, int word, int tick, int micros) {
        Answer.write(frame.begin(), session, number, code, word, tick, micros);
        asideLength = closeInto(aside);
    }

    private int closeInto(byte[] kept) {
        if (!frame.end()) {
            throw new IllegalStateException("an answer longer than was made sure of");
        }
        System.arraycopy(frame.frame(), 0, kept, 0, frame.length());
        return frame.length();
    }

    /** Gives the last answer again. */
    void repeatAnswer() {
        answerWaits = answerLength > 0;
    }

    void endTick(int tick, int micros, int active, int flags, ProbeLine line) {
        if (greeting != null && addGreeting(greeting)) {
            greeting = null;
        }
        if (answerWaits && first.add(answer, answerLength)) {
            answerWaits = false;
        }
        if (asideLength > 0 && first.add(aside, asideLength)) {
            asideLength = 0;
        }
        boolean room = open;
        while (room && events.hasUnsent()) {
            events.writeNext(frame.begin());
            room = frame.end() && first.add(frame);
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
        if (records.finishFrame(line)) {
            first.flush(line);
            if (first.isEmpty()) {
                records.flush(line);
            }
        }
    }

    private boolean addGreeting(Reply hello) {
        hello.write(frame.begin());
        return frame.end() && first.add(frame);
    }

    /** Puts all parts of a record on the way, or none: half a record would look like a whole one of few channels. */
    private boolean sendRecord(int tick, int micros, int active, int flags) {
        int before = records.length();
        if (before >= recordsAhead) {
            return false;
        }
        int from = 0;
        while (from < recording.watchedCount()) {
            int count = writePart(from, tick, micros, active, flags);
            if (count == 0 || !records.add(frame)) {
                records.cutTo(before);
                return false;
            }
            from += count;
        }
        return true;
    }

    /** Writes as many channels as the frame takes; 0 if it does not even take one. */
    private int writePart(int from, int tick, int micros, int active, int flags) {
        int count = recording.nextPart(from);
        while (count > 0 && !recording.write(frame, from, count, tick, micros, active, flags, events.newest())) {
            count /= 2;
        }
        return count;
    }
}
