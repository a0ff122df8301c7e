package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.quantity.Grid;
import snagbench.bench.script.quantity.Quantity;
import snagbench.bench.script.quantity.Unit;
import snagbench.bench.script.yaml.Shown;

/** Reads values of channels and puts them on the channels' grids. An empty answer has been reported. */
final class ChannelValues {
    private static final BigInteger LEAST = BigInteger.valueOf(Integer.MIN_VALUE);
    private static final BigInteger GREATEST = BigInteger.valueOf(Integer.MAX_VALUE);

    private final Findings findings;

    ChannelValues(Findings findings) {
        this.findings = findings;
    }

    /** A value of a channel: figure and unit, or the name of a value. */
    OptionalInt raw(Part part, ChannelDescription channel, Rounding rounding) {
        int named = channel.valueNames().indexOf(part.text());
        if (named >= 0) {
            return OptionalInt.of(named);
        }
        Optional<Quantity> quantity = Quantity.parse(part.text());
        if (quantity.isEmpty()) {
            return notAValue(part, channel);
        }
        if (!channel.valueNames().isEmpty()) {
            return numberOfName(part, channel, quantity.get());
        }
        return onGrid(part, channel, gridOf(channel), quantity.get(), rounding);
    }

    /** A figure that is added to a channel's reading. */
    OptionalInt difference(Part part, ChannelDescription channel) {
        if (!channel.valueNames().isEmpty()) {
            return wrong(
                    part,
                    "nothing can be added to " + channel.name() + ", whose values have names",
                    "take stuck-at: " + String.join(", ", channel.valueNames()));
        }
        Optional<Quantity> quantity = Quantity.parse(part.text());
        return quantity.isEmpty()
                ? notAValue(part, channel)
                : onGrid(part, channel, differences(channel), quantity.get(), Rounding.NONE);
    }

    /** How far apart two readings of a channel are, from 0. */
    OptionalInt size(Part part, ChannelDescription channel, Rounding rounding) {
        if (!channel.valueNames().isEmpty()) {
            return wrong(
                    part,
                    "the values of " + channel.name() + " have names, and no distance",
                    "take \"is NAME\" or \"is not NAME\"");
        }
        Optional<Quantity> quantity = Quantity.parse(part.text());
        if (quantity.isEmpty()) {
            return notAValue(part, channel);
        }
        OptionalInt raw = onGrid(part, channel, differences(channel), quantity.get(), rounding);
        return raw.isPresent() && raw.getAsInt() < 0
                ? wrong(part, "a size below 0: " + part.text(), "it counts both ways: write it without the sign")
                : raw;
    }

    private static Grid differences(ChannelDescription channel) {
        return gridOf(channel).differences();
    }

    /** A figure in the steps of a channel whose values have no names, not rounded to whole ones. */
    Optional<BigDecimal> inSteps(Part part, ChannelDescription channel, String fault) {
        if (!channel.valueNames().isEmpty()) {
            wrong(
                    part,
                    fault + " cannot work on " + channel.name() + ", whose values have names",
                    "take stuck-at: " + String.join(", ", channel.valueNames()));
            return Optional.empty();
        }
        Optional<Quantity> quantity = Quantity.parse(part.text());
        if (quantity.isEmpty()) {
            notAValue(part, channel);
            return Optional.empty();
        }
        return fits(part, channel, quantity.get())
                ? Optional.of(differences(channel).inSteps(quantity.get()))
                : Optional.empty();
    }

    private boolean fits(Part part, ChannelDescription channel, Quantity quantity) {
        if (quantity.unit().isEmpty() && !channel.unit().isEmpty()) {
            wrong(
                    part,
                    part.text() + " has no unit",
                    channel.name() + " is in " + channel.unit() + ": write \"" + part.text() + " " + channel.unit()
                            + "\" if that is what you mean");
            return false;
        }
        if (!gridOf(channel).takes(quantity.unit())) {
            wrongUnit(part, channel, quantity);
            return false;
        }
        return true;
    }

    private OptionalInt numberOfName(Part part, ChannelDescription channel, Quantity quantity) {
        List<String> names = channel.valueNames();
        boolean whole = quantity.unit().isEmpty()
                && quantity.number().stripTrailingZeros().scale() <= 0
                && quantity.number().signum() >= 0
                && quantity.number().compareTo(BigDecimal.valueOf(names.size())) < 0;
        if (!whole) {
            return wrong(
                    part,
                    Shown.quoted(part.text()) + " is no value of " + channel.name(),
                    "its values are: " + String.join(", ", names));
        }
        return OptionalInt.of(quantity.number().intValueExact());
    }

    private OptionalInt notAValue(Part part, ChannelDescription channel) {
        String found = Shown.quoted(part.text());
        if (!channel.valueNames().isEmpty()) {
            String kind = channel.isStep() ? " has no step " : " has no value ";
            String owner = channel.isStep() ? "this rig" : channel.name();
            String cure = NearestName.cure(part.text(), channel.valueNames(), "its values are");
            return wrong(part, owner + kind + found, cure);
        }
        String wanted = "write " + exampleOf(channel);
        if (part.text().matches("[+-]?[0-9]+,[0-9]+.*")) {
            return wrong(
                    part,
                    found + " has a comma",
                    "figures have a decimal point: " + part.text().replaceFirst(",", "."));
        }
        if (part.text().startsWith("\u2212")) {
            return wrong(part, found + " begins with a typographic minus", "take a plain \"-\"");
        }
        boolean truth = part.text().matches("(?i)on|off|yes|no|true|false");
        return wrong(
                part,
                found + " is no value of " + channel.name(),
                truth && channel.unit().isEmpty() ? "write 1 or 0" : wanted);
    }

    private OptionalInt onGrid(Part part, ChannelDescription channel, Grid grid, Quantity quantity, Rounding rounding) {
        if (!fits(part, channel, quantity)) {
            return OptionalInt.empty();
        }
        BigInteger below = grid.floor(quantity);
        BigInteger above = grid.ceiling(quantity);
        if (rounding == Rounding.NONE && !below.equals(above)) {
            return wrong(
                    part,
                    part.text() + " lies between two values of " + channel.name(),
                    "the nearest that it can have are " + grid.show(below) + " and " + grid.show(above));
        }
        BigInteger raw = rounding == Rounding.UP ? above : below;
        if (raw.compareTo(LEAST) < 0 || raw.compareTo(GREATEST) > 0) {
            return wrong(part, part.text() + " is far outside the range of " + channel.name(), range(channel));
        }
        return OptionalInt.of(raw.intValueExact());
    }

    private OptionalInt wrongUnit(Part part, ChannelDescription channel, Quantity quantity) {
        String found = Shown.quoted(quantity.unit());
        if (channel.unit().isEmpty()) {
            return wrong(
                    part, found + " does not fit " + channel.name() + ", which has no unit", "write the figure alone");
        }
        List<String> fitting = Unit.fitting(channel.unit());
        Optional<String> near = NearestName.of(quantity.unit(), fitting)
                .filter(name -> Unit.of(quantity.unit()).isEmpty());
        return wrong(
                part,
                "the unit " + found + " does not fit " + channel.name() + ", which is in " + channel.unit(),
                near.map(name -> "did you mean \"" + name + "\"? ").orElse("") + "what fits: "
                        + String.join(", ", fitting));
    }

    private OptionalInt wrong(Part part, String message, String cure) {
        findings.error(part.at(), message, cure);
        return OptionalInt.empty();
    }

    static Grid gridOf(ChannelDescription channel) {
        return new Grid(channel.unit(), channel.step());
    }

    static String range(ChannelDescription channel) {
        return channel.name() + " goes from " + channel.show(channel.lowest()) + " to "
                + channel.show(channel.highest());
    }

    private static String exampleOf(ChannelDescription channel) {
        return channel.unit().isEmpty()
                ? "a figure, such as " + channel.show(channel.highest())
                : "figure and unit, such as \"" + channel.show(channel.highest()) + "\"";
    }
}
