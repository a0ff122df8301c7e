package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;

/** Reads the ticks in which something must hold: a window after an anchor, or what lies between two anchors. */
final class Stretches {
    /** The keys that this reads. */
    static final List<String> KEYS = List.of("within", "after", "from", "to");

    private final Findings findings;
    private final Times times;
    private final Anchors anchors;

    Stretches(Findings findings, Times times, Anchors anchors) {
        this.findings = findings;
        this.times = times;
        this.anchors = anchors;
    }

    /** Whether an expectation says anything of its stretch. */
    static boolean isWritten(Fields fields) {
        return KEYS.stream().anyMatch(fields::has);
    }

    /** The stretch; the whole script where nothing is said. An empty answer has been reported. */
    Optional<Stretch> read(Fields fields) {
        boolean window = fields.has("within") || fields.has("after");
        boolean between = fields.has("from") || fields.has("to");
        if (window && between) {
            findings.error(
                    fields.at(fields.has("from") ? "from" : "to"),
                    "\"within\" and \"after\" stand together with \"from\" and \"to\"",
                    "keep one pair: a time after something, or from something to something");
            return Optional.empty();
        }
        if (window) {
            return window(fields);
        }
        Optional<Anchor> from = anchor(fields, "from", new Anchor.OfBegin());
        if (from.isEmpty() || !fields.has("to")) {
            return from.map(found -> new Stretch(found, Optional.empty(), Optional.empty()));
        }
        Optional<Anchor> to = anchor(fields, "to", new Anchor.OfBegin());
        if (to.isPresent() && to.get() instanceof Anchor.OfBegin) {
            findings.error(fields.at("to"), "nothing lies before the beginning", "name what comes later");
            return Optional.empty();
        }
        return to.map(found -> new Stretch(from.get(), Optional.empty(), Optional.of(found)));
    }

    private Optional<Stretch> window(Fields fields) {
        Optional<Anchor> from = anchor(fields, "after", anchors.usual());
        Optional<Expectation.Window> within = fields.optional("within").map(times::window);
        return from.map(found -> new Stretch(found, within, Optional.empty()));
    }

    private Optional<Anchor> anchor(Fields fields, String key, Anchor otherwise) {
        return fields.has(key) ? fields.optional(key).flatMap(anchors::find) : Optional.of(otherwise);
    }
}
