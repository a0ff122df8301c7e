package snagbench.bench.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.EntryEnd;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.StopReason;

class TraceTableTests {
    private static SyntheticTrace run() {
        return new SyntheticTrace(60)
                .step(10, "REACHING")
                .real(POSITION, tick -> 13 * tick - 200)
                .told(POSITION, tick -> 77)
                .real(VOLTAGE, tick -> 1260 - tick)
                .on(20, 0)
                .answered(30, 2)
                .step(30, "DRAWING_BACK")
                .off(31, 0, EntryEnd.UNTIL)
                .stop(55, StopReason.LET_GO);
    }

    private static String table(Trace trace) throws IOException {
        StringWriter text = new StringWriter();
        TraceTable.write(trace, text);
        return text.toString();
    }

    private static TraceTableReader.Imported read(String table) throws IOException {
        return TraceTableReader.read(new StringReader(table), SyntheticTrace.rig());
    }

    private static List<CSVRecord> independently(String table) throws IOException {
        try (CSVParser parser = CSVParser.parse(
                table,
                CSVFormat.RFC4180
                        .builder()
                        .setHeader()
                        .setSkipHeaderRecord(true)
                        .get())) {
            return parser.getRecords();
        }
    }

    @Test
    void anotherReaderFindsEveryReadingInItsColumn() throws IOException {
        Trace trace = run().trace();

        List<CSVRecord> rows = independently(table(trace));

        assertEquals(trace.rows(), rows.size());
        for (int row = 0; row < trace.rows(); row++) {
            CSVRecord cells = rows.get(row);
            assertEquals(trace.tick(row), Integer.parseInt(cells.get("tick")));
            assertEquals(trace.micros(row), Long.parseLong(cells.get("us")));
            assertEquals(
                    trace.real(row, POSITION.index()),
                    Math.round(10 * Double.parseDouble(cells.get("reach.position (mm)"))));
            assertEquals(
                    trace.real(row, VOLTAGE.index()),
                    Math.round(100 * Double.parseDouble(cells.get("battery.voltage (V)"))));
            assertEquals(STEP.valueNames().get(trace.real(row, STEP.index())), cells.get("step"));
            boolean forced = trace.tick(row) >= 20 && trace.tick(row) < 31;
            assertEquals(forced ? "7.7" : "", cells.get("reach.position told (mm)"));
            assertEquals(forced ? "0" : "", cells.get("active"));
        }
        assertFalse(rows.get(0).isMapped("reach.current told (A)"), "only what was told otherwise");
        assertEquals(
                "3: answered FS-02 1; 4: state step DRAWING_BACK", rows.get(30).get("events"));
    }

    @Test
    void whatATableHoldsComesBack() throws IOException {
        for (SyntheticTrace of : List.of(
                run(),
                run().loseTicks(12, 19).loseTicks(40, 40).loseEvent(3),
                run().loseTicks(30, 30),
                run().split(1).losePart(33))) {
            Trace trace = of.trace();

            Trace again = read(table(trace)).stored().trace();

            assertEquals(trace.rows(), again.rows());
            assertEquals(trace.events(), again.events());
            assertEquals(trace.gaps(), again.gaps());
            assertEquals(trace.eventGaps(), again.eventGaps());
            for (int row = 0; row < trace.rows(); row++) {
                assertEquals(trace.tick(row), again.tick(row));
                assertEquals(trace.micros(row), again.micros(row));
                assertEquals(trace.active(row), again.active(row));
                for (ChannelDescription channel : SyntheticTrace.rig().channels()) {
                    int index = channel.index();
                    assertEquals(trace.has(row, index), again.has(row, index));
                    if (trace.has(row, index)) {
                        assertEquals(trace.told(row, index), again.told(row, index));
                        assertEquals(trace.real(row, index), again.real(row, index));
                    }
                }
            }
            assertEquals(table(trace), table(again));
        }
    }

    @Test
    void aLogFromElsewhereIsATraceOfWhatItHas() throws IOException {
        TraceTableReader.Imported imported = read("""
                time (s),reach.position (cm),battery.voltage (mV),remark,step
                100.000,18.0,12600,fine,READY
                100.005,18.04,12594,,REACHING
                100.011,18.1,,"well, well",REACHING
                """);
        Trace trace = imported.stored().trace();

        assertEquals(TraceHeader.Origin.IMPORT, imported.stored().header().origin());
        assertEquals(3, trace.rows());
        assertEquals(List.of(0L, 5_000L, 11_000L), List.of(trace.micros(0), trace.micros(1), trace.micros(2)));
        assertEquals(1800, trace.real(0, POSITION.index()));
        assertEquals(1804, trace.real(1, POSITION.index()));
        assertEquals(1260, trace.real(0, VOLTAGE.index()));
        assertEquals(1259, trace.real(1, VOLTAGE.index()));
        assertFalse(trace.has(2, VOLTAGE.index()), "an empty cell is a gap");
        assertFalse(trace.isWatched(CURRENT.index()));
        assertEquals(1, trace.real(2, STEP.index()));
        assertEquals(
                List.of(
                        "the column \"remark\" is none of the rig's channels; it was left out",
                        "1 reading lay between two steps of the channel and went to the nearer one"),
                imported.warnings());
    }

    @Test
    void semicolonsAndAByteOrderMarkAreTakenAsTheyCome() throws IOException {
        Trace trace = read("\uFEFFtick;us;reach.position (mm);events\n3;15000;1.5;answered FS-02 1\n4;20000;1.6;\n")
                .stored()
                .trace();

        assertEquals(3, trace.tick(0));
        assertEquals(15, trace.real(0, POSITION.index()));
        assertTrue(trace.events().get(0).is(EventKind.ANSWERED, 2));
        assertTrue(trace.hasAllEvents(3, 4));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "tick,reach.position (mm)\\n0,1|line 1: a column of time is missing: \"us\", or \"time (s)\" with its unit",
                "time,reach.position (mm)\\n0,1|line 1: the unit of the column \"time\" is missing; write it behind in brackets,"
                        + " such as \"time (s)\"",
                "us,reach.position (A)\\n0,1|line 1: the unit of \"reach.position\" is \"A\"; \"mm\" or one that converts into"
                        + " it is wanted",
                "us,reach.position\\n0,1|line 1: the unit of \"reach.position\" is missing; \"mm\" or one that converts into it"
                        + " is wanted",
                "us,us\\n0,1|line 1: two columns are called \"us\"",
                "us,speed\\n0,1|line 1: none of the columns is a channel of the rig; its channels are such as \"step\", with"
                        + " the unit behind them in brackets",
                "us,reach.position (mm)|the table has no rows below its heads",
                "us,reach.position (mm)\\n0,one|line 2: \"one\" is no number for \"reach.position\"; numbers are such as -12.5,"
                        + " without units and with a point",
                "us,reach.position (mm)\\n0,1\\n0,1|line 3: the time is not behind that of the row before",
                "tick,us,reach.position (mm)\\n4,0,1\\n4,9,1|line 3: tick 4 behind tick 4; they must ascend",
                "us,events\\n0,answered FS-77 1|line 2: \"answered FS-77 1\" is no event that is known; events are such as"
                        + " \"answered FS-02 1\" or \"entry-on 0 1\"",
                "us,step\\n0,REACHNG|line 2: \"REACHNG\" is no number for \"step\"; numbers are such as -12.5, without units and"
                        + " with a point",
                "us,reach.position (mm)\\n0,1\\n9000000000,1|line 3: more than 35 minutes lie between this row and the one"
                        + " before"
            })
    void whatCannotBeIsAClearError(String table, String message) {
        IOException error = assertThrows(IOException.class, () -> read(table.replace("\\n", "\n")));

        assertEquals(message, error.getMessage());
    }

    @Test
    void anEmptyFileIsNoTable() {
        assertEquals(
                "the table is empty: a line with the columns' heads is wanted",
                assertThrows(IOException.class, () -> read("")).getMessage());
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+cmd", "-a", "@sum", "'=x", "\"=1\"", "a,b", "two\nlines"})
    void noNameBecomesAFormulaInWhateverShowsTheTable(String name) throws IOException {
        ChannelDescription channel =
                new ChannelDescription(0, name, ChannelKind.STATE, "", 1, 0, 0, 1, 0, 0, List.of("off", name));
        RigDescription rig = new RigDescription(
                1,
                List.of(channel),
                List.of(new FailSafeDescription(1, name, OptionalInt.empty())),
                SyntheticTrace.rig().limits());
        TraceRecorder recorder = new TraceRecorder(rig, 1, new int[] {0}, 0, 0, 0);
        recorder.event(new Event(1, 0, 0, EventKind.STATE.code(), 0, 1));
        recorder.record(new Record.Builder()
                .tick(0, 0)
                .state(0, 0, 1, 0)
                .values(0, new int[] {1}, new int[] {1}, 0, 0, 0)
                .build());
        String table = table(recorder.trace());

        try (CSVParser parser = CSVParser.parse(table, CSVFormat.RFC4180)) {
            for (CSVRecord row : parser) {
                for (String cell : row) {
                    assertFalse(
                            !cell.isEmpty()
                                    && Set.of('=', '+', '-', '@', '\t', '\r').contains(cell.charAt(0)),
                            () -> cell + " in\n" + table);
                }
            }
        }
        Trace again =
                TraceTableReader.read(new StringReader(table), rig).stored().trace();
        assertEquals(1, again.real(0, 0));
    }

    @Test
    void aTraceOfSeveralTicksARecordIsNoTable() {
        IOException error =
                assertThrows(IOException.class, () -> table(run().period(4).trace()));

        assertEquals("each record of this trace speaks for 4 ticks; a table has one row a tick", error.getMessage());
    }
}
