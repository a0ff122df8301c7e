/*
 * The probe as a filter: reads what comes in, tick by tick, from standard input, and writes what the probe makes of it to
 * standard output, to be compared with another probe's. The form of both is told in
 * harness/probe/src/test/java/snagbench/probe/CrossCheckFiles.java; the limits of its first line must be those that this
 * was compiled with.
 */
#include "../snag_probe.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_LINE = 1 << 14, QUEUE = 1 << 14, MOST_NAMES = 512, MOST_FAIL_SAFES = 32 };

static snag_channel channels[SNAG_CHANNELS];
static snag_value_name names[MOST_NAMES];
static snag_fail_safe fail_safes[MOST_FAIL_SAFES];
static char build[16];
static snag_rig rig = {channels, 0, names, 0, fail_safes, 0, build, false, 0};
static uint8_t cause;

static uint32_t clock_micros;
static bool enabled;
static bool stands;
static unsigned stops;
static unsigned armings;
static uint8_t line[QUEUE];
static unsigned line_from;
static unsigned line_to;
static uint8_t given[QUEUE];
static unsigned given_count;

static char text[LONGEST_LINE];
static unsigned text_number;
static char *rest;

static void fail(const char *why) {
    fprintf(stderr, "line %u of the inputs: %s\n", text_number, why);
    exit(2);
}

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    if (given_count + count > QUEUE) {
        fail("more bytes from the probe than a tick can have");
    }
    memcpy(given + given_count, bytes, count);
    given_count += count;
    return count;
}

int16_t snag_port_get(void) {
    return line_from == line_to ? -1 : line[line_from++];
}

uint32_t snag_port_micros(void) {
    return clock_micros;
}

void snag_port_stop(uint8_t reason) {
    (void)reason;
    stops++;
}

bool snag_port_stopped(void) {
    return stands;
}

bool snag_port_enabled(void) {
    return enabled;
}

void snag_port_armed(uint32_t seed) {
    (void)seed;
    armings++;
}

static const char *word(void) {
    const char *found = strtok(rest, " \n");
    rest = NULL;
    if (found == NULL) {
        fail("too short");
    }
    return found;
}

static long long number(void) {
    char *end;
    const char *found = word();
    long long value = strtoll(found, &end, 10);
    if (*end != '\0') {
        fail("not a number");
    }
    return value;
}

static void copy_text(char *to, size_t size, const char *from) {
    if (strlen(from) >= size) {
        fail("a text too long");
    }
    memset(to, 0, size);
    memcpy(to, from, strlen(from));
}

/* A name, which may have blanks and stands at the end of its line. */
static const char *name(void) {
    const char *found = strtok(NULL, "\n");
    if (found == NULL) {
        fail("no name");
    }
    return found;
}

static void limits(void) {
    static const long long ours[] = {SNAG_SLOTS, SNAG_TERMS, SNAG_POINTS,         SNAG_HISTORY, SNAG_GUARDS,
                                     SNAG_RING,  SNAG_FRAME, SNAG_BYTES_PER_TICK, SNAG_WINDOW};
    for (size_t i = 0; i < sizeof ours / sizeof ours[0]; i++) {
        if (number() != ours[i]) {
            fail("compiled with other limits");
        }
    }
}

static void channel(void) {
    snag_channel *c = &channels[rig.channel_count];
    const char *unit;
    if (number() != rig.channel_count++ || rig.channel_count > SNAG_CHANNELS) {
        fail("channels in order, and not too many");
    }
    c->kind = (uint8_t)number();
    c->flags = (uint8_t)number();
    c->multiplier = (uint16_t)number();
    c->exponent = (int8_t)number();
    c->lowest = (int32_t)number();
    c->highest = (int32_t)number();
    c->absent = (int32_t)number();
    unit = word();
    copy_text(c->unit, sizeof c->unit, strcmp(unit, "-") == 0 ? "" : unit);
    copy_text(c->name, sizeof c->name, name());
}

static void value_name(void) {
    snag_value_name *n = &names[rig.value_name_count++];
    if (rig.value_name_count > MOST_NAMES) {
        fail("too many names");
    }
    n->channel = (uint8_t)(rig.channel_count - 1);
    if (number() != n->channel) {
        fail("a value's name behind its channel");
    }
    n->value = (int32_t)number();
    copy_text(n->name, sizeof n->name, name());
}

static void fail_safe(void) {
    snag_fail_safe *f = &fail_safes[rig.fail_safe_count];
    if (rig.fail_safe_count++ == MOST_FAIL_SAFES) {
        fail("too many fail-safes");
    }
    f->number = (uint8_t)number();
    f->inhibition = (int16_t)number();
    copy_text(f->name, sizeof f->name, name());
}

static void begin_case(void) {
    long long seed = number();
    uint32_t boot = (uint32_t)number();
    line_from = line_to = 0;
    stops = armings = 0;
    if (!snag_start(&rig, boot, cause)) {
        fail("the probe does not start with this rig");
    }
    printf("case %lld\n", seed);
}

static void arrive(const char *hex) {
    unsigned byte;
    if (line_from == line_to) {
        line_from = line_to = 0;
    }
    for (; strcmp(hex, "-") != 0 && *hex != '\0'; hex += 2) {
        if (line_to == QUEUE || sscanf(hex, "%2x", &byte) != 1) {
            fail("bytes in hexadecimal, and not too many");
        }
        line[line_to++] = (uint8_t)byte;
    }
}

static int32_t pass(uint8_t index, int32_t value) {
    switch (channels[index].kind) {
    case SNAG_ACTUATOR:
        return snag_drive(index, value);
    case SNAG_STATE:
    case SNAG_COUNTER:
        snag_report(index, value);
        return value;
    default:
        return snag_read(index, value);
    }
}

static void tick(void) {
    int32_t told[SNAG_CHANNELS];
    long long count;
    clock_micros = (uint32_t)number();
    enabled = number() != 0;
    stands = number() != 0;
    arrive(word());
    snag_begin_tick();
    count = number();
    for (long long i = 0; i < count; i++) {
        uint8_t index = (uint8_t)number();
        told[i] = pass(index, (int32_t)number());
    }
    for (long long answers = number(); answers > 0; answers--) {
        snag_answered((uint8_t)number());
    }
    given_count = 0;
    snag_end_tick();
    printf("tick %u %u %s", stops, armings, given_count == 0 ? "-" : "");
    for (unsigned i = 0; i < given_count; i++) {
        printf("%02x", given[i]);
    }
    for (long long i = 0; i < count; i++) {
        printf(" %ld", (long)told[i]);
    }
    printf("\n");
}

static void rig_line(void) {
    cause = (uint8_t)number();
    rig.real = number() != 0;
    rig.tick_micros = (uint16_t)number();
    copy_text(build, sizeof build, word());
}

int main(void) {
    while (fgets(text, sizeof text, stdin) != NULL) {
        const char *what;
        text_number++;
        if (text[0] == '#') {
            continue;
        }
        if (strchr(text, '\n') == NULL) {
            fail("too long");
        }
        rest = text;
        what = word();
        if (strcmp(what, "tick") == 0) {
            tick();
        } else if (strcmp(what, "case") == 0) {
            begin_case();
        } else if (strcmp(what, "limits") == 0) {
            limits();
        } else if (strcmp(what, "rig") == 0) {
            rig_line();
        } else if (strcmp(what, "channel") == 0) {
            channel();
        } else if (strcmp(what, "value") == 0) {
            value_name();
        } else if (strcmp(what, "failsafe") == 0) {
            fail_safe();
        } else {
            fail("not a known word");
        }
    }
    return 0;
}
