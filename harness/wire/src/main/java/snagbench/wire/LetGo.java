package snagbench.wire;

/** Asks for the safe stop; answered when it has run and everything forced is dropped. */
public final class LetGo implements RequestBody {
    /** Has no fields. */
    public LetGo() {}

    static LetGo read(CborReader in) {
        return new LetGo();
    }

    @Override
    public MessageType type() {
        return MessageType.LET_GO;
    }

    @Override
    public int fields() {
        return 0;
    }

    @Override
    public void write(CborWriter out) {}
}
