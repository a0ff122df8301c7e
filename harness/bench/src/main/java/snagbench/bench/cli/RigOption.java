package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The option that says which rig, for commands that are about a rig and no script. */
final class RigOption {
    @Option(
            names = "--rig",
            paramLabel = "RIG",
            description = "A rig's name in fixtures/, or a path to its rig.yaml or its folder.")
    private @Nullable String rig;

    RigOption() {}

    Optional<String> rig() {
        return Optional.ofNullable(rig);
    }

    /** The rig's file, which must be told. */
    Path file(Surroundings surroundings) throws UserError {
        String given = rig().orElseThrow(() -> new UserError(ExitStatus.FILES, "which rig? Say so with --rig NAME"));
        return new RigChoice(surroundings).find(given, surroundings.folder());
    }
}
