/*
 * Any bytes and any order of calls, for libFuzzer: what comes in is a list of small deeds. Beside what the sanitizers see, it
 * checks that no told value leaves its channel's range and no override makes a drive stronger.
 */
#include "../snag_probe.c"

#include <stdlib.h>

enum { SESSION = 7, BOOT = 9, QUEUE = 4096, MOST_PAYLOAD = SNAG_FRAME };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const snag_channel channels[] SNAG_ROM = {
    SNAG_FAIL_SAFE_REPORT,
    {"position", "mm", SNAG_SENSOR, SNAG_CLOSES_LOOP, 1, -1, -1000, 1000, -999},
    {"wide", "", SNAG_SENSOR, 0, 1, 0, INT32_MIN, INT32_MAX, 0},
    {"motor", "%", SNAG_ACTUATOR, SNAG_MAY_BE_WEAKENED, 1, -1, -1000, 1000, 0},
    {"start", "", SNAG_COMMAND, 0, 1, 0, 0, 3, 0},
    {"step", "", SNAG_STATE, SNAG_STEP, 1, 0, 0, 3, 0},
};
enum { CHANNELS = sizeof channels / sizeof channels[0], MOTOR = 4, STEP = 6 };
static const snag_value_name names[] SNAG_ROM = {{STEP, 0, "STOPPED"}, {STEP, 1, "GOING"}};
static const snag_fail_safe fail_safes[] SNAG_ROM = {{1, -1, "FS-01"}};
static const snag_rig rig = {channels, CHANNELS, names, 2, fail_safes, 1, "fuzz", true, 0};

static uint8_t line[QUEUE];
static size_t line_from;
static size_t line_to;
static uint32_t clock_micros;
static uint32_t number;
static uint16_t room;
static bool enabled;
static bool stands;

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    (void)bytes;
    return count < room ? count : room;
}

int16_t snag_port_get(void) {
    return line_from == line_to ? -1 : line[line_from++];
}

uint32_t snag_port_micros(void) {
    return clock_micros;
}

void snag_port_stop(uint8_t reason) {
    (void)reason;
}

bool snag_port_stopped(void) {
    return stands;
}

bool snag_port_enabled(void) {
    return enabled;
}

void snag_port_armed(uint32_t seed) {
    (void)seed;
}

static void arrive(const uint8_t *bytes, size_t count) {
    if (line_from == line_to) {
        line_from = line_to = 0;
    }
    for (size_t i = 0; i < count && line_to < QUEUE; i++) {
        line[line_to++] = bytes[i];
    }
}

/* A payload in a frame that is right. */
static void arrive_framed(const uint8_t *payload, size_t count) {
    uint8_t bytes[MOST_PAYLOAD + CRC_BYTES + 2];
    uint32_t crc = 0;
    size_t code = 0;
    crc_add(&crc, payload, (uint8_t)count);
    memcpy(bytes + 1, payload, count);
    for (int i = 0; i < CRC_BYTES; i++) {
        bytes[1 + count + (size_t)i] = (uint8_t)(crc >> (8 * i));
    }
    count += CRC_BYTES;
    for (size_t i = 1; i <= count; i++) {
        if (bytes[i] == 0) {
            bytes[code] = (uint8_t)(i - code);
            code = i;
        }
    }
    bytes[code] = (uint8_t)(count + 1 - code);
    bytes[count + 1] = 0;
    arrive(bytes, count + 2);
}

static size_t put_head(uint8_t *to, uint8_t major, uint32_t value) {
    if (value < 24) {
        to[0] = (uint8_t)(major << 5 | value);
        return 1;
    }
    if (value < 256) {
        to[0] = (uint8_t)(major << 5 | 24);
        to[1] = (uint8_t)value;
        return 2;
    }
    to[0] = (uint8_t)(major << 5 | (value < 65536 ? 25 : 26));
    if (value < 65536) {
        to[1] = (uint8_t)(value >> 8);
        to[2] = (uint8_t)value;
        return 3;
    }
    for (int i = 0; i < 4; i++) {
        to[1 + i] = (uint8_t)(value >> (24 - 8 * i));
    }
    return 5;
}

typedef struct {
    const uint8_t *at;
    const uint8_t *end;
} deeds;

static uint8_t next(deeds *d) {
    return d->at < d->end ? *d->at++ : 0;
}

/* Small figures most often, and now and then one at the ends. */
static int32_t figure(deeds *d) {
    uint8_t kind = next(d);
    if (kind < 200) {
        return (int32_t)(kind % 20) - 2;
    }
    if (kind < 220) {
        return (int32_t)next(d) * 5000;
    }
    return kind < 230 ? INT32_MAX : kind < 240 ? INT32_MIN : (int32_t)(next(d) << 8 | next(d));
}

/* A request of this session with any fields; to arm, with the digests that fit. */
static void request(deeds *d) {
    static const uint8_t usual[] = {0, 2, 1, 5, 9, 7, 7, 3, 8, 5, 2, 3, 0};
    uint8_t payload[MOST_PAYLOAD];
    uint8_t type = (uint8_t)(next(d) % 14);
    uint8_t fields = type < sizeof usual ? usual[type] : next(d) % 4;
    int32_t f[16] = {0};
    size_t at = 0;
    if (next(d) > 240) {
        fields = next(d) % 12;
    }
    for (uint8_t i = 0; i < fields; i++) {
        f[i] = figure(d);
    }
    if (type == ARM && next(d) < 230) {
        f[0] = s.slot_count;
        f[1] = as_signed(s.program_digest);
        f[2] = s.guard_count;
        f[3] = as_signed(s.guard_digest);
    } else if ((type == ENTRY && next(d) < 230)) {
        f[0] = s.slot_count;
    } else if (type == GUARD && next(d) < 230) {
        f[0] = s.guard_count;
    } else if (type == KEEP && next(d) < 230) {
        f[0] = 9000;
    } else if (type == OPEN && next(d) < 230) {
        f[0] = f[1] = 1;
    }
    at += put_head(payload, 4, 4u + fields);
    at += put_head(payload + at, 0, type);
    at += put_head(payload + at, 0, SESSION);
    at += put_head(payload + at, 0, type == OPEN ? 0 : BOOT);
    at += put_head(payload + at, 0, ++number);
    for (uint8_t i = 0; i < fields && at < MOST_PAYLOAD - 5; i++) {
        bool is_digest = type == ARM && (i == 1 || i == 3);
        at += f[i] < 0 && !is_digest ? put_head(payload + at, 1, ~(uint32_t)f[i]) : put_head(payload + at, 0, (uint32_t)f[i]);
    }
    if (at + CRC_BYTES + 2 <= SNAG_FRAME) {
        arrive_framed(payload, at);
    }
}

static void require(bool good) {
    if (!good) {
        abort();
    }
}

static void pass_value(deeds *d) {
    uint8_t channel = (uint8_t)(next(d) % (CHANNELS + 1));
    int32_t real = figure(d);
    /* What was read before in this tick is told again, whatever comes in. */
    bool again = channel < CHANNELS && (s.readings[channel].marks & READ_NOW) != 0;
    if (channel == MOTOR) {
        int32_t told = snag_drive(channel, real);
        require(again || (real >= 0 ? told >= 0 && told <= real : told <= 0 && told >= real));
    } else if (channel == STEP) {
        snag_report(channel, real);
    } else {
        int32_t told = snag_read(channel, real);
        require(again || channel >= CHANNELS || told == real ||
                (told >= channels[channel].lowest && told <= channels[channel].highest));
    }
}

static void tick(deeds *d) {
    uint8_t how = next(d);
    clock_micros += how < 128 ? 5000u : how < 250 ? how * 100u : how * 10000000u;
    enabled = (how & 7) != 3;
    stands = (how & 3) != 1;
    room = (how & 15) == 7 ? how : UINT16_MAX;
    snag_begin_tick();
    for (uint8_t left = next(d) % 6; left > 0; left--) {
        pass_value(d);
    }
    if (next(d) > 200) {
        snag_answered(next(d));
    }
    snag_end_tick();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    deeds d = {data, data + size};
    line_from = line_to = 0;
    clock_micros = 0xFFFFF000u;
    number = 0;
    require(snag_start(&rig, BOOT, SNAG_POWER_ON));
    while (d.at < d.end) {
        uint8_t deed = next(&d);
        if (deed < 120) {
            request(&d);
        } else if (deed < 220) {
            tick(&d);
        } else {
            uint8_t count = next(&d) % 60;
            size_t left = (size_t)(d.end - d.at);
            count = left < count ? (uint8_t)left : count;
            if (deed < 238) {
                arrive_framed(d.at, count);
            } else {
                arrive(d.at, count);
            }
            d.at += count;
        }
    }
    for (int i = 0; i < 3; i++) {
        tick(&d);
    }
    return 0;
}
