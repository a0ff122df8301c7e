package snagbench.bench.run;

import java.util.Optional;
import java.util.function.BooleanSupplier;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.session.SessionSettings;

/** Connects to the rig of a run: at its start, and again after the line was lost. */
public interface RigConnector {
    /**
     * Connects.
     *
     * @return a link to the rig
     * @throws LinkException if that cannot be done
     */
    Link connect() throws LinkException;

    /**
     * Connects again after the line was lost, if the rig comes back by itself soon; the old link is closed by then.
     *
     * @param cancelled true once the user wants to stop
     * @return a new link; empty if it did not come back
     * @throws LinkException if it came back and cannot be connected
     */
    default Optional<Link> reconnect(BooleanSupplier cancelled) throws LinkException {
        return Optional.empty();
    }

    /**
     * How long the rig may take from being connected until it answers.
     *
     * @return in microseconds on the link's clock
     */
    default long greetingMicros() {
        return SessionSettings.USUAL_SILENCE_MICROS;
    }
}
