package snagbench.bench.link;

/** A link that passes everything on to another but what a test changes. */
public interface PassingLink extends Link {
    /** The link behind it. */
    Link line();

    @Override
    default long nowMicros() {
        return line().nowMicros();
    }

    @Override
    default void send(byte[] bytes, int length) throws LinkException {
        line().send(bytes, length);
    }

    @Override
    default int receive(byte[] into, long untilMicros) throws LinkException {
        return line().receive(into, untilMicros);
    }

    @Override
    default String name() {
        return line().name();
    }

    @Override
    default void close() {
        line().close();
    }
}
