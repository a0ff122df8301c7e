package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads quantities that are worked out from the trace. Each is known by its name from then on. */
final class DerivedChannels {
    private static final String EXAMPLE = "{ rate-of: reach.position, over: 50 ms }";
    private static final List<String> KINDS =
            List.of("rate-of", "stalled", "difference", "sum", "mean-of", "rms-of", "debounced");
    private static final List<String> NO_YES = List.of("no", "yes");

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Times times;
    private final Conditions conditions;

    DerivedChannels(Names names, Findings findings, Times times, Conditions conditions) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.times = times;
        this.conditions = conditions;
    }

    /** A channel, and which reading of it. */
    private record Of(ChannelDescription channel, Source source) {}

    List<DerivedChannel> read(YamlNode node) {
        List<DerivedChannel> found = new ArrayList<>();
        Optional<YamlMapping> mapping =
                values.mapping(node, "derived channels by their names", "{ reach.speed: " + EXAMPLE + " }");
        for (YamlMapping.Entry entry : mapping.map(YamlMapping::entries).orElse(List.of())) {
            Part name = new Part(entry.at(), entry.key());
            if (Injections.isReadable(entry) && names.isFree(name)) {
                derived(name, entry.value()).ifPresent(one -> {
                    names.addDerived(one.channel());
                    found.add(one);
                });
            }
        }
        return found;
    }

    private Optional<DerivedChannel> derived(Part name, YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "how it is derived", EXAMPLE);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        List<String> kinds = mapping.get().entries().stream()
                .map(YamlMapping.Entry::key)
                .filter(KINDS::contains)
                .toList();
        if (kinds.size() != 1) {
            Optional<YamlMapping.Entry> first = mapping.get().entries().stream().findFirst();
            findings.error(
                    first.map(YamlMapping.Entry::at).orElse(mapping.get().at()),
                    kinds.isEmpty()
                            ? Shown.quoted(name.text()) + " does not say how it is derived"
                            : "one derived channel is " + String.join(" and ", kinds),
                    () -> NearestName.cure(first.map(YamlMapping.Entry::key).orElse(""), KINDS));
            return Optional.empty();
        }
        return switch (kinds.get(0)) {
            case "rate-of" -> rate(name, mapping.get());
            case "stalled" -> stalled(name, mapping.get());
            case "difference", "sum" -> ofTwo(kinds.get(0), name, mapping.get());
            case "mean-of" -> mean(name, mapping.get());
            case "rms-of" -> rootMeanSquare(name, mapping.get());
            default -> debounced(name, mapping.get());
        };
    }

    private Fields fields(YamlMapping mapping, String kind, String... others) {
        List<String> keys = new ArrayList<>(List.of(kind));
        keys.addAll(List.of(others));
        return Fields.of(mapping, "\"" + kind + "\"", keys, Set.of(), findings);
    }

    private Optional<DerivedChannel> rate(Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, "rate-of", "over");
        Optional<Of> of = fields.optional("rate-of").flatMap(this::figures);
        long over = over(fields);
        if (of.isEmpty() || over == 0) {
            return Optional.empty();
        }
        ChannelDescription channel = of.get().channel();
        BigInteger span = BigInteger.valueOf((long) channel.highest() - channel.lowest());
        int most = span.multiply(BigInteger.valueOf(1_000_000))
                .divide(BigInteger.valueOf(over))
                .add(BigInteger.ONE)
                .min(BigInteger.valueOf(Integer.MAX_VALUE))
                .intValueExact();
        String unit = channel.unit().isEmpty() ? "1/s" : channel.unit() + "/s";
        return derived(
                name,
                like(channel, name, unit, -most, most),
                new DerivedChannel.Rate(channel, of.get().source(), over));
    }

    private Optional<DerivedChannel> stalled(Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, "stalled", "less-than", "over", "while");
        Optional<Of> of = fields.optional("stalled").flatMap(this::figures);
        Optional<Part> size = fields.required("less-than", "1 mm").flatMap(node -> values.line(node, "a size"));
        long over = over(fields);
        Optional<Condition> driven = fields.required("while", "{ reach.command: above 5 % }")
                .flatMap(node -> conditions.read(node, Use.DERIVED));
        if (of.isEmpty() || size.isEmpty() || over == 0 || driven.isEmpty()) {
            return Optional.empty();
        }
        OptionalInt raw = channelValues.raw(size.get(), of.get().channel(), Rounding.UP);
        if (raw.isEmpty()) {
            return Optional.empty();
        }
        if (raw.getAsInt() < 1) {
            findings.error(
                    size.get().at(), "nothing moves less than " + size.get().text(), "write a size above 0");
            return Optional.empty();
        }
        return derived(
                name,
                yesOrNo(name),
                new DerivedChannel.Stalled(of.get().channel(), of.get().source(), raw.getAsInt(), over, driven.get()));
    }

    private Optional<DerivedChannel> ofTwo(String kind, Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, kind);
        String example = "[reach.position, lift.position]";
        Optional<List<YamlNode>> pair =
                fields.optional(kind).flatMap(node -> values.list(node, "a list of two channels", example));
        if (pair.isEmpty()) {
            return Optional.empty();
        }
        if (pair.get().size() != 2) {
            findings.error(fields.at(kind), "a " + kind + " is of two channels", "write it as: " + example);
            return Optional.empty();
        }
        Optional<Of> one = figures(pair.get().get(0));
        Optional<Of> other = figures(pair.get().get(1));
        if (one.isEmpty() || other.isEmpty()) {
            return Optional.empty();
        }
        ChannelDescription first = one.get().channel();
        ChannelDescription second = other.get().channel();
        if (!first.unit().equals(second.unit())) {
            findings.error(
                    pair.get().get(1).at(),
                    second.name() + " is in " + unit(second) + ", and " + first.name() + " in " + unit(first),
                    "take channels of the same unit");
            return Optional.empty();
        }
        ChannelDescription finer = first.step().compareTo(second.step()) <= 0 ? first : second;
        BigDecimal step = finer.step();
        boolean isSum = kind.equals("sum");
        long least = stepsOf(second, second.lowest(), step);
        long most = stepsOf(second, second.highest(), step);
        long low = stepsOf(first, first.lowest(), step) + (isSum ? least : -most) - 1;
        long high = stepsOf(first, first.highest(), step) + (isSum ? most : -least) + 1;
        Source source = one.get().source();
        Source otherSource = other.get().source();
        return derived(
                name,
                like(finer, name, finer.unit(), clamp(low), clamp(high)),
                isSum
                        ? new DerivedChannel.Sum(first, source, second, otherSource)
                        : new DerivedChannel.Difference(first, source, second, otherSource));
    }

    private static String unit(ChannelDescription channel) {
        return channel.unit().isEmpty() ? "no unit" : channel.unit();
    }

    private static long stepsOf(ChannelDescription channel, int raw, BigDecimal step) {
        return channel.step()
                .multiply(BigDecimal.valueOf(raw))
                .divide(step, 0, RoundingMode.HALF_UP)
                .longValue();
    }

    private static int clamp(long steps) {
        return (int) Math.max(-Integer.MAX_VALUE, Math.min(Integer.MAX_VALUE, steps));
    }

    private Optional<DerivedChannel> mean(Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, "mean-of", "over");
        Optional<Of> of = fields.optional("mean-of").flatMap(this::figures);
        long over = over(fields);
        return of.isEmpty() || over == 0
                ? Optional.empty()
                : derived(
                        name,
                        like(
                                of.get().channel(),
                                name,
                                of.get().channel().unit(),
                                of.get().channel().lowest(),
                                of.get().channel().highest()),
                        new DerivedChannel.Mean(of.get().channel(), of.get().source(), over));
    }

    private Optional<DerivedChannel> rootMeanSquare(Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, "rms-of", "over");
        Optional<Of> of = fields.optional("rms-of").flatMap(this::figures);
        long over = over(fields);
        if (of.isEmpty() || over == 0) {
            return Optional.empty();
        }
        ChannelDescription channel = of.get().channel();
        int most = clamp(Math.max(Math.abs((long) channel.lowest()), Math.abs((long) channel.highest())));
        return derived(
                name,
                like(channel, name, channel.unit(), 0, most),
                new DerivedChannel.RootMeanSquare(channel, of.get().source(), over));
    }

    private Optional<DerivedChannel> debounced(Part name, YamlMapping mapping) {
        Fields fields = fields(mapping, "debounced", "for");
        Optional<Condition> condition =
                fields.optional("debounced").flatMap(node -> conditions.read(node, Use.DERIVED));
        long held = fields.required("for", "30 ms")
                .map(node -> times.micros(node, "the time of debouncing"))
                .orElse(0L);
        return condition.isEmpty() || held == 0
                ? Optional.empty()
                : derived(name, yesOrNo(name), new DerivedChannel.Debounced(condition.get(), held));
    }

    private long over(Fields fields) {
        return fields.required("over", "50 ms")
                .map(node -> times.micros(node, "the time of a window"))
                .orElse(0L);
    }

    /** A channel of the rig whose values are figures. */
    private Optional<Of> figures(YamlNode node) {
        Optional<Part> part = values.line(node, "a channel's name");
        Optional<Names.Reading> reading = part.flatMap(names::reading);
        if (reading.isEmpty()) {
            return Optional.empty();
        }
        ChannelDescription channel = reading.get().channel();
        if (names.isDerived(channel)) {
            findings.error(
                    node.at(),
                    channel.name() + " is derived itself, and nothing is derived from it",
                    "take a channel of the rig");
            return Optional.empty();
        }
        if (!channel.valueNames().isEmpty()) {
            findings.error(
                    node.at(),
                    "the values of " + channel.name() + " have names, and cannot be reckoned with",
                    "take \"debounced\" for a state, or a channel with figures");
            return Optional.empty();
        }
        return Optional.of(new Of(channel, conditions.note(node.at(), reading.get(), Use.DERIVED, -1)));
    }

    private Optional<DerivedChannel> derived(Part name, ChannelDescription channel, DerivedChannel.Formula formula) {
        return Optional.of(new DerivedChannel(findings.place(name.at()), channel, formula));
    }

    private ChannelDescription like(ChannelDescription model, Part name, String unit, int lowest, int highest) {
        return new ChannelDescription(
                names.nextIndex(),
                name.text(),
                ChannelKind.SENSOR,
                unit,
                model.stepMultiplier(),
                model.stepExponent(),
                lowest,
                highest,
                Math.max(lowest, Math.min(highest, 0)),
                0,
                List.of());
    }

    private ChannelDescription yesOrNo(Part name) {
        return new ChannelDescription(names.nextIndex(), name.text(), ChannelKind.STATE, "", 1, 0, 0, 1, 0, 0, NO_YES);
    }
}
