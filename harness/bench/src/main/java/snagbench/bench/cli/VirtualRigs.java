package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/** The virtual rigs on the class path. */
final class VirtualRigs {
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
