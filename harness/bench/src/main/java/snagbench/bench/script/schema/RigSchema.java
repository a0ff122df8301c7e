package snagbench.bench.script.schema;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.CompoundFault;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.write.Offered;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts a rig's own names into a schema, so that an editor offers those and no others. */
final class RigSchema {
    private static final Set<ChannelKind> FORCED_ONLY_TO_A_VALUE =
            Set.of(ChannelKind.DISTURBANCE, ChannelKind.INHIBITION, ChannelKind.CONSTANT);
    private static final List<String> ON_THE_RIG = List.of("rigCondition", "whileCondition");
    private static final List<String> IN_THE_TRACE = List.of("traceCondition", "countedCondition");

    private final ObjectNode schema;
    private final ObjectNode parts;
    private final RigDescription rig;
    private final RigFile file;

    RigSchema(ObjectNode schema, RigDescription rig, RigFile file) {
        this.schema = schema;
        this.parts = schema.withObject("$defs");
        this.rig = rig;
        this.file = file;
    }

    void fill(SchemaKind kind) {
        schema.put("$id", schema.path("$id").asString() + ":" + file.name());
        names(
                "failSafe",
                rig.failSafes().stream().map(FailSafeDescription::name).toList());
        names("channelName", channelNames(Set.of(ChannelKind.values()), true));
        names("sensorName", channelNames(Set.of(ChannelKind.SENSOR), false));
        names("actuatorName", channelNames(Set.of(ChannelKind.ACTUATOR), false));
        names("commandName", channelNames(Set.of(ChannelKind.COMMAND), false));
        names("compoundName", file.compounds().stream().map(CompoundFault::name).toList());
        ON_THE_RIG.forEach(name -> part(name).ifPresent(part -> readings(part, false, kind != SchemaKind.TEST_PLAN)));
        IN_THE_TRACE.forEach(name -> part(name).ifPresent(part -> readings(part, true, true)));
        // Figures in other channels' units are no help; each channel has its own.
        part("comparison").ifPresent(part -> part.remove("examples"));
        part("faultText").ifPresent(part -> part.remove("examples"));
        part("forced").ifPresent(this::forced);
        part("disturbances").ifPresent(this::disturbances);
        if (kind == SchemaKind.FAULT_SCRIPT) {
            onlyKnownNamesWithoutDerived();
        }
    }

    private Optional<ObjectNode> part(String name) {
        return parts.get(name) instanceof ObjectNode part ? Optional.of(part) : Optional.empty();
    }

    /** One of these names; a parameter of "vary" may stand in it. */
    private void names(String name, Collection<String> right) {
        part(name).ifPresent(part -> {
            part.remove(List.of("type", "minLength", "examples"));
            ArrayNode either = part.putArray("anyOf");
            ArrayNode all = either.addObject().putArray("enum");
            right.forEach(all::add);
            parameter(either);
        });
    }

    private static void parameter(ArrayNode either) {
        either.addObject().put("type", "string").put("pattern", "\\$");
    }

    private List<String> channelNames(Set<ChannelKind> kinds, boolean readings) {
        List<String> names = new ArrayList<>();
        for (ChannelDescription channel : rig.channels()) {
            if (kinds.contains(channel.kind())) {
                names.add(channel.name());
                if (readings) {
                    names.add(channel.name() + ".told");
                    names.add(channel.name() + ".real");
                }
            }
        }
        return names;
    }

    /** The keys of a condition. Quantities that are worked out can stand in the trace only, and a script may add to them. */
    private void readings(ObjectNode condition, boolean inTheTrace, boolean told) {
        ObjectNode keys = condition.withObject("properties");
        rig.step().ifPresent(step -> keys.set("step", comparison(step)));
        for (ChannelDescription channel : rig.channels()) {
            keys.set(channel.name(), comparison(channel));
            if (told) {
                keys.set(channel.name() + ".told", comparison(channel));
            }
            keys.set(channel.name() + ".real", comparison(channel));
        }
        if (inTheTrace) {
            file.derived().forEach(derived -> keys.set(derived.channel().name(), comparison(derived.channel())));
        } else {
            condition.put("additionalProperties", false);
        }
    }

    private ObjectNode comparison(ChannelDescription channel) {
        ObjectNode schemaOfIt = schema.objectNode();
        schemaOfIt.put("description", words(channel));
        if (channel.valueNames().isEmpty()) {
            schemaOfIt.put("$ref", "#/$defs/comparison");
            ArrayNode examples = schemaOfIt.putArray("examples");
            String middle = channel.show(Offered.middle(channel));
            List.of("at least ", "above ", "at most ", "below ").forEach(words -> examples.add(words + middle));
            return schemaOfIt;
        }
        ArrayNode either = schemaOfIt.putArray("anyOf");
        ArrayNode written = either.addObject().putArray("enum");
        channel.valueNames().forEach(written::add);
        channel.valueNames().forEach(name -> written.add("is not " + name));
        String names = String.join(
                "|", channel.valueNames().stream().map(RigSchema::literally).toList());
        String pattern = "^\\s*((is(\\s+not)?\\s|==?|!=)\\s*)?(" + names + "|\\+?[0-9.]+)\\s*$|\\$|at-injection";
        either.addObject().put("type", "string").put("pattern", pattern);
        either.addObject().put("type", "number");
        ObjectNode list = either.addObject().put("type", "array").put("minItems", 1);
        list.putObject("items").put("$ref", "#/$defs/comparison");
        return schemaOfIt;
    }

    private static String literally(String name) {
        return name.replaceAll("([\\\\^$.|?*+()\\[\\]{}])", "\\\\$1");
    }

    private static String words(ChannelDescription channel) {
        String kind = channel.kind().name().charAt(0)
                + channel.kind().name().substring(1).toLowerCase(java.util.Locale.ROOT);
        return channel.valueNames().isEmpty()
                ? kind + ", " + channel.show(channel.lowest()) + " .. " + channel.show(channel.highest())
                : kind + ": " + String.join(", ", channel.valueNames());
    }

    private void forced(ObjectNode forced) {
        ObjectNode keys = forced.putObject("properties");
        for (ChannelDescription channel : rig.channels()) {
            boolean weakened = channel.kind() == ChannelKind.ACTUATOR && (channel.flags() & Item.MAY_BE_WEAKENED) != 0;
            if (channel.kind() == ChannelKind.SENSOR || weakened || FORCED_ONLY_TO_A_VALUE.contains(channel.kind())) {
                keys.set(channel.name(), fault(channel));
            }
        }
        forced.put("additionalProperties", false);
    }

    private ObjectNode fault(ChannelDescription channel) {
        ObjectNode one = schema.objectNode();
        one.put("description", words(channel));
        ArrayNode either = one.putArray("anyOf");
        ArrayNode offered = either.addObject().putArray("enum");
        if (channel.kind() == ChannelKind.SENSOR || channel.kind() == ChannelKind.DISTURBANCE) {
            new Offered(rig, file).faults(channel).forEach(offered::add);
        }
        if (channel.kind() == ChannelKind.INHIBITION) {
            offered.add("stuck-at 1");
        }
        if (channel.kind() == ChannelKind.ACTUATOR) {
            offered.add("scale 50 %").add("stuck-at " + channel.show(0));
        }
        if (offered.isEmpty()) {
            either.remove(0);
        }
        either.addObject().put("$ref", "#/$defs/fault");
        return one;
    }

    private void disturbances(ObjectNode disturbances) {
        ObjectNode keys = disturbances.putObject("properties");
        for (ChannelDescription channel : rig.channels()) {
            if (channel.kind() == ChannelKind.DISTURBANCE) {
                ObjectNode value = keys.putObject(channel.name()).put("description", words(channel));
                if (channel.valueNames().isEmpty()) {
                    value.put("$ref", "#/$defs/value");
                } else {
                    ArrayNode either = value.putArray("anyOf");
                    ArrayNode all = either.addObject().putArray("enum");
                    channel.valueNames().forEach(all::add);
                    either.addObject().put("type", "number");
                    either.addObject().put("type", "string").put("pattern", "\\$|^\\s*\\+?[0-9.]+\\s*$");
                }
            }
        }
        disturbances.put("additionalProperties", false);
    }

    /** In a script that derives nothing, an expectation can name nothing but what the rig has. */
    private void onlyKnownNamesWithoutDerived() {
        List<String> known = channelNames(Set.of(ChannelKind.values()), true);
        known.addAll(List.of("step", "any-of", "failsafe"));
        file.derived().stream()
                .map(DerivedChannel::channel)
                .map(ChannelDescription::name)
                .forEach(known::add);
        ObjectNode rule = schema.putArray("allOf").addObject();
        rule.putObject("if").putObject("not").putArray("required").add("derived");
        ObjectNode keys = rule.putObject("then")
                .putObject("properties")
                .putObject("expect")
                .putObject("items")
                .putObject("properties");
        for (String kind : List.of("becomes", "stays", "settles", "always", "never", "peak", "times")) {
            ArrayNode names = keys.putObject(kind).putObject("propertyNames").putArray("enum");
            known.forEach(names::add);
        }
    }
}
