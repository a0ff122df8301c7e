package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** The rig's answer to a request: {@link MessageType#ACK} or {@link MessageType#NO}. */
public final class Answer implements Reply {
    private static final int FIELDS = 7;

    /** Session of the request. */
    public final int session;

    /** Number of the request. */
    public final int number;

    /** 0 when done, else the code of a {@link Refusal}. */
    public final int code;

    /** A figure whose meaning hangs on the request or the refusal; 0 where there is none. */
    public final int word;

    /** The rig's tick when it answered. */
    public final int tick;

    /** The rig's clock at the start of that tick, in microseconds modulo 2^32. */
    public final int micros;

    /**
     * All fields in the order in which they travel.
     *
     * @param session see the field
     * @param number see the field
     * @param code see the field
     * @param word see the field
     * @param tick see the field
     * @param micros see the field
     */
    public Answer(int session, int number, int code, int word, int tick, int micros) {
        this.session = session;
        this.number = number;
        this.code = code;
        this.word = word;
        this.tick = tick;
        this.micros = micros;
    }

    /**
     * Tells whether the request was done.
     *
     * @return false if it was refused
     */
    public boolean done() {
        return code == 0;
    }

    static @Nullable Answer read(CborReader in, int fields) {
        if (fields != FIELDS - 1) {
            return null;
        }
        return new Answer(in.uint32(), in.uint32(), in.int32(), in.int32(), in.uint32(), in.uint32());
    }

    @Override
    public void write(CborWriter out) {
        write(out, session, number, code, word, tick, micros);
    }

    /**
     * Writes an answer without making one.
     *
     * @param out takes it
     * @param session see the field
     * @param number see the field
     * @param code see the field
     * @param word see the field
     * @param tick see the field
     * @param micros see the field
     */
    public static void write(CborWriter out, int session, int number, int code, int word, int tick, int micros) {
        out.array(FIELDS);
        out.integer((code == 0 ? MessageType.ACK : MessageType.NO).code());
        out.integer(session & 0xFFFFFFFFL);
        out.integer(number & 0xFFFFFFFFL);
        out.integer(code);
        out.integer(word);
        out.integer(tick & 0xFFFFFFFFL);
        out.integer(micros & 0xFFFFFFFFL);
    }
}
