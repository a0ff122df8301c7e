package snagbench.bench.cli;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.Ports;

/** Lists the serial ports of this computer; none is opened. */
@Command(
        name = "ports",
        mixinStandardHelpOptions = true,
        description = {
            "Lists the serial ports of this computer: what hangs on them, who may open them, and who has them open.",
            "None is opened. Pseudo-terminals, as \"serve\" makes them, are not among them: \"serve\" tells its own."
        },
        footer = {"", "Example: snagbench ports"})
final class PortsCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    PortsCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        List<Ports.Port> ports;
        try {
            ports = Ports.list();
        } catch (LinkException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
        }
        PortText.lines(ports).forEach(surroundings.out()::println);
        return ExitStatus.PASS;
    }
}
