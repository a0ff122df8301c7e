package snagbench.virtualrig.shuttle.control;

/** What the controller keeps over a restart: whether a run is on, and whether it may go on by itself. */
public final class RunRecord {
    private boolean runs;
    private boolean goesOn;

    /** Nothing runs. */
    public RunRecord() {}

    boolean runs() {
        return runs;
    }

    /** After a restart the run goes on: FS-13 was inhibited when it was last looked at. */
    boolean goesOn() {
        return goesOn;
    }

    void keep(boolean isRunning, boolean mayGoOn) {
        runs = isRunning;
        goesOn = mayGoOn;
    }
}
