package snagbench.probe;

/** The line to the bench, as the controller sees it: neither method ever waits. */
public interface ProbeLine {
    /**
     * No line: nobody can open a session, so nobody can override or stop anything. For builds that are to run without a
     * bench, such as at an event.
     */
    ProbeLine NONE = new ProbeLine() {
        @Override
        public int read() {
            return -1;
        }

        @Override
        public int write(byte[] bytes, int from, int length) {
            return 0;
        }
    };

    /**
     * Takes the next byte that came.
     *
     * @return 0 to 255, or -1 when none is there
     */
    int read();

    /**
     * Gives bytes to the line, as many as it takes now.
     *
     * @param bytes hold them
     * @param from first byte
     * @param length how many are offered
     * @return how many were taken, from 0 to length
     */
    int write(byte[] bytes, int from, int length);
}
