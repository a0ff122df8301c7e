package snagbench.bench.cli;

import java.util.Optional;
import picocli.CommandLine.Option;

/** Options that are the same everywhere. */
final class SharedOptions {
    @Option(
            names = "--rig",
            paramLabel = "RIG",
            description =
                    "A rig's name in fixtures/, or a path to its rig.yaml. Scripts without a plan are run on the rig"
                            + " whose name is their folder's, unless this says otherwise.")
    private @org.jspecify.annotations.Nullable String rig;

    SharedOptions() {}

    Optional<String> rig() {
        return Optional.ofNullable(rig);
    }
}
