package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.ServiceLoader;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.read.Snapshots;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/** The seedling shuttle as the bench has it: found as a service, with the project's own files. */
public final class Shuttle {
    /** What a script begins with, up to its injections. */
    private static final String HEAD = """
            fault-script: %s
            failsafe: %s
            why: a test's own
            begin:
              - send: start-run
              - wait-for: { step: REACHING }
                within: 2 s
            """;

    private static final int PATIENT_MILLIS = 8000;

    private Shuttle() {}

    /** The provider, as the service loader gives it. */
    public static VirtualRigProvider provider() {
        return ServiceLoader.load(VirtualRigProvider.class).stream()
                .map(ServiceLoader.Provider::get)
                .filter(one -> one.name().equals("seedling-shuttle"))
                .findFirst()
                .orElseThrow();
    }

    public static VirtualRig rig(String build) {
        return provider().create(build);
    }

    /** A rig of that build, just switched on, at the other end of a line. */
    public static VirtualLink link(String build) {
        return new VirtualLink("seedling-shuttle", rig(build), new RigWatch());
    }

    public static Path root() {
        return Path.of(System.getProperty("snagbench.root"));
    }

    private static Path rigYaml() {
        return root().resolve("fixtures/seedling-shuttle/rig.yaml");
    }

    /** The committed snapshot. */
    public static RigDescription description() {
        return Snapshots.read(RigFiles.snapshotOf(rigYaml())).value().orElseThrow();
    }

    /** The committed rig.yaml. */
    public static RigFile file() {
        return RigFiles.readRig(rigYaml(), Optional.empty()).value().orElseThrow();
    }

    /** The committed rig.yaml with a lease that outlives any pause of a busy machine. */
    public static RigFile patientFile() {
        RigFile file = file();
        return new RigFile(
                file.place(),
                file.name(),
                file.virtual(),
                file.line(),
                PATIENT_MILLIS,
                file.settlingMicros(),
                file.ready(),
                file.guards(),
                file.wiring(),
                file.snapshot(),
                file.derived(),
                file.compounds(),
                file.filterDelays(),
                file.clearFloor(),
                file.adjustable());
    }

    /** A committed script. */
    public static FaultScript script(String name) {
        return read(root().resolve("test-plans/seedling-shuttle/" + name + ".fault.yaml"));
    }

    /** A script that a test writes; it runs out to the rack first. */
    public static FaultScript script(String name, String failSafe, String rest) throws IOException {
        Path folder = Files.createTempDirectory("snagbench-test-");
        Path file = folder.resolve(name.replace(' ', '-') + ".fault.yaml");
        try {
            return read(Files.writeString(file, HEAD.formatted(name, failSafe) + rest));
        } finally {
            Files.delete(file);
            Files.delete(folder);
        }
    }

    private static FaultScript read(Path file) {
        var checked = ScriptReader.read(file, description(), file());
        assertFalse(checked.hasErrors(), () -> checked.problems().toString());
        return checked.value().orElseThrow();
    }
}
