/*
 * Holds the probe against firmware-notes/wire-format.md and fixtures/fault-values, which are read as they stand:
 *
 *     page WIRE_FORMAT.md FAULT_VALUES.csv
 *
 * Every example frame both ways, the worked values, the noise, and all cases of the table.
 */
#include "../snag_probe.c"

#include <stdio.h>
#include <stdlib.h>

enum { LONGEST_LINE = 4096, MOST_FIELDS = 64, MOST_BYTES = 512 };

static unsigned checked;
static unsigned failed;
static const char *what_now = "";

static void check(bool good, const char *what, long long wanted, long long found) {
    checked++;
    if (!good) {
        failed++;
        printf("%s: %s: wanted %lld, was %lld\n", what_now, what, wanted, found);
    }
}

static void same(const char *what, long long wanted, long long found) {
    check(wanted == found, what, wanted, found);
}

/* ---- port ---- */

static uint32_t clock_micros;

uint16_t snag_port_put(const uint8_t *bytes, uint16_t count) {
    (void)bytes;
    return count;
}

int16_t snag_port_get(void) {
    return -1;
}

uint32_t snag_port_micros(void) {
    return clock_micros;
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

static snag_channel channels[] = {SNAG_FAIL_SAFE_REPORT,
                                  {"forced", "", SNAG_SENSOR, 0, 1, 0, -1000, 1000, -999},
                                  {"trigger", "", SNAG_SENSOR, 0, 1, 0, -100, 100, 0}};
static const snag_rig rig = {channels, 4, NULL, 0, NULL, 0, "test", false, 0};
enum { FORCED_CHANNEL = 2, TRIGGER = 3 };

static void start(uint8_t kind, int32_t lowest, int32_t highest, int32_t absent) {
    channels[FORCED_CHANNEL].kind = kind;
    channels[FORCED_CHANNEL].flags = kind == SNAG_ACTUATOR ? SNAG_MAY_BE_WEAKENED : 0;
    channels[FORCED_CHANNEL].lowest = lowest;
    channels[FORCED_CHANNEL].highest = highest;
    channels[FORCED_CHANNEL].absent = absent;
    same("starts", true, snag_start(&rig, 1, SNAG_POWER_ON));
    s.watched[0] = FORCED_CHANNEL;
    s.watched_count = 1;
}

/* ---- examples ---- */

typedef struct {
    int64_t numbers[MOST_FIELDS];
    const char *texts[MOST_FIELDS];
    unsigned count;
} fields;

static char kept_text[MOST_FIELDS][32];

static int64_t number_of(const char *text) {
    bool binary = strncmp(text, "0b", 2) == 0;
    return binary ? strtoll(text + 2, NULL, 2) : strtoll(text, NULL, 0);
}

/* One line of an example: a figure, several parted by commas, a text in quotes, or nothing. */
static void take_field(fields *f, char *value) {
    for (char *each = strtok(value, ","); each != NULL; each = strtok(NULL, ",")) {
        while (*each == ' ') {
            each++;
        }
        if (*each == '"') {
            char *end = strrchr(each + 1, '"');
            memset(kept_text[f->count], 0, sizeof kept_text[0]);
            memcpy(kept_text[f->count], each + 1, (size_t)(end - each - 1));
            f->texts[f->count] = kept_text[f->count];
            f->count++;
        } else if (*each != '\0') {
            f->texts[f->count] = NULL;
            f->numbers[f->count++] = number_of(each);
        }
    }
}

static unsigned take_hex(char *value, uint8_t *bytes) {
    unsigned count = 0;
    for (char *each = strtok(value, " "); each != NULL; each = strtok(NULL, " ")) {
        bytes[count++] = (uint8_t)strtoul(each, NULL, 16);
    }
    return count;
}

/* The fields written give the frame. */
static void writes(const fields *f, const uint8_t *frame, unsigned count) {
    s.out.from = s.out.to = 0;
    write_begin();
    write_head(f->count, 4 << 5);
    for (unsigned i = 0; i < f->count; i++) {
        if (f->texts[i] != NULL) {
            write_rom_text(f->texts[i], 32);
        } else if (f->numbers[i] < 0) {
            write_i32((int32_t)f->numbers[i]);
        } else {
            write_u32((uint32_t)f->numbers[i]);
        }
    }
    same("fits", true, write_end());
    same("length of the frame", count, s.out.to);
    same("bytes of the frame", 0, memcmp(frame, s.out.bytes, count));
}

/* The frame read gives the fields. */
static void reads(const fields *f, const uint8_t *frame, unsigned count) {
    uint8_t payload = 0;
    in_clear(&s.in);
    for (unsigned i = 0; i < count; i++) {
        same("nothing whole before the end", 0, payload);
        payload = in_take(frame[i]);
    }
    same("a whole frame", true, payload > 0);
    s.in.at = 0;
    s.in.end = payload;
    s.in.failed = false;
    same("items", f->count, read_head());
    same("an array", 4, s.in.major);
    for (unsigned i = 0; i < f->count; i++) {
        if (f->texts[i] != NULL) {
            uint32_t length = read_head();
            same("a text", 3, s.in.major);
            same("of that length", (long long)strlen(f->texts[i]), length);
            same("the text", 0, memcmp(s.in.bytes + s.in.at, f->texts[i], length));
            s.in.at = (uint8_t)(s.in.at + length);
        } else if (f->numbers[i] < 0) {
            same("a figure", f->numbers[i], read_i32());
        } else {
            same("a figure", f->numbers[i], read_u32());
        }
    }
    same("all of it", true, read_all());
}

/* Changed, lost or doubled bytes make bad frames and nothing else, and the next whole frame is found. */
static void survives(const uint8_t *frame, unsigned count) {
    for (unsigned spoiled = 0; spoiled + 1 < count; spoiled++) {
        for (unsigned way = 0; way < 3; way++) {
            uint32_t bad_before = s.in.bad;
            unsigned good = 0;
            in_clear(&s.in);
            for (unsigned i = 0; i < 2 * count; i++) {
                uint8_t byte = frame[i % count];
                if (i != spoiled) {
                    good += in_take(byte) > 0;
                } else if (way == 0) {
                    good += in_take(byte ^ 0x55) > 0;
                } else if (way == 1) {
                    good += in_take(byte) > 0;
                    good += in_take(byte) > 0;
                }
            }
            same("one good frame", 1, good);
            check(s.in.bad > bad_before, "bad frames", bad_before + 1, s.in.bad);
        }
    }
}

static unsigned examples(FILE *page) {
    char line[LONGEST_LINE];
    uint8_t frame[MOST_BYTES];
    fields f = {{0}, {NULL}, 0};
    bool inside = false;
    unsigned count = 0;
    while (fgets(line, sizeof line, page) != NULL) {
        char *value;
        line[strcspn(line, "\n")] = '\0';
        if (strcmp(line, "```example") == 0) {
            inside = true;
            f.count = 0;
            continue;
        }
        value = strchr(line, '=');
        if (!inside || value == NULL) {
            continue;
        }
        *value++ = '\0';
        if (strcmp(line, "hex ") != 0) {
            take_field(&f, value);
            continue;
        }
        inside = false;
        count++;
        {
            unsigned length = take_hex(value, frame);
            writes(&f, frame, length);
            reads(&f, frame, length);
            survives(frame, length);
        }
    }
    return count;
}

/* ---- worked values ---- */

static const char *const kinds[] = {"wait",  "stuck-at", "freeze",  "offset", "scale", "drift",
                                    "spike", "noise",    "dropout", "delay",  "replay"};

static int kind_named(const char *name) {
    for (int i = 0; i < (int)(sizeof kinds / sizeof kinds[0]); i++) {
        if (strcmp(name, kinds[i]) == 0) {
            return i;
        }
    }
    return -1;
}

/* A part of a program, past the line. */
typedef void taking(const int32_t *f, const uint8_t *n);

static void give(taking *take_it, const int32_t *f, uint8_t count, const char *what) {
    uint8_t n[E_FIELDS];
    for (uint8_t i = 0; i < count; i++) {
        n[i] = small(&f[i]);
    }
    refused(DONE_WELL, 0);
    take_it(f, n);
    same(what, DONE_WELL, s.came.code);
}

static uint32_t active_mask(void) {
    uint32_t mask = 0;
    for (uint8_t i = 0; i < s.slot_count; i++) {
        mask |= (uint32_t)is_active(&s.slots[i]) << i;
    }
    return mask;
}

static void load(int32_t index, int32_t kind, int32_t a, int32_t b, int32_t leader, int32_t lasts, int32_t flags) {
    int32_t f[E_FIELDS] = {index, kind, FORCED_CHANNEL, a, b, leader, -1, lasts, flags};
    give(entry_take, f, E_FIELDS, "entry taken");
}

static unsigned worked_values(FILE *page) {
    char line[LONGEST_LINE];
    char name[32];
    long long a, b, micros, real, told;
    unsigned count = 0;
    while (fgets(line, sizeof line, page) != NULL) {
        if (sscanf(line, "| %31[a-z-] | %lld | %lld | %lld | %lld | %lld |", name, &a, &b, &micros, &real, &told) != 6 ||
            kind_named(name) < 0) {
            continue;
        }
        count++;
        start(SNAG_SENSOR, -200, 4500, -200);
        load(0, kind_named(name), (int32_t)a, (int32_t)b, -1, 0, 0);
        clock_micros = 0xFFFF0000u;
        snag_begin_tick();
        program_arm(1);
        snag_end_tick(); /* without terms it strikes at the end of tick 0 */
        snag_begin_tick();
        same("active", 1, active_mask());
        snag_end_tick();
        clock_micros += (uint32_t)micros;
        snag_begin_tick();
        same(name, told, snag_read(FORCED_CHANNEL, (int32_t)real));
        snag_end_tick();
    }
    return count;
}

static unsigned noise_values(FILE *page) {
    char line[LONGEST_LINE];
    long long tick, draw, g, told;
    unsigned count = 0;
    start(SNAG_SENSOR, -200, 4500, -200);
    load(0, NOISE, 1663, 0, -1, 0, 0);
    snag_begin_tick();
    program_arm(2463534242u);
    snag_end_tick();
    while (fgets(line, sizeof line, page) != NULL) {
        if (strstr(line, " - ") != NULL || sscanf(line, "| %lld | %lld | %lld | %lld |", &tick, &draw, &g, &told) != 4 ||
            tick != count) {
            continue;
        }
        count++;
        clock_micros += 5000;
        snag_begin_tick();
        same("draw", draw, s.slots[0].of.draw);
        same("noise", told, snag_read(FORCED_CHANNEL, 1000));
        snag_end_tick();
    }
    return count;
}

/* ---- the table of fault values ---- */

enum { MOST_CELLS = 12 };

static unsigned cells_of(const char *line, long long *cells) {
    unsigned count = 0;
    const char *at = strchr(line, ',');
    while (at != NULL && count < MOST_CELLS) {
        char *end;
        cells[count] = strtoll(at + 1, &end, 10);
        if (end == at + 1) {
            break;
        }
        count++;
        at = strchr(at + 1, ',');
    }
    return count;
}

static void table_entry(const long long *c) {
    load((int32_t)c[0], (int32_t)c[1], (int32_t)c[2], (int32_t)c[3], (int32_t)c[4], (int32_t)c[5], (int32_t)c[6]);
    if (c[7] != 0 || c[8] != 0 || c[9] != 1) {
        int32_t f[T_FIELDS] = {(int32_t)c[0], 0, 0, (int32_t)c[7], (int32_t)c[8], 1, (int32_t)c[9]};
        give(timing_take, f, T_FIELDS, "timing taken");
    }
    if (c[4] < 0) {
        int32_t when[C_FIELDS] = {(int32_t)c[0], WHEN, TRIGGER, 0, IS, 1, 0};
        int32_t until[C_FIELDS] = {(int32_t)c[0], UNTIL, TRIGGER, 0, IS, 2, 0};
        give(term_take, when, C_FIELDS, "term taken");
        give(term_take, until, C_FIELDS, "term taken");
    }
}

static void table_tick(const long long *c, uint32_t zero, uint32_t seed) {
    int32_t told;
    clock_micros = zero + (uint32_t)c[1];
    snag_begin_tick();
    if (c[0] == 0) {
        program_arm(seed);
    }
    (void)snag_read(TRIGGER, (int32_t)c[2]);
    told = kind_of(FORCED_CHANNEL) == SNAG_ACTUATOR ? snag_drive(FORCED_CHANNEL, (int32_t)c[3])
                                                    : snag_read(FORCED_CHANNEL, (int32_t)c[3]);
    same("told", c[4], told);
    same("active", c[5], active_mask());
    same("forced", c[6], (s.readings[FORCED_CHANNEL].marks & FORCED) != 0);
    snag_end_tick();
}

static unsigned fault_values(FILE *table) {
    char line[LONGEST_LINE];
    static char where[LONGEST_LINE];
    long long c[MOST_CELLS] = {0};
    uint32_t zero = 0;
    uint32_t seed = 0;
    unsigned count = 0;
    while (fgets(line, sizeof line, table) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        if (line[0] == '#') {
            continue;
        }
        cells_of(line, c);
        if (strncmp(line, "case,", 5) == 0) {
            count++;
            strcpy(where, line);
            what_now = where;
            start((uint8_t)c[1], (int32_t)c[2], (int32_t)c[3], (int32_t)c[4]);
            seed = (uint32_t)c[5];
            zero = (uint32_t)c[6];
            clock_micros = zero - 500000;
            snag_begin_tick();
            snag_end_tick();
        } else if (strncmp(line, "entry,", 6) == 0) {
            table_entry(c);
        } else if (strncmp(line, "point,", 6) == 0) {
            int32_t f[P_FIELDS] = {(int32_t)c[0], (int32_t)c[1], (int32_t)c[2]};
            give(point_take, f, P_FIELDS, "point taken");
        } else {
            table_tick(c, zero, seed);
        }
    }
    return count;
}

/* How many of them there are at the least, so that a page that is not understood does not pass. */
static void run(const char *what, const char *file, unsigned (*test)(FILE *), unsigned least) {
    FILE *from = fopen(file, "r");
    unsigned count;
    what_now = what;
    if (from == NULL) {
        perror(file);
        exit(2);
    }
    count = test(from);
    fclose(from);
    what_now = what;
    check(count >= least, "how many", least, count);
    printf("%s: %u\n", what, count);
}

int main(int count, char **arguments) {
    if (count != 3) {
        fprintf(stderr, "wanted: page WIRE_FORMAT.md FAULT_VALUES.csv\n");
        return 2;
    }
    run("examples", arguments[1], examples, 22);
    run("worked values", arguments[1], worked_values, 20);
    run("noise", arguments[1], noise_values, 5);
    run("cases of fault values", arguments[2], fault_values, 40);
    printf("%u checks, %u failed\n", checked, failed);
    return failed == 0 ? 0 : 1;
}
