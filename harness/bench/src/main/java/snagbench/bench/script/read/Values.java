package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;
import snagbench.bench.script.yaml.YamlUnreadable;

/** Takes a node as what it should be, or reports what it is. An empty answer has been reported. */
final class Values {
    private final Findings findings;

    Values(Findings findings) {
        this.findings = findings;
    }

    /** A text on one line, not empty. */
    Optional<Part> line(YamlNode node, String what) {
        Optional<YamlScalar> scalar = text(node, what);
        if (scalar.isEmpty()) {
            return Optional.empty();
        }
        Part part = Part.of(scalar.get());
        if (scalar.get().runsOn()) {
            findings.error(
                    node.at(),
                    what + " goes on in the next line, and reads " + Shown.quoted(part.text()),
                    "check colon and indentation of line " + (node.at().line() + 1));
            return Optional.empty();
        }
        if (part.text().isEmpty()) {
            findings.error(node.at(), what + " is empty", "write it between the quotes");
            return Optional.empty();
        }
        if (part.text().lines().count() > 1) {
            findings.error(node.at(), what + " has several lines", "write it on one");
            return Optional.empty();
        }
        return Optional.of(part);
    }

    /** A text, perhaps on several lines. */
    Optional<YamlScalar> text(YamlNode node, String what) {
        if (node instanceof YamlScalar scalar) {
            if (scalar.isNothing()) {
                findings.error(node.at(), what + " is left out", "write it after the colon");
                return Optional.empty();
            }
            return Optional.of(scalar);
        }
        return reportKind(node, what + " is wanted", "");
    }

    /** Words, perhaps on several lines, without what is blank around them; at least one. */
    Optional<String> words(YamlNode node, String what) {
        Optional<String> words = text(node, what).map(text -> text.text().strip());
        if (words.filter(String::isEmpty).isPresent()) {
            findings.error(node.at(), what + " is blank", "write it after the colon");
            return Optional.empty();
        }
        return words;
    }

    /** A truth; false for a text that is none, which has been reported. */
    boolean truth(YamlNode node) {
        Optional<Part> text = line(node, "true or false");
        boolean isTrue = text.map(Part::text).filter("true"::equalsIgnoreCase).isPresent();
        boolean isFalse = text.map(Part::text).filter("false"::equalsIgnoreCase).isPresent();
        if (text.isPresent() && !isTrue && !isFalse) {
            findings.error(
                    node.at(),
                    Shown.quoted(text.get().text()) + " is neither true nor false",
                    "YAML 1.2 has these two words alone: yes, no, on and off are texts");
        }
        return isTrue;
    }

    Optional<YamlMapping> mapping(YamlNode node, String what, String example) {
        return node instanceof YamlMapping mapping
                ? Optional.of(mapping)
                : reportKind(node, what + " is wanted", "write it as: " + example);
    }

    /** The items of a list, at least one. */
    Optional<List<YamlNode>> list(YamlNode node, String what, String example) {
        if (!(node instanceof YamlList list)) {
            return reportKind(node, what + " is wanted", "each one starts with \"- \": " + example);
        }
        if (list.items().isEmpty()) {
            findings.error(node.at(), what + " is empty", "write at least one: " + example);
            return Optional.empty();
        }
        return Optional.of(list.items());
    }

    /** The items of a list, or the one that stands in its place. */
    Optional<List<YamlNode>> listOrOne(YamlNode node, String what, String example) {
        return node instanceof YamlScalar scalar && !scalar.isNothing()
                ? Optional.of(List.of(scalar))
                : list(node, what, example);
    }

    private <T> Optional<T> reportKind(YamlNode node, String wanted, String cure) {
        if (node instanceof YamlScalar scalar && !scalar.isNothing()) {
            boolean glued = scalar.text().matches("[\\w.-]+:\\S.*");
            String hint = glued ? "a space is wanted after the colon; " : "";
            findings.error(node.at(), Shown.quoted(scalar.text()) + " stands where " + wanted, hint + cure);
        } else if (!(node instanceof YamlUnreadable)) {
            findings.error(node.at(), node.words() + " stands where " + wanted, cure);
        }
        return Optional.empty();
    }
}
