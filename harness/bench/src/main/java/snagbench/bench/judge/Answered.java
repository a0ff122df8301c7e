package snagbench.bench.judge;

import java.util.Arrays;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** That a fail-safe reports in the tick. */
final class Answered implements TermSignal {
    private final Timeline timeline;
    private final FailSafeDescription failSafe;
    private final int[] ticks;

    Answered(Timeline timeline, FailSafeDescription failSafe) {
        this.timeline = timeline;
        this.failSafe = failSafe;
        this.ticks = timeline.events().stream()
                .filter(one -> one.is(EventKind.ANSWERED, failSafe.number()))
                .mapToInt(Happening::tick)
                .sorted()
                .toArray();
    }

    @Override
    public int at(int tick) {
        if (Arrays.binarySearch(ticks, tick) >= 0) {
            return Truth.TRUE;
        }
        return timeline.hasAllEvents(tick, tick) ? Truth.FALSE : Truth.UNKNOWN;
    }

    @Override
    public String reading(int tick) {
        return switch (at(tick)) {
            case Truth.TRUE -> failSafe.name() + " answered";
            case Truth.FALSE -> failSafe.name() + " silent";
            default -> "not known whether " + failSafe.name() + " answered";
        };
    }
}
