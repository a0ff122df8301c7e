package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlUnreadable;

/** Reads what happens to one channel: a fault on one line, one in braces, or a list of them that act one after the other. */
final class Forcings {
    private static final String WANTED = "a fault, such as \"freeze\" or \"stuck-at 5 A\",";

    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Times times;
    private final Ticks ticks;
    private final Faults faults;
    private final Forceable forceable;

    Forcings(Findings findings, Times times) {
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.times = times;
        this.ticks = new Ticks(findings, times);
        this.faults = new Faults(findings, times);
        this.forceable = new Forceable(findings);
    }

    /** What happens to a channel; of what could not be read, nothing. */
    List<Injection.Forcing> read(YamlMapping.Entry entry, ChannelDescription channel) {
        List<Injection.Forcing> found = new ArrayList<>();
        Place place = findings.place(entry.at());
        if (!(entry.value() instanceof YamlList list)) {
            forcing(entry.value(), place, channel).ifPresent(found::add);
            return found;
        }
        if (list.items().isEmpty()) {
            findings.error(list.at(), "a list of faults is empty", "write at least one: [ scale 0.9, noise 0.2 A ]");
        }
        for (YamlNode item : list.items()) {
            Optional<Injection.Forcing> one = forcing(item, findings.place(item.at()), channel);
            one.ifPresent(added -> checkOrder(found, added, item));
            one.ifPresent(found::add);
        }
        return found;
    }

    /** A disturbance with its value alone. */
    Optional<Injection.Forcing> disturbance(YamlMapping.Entry entry, ChannelDescription channel) {
        return values.line(entry.value(), "the disturbance's value")
                .flatMap(value -> faults.stuckAt(value, channel))
                .map(fault -> new Injection.Forcing(findings.place(entry.at()), channel, fault));
    }

    private void checkOrder(List<Injection.Forcing> before, Injection.Forcing added, YamlNode item) {
        boolean lasting = !(added.fault() instanceof Fault.Spike);
        if (lasting && before.stream().anyMatch(one -> one.fault() instanceof Fault.Spike)) {
            findings.error(
                    item.at(),
                    "a fault that lasts stands behind a spike, which ends by itself",
                    "write spikes last in the list");
        }
        boolean hidesAll = added.gate().isEmpty()
                && (added.fault() instanceof Fault.StuckAt
                        || added.fault() instanceof Fault.Freeze
                        || added.fault() instanceof Fault.Dropout
                        || added.fault() instanceof Fault.Delay);
        if (hidesAll && !before.isEmpty()) {
            findings.warning(
                    item.at(),
                    "nothing is left of the faults that stand before this one in the list",
                    "what is written first acts first: write this one first, or take the others out");
        }
    }

    private Optional<Injection.Forcing> forcing(YamlNode node, Place place, ChannelDescription channel) {
        if (node instanceof YamlUnreadable) {
            return Optional.empty();
        }
        if (node instanceof YamlMapping mapping) {
            return inBraces(mapping, place, channel);
        }
        return values.line(node, WANTED)
                .flatMap(text -> faults.read(text, channel))
                .map(fault -> new Injection.Forcing(place, channel, fault));
    }

    private Optional<Injection.Forcing> inBraces(YamlMapping mapping, Place place, ChannelDescription channel) {
        boolean gated = mapping.entries().stream().anyMatch(one -> one.key().equals("intermittent"));
        if (gated) {
            return intermittent(mapping, place, channel);
        }
        if (mapping.entries().stream().noneMatch(one -> one.key().equals("replay"))) {
            findings.error(
                    mapping.at(),
                    "a mapping stands where " + WANTED + " is wanted",
                    "braces are for { replay: { 0: 180 mm } } and { intermittent: freeze, on: 30 ms, off: 70 ms }");
            return Optional.empty();
        }
        Fields fields = Fields.of(mapping, "a curve", List.of("replay"), Set.of(), findings);
        return fields.optional("replay")
                .flatMap(node -> replay(node, channel))
                .map(fault -> new Injection.Forcing(place, channel, fault));
    }

    private Optional<Injection.Forcing> intermittent(YamlMapping mapping, Place place, ChannelDescription channel) {
        Fields fields =
                Fields.of(mapping, "an intermittent fault", List.of("intermittent", "on", "off"), Set.of(), findings);
        long on = fields.required("on", "30 ms")
                .map(node -> times.micros(node, "the time for which it is on"))
                .orElse(0L);
        long off = fields.required("off", "70 ms")
                .map(node -> times.micros(node, "the time for which it is off"))
                .orElse(0L);
        Optional<Injection.Forcing> inner =
                fields.optional("intermittent").flatMap(node -> forcing(node, place, channel));
        if (inner.isEmpty()) {
            return Optional.empty();
        }
        if (inner.get().gate().isPresent()) {
            findings.error(mapping.at(), "an intermittent fault within another", "one pair of times will do");
            return Optional.empty();
        }
        Injection.Gate gate = new Injection.Gate(on, off);
        return Optional.of(new Injection.Forcing(place, channel, inner.get().fault(), Optional.of(gate)));
    }

    private Optional<Fault> replay(YamlNode node, ChannelDescription channel) {
        String example = "{ 0: 180 mm, 5: 181.5 mm }";
        Optional<YamlMapping> mapping = values.mapping(node, "a curve", example);
        if (mapping.isEmpty() || !forceable.takes(new Part(node.at(), "replay"), "replay", channel)) {
            return Optional.empty();
        }
        if (mapping.get().entries().isEmpty()) {
            findings.error(node.at(), "a curve without points", "write at least one: " + example);
        }
        List<Fault.Point> points = new ArrayList<>();
        for (YamlMapping.Entry entry : mapping.get().entries()) {
            boolean plain = entry.key().matches("[0-9]+");
            Part when = new Part(entry.at(), plain ? entry.key() + " ticks" : entry.key());
            OptionalInt at = ticks.read(when, 0, Integer.MAX_VALUE, "the time of a point");
            OptionalInt raw = point(entry, channel);
            if (at.isPresent() && raw.isPresent()) {
                int last = points.isEmpty() ? -1 : points.get(points.size() - 1).ticks();
                if (at.getAsInt() <= last) {
                    findings.error(
                            entry.at(),
                            "a point of the curve that is not later than the one before it, at " + last + " ticks",
                            "write them in order of their times");
                }
                points.add(new Fault.Point(at.getAsInt(), raw.getAsInt()));
            }
        }
        boolean whole = points.size() == mapping.get().entries().size() && !points.isEmpty();
        return whole ? Optional.of(new Fault.Replay(points)) : Optional.empty();
    }

    private OptionalInt point(YamlMapping.Entry entry, ChannelDescription channel) {
        Optional<Part> value = values.line(entry.value(), "a value of " + channel.name());
        OptionalInt raw =
                value.isEmpty() ? OptionalInt.empty() : channelValues.raw(value.get(), channel, Rounding.NONE);
        raw.ifPresent(found -> faults.warnOutside(value.orElseThrow(), found, channel));
        return raw;
    }
}
