/**
 * What travels on the line between the bench and the probe: frames (COBS, CBOR, CRC-32) and the messages in them.
 *
 * <p>For: both ends. It must not know of threads, ports, clocks or files; it turns bytes into messages and back. The
 * authority on every byte is {@code firmware-notes/wire-format.md}. Java 8 and no dependencies, so that older
 * controller runtimes can carry it.
 */
package snagbench.wire;
