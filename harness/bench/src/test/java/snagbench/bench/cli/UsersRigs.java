package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import snagbench.bench.session.Shuttle;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/**
 * A virtual rig as a user might plug one in: the shuttle, with a mistake in it. Its service file is not among the tests'
 * resources, so that no other test has it; {@link #serviceIn} makes one.
 */
public final class UsersRigs implements VirtualRigProvider {
    /** The first script is over by then, the second is not. */
    private static final long MICROS_TO_THE_MISTAKE = 7_000_000;

    /** For the service loader. */
    public UsersRigs() {}

    /** A folder for the class path that plugs this rig in. */
    static Path serviceIn(Path folder) throws IOException {
        Path services = Files.createDirectories(folder.resolve("users-rig/META-INF/services"));
        Files.writeString(services.resolve(VirtualRigProvider.class.getName()), UsersRigs.class.getName() + "\n");
        return folder.resolve("users-rig");
    }

    @Override
    public String name() {
        return "users-rig";
    }

    @Override
    public List<String> builds() {
        return Arrays.stream(Mistake.values()).map(Enum::name).toList();
    }

    @Override
    public VirtualRig create(String build) {
        Mistake mistake = Mistake.valueOf(build);
        if (mistake == Mistake.CANNOT_BE_MADE) {
            throw new IllegalStateException("the belt is missing");
        }
        return new Mistaken(Shuttle.rig("standard"), mistake);
    }

    enum Mistake {
        CANNOT_BE_MADE,
        THROWS,
        BABBLES,
        STANDS_STILL,
        HANGS
    }

    private static final class Mistaken implements VirtualRig {
        private final VirtualRig sound;
        private final Mistake mistake;
        private final SplittableRandom noise = new SplittableRandom(1);

        Mistaken(VirtualRig sound, Mistake mistake) {
            this.sound = sound;
            this.mistake = mistake;
        }

        private boolean isNow(Mistake one) {
            return mistake == one && sound.nowMicros() >= MICROS_TO_THE_MISTAKE;
        }

        @Override
        public long nowMicros() {
            return sound.nowMicros();
        }

        @Override
        public void send(byte[] bytes, int from, int length) {
            sound.send(bytes, from, length);
        }

        @Override
        public int receive(byte[] into) {
            int bytes = sound.receive(into);
            if (isNow(Mistake.BABBLES)) {
                for (int i = 0; i < bytes; i++) {
                    into[i] = (byte) noise.nextInt(256);
                }
            }
            return bytes;
        }

        @Override
        public void runUntil(long micros) {
            if (isNow(Mistake.THROWS)) {
                throw new IllegalStateException("the belt slipped");
            }
            while (isNow(Mistake.HANGS)) {
                Thread.onSpinWait();
            }
            if (!isNow(Mistake.STANDS_STILL)) {
                sound.runUntil(micros);
            }
        }
    }
}
