package snagbench.bench.script.read;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Files without a fault: small ones to spoil in tests, and the project's own. */
final class GoodFiles {
    static final String SCRIPT = """
            fault-script: reach blocked midway
            failsafe: FS-02
            why: >
              Something stands in the arm's way.
            needs: [motion]

            begin:
              - send: start-run
              - wait-for: { step: REACHING }
                within: 2 s

            inject:
              - name: blocked
                when: { step: REACHING, reach.position: at least 180 mm }
                channels:
                  reach.position: freeze
                  reach.current: stuck-at 4.2 A
                until: { failsafe: FS-02 }
                lasts: 900 ms

            expect:
              - name: sees it
                answered-by: FS-02
                within: 80 ms .. 250 ms
                no-other: true
              - name: tries again
                becomes: { step: DRAWING_BACK }
                within: 3 s
                after: sees it
              - always: { battery.voltage: above 7 V }
              - never: { step: GIVEN_UP }

            end: 4 s after sees it
            """;

    static final String PLAN = """
            test-plan: first light
            rig: seedling-shuttle
            build: standard
            run-time: 30 s
            reserve: 5 s
            scripts:
              - blocked.fault.yaml
              - grip.fault.yaml: { repeat: 22 }
            """;

    static final String RIG = """
            rig: shuttle
            virtual: seedling-shuttle
            lease: 500 ms
            settling-time: 400 ms
            ready: { send: ready, wait-for: { step: READY }, within: 10 s }
            guards:
              - name: reach travel
                travel: { reach.position: -4 mm .. 405 mm }
              - name: reach stall
                stall: { reach.position: 1 mm, command: reach.command, at-least: 50 %, for: 2 s }
            channels:
              reach.position: { wired: "J3, encoder" }
            """;

    private GoodFiles() {}

    static Path project() {
        return Path.of(System.getProperty("snagbench.root"));
    }

    /** The committed files of a folder with such an ending, such as ".fault.yaml". */
    static List<Path> committed(String folder, String ending) {
        try (Stream<Path> files = Files.walk(project().resolve(folder))) {
            return files.filter(file -> file.toString().endsWith(ending))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
