package snagbench.fitting;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import snagbench.probe.ProbeLine;
import snagbench.wire.Answer;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;

/** A bench at the other end of a line in memory. */
final class Bench implements ProbeLine {
    static final int BOOT = 7;

    private static final int SESSION = 0x51;
    private static final int FRAME = 256;

    private final Deque<Byte> toRig = new ArrayDeque<>();
    private final FrameReader reader = new FrameReader(FRAME);
    private final FrameWriter writer = new FrameWriter(FRAME);
    private final List<Reply> heard = new ArrayList<>();
    private int number;

    @Override
    public int read() {
        return toRig.isEmpty() ? -1 : toRig.remove() & 0xFF;
    }

    @Override
    public int write(byte[] bytes, int from, int length) {
        for (int i = from; i < from + length; i++) {
            Reply reply = reader.accept(bytes[i]) ? Reply.read(reader.payload()) : null;
            if (reply != null) {
                heard.add(reply);
            }
        }
        return length;
    }

    /** Asks, has the loop make some passes, and gives the code of the answer: 0 for done; -1 where there is none. */
    int ask(RequestBody body, Runnable passes) {
        int boot = number == 0 ? 0 : BOOT;
        if (!new Request(SESSION, boot, ++number, body).write(writer)) {
            throw new IllegalStateException("a request longer than a frame");
        }
        for (int i = 0; i < writer.length(); i++) {
            toRig.add(writer.frame()[i]);
        }
        passes.run();
        return all(Answer.class).stream()
                .filter(answer -> answer.number == number)
                .mapToInt(answer -> answer.code)
                .findFirst()
                .orElse(-1);
    }

    <T extends Reply> List<T> all(Class<T> type) {
        return heard.stream().filter(type::isInstance).map(type::cast).toList();
    }
}
