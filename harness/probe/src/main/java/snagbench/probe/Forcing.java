package snagbench.probe;

import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Timing;

/** What one entry does to its channel while it is active. Times are on the controller's clock. */
final class Forcing {
    private final Gate gate = new Gate();
    private final Noise noise = new Noise();
    private final Curve.Place place;
    private final History.Ring past;

    private int onMicros;
    private int frozen;

    Forcing(Curve.Place place, History.Ring past) {
        this.place = place;
        this.past = past;
    }

    /** A program was loaded with this entry in it. */
    void load(Entry entry, EntryKind kind) {
        if (kind == EntryKind.DELAY) {
            past.take(entry.a);
        }
    }

    void arm(int seed, int entry) {
        noise.arm(seed, entry);
        past.arm();
    }

    /** The entry strikes at the end of a tick in which its channel had this real reading. */
    void strike(int real) {
        frozen = real;
    }

    /** The entry becomes active with this tick. */
    void begin(EntryKind kind, Timing timing, int tickMicros) {
        onMicros = tickMicros;
        gate.begin(timing, tickMicros);
        if (kind == EntryKind.NOISE) {
            noise.draw();
        } else if (kind == EntryKind.REPLAY) {
            place.begin();
        }
    }

    /** A later tick of the same activity starts. */
    void beginTick(EntryKind kind, Timing timing, int tickMicros) {
        gate.beginTick(timing, tickMicros);
        if (kind == EntryKind.NOISE) {
            noise.draw();
        } else if (kind == EntryKind.REPLAY) {
            place.beginTick();
        }
    }

    /** Takes the channel's real reading of a tick, at the tick's end, whether the entry is active or not. */
    void keep(EntryKind kind, int real) {
        if (kind == EntryKind.DELAY) {
            past.keep(real);
        }
    }

    /** False while an intermittent entry is held back: its time goes on, but it forces nothing. */
    boolean isOpen() {
        return gate.isOpen();
    }

    /** Since the entry became active, in microseconds. */
    int elapsed(int tickMicros) {
        int elapsed = tickMicros - onMicros;
        return elapsed < 0 ? Integer.MAX_VALUE : elapsed;
    }

    /**
     * The value after the entry.
     *
     * @param value before it, in steps
     * @param kind of the entry
     * @param entry the entry
     * @param tickMicros start of the tick
     * @param absent the channel's value when absent
     */
    long apply(long value, EntryKind kind, Entry entry, int tickMicros, int absent) {
        switch (kind) {
            case STUCK_AT:
                return entry.a;
            case FREEZE:
                return frozen;
            case OFFSET:
                return value + FaultArithmetic.offset(entry.a, entry.b, elapsed(tickMicros));
            case SCALE:
                return FaultArithmetic.scaled(value, entry.a);
            case DRIFT:
                return value + FaultArithmetic.drifted(entry.a, elapsed(tickMicros));
            case SPIKE:
                return value + entry.a;
            case NOISE:
                return value + noise.added(entry.a);
            case DROPOUT:
                return absent;
            case DELAY:
                return past.oldest();
            case REPLAY:
                return place.value(value);
            default:
                return value;
        }
    }
}
