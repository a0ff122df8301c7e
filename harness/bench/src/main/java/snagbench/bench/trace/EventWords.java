package snagbench.bench.trace;

import java.util.Locale;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.wire.EventKind;

/**
 * Events as text, both ways: the kind, then its two values, of which those that have names go by them. Such as
 * {@code answered FS-02 1}, {@code state step REACHING}, {@code entry-on 0 1}.
 */
final class EventWords {
    private final RigDescription rig;

    EventWords(RigDescription rig) {
        this.rig = rig;
    }

    /** What an event tells. */
    record Told(EventKind kind, int a, int b) {}

    String of(Happening one) {
        return word(one.kind()) + " " + first(one) + " " + second(one);
    }

    private static String word(EventKind kind) {
        return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private String first(Happening one) {
        if (one.kind() == EventKind.STATE && isChannel(one.a())) {
            return rig.channels().get(one.a()).name();
        }
        return one.kind() == EventKind.ANSWERED ? failSafe(one.a()) : Integer.toString(one.a());
    }

    private String second(Happening one) {
        if (one.kind() == EventKind.STATE && isChannel(one.a())) {
            ChannelDescription channel = rig.channels().get(one.a());
            return one.b() >= 0 && one.b() < channel.valueNames().size()
                    ? channel.valueNames().get(one.b())
                    : Integer.toString(one.b());
        }
        return Integer.toString(one.b());
    }

    private boolean isChannel(int index) {
        return index >= 0 && index < rig.channels().size();
    }

    private String failSafe(int number) {
        return rig.failSafes().stream()
                .filter(one -> one.number() == number)
                .findFirst()
                .map(FailSafeDescription::name)
                .orElse(Integer.toString(number));
    }

    /** What a text tells; empty where it tells nothing that is known. */
    Optional<Told> read(String text) {
        for (EventKind kind : EventKind.values()) {
            String head = word(kind) + " ";
            if (text.startsWith(head)) {
                return values(kind, text.substring(head.length()).strip());
            }
        }
        return Optional.empty();
    }

    /** Names may have blanks in them, so that the first value is looked for among all that there are. */
    private Optional<Told> values(EventKind kind, String rest) {
        if (kind == EventKind.STATE) {
            for (ChannelDescription channel : rig.channels()) {
                if (rest.startsWith(channel.name() + " ")) {
                    Optional<Integer> value = value(
                            channel, rest.substring(channel.name().length() + 1).strip());
                    if (value.isPresent()) {
                        return Optional.of(new Told(kind, channel.index(), value.get()));
                    }
                }
            }
        } else if (kind == EventKind.ANSWERED) {
            for (FailSafeDescription one : rig.failSafes()) {
                if (rest.equals(one.name())) {
                    return Optional.of(new Told(kind, one.number(), 1));
                } else if (rest.startsWith(one.name() + " ")) {
                    return number(rest.substring(one.name().length() + 1).strip())
                            .map(count -> new Told(kind, one.number(), count));
                }
            }
        }
        int blank = rest.indexOf(' ');
        Optional<Integer> a = number(blank < 0 ? rest : rest.substring(0, blank));
        Optional<Integer> b =
                blank < 0 ? Optional.of(0) : number(rest.substring(blank + 1).strip());
        return a.isPresent() && b.isPresent() ? Optional.of(new Told(kind, a.get(), b.get())) : Optional.empty();
    }

    private static Optional<Integer> value(ChannelDescription channel, String text) {
        int named = channel.valueNames().indexOf(text);
        return named >= 0 ? Optional.of(named) : number(text);
    }

    private static Optional<Integer> number(String text) {
        try {
            return Optional.of(Integer.valueOf(text));
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }
}
