package snagbench.bench.link;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What tests have another process do with serial links. */
final class SerialMain {
    private SerialMain() {}

    public static void main(String[] args) throws Exception {
        switch (args[0]) {
            case "hold" -> hold(args[1]);
            case "try" -> tryToOpen(args[1]);
            case "own" -> own();
            case "signals" -> signals(args[1]);
            case "let-go" -> letGo(args[1]);
            default -> throw new IllegalArgumentException(args[0]);
        }
    }

    private static SerialLink open(String port) throws LinkException {
        return SerialLink.open(port, SerialSettings.at(Device.BAUD), System::nanoTime);
    }

    private static void say(String line) {
        System.out.println(line);
        System.out.flush();
    }

    /** Has a port open until there is no more input. */
    private static void hold(String port) throws Exception {
        try (SerialLink link = open(port)) {
            say("holds " + link.name());
            while (System.in.read() >= 0) {
                // Until the test lets go.
            }
        }
    }

    private static void tryToOpen(String port) {
        try {
            open(port).close();
            say("opened");
        } catch (LinkException e) {
            say(String.valueOf(e.getMessage()));
        }
    }

    /** Opens a port of its own and sends there and back. */
    private static void own() throws Exception {
        try (Device device = new Device();
                SerialLink link = device.connect()) {
            link.send(LinkContract.everyByte(), 256);
            device.says(device.heard(256));
            LinkContract.receive(link, 256, 256);
            say("done");
        }
    }

    /** Tells which signals are ignored and which are handled, before and after a port was opened; then waits. */
    private static void signals(String port) throws Exception {
        say(masks());
        SerialLink link = open(port);
        say(masks());
        link.close();
        System.in.read();
    }

    private static String masks() throws IOException {
        try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"), StandardCharsets.US_ASCII)) {
            return lines.filter(line -> line.startsWith("SigIgn") || line.startsWith("SigCgt"))
                    .collect(Collectors.joining(" "));
        }
    }

    /** Makes something of the process's end: half a second later the last words go out, and only then the port closes. */
    private static void letGo(String port) throws Exception {
        SerialLink link = open(port);
        CountDownLatch wanted = new CountDownLatch(1);
        CountDownLatch finished = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            wanted.countDown();
            try {
                finished.await(20, TimeUnit.SECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }));
        say("waits");
        wanted.await();
        link.receive(new byte[1], link.nowMicros() + 500_000);
        link.send(new byte[] {'b', 'y', 'e'}, 3);
        link.close();
        finished.countDown();
    }
}
