package snagbench.bench.link;

import java.io.IOException;

/** A serial link keeps the contract on a real pseudo-terminal. */
class SerialLinkContractTests extends LinkContract {
    @Override
    FarEnd farEnd() throws IOException {
        return new Device();
    }
}
