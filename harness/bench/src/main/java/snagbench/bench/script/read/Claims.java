package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.Claim;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlNode;

/** Reads claims: { reliability: 90 %, confidence: 90 % }. An empty answer has been reported. */
final class Claims {
    private static final String EXAMPLE = "{ reliability: 90 %, confidence: 90 % }";
    private static final List<String> KEYS = List.of("reliability", "confidence", "allow-failures");
    private static final Pattern PERCENT = Pattern.compile("([0-9]{1,3}(?:\\.[0-9]{1,9})?)\\s*%");
    private static final int MOST_FAILURES = 100;
    private static final double LEAST_CONFIDENCE = 0.5;

    private final Findings findings;
    private final Values values;

    Claims(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

    Optional<Claim> read(YamlNode node) {
        return values.mapping(node, "a claim", EXAMPLE)
                .map(mapping -> Fields.of(mapping, "a claim", KEYS, Set.of(), findings))
                .flatMap(this::claim);
    }

    private Optional<Claim> claim(Fields fields) {
        OptionalDouble reliability =
                share(fields, "reliability", "No number of runs shows that all, or any, would pass");
        OptionalDouble confidence = share(fields, "confidence", "No number of runs makes sure");
        int failures = fields.optional("allow-failures")
                .flatMap(node -> values.line(node, "a number of failures"))
                .map(part -> WholeNumber.read(part, 0, MOST_FAILURES, "a number of failures", findings))
                .orElse(0);
        if (reliability.isEmpty() || confidence.isEmpty()) {
            return Optional.empty();
        }
        if (confidence.getAsDouble() < LEAST_CONFIDENCE) {
            findings.error(
                    fields.at("confidence"),
                    "a confidence below 50 %: tossing a coin says as much",
                    "90 % is common, 95 % where much hangs on it");
            return Optional.empty();
        }
        return Optional.of(new Claim(reliability.getAsDouble(), confidence.getAsDouble(), failures));
    }

    /** A share above 0 % and below 100 %. */
    private OptionalDouble share(Fields fields, String key, String whyNotAll) {
        Optional<Part> written = fields.required(key, "90 %").flatMap(node -> values.line(node, "a share in per cent"));
        if (written.isEmpty()) {
            return OptionalDouble.empty();
        }
        Part part = written.get();
        Matcher matcher = PERCENT.matcher(part.text());
        if (!matcher.matches()) {
            findings.error(part.at(), Shown.quoted(part.text()) + " is no share in per cent", "write it as \"90 %\"");
            return OptionalDouble.empty();
        }
        BigDecimal share = new BigDecimal(matcher.group(1)).movePointLeft(2);
        if (share.signum() == 0 || share.compareTo(BigDecimal.ONE) >= 0) {
            findings.error(
                    part.at(),
                    "a " + key + " of " + Shown.quoted(part.text()) + ": it lies between 0 % and 100 %, both left out",
                    whyNotAll + "; 90 % takes 22 runs at 90 % confidence, 99 % takes 230");
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(share.doubleValue());
    }
}
