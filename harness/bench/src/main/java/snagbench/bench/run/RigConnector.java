package snagbench.bench.run;

import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;

/** Connects to the rig of a run: at its start, and again after the line was lost. */
public interface RigConnector {
    /**
     * Connects.
     *
     * @return a link to the rig
     * @throws LinkException if that cannot be done
     */
    Link connect() throws LinkException;
}
