package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.script.Problem;
import snagbench.bench.script.schema.SchemaKind;
import snagbench.bench.script.schema.Schemas;

/** Prints the schemas by which editors complete and check. */
@Command(
        name = "schema",
        mixinStandardHelpOptions = true,
        description = {
            "Prints the JSON Schema of a kind of file, by which editors complete and check while typing; \"results\" is that of",
            "results.json, for programs that read it.",
            "With --rig it knows that rig's channels, steps and fail-safes."
        },
        footer = {"", "Example: snagbench schema fault-script --rig seedling-shuttle > shuttle.schema.json"})
final class SchemaCommand implements Callable<Integer> {
    private static final String RESULTS = "results";

    private final Surroundings surroundings;

    @Parameters(paramLabel = "KIND", description = "fault-script, test-plan, rig, failsafes or results.")
    private String kind = "";

    @Mixin
    private RigOption which = new RigOption();

    SchemaCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        Optional<String> rig = which.rig();
        if (kind.equals(RESULTS) && rig.isEmpty()) {
            surroundings.out().print(Schemas.ofResults());
            surroundings.out().flush();
            return ExitStatus.PASS;
        }
        Optional<SchemaKind> found = SchemaKind.of(kind);
        if (found.isEmpty()) {
            throw new UserError(
                    ExitStatus.FILES,
                    kind.equals(RESULTS)
                            ? "results are the same for every rig: leave out --rig"
                            : "there is no schema \"" + kind + "\"; there are: " + String.join(", ", SchemaKind.words())
                                    + ", " + RESULTS);
        }
        surroundings.out().print(rig.isEmpty() ? Schemas.text(found.get()) : ofRig(found.get(), rig.get()));
        surroundings.out().flush();
        return ExitStatus.PASS;
    }

    private String ofRig(SchemaKind of, String name) throws UserError {
        RigChoice rigs = new RigChoice(surroundings);
        Path file = rigs.find(name, surroundings.folder());
        List<Problem> problems = new ArrayList<>();
        RigChoice.Rig rig = rigs.read(file, problems)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        surroundings.show(file) + " has errors; \"check\" tells them: "
                                + problems.get(0).message()));
        return Schemas.text(of, rig.description(), rig.content());
    }
}
