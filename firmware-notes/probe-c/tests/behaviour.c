/*
 * What the comparison with another probe leaves out: a real rig, a line that takes little, tables that do not fit, and
 * calls that a program should not make.
 */
#include "../snag_probe.c"

#include <stdio.h>
#include <stdlib.h>

enum { SESSION = 7, BOOT = 9, QUEUE = 1 << 16 };

static unsigned checked;
static unsigned failed;

static void same_at(int line, long long wanted, long long found) {
    checked++;
    if (wanted != found) {
        failed++;
        printf("line %d: wanted %lld, was %lld\n", line, wanted, found);
    }
}
#define SAME(wanted, found) same_at(__LINE__, (wanted), (found))

/* ---- port ---- */

static uint8_t to_rig[QUEUE];
static unsigned to_rig_from, to_rig_to;
static uint8_t from_rig[QUEUE];
static unsigned from_rig_to;
static uint16_t room = UINT16_MAX; /* of the line, in each tick */
static uint16_t room_left;
static uint32_t clock_micros;
static bool enabled = true;
static int stops;

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    uint16_t taken = count < room_left ? count : room_left;
    memcpy(from_rig + from_rig_to, bytes, taken);
    from_rig_to += taken;
    room_left = (uint16_t)(room_left - taken);
    return taken;
}

int16_t snag_port_get(void) {
    return to_rig_from == to_rig_to ? -1 : to_rig[to_rig_from++];
}

uint32_t snag_port_micros(void) {
    return clock_micros;
}

void snag_port_stop(uint8_t reason) {
    (void)reason;
    stops++;
}

bool snag_port_stopped(void) {
    return true;
}

bool snag_port_enabled(void) {
    return enabled;
}

void snag_port_armed(uint32_t seed) {
    (void)seed;
}

/* ---- rig ---- */

enum { LAST, COUNT, POSITION, MOTOR, BRAKE, START, STEP, FIRST_OF_MANY };
static snag_channel channels[] = {SNAG_FAIL_SAFE_REPORT,
                                  {"position", "mm", SNAG_SENSOR, SNAG_CLOSES_LOOP, 1, -1, -1000, 1000, -999},
                                  {"motor", "%", SNAG_ACTUATOR, SNAG_MAY_BE_WEAKENED, 1, -1, -1000, 1000, 0},
                                  {"brake", "", SNAG_ACTUATOR, 0, 1, 0, 0, 1, 0},
                                  {"start", "", SNAG_COMMAND, 0, 1, 0, 0, 3, 0},
                                  {"step", "", SNAG_STATE, SNAG_STEP, 1, 0, 0, 3, 0}};
static snag_value_name names[] = {{START, 1, "GO"}, {STEP, 0, "STOPPED"}};
static snag_fail_safe fail_safes[] = {{1, -1, "FS-01"}};
static snag_rig rig = {channels, FIRST_OF_MANY, names, 2, fail_safes, 1, "test", true, 0};

static void tick(int32_t position) {
    clock_micros += 5000;
    room_left = room;
    snag_begin_tick();
    (void)snag_read(POSITION, position);
    (void)snag_read(START, 0);
    (void)snag_drive(MOTOR, 500);
    snag_report(STEP, 1);
    snag_end_tick();
}

/* ---- the bench's end ---- */

static uint32_t number;

static unsigned put_figure(uint8_t *to, uint8_t major, uint32_t value) {
    unsigned count = 0;
    uint8_t bytes = value < 24 ? 0 : value <= 0xFF ? 1 : value <= 0xFFFF ? 2 : 4;
    to[count++] = (uint8_t)(major << 5 | (bytes == 0 ? value : bytes == 1 ? 24u : bytes == 2 ? 25u : 26u));
    while (bytes-- > 0) {
        to[count++] = (uint8_t)(value >> (8 * bytes));
    }
    return count;
}

/* The checksum that goes on from the one of what came before, 0 for nothing. */
static uint32_t crc_over(uint32_t sum, const uint8_t *bytes, unsigned count) {
    crc_add(&sum, bytes, (uint8_t)count);
    return sum;
}

static void send_request(uint8_t type, const int64_t *fields, uint8_t count) {
    uint8_t bytes[128] = {0};
    unsigned at = 1;
    unsigned code = 0;
    uint32_t crc;
    at += put_figure(bytes + at, 4, 4u + count);
    at += put_figure(bytes + at, 0, type);
    at += put_figure(bytes + at, 0, SESSION);
    at += put_figure(bytes + at, 0, type == OPEN ? 0 : BOOT);
    at += put_figure(bytes + at, 0, ++number);
    for (uint8_t i = 0; i < count; i++) {
        at += fields[i] < 0 ? put_figure(bytes + at, 1, (uint32_t)(-1 - fields[i]))
                            : put_figure(bytes + at, 0, (uint32_t)fields[i]);
    }
    crc = crc_over(0, bytes + 1, at - 1);
    for (int i = 0; i < 4; i++) {
        bytes[at++] = (uint8_t)(crc >> (8 * i));
    }
    for (unsigned i = 1; i < at; i++) {
        if (bytes[i] == 0) {
            bytes[code] = (uint8_t)(i - code);
            code = i;
        }
    }
    bytes[code] = (uint8_t)(at - code);
    bytes[at++] = 0;
    memcpy(to_rig + to_rig_to, bytes, at);
    to_rig_to += at;
}

typedef struct {
    int64_t figures[96];
    unsigned count;
} message;

static uint32_t take_figure(const uint8_t *bytes, unsigned *at, uint8_t *major) {
    uint8_t head = bytes[(*at)++];
    uint32_t figure = head & 0x1F;
    *major = head >> 5;
    if (figure >= 24) {
        uint8_t left = (uint8_t)(1u << (figure - 24));
        figure = 0;
        while (left-- > 0) {
            figure = figure << 8 | bytes[(*at)++];
        }
    }
    return figure;
}

/* Takes the next frame from what the rig said; false where there is none. */
static bool next_message(unsigned *from, message *m) {
    uint8_t data[300];
    unsigned length = 0;
    unsigned end = *from;
    while (end < from_rig_to && from_rig[end] != 0) {
        end++;
    }
    if (end == from_rig_to) {
        return false;
    }
    for (unsigned i = *from; i < end;) {
        uint8_t code = from_rig[i];
        for (unsigned k = 1; k < code; k++) {
            data[length++] = from_rig[i + k];
        }
        i += code;
        if (i < end) {
            data[length++] = 0;
        }
    }
    *from = end + 1;
    SAME(0x2144DF1C, crc_over(0, data, length));
    {
        unsigned at = 0;
        uint8_t major;
        uint32_t items = take_figure(data, &at, &major);
        m->count = 0;
        for (uint32_t i = 0; i < items; i++) {
            uint32_t argument = take_figure(data, &at, &major);
            if (major == 3) {
                at += argument;
                argument = 0;
            }
            m->figures[m->count++] = major == 1 ? -1 - (int64_t)argument : argument;
        }
        SAME(length - CRC_BYTES, at);
    }
    return true;
}

/* The last answer among what the rig said; what it said is forgotten. */
static message answer_now(void) {
    unsigned from = 0;
    message m = {{0}, 0};
    message found = {{0}, 0};
    while (next_message(&from, &m)) {
        if (m.figures[0] == ACK || m.figures[0] == NO || m.figures[0] == HELLO || m.figures[0] == ITEM) {
            found = m;
        }
    }
    from_rig_to = 0;
    return found;
}

/* The code with which a request is answered, -1 for not at all; the word is in last_word. */
static int64_t last_word;

static int64_t ask(uint8_t type, const int64_t *fields, uint8_t count) {
    message m;
    send_request(type, fields, count);
    tick(0);
    m = answer_now();
    if (m.count == 0 || m.figures[2] != number) {
        return -1;
    }
    last_word = m.figures[4];
    return m.figures[0] == HELLO ? 0 : m.figures[3];
}
#define ASK(type, ...) ask(type, (const int64_t[]){__VA_ARGS__}, sizeof((const int64_t[]){__VA_ARGS__}) / sizeof(int64_t))

static void begin(void) {
    to_rig_from = to_rig_to = from_rig_to = 0;
    number = 0;
    room = UINT16_MAX;
    SAME(true, snag_start(&rig, BOOT, SNAG_POWER_ON));
    tick(0);
    from_rig_to = 0;
    SAME(0, ASK(OPEN, 1, 1));
    SAME(0, ASK(KEEP, 10000, 0));
}

/* ---- cases ---- */

static void a_real_rig_wants_a_guard_and_its_enable(void) {
    begin();
    SAME(0, ASK(ENTRY, 0, OFFSET, POSITION, 10, 0, -1, -1, 0, 0));
    SAME(NEEDS_GUARD, ASK(ARM, 1, s.program_digest, 0, 0, 1));
    SAME(POSITION, last_word);
    SAME(0, ASK(GUARD, 0, TRAVEL, POSITION, -100, 100, 0, 0, -1));
    enabled = false;
    SAME(NOT_ENABLED, ASK(ARM, 1, s.program_digest, 1, s.guard_digest, 1));
    SAME(NOT_ENABLED, ASK(DO, 0, START, 1));
    enabled = true;
    SAME(0, ASK(ARM, 1, s.program_digest, 1, s.guard_digest, 1));
    /* A single tick's fault needs none. */
    begin();
    SAME(0, ASK(ENTRY, 0, OFFSET, POSITION, 10, 0, -1, -1, 0, ONE_TICK));
    SAME(0, ASK(ARM, 1, s.program_digest, 0, 0, 1));
}

static void a_guards_window_reaches_back_over_its_loading(void) {
    begin();
    tick(-300);
    tick(0);
    /* 300 in two ticks, and the first of them was before the guard was there. */
    send_request(GUARD, (const int64_t[]){0, SPEED, POSITION, 250, 0, 2, 0, -1}, 8);
    SAME(true, snag_may_move());
    tick(0);
    SAME(false, snag_may_move());
    SAME(1, is_latched_by_guard());
}

static void a_line_that_takes_little_loses_records_whole_and_counts_them(void) {
    message m;
    unsigned from = 0;
    uint32_t last_tick = 0;
    uint32_t records = 0;
    int64_t dropped = 0;
    int64_t last_event = 0;
    begin();
    SAME(0, ASK(WATCH, 1, 0, POSITION, MOTOR, START, STEP));
    from_rig_to = 0;
    last_tick = s.now.tick;
    room = 11;
    for (int i = 0; i < 600; i++) {
        if (i % 50 == 0) {
            snag_report(STEP, 2); /* an event in between, and one more in the tick */
        }
        tick(i);
    }
    room = UINT16_MAX;
    tick(0);
    while (next_message(&from, &m)) {
        if (m.figures[0] == RECORD) {
            SAME(last_tick + 1 + (uint32_t)(m.figures[7] - dropped), m.figures[2]);
            last_tick = (uint32_t)m.figures[2];
            dropped = m.figures[7];
            records++;
        } else {
            SAME(EVENT, m.figures[0]);
            SAME(last_event == 0 ? m.figures[1] : last_event + 1, m.figures[1]);
            last_event = m.figures[1];
        }
    }
    SAME(s.now.tick, last_tick);
    SAME(true, records > 100 && records < 450);
    SAME(true, last_event > 20);
}

static void an_answer_comes_though_the_line_is_full_of_records(void) {
    begin();
    SAME(0, ASK(WATCH, 1, 0, POSITION, MOTOR, START, STEP));
    room = 9;
    for (int i = 0; i < 50; i++) {
        tick(i);
    }
    from_rig_to = 0;
    send_request(KEEP, (const int64_t[]){9000, 0}, 2);
    for (int i = 0; i < 60; i++) {
        tick(i);
    }
    SAME(false, s.answer_waits);
}

static void tables_that_do_not_fit_leave_the_probe_off(void) {
    snag_rig wrong = rig;
    SAME(false, snag_start(&rig, 0, SNAG_POWER_ON));
    wrong.channel_count = 1;
    SAME(false, snag_start(&wrong, BOOT, SNAG_POWER_ON));
    wrong = rig;
    names[0].channel = STEP;
    names[1].channel = START; /* not sorted */
    SAME(false, snag_start(&rig, BOOT, SNAG_POWER_ON));
    names[0].channel = START;
    names[1].channel = STEP;
    fail_safes[0].number = 0;
    SAME(false, snag_start(&rig, BOOT, SNAG_POWER_ON));
    fail_safes[0].number = SNAG_HIGHEST_FAIL_SAFE + 1;
    SAME(false, snag_start(&rig, BOOT, SNAG_POWER_ON));
    fail_safes[0].number = 1;
    from_rig_to = 0;
    SAME(false, snag_start(&rig, 0, SNAG_POWER_ON));
    clock_micros += 5000;
    snag_begin_tick();
    SAME(123, snag_read(POSITION, 123));
    SAME(-7, snag_drive(MOTOR, -7));
    snag_report(STEP, 3);
    snag_answered(1);
    snag_end_tick();
    SAME(true, snag_may_move());
    SAME(0, from_rig_to);
}

static void calls_out_of_order_do_no_harm(void) {
    begin();
    snag_begin_tick();
    snag_begin_tick(); /* the second is passed over */
    SAME(55, snag_read(200, 55));
    SAME(55, snag_drive(200, 55));
    snag_report(200, 1);
    snag_answered(0);
    snag_answered(255);
    snag_answered(SNAG_HIGHEST_FAIL_SAFE + 1);
    snag_answered(SNAG_HIGHEST_FAIL_SAFE);
    snag_end_tick();
    snag_end_tick();
    tick(3);
    SAME(3, s.readings[POSITION].real);
}

static void a_lease_that_runs_out_stops_once_and_latches(void) {
    begin();
    SAME(0, ASK(KEEP, 20, 0));
    stops = 0;
    for (int i = 0; i < 10; i++) {
        tick(0);
    }
    SAME(1, stops);
    SAME(false, snag_may_move());
    SAME(0, ASK(KEEP, 1000, 0));
    SAME(LATCHED, ASK(DO, 0, START, 1));
    SAME(0, ASK(DO, 1, -1, 0));
    SAME(true, snag_may_move());
    SAME(0, ASK(DO, 0, START, 1));
}

int main(void) {
    a_real_rig_wants_a_guard_and_its_enable();
    a_guards_window_reaches_back_over_its_loading();
    a_line_that_takes_little_loses_records_whole_and_counts_them();
    an_answer_comes_though_the_line_is_full_of_records();
    tables_that_do_not_fit_leave_the_probe_off();
    calls_out_of_order_do_no_harm();
    a_lease_that_runs_out_stops_once_and_latches();
    printf("behaviour: %u checks, %u failed\n", checked, failed);
    return failed == 0 ? 0 : 1;
}
