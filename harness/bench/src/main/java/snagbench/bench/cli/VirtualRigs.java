package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/** The virtual rigs on the class path. */
final class VirtualRigs {
    private static final int LEASE_MILLIS = 1000;

    private final List<VirtualRigProvider> providers;

    private VirtualRigs(List<VirtualRigProvider> providers) {
        this.providers = List.copyOf(providers);
    }

    static VirtualRigs onClassPath() throws UserError {
        List<VirtualRigProvider> found = new ArrayList<>();
        try {
            ServiceLoader.load(VirtualRigProvider.class).forEach(found::add);
        } catch (ServiceConfigurationError e) {
            throw new UserError(ExitStatus.RIG, "a virtual rig on the class path cannot be loaded: " + e.getMessage());
        }
        return new VirtualRigs(found);
    }

    Optional<VirtualRigProvider> named(String name) {
        return providers.stream().filter(one -> one.name().equals(name)).findFirst();
    }

    List<String> names() {
        return providers.stream().map(VirtualRigProvider::name).toList();
    }

    /** The one of this name; an error that names the others where there is none. */
    VirtualRigProvider required(String name) throws UserError {
        return named(name)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        "there is no virtual rig \"" + name + "\" on the class path; there is: " + names()));
    }

    /** The one that a rig's file names; an error where it hangs on a port. */
    static VirtualRigProvider of(RigFile rig) throws UserError {
        String name = rig.virtual()
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES, "rig " + rig.name() + " is not a virtual one: say on which --port it hangs"));
        return onClassPath().required(name);
    }

    /** The build asked for, or the usual one; an error that names all where there is no such build. */
    static String build(VirtualRigProvider provider, Optional<String> wanted) throws UserError {
        String chosen = wanted.orElse(provider.builds().get(0));
        if (!provider.builds().contains(chosen)) {
            throw new UserError(
                    ExitStatus.FILES,
                    "virtual rig \"" + provider.name() + "\" has no build \"" + chosen + "\"; it has: "
                            + String.join(", ", provider.builds()));
        }
        return chosen;
    }

    /** What a build calls itself in its greeting. */
    static String greetedBuild(VirtualRigProvider provider, String build) throws UserError {
        SessionSettings settings = SessionSettings.usual(1, LEASE_MILLIS, () -> false);
        try (Link link = connect(provider, build, new RigWatch());
                RigSession session = RigSession.open(link, settings, Optional.empty())) {
            return session.hello().build;
        } catch (LinkException | SessionException e) {
            throw new UserError(ExitStatus.RIG, String.valueOf(e.getMessage()));
        }
    }

    /** A rig just switched on. What its own code throws is told, not thrown on. */
    static VirtualLink connect(VirtualRigProvider provider, String build, RigWatch watch) throws LinkException {
        VirtualRig rig;
        try {
            rig = provider.create(build);
        } catch (RuntimeException e) {
            throw new LinkException("virtual rig " + provider.name() + " could not be made: " + e, e);
        }
        return new VirtualLink(provider.name(), rig, watch);
    }
}
