package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.Queue;
import snagbench.probe.VirtualRig;

/** A link to a virtual rig in the same process keeps the contract. */
class VirtualLinkContractTests extends LinkContract {
    @Override
    FarEnd farEnd() {
        return new RigInMemory();
    }

    /** A rig that says what the test has it say. */
    private static final class RigInMemory implements FarEnd, VirtualRig {
        private final ByteArrayOutputStream heard = new ByteArrayOutputStream();
        private final Queue<Byte> said = new ArrayDeque<>();
        private long micros;
        private boolean dead;

        @Override
        public Link connect() {
            return new VirtualLink("in-memory", this, new RigWatch());
        }

        @Override
        public void says(byte[] bytes) {
            for (byte each : bytes) {
                said.add(each);
            }
        }

        @Override
        public byte[] heard(int length) {
            assertTrue(heard.size() == length, heard.size() + " bytes, not " + length);
            return heard.toByteArray();
        }

        @Override
        public void dies() {
            dead = true;
        }

        @Override
        public void close() {}

        @Override
        public long nowMicros() {
            return micros;
        }

        @Override
        public void send(byte[] bytes, int from, int length) {
            heard.write(bytes, from, length);
        }

        @Override
        public int receive(byte[] into) {
            int count = 0;
            while (count < into.length && !said.isEmpty()) {
                into[count++] = said.remove();
            }
            return count;
        }

        @Override
        public void runUntil(long until) {
            if (dead) {
                throw new IllegalStateException("out of order");
            }
            if (said.isEmpty()) {
                micros = Math.max(micros, until);
            }
        }
    }
}
