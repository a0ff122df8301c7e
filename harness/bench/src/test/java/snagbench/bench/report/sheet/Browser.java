package snagbench.bench.report.sheet;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A real Chromium without a window, driven over its DevTools protocol; it tells of all that it sees. */
final class Browser implements AutoCloseable {
    private static final int PATIENCE_SECONDS = 60;
    private static final JsonMapper MAPPER = new JsonMapper();

    private final Process process;
    private final WebSocket socket;
    private final BlockingQueue<JsonNode> heard;
    private final List<JsonNode> events = new ArrayList<>();
    private String session = "";
    private int number;

    private Browser(Process process, WebSocket socket, BlockingQueue<JsonNode> heard) {
        this.process = process;
        this.socket = socket;
        this.heard = heard;
    }

    /** Debian calls it chromium, others otherwise. */
    private static String program() {
        for (String name : List.of("chromium", "chromium-browser", "google-chrome")) {
            for (String folder : System.getenv().getOrDefault("PATH", "").split(":", -1)) {
                if (Files.isExecutable(Path.of(folder, name))) {
                    return Path.of(folder, name).toString();
                }
            }
        }
        throw new AssertionError("no chromium on the PATH; harness/verify installs Debian's package chromium");
    }

    static Browser start(Path folder) throws Exception {
        // No sandbox: it cannot be had as root, as in a container, and the only pages that are opened are our own.
        Process process = new ProcessBuilder(
                        program(),
                        "--headless",
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-dev-shm-usage",
                        "--no-first-run",
                        "--remote-debugging-port=0",
                        "--user-data-dir=" + folder,
                        "about:blank")
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        BufferedReader err =
                new BufferedReader(new InputStreamReader(process.getErrorStream(), StandardCharsets.UTF_8));
        String address = "";
        StringBuilder said = new StringBuilder();
        for (String line = err.readLine(); line != null; line = err.readLine()) {
            said.append(line).append('\n');
            if (line.startsWith("DevTools listening on ")) {
                address = line.substring("DevTools listening on ".length()).strip();
                break;
            }
        }
        assertTrue(!address.isEmpty(), () -> "chromium did not start: " + said);
        Thread drain = new Thread(() -> {
            try (Stream<String> lines = err.lines()) {
                lines.forEach(line -> {});
            }
        });
        drain.setDaemon(true);
        drain.start();
        BlockingQueue<JsonNode> heard = new LinkedBlockingQueue<>();
        WebSocket socket = HttpClient.newHttpClient()
                .newWebSocketBuilder()
                .buildAsync(URI.create(address), new Listener(heard))
                .get(PATIENCE_SECONDS, TimeUnit.SECONDS);
        Browser browser = new Browser(process, socket, heard);
        ObjectNode blank = MAPPER.createObjectNode().put("url", "about:blank");
        String target =
                browser.call("Target.createTarget", blank).path("targetId").asString("");
        browser.session = browser.call(
                        "Target.attachToTarget",
                        MAPPER.createObjectNode().put("targetId", target).put("flatten", true))
                .path("sessionId")
                .asString("");
        for (String domain : List.of("Page", "Runtime", "Log", "Network")) {
            browser.call(domain + ".enable", MAPPER.createObjectNode());
        }
        return browser;
    }

    private record Listener(BlockingQueue<JsonNode> heard, StringBuilder part) implements WebSocket.Listener {
        Listener(BlockingQueue<JsonNode> heard) {
            this(heard, new StringBuilder());
        }

        @Override
        public @Nullable CompletionStage<?> onText(WebSocket from, CharSequence text, boolean last) {
            part.append(text);
            if (last) {
                heard.add(MAPPER.readTree(part.toString()));
                part.setLength(0);
            }
            from.request(1);
            return null;
        }
    }

    static ObjectNode json() {
        return MAPPER.createObjectNode();
    }

    /** Asks the browser for something, and gathers what it tells in the meantime. */
    JsonNode call(String method, ObjectNode parameters) throws Exception {
        int mine = ++number;
        ObjectNode message = MAPPER.createObjectNode().put("id", mine).put("method", method);
        message.set("params", parameters);
        if (!session.isEmpty()) {
            message.put("sessionId", session);
        }
        socket.sendText(message.toString(), true).get(PATIENCE_SECONDS, TimeUnit.SECONDS);
        while (true) {
            JsonNode next = next();
            if (next.path("id").asInt(0) == mine) {
                assertTrue(next.path("error").isMissingNode(), () -> method + ": " + next);
                return next.path("result");
            }
            events.add(next);
        }
    }

    private JsonNode next() throws Exception {
        JsonNode next = heard.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
        assertTrue(next != null, "chromium does not answer");
        return next;
    }

    /** Opens a page and waits until it has loaded. */
    void open(Path page) throws Exception {
        events.clear();
        call("Page.navigate", json().put("url", page.toUri().toString()));
        while (events("Page.loadEventFired").isEmpty()) {
            events.add(next());
        }
    }

    /** What was told since the page was opened. */
    List<JsonNode> events(String method) {
        return events.stream()
                .filter(one -> one.path("method").asString("").equals(method))
                .toList();
    }

    /** The value of an expression in the page, as text. */
    String value(String expression) throws Exception {
        JsonNode result = call(
                "Runtime.evaluate",
                json().put("expression", "String(" + expression + ")").put("returnByValue", true));
        assertTrue(result.path("exceptionDetails").isMissingNode(), result::toString);
        return result.path("result").path("value").asString("");
    }

    /** What a promise in the page comes to, as text. */
    String promised(String expression) throws Exception {
        JsonNode result = call(
                "Runtime.evaluate",
                json().put("expression", expression).put("returnByValue", true).put("awaitPromise", true));
        assertTrue(result.path("exceptionDetails").isMissingNode(), result::toString);
        return result.path("result").path("value").asString("");
    }

    /** Lets a program of others run in the page, whatever that page's policy is. */
    void load(String program) throws Exception {
        JsonNode result = call("Runtime.evaluate", json().put("expression", program));
        assertTrue(result.path("exceptionDetails").isMissingNode(), result::toString);
    }

    void size(int width, int height) throws Exception {
        call(
                "Emulation.setDeviceMetricsOverride",
                json().put("width", width)
                        .put("height", height)
                        .put("deviceScaleFactor", 1)
                        .put("mobile", false));
    }

    /** Looks at the page in another medium, light or dark. */
    void look(String medium, String scheme) throws Exception {
        ObjectNode parameters = json().put("media", medium);
        parameters
                .putArray("features")
                .addObject()
                .put("name", "prefers-color-scheme")
                .put("value", scheme);
        call("Emulation.setEmulatedMedia", parameters);
    }

    /** How many pages the open page makes on paper, as its own style has it. */
    int pagesOfPaper() throws Exception {
        String base64 = call("Page.printToPDF", json().put("preferCSSPageSize", true))
                .path("data")
                .asString("");
        String pdf = new String(Base64.getDecoder().decode(base64), StandardCharsets.ISO_8859_1);
        return pdf.split("/Type /Page\\b", -1).length - 1;
    }

    void press(String key) throws Exception {
        for (String type : List.of("keyDown", "keyUp")) {
            call(
                    "Input.dispatchKeyEvent",
                    json().put("type", type).put("key", key).put("code", key));
        }
    }

    @Override
    public void close() {
        socket.abort();
        // All of them have to be gone before their folder can be taken away.
        List<ProcessHandle> all = new ArrayList<>(process.descendants().toList());
        all.add(process.toHandle());
        all.forEach(ProcessHandle::destroyForcibly);
        for (ProcessHandle one : all) {
            one.onExit().orTimeout(PATIENCE_SECONDS, TimeUnit.SECONDS).join();
        }
    }
}
