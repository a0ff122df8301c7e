package snagbench.wire;

import org.jspecify.annotations.Nullable;

/**
 * One item of the rig's description. Which figures and texts it has, its kind says:
 *
 * <ul>
 *   <li>{@link ItemKind#CHANNEL}: channel kind, flags; name, unit
 *   <li>{@link ItemKind#RANGE}: step multiplier m, step exponent e (a step is m * 10^e of the unit), lowest, highest, value when absent
 *   <li>{@link ItemKind#VALUE_NAME}: value; name
 *   <li>{@link ItemKind#FAIL_SAFE}: number, inhibition's channel or -1; name
 * </ul>
 */
public final class Item implements Reply {
    /** Flag of a channel: the control code closes a control loop over it. */
    public static final int CLOSES_LOOP = 1;

    /** Flag of an actuator: an override may weaken it. */
    public static final int MAY_BE_WEAKENED = 2;

    /** Flag of a state: it is the step of the control code's sequence. */
    public static final int STEP = 4;

    private static final int HEADER_FIELDS = 4;

    /** Session of the request. */
    public final int session;

    /** Number of the request. */
    public final int number;

    /** Place in the description, from 0. */
    public final int index;

    /** What it tells. */
    public final ItemKind kind;

    private final int[] figures;
    private final String[] texts;

    /**
     * An item with the figures and texts of its kind.
     *
     * @param session see the field
     * @param number see the field
     * @param index see the field
     * @param kind see the field
     * @param figures as many as the kind has
     * @param texts as many as the kind has
     * @throws IllegalArgumentException if the counts are not those of the kind
     */
    public Item(int session, int number, int index, ItemKind kind, int[] figures, String... texts) {
        if (figures.length != figuresOf(kind) || texts.length != textsOf(kind)) {
            throw new IllegalArgumentException(kind + " takes " + figuresOf(kind) + " figures and " + textsOf(kind)
                    + " texts, found " + figures.length + " and " + texts.length);
        }
        this.session = session;
        this.number = number;
        this.index = index;
        this.kind = kind;
        this.figures = figures.clone();
        this.texts = texts.clone();
    }

    private static int figuresOf(ItemKind kind) {
        switch (kind) {
            case RANGE:
                return 5;
            case VALUE_NAME:
                return 1;
            default:
                return 2;
        }
    }

    private static int textsOf(ItemKind kind) {
        switch (kind) {
            case CHANNEL:
                return 2;
            case RANGE:
                return 0;
            default:
                return 1;
        }
    }

    /**
     * One figure.
     *
     * @param place from 0, in the order of the class's list
     * @return the figure
     */
    public int figure(int place) {
        return figures[place];
    }

    /**
     * One text.
     *
     * @param place from 0, in the order of the class's list
     * @return the text
     */
    public String text(int place) {
        return texts[place];
    }

    /**
     * The same item as the answer to another request.
     *
     * @param toSession session of that request
     * @param toNumber number of that request
     * @return an item
     */
    public Item answering(int toSession, int toNumber) {
        return new Item(toSession, toNumber, index, kind, figures, texts);
    }

    static @Nullable Item read(CborReader in, int fields) {
        int session = in.uint32();
        int number = in.uint32();
        int index = in.int32();
        ItemKind kind = ItemKind.of(in.int32());
        if (in.failed() || kind == null || fields != HEADER_FIELDS + figuresOf(kind) + textsOf(kind)) {
            return null;
        }
        int[] figures = new int[figuresOf(kind)];
        for (int i = 0; i < figures.length; i++) {
            figures[i] = in.int32();
        }
        String[] texts = new String[textsOf(kind)];
        for (int i = 0; i < texts.length; i++) {
            texts[i] = in.text();
        }
        return new Item(session, number, index, kind, figures, texts);
    }

    @Override
    public void write(CborWriter out) {
        out.array(1 + HEADER_FIELDS + figures.length + texts.length);
        out.integer(MessageType.ITEM.code());
        out.integer(session & 0xFFFFFFFFL);
        out.integer(number & 0xFFFFFFFFL);
        out.integer(index);
        writeContent(out);
    }

    /**
     * Writes kind, figures and texts alone: what the digest of a description is made over, item after item.
     *
     * @param out takes them
     */
    public void writeContent(CborWriter out) {
        out.integer(kind.code());
        for (int figure : figures) {
            out.integer(figure);
        }
        for (String text : texts) {
            out.text(text);
        }
    }
}
