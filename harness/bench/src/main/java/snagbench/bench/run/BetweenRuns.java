package snagbench.bench.run;

import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import snagbench.bench.script.Between;
import snagbench.bench.script.Condition;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;

/** Lets a rig rest between two runs, and starts the next only if its readings are as the plan wants them. */
final class BetweenRuns {
    private static final long SECOND = 1_000_000;

    private final Between between;
    private final Consumer<String> listener;

    BetweenRuns(Between between, Consumer<String> listener) {
        this.between = between;
        this.listener = listener;
    }

    /** Rests, on the link's clock; nothing is sent, and no lease is held. */
    void rest(RigSession session) throws SessionException {
        if (between.restMicros() > 0) {
            listener.accept("the rig rests for " + seconds(between.restMicros()));
            session.rest(between.restMicros());
        }
    }

    /** Waits until the rig's readings are as wanted. */
    void waitForStart(RigSession session) throws SessionException {
        if (between.startOnlyIf().isEmpty()) {
            return;
        }
        Condition wanted = between.startOnlyIf().get();
        listener.accept("waiting for " + wanted.show());
        if (session.waitForReadings(wanted, between.giveUpMicros())) {
            return;
        }
        throw new SessionException(
                SessionException.Reason.SILENT,
                "the plan starts only if " + wanted.show() + ", and that did not come about in "
                        + seconds(between.giveUpMicros()) + " (" + last(session, wanted)
                        + "): bring the rig to where it holds, and run again");
    }

    private static String last(RigSession session, Condition wanted) {
        return wanted.terms().stream()
                .filter(Condition.Compares.class::isInstance)
                .map(term -> ((Condition.Compares) term).channel())
                .distinct()
                .map(channel -> {
                    OptionalInt raw = session.real(channel);
                    return raw.isPresent()
                            ? channel.name() + " was " + channel.show(raw.getAsInt()) + " at last"
                            : "no reading of " + channel.name() + " came";
                })
                .collect(Collectors.joining(", "));
    }

    private static String seconds(long micros) {
        return micros % SECOND == 0 ? micros / SECOND + " s" : micros / 1000 + " ms";
    }
}
