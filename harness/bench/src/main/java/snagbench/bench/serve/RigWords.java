package snagbench.bench.serve;

import java.util.Locale;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import snagbench.wire.CborReader;
import snagbench.wire.EntryEnd;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Hello;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.ResetCause;
import snagbench.wire.StopReason;

/** Puts into words what a rig tells: each event once, however often it is sent, and of records what has changed. */
final class RigWords {
    private final Consumer<String> told;
    private int boot;
    private int session;
    private int newestEvent;
    private int flags;
    private int active;

    RigWords(Consumer<String> told) {
        this.told = told;
    }

    /** Takes what a good frame holds. */
    void tell(CborReader payload) {
        Reply reply = Reply.read(payload);
        if (reply instanceof Hello hello) {
            greeting(hello);
        } else if (reply instanceof Event event) {
            event(event);
        } else if (reply instanceof Record record) {
            record(record);
        }
    }

    private void greeting(Hello hello) {
        if (hello.boot != boot) {
            boot = hello.boot;
            session = 0;
            newestEvent = 0;
            flags = 0;
            active = 0;
            told.accept("boot " + unsigned(boot) + ", " + name(ResetCause.of(hello.cause), "cause", hello.cause)
                    + ", build " + hello.build);
        }
        if (hello.session != session) {
            session = hello.session;
            told.accept("session " + unsigned(session) + " opened");
        }
    }

    private void event(Event event) {
        if (event.number - newestEvent <= 0) {
            return;
        }
        if (event.number - newestEvent > 1) {
            told.accept("events " + unsigned(newestEvent + 1) + " to " + unsigned(event.number - 1) + " were not sent");
        }
        newestEvent = event.number;
        told.accept("event " + unsigned(event.number) + ", tick " + unsigned(event.tick) + ", " + unsigned(event.micros)
                + " us since boot: " + words(event));
    }

    private static String words(Event event) {
        EventKind kind = EventKind.of(event.kind);
        if (kind == null) {
            return "kind " + event.kind + " of " + event.a + ", " + event.b;
        }
        return switch (kind) {
            case ENTRY_ON -> "entry " + event.a + " on, count " + event.b;
            case ENTRY_OFF -> "entry " + event.a + " off, " + name(EntryEnd.of(event.b), "end", event.b);
            case STAGE_DONE -> "stage " + event.a + " done";
            case STAGE_TIMED_OUT -> "stage " + event.a + " timed out";
            case STATE -> "channel " + event.a + " is " + event.b;
            case ANSWERED -> "fail-safe " + event.a + " answered, count " + event.b;
            case GUARD -> "guard " + event.a + " tripped at " + event.b;
            case LEASE -> event.a == 0 ? "lease ran out" : "lease taken";
            case STOP ->
                "safe stop " + (event.b == 0 ? "begun, " : "done, ") + name(StopReason.of(event.a), "reason", event.a);
            case ARMED -> "armed, entries " + event.a + ", seed " + event.b;
        };
    }

    /** Events tell most; a latch is seen in the flags alone. */
    private void record(Record record) {
        change(record, Record.LEASED, "leased");
        change(record, Record.LATCHED, "latched");
        change(record, Record.EVENTS_LOST, "events lost");
        flags = record.flags;
        if (record.active != active) {
            active = record.active;
            told.accept(tick(record) + "active entries: " + (active == 0 ? "none" : entries(active)));
        }
    }

    private void change(Record record, int flag, String name) {
        int now = record.flags & flag;
        if (now != (flags & flag)) {
            told.accept(tick(record) + (now == 0 ? "no longer " : "") + name);
        }
    }

    private static String tick(Record record) {
        return "record, tick " + unsigned(record.tick) + ", " + unsigned(record.micros) + " us since boot: ";
    }

    private static String entries(int mask) {
        StringBuilder numbers = new StringBuilder();
        for (int entry = 0; entry < Integer.SIZE; entry++) {
            if ((mask >>> entry & 1) == 1) {
                numbers.append(numbers.isEmpty() ? "" : " ").append(entry);
            }
        }
        return numbers.toString();
    }

    private static String name(@Nullable Enum<?> known, String ofWhat, int code) {
        return known == null
                ? ofWhat + " " + code
                : known.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static String unsigned(int figure) {
        return Integer.toUnsignedString(figure);
    }
}
