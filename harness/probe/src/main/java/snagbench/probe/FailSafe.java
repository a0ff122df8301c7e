package snagbench.probe;

/** A fail-safe of the control code, as its {@link Description} holds it. */
public final class FailSafe {
    private final int number;
    private final String name;
    private final Channel inhibition;

    FailSafe(int number, String name, Channel inhibition) {
        this.number = number;
        this.name = name;
        this.inhibition = inhibition;
    }

    /**
     * Its number on the line.
     *
     * @return from 1 to 255
     */
    public int number() {
        return number;
    }

    /**
     * Its name in the register.
     *
     * @return such as "FS-01"
     */
    public String name() {
        return name;
    }

    /**
     * The channel by which it can be left out.
     *
     * @return its handle: told not 0 means that it must not answer
     */
    public Channel inhibition() {
        return inhibition;
    }

    @Override
    public String toString() {
        return name;
    }
}
