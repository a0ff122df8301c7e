package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.TermRole;

/** The arithmetic of overrides against {@code fault-arithmetic.csv}, which says how it was worked out. */
class FaultArithmeticTests {
    private static final int TICKS = 20;

    private static final class Row {
        final String name;
        final Entry entry;
        final int tick;
        final int micros;
        final int trigger;
        final int real;
        final int told;
        final int on;

        Row(String line, int channel) {
            String[] cells = line.split(";", -1);
            name = cells[0];
            entry = new Entry(
                    0,
                    EntryKind.valueOf(cells[1]).code(),
                    channel,
                    Integer.parseInt(cells[2]),
                    Integer.parseInt(cells[3]),
                    -1,
                    -1,
                    Integer.parseInt(cells[4]),
                    Integer.parseInt(cells[5]));
            tick = Integer.parseInt(cells[6]);
            micros = Integer.parseInt(cells[7]);
            trigger = Integer.parseInt(cells[8]);
            real = Integer.parseInt(cells[9]);
            told = Integer.parseInt(cells[10]);
            on = Integer.parseInt(cells[11]);
        }
    }

    private static Map<String, List<Row>> cases() {
        int channel = new TestRig().position.index();
        Map<String, List<Row>> cases = new LinkedHashMap<>();
        try (InputStream in = FaultArithmeticTests.class.getResourceAsStream("/fault-arithmetic.csv")) {
            assertNotNull(in, "fault-arithmetic.csv is not on the class path");
            BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
            boolean head = true;
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (line.startsWith("#")) {
                    continue;
                }
                if (head) {
                    assertEquals("case;kind;a;b;lasts;flags;tick;us;trigger;real;told;on", line);
                    head = false;
                    continue;
                }
                Row row = new Row(line, channel);
                cases.computeIfAbsent(row.name, name -> new ArrayList<>()).add(row);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return cases;
    }

    @Test
    void theTableHasEveryKindThatTheProbeCanDoWithEvenAndUnevenTicks() {
        int kinds = 1 << EntryKind.WAIT.code();
        int uneven = 0;
        for (Map.Entry<String, List<Row>> each : cases().entrySet()) {
            assertEquals(TICKS, each.getValue().size(), each.getKey());
            kinds |= 1 << each.getValue().get(0).entry.kind;
            uneven += each.getKey().endsWith(", uneven") ? 1 : 0;
        }
        assertEquals(FaultArithmetic.kinds(), kinds);
        assertEquals(cases().size(), 2 * uneven);
    }

    @TestFactory
    List<DynamicTest> doesWhatTheTableSays() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Map.Entry<String, List<Row>> each : cases().entrySet()) {
            tests.add(DynamicTest.dynamicTest(each.getKey(), () -> run(each.getValue())));
        }
        return tests;
    }

    private static void run(List<Row> rows) {
        TestRig rig = new TestRig(TestRig.ROOMY, false, -200_000);
        rig.begin();
        rig.load(
                rows.get(0).entry,
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 2));
        rig.send(rig.armRequest());
        int before = rows.get(0).micros - TestRig.TICK;
        for (Row row : rows) {
            rig.real(rig.position, row.real);
            rig.real(rig.trigger, row.trigger);
            rig.tickAfter(row.micros - before);
            before = row.micros;
            assertEquals(row.told, rig.told(rig.position), "tick " + row.tick);
            assertEquals(row.on, rig.record().active, "active in tick " + row.tick);
        }
    }
}
