/*
 * The far end of a serial line for the line benchmark, and the plain C loops that the harness is held against.
 *
 *   far_end flood FILE          a port that gives FILE as fast as the host takes it
 *   far_end paced FILE RATE     a port that gives FILE at RATE bytes a second; what the host has left no room for is lost;
 *                               tells the bytes lost, the most that waited for the host, and the nanoseconds that it took
 *   far_end echo                a port that gives back what it gets
 *   far_end read PORT BYTES     opens a port, reads so many bytes, tells the nanoseconds that it took
 *   far_end ask PORT COUNT      opens a port, sends 32 bytes and reads them back so often; tells median and 99th percentile in nanoseconds
 *
 * Those with a port print its path first. A host begins with one byte of any value, which is not echoed.
 */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

/*
 * DRIVER: what Linux keeps of a serial port's bytes for a program that is late, before it loses any (tty_buffer.c: 64 KiB a port in
 * older kernels, ten times that in newer ones; from memory). A pseudo-terminal keeps 8 KiB in that place (pty.c), so the rest
 * of a real port's room is here.
 */
enum { CHUNK = 4096, ASKED = 32, WARM_UP = 2000, DRIVER = 65536 - 8192 };

static const int64_t SECOND = 1000000000;
static const int64_t PACE = 1000000;

static void fail(const char *what) {
    fprintf(stderr, "far_end: %s: %s\n", what, strerror(errno));
    exit(1);
}

static int64_t now(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return time.tv_sec * SECOND + time.tv_nsec;
}

static void make_raw(int file) {
    struct termios attributes;
    if (tcgetattr(file, &attributes) != 0) fail("attributes");
    cfmakeraw(&attributes);
    if (tcsetattr(file, TCSANOW, &attributes) != 0) fail("raw mode");
}

/* Makes a pseudo-terminal, tells its port, and waits for the host's first byte. */
static int open_port(void) {
    int master = posix_openpt(O_RDWR | O_NOCTTY);
    if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0) fail("pseudo-terminal");
    make_raw(master);
    printf("%s\n", ptsname(master));
    fflush(stdout);
    /* Held open, so that the line does not count as hung up before the host has come. */
    if (open(ptsname(master), O_RDWR | O_NOCTTY) < 0) fail("port");
    char first;
    if (read(master, &first, 1) != 1) fail("the host's first byte");
    return master;
}

static char *whole_file(const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    if (file == NULL || fseek(file, 0, SEEK_END) != 0) fail(path);
    *length = (size_t) ftell(file);
    rewind(file);
    char *bytes = malloc(*length);
    if (bytes == NULL || fread(bytes, 1, *length, file) != *length) fail(path);
    fclose(file);
    return bytes;
}

static void flood(const char *path) {
    size_t length, done = 0;
    char *bytes = whole_file(path, &length);
    int master = open_port();
    while (done < length) {
        ssize_t written = write(master, bytes + done, length - done < CHUNK ? length - done : CHUNK);
        if (written < 0) fail("write");
        done += (size_t) written;
    }
    /* Stays until it is ended: what lies in a port that closes is lost. */
    pause();
}

/* What has come over the line and the host has not taken. */
struct driver {
    char bytes[DRIVER];
    size_t first, count, lost, most;
};

static void come(struct driver *to, const char *bytes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (to->count == DRIVER) {
            to->lost++;
        } else {
            to->bytes[(to->first + to->count++) % DRIVER] = bytes[i];
        }
    }
}

static void hand_on(struct driver *from, int master) {
    while (from->count > 0) {
        size_t straight = DRIVER - from->first < from->count ? DRIVER - from->first : from->count;
        ssize_t written = write(master, from->bytes + from->first, straight);
        if (written < 0 && errno != EAGAIN) fail("write");
        if (written <= 0) break;
        from->first = (from->first + (size_t) written) % DRIVER;
        from->count -= (size_t) written;
    }
    if (from->count > from->most) from->most = from->count;
}

static void paced(const char *path, long rate) {
    static struct driver driver;
    size_t length, done = 0;
    char *bytes = whole_file(path, &length);
    int master = open_port();
    if (fcntl(master, F_SETFL, O_NONBLOCK) != 0) fail("non-blocking");
    int64_t began = now(), first = began;
    for (int64_t at = began + PACE; done < length || driver.count > 0; at += PACE) {
        struct timespec until = {at / SECOND, at % SECOND};
        clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &until, NULL);
        /* A line never catches up: where this loop comes late, all behind it is late. */
        int64_t late = now() - at - PACE;
        if (late > 0) {
            began += late;
            at += late;
        }
        size_t due = (size_t) ((double) (now() - began) * (double) rate / 1e9);
        if (due > length) due = length;
        come(&driver, bytes + done, due - done);
        done = due;
        hand_on(&driver, master);
    }
    printf("%zu %zu %lld\n", driver.lost, driver.most, (long long) (now() - first));
    fflush(stdout);
    pause();
}

static void echo(void) {
    char bytes[CHUNK];
    int master = open_port();
    for (;;) {
        ssize_t got = read(master, bytes, sizeof bytes);
        if (got < 0) fail("read");
        for (ssize_t done = 0; done < got;) {
            ssize_t written = write(master, bytes + done, (size_t) (got - done));
            if (written < 0) fail("write");
            done += written;
        }
    }
}

static int open_as_host(const char *port) {
    int file = open(port, O_RDWR | O_NOCTTY);
    if (file < 0) fail(port);
    make_raw(file);
    if (write(file, "\1", 1) != 1) fail("first byte");
    return file;
}

static void read_all(const char *port, size_t length) {
    static char bytes[CHUNK];
    int file = open_as_host(port);
    int64_t began = 0;
    for (size_t done = 0; done < length;) {
        ssize_t got = read(file, bytes, sizeof bytes);
        if (got <= 0) fail("read");
        if (began == 0) began = now();
        done += (size_t) got;
    }
    printf("%lld\n", (long long) (now() - began));
}

static int by_size(const void *one, const void *other) {
    int64_t a = *(const int64_t *) one, b = *(const int64_t *) other;
    return (a > b) - (a < b);
}

static void ask(const char *port, int count) {
    char bytes[ASKED];
    memset(bytes, 0x55, sizeof bytes);
    int64_t *took = malloc(sizeof *took * (size_t) count);
    if (took == NULL) fail("memory");
    int file = open_as_host(port);
    for (int i = -WARM_UP; i < count; i++) {
        int64_t began = now();
        if (write(file, bytes, sizeof bytes) != (ssize_t) sizeof bytes) fail("write");
        for (size_t done = 0; done < sizeof bytes;) {
            ssize_t got = read(file, bytes + done, sizeof bytes - done);
            if (got <= 0) fail("read");
            done += (size_t) got;
        }
        if (i >= 0) took[i] = now() - began;
    }
    qsort(took, (size_t) count, sizeof *took, by_size);
    printf("%lld %lld\n", (long long) took[count / 2], (long long) took[count / 100 * 99]);
}

int main(int count, char **words) {
    const char *what = count > 1 ? words[1] : "";
    if (strcmp(what, "flood") == 0 && count == 3) flood(words[2]);
    else if (strcmp(what, "paced") == 0 && count == 4) paced(words[2], atol(words[3]));
    else if (strcmp(what, "echo") == 0 && count == 2) echo();
    else if (strcmp(what, "read") == 0 && count == 4) read_all(words[2], (size_t) atol(words[3]));
    else if (strcmp(what, "ask") == 0 && count == 4) ask(words[2], atoi(words[3]));
    else {
        fprintf(stderr, "far_end: flood FILE, paced FILE RATE, echo, read PORT BYTES or ask PORT COUNT\n");
        return 2;
    }
    return 0;
}
