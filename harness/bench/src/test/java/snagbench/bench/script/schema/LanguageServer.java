package snagbench.bench.script.schema;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A language server as an editor drives it, over its standard input and output (Language Server Protocol 3.17). */
final class LanguageServer implements AutoCloseable {
    private static final String LENGTH = "content-length:";

    private final JsonMapper mapper = new JsonMapper();
    private final Optional<Process> process;
    private final Path folder;
    private int number;

    private LanguageServer(Optional<Process> process, Path folder) {
        this.process = process;
        this.folder = folder;
    }

    /** What an editor marks; the line counts from 1. */
    record Mark(int line, String message) {}

    static LanguageServer none() {
        return new LanguageServer(Optional.empty(), Path.of(""));
    }

    static LanguageServer start(Path script, Path folder) throws IOException {
        Process process = new ProcessBuilder("node", script.toString(), "--stdio")
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        LanguageServer server = new LanguageServer(Optional.of(process), folder);
        ObjectNode parameters = server.mapper.createObjectNode();
        parameters.put("processId", ProcessHandle.current().pid());
        parameters.put("rootUri", folder.toUri().toString());
        ObjectNode can = parameters.putObject("capabilities");
        can.putObject("workspace").put("configuration", true);
        can.putObject("textDocument").putObject("publishDiagnostics");
        server.answer(server.ask("initialize", parameters));
        server.tell("initialized", server.mapper.createObjectNode());
        return server;
    }

    /** Opens a script and tells what is marked in it. */
    List<Mark> open(String text) throws IOException {
        String uri = opened(text);
        JsonNode told = await(message -> message.path("method").asString("").equals("textDocument/publishDiagnostics")
                && message.path("params").path("uri").asString("").equals(uri));
        List<Mark> marks = new ArrayList<>();
        told.path("params")
                .path("diagnostics")
                .forEach(one -> marks.add(new Mark(
                        one.path("range").path("start").path("line").asInt() + 1,
                        one.path("message").asString(""))));
        return marks;
    }

    private String opened(String text) throws IOException {
        number++;
        String uri = folder.resolve("script" + number + ".fault.yaml").toUri().toString();
        ObjectNode parameters = mapper.createObjectNode();
        parameters
                .putObject("textDocument")
                .put("uri", uri)
                .put("languageId", "yaml")
                .put("version", 1)
                .put("text", text);
        tell("textDocument/didOpen", parameters);
        return uri;
    }

    /** What is offered at the end of a text. */
    List<String> complete(String text) throws IOException {
        String uri = opened(text);
        ObjectNode parameters = mapper.createObjectNode();
        parameters.putObject("textDocument").put("uri", uri);
        String last = text.substring(text.lastIndexOf('\n') + 1);
        parameters
                .putObject("position")
                .put("line", (int) text.chars().filter(one -> one == '\n').count())
                .put("character", last.length());
        JsonNode result = answer(ask("textDocument/completion", parameters));
        List<String> labels = new ArrayList<>();
        (result.isArray() ? result : result.path("items"))
                .forEach(item -> labels.add(item.path("label").asString("")));
        return labels;
    }

    private int ask(String method, ObjectNode parameters) throws IOException {
        number++;
        ObjectNode message = mapper.createObjectNode().put("id", number).put("method", method);
        message.set("params", parameters);
        send(message);
        return number;
    }

    private void tell(String method, ObjectNode parameters) throws IOException {
        ObjectNode message = mapper.createObjectNode().put("method", method);
        message.set("params", parameters);
        send(message);
    }

    private JsonNode answer(int id) throws IOException {
        return await(message -> !message.has("method") && message.path("id").asInt(-1) == id)
                .path("result");
    }

    /** Reads on to the message that is wanted; what the server asks meanwhile is answered as an editor does. */
    private JsonNode await(Predicate<JsonNode> wanted) throws IOException {
        while (true) {
            JsonNode message = receive();
            if (message.has("method") && message.has("id")) {
                reply(message);
            } else if (wanted.test(message)) {
                return message;
            }
        }
    }

    private void reply(JsonNode asked) throws IOException {
        ObjectNode message = mapper.createObjectNode();
        message.set("id", asked.path("id"));
        if (asked.path("method").asString("").equals("workspace/configuration")) {
            var items = message.putArray("result");
            for (JsonNode item : asked.path("params").path("items")) {
                ObjectNode settings = items.addObject();
                if (item.path("section").asString("").equals("yaml")) {
                    settings.put("validate", true).put("completion", true);
                    settings.putObject("schemaStore").put("enable", false);
                }
            }
        } else {
            message.putNull("result");
        }
        send(message);
    }

    private void send(ObjectNode message) throws IOException {
        message.put("jsonrpc", "2.0");
        byte[] body = mapper.writeValueAsBytes(message);
        OutputStream out = process.orElseThrow().getOutputStream();
        out.write(("Content-Length: " + body.length + "\r\n\r\n").getBytes(StandardCharsets.US_ASCII));
        out.write(body);
        out.flush();
    }

    private JsonNode receive() throws IOException {
        InputStream in = process.orElseThrow().getInputStream();
        int length = 0;
        while (true) {
            String line = line(in);
            if (line.isEmpty()) {
                return mapper.readTree(in.readNBytes(length));
            }
            if (line.toLowerCase(Locale.ROOT).startsWith(LENGTH)) {
                length = Integer.parseInt(line.substring(LENGTH.length()).strip());
            }
        }
    }

    private static String line(InputStream in) throws IOException {
        StringBuilder line = new StringBuilder();
        for (int one = in.read(); one != '\n'; one = in.read()) {
            if (one < 0) {
                throw new IOException("the language server has ended");
            }
            if (one != '\r') {
                line.append((char) one);
            }
        }
        return line.toString();
    }

    @Override
    public void close() {
        process.ifPresent(Process::destroyForcibly);
    }
}
