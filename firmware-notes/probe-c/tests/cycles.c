/*
 * Cycles of a tick on a simulated ATmega2560, feature by feature, as rows of a table: from snag_begin_tick() to snag_end_tick()
 * with the calls between them, the checksum's table as the build has it. The line takes all and brings nothing.
 */
#include "../snag_probe.c"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

enum { POSITION = 2, CHANNELS = 8, TICKS = 40 };

static const snag_channel channels[] SNAG_ROM = {
    SNAG_FAIL_SAFE_REPORT,
    {"a", "", SNAG_SENSOR, SNAG_CLOSES_LOOP, 1, 0, -100000, 100000, 0},
    {"b", "", SNAG_SENSOR, 0, 1, 0, -100000, 100000, 0},
    {"c", "", SNAG_SENSOR, 0, 1, 0, -100000, 100000, 0},
    {"d", "", SNAG_SENSOR, 0, 1, 0, -100000, 100000, 0},
    {"e", "", SNAG_SENSOR, 0, 1, 0, -100000, 100000, 0},
    {"f", "", SNAG_SENSOR, 0, 1, 0, -100000, 100000, 0},
};
static snag_rig rig = {channels, CHANNELS, NULL, 0, NULL, 0, "cycles", false, 5000};
static uint32_t clock_micros;

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    (void)bytes;
    return count;
}

int16_t snag_port_get(void) {
    return -1;
}

uint32_t snag_port_micros(void) {
    return clock_micros += 5000;
}

void snag_port_stop(uint8_t reason) {
    (void)reason;
}

bool snag_port_stopped(void) {
    return true;
}

bool snag_port_enabled(void) {
    return true;
}

void snag_port_armed(uint32_t seed) {
    (void)seed;
}

static void put(char byte) {
    while ((UCSR0A & _BV(UDRE0)) == 0) {
    }
    UDR0 = (uint8_t)byte;
}

static void put_text(const char *text) {
    while (*text != 0) {
        put(*text++);
    }
}

static void put_figure(uint32_t figure) {
    char digits[10];
    uint8_t count = 0;
    do {
        digits[count++] = (char)('0' + figure % 10);
        figure /= 10;
    } while (figure > 0);
    while (count > 0) {
        put(digits[--count]);
    }
}

static uint16_t tick(int32_t real) {
    uint16_t before = TCNT1;
    snag_begin_tick();
    for (uint8_t c = POSITION; c < CHANNELS; c++) {
        (void)snag_read(c, real + c);
    }
    snag_end_tick();
    return (uint16_t)(TCNT1 - before);
}

static void begin(bool watched) {
    (void)snag_start(&rig, 1, SNAG_POWER_ON);
    s.is_open = true;
    if (watched) {
        s.watched_count = CHANNELS;
        for (uint8_t c = 0; c < CHANNELS; c++) {
            s.watched[c] = c;
        }
    }
    (void)tick(0);
}

static void told(const char *what) {
    uint32_t sum = 0;
    uint16_t most = 0;
    for (uint8_t i = 0; i < 4; i++) {
        (void)tick(1000 + i);
    }
    for (uint8_t i = 0; i < TICKS; i++) {
        uint16_t took = tick(1000 + i);
        sum += took;
        most = took > most ? took : most;
    }
    put_text("| ");
    put_text(what);
    put_text(" | ");
    put_figure(sum / TICKS);
    put_text(" | ");
    put_figure(most);
    put_text(" |\n");
}

static void take_all(void (*take_it)(const int32_t *, const uint8_t *), const int32_t *f, uint8_t count) {
    uint8_t n[E_FIELDS];
    for (uint8_t i = 0; i < count; i++) {
        n[i] = small(&f[i]);
    }
    take_it(f, n);
}

static void entry(uint8_t kind, int32_t a, int32_t b) {
    int32_t f[E_FIELDS] = {0, kind, POSITION, a, b, -1, -1, 0, 0};
    f[E_INDEX] = s.slot_count;
    take_all(entry_take, f, E_FIELDS);
}

/* Until something that never is. */
static void term_of(uint8_t comparison, uint8_t window) {
    int32_t f[C_FIELDS] = {0, UNTIL, POSITION, 0, comparison, comparison == AT_LEAST ? 50000 : -50000, window};
    take_all(term_take, f, C_FIELDS);
}

static void guard_of(uint8_t kind) {
    int32_t f[G_FIELDS] = {0, kind, POSITION, kind == TRAVEL ? -100000 : 90000, kind == TRAVEL ? 100000 : 0, 8, 1000000, 3};
    f[G_INDEX] = s.guard_count;
    take_all(guard_take, f, G_FIELDS);
}

static void armed(const char *what) {
    program_arm(1);
    told(what);
}

static void of_kind(const char *what, uint8_t kind, int32_t a, int32_t b) {
    begin(true);
    entry(kind, a, b);
    armed(what);
}

int main(void) {
    TCCR1B = _BV(CS10);
    UCSR0B = _BV(TXEN0);
    begin(false);
    told("nobody on the line");
    begin(true);
    told("a record of all 8");
    s.period = 5;
    told("the same of every 5th tick");
    of_kind("a record, `stuck-at`", STUCK_AT, 5, 0);
    of_kind("a record, `freeze`", FREEZE, 0, 0);
    of_kind("a record, `offset` at once", OFFSET, 5, 0);
    of_kind("a record, `offset` over a time", OFFSET, 100000, 5000);
    of_kind("a record, `scale`", SCALE, 60000, 0);
    of_kind("a record, `drift`", DRIFT, 5000, 0);
    of_kind("a record, `spike`", SPIKE, 5, 0);
    of_kind("a record, `noise`", NOISE, 1663, 0);
    of_kind("a record, `dropout`", DROPOUT, 0, 0);
    of_kind("a record, `delay`", DELAY, 8, 0);
    begin(true);
    for (uint8_t i = 0; i < 4; i++) {
        entry(STUCK_AT, 5, 0);
    }
    armed("a record, 4 entries `stuck-at`");
    begin(true);
    entry(STUCK_AT, 5, 0);
    for (uint8_t i = 0; i < 8; i++) {
        term_of(AT_LEAST, 0);
    }
    armed("a record, `stuck-at`, 8 terms");
    begin(true);
    entry(STUCK_AT, 5, 0);
    term_of(SLOWER_THAN, 8);
    armed("a record, `stuck-at`, a term over a window");
    begin(true);
    guard_of(TRAVEL);
    told("a record, a guard of travel");
    begin(true);
    guard_of(SPEED);
    told("a record, a guard of speed");
    begin(true);
    guard_of(STALL);
    told("a record, a guard of stall");
    cli();
    sleep_enable();
    sleep_cpu();
    return 0;
}
