package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads which constants of the control code may be changed, and by how much. */
final class Adjustables {
    private static final String EXAMPLE = "{ reach.current-limit: 10 % }";
    private static final Pattern PERCENT = Pattern.compile("([0-9]{1,3}(?:\\.[0-9]{1,3})?)\\s*%");
    private static final BigDecimal MOST_PERCENT = BigDecimal.valueOf(100);

    private final Names names;
    private final Findings findings;
    private final Values values;

    Adjustables(Names names, Findings findings) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
    }

    List<RigFile.Adjustable> read(YamlNode node) {
        List<RigFile.Adjustable> found = new ArrayList<>();
        Optional<YamlMapping> constants = values.mapping(node, "constants with their changes", EXAMPLE);
        if (constants.isPresent() && constants.get().entries().isEmpty()) {
            findings.error(node.at(), "no constant is named", "write it as: " + EXAMPLE);
        }
        for (YamlMapping.Entry entry : constants.map(YamlMapping::entries).orElse(List.of())) {
            Optional<ChannelDescription> channel =
                    names.channel(new Part(entry.at(), entry.key()), Set.of(ChannelKind.CONSTANT), "a constant");
            Optional<Part> size = values.line(entry.value(), "a change, such as \"10 %\",");
            if (channel.isPresent() && size.isPresent()) {
                adjustable(entry, channel.get(), size.get()).ifPresent(found::add);
            }
        }
        return found;
    }

    private Optional<RigFile.Adjustable> adjustable(YamlMapping.Entry entry, ChannelDescription channel, Part size) {
        Matcher percent = PERCENT.matcher(size.text().strip());
        if (percent.matches() && !channel.unit().equals("%")) {
            BigDecimal part = new BigDecimal(percent.group(1));
            if (part.signum() == 0 || part.compareTo(MOST_PERCENT) > 0) {
                findings.error(
                        size.at(),
                        Shown.quoted(size.text()) + " is no change that can be made both ways",
                        "take more than 0 % and at most 100 %");
                return Optional.empty();
            }
            return Optional.of(new RigFile.Adjustable(findings.place(entry.at()), channel, part, 0));
        }
        OptionalInt raw = new ChannelValues(findings).size(size, channel, Rounding.DOWN);
        if (raw.isPresent() && raw.getAsInt() == 0) {
            findings.error(
                    size.at(),
                    Shown.quoted(size.text()) + " is less than one step of " + channel.name(),
                    "take at least " + channel.show(1));
            return Optional.empty();
        }
        return raw.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new RigFile.Adjustable(findings.place(entry.at()), channel, BigDecimal.ZERO, raw.getAsInt()));
    }
}
