package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.ToIntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.wire.WireFormatPage.Example;
import snagbench.wire.WireFormatPage.Table;

/** Holds {@code firmware-notes/wire-format.md}, the authority on the wire, and this code against each other. */
class WireFormatPageTests {
    private static final WireFormatPage PAGE = WireFormatPage.read();
    private static final int ROOMY = 4096;
    private static final Pattern RANGE =
            Pattern.compile("(\\S+?)(?:\\.\\.(\\S+?))?(?:, (\\S+?)(?:\\.\\.(\\d+))? times)?( bytes)?");

    static List<Example> examples() {
        return PAGE.examples();
    }

    static List<Table> messageTables() {
        return PAGE.tables("field");
    }

    @Test
    void pageHasAnExampleOfEveryMessageAndOfEveryItem() {
        Set<Integer> types = new TreeSet<>();
        Set<Integer> items = new TreeSet<>();
        for (Example example : examples()) {
            int type = (int) number(example, "type");
            types.add(type);
            if (type == MessageType.ITEM.code()) {
                items.add((int) number(example, "kind"));
            }
        }
        assertEquals(codes(MessageType.values(), MessageType::code), types);
        assertEquals(codes(ItemKind.values(), ItemKind::code), items);
    }

    private static <E> Set<Integer> codes(E[] all, ToIntFunction<E> code) {
        Set<Integer> codes = new TreeSet<>();
        for (E one : all) {
            codes.add(code.applyAsInt(one));
        }
        return codes;
    }

    /** The raw items of the frame are the example's values, one after the other. */
    @ParameterizedTest
    @MethodSource("examples")
    void framesHoldTheValuesOfTheirExampleInOrder(Example example) {
        List<Object> stated = new ArrayList<>();
        example.values().values().forEach(stated::addAll);
        FrameReader reader = reader(example);
        CborReader in = reader.payload();
        List<Object> found = new ArrayList<>();
        int items = in.array();
        for (int i = 0; i < items; i++) {
            boolean text = (reader.bytes()[in.position()] & 0xE0) == 0x60;
            found.add(text ? in.text() : (Object) in.integer());
        }
        assertTrue(in.complete());
        assertEquals(stated, found);
    }

    /** What this code makes of the frame is what the example says by name. */
    @ParameterizedTest
    @MethodSource("examples")
    void framesAreUnderstoodAsTheirExampleSays(Example example) {
        Message message = decode(example);
        assertEquals(number(example, "type"), message.type().code());
        Map<String, List<Object>> understood = byName(message, example);
        for (Map.Entry<String, List<Object>> value : example.values().entrySet()) {
            if (value.getKey().equals("type")) {
                continue;
            }
            List<Object> ours = understood.get(value.getKey());
            assertNotNull(ours, () -> "no field is named " + value.getKey() + " in " + understood.keySet());
            assertEquals(bits(value.getValue()), bits(ours), value.getKey());
        }
    }

    @ParameterizedTest
    @MethodSource("examples")
    void framesAreWrittenAgainAsTheyStand(Example example) {
        assertEquals(Hex.text(example.frame()), Hex.text(decode(example).frame(ROOMY)));
    }

    @ParameterizedTest
    @MethodSource("examples")
    void everyExampleHasTheFieldsOfItsTableAndValuesInTheirRanges(Example example) {
        Table table = PAGE.table(example.heading(), "field");
        boolean period =
                example.values().getOrDefault("period ticks", List.of(1L)).equals(List.of(1L));
        List<String> fields = new ArrayList<>();
        for (List<String> row : table.rows()) {
            if (row.get(4).startsWith("\u00b9") && period) {
                continue;
            }
            fields.add(row.get(0));
            List<Object> values = example.values().get(row.get(0));
            assertNotNull(values, row.get(0));
            Field32 field = Field32.of(row);
            for (Object value : values) {
                field.check(value);
            }
        }
        assertEquals(fields, List.copyOf(example.values().keySet()));
    }

    /** The page promises that everything but a record fits 64 bytes; here its own ranges are taken at their word. */
    @ParameterizedTest
    @MethodSource("messageTables")
    void messagesFitTheSmallestFrameAtTheWorstOfTheirRanges(Table table) {
        if (table.heading().equals("record")) {
            return;
        }
        int items = 0;
        int bytes = 0;
        for (List<String> row : table.rows()) {
            Field32 field = Field32.of(row);
            items += field.most();
            bytes += field.most() * field.longest();
        }
        int payload = head(items) + bytes;
        // Checksum, one byte of stuffing (below 254 bytes), delimiter.
        assertTrue(payload + 4 + 1 + 1 <= Wire.SMALLEST_FRAME, table.heading() + " takes " + (payload + 6) + " bytes");
    }

    @Test
    void pageHasATableForEveryExampleAndNoOther() {
        Set<String> withTable = new TreeSet<>();
        messageTables().forEach(table -> withTable.add(table.heading()));
        Set<String> withExample = new TreeSet<>();
        examples().forEach(example -> withExample.add(example.heading()));
        assertEquals(withTable, withExample);
        assertEquals(21, withTable.size());
    }

    @Test
    void codesOnThePageAreThoseOfTheCode() {
        Map<String, Map<Integer, String>> ours = new TreeMap<>();
        put(ours, MessageType.values(), MessageType::code);
        put(ours, ChannelKind.values(), ChannelKind::code);
        put(ours, Comparison.values(), Comparison::code);
        put(ours, EntryEnd.values(), EntryEnd::code);
        put(ours, EntryKind.values(), EntryKind::code);
        put(ours, EventKind.values(), EventKind::code);
        put(ours, GuardKind.values(), GuardKind::code);
        put(ours, ItemKind.values(), ItemKind::code);
        put(ours, Refusal.values(), Refusal::code);
        put(ours, ResetCause.values(), ResetCause::code);
        put(ours, StopReason.values(), StopReason::code);
        put(ours, TermRole.values(), TermRole::code);
        Map<String, Map<Integer, String>> pages = new TreeMap<>();
        for (Table table : PAGE.tables("code")) {
            Map<Integer, String> codes = new TreeMap<>();
            table.rows().forEach(row -> codes.put(Integer.valueOf(row.get(0)), row.get(1)));
            assertEquals(table.rows().size(), codes.size(), table.heading() + ": a code twice");
            pages.put(table.heading(), codes);
        }
        assertEquals(ours, pages);
    }

    private static <E extends Enum<E>> void put(Map<String, Map<Integer, String>> to, E[] all, ToIntFunction<E> code) {
        Map<Integer, String> codes = new TreeMap<>();
        for (E one : all) {
            codes.put(code.applyAsInt(one), one.name().toLowerCase(Locale.ROOT).replace('_', '-'));
        }
        to.put("Code: " + words(all[0].getDeclaringClass().getSimpleName()), codes);
    }

    @Test
    void bitsOnThePageAreThoseOfTheCode() {
        assertEquals(constants(Entry.class, '-'), values("Bits: entry flags", "value"));
        assertEquals(constants(Item.class, '-'), values("Bits: channel flags", "value"));
        assertEquals(constants(Record.class, '-'), values("Bits: record flags", "value"));
        assertEquals(constants(Do.class, '-'), values("Bits: do", "value"));
    }

    @Test
    void whatCanBeLeftOutIsAboveTheEntryKindsInTheGreeting() {
        Map<String, Integer> leftOut = new TreeMap<>();
        for (LeftOut one : LeftOut.values()) {
            leftOut.put(one.name().toLowerCase(Locale.ROOT).replace('_', '-'), 1 << one.bit());
            assertTrue(one.isIn(1 << one.bit()) && !one.isIn(~(1 << one.bit())), one::name);
        }
        assertEquals(leftOut, values("Bits: left out", "value"));
        for (EntryKind kind : EntryKind.values()) {
            assertTrue(LeftOut.TIMINGS.bit() > kind.code(), kind::name);
        }
    }

    @Test
    void figuresOnThePageAreThoseOfTheCode() {
        Map<String, Integer> figures = new TreeMap<>();
        PAGE.table("Figures", "figure").rows().forEach(row -> figures.put(row.get(0), Integer.valueOf(row.get(1))));
        assertEquals(constants(Wire.class, ' '), figures);
    }

    private static Map<String, Integer> values(String heading, String firstColumn) {
        Map<String, Integer> values = new TreeMap<>();
        PAGE.table(heading, firstColumn).rows().forEach(row -> values.put(row.get(1), Integer.valueOf(row.get(0))));
        return values;
    }

    /** Public constants of a class by name. */
    private static Map<String, Integer> constants(Class<?> from, char between) {
        Map<String, Integer> constants = new TreeMap<>();
        for (Field field : from.getDeclaredFields()) {
            int modifiers = field.getModifiers();
            if (Modifier.isPublic(modifiers) && Modifier.isStatic(modifiers)) {
                String name = field.getName().toLowerCase(Locale.ROOT).replace('_', between);
                constants.put(name, intOf(field));
            }
        }
        return constants;
    }

    private static int intOf(Field field) {
        try {
            return field.getInt(null);
        } catch (IllegalAccessException impossible) {
            throw new AssertionError(impossible);
        }
    }

    @Test
    void digestsOfTheExamplesAreThoseThatTheExamplesTell() {
        Example arm = example("arm");
        assertEquals((int) number(arm, "digest"), digest("entry", "timing", "term", "point"));
        assertEquals((int) number(arm, "guard digest"), digest("guard"));
        CRC32 description = new CRC32();
        int items = 0;
        for (Example example : examples()) {
            if (example.heading().startsWith("item: ")) {
                Item item = (Item) decode(example).reply();
                assertNotNull(item);
                assertEquals(items++, item.index, "examples of items are a whole description");
                CborWriter content = new CborWriter(Wire.SMALLEST_FRAME);
                item.writeContent(content);
                description.update(content.buffer(), 0, content.length());
            }
        }
        assertEquals(number(example("hello"), "digest"), description.getValue());
        assertEquals(number(example("hello"), "items"), items);
    }

    private static int digest(String... headings) {
        ProgramDigest digest = new ProgramDigest();
        for (String heading : headings) {
            Request request = decode(example(heading)).request();
            assertNotNull(request);
            digest.add(request.body);
        }
        return digest.value();
    }

    /** Every message but the record reaches its longest where this code's own worst samples do. */
    @Test
    void worstSamplesOfTheTestsKeepToTheRangesOfThePage() {
        Set<MessageType> seen = EnumSet.noneOf(MessageType.class);
        for (Message message : Samples.worst()) {
            seen.add(message.type());
            FrameReader reader = new FrameReader(ROOMY);
            for (byte one : message.frame(ROOMY)) {
                reader.accept(one);
            }
            CborReader in = reader.payload();
            in.array();
            Table table = PAGE.table(headingOf(message), "field");
            for (List<String> row : table.rows()) {
                Field32 field = Field32.of(row);
                for (int i = 0; i < field.most(); i++) {
                    field.check(field.isText() ? in.text() : (Object) in.integer());
                }
            }
            assertTrue(in.complete(), () -> "fields of " + message);
        }
        seen.add(MessageType.RECORD);
        assertEquals(EnumSet.allOf(MessageType.class), seen);
    }

    private static String headingOf(Message message) {
        if (message.reply() instanceof Item item) {
            return "item: " + item.kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
        return message.type() == MessageType.LET_GO
                ? "let-go"
                : message.type().name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static Example example(String heading) {
        return examples().stream()
                .filter(example -> example.heading().equals(heading))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no example of " + heading));
    }

    private static long number(Example example, String field) {
        List<Object> values = example.values().get(field);
        assertNotNull(values, () -> example + " has no " + field);
        return (Long) values.get(0);
    }

    private static FrameReader reader(Example example) {
        FrameReader reader = new FrameReader(ROOMY);
        byte[] frame = example.frame();
        for (int i = 0; i < frame.length; i++) {
            assertEquals(i == frame.length - 1, reader.accept(frame[i]), () -> "a whole good frame: " + example);
        }
        return reader;
    }

    private static Message decode(Example example) {
        FrameReader reader = reader(example);
        Message message = Message.read(reader.payload(), reader.bytes());
        assertNotNull(message, () -> "understood: " + example);
        return message;
    }

    /** The fields of a message under the names of the page; what travels as a list there is a list here. */
    private static Map<String, List<Object>> byName(Message message, Example example) {
        Map<String, List<Object>> named = new LinkedHashMap<>();
        if (message.reply() instanceof Record record) {
            named.put("count", List.of(record.count()));
            put(named, "told", record.count(), -1, record::told);
            put(named, "real", record.count(), record.forced, record::real);
            put(named, "least told", record.count(), -1, record::leastTold);
            put(named, "greatest told", record.count(), -1, record::greatestTold);
            put(named, "least real", record.count(), record.forced, record::leastReal);
            put(named, "greatest real", record.count(), record.forced, record::greatestReal);
        } else if (message.reply() instanceof Item item) {
            named.put("kind", List.of(item.kind.code()));
            List<String> names = List.copyOf(example.values().keySet());
            int figures = 0;
            int texts = 0;
            for (String name : names.subList(names.indexOf("kind") + 1, names.size())) {
                boolean text = example.values().getOrDefault(name, List.of(0L)).get(0) instanceof String;
                named.put(name, List.of(text ? item.text(texts++) : (Object) item.figure(figures++)));
            }
        }
        message.fields().forEach((name, value) -> named.putIfAbsent(words(name), listOf(value)));
        return named;
    }

    private interface Values {
        int at(int place);
    }

    private static void put(Map<String, List<Object>> to, String name, int count, int mask, Values values) {
        List<Object> list = new ArrayList<>();
        for (int place = 0; place < count; place++) {
            if ((mask >>> place & 1) != 0) {
                list.add(values.at(place));
            }
        }
        to.put(name, list);
    }

    private static List<Object> listOf(Object value) {
        return value instanceof List<?> list ? List.copyOf(list) : List.of(value);
    }

    /** Numbers as their 32 bits, so that signed and unsigned readings of the same bits agree. */
    private static List<Object> bits(List<Object> values) {
        return values.stream()
                .map(value -> value instanceof Number number ? (Object) number.intValue() : value)
                .toList();
    }

    /** "leaseMillis" as "lease millis". */
    private static String words(String name) {
        return name.replaceAll("(?<=[a-z])(?=[A-Z])", " ").toLowerCase(Locale.ROOT);
    }

    private static int head(long argument) {
        return argument < 24 ? 1 : argument <= 0xFF ? 2 : argument <= 0xFFFF ? 3 : 5;
    }

    /** Type and range of a field, as its row says. */
    private record Field32(String name, String type, long least, long greatest, int most) {
        static Field32 of(List<String> row) {
            String type = row.get(1);
            Matcher range = RANGE.matcher(row.get(3));
            assertTrue(range.matches(), () -> "range of " + row);
            long least = bound(range.group(1));
            long greatest = range.group(2) == null ? least : bound(range.group(2));
            assertTrue(least <= greatest, () -> "range of " + row);
            assertEquals(type.equals("text"), range.group(5) != null, () -> "a text's range is in bytes: " + row);
            assertEquals(type.equals("i32 list"), range.group(3) != null, () -> "a list says how many: " + row);
            if (type.equals("u32")) {
                assertTrue(least >= 0 && greatest <= 0xFFFFFFFFL, () -> "u32: " + row);
            } else if (type.startsWith("i32")) {
                assertTrue(least >= Integer.MIN_VALUE && greatest <= Integer.MAX_VALUE, () -> "i32: " + row);
            } else {
                assertEquals("text", type);
            }
            int most = range.group(4) == null ? 1 : Integer.parseInt(range.group(4));
            return new Field32(row.get(0), type, least, greatest, most);
        }

        private static long bound(String text) {
            String power = text.startsWith("-") ? text.substring(1) : text;
            long value;
            if (power.startsWith("2^")) {
                String[] parts = power.substring(2).split("-", 2);
                value = (1L << Integer.parseInt(parts[0])) - (parts.length == 2 ? Integer.parseInt(parts[1]) : 0);
            } else {
                value = Long.parseLong(power);
            }
            return text.startsWith("-") ? -value : value;
        }

        boolean isText() {
            return type.equals("text");
        }

        int longest() {
            if (isText()) {
                return WireFormatPageTests.head(greatest) + (int) greatest;
            }
            long negative = least < 0 ? -1 - least : 0;
            return Math.max(WireFormatPageTests.head(negative), WireFormatPageTests.head(Math.max(0, greatest)));
        }

        void check(Object value) {
            long size = value instanceof String text ? text.getBytes(StandardCharsets.UTF_8).length : (Long) value;
            assertTrue(
                    least <= size && size <= greatest,
                    () -> name + " of " + value + ", not in " + least + ".." + greatest);
        }
    }
}
