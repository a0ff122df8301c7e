package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.Optional;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what a plan wants of a rig's readings before each run; the plan names the rig, so that its channels are known only then. */
public final class StartConditionReader {
    private StartConditionReader() {}

    /**
     * Reads "start-only-if" of a plan that is good otherwise.
     *
     * @param plan its file
     * @param rig what the plan's rig tells of itself
     * @return the condition, empty where the plan asks for nothing, and the problems of it alone
     */
    public static Checked<Optional<Condition>> read(Path plan, RigDescription rig) {
        UserFile opened = UserFile.open(plan, PlanReader.WHAT, PlanReader.EXAMPLE);
        Findings findings = opened.findings();
        Optional<YamlNode> written = opened.root()
                .flatMap(root -> value(root, "between"))
                .filter(YamlMapping.class::isInstance)
                .flatMap(between -> value((YamlMapping) between, "start-only-if"));
        if (written.isEmpty()) {
            return findings.with(Optional.of(Optional.empty()));
        }
        Times times = new Times(findings, rig.limits().tickMicros());
        Conditions conditions = new Conditions(new Names(rig, findings), findings, times, new Anchors(findings));
        Optional<Condition> condition = conditions.read(written.get(), Use.START_ONLY_IF);
        condition.ifPresent(found -> requirePlain(found, findings));
        return findings.with(condition.isEmpty() ? Optional.empty() : Optional.of(condition));
    }

    /** It is looked at in single records, and not in a stretch of them; and at what came in. */
    private static void requirePlain(Condition condition, Findings findings) {
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Compares one && one.source() == Source.TOLD) {
                findings.error(
                        one.place(),
                        "\"start-only-if\" looks at real readings: before a run nothing else is told",
                        "write " + one.channel().name() + " without \".told\"");
            }
            if (!(term instanceof Condition.Compares)) {
                findings.error(
                        condition.place(),
                        "\"start-only-if\" looks at single readings, which cannot show \"moves\"",
                        "compare with a value: { battery.voltage: at least 12.2 V }");
            }
        }
    }

    private static Optional<YamlNode> value(YamlMapping mapping, String key) {
        return mapping.entries().stream()
                .filter(entry -> entry.key().equals(key))
                .map(YamlMapping.Entry::value)
                .findFirst();
    }
}
