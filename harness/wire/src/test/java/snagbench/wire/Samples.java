package snagbench.wire;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Messages to test with. */
final class Samples {
    static final String NAME = "reach.position.of.shelf4";
    static final String UNIT = "mm/s^2*kg*A1";
    static final String BUILD = "1.0 no FS-01";
    private static final int MOST = Integer.MAX_VALUE;
    private static final int LEAST = Integer.MIN_VALUE;

    /** All ones: the greatest unsigned 32-bit value. */
    private static final int ALL = -1;

    private static final int LAST_CHANNEL = 255;
    private static final int LAST_ENTRY = 31;

    private Samples() {}

    /**
     * Every message but the record at the values that take the most bytes, as far as firmware-notes/wire-format.md lets a
     * rig of 64-byte frames go.
     */
    static List<Message> worst() {
        List<Message> all = new ArrayList<>();
        all.add(Message.of(new Request(ALL, 0, 1, new Open(23, 23))));
        for (RequestBody body : new RequestBody[] {
            new ItemRequest(65_535),
            new Watch(65_535, 255, channels()),
            new Entry(LAST_ENTRY, 15, LAST_CHANNEL, LEAST, LEAST, LAST_ENTRY, LAST_ENTRY, MOST, 23),
            new Timing(LAST_ENTRY, MOST, MOST, MOST, MOST, MOST, MOST),
            new Term(LAST_ENTRY, 2, LAST_CHANNEL, 1, 11, LEAST, 65_535),
            new Point(LAST_ENTRY, MOST, LEAST),
            new Guard(LAST_ENTRY, 2, LAST_CHANNEL, LEAST, LEAST, 65_535, MOST, LAST_CHANNEL),
            new Arm(32, ALL, 32, ALL, ALL),
            new Keep(Wire.LONGEST_LEASE_MILLIS, ALL),
            new Do(1, LAST_CHANNEL, LEAST),
            new LetGo()
        }) {
            all.add(Message.of(new Request(ALL, ALL, ALL, body)));
        }
        all.add(Message.of(new Hello(
                ALL, 1, 23, ALL, 5, 1, ALL, 65_535, 255, 65_535, 32, 255, 255, 23, 23, 64, 0xFFFF, 255, BUILD)));
        all.add(Message.of(new Item(ALL, ALL, 65_535, ItemKind.CHANNEL, new int[] {7, 23}, NAME, UNIT)));
        all.add(Message.of(new Item(ALL, ALL, 65_535, ItemKind.RANGE, new int[] {1000, -9, LEAST, MOST, LEAST})));
        all.add(Message.of(new Item(ALL, ALL, 65_535, ItemKind.VALUE_NAME, new int[] {LEAST}, NAME)));
        all.add(Message.of(new Item(ALL, ALL, 65_535, ItemKind.FAIL_SAFE, new int[] {255, LAST_CHANNEL}, NAME)));
        all.add(Message.of(new Event(ALL, ALL, ALL, 9, LEAST, LEAST)));
        all.add(Message.of(new Answer(ALL, ALL, 0, LEAST, ALL, ALL)));
        all.add(Message.of(new Answer(ALL, ALL, 14, LEAST, ALL, ALL)));
        return all;
    }

    private static int[] channels() {
        int[] channels = new int[16];
        for (int i = 0; i < channels.length; i++) {
            channels[i] = LAST_CHANNEL - i;
        }
        return channels;
    }

    /** The worst of all messages and some records. */
    static List<Message> all() {
        List<Message> all = new ArrayList<>(worst());
        SplittableRandom random = new SplittableRandom(1);
        all.add(Message.of(record(random, 0, 1)));
        all.add(Message.of(record(random, 3, 1)));
        all.add(Message.of(record(random, 12, 1)));
        all.add(Message.of(record(random, 12, 5)));
        all.add(Message.of(record(random, 32, 1)));
        return all;
    }

    /** Any message of the rig or the bench, records most often. */
    static Message random(SplittableRandom random) {
        if (random.nextInt(2) == 0) {
            return Message.of(record(random, random.nextInt(17), random.nextInt(3) == 0 ? 4 : 1));
        }
        return switch (random.nextInt(4)) {
            case 0 ->
                Message.of(new Event(
                        random.nextInt(),
                        random.nextInt(100_000),
                        random.nextInt(),
                        random.nextInt(10),
                        any(random),
                        any(random)));
            case 1 ->
                Message.of(new Answer(
                        random.nextInt(),
                        random.nextInt(500),
                        random.nextInt(15),
                        any(random),
                        any(random),
                        any(random)));
            case 2 ->
                Message.of(new Request(
                        random.nextInt(),
                        random.nextInt(),
                        random.nextInt(500),
                        new Entry(
                                random.nextInt(32),
                                random.nextInt(11),
                                random.nextInt(20),
                                any(random),
                                any(random),
                                -1,
                                -1,
                                any(random),
                                random.nextInt(4))));
            default -> {
                List<Message> worst = worst();
                yield worst.get(random.nextInt(worst.size()));
            }
        };
    }

    /** Small and great values alike. */
    private static int any(SplittableRandom random) {
        return random.nextInt() >> random.nextInt(32);
    }

    static Record record(SplittableRandom random, int channels, int period) {
        int mask = channels == 32 ? -1 : (1 << channels) - 1;
        int forced = random.nextInt() & mask;
        int[][] told = new int[3][];
        int[][] real = new int[3][];
        for (int i = 0; i < 3; i++) {
            told[i] = random.ints(channels).toArray();
            real[i] = told[i].clone();
            for (int place = 0; place < channels; place++) {
                if ((forced >>> place & 1) != 0) {
                    real[i][place] = any(random);
                }
            }
        }
        Record.Builder builder = new Record.Builder()
                .tick(random.nextInt(), random.nextInt())
                .state(random.nextInt(), random.nextInt(128), random.nextInt(), random.nextInt(10))
                .values(random.nextInt(40), told[0], real[0], forced, random.nextInt() & mask, random.nextInt() & mask);
        if (period > 1) {
            builder.period(
                    period,
                    random.nextInt(5_000),
                    random.nextInt(5_000, 90_000),
                    new int[][] {told[1], real[1]},
                    new int[][] {told[2], real[2]});
        }
        return builder.build();
    }
}
