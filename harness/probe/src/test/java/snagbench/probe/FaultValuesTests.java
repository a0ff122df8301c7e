package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snagbench.wire.ChannelKind;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Point;
import snagbench.wire.Record;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** What overrides do, against {@code fixtures/fault-values}, whose README says how the values were worked out. */
class FaultValuesTests {
    private static final Path TABLE = Path.of("../../fixtures/fault-values/fault-values.csv");
    private static final int TICKS = 20;

    /** One line of the table: its first word, and its figures. */
    private record Line(String word, List<Long> figures, String name) {
        static Line of(String text) {
            String[] cells = text.split(",", -1);
            int figures = cells[0].equals("case") ? cells.length - 2 : cells.length - 1;
            List<Long> numbers = new ArrayList<>();
            for (int i = 0; i < figures; i++) {
                numbers.add(Long.valueOf(cells[i + 1]));
            }
            return new Line(cells[0], numbers, figures == cells.length - 1 ? "" : cells[cells.length - 1]);
        }

        int figure(int place) {
            return figures.get(place).intValue();
        }
    }

    private record Case(Line head, List<Line> entries, List<Line> points, List<Line> ticks) {
        boolean is(ChannelKind kind, Channel channel) {
            return head.figure(1) == kind.code()
                    && head.figure(2) == channel.lowest()
                    && head.figure(3) == channel.highest()
                    && head.figure(4) == channel.absent();
        }

        /** The channel of the rig that is like the one of the case. */
        Channel channel(TestRig rig) {
            for (Channel channel : List.of(rig.position, rig.wide, rig.motor)) {
                if (is(channel.kind(), channel)) {
                    return channel;
                }
            }
            throw new AssertionError("no channel like that of " + head.name);
        }

        void run() {
            int zeroMicros = head.figure(6);
            TestRig rig = new TestRig(TestRig.ROOMY, false, zeroMicros - 500_000);
            rig.begin();
            Channel channel = channel(rig);
            for (Line entry : entries) {
                load(rig, channel, entry);
            }
            for (Line point : points) {
                rig.load(new Point(point.figure(0), point.figure(1), point.figure(2)));
            }
            rig.send(rig.armRequest(head.figure(5)));
            for (Line tick : ticks) {
                rig.real(rig.trigger, tick.figure(2));
                rig.real(channel, tick.figure(3));
                rig.replies.clear();
                rig.tickAfter(zeroMicros + tick.figure(1) - rig.micros);
                String where = "tick " + tick.figure(0);
                assertEquals(tick.figure(4), rig.told(channel), where);
                Record record = rig.record();
                assertEquals(tick.figure(5), record.active, "active in " + where);
                assertEquals(tick.figure(6), forced(rig, channel), "forced in " + where);
                assertEquals(Record.ARMED, record.flags & Record.ARMED, "armed in " + where);
            }
        }

        private static int forced(TestRig rig, Channel channel) {
            for (Record part : rig.all(Record.class)) {
                int place = channel.index() - part.first;
                if (place >= 0 && place < part.count()) {
                    return part.forced >>> place & 1;
                }
            }
            throw new AssertionError("not in the record: " + channel);
        }

        private static void load(TestRig rig, Channel channel, Line line) {
            int index = line.figure(0);
            int leader = line.figure(4);
            rig.load(new Entry(
                    index,
                    line.figure(1),
                    channel.index(),
                    line.figure(2),
                    line.figure(3),
                    leader,
                    -1,
                    line.figure(5),
                    line.figure(6)));
            if (line.figure(7) != 0 || line.figure(8) != 0 || line.figure(9) != 1) {
                rig.load(new Timing(index, 0, 0, line.figure(7), line.figure(8), 1, line.figure(9)));
            }
            if (leader < 0) {
                rig.load(
                        Programs.when(index, rig.trigger, Comparison.IS, 1),
                        Programs.term(index, TermRole.UNTIL, rig.trigger, Comparison.IS, 2));
            }
        }
    }

    private static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        try {
            for (String text : Files.readAllLines(TABLE)) {
                if (text.startsWith("#")) {
                    continue;
                }
                Line line = Line.of(text);
                if (line.word.equals("case")) {
                    cases.add(new Case(line, new ArrayList<>(), new ArrayList<>(), new ArrayList<>()));
                    continue;
                }
                Case last = cases.get(cases.size() - 1);
                switch (line.word) {
                    case "entry" -> last.entries.add(line);
                    case "point" -> last.points.add(line);
                    case "tick" -> last.ticks.add(line);
                    default -> throw new AssertionError("a line of the table: " + text);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return cases;
    }

    @Test
    void theTableHasEveryKindThatTheProbeCanDoAloneWithEvenAndUnevenTicks() {
        Set<Integer> even = new TreeSet<>();
        Set<Integer> uneven = new TreeSet<>();
        for (Case each : cases()) {
            assertEquals(TICKS, each.ticks.size(), each.head.name);
            assertEquals(each.head.figure(7), each.entries.size(), each.head.name);
            assertEquals(each.head.figure(8), each.points.size(), each.head.name);
            if (each.entries.size() == 1) {
                boolean isUneven = each.head.name.endsWith(" / uneven");
                assertTrue(isUneven || each.head.name.endsWith(" / even"), each.head.name);
                (isUneven ? uneven : even).add(each.entries.get(0).figure(1));
            }
        }
        Set<Integer> kinds = new TreeSet<>();
        for (EntryKind kind : EntryKind.values()) {
            if (kind != EntryKind.WAIT) {
                assertTrue((TestRig.ROOMY.kinds() >>> kind.code() & 1) != 0, () -> "the probe can do " + kind);
                kinds.add(kind.code());
            }
        }
        assertEquals(kinds, even);
        assertEquals(kinds, uneven);
    }

    @TestFactory
    List<DynamicTest> doesWhatTheTableSays() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Case each : cases()) {
            tests.add(DynamicTest.dynamicTest(each.head.name, each::run));
        }
        return tests;
    }
}
