package snagbench.wire;

/** Asks for one item of the description. */
public final class ItemRequest implements RequestBody {
    /** From 0 to one below the greeting's count. */
    public final int index;

    /**
     * All fields in the order in which they travel.
     *
     * @param index see the field
     */
    public ItemRequest(int index) {
        this.index = index;
    }

    static ItemRequest read(CborReader in) {
        return new ItemRequest(in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.ITEM_REQUEST;
    }

    @Override
    public int fields() {
        return 1;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(index);
    }
}
