package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.read.Snapshots;
import snagbench.bench.script.write.NewScript;
import snagbench.bench.script.write.Offered;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;

/** Scripts to begin with. */
class NewScriptTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    /** Whatever the rig offers, together: each gives a script without an error. */
    @Test
    void everyOfferOfTheRigGivesAGoodScript() throws IOException {
        RigDescription rig = Snapshots.read(bench.file(Bench.RIG + "rig.snapshot.json"))
                .value()
                .orElseThrow();
        RigFile file = RigFiles.readRig(bench.file(Bench.RIG + "rig.yaml"), Optional.of(rig))
                .value()
                .orElseThrow();
        FailSafeRegister register = RegisterReader.read(bench.file(Bench.RIG + "failsafes.yaml"), rig, file)
                .value()
                .orElseThrow();
        Offered offered = new Offered(rig, file);
        int made = 0;
        int placed = 0;
        for (String name : offered.channels()) {
            ChannelDescription channel = rig.channel(name).orElseThrow();
            for (String fault : offered.faults(channel)) {
                String step = offered.steps().get(made % offered.steps().size());
                String failSafe =
                        offered.failSafes().get(made % offered.failSafes().size());
                boolean withRegister = made % 3 > 0;
                Optional<FailSafeRegister.Entry> known = register.entries().stream()
                        .filter(entry -> withRegister && entry.failSafe().name().equals(failSafe))
                        .findFirst();
                String text = new NewScript("a \"new\" one: #1", rig, file)
                        .text(rig.failSafe(failSafe).orElseThrow(), step, channel, fault, known);
                placed += text.contains("# where " + failSafe + " looks") ? 1 : 0;
                Checked<FaultScript> read = ScriptReader.read(bench.write("n.fault.yaml", text), rig, file);
                assertFalse(read.hasErrors(), () -> read.problems() + "\n" + text);
                assertEquals("a \"new\" one: #1", read.value().orElseThrow().name());
                made++;
            }
        }
        int all = made;
        assertTrue(all >= 30, () -> all + " scripts");
        int exact = placed;
        assertTrue(exact >= 1, () -> exact + " know where to strike");
    }

    /** The register says where the fail-safe looks, what it is for, and where the machine must come to: nothing more to do. */
    @Test
    void withARegisterItIsGreenAsItIsWritten() throws IOException {
        String file = bench.file("throat-blind.fault.yaml").toString();
        Told made = Told.in(
                bench.folder(),
                "new",
                file,
                "--rig",
                "seedling-shuttle",
                "--failsafe",
                "FS-04",
                "--step",
                "DRAWING_BACK",
                "--channel",
                "throat.beam",
                "--fault",
                "stuck-at clear");
        assertEquals(0, made.status(), made::all);
        String text = bench.read("throat-blind.fault.yaml");
        assertTrue(text.contains("when: { step: DRAWING_BACK, reach.position: at most 60 mm }"), text);
        assertTrue(text.contains("becomes: { step: GRIPPING }"), text);
        assertTrue(text.contains("  The pot slipped out of the fingers."), text);
        assertTrue(text.contains("# FS-04 looks for: Drawing back with a pot"), text);

        Told run = Told.in(
                bench.folder(),
                "run",
                file,
                "--rig",
                "seedling-shuttle",
                "--out",
                bench.file("results").toString());
        assertEquals(0, run.status(), run::all);
    }

    @Test
    void whatTheRigHasNotIsRefusedWithWhatItHas() throws IOException {
        String[] args = {
            "new",
            "my.fault.yaml",
            "--rig",
            "seedling-shuttle",
            "--failsafe",
            "FS-99",
            "--step",
            "REACHING",
            "--channel",
            "reach.current",
            "--fault",
            "stuck-at 5.8 A"
        };
        Told ended = Told.in(bench.folder(), args);
        assertEquals(2, ended.status(), ended::all);
        assertTrue(ended.err().contains("there are: FS-01, FS-02"), ended::all);

        args[5] = "FS-01";
        args[11] = "stuck-at 5.8 mm";
        ended = Told.in(bench.folder(), args);
        assertEquals(2, ended.status(), ended::all);
        assertTrue(ended.err().contains("\"mm\"") && ended.err().contains("nothing written"), ended::all);
        assertTrue(Files.notExists(bench.file("my.fault.yaml")));

        bench.write("my.fault.yaml", "mine");
        args[11] = "stuck-at 5.8 A";
        ended = Told.in(bench.folder(), args);
        assertEquals(2, ended.status(), ended::all);
        assertEquals("mine", bench.read("my.fault.yaml"));

        ended = Told.in(bench.folder(), "new", "other.fault.yaml", "--rig", "seedling-shuttle");
        assertEquals(2, ended.status(), ended::all);
        assertTrue(ended.err().contains("--failsafe is missing; there are: FS-01"), ended::all);
    }

    @Test
    void onATerminalItAsksForWhatIsLeftOut() throws IOException {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Surroundings surroundings = new Surroundings(
                new PrintWriter(out),
                new PrintWriter(err),
                bench.folder(),
                true,
                Clock.systemUTC(),
                () -> false,
                () -> 1,
                new BufferedReader(new StringReader("FS-99\n2\nREACHING\nreach.current\nstuck-at 4.2 A\n")));
        Path file = bench.file("asked.fault.yaml");

        int status = CommandLines.run(
                surroundings,
                "new",
                file.toString(),
                "--rig",
                bench.file(Bench.RIG + "rig.yaml").toString());

        assertEquals(0, status, () -> out.toString() + err);
        String text = Files.readString(file);
        assertTrue(text.contains("answered-by: FS-02") && text.contains("reach.current: stuck-at 4.2 A"), text);
        assertTrue(err.toString().contains("Which fail-safe must answer?"), err::toString);
    }

    /** The curve stays near to what was told, with few points. */
    @Test
    void aTraceBecomesAScriptThatForcesItsReadings() throws IOException {
        Told recorded = Told.in(
                bench.folder(),
                "record",
                "--rig",
                "seedling-shuttle",
                "--send",
                "start-run",
                "--for",
                "2",
                "--trace",
                "seen.trace");
        assertEquals(0, recorded.status(), recorded::all);
        Told made = Told.in(
                bench.folder(),
                "new",
                "again.fault.yaml",
                "--rig",
                "seedling-shuttle",
                "--from",
                "seen.trace",
                "--at",
                "900",
                "--for",
                "500",
                "--channel",
                "reach.current",
                "--channel",
                "reach.position");
        assertEquals(0, made.status(), made::all);

        Told checked = Told.in(bench.folder(), "check", "again.fault.yaml", "--rig", "seedling-shuttle");
        assertEquals(0, checked.status(), checked::all);
        RigDescription rig = Snapshots.read(bench.file(Bench.RIG + "rig.snapshot.json"))
                .value()
                .orElseThrow();
        FaultScript script =
                ScriptReader.read(bench.file("again.fault.yaml"), rig).value().orElseThrow();
        Injection injection = script.injections().get(0);
        assertEquals(2, injection.forcings().size());
        Trace trace = TraceFile.read(bench.file("seen.trace")).trace();
        int first = 0;
        while (trace.micros(first) < 900_000) {
            first++;
        }
        for (Injection.Forcing forcing : injection.forcings()) {
            List<Fault.Point> points = ((Fault.Replay) forcing.fault()).points();
            assertTrue(points.size() >= 5 && points.size() <= 24, () -> points.size() + " points");
            int channel = forcing.channel().index();
            int most = 0;
            int span = 0;
            for (int row = first; row < trace.rows() && trace.micros(row) < 1_400_000; row++) {
                int tick = trace.tick(row) - trace.tick(first);
                int forced = points.stream()
                        .filter(point -> point.ticks() <= tick)
                        .reduce((one, other) -> other)
                        .orElseThrow()
                        .raw();
                most = Math.max(most, Math.abs(forced - trace.told(row, channel)));
                span = Math.max(span, Math.abs(trace.told(first, channel) - trace.told(row, channel)));
            }
            int strayed = most;
            int moved = span;
            assertTrue(
                    strayed <= 3 + moved / 4, () -> forcing.channel().name() + " strays " + strayed + " of " + moved);
        }

        Told open = Told.in(
                bench.folder(),
                "new",
                bench.file("open.fault.yaml").toString(),
                "--rig",
                "seedling-shuttle",
                "--from",
                bench.file("seen.trace").toString());
        assertEquals(2, open.status(), open::all);
        List<String> moments = open.err().lines().toList();
        assertTrue(moments.get(0).endsWith("What was seen when:"), open::all);
        assertTrue(moments.stream().anyMatch(line -> line.matches(" +[0-9]+ ms  REACHING")), open::all);

        Told late = Told.in(
                bench.folder(),
                "new",
                "late.fault.yaml",
                "--rig",
                "seedling-shuttle",
                "--from",
                "seen.trace",
                "--at",
                "90000");
        assertEquals(2, late.status(), late::all);
        assertTrue(late.err().contains("the last record is at"), late::all);
    }
}
