package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snagbench.bench.link.Ports;

/** Serial ports as plain lines of text. */
final class PortText {
    private PortText() {}

    static List<String> lines(List<Ports.Port> ports) {
        if (ports.isEmpty()) {
            return List.of(
                    "No serial port is there. Is the cable in, is it one for data, and has the controller power?",
                    "A board that is there and on no list wants its driver; \"dmesg\" tells what the system made of it.");
        }
        List<String> lines = new ArrayList<>();
        ports.forEach(port -> lines.addAll(lines(port)));
        return lines;
    }

    private static List<String> lines(Ports.Port port) {
        List<String> lines = new ArrayList<>();
        lines.add(port.path() + "  " + what(port));
        port.stableName().ifPresent(name -> lines.add(detail("stays the same", name)));
        port.access().ifPresent(access -> lines.add(detail("may open it", access.who())));
        if (!port.users().isEmpty()) {
            lines.add(detail("has it open", String.join(" and ", port.users())));
        }
        lines.add(detail("free for you", port.trouble().map(why -> "no: " + why).orElse("yes")));
        return lines;
    }

    private static String what(Ports.Port port) {
        List<String> parts = new ArrayList<>();
        parts.add(port.description());
        port.manufacturer().ifPresent(parts::add);
        if (port.vendorId().isPresent() && port.productId().isPresent()) {
            parts.add(String.format(
                    Locale.ROOT,
                    "USB %04x:%04x",
                    port.vendorId().getAsInt(),
                    port.productId().getAsInt()));
        }
        port.serialNumber().ifPresent(number -> parts.add("serial number " + number));
        return String.join(", ", parts);
    }

    private static String detail(String label, String text) {
        return String.format(Locale.ROOT, "  %-15s %s", label, text);
    }
}
