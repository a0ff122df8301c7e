package snagbench.bench.cli;

import java.util.List;
import picocli.CommandLine.Model.CommandSpec;

/** Which options the user gave, so that one that would be without effect is refused and not passed over. */
final class GivenOptions {
    private final CommandSpec command;

    GivenOptions(CommandSpec command) {
        this.command = command;
    }

    /**
     * Refuses options that mean nothing here.
     *
     * @param why such as "does not go with --from: no rig is driven"
     */
    void refuse(List<String> names, String why) throws UserError {
        for (String name : names) {
            if (command.commandLine().getParseResult().hasMatchedOption(name)) {
                throw new UserError(ExitStatus.FILES, name + " " + why);
            }
        }
    }
}
