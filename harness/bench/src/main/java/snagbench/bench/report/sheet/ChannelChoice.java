package snagbench.bench.report.sheet;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Wanted;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;

/** Which channels a script is about: those that it overrides first, then those that it asks for. */
final class ChannelChoice {
    private ChannelChoice() {}

    static List<ChannelDescription> of(Judgement judgement, Trace trace, Optional<FaultScript> script) {
        Set<Integer> found = new LinkedHashSet<>();
        List<ChannelDescription> all = trace.rig().channels();
        for (ChannelDescription channel : all) {
            // Orders are given to get the machine going; where one is the fault, the script names it.
            if (channel.kind() != ChannelKind.COMMAND && isForced(trace, channel.index())) {
                found.add(channel.index());
            }
        }
        // A trace may be of a rig that has changed since: channels of the script go by their names.
        List<String> names = new ArrayList<>();
        script.ifPresent(one -> {
            one.injections().forEach(injection -> injection
                    .forcings()
                    .forEach(forcing -> names.add(forcing.channel().name())));
            one.expectations().forEach(expectation -> Wanted.of(expectation, one).channels().stream()
                    .map(ChannelDescription::name)
                    .sorted()
                    .forEach(names::add));
        });
        if (script.isEmpty()) {
            Set<String> words = words(judgement);
            all.stream().map(ChannelDescription::name).filter(words::contains).forEach(names::add);
        }
        names.forEach(name -> trace.rig().channel(name).ifPresent(channel -> found.add(channel.index())));
        return found.stream().map(all::get).toList();
    }

    /** Without the script, the names that its findings speak of. */
    private static Set<String> words(Judgement judgement) {
        return judgement.findings().stream()
                .map(Finding::facts)
                .flatMap(List::stream)
                .map(Fact::text)
                .flatMap(text -> List.of(text.split("[\\s,;:()]+")).stream())
                .collect(Collectors.toSet());
    }

    static boolean isForced(Trace trace, int channel) {
        for (int row = 0; row < trace.rows(); row++) {
            if (trace.wasForced(row, channel)) {
                return true;
            }
        }
        return false;
    }
}
