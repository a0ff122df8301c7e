package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A message of either side, so that tests can treat all alike: exactly one of its parts is there. */
record Message(@Nullable Request request, @Nullable Reply reply) {
    static Message of(Request request) {
        return new Message(request, null);
    }

    static Message of(Reply reply) {
        return new Message(null, reply);
    }

    /** Reads the payload of a frame; null if it is neither. */
    static @Nullable Message read(byte[] payload) {
        CborReader in = new CborReader();
        in.reset(payload, 0, payload.length);
        return read(in, payload);
    }

    /** Reads what a frame reader found, by the way that the type asks for: codes of requests are below 32. */
    static @Nullable Message read(CborReader in, byte[] bytes) {
        CborReader head = new CborReader();
        head.reset(bytes, in.position(), bytes.length);
        head.array();
        if (head.int32() < MessageType.HELLO.code()) {
            Request request = Request.read(in);
            return request == null ? null : of(request);
        }
        Reply reply = Reply.read(in);
        return reply == null ? null : of(reply);
    }

    boolean write(FrameWriter out) {
        if (request != null) {
            return request.write(out);
        }
        said().write(out.begin());
        return out.end();
    }

    byte[] frame(int longest) {
        FrameWriter out = new FrameWriter(longest);
        assertTrue(write(out), () -> this + " is longer than " + longest);
        return Arrays.copyOf(out.frame(), out.length());
    }

    MessageType type() {
        if (request != null) {
            return request.body.type();
        }
        if (reply instanceof Answer answer) {
            return answer.done() ? MessageType.ACK : MessageType.NO;
        }
        return MessageType.valueOf(said().getClass().getSimpleName().toUpperCase(Locale.ROOT));
    }

    /** All fields of the message by their names, private ones too, arrays as lists. */
    Map<String, Object> fields() {
        Map<String, Object> fields = new LinkedHashMap<>();
        fields.put("message", type());
        if (request != null) {
            gather(request, fields);
            fields.remove("body");
            gather(request.body, fields);
        } else {
            gather(said(), fields);
        }
        return fields;
    }

    private Reply said() {
        if (reply == null) {
            throw new AssertionError("neither request nor reply");
        }
        return reply;
    }

    private static void gather(Object from, Map<String, Object> fields) {
        for (Field field : from.getClass().getDeclaredFields()) {
            if (Modifier.isStatic(field.getModifiers())) {
                continue;
            }
            field.setAccessible(true);
            try {
                Object value = field.get(from);
                fields.put(field.getName(), value.getClass().isArray() ? listOf(value) : value);
            } catch (IllegalAccessException impossible) {
                throw new AssertionError(impossible);
            }
        }
    }

    private static List<Object> listOf(Object array) {
        List<Object> list = new ArrayList<>();
        for (int i = 0; i < Array.getLength(array); i++) {
            list.add(Array.get(array, i));
        }
        return list;
    }

    @Override
    public String toString() {
        return fields().toString();
    }
}
