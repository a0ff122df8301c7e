package snagbench.bench.session;

import java.util.List;
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

    /** So long a rig may send what cannot be read, until the baud rate is asked for. */
    private static final long BABBLE_MICROS = 2_000_000;

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
    private long firstByteMicros;
    private long receivedMicros;
    private long repeated;

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

    /** Numbers begin at 1 again, for a session that is asked for anew. */
    void beginAgain() {
        lastNumber = 0;
        outstanding = null;
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
        repeated++;
        transmit(request);
    }

    /** What was asked last is asked again in the next cycle: whoever was to answer it has just started. */
    void askAgainSoon() {
        askedMicros = link.nowMicros() - settings.answerMicros();
    }

    private String silence(Request request) {
        String what = link.name() + " did not answer \"" + request.body.type() + "\" in "
                + settings.answerMicros() * tries / 1000 + " ms";
        if (frames.goodFrames() == 0) {
            what += bytesSeen > 0
                    ? "; bytes come, but nothing that can be read: is the baud rate right?"
                    : "; not one byte came: is it the right port and speed, has the controller power, does its control code run?";
        }
        List<String> others = link.others();
        return others.isEmpty()
                ? what
                : what + "; " + String.join(" and ", others) + " has the port open too and may take away bytes";
    }

    /** Ends the wait for a greeting that cannot come, since nothing that comes can be read. */
    void failIfUnreadable() throws SessionException {
        boolean babbles = bytesSeen > 0
                && frames.goodFrames() == 0
                && receivedMicros - firstByteMicros >= BABBLE_MICROS
                && outstanding != null;
        if (babbles) {
            throw new SessionException(
                    SessionException.Reason.SILENT,
                    link.name() + " sends bytes, but for " + BABBLE_MICROS / 1_000_000
                            + " s nothing that can be read: is the baud rate right?");
        }
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
        if (bytes > 0) {
            receivedMicros = link.nowMicros();
            firstByteMicros = bytesSeen == 0 ? receivedMicros : firstByteMicros;
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

    /** When the last request was sent, on the link's clock. */
    long askedMicros() {
        return askedMicros;
    }

    /** True if the last request went out more than once: nobody knows which one was answered. */
    boolean wasRepeated() {
        return asked > 1;
    }

    /** When the bytes came that are being handed on, on the link's clock. */
    long receivedMicros() {
        return receivedMicros;
    }

    /** How often a request had to be sent again. */
    long repeated() {
        return repeated;
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
