package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpeningTroubleTests {
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            2  | true  | this program has it open already; one rig, one connection
            2  | false | it has just gone: is the cable loose?
            5  | true  | nothing is behind it (error 5): is the cable in, has the controller power?
            6  | true  | nothing is behind it (error 6): is the cable in, has the controller power?
            19 | true  | nothing is behind it (error 19): is the cable in, has the controller power?
            13 | true  | this user may not open it
            22 | true  | it does not do 12345 baud; try a usual rate, such as 115200 or 500000
            25 | true  | it is a device, but not a serial port
            99 | true  | error 99 of the system
            """)
    void saysWhyAndWhatToDo(int error, boolean exists, String said) {
        assertEquals(
                "serial port /dev/x cannot be opened: " + said,
                OpeningTrouble.words("/dev/x", error, exists, 12345, List.of()));
    }

    @ParameterizedTest
    @CsvSource({"11", "16", "35"})
    void namesWhoHasIt(int error) {
        String end = ". End that (another run of this harness, a terminal program, a serial monitor), and try again";
        assertEquals(
                "serial port /dev/x cannot be opened: it is in use by another program" + end,
                OpeningTrouble.words("/dev/x", error, true, 9600, List.of()));
        assertEquals(
                "serial port /dev/x cannot be opened: it is in use by screen (process 7) and cat (process 9)" + end,
                OpeningTrouble.words("/dev/x", error, true, 9600, List.of("screen (process 7)", "cat (process 9)")));
    }
}
