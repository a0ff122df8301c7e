package snagbench.fitting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import snagbench.probe.ProbeLine;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.LetGo;
import snagbench.wire.Open;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Watch;

/** What firmware-notes/fitting-the-probe.md says of the lift is so, and its snippets are the code that is tested here. */
class FittingTests {
    private static final int PASS_MICROS = 5_000;
    private static final int LEASE_MILLIS = 10_000;
    private static final int STUCK_PASSES = 80_000 / PASS_MICROS;

    private final LiftChannels channels = new LiftChannels();

    /** Climbs as it is driven. */
    private static final class Hardware implements Lift {
        private int height;
        private int current = 250;
        private boolean pressed;
        private int drive;

        @Override
        public int height() {
            return height;
        }

        @Override
        public int current() {
            return current;
        }

        @Override
        public boolean isButtonPressed() {
            return pressed;
        }

        @Override
        public void motor(int wanted) {
            drive = wanted;
        }

        void move() {
            height += drive / 100;
        }
    }

    /** The lift after, under a bench. */
    private final class Fitted {
        final Hardware hardware = new Hardware();
        final Bench bench = new Bench();
        final LiftAfter loop;
        int micros;
        boolean key = true;

        Fitted() {
            loop = LiftBuilds.forTheEventLockedByAJumper(hardware, bench, () -> micros, Bench.BOOT, () -> key);
        }

        void passes(int count) {
            for (int i = 0; i < count; i++) {
                micros += PASS_MICROS;
                loop.pass();
                hardware.move();
            }
        }

        int ask(snagbench.wire.RequestBody body) {
            return bench.ask(body, () -> passes(5));
        }

        void open() {
            ask(new Open(1, 1));
            assertEquals(
                    1,
                    bench.all(Hello.class).stream()
                            .filter(hello -> hello.session != 0)
                            .count());
            assertEquals(0, ask(new Watch(1, 0, channels.height.index(), channels.step.index())));
            assertEquals(0, ask(new Keep(LEASE_MILLIS, 0)));
        }

        /** The current is told as far too high from arming on. */
        int armJam() {
            Entry jam = new Entry(
                    0, EntryKind.STUCK_AT.code(), channels.current.index(), 900, 0, -1, -1, Integer.MAX_VALUE, 0);
            assertEquals(0, ask(jam));
            ProgramDigest digest = new ProgramDigest();
            digest.add(jam);
            return ask(new Arm(1, digest.value(), 0, new ProgramDigest().value(), 1));
        }
    }

    @Test
    void withNoBenchTheLiftDoesWhatItDidBefore() {
        for (int seed = 0; seed < 20; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Hardware before = new Hardware();
            Hardware after = new Hardware();
            int[] micros = new int[1];
            LiftBefore plain = new LiftBefore(before);
            LiftAfter fitted = LiftBuilds.forTheEventWithoutALine(after, () -> micros[0], Bench.BOOT);
            boolean moved = false;
            for (int pass = 0; pass < 2_000; pass++) {
                micros[0] += random.nextInt(4_000, 7_000);
                before.pressed = random.nextInt(50) == 0;
                before.current = random.nextInt(40) == 0 ? 700 : random.nextInt(30) == 0 ? 300 : before.current;
                after.pressed = before.pressed;
                after.current = before.current;
                plain.pass(micros[0]);
                fitted.pass();
                assertEquals(before.drive, after.drive, "seed " + seed + ", pass " + pass);
                before.move();
                after.move();
                moved |= before.drive != 0;
            }
            assertTrue(moved, "seed " + seed);
        }
    }

    @Test
    void aBenchMakesItBelieveThatItIsStuck() {
        Fitted lift = new Fitted();
        lift.open();
        assertEquals(0, lift.armJam());
        lift.hardware.pressed = true;
        lift.passes(2);
        assertTrue(lift.hardware.drive > 0, "it lifts, on a real current of 2.5 A");
        lift.passes(STUCK_PASSES);
        assertEquals(0, lift.hardware.drive);
        assertTrue(
                lift.bench.all(Event.class).stream().anyMatch(event -> event.kind == EventKind.ANSWERED.code()),
                "FS-01 answered");
    }

    @Test
    void withTheJumperOffItIsWatchedAndNeitherArmedNorCommanded() {
        Fitted lift = new Fitted();
        lift.key = false;
        lift.open();

        assertEquals(Refusal.NOT_ENABLED.code(), lift.armJam());
        assertEquals(Refusal.NOT_ENABLED.code(), lift.ask(new Do(Do.COMMAND, channels.lift.index(), 1)));
        int records = lift.bench.all(Record.class).size();
        lift.passes(100);
        assertTrue(lift.bench.all(Record.class).size() > records + 50, "records come");
        lift.hardware.pressed = true;
        lift.passes(STUCK_PASSES + 2);
        assertTrue(lift.hardware.drive > 0, "it runs as its button says, and believes its own current");
    }

    @Test
    void withTheJumperOffItCanStillBeToldToStop() {
        Fitted lift = new Fitted();
        lift.key = false;
        lift.open();
        lift.hardware.pressed = true;
        lift.passes(20);
        assertTrue(lift.hardware.drive > 0);

        assertEquals(0, lift.bench.ask(new LetGo(), () -> lift.passes(30)));
        assertEquals(0, lift.hardware.drive);
    }

    @Test
    void withoutALineItHearsNobody() {
        assertEquals(-1, ProbeLine.NONE.read());
        assertEquals(0, ProbeLine.NONE.write(new byte[8], 0, 8));
    }

    @Test
    void aPassAllocatesNothing() {
        Hardware hardware = new Hardware();
        int[] micros = new int[1];
        LiftAfter loop = LiftBuilds.forTheEventWithoutALine(hardware, () -> micros[0], Bench.BOOT);
        var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        long least = Long.MAX_VALUE;
        passes(loop, micros);
        for (int round = 0; round < 10; round++) {
            long before = threads.getCurrentThreadAllocatedBytes();
            long between = threads.getCurrentThreadAllocatedBytes();
            passes(loop, micros);
            long after = threads.getCurrentThreadAllocatedBytes();
            // The measuring itself may take something, and the JVM now and then; a loop that does would in every round.
            least = Math.min(least, after - between - (between - before));
        }
        assertEquals(0, least, "bytes in 20,000 passes");
    }

    private static void passes(LiftAfter loop, int[] micros) {
        for (int i = 0; i < 20_000; i++) {
            micros[0] += PASS_MICROS;
            loop.pass();
        }
    }

    /** Line by line, whatever the indentation. */
    @Test
    void thePagesSnippetsAreThisCode() throws IOException {
        Path root = Path.of(System.getProperty("snagbench.root"));
        List<List<String>> sources = new ArrayList<>();
        try (Stream<Path> files = Files.list(root.resolve("harness/probe/src/test/java/snagbench/fitting"))) {
            for (Path file : files.toList()) {
                sources.add(trimmed(Files.readAllLines(file, StandardCharsets.UTF_8)));
            }
        }
        List<List<String>> snippets = snippets(
                Files.readAllLines(root.resolve("firmware-notes/fitting-the-probe.md"), StandardCharsets.UTF_8));
        assertTrue(snippets.size() >= 5, snippets.size() + " snippets");
        for (List<String> snippet : snippets) {
            assertFalse(snippet.isEmpty());
            assertTrue(
                    sources.stream().anyMatch(source -> contains(source, snippet)),
                    () -> "not in the code: " + String.join("\n", snippet));
        }
    }

    private static List<List<String>> snippets(List<String> page) {
        List<List<String>> found = new ArrayList<>();
        for (int i = 0; i < page.size(); i++) {
            if (page.get(i).equals("```java")) {
                int from = i + 1;
                while (!page.get(++i).equals("```")) {
                    // on to its end
                }
                found.add(trimmed(page.subList(from, i)));
            }
        }
        return found;
    }

    private static List<String> trimmed(List<String> lines) {
        return lines.stream().map(String::strip).filter(line -> !line.isEmpty()).toList();
    }

    private static boolean contains(List<String> source, List<String> snippet) {
        for (int from = 0; from + snippet.size() <= source.size(); from++) {
            if (source.subList(from, from + snippet.size()).equals(snippet)) {
                return true;
            }
        }
        return false;
    }
}
