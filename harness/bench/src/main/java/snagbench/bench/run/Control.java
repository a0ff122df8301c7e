package snagbench.bench.run;

/**
 * What a control run is a control of.
 *
 * @param role what it is for; never {@link Role#FAULT}
 * @param of index of the fault run that it belongs to
 * @param change what is otherwise than in that run, such as "FS-02 inhibited"
 */
public record Control(Role role, int of, String change) {
    /**
     * The control run as people read it.
     *
     * @return such as "inhibited run, FS-02 inhibited"
     */
    public String words() {
        return change.isEmpty() ? role.words() : role.words() + ", " + change;
    }
}
