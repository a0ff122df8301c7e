package snagbench.bench.script.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.Source;
import snagbench.wire.Item;

/** What a register says of a fail-safe, as a new script can use it. */
final class KnownFailSafe {
    private static final int WIDTH = 110;

    private final FailSafeRegister.Entry entry;
    private final RigDescription rig;

    KnownFailSafe(FailSafeRegister.Entry entry, RigDescription rig) {
        this.entry = entry;
        this.rig = rig;
    }

    /** A sentence on one line. */
    String cause() {
        return sentence(entry.cause());
    }

    /** What it looks for, in lines of a comment. */
    List<String> looksFor() {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(entry.failSafe().name() + " looks for:");
        for (String word : sentence(entry.symptoms().words()).split(" ", -1)) {
            if (line.length() + word.length() >= WIDTH) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(' ');
            }
            line.append(' ').append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    /**
     * Where the machine is when the fail-safe looks, as more comparisons of a trigger: those of its symptom on channels over
     * which a control loop is closed, positions mostly. The others are what is to go wrong.
     */
    Optional<String> placeIn(String step, ChannelDescription overridden) {
        List<Condition> inStep = entry.symptoms().when().stream()
                .map(FailSafeRegister.Symptom::condition)
                .filter(one -> one.terms().stream().anyMatch(term -> isStep(term, step)))
                .toList();
        Optional<Condition> symptom = inStep.stream()
                .filter(one -> one.terms().stream().anyMatch(term -> isAbout(term, overridden)))
                .findFirst()
                .or(() -> inStep.stream().findFirst());
        List<Condition.Term> place = new ArrayList<>();
        symptom.ifPresent(one -> one.terms().forEach(term -> {
            if (term instanceof Condition.Compares compares && saysWhere(compares.channel(), overridden)) {
                place.add(new Condition.Compares(
                        compares.place(), compares.channel(), Source.REAL, compares.relation(), compares.raw()));
            }
        }));
        if (symptom.isEmpty() || place.isEmpty()) {
            return Optional.empty();
        }
        String text = new ConditionText(Set.of()).of(new Condition(symptom.get().place(), place));
        return Optional.of(text.substring(2, text.length() - 2).replaceAll("\\.0+ ", " "));
    }

    private boolean isStep(Condition.Term term, String step) {
        return term instanceof Condition.Compares one
                && one.channel().isStep()
                && one.relation() == Condition.Relation.IS
                && one.channel().show(one.raw()).equals(step);
    }

    private static boolean isAbout(Condition.Term term, ChannelDescription channel) {
        return term instanceof Condition.Compares one && one.channel().equals(channel);
    }

    private boolean saysWhere(ChannelDescription channel, ChannelDescription overridden) {
        return channel.index() < rig.channels().size()
                && (channel.flags() & Item.CLOSES_LOOP) != 0
                && !channel.equals(overridden);
    }

    /** The recovery state as a condition in braces. */
    String recovered() {
        ChannelDescription channel = entry.recovery().channel();
        String key = channel.isStep() ? "step" : channel.name();
        List<String> states = entry.recovery().values().stream()
                .map(value -> "{ " + key + ": " + channel.show(value) + " }")
                .toList();
        return states.size() == 1
                ? states.get(0)
                : states.stream().collect(Collectors.joining(", ", "{ any-of: [", "] }"));
    }

    long withinMicros() {
        return entry.recovery().withinMicros();
    }

    private static String sentence(String text) {
        String line = text.strip().replaceAll("\\s+", " ");
        return Character.toUpperCase(line.charAt(0)) + line.substring(1) + (line.endsWith(".") ? "" : ".");
    }
}
