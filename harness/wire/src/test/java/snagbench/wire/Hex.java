package snagbench.wire;

import java.io.ByteArrayOutputStream;
import java.util.HexFormat;
import java.util.Locale;

/** Bytes as tests write them: two digits each, spaces between, and {@code 01..FE} for a run that counts up by one. */
final class Hex {
    private Hex() {}

    static byte[] bytes(String text) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (String part : text.trim().split("\\s+", -1)) {
            int dots = part.indexOf("..");
            if (dots < 0) {
                bytes.writeBytes(HexFormat.of().parseHex(part.toLowerCase(Locale.ROOT)));
            } else {
                int to = Integer.parseInt(part.substring(dots + 2), 16);
                for (int value = Integer.parseInt(part.substring(0, dots), 16); value <= to; value++) {
                    bytes.write(value);
                }
            }
        }
        return bytes.toByteArray();
    }

    static String text(byte[] bytes) {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
    }
}
