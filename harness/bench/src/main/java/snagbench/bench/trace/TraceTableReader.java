package snagbench.bench.trace;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.quantity.Grid;
import snagbench.bench.script.quantity.Quantity;
import snagbench.wire.Event;
import snagbench.wire.Record;
import snagbench.wire.Wire;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.MappingIterator;
import tools.jackson.databind.ObjectReader;
import tools.jackson.dataformat.csv.CsvMapper;
import tools.jackson.dataformat.csv.CsvReadFeature;
import tools.jackson.dataformat.csv.CsvSchema;

/**
 * Makes a trace of a table, such as {@link TraceTable} writes or a logger from elsewhere. Columns go by their heads, in any
 * order; one of time is wanted, the others need not be there. Where there is no column of ticks, each row is a tick and the first row
 * is at time 0.
 */
public final class TraceTableReader {
    /** Between two rows the clock, which is 32 bits wide on a rig, must be told apart from one that wraps. */
    private static final long LONGEST_STEP_MICROS = Integer.MAX_VALUE;

    private final RigDescription rig;
    private final EventWords words;
    private final List<Column> columns = new ArrayList<>();
    private final Set<String> unknown = new HashSet<>();
    private int line;
    private int tickColumn = -1;
    private int timeColumn = -1;
    private int newestColumn = -1;
    private int eventsColumn = -1;
    private int activeColumn = -1;
    private Grid time = Grid.MICROSECONDS;
    private String timeUnit = "us";

    private int[] watched = new int[0];
    private int tick = -1;
    private long micros = -1;
    private long firstMicros;
    private int newestEvent;
    private long rounded;

    private TraceTableReader(RigDescription rig) {
        this.rig = rig;
        this.words = new EventWords(rig);
    }

    /** A column with readings of a channel. */
    private record Column(int at, ChannelDescription channel, int place, boolean told, String unit) {}

    /**
     * A trace that was made of a table.
     *
     * @param stored the trace
     * @param warnings what of the table was left out or changed, in sentences
     */
    public record Imported(StoredTrace stored, List<String> warnings) {
        /** Copies the list. */
        public Imported {
            warnings = List.copyOf(warnings);
        }
    }

    /**
     * Reads a table.
     *
     * @param from gives the text
     * @param rig whose channels the columns are
     * @return the trace; what has no column is not recorded in it
     * @throws IOException if it cannot be read, or is no such table; the message says in which line
     */
    public static Imported read(Reader from, RigDescription rig) throws IOException {
        BufferedReader text = new BufferedReader(from);
        char separator = separator(text);
        ObjectReader rows = new CsvMapper()
                .readerForListOf(String.class)
                .with(CsvReadFeature.WRAP_AS_ARRAY)
                .with(CsvSchema.emptySchema().withColumnSeparator(separator));
        try (MappingIterator<List<String>> each = rows.readValues(text)) {
            return new TraceTableReader(rig).read(each);
        } catch (JacksonException e) {
            throw new IOException("this is no table of comma-separated values: " + e.getOriginalMessage(), e);
        }
    }

    /** What stands between the heads; behind a byte order mark, which some programs write. */
    private static char separator(BufferedReader text) throws IOException {
        text.mark(1);
        if (text.read() != '\uFEFF') {
            text.reset();
        }
        int most = 1 << 16;
        text.mark(most);
        int commas = 0;
        int semicolons = 0;
        for (int i = 0; i < most - 1; i++) {
            int next = text.read();
            if (next < 0 || next == '\n') {
                break;
            }
            commas += next == ',' ? 1 : 0;
            semicolons += next == ';' ? 1 : 0;
        }
        text.reset();
        return semicolons > commas ? ';' : ',';
    }

    private Imported read(MappingIterator<List<String>> rows) throws IOException {
        if (!rows.hasNext()) {
            throw new IOException("the table is empty: a line with the columns' heads is wanted");
        }
        line = 1;
        heads(rows.next());
        TraceRecorder to = new TraceRecorder(rig, 1, watched, 0, 0, 0);
        while (rows.hasNext()) {
            List<String> cells = rows.next();
            line++;
            if (cells.stream().anyMatch(cell -> !cell.isBlank())) {
                row(cells, to);
            }
        }
        if (tick < 0) {
            throw new IOException("the table has no rows below its heads");
        }
        TraceHeader header = new TraceHeader(TraceHeader.Origin.IMPORT, "", 0, 0, "");
        return new Imported(new StoredTrace(header, to.trace(), true, 0), warnings());
    }

    private List<String> warnings() {
        List<String> warnings = new ArrayList<>();
        unknown.stream()
                .sorted()
                .forEach(head ->
                        warnings.add("the column \"" + head + "\" is none of the rig's channels; it was left out"));
        if (rounded > 0) {
            warnings.add(rounded + (rounded == 1 ? " reading lay" : " readings lay")
                    + " between two steps of the channel and went to the nearer one");
        }
        return warnings;
    }

    private void heads(List<String> heads) throws IOException {
        Set<String> seen = new HashSet<>();
        for (int at = 0; at < heads.size(); at++) {
            String head = Cell.text(heads.get(at));
            if (!head.isEmpty() && !seen.add(head.toLowerCase(Locale.ROOT))) {
                throw new IOException("line 1: two columns are called \"" + head + "\"");
            }
            head(at, head);
        }
        if (timeColumn < 0) {
            throw new IOException("line 1: a column of time is missing: \"us\", or \"time (s)\" with its unit");
        }
        watched = columns.stream()
                .mapToInt(column -> column.channel().index())
                .distinct()
                .sorted()
                .toArray();
        if (watched.length == 0 && eventsColumn < 0) {
            throw new IOException("line 1: none of the columns is a channel of the rig; its channels are such as \""
                    + rig.channels().get(0).name() + "\", with the unit behind them in brackets");
        }
        columns.replaceAll(column -> new Column(
                column.at(),
                column.channel(),
                java.util.Arrays.binarySearch(watched, column.channel().index()),
                column.told(),
                column.unit()));
    }

    private void head(int at, String head) throws IOException {
        int bracket = head.endsWith(")") ? head.lastIndexOf('(') : -1;
        String name = bracket < 0 ? head : head.substring(0, bracket).strip();
        String unit = bracket < 0
                ? ""
                : head.substring(bracket + 1, head.length() - 1).strip();
        switch (name) {
            case TraceTable.TICK -> tickColumn = at;
            case TraceTable.NEWEST -> newestColumn = at;
            case TraceTable.EVENTS -> eventsColumn = at;
            case TraceTable.ACTIVE -> activeColumn = at;
            case TraceTable.MICROS, "time" -> time(at, name, unit);
            default -> channel(at, head, name, unit);
        }
    }

    private void time(int at, String name, String unit) throws IOException {
        if (timeColumn >= 0) {
            throw new IOException("line 1: two columns of time");
        }
        timeUnit = name.equals(TraceTable.MICROS) ? "us" : unit;
        if (timeUnit.isEmpty() || !time.takes(timeUnit)) {
            throw new IOException("line 1: the unit of the column \"time\" is "
                    + (unit.isEmpty() ? "missing" : "\"" + unit + "\", which is none of time")
                    + "; write it behind in brackets, such as \"time (s)\"");
        }
        timeColumn = at;
    }

    private void channel(int at, String head, String name, String unit) throws IOException {
        Optional<ChannelDescription> real = rig.channel(name).or(() -> rig.channel(head));
        boolean told = real.isEmpty() && name.endsWith(TraceTable.TOLD);
        Optional<ChannelDescription> channel =
                told ? rig.channel(name.substring(0, name.length() - TraceTable.TOLD.length())) : real;
        if (channel.isEmpty()) {
            unknown.add(head);
            return;
        }
        String its = channel.get().unit();
        if (channel.get().valueNames().isEmpty() && !new Grid(its, channel.get().step()).takes(unit)) {
            throw new IOException("line 1: the unit of \"" + channel.get().name() + "\" is "
                    + (unit.isEmpty() ? "missing" : "\"" + unit + "\"") + "; "
                    + (its.isEmpty()
                            ? "the channel has none"
                            : "\"" + its + "\" or one that converts into it is wanted"));
        }
        columns.add(new Column(at, channel.get(), 0, told, unit));
    }

    private void row(List<String> cells, TraceRecorder to) throws IOException {
        int before = tick;
        long microsBefore = micros;
        long at = timeOf(cell(cells, timeColumn));
        if (tickColumn < 0 && before < 0) {
            firstMicros = at;
        }
        micros = at - firstMicros;
        tick = tickColumn < 0 ? before + 1 : whole(cell(cells, tickColumn), "tick");
        if (tick <= before) {
            throw new IOException("line " + line + ": tick " + tick + " behind tick " + before + "; they must ascend");
        }
        if (micros < 0 || micros <= microsBefore) {
            throw new IOException("line " + line + ": the time is not behind that of the row before");
        }
        if (micros - Math.max(0, microsBefore) > LONGEST_STEP_MICROS) {
            throw new IOException("line " + line + ": more than 35 minutes lie between this row and the one before");
        }
        events(cell(cells, eventsColumn), to);
        String newest = cell(cells, newestColumn);
        if (!newest.isEmpty()) {
            newestEvent = whole(newest, TraceTable.NEWEST);
        }
        readings(cells, to);
    }

    private long timeOf(String text) throws IOException {
        return roundedUp(time, quantity(text, timeUnit, "time")).longValue();
    }

    private static BigInteger roundedUp(Grid grid, Quantity quantity) {
        return grid.inSteps(quantity).setScale(0, RoundingMode.HALF_EVEN).toBigInteger();
    }

    private Quantity quantity(String text, String unit, String of) throws IOException {
        try {
            return new Quantity(new BigDecimal(text), unit);
        } catch (NumberFormatException e) {
            throw new IOException("line " + line + ": \"" + text + "\" is no number for \"" + of
                    + "\"; numbers are such as -12.5, without units and with a point");
        }
    }

    private int whole(String text, String of) throws IOException {
        try {
            int value = Integer.parseInt(text);
            if (value >= 0) {
                return value;
            }
        } catch (NumberFormatException e) {
            // Told below, together with what is below 0.
        }
        throw new IOException("line " + line + ": \"" + text + "\" is no whole number from 0 on for \"" + of + "\"");
    }

    private static String cell(List<String> cells, int at) {
        return at < 0 || at >= cells.size() ? "" : Cell.text(cells.get(at));
    }

    private void events(String text, TraceRecorder to) throws IOException {
        for (String one : text.isEmpty() ? new String[0] : text.split(";")) {
            String words = one.strip();
            int colon = words.indexOf(": ");
            int number = newestEvent + 1;
            if (colon > 0 && words.substring(0, colon).chars().allMatch(Character::isDigit)) {
                number = whole(words.substring(0, colon), "the number of an event");
                words = words.substring(colon + 2).strip();
            }
            String what = words;
            EventWords.Told told = this.words
                    .read(what)
                    .orElseThrow(
                            () -> new IOException(
                                    "line " + line + ": \"" + what
                                            + "\" is no event that is known; events are such as \"answered FS-02 1\" or \"entry-on 0 1\""));
            to.event(new Event(number, tick, (int) micros, told.kind().code(), told.a(), told.b()));
            newestEvent = Math.max(newestEvent, number);
        }
    }

    /** A row without any reading is one of events alone: of its tick there is no record. */
    private void readings(List<String> cells, TraceRecorder to) throws IOException {
        @Nullable Integer[] real = new Integer[watched.length];
        @Nullable Integer[] told = new Integer[watched.length];
        boolean any = false;
        for (Column column : columns) {
            String text = cell(cells, column.at());
            if (!text.isEmpty()) {
                (column.told() ? told : real)[column.place()] = raw(column, text);
                any = true;
            }
        }
        if (any) {
            records(real, told, activeMask(cell(cells, activeColumn)), to);
        }
    }

    private int raw(Column column, String text) throws IOException {
        ChannelDescription channel = column.channel();
        int named = channel.valueNames().indexOf(text);
        if (named >= 0) {
            return named;
        }
        Grid grid = new Grid(channel.unit(), channel.step());
        Quantity quantity = quantity(text, column.unit(), channel.name());
        if (!grid.has(quantity)) {
            rounded++;
        }
        BigInteger raw = roundedUp(grid, quantity);
        if (raw.bitLength() >= Integer.SIZE) {
            throw new IOException(
                    "line " + line + ": " + text + " is beyond what the channel \"" + channel.name() + "\" can tell");
        }
        return raw.intValueExact();
    }

    private int activeMask(String text) throws IOException {
        int mask = 0;
        for (String one : text.isEmpty() ? new String[0] : text.split(" +")) {
            int entry = whole(one, TraceTable.ACTIVE);
            if (entry >= Wire.MASK_BITS) {
                throw new IOException("line " + line + ": there is no entry " + entry);
            }
            mask |= 1 << entry;
        }
        return mask;
    }

    private void records(@Nullable Integer[] real, @Nullable Integer[] told, int active, TraceRecorder to) {
        List<int[]> stretches = new ArrayList<>();
        for (int place = 0; place < watched.length; place++) {
            // Where only what was told is known, nothing can be said of what was real.
            if (real[place] == null) {
                continue;
            }
            int[] last = stretches.isEmpty() ? new int[] {-1, -1} : stretches.get(stretches.size() - 1);
            if (last[1] == place && place - last[0] < Wire.MASK_BITS) {
                last[1] = place + 1;
            } else {
                stretches.add(new int[] {place, place + 1});
            }
        }
        for (int i = 0; i < stretches.size(); i++) {
            int first = stretches.get(i)[0];
            int count = stretches.get(i)[1] - first;
            int[] reals = new int[count];
            int[] tolds = new int[count];
            int forced = 0;
            for (int k = 0; k < count; k++) {
                Integer is = real[first + k];
                Integer said = told[first + k];
                reals[k] = is == null ? 0 : is;
                tolds[k] = said == null ? reals[k] : said;
                forced |= said == null ? 0 : 1 << k;
            }
            int flags = i + 1 < stretches.size() ? Record.MORE : 0;
            to.record(new Record.Builder()
                    .tick(tick, (int) micros)
                    .state(active, flags, newestEvent, 0)
                    .values(first, tolds, reals, forced, 0, 0)
                    .build());
        }
    }
}
