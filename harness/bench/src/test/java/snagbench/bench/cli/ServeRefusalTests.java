package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What cannot be served is refused with a sentence, before there is a port. */
class ServeRefusalTests {
    @TempDir
    Path folder = Path.of("");

    private static void isRefused(int status, String sentence, String... options) {
        String[] args = new String[1 + options.length];
        args[0] = "serve";
        System.arraycopy(options, 0, args, 1, options.length);
        Told told = Told.by(args);

        assertEquals(status, told.status(), told::all);
        assertEquals("", told.out());
        assertTrue(told.err().startsWith("snagbench: ") && told.err().contains(sentence), told::all);
        assertEquals(1, told.err().lines().count(), told::all);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--rig seedling-shuttle --build nine | has no build \"nine\"; it has: ",
                "--rig seedling-shuttle --baud 0 | --baud 0: wanted from 1 to 10000000",
                "--rig seedling-shuttle --loss 1 | --loss 1.0: wanted a share from 0 to below 1",
                "--rig seedling-shuttle --latency -1 | --latency -1.0: wanted milliseconds from 0",
                "--rig seedling-shuttle --for 2 | --for goes with --disconnect-after",
                "--baud 500000 | which rig? Say so with --rig NAME"
            })
    void optionsThatMakeNoSenseAreRefused(String options, String sentence) {
        isRefused(2, sentence, options.split(" "));
    }

    @Test
    void aLinkIsNotPutInThePlaceOfAFile() throws Exception {
        Path file = Files.writeString(folder.resolve("mine"), "mine");

        isRefused(4, file + " is there already and is no link", "--rig", "seedling-shuttle", "--link", file.toString());
        assertEquals("mine", Files.readString(file));
    }
}
