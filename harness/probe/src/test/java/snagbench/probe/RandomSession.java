package snagbench.probe;

import java.util.Arrays;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.CborWriter;
import snagbench.wire.Comparison;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.Event;
import snagbench.wire.FrameWriter;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.ItemRequest;
import snagbench.wire.Keep;
import snagbench.wire.LetGo;
import snagbench.wire.Open;
import snagbench.wire.Point;
import snagbench.wire.RequestBody;
import snagbench.wire.Term;
import snagbench.wire.Timing;
import snagbench.wire.Watch;

/**
 * Any session that a bench, or what is left of one on a bad line, might have with a rig: opening, leases, guards, programs,
 * stops, commands, and between them requests that are repeated, late, wrong or broken.
 */
final class RandomSession {
    /** Longest frame of a request. */
    private static final int LONGEST = 64;

    private final Random random;
    private final TestRig rig;
    private final RandomInputs inputs;
    private final FrameWriter frame = new FrameWriter(LONGEST);
    private byte[] lastFrame = new byte[0];

    RandomSession(Random random, TestRig rig) {
        this.random = random;
        this.rig = rig;
        inputs = new RandomInputs(random, rig);
    }

    private boolean oneIn(int n) {
        return random.nextInt(n) == 0;
    }

    void run() {
        ticks(random.nextInt(3));
        open();
        for (int programs = 1 + random.nextInt(3); programs > 0; programs--) {
            rig.stop.asksUntilStopped = 1 + random.nextInt(4);
            program();
        }
    }

    private void open() {
        if (oneIn(5)) {
            rough();
        }
        rig.session = random.nextInt() | 1;
        rig.number = 0;
        if (oneIn(10)) {
            say(new Open(2, 3));
            rig.session++;
            rig.number = 0;
        }
        put(0, new Open(1, 1 + random.nextInt(3)));
        tick();
        for (int items = random.nextInt(4); items > 0; items--) {
            put(rig.boot, new ItemRequest(random.nextInt(rig.description.items().size() + 1)));
            tick();
        }
        rig.programIsGone();
        rig.guardsAreGone();
        keep();
        watch();
        for (int count = random.nextInt(3); count > 0; count--) {
            say(guard());
        }
    }

    private void watch() {
        if (oneIn(4)) {
            int[] few = new int[1 + random.nextInt(3)];
            Arrays.setAll(few, i -> random.nextInt(rig.description.channels().size()));
            say(new Watch(1 + random.nextInt(5), 0, few));
            return;
        }
        int channels = rig.description.channels().size();
        int[] all = RandomInputs.allOf(channels);
        say(new Watch(1, 0, Arrays.copyOfRange(all, 0, 10)));
        say(new Watch(1, 10, Arrays.copyOfRange(all, 10, channels)));
    }

    private Guard guard() {
        int position = rig.position.index();
        int far = oneIn(4) ? 3 : 1000;
        return switch (random.nextInt(3)) {
            case 0 -> new Guard(rig.guards, GuardKind.TRAVEL.code(), position, -far, far, 0, 0, -1);
            case 1 ->
                new Guard(
                        rig.guards,
                        GuardKind.SPEED.code(),
                        position,
                        oneIn(4) ? 6 : 30,
                        0,
                        1 + random.nextInt(8),
                        0,
                        -1);
            default ->
                new Guard(
                        rig.guards,
                        GuardKind.STALL.code(),
                        position,
                        2,
                        random.nextInt(3),
                        1 + random.nextInt(5),
                        oneIn(3) ? random.nextInt(40_000) : 500_000,
                        (oneIn(3) ? rig.start : rig.motor).index());
        };
    }

    private void program() {
        if (!oneIn(8)) {
            RandomProgram program = new RandomProgram(random, rig);
            for (RequestBody message : program.messages) {
                if (oneIn(60)) {
                    say(wrong());
                }
                if (say(message) == null) {
                    keep();
                    say(message);
                }
            }
        }
        keep();
        if (oneIn(8)) {
            rig.send(rig.session ^ 2, 0, 1, new Open(1, 1));
            tick();
        }
        if (oneIn(6)) {
            say(new Do(Do.COMMAND, rig.start.index(), random.nextInt(4)));
        }
        Arm right = rig.armRequest();
        if (oneIn(10)) {
            say(new Arm(right.entries, right.digest ^ 1, right.guards, right.guardDigest, 1));
        }
        rig.enable.enabled = !oneIn(20);
        say(rig.armRequest(oneIn(10) ? 0 : random.nextInt()));
        rig.enable.enabled = true;
        int lease = oneIn(4) ? 1 + random.nextInt(100) : 2_000;
        for (int left = 30 + random.nextInt(60); left > 0; left--) {
            armedTick(lease);
        }
        end();
    }

    private void armedTick(int lease) {
        switch (random.nextInt(40)) {
            case 0 -> say(wrong());
            case 1 -> {
                rig.line.send(lastFrame, lastFrame.length);
                tick();
            }
            case 2 -> rough();
            case 3 -> say(guard());
            case 4, 5, 6, 7 -> say(new Keep(lease, seen()));
            default -> tick();
        }
    }

    /** Ends a program: asked for, or left alone until the lease has run out. */
    private void end() {
        if (oneIn(3)) {
            rig.micros += 9_000_000;
            ticks(8);
            if (!oneIn(4)) {
                say(new LetGo());
                ticks(5);
            }
        } else {
            say(new LetGo());
            if (oneIn(3)) {
                rig.line.send(lastFrame, lastFrame.length);
            }
            ticks(5);
        }
        rig.programIsGone();
        if (!oneIn(4)) {
            keep();
        }
        if (oneIn(2)) {
            say(new Do(Do.COMMAND, rig.start.index(), 1));
        }
        say(new Do(Do.RELEASE_LATCH, -1, 0));
        if (oneIn(3)) {
            say(new Do(Do.COMMAND, rig.start.index(), 1 + random.nextInt(4)));
        }
    }

    private void keep() {
        say(new Keep(8_000, seen()));
    }

    /** Most often all events that came; now and then none. */
    private int seen() {
        int seen = 0;
        for (Event event : rig.all(Event.class)) {
            seen = Math.max(seen, event.number);
        }
        return oneIn(4) ? 0 : seen;
    }

    /** Requests whose figures are out of range, or of another time. */
    private RequestBody wrong() {
        int any = random.nextInt(5) - 2;
        int index = rig.entries;
        return switch (random.nextInt(12)) {
            case 0 -> new Entry(index + any, 1, rig.position.index(), 0, 0, -1, -1, 0, 0);
            case 1 -> new Entry(index, random.nextInt(14), rig.step.index() + any, any, 0, -1, -1, 0, 0);
            case 2 -> new Entry(index, 1, rig.position.index(), 0, 0, any, any, any, random.nextInt(8));
            case 3 -> new Entry(index, 3, rig.position.index(), any, -any, -1, -1, 0, 0);
            case 4 -> new Entry(index, 9, rig.position.index(), oneIn(2) ? any : 1 << 20, 0, -1, -1, 0, 0);
            case 5 -> new Timing(index - 1 + any, any, any, any, any, any, any);
            case 6 -> new Term(index - 1, random.nextInt(4), random.nextInt(30) - 2, any, random.nextInt(14), any, any);
            case 7 -> new Term(index - 1, 0, -1, 0, Comparison.ANSWERED.code(), any, 0);
            case 8 -> new Point(index - 1 + any, any, 0);
            case 9 ->
                new Guard(
                        rig.guards, random.nextInt(4), rig.position.index(), any, any, any, any, random.nextInt(3) - 1);
            case 10 -> new Watch(any, 0, 0, random.nextInt(40) - 2);
            default -> new Do(random.nextInt(3), rig.start.index() + any, any);
        };
    }

    /** Frames that are no request of this session, are cut short or damaged, or have a field too many or too few. */
    private void rough() {
        CborWriter out = frame.begin();
        int fields = 3 + random.nextInt(11);
        out.array(fields);
        out.integer(random.nextInt(16));
        out.integer(oneIn(3) ? rig.session + 2L & 0xFFFFFFFFL : rig.session & 0xFFFFFFFFL);
        out.integer(oneIn(3) ? 5 : rig.boot & 0xFFFFFFFFL);
        for (int left = fields - 3; left > 0; left--) {
            out.integer(left == fields - 3 ? rig.number + (oneIn(4) ? 0 : 1) : random.nextInt(7) - 2);
        }
        if (!frame.end()) {
            return;
        }
        rig.number++;
        byte[] bytes = Arrays.copyOf(frame.frame(), frame.length());
        if (oneIn(3)) {
            int place = random.nextInt(bytes.length);
            bytes[place] = (byte) (bytes[place] ^ 1 << random.nextInt(8));
        }
        rig.line.send(bytes, oneIn(6) ? random.nextInt(bytes.length) : bytes.length);
        tick();
        if (oneIn(2)) {
            rig.line.send(new byte[1], 1);
        }
        tick();
    }

    private void put(int boot, RequestBody body) {
        rig.send(rig.session, boot, ++rig.number, body);
        lastFrame = rig.lastFrame();
    }

    /** Says a request and gives the answer of that tick; what was taken is counted. */
    private @Nullable Answer say(RequestBody body) {
        put(body instanceof Open ? 0 : rig.boot, body);
        tick();
        Answer answer = rig.answerTo(rig.number);
        boolean loads = body instanceof Entry
                || body instanceof Timing
                || body instanceof Term
                || body instanceof Point
                || body instanceof Guard;
        if (answer != null && answer.code == 0 && loads) {
            rig.taken(body);
        }
        return answer;
    }

    private void ticks(int count) {
        for (int i = 0; i < count; i++) {
            tick();
        }
    }

    private void tick() {
        rig.replies.clear();
        inputs.next();
        rig.tickAfter(inputs.elapsed());
    }
}
