package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.Variant;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;

/** Puts the values of a variant where a file has {@code $name}. */
final class Substitution {
    private static final Pattern USE = Pattern.compile("\\$([A-Za-z][A-Za-z0-9_]*(?:-[A-Za-z][A-Za-z0-9_]*)*)");

    private final Variant variant;
    private final Findings findings;
    private final Set<String> used = new HashSet<>();

    Substitution(Variant variant, Findings findings) {
        this.variant = variant;
        this.findings = findings;
    }

    /** The same file with the variant's values; names that mean nothing, and parameters that nothing uses, are reported. */
    YamlMapping in(YamlMapping root) {
        List<YamlMapping.Entry> entries = new ArrayList<>();
        for (YamlMapping.Entry entry : root.entries()) {
            boolean asItIs = entry.key().equals("vary") || entry.key().equals("why");
            entries.add(asItIs ? entry : new YamlMapping.Entry(entry.at(), entry.key(), in(entry.value())));
        }
        root.entries().stream()
                .filter(entry -> entry.key().equals("vary"))
                .findFirst()
                .ifPresent(this::warnOfUnused);
        return new YamlMapping(root.at(), entries);
    }

    private void warnOfUnused(YamlMapping.Entry vary) {
        for (Variant.Setting setting : variant.settings()) {
            if (!used.contains(setting.name())) {
                findings.warning(
                        vary.at(),
                        "nothing uses the parameter " + Shown.quoted(setting.name())
                                + ", so that all scripts are alike",
                        "write $" + setting.name() + " where its value is wanted");
            }
        }
    }

    private YamlNode in(YamlNode node) {
        if (node instanceof YamlScalar scalar) {
            return in(scalar);
        }
        if (node instanceof YamlList list) {
            return new YamlList(list.at(), list.items().stream().map(this::in).toList());
        }
        if (node instanceof YamlMapping mapping) {
            return new YamlMapping(
                    mapping.at(),
                    mapping.entries().stream()
                            .map(entry -> new YamlMapping.Entry(entry.at(), entry.key(), in(entry.value())))
                            .toList());
        }
        return node;
    }

    private YamlScalar in(YamlScalar scalar) {
        Matcher matcher = USE.matcher(scalar.text());
        StringBuilder text = new StringBuilder();
        while (matcher.find()) {
            matcher.appendReplacement(text, Matcher.quoteReplacement(value(scalar, matcher.group(1))));
        }
        matcher.appendTail(text);
        return new YamlScalar(scalar.at(), text.toString(), scalar.style(), scalar.lastLine());
    }

    private String value(YamlScalar at, String name) {
        for (Variant.Setting setting : variant.settings()) {
            if (setting.name().equals(name)) {
                used.add(name);
                return setting.value();
            }
        }
        List<String> right =
                variant.settings().stream().map(Variant.Setting::name).toList();
        findings.error(
                at.at(), "nothing is varied by the name " + Shown.quoted(name), () -> NearestName.cure(name, right));
        return "$" + name;
    }
}
