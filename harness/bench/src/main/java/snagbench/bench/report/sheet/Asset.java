package snagbench.bench.report.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/**
 * A text of ours that goes into the page whole: its style sheet, its program.
 *
 * @param text the content
 */
record Asset(String text) {
    static Asset named(String name) {
        try (InputStream in = Asset.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("not in the jar: " + name);
            }
            return new Asset(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** As a content security policy names it, so that a browser takes this one and no other (W3C, CSP level 2). */
    String hash() {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
