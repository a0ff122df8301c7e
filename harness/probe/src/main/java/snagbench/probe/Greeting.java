package snagbench.probe;

import snagbench.wire.Hello;
import snagbench.wire.Wire;

/** What the rig says at boot and when a session is opened. */
final class Greeting {
    private final Description description;
    private final Controller controller;
    private final ProbeLimits limits;

    Greeting(Description description, Controller controller, ProbeLimits limits) {
        this.description = description;
        this.controller = controller;
        this.limits = limits;
    }

    Hello in(int session, int number) {
        return new Hello(
                session,
                number,
                Wire.VERSION,
                controller.bootId,
                controller.cause.code(),
                controller.real ? 1 : 0,
                description.digest(),
                description.items().size(),
                description.channels().size(),
                controller.tickMicros,
                limits.slots,
                limits.terms,
                limits.points,
                limits.guards,
                limits.ring,
                limits.frame,
                limits.kinds(),
                limits.history,
                controller.build);
    }

    /** As long as it can become: a session is opened by its first request. */
    Hello atItsLongest() {
        return in(-1, 1);
    }
}
