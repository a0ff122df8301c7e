package snagbench.bench.cli;

import picocli.CommandLine.IVersionProvider;

/** The version of the harness, as its jar tells it. */
final class Version implements IVersionProvider {
    Version() {}

    static String text() {
        String version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "development" : version;
    }

    @Override
    public String[] getVersion() {
        return new String[] {"snagbench " + text()};
    }
}
