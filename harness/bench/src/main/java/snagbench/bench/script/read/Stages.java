package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Stage;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads a script's beginning, and how a rig is brought to ready. */
final class Stages {
    private static final String EXAMPLE = "- send: start-run";

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;

    Stages(Names names, Findings findings, Times times, Conditions conditions) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = conditions;
    }

    List<Stage> read(YamlNode node) {
        List<Stage> stages = new ArrayList<>();
        for (YamlNode item : values.list(node, "a list of stages", EXAMPLE).orElse(List.of())) {
            values.mapping(item, "a stage", EXAMPLE).flatMap(this::stage).ifPresent(stages::add);
        }
        return stages;
    }

    private Optional<Stage> stage(YamlMapping mapping) {
        Fields fields = Fields.of(mapping, "a stage", List.of("send", "wait-for", "within"), Set.of(), findings);
        if (fields.has("send") && fields.has("wait-for")) {
            findings.error(
                    fields.at("wait-for"),
                    "a stage sends or waits, not both",
                    "put \"- \" before this line: a stage of its own");
            return Optional.empty();
        }
        if (fields.has("send")) {
            if (fields.has("within")) {
                findings.error(fields.at("within"), "\"send\" takes no time", "take \"within\" out");
            }
            return fields.optional("send")
                    .flatMap(this::command)
                    .map(command -> new Stage.Send(findings.place(mapping.at()), command, 1));
        }
        if (!fields.has("wait-for")) {
            if (fields.lacks("send") && fields.lacks("wait-for")) {
                findings.error(
                        mapping.at(),
                        "a stage that neither sends nor waits",
                        "write \"- send: NAME\" or \"- wait-for: { ... }\"");
            }
            return Optional.empty();
        }
        Optional<Condition> condition =
                fields.optional("wait-for").flatMap(node -> conditions.read(node, Use.WAIT_FOR));
        long within = fields.required("within", "2 s")
                .map(node -> times.micros(node, "a limit"))
                .orElse(0L);
        return condition.map(found -> new Stage.WaitFor(findings.place(mapping.at()), found, within));
    }

    /** A command channel that takes the value 1. */
    Optional<ChannelDescription> command(YamlNode node) {
        Optional<Part> name = values.line(node, "the name of a command");
        Optional<ChannelDescription> command =
                name.flatMap(part -> names.channel(part, Set.of(ChannelKind.COMMAND), "a command"));
        if (command.isPresent() && (command.get().lowest() > 1 || command.get().highest() < 1)) {
            findings.error(
                    node.at(), command.get().name() + " does not take the value 1", ChannelValues.range(command.get()));
            return Optional.empty();
        }
        return command;
    }
}
