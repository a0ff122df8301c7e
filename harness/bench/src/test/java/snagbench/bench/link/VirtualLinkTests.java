package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.Consumer;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import snagbench.probe.VirtualRig;

/** The line to a virtual rig that somebody else wrote: what it does wrong is told with its name. */
class VirtualLinkTests {
    private final byte[] into = new byte[16];
    private final RigWatch watch = new RigWatch();

    /** A rig as a user might write it: what it gives, and what it does when it is to run on. */
    private static class UsersRig implements VirtualRig {
        private final IntUnaryOperator given;
        private final Consumer<UsersRig> running;
        private long now;
        private int sent;

        UsersRig(IntUnaryOperator given, Consumer<UsersRig> running) {
            this.given = given;
            this.running = running;
        }

        @Override
        public long nowMicros() {
            if (now < 0) {
                throw new IllegalStateException("no clock");
            }
            return now;
        }

        @Override
        public void send(byte[] bytes, int from, int length) {
            sent += length;
        }

        @Override
        public int receive(byte[] room) {
            return given.applyAsInt(room.length);
        }

        @Override
        public void runUntil(long micros) {
            running.accept(this);
        }
    }

    private VirtualLink linkTo(UsersRig rig) {
        return new VirtualLink("lifter", rig, watch);
    }

    private String failure(UsersRig rig) {
        VirtualLink link = linkTo(rig);
        String message = String.valueOf(assertThrows(LinkException.class, () -> link.receive(into, 1000))
                .getMessage());
        assertTrue(message.startsWith("virtual rig lifter "), message);
        assertEquals(0, watch.count() % 2, "nobody is in the rig's code any more");
        return message;
    }

    @Test
    void toWaitIsToLetTheRigRunOn() throws LinkException {
        VirtualLink link = linkTo(new UsersRig(room -> 0, rig -> rig.now = 1000));

        assertEquals(0, link.receive(into, 1000));
        assertEquals(2, watch.count());
        assertEquals(1000, link.nowMicros());
    }

    @Test
    void whatIsThereAlreadyIsTakenWithoutTime() throws LinkException {
        VirtualLink link = linkTo(new UsersRig(room -> 5, rig -> rig.now = 1000));

        assertEquals(5, link.receive(into, 1000));
        assertEquals(0, link.nowMicros());
    }

    @Test
    void aTimeThatIsPastLetsNothingPass() throws LinkException {
        UsersRig rig = new UsersRig(room -> 0, one -> {});
        rig.now = 500;

        assertEquals(0, linkTo(rig).receive(into, 400));
    }

    @Test
    void whatTheRigThrowsIsToldWithItsPlace() {
        String message = failure(new UsersRig(room -> 0, rig -> {
            throw new IllegalStateException("the belt slipped");
        }));

        assertTrue(message.contains("failed in its own code"), message);
        assertTrue(message.contains("the belt slipped"), message);
        assertTrue(message.contains(" at snagbench.bench.link.VirtualLinkTests"), message);
    }

    @Test
    void anAssertionOfTheRigIsToldAsWell() {
        String message = failure(new UsersRig(room -> 0, rig -> {
            throw new AssertionError("never here");
        }));

        assertTrue(message.contains("never here"), message);
    }

    @Test
    void aRigWhoseTimeStandsStillIsNotWaitedForForEver() {
        String message = failure(new UsersRig(room -> 0, rig -> rig.now = 999));

        assertTrue(message.contains("came back at 999 us"), message);
        assertTrue(message.contains("1000 us"), message);
    }

    @Test
    void anImpossibleNumberOfBytesIsTold() {
        assertTrue(failure(new UsersRig(room -> room + 1, rig -> {})).contains("gave 17 bytes"));
        assertTrue(failure(new UsersRig(room -> -1, rig -> {})).contains("gave -1 bytes"));
    }

    @Test
    void aClockThatThrowsIsToldByTheNextWhoUsesTheLine() {
        UsersRig rig = new UsersRig(room -> 0, one -> {});
        VirtualLink link = linkTo(rig);
        rig.now = 700;
        assertEquals(700, link.nowMicros());
        rig.now = -1;

        assertEquals(700, link.nowMicros());
        String message = String.valueOf(
                assertThrows(LinkException.class, () -> link.send(into, 3)).getMessage());
        assertTrue(message.contains("no clock"), message);
    }

    /** A rig may hang there as well as anywhere. */
    @Test
    void theReadingOfItsClockIsWatchedToo() {
        long[] inside = new long[1];
        UsersRig rig = new UsersRig(room -> 0, one -> {}) {
            @Override
            public long nowMicros() {
                inside[0] = watch.count();
                return 700;
            }
        };

        assertEquals(700, linkTo(rig).nowMicros());
        assertEquals(1, inside[0], "somebody is in the rig's code");
        assertEquals(2, watch.count(), "and out again");
    }

    @Test
    void nothingGoesOverAClosedLink() {
        UsersRig rig = new UsersRig(room -> 0, one -> {});
        VirtualLink link = linkTo(rig);
        link.close();

        assertThrows(LinkException.class, () -> link.send(into, 3));
        assertThrows(LinkException.class, () -> link.receive(into, 1000));
        assertEquals(0, rig.sent);
    }
}
