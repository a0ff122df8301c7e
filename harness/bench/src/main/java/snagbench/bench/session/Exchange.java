package snagbench.bench.session;

import org.jspecify.annotations.Nullable;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.wire.CborReader;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.MessageType;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;

/**
 * Requests and replies over a link: one request outstanding, repeated until it is answered, and every good frame from
 * the rig handed on.
 */
final class Exchange {
    private static final int CHUNK = 4096;
    private static final int LONGEST_FRAME = 4096;

    private final Link link;
    private final SessionSettings settings;
    private final FrameReader frames = new FrameReader(LONGEST_FRAME);
    private final FrameWriter writer = new FrameWriter(LONGEST_FRAME);
    private final byte[] chunk = new byte[CHUNK];

    private int boot;
    private int lastNumber;

    @Nullable
    private Request outstanding;

    private long askedMicros;
    private int asked;
    private int tries;
    private long bytesSeen;

    Exchange(Link link, SessionSettings settings) {
        this.link = link;
        this.settings = settings;
    }

    void boot(int bootId) {
        boot = bootId;
    }

    long nowMicros() {
        return link.nowMicros();
    }

    boolean isWaiting() {
        return outstanding != null;
    }

    boolean isWaitingFor(MessageType type) {
        return outstanding != null && outstanding.body.type() == type;
    }

    /** Asks; nothing else may be outstanding. */
    Request ask(RequestBody body) throws SessionException {
        return ask(body, settings.tries());
    }

    /** Asks what takes the rig its time: so often at most. */
    Request ask(RequestBody body, int mostTries) throws SessionException {
        Request request = new Request(settings.nonce(), boot, ++lastNumber, body);
        outstanding = request;
        asked = 0;
        tries = mostTries;
        transmit(request);
        return request;
    }

    private void transmit(Request request) throws SessionException {
        if (!request.write(writer)) {
            throw new IllegalStateException("a request longer than a frame: " + request.body.type());
        }
        asked++;
        askedMicros = link.nowMicros();
        try {
            link.send(writer.frame(), writer.length());
        } catch (LinkException e) {
            throw lost(e);
        }
    }

    /** Asks again what was not answered in time. */
    void repeatIfDue() throws SessionException {
        Request request = outstanding;
        if (request == null || link.nowMicros() - askedMicros < settings.answerMicros()) {
            return;
        }
        if (asked >= tries) {
            outstanding = null;
            throw new SessionException(SessionException.Reason.SILENT, silence(request));
        }
        transmit(request);
    }

    private String silence(Request request) {
        String what = link.name() + " did not answer \"" + request.body.type() + "\" in "
                + settings.answerMicros() * tries / 1000 + " ms";
        return frames.goodFrames() == 0 && bytesSeen > 0
                ? what + "; bytes come, but nothing that can be read: is the baud rate right?"
                : what;
    }

    /** The time at which {@link #repeatIfDue} has something to do; the given one if that is earlier. */
    long wakeMicros(long atLatest) {
        return outstanding == null ? atLatest : Math.min(atLatest, askedMicros + settings.answerMicros());
    }

    /** Waits for bytes and hands on what is in them. */
    void receive(long untilMicros, Listener listener) throws SessionException {
        int bytes;
        try {
            bytes = link.receive(chunk, untilMicros);
        } catch (LinkException e) {
            throw lost(e);
        }
        bytesSeen += bytes;
        for (int i = 0; i < bytes; i++) {
            if (frames.accept(chunk[i])) {
                CborReader payload = frames.payload();
                Reply reply = Reply.read(payload);
                if (reply != null) {
                    listener.take(reply);
                }
            }
        }
    }

    /** Tells whether an answer is the one to the outstanding request, which then is no more. */
    boolean settles(int session, int number) {
        Request request = outstanding;
        if (request == null || request.session != session || request.number != number) {
            return false;
        }
        outstanding = null;
        return true;
    }

    void giveUpOutstanding() {
        outstanding = null;
    }

    long badFrames() {
        return frames.badFrames();
    }

    private static SessionException lost(LinkException e) {
        return new SessionException(SessionException.Reason.LINK, String.valueOf(e.getMessage()), e);
    }

    /** Takes what the rig says. */
    interface Listener {
        void take(Reply reply) throws SessionException;
    }
}
