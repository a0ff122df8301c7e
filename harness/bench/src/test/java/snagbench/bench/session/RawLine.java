package snagbench.bench.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.wire.Answer;
import snagbench.wire.Event;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;

/**
 * The bare line to a rig, for tests that send what no session would, or that listen while no session works: nothing here
 * renews a lease or repeats anything.
 */
final class RawLine {
    private static final int FRAME = 4096;
    private static final long LONGEST_ANSWER_MICROS = 500_000;

    private final Link link;
    private final FrameWriter writer = new FrameWriter(FRAME);
    private final FrameReader reader = new FrameReader(FRAME);
    private final byte[] chunk = new byte[FRAME];
    private final List<Reply> replies = new ArrayList<>();

    RawLine(Link link) {
        this.link = link;
    }

    /** Lets the rig run on, and takes what it says. */
    void listen(long micros) throws LinkException {
        long until = link.nowMicros() + micros;
        while (link.nowMicros() < until) {
            take(link.receive(chunk, until));
        }
    }

    private void take(int bytes) {
        for (int i = 0; i < bytes; i++) {
            if (reader.accept(chunk[i])) {
                Reply reply = Reply.read(reader.payload());
                if (reply != null) {
                    replies.add(reply);
                }
            }
        }
    }

    void send(byte[] frame) throws LinkException {
        link.send(frame, frame.length);
    }

    /** Asks, and gives the answer to just that. */
    Answer ask(int session, int boot, int number, RequestBody body) throws LinkException {
        send(session, boot, number, body);
        return answer(session, number);
    }

    Answer answer(int session, int number) throws LinkException {
        long until = link.nowMicros() + LONGEST_ANSWER_MICROS;
        while (link.nowMicros() < until) {
            take(link.receive(chunk, until));
            Optional<Answer> found = all(Answer.class).stream()
                    .filter(one -> one.session == session && one.number == number)
                    .findFirst();
            if (found.isPresent()) {
                return found.get();
            }
        }
        throw new AssertionError("no answer to request " + number + " of session " + session);
    }

    void send(int session, int boot, int number, RequestBody body) throws LinkException {
        if (!new Request(session, boot, number, body).write(writer)) {
            throw new AssertionError("too long for a frame");
        }
        link.send(writer.frame(), writer.length());
    }

    <T extends Reply> List<T> all(Class<T> kind) {
        return replies.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    /** The first part of each record, which has all the channels that are looked at here. */
    List<Record> records() {
        return all(Record.class).stream().filter(one -> one.first == 0).toList();
    }

    List<Event> events() {
        return all(Event.class);
    }

    Hello lastHello() {
        List<Hello> all = all(Hello.class);
        return all.get(all.size() - 1);
    }

    void forget() {
        replies.clear();
    }
}
