package snagbench.bench.script.read;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Condition;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/**
 * What the fail-safes of a rig look for, as far as the register beside its file says so in comparisons of the rig's
 * channels. What it says otherwise, such as speeds, is passed over: this serves warnings only.
 */
final class Symptoms {
    /** Name of the register beside a rig's file. */
    static final String FILE_NAME = "failsafes.yaml";

    private final Findings unheard;
    private final Conditions conditions;
    private final RigDescription rig;

    private Symptoms(Path register, RigDescription rig) {
        this.unheard = new Findings(register, List.of());
        this.rig = rig;
        this.conditions = new Conditions(
                new Names(rig, unheard),
                unheard,
                new Times(unheard, rig.limits().tickMicros()),
                new Anchors(unheard));
    }

    /**
     * One of several symptoms.
     *
     * @param terms comparisons that hold together
     * @param choices comparisons of one channel each, of which one holds
     * @param words all that it looks at, as it is written
     */
    record Alternative(List<Condition.Term> terms, List<List<Condition.Term>> choices, List<String> words) {
        /** Whether it can come about where these terms hold. */
        boolean fits(List<Condition.Term> others) {
            List<Condition.Term> together = new ArrayList<>(terms);
            together.addAll(others);
            return Intervals.of(together).impossible().isEmpty()
                    && choices.stream().allMatch(choice -> choice.stream().anyMatch(one -> {
                        List<Condition.Term> with = new ArrayList<>(together);
                        with.add(one);
                        return Intervals.of(with).impossible().isEmpty();
                    }));
        }
    }

    /** The symptoms of a rig's fail-safes, read when they are asked for, and once. */
    static final class Register {
        private final Optional<Path> file;
        private final RigDescription rig;
        private @Nullable Map<String, List<Alternative>> read;

        Register(Optional<RigFile> rigFile, RigDescription rig) {
            this.file = rigFile.map(one -> one.place().file().resolveSibling(FILE_NAME));
            this.rig = rig;
        }

        /** What a fail-safe looks for; nothing where there is no register, or none that can be read. */
        List<Alternative> of(String failSafe) {
            Map<String, List<Alternative>> all = read;
            if (all == null) {
                all = file.map(path -> Symptoms.of(path, rig)).orElse(Map.of());
                read = all;
            }
            return all.getOrDefault(failSafe, List.of());
        }
    }

    private static Map<String, List<Alternative>> of(Path register, RigDescription rig) {
        Map<String, List<Alternative>> found = new HashMap<>();
        if (Files.isRegularFile(register)) {
            Symptoms symptoms = new Symptoms(register, rig);
            Optional<YamlMapping> root = UserFile.open(register, "a fail-safe register", "register: NAME")
                    .root();
            for (YamlMapping.Entry entry : entries(root.flatMap(mapping -> at(mapping, "failsafes")))) {
                found.put(entry.key(), symptoms.alternatives(entry.value()));
            }
        }
        return found;
    }

    private static List<YamlMapping.Entry> entries(Optional<YamlNode> node) {
        return node.isPresent() && node.get() instanceof YamlMapping mapping ? mapping.entries() : List.of();
    }

    private static Optional<YamlNode> at(YamlNode node, String key) {
        return entries(Optional.of(node)).stream()
                .filter(entry -> entry.key().equals(key))
                .map(YamlMapping.Entry::value)
                .findFirst();
    }

    private List<Alternative> alternatives(YamlNode failSafe) {
        Optional<YamlNode> when = at(failSafe, "symptoms").flatMap(node -> at(node, "when"));
        List<Alternative> found = new ArrayList<>();
        if (when.isPresent() && when.get() instanceof YamlList list) {
            list.items().forEach(item -> found.add(alternative(entries(Optional.of(item)))));
        }
        return found;
    }

    private Alternative alternative(List<YamlMapping.Entry> entries) {
        Alternative one = new Alternative(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
        for (YamlMapping.Entry entry : entries) {
            one.words().add(entry.key());
            boolean known =
                    entry.key().equals("step") || rig.channel(entry.key()).isPresent();
            if (known && entry.value() instanceof YamlList list) {
                List<Condition.Term> choice = new ArrayList<>();
                list.items().forEach(item -> choice.addAll(terms(entry, item)));
                one.choices().add(choice);
            } else if (known) {
                one.terms().addAll(terms(entry, entry.value()));
            }
        }
        return one;
    }

    private List<Condition.Term> terms(YamlMapping.Entry entry, YamlNode value) {
        YamlMapping alone = new YamlMapping(entry.at(), List.of(new YamlMapping.Entry(entry.at(), entry.key(), value)));
        return conditions.read(alone, Use.ALWAYS).map(Condition::terms).orElse(List.of());
    }
}
