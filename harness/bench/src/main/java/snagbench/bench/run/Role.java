package snagbench.bench.run;

/** What a run of a script is for. */
public enum Role {
    /** The script as it is written. */
    FAULT("fault run"),
    /** The script without its fault: the fail-safes that it names must stay quiet. */
    NO_FAULT("no-fault run"),
    /** The script with a fail-safe that it names left out: it must not pass. */
    INHIBITED("inhibited run"),
    /** The script's twin over the limit, of a script whose point is that a fail-safe must not fire: here it must. */
    TWIN("twin run");

    private final String words;

    Role(String words) {
        this.words = words;
    }

    /**
     * As people read it.
     *
     * @return such as "no-fault run"
     */
    public String words() {
        return words;
    }
}
