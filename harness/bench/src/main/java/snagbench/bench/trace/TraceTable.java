package snagbench.bench.trace;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import snagbench.bench.script.ChannelDescription;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.SequenceWriter;
import tools.jackson.dataformat.csv.CsvMapper;

/**
 * A trace as a table, comma-separated (RFC 4180, UTF-8): a row for each record, for programs that draw curves.
 *
 * <p>Columns: {@code tick}, {@code us} (microseconds since arming), {@code newest event}, {@code events}, {@code active} (numbers
 * of the active entries), then for each recorded channel its real reading, with the unit in the head, and where it was told
 * otherwise at some time, one with the head's addition "told", empty where told and real are the same. What is not known is
 * empty. {@code docs/trace-files.md} tells what a table leaves out.
 */
public final class TraceTable {
    static final String TICK = "tick";
    static final String MICROS = "us";
    static final String NEWEST = "newest event";
    static final String EVENTS = "events";
    static final String ACTIVE = "active";
    static final String TOLD = " told";
    static final String BETWEEN = "; ";
    private static final int BITS = 32;

    private final Trace trace;
    private final EventWords words;
    private final List<ChannelDescription> channels = new ArrayList<>();
    private final List<ChannelDescription> toldOtherwise = new ArrayList<>();

    private TraceTable(Trace trace) {
        this.trace = trace;
        this.words = new EventWords(trace.rig());
        for (int index : trace.watchedChannels()) {
            ChannelDescription channel = trace.rig().channels().get(index);
            channels.add(channel);
            if (isToldOtherwise(index)) {
                toldOtherwise.add(channel);
            }
        }
    }

    private boolean isToldOtherwise(int channel) {
        for (int row = 0; row < trace.rows(); row++) {
            if (trace.has(row, channel) && trace.told(row, channel) != trace.real(row, channel)) {
                return true;
            }
        }
        return false;
    }

    /**
     * Writes a trace; of one with a restart, the part before it.
     *
     * @param trace what was seen, a record for each tick
     * @param to takes the text; it is not closed
     * @throws IOException if it does not take it, or a record speaks for several ticks
     */
    public static void write(Trace trace, Writer to) throws IOException {
        if (trace.periodTicks() > 1) {
            throw new IOException("each record of this trace speaks for " + trace.periodTicks()
                    + " ticks; a table has one row a tick");
        }
        try (SequenceWriter rows = new CsvMapper()
                .writerFor(List.class)
                .without(tools.jackson.core.StreamWriteFeature.AUTO_CLOSE_TARGET)
                .writeValues(to)) {
            new TraceTable(trace).write(rows);
        } catch (JacksonException e) {
            throw new IOException(e.getOriginalMessage(), e);
        }
        to.flush();
    }

    private void write(SequenceWriter rows) {
        rows.write(heads());
        int written = 0;
        List<Happening> events = trace.events();
        for (int row = 0; row < trace.rows(); row++) {
            int tick = trace.tick(row);
            // Events of a tick whose record was lost get a row of their own.
            while (written < events.size() && events.get(written).tick() < tick) {
                int of = written;
                while (written < events.size()
                        && events.get(written).tick() == events.get(of).tick()) {
                    written++;
                }
                rows.write(eventsAlone(events.subList(of, written)));
            }
            int of = written;
            while (written < events.size() && events.get(written).tick() == tick) {
                written++;
            }
            rows.write(cells(row, events.subList(of, written)));
        }
        while (written < events.size()) {
            int of = written;
            while (written < events.size()
                    && events.get(written).tick() == events.get(of).tick()) {
                written++;
            }
            rows.write(eventsAlone(events.subList(of, written)));
        }
    }

    private List<String> heads() {
        List<String> heads = new ArrayList<>(List.of(TICK, MICROS, NEWEST, EVENTS, ACTIVE));
        for (ChannelDescription channel : channels) {
            heads.add(Cell.of(channel.name() + unit(channel)));
            if (toldOtherwise.contains(channel)) {
                heads.add(Cell.of(channel.name() + TOLD + unit(channel)));
            }
        }
        return heads;
    }

    private static String unit(ChannelDescription channel) {
        return channel.unit().isEmpty() ? "" : " (" + channel.unit() + ")";
    }

    private List<String> cells(int row, List<Happening> events) {
        List<String> cells = new ArrayList<>(List.of(
                Integer.toString(trace.tick(row)),
                Long.toString(trace.micros(row)),
                Integer.toString(trace.newestEvent(row)),
                events(events),
                active(trace.active(row))));
        for (ChannelDescription channel : channels) {
            boolean has = trace.has(row, channel.index());
            int real = has ? trace.real(row, channel.index()) : 0;
            int told = has ? trace.told(row, channel.index()) : 0;
            cells.add(has ? value(channel, real) : "");
            if (toldOtherwise.contains(channel)) {
                cells.add(told == real ? "" : value(channel, told));
            }
        }
        return cells;
    }

    private List<String> eventsAlone(List<Happening> events) {
        Happening first = events.get(0);
        List<String> cells = new ArrayList<>(
                List.of(Integer.toString(first.tick()), Long.toString(first.micros()), "", events(events), ""));
        for (int i = 0; i < channels.size() + toldOtherwise.size(); i++) {
            cells.add("");
        }
        return cells;
    }

    private String events(List<Happening> events) {
        StringBuilder text = new StringBuilder();
        for (Happening one : events) {
            text.append(text.isEmpty() ? "" : BETWEEN)
                    .append(one.number())
                    .append(": ")
                    .append(words.of(one));
        }
        return text.toString();
    }

    private static String active(int mask) {
        StringBuilder text = new StringBuilder();
        for (int entry = 0; entry < BITS; entry++) {
            if ((mask >>> entry & 1) != 0) {
                text.append(text.isEmpty() ? "" : " ").append(entry);
            }
        }
        return text.toString();
    }

    private static String value(ChannelDescription channel, int raw) {
        return raw >= 0 && raw < channel.valueNames().size()
                ? Cell.of(channel.valueNames().get(raw))
                : channel.step().multiply(BigDecimal.valueOf(raw)).toPlainString();
    }
}
