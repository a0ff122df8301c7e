package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;

/** Which faults a channel takes, by what it is. A refusal has been reported. */
final class Forceable {
    private static final Set<String> WEAKENING = Set.of("scale", "stuck-at", "intermittent");

    private final Findings findings;

    Forceable(Findings findings) {
        this.findings = findings;
    }

    boolean takes(Part at, String fault, ChannelDescription channel) {
        String what = channel.name() + " is " + Names.words(channel.kind());
        return switch (channel.kind()) {
            case SENSOR -> true;
            case DISTURBANCE, INHIBITION, CONSTANT ->
                fault.equals("stuck-at")
                        || fault.equals("intermittent")
                        || refuse(at, what + " and has no reading for \"" + fault + "\" to work on", "take stuck-at");
            case ACTUATOR -> mayBeWeakened(at, fault, channel, what);
            case COMMAND ->
                refuse(
                        at,
                        what + ", and commands are given at the beginning only",
                        "write \"- send: " + channel.name() + "\" under begin");
            case STATE, COUNTER ->
                refuse(
                        at,
                        what + " of the control code itself and cannot be forced",
                        "force what the control code looks at: a sensor");
        };
    }

    private boolean mayBeWeakened(Part at, String fault, ChannelDescription channel, String what) {
        if ((channel.flags() & Item.MAY_BE_WEAKENED) == 0) {
            return refuse(
                    at,
                    what + ", and the rig does not allow weakening it: without drive something might drop or run on",
                    "force what the sensors say");
        }
        return WEAKENING.contains(fault)
                || refuse(
                        at,
                        what + ", and can only be weakened",
                        "take \"scale\" with a factor from 0 to 1, or stuck-at 0");
    }

    /** Whether a channel may be stuck at a value. */
    boolean takesValue(Part at, int raw, ChannelDescription channel) {
        if (channel.kind() == ChannelKind.INHIBITION && raw != 1) {
            return refuse(at, "an inhibition is switched on or left alone", "write \"stuck-at 1\"");
        }
        if (channel.kind() == ChannelKind.ACTUATOR && raw != 0) {
            return refuse(
                    at,
                    "an actuator can only be weakened, not driven: " + at.text(),
                    "write \"stuck-at 0\", or scale it");
        }
        return true;
    }

    /** Whether a channel may be multiplied. */
    boolean takesFactor(Part at, BigDecimal factor, ChannelDescription channel) {
        boolean weakens = factor.signum() >= 0 && factor.compareTo(BigDecimal.ONE) <= 0;
        return channel.kind() != ChannelKind.ACTUATOR
                || weakens
                || refuse(at, "an actuator can only be weakened: a factor of " + at.text(), "take one from 0 to 1");
    }

    private boolean refuse(Part at, String message, String cure) {
        findings.error(at.at(), message, cure);
        return false;
    }
}
