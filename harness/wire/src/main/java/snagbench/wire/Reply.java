package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** A message from the rig to the bench. */
public interface Reply {
    /**
     * Writes the whole message, type first.
     *
     * @param out takes it
     */
    void write(CborWriter out);

    /**
     * Reads a message of the rig.
     *
     * @param in at the head of the array
     * @return the message; null if it is of an unknown type or malformed
     */
    static @Nullable Reply read(CborReader in) {
        int fields = in.array() - 1;
        MessageType type = MessageType.of(in.int32());
        if (in.failed() || type == null) {
            return null;
        }
        @Nullable Reply reply;
        switch (type) {
            case HELLO:
                reply = Hello.read(in, fields);
                break;
            case ITEM:
                reply = Item.read(in, fields);
                break;
            case RECORD:
                reply = Record.read(in, fields);
                break;
            case EVENT:
                reply = Event.read(in, fields);
                break;
            case ACK:
            case NO:
                reply = Answer.read(in, fields);
                break;
            default:
                return null;
        }
        return in.complete() ? reply : null;
    }
}
