package snagbench.bench.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import snagbench.bench.report.sheet.SheetRuns;
import snagbench.wire.EntryEnd;

/** Traces as value change dumps, read by a reader written from the standard's grammar, which knows nothing of the writer. */
class ValueChangeDumpTests {
    /** IEEE Std 1364-2005, 18.2: four-state dumps, as a grammar of words between blanks. */
    private static final class Reader {
        private final Deque<String> words = new ArrayDeque<>();
        final Map<String, String> codes = new LinkedHashMap<>();
        final Map<String, String> types = new HashMap<>();
        final Map<String, Integer> sizes = new HashMap<>();
        final Map<String, TreeMap<Long, String>> changes = new HashMap<>();
        String timescale = "";

        Reader(String text) {
            assertTrue(text.chars().allMatch(letter -> letter < 127), "plain ASCII");
            words.addAll(Arrays.asList(text.strip().split("\\s+")));
            declarations();
            simulation();
        }

        private void declarations() {
            Deque<String> scope = new ArrayDeque<>();
            for (String word = words.pop(); !word.equals("$enddefinitions"); word = words.pop()) {
                switch (word) {
                    case "$comment", "$date", "$version" -> {
                        while (!words.pop().equals("$end")) {}
                    }
                    case "$timescale" -> {
                        for (String part = words.pop(); !part.equals("$end"); part = words.pop()) {
                            timescale += part;
                        }
                    }
                    case "$scope" -> {
                        assertTrue(Set.of("module", "task", "function", "begin", "fork")
                                .contains(words.pop()));
                        scope.addLast(words.pop());
                        end();
                    }
                    case "$upscope" -> {
                        scope.removeLast();
                        end();
                    }
                    case "$var" -> variable(String.join(".", scope));
                    default -> throw new AssertionError("no declaration: " + word);
                }
            }
            end();
            assertTrue(scope.isEmpty());
        }

        private void end() {
            assertEquals("$end", words.pop());
        }

        private void variable(String scope) {
            String type = words.pop();
            assertTrue(Set.of("event", "integer", "real", "reg", "wire").contains(type), type);
            int size = Integer.parseInt(words.pop());
            String code = words.pop();
            assertTrue(code.chars().allMatch(letter -> letter >= '!' && letter <= '~'), code);
            String reference = words.pop();
            assertTrue(reference.matches("[A-Za-z_][A-Za-z0-9_$]*"), reference);
            String next = words.pop();
            if (!next.equals("$end")) {
                assertEquals("[" + (size - 1) + ":0]", next);
                end();
            }
            String name = scope + "." + reference;
            assertFalse(codes.containsValue(code), "code twice: " + code);
            assertEquals(null, codes.put(name, code), "name twice: " + name);
            types.put(code, type);
            sizes.put(code, size);
            changes.put(code, new TreeMap<>());
        }

        private void simulation() {
            long now = -1;
            while (!words.isEmpty()) {
                String word = words.pop();
                char first = word.charAt(0);
                if (first == '#') {
                    long time = Long.parseLong(word.substring(1));
                    assertTrue(time > now, "time goes on: " + time + " after " + now);
                    now = time;
                } else if (first == 'b' || first == 'B') {
                    String code = words.pop();
                    assertEquals("wire", of(types, code));
                    assertTrue(word.matches("b[01xz]+") && word.length() - 1 <= of(sizes, code), word);
                    of(changes, code).put(now, word.substring(1));
                } else if (first == 'r' || first == 'R') {
                    String code = words.pop();
                    assertEquals("real", of(types, code));
                    of(changes, code).put(now, Double.toString(Double.parseDouble(word.substring(1))));
                } else if ("01xzXZ".indexOf(first) >= 0) {
                    String code = word.substring(1);
                    assertTrue(of(types, code).equals("event") || of(sizes, code) == 1, word);
                    of(changes, code).put(now, String.valueOf(first));
                } else {
                    assertTrue(Set.of("$dumpvars", "$end").contains(word), word);
                }
            }
        }

        private static <K, V> V of(Map<K, V> map, K key) {
            return Objects.requireNonNull(map.get(key), () -> "nothing is declared as " + key);
        }

        NavigableMap<Long, String> changesOf(String name) {
            return of(changes, of(codes, name));
        }

        String at(String name, long micros) {
            Map.Entry<Long, String> found = changesOf(name).floorEntry(micros);
            return found == null ? "nothing" : found.getValue();
        }
    }

    private static Reader read(Trace trace) throws IOException {
        StringWriter out = new StringWriter();
        ValueChangeDump.write(trace, out);
        return new Reader(out.toString());
    }

    @Test
    void anotherReaderFindsEveryValueOfEveryRow() throws IOException {
        Trace trace = SheetRuns.synthetic().trace();

        Reader read = read(trace);

        assertEquals("1us", read.timescale);
        for (int row = 0; row < trace.rows(); row++) {
            long micros = trace.micros(row);
            assertEquals(trace.told(row, 1) / 10.0, Double.parseDouble(read.at("told.reach_position", micros)));
            assertEquals(trace.real(row, 1) / 10.0, Double.parseDouble(read.at("real.reach_position", micros)));
            assertEquals(trace.real(row, 2) / 100.0, Double.parseDouble(read.at("real.reach_current", micros)));
            assertEquals(Integer.toBinaryString(trace.told(row, 0)), read.at("told.step", micros));
            assertEquals(Integer.toBinaryString(trace.active(row)), read.at("bench.active", micros));
            assertEquals("1", read.at("bench.recorded", micros));
        }
        assertEquals(2, read.sizes.get(read.codes.get("told.step")), "four steps");
    }

    @Test
    void aGapIsNotRecordedAndItsStepUnknown() throws IOException {
        Reader read = read(SheetRuns.synthetic().trace());

        long lost = 105L * SyntheticTrace.LOOP_MICROS;
        assertEquals("0", read.at("bench.recorded", lost));
        assertEquals("x", read.at("told.step", lost));
        assertEquals("1", read.at("bench.recorded", 111L * SyntheticTrace.LOOP_MICROS));
        assertEquals("10", read.at("told.step", 111L * SyntheticTrace.LOOP_MICROS));
    }

    @Test
    void reportsAreEventsAtTheirTime() throws IOException {
        Reader read = read(SheetRuns.synthetic().trace());

        assertEquals(
                Set.of(60L * SyntheticTrace.LOOP_MICROS),
                read.changesOf("bench.FS_02").keySet());
        assertTrue(read.changesOf("bench.FS_01").isEmpty());
    }

    @Test
    void whateverNamesAreTheFileCanBeRead() throws IOException {
        Trace trace = SheetRuns.synthetic().trace();
        Set<String> codes = Set.copyOf(read(trace).codes.values());
        for (String hostile : SheetRuns.HOSTILE) {
            Reader read = read(RenamedTraces.of(trace, SheetRuns.rig(hostile)));
            assertEquals(codes, Set.copyOf(read.codes.values()), hostile);
        }
    }

    @Test
    void reportsInGapsAreThereAtTheirTimes() throws IOException {
        Trace trace = new SyntheticTrace(100)
                .on(10, 0)
                .answered(30, 1)
                .answered(34, 1)
                .answered(99, 2)
                .off(80, 0, EntryEnd.LASTED)
                .loseTicks(25, 50)
                .loseTicks(95, 99)
                .trace();

        Reader read = read(trace);

        assertEquals(
                Set.of(30L * SyntheticTrace.LOOP_MICROS, 34L * SyntheticTrace.LOOP_MICROS),
                read.changesOf("bench.FS_01").keySet());
        assertEquals(
                Set.of(99L * SyntheticTrace.LOOP_MICROS),
                read.changesOf("bench.FS_02").keySet());
        assertEquals("0", read.at("bench.recorded", 30L * SyntheticTrace.LOOP_MICROS));
    }
}
