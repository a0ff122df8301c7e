/* What this does and why is in firmware-notes/wire-format.md, chapter by chapter; how it is used, in snag_probe.h. */
#include "snag_probe.h"

#if __STDC_HOSTED__
#include <string.h>
#else
/* Without a C library the program has these, which compilers call by themselves too. */
#include <stddef.h>
void *memcpy(void *to, const void *from, size_t count);
void *memmove(void *to, const void *from, size_t count);
void *memset(void *to, int byte, size_t count);
#endif

/* Kept as functions where flash counts: on 8-bit parts their code is long. */
#ifdef __GNUC__
#define APART __attribute__((noinline))
#else
#define APART
#endif

#define VERSION 1
#define NONE 0xFF
#define LONGEST_LEASE_MILLIS 10000
#define MASK_BITS 32
#define CRC_BYTES 4
#define HEADER_FIELDS 4

enum {
    OPEN = 1,
    ITEM_REQUEST = 2,
    WATCH = 3,
    ENTRY = 4,
    TIMING = 5,
    TERM = 6,
    POINT = 7,
    GUARD = 8,
    ARM = 9,
    KEEP = 10,
    DO = 11,
    LET_GO = 12,
    HELLO = 32,
    ITEM = 33,
    RECORD = 34,
    EVENT = 35,
    ACK = 36,
    NO = 37
};

enum {
    BUSY = 1,
    UNKNOWN_REQUEST = 2,
    OTHER_SESSION = 3,
    OTHER_BOOT = 4,
    MALFORMED = 5,
    UNKNOWN_KIND = 6,
    MISMATCH = 7,
    LATCHED = 8,
    NO_LEASE = 9,
    NO_ROOM = 10,
    NOT_NOW = 11,
    NEEDS_GUARD = 12,
    NOT_ENABLED = 13,
    NOT_ALLOWED = 14
};

enum { WAIT, STUCK_AT, FREEZE, OFFSET, SCALE, DRIFT, SPIKE, NOISE, DROPOUT, DELAY, REPLAY };
enum { ENTRY_ON, ENTRY_OFF, STAGE_DONE, STAGE_TIMED_OUT, STATE, ANSWERED, GUARD_TRIPPED, LEASE, STOP, ARMED };
enum { AT_LEAST, ABOVE, AT_MOST, BELOW, IS, IS_NOT, RISES_TO, FALLS_TO, HAS_ANSWERED, FASTER_THAN, SLOWER_THAN, AGREES };
enum { WHEN, WHILE, UNTIL };
enum { TRAVEL, SPEED, STALL };
enum { LASTED, ENDED_UNTIL, ENDED_WHILE, RELEASED, NOT_ENDED = NONE };
enum { ITEM_CHANNEL, ITEM_RANGE, ITEM_VALUE_NAME, ITEM_FAIL_SAFE };
/* Flags of an entry; the last is not on the line. */
enum { ONE_TICK = 1, STAGE = 2, ANEW = 4, SAME_TICK = 8, ACTIVE = 16 };
/* What became of its terms in this tick, and whether it has any to last until. */
enum { WHEN_FAILS = 1, WHILE_FAILS = 2, UNTIL_FAILS = 4, HAS_UNTIL = 8 };
enum { DO_COMMAND = 0, DO_RELEASE_LATCH = 1 };
enum {
    FLAG_ARMED = 1,
    FLAG_LEASED = 2,
    FLAG_STOPPING = 4,
    FLAG_LATCHED = 8,
    FLAG_EVENTS_LOST = 16,
    FLAG_PROGRAM_ENDED = 32,
    FLAG_MORE = 64
};

#define KINDS                                                                                                          \
    (1u << WAIT | 1u << STUCK_AT | (SNAG_WITH_FREEZE ? 1u << FREEZE : 0u) | (SNAG_WITH_OFFSET ? 1u << OFFSET : 0u) |   \
     (SNAG_WITH_SCALE ? 1u << SCALE : 0u) | (SNAG_WITH_DRIFT ? 1u << DRIFT : 0u) |                                     \
     (SNAG_WITH_SPIKE ? 1u << SPIKE : 0u) | (SNAG_WITH_NOISE ? 1u << NOISE : 0u) |                                     \
     (SNAG_WITH_DROPOUT ? 1u << DROPOUT : 0u) | (SNAG_WITH_DELAY ? 1u << DELAY : 0u) |                                 \
     (SNAG_WITH_REPLAY ? 1u << REPLAY : 0u))

/* Marks of a reading. */
enum { READ_NOW = 1, FORCED = 2, ABSENT = 4, FORCED_IN_PERIOD = 8 };

typedef struct {
    int32_t real;
    int32_t told;
    uint8_t marks;
} reading;

/* Marks of a slot. SHUT: its gate is; ROUND: its delay has filled its part of the history. */
enum { STRUCK = 1, HELD = 2, OCCASION = 4, DELAYING = 8, DONE = 16, DONE_NOW = 32, SHUT = 64, ROUND = 128 };

/* One entry of the program and where it stands. */
typedef struct {
    int32_t a;
    int32_t b;
    int32_t lasts;
    uint32_t on_micros;
    uint32_t done_micros;
    uint32_t strikes;
    union {
        int32_t frozen;      /* freeze */
        uint32_t draw;       /* noise */
        uint32_t ticks;      /* replay: since it became active */
        struct {
            uint16_t from; /* delay: its first cell of the history */
            uint16_t next; /* the cell of the present tick, from 0; after a round it holds the oldest reading */
        } past;
    } of;
    uint8_t kind;
    uint8_t channel;
    uint8_t leader;
    uint8_t after;
    uint8_t flags;
    uint8_t conditions;
    uint8_t timing;
    uint8_t marks;
    uint8_t decided_end;
    uint8_t ended_why;
} slot;

#if SNAG_TIMINGS > 0
typedef struct {
    int32_t for_micros;
    int32_t delay_micros;
    uint32_t occasion;
    uint32_t times;
    uint32_t held_since;
    uint32_t delayed_since;
    uint32_t occasions;
#if SNAG_WITH_INTERMITTENT
    uint32_t on_micros;
    uint32_t off_micros;
    uint32_t edge;
#endif
} timing;
#endif

/*
 * A term; bits of `what`: its comparison, whether it is of the told value, whether it was beyond its value in the tick before,
 * and whether its window is filled.
 */
enum { COMPARISON_BITS = 15, OF_TOLD = 16, WAS_BEYOND = 32, WENT_ROUND = 64 };

typedef struct {
    int32_t value;
    uint8_t entry;
    uint8_t role;
    uint8_t channel;
    uint8_t what;
#if SNAG_WINDOWS > 0
    uint8_t window; /* ticks; 0 for none */
    uint8_t next;   /* as of a delay */
    uint16_t from;
#endif
} term;

#if SNAG_POINTS > 0
typedef struct {
    uint32_t ticks;
    int32_t value;
    uint8_t entry;
} point;
#endif

#if SNAG_GUARDS > 0
/* Marks of a guard. */
enum { STALLED = 1, WAY_BACK = 2 };

typedef struct {
    int32_t a;
    int32_t b;
    int32_t time;
    union {
        uint32_t stalled_since;
        int32_t way_back_from;
    } of;
    uint8_t kind;
    uint8_t channel;
    uint8_t command;
    uint8_t window;
    uint8_t kept; /* row of the kept readings */
    uint8_t marks;
} guard;
#endif

typedef struct {
    uint32_t tick;
    uint32_t micros;
    int32_t b;
    uint8_t a; /* of every kind of event a number below 256 */
    uint8_t kind;
} event;

#if SNAG_WITH_PERIODS
typedef struct {
    int32_t least_told;
    int32_t greatest_told;
    int32_t least_real;
    int32_t greatest_real;
} span;
#endif

/* An answer to a request: what it takes to write it, also again. */
typedef struct {
    uint32_t session;
    uint32_t number;
    int32_t word; /* of an item: its index */
    uint32_t tick;
    uint32_t micros;
    uint8_t type; /* of the message; 0 for none */
    uint8_t code;
} answer;

static struct {
    const snag_rig *rig;
    uint32_t boot;
    uint32_t digest;
    uint16_t items;
    uint8_t channels; /* 0 while the probe is off */
    uint8_t cause;

    uint32_t tick;
    uint32_t micros;
    bool ticked;
    bool in_tick;

    reading readings[SNAG_CHANNELS];

    /* the line in */
    uint8_t in[SNAG_FRAME - 2];
    uint16_t in_promised;
    uint8_t in_length;
    uint8_t in_run_end;
    bool in_zero_pending;
    bool in_too_long;
    uint32_t bad_frames;

    /* the line out: frames that wait, and the one being written behind them */
    uint8_t out[SNAG_OUT];
    uint16_t out_from;
    uint16_t out_to;
    uint16_t writing;
    uint16_t limit;
    bool full;

    /* session */
    uint32_t session;
    uint32_t last_number;
    uint32_t let_go_number;
    uint32_t command_number;
    bool letting_go;
    bool commanding;
    bool is_open;
    bool greets;
    bool answer_waits;
    answer kept;
    answer aside;
    uint8_t code; /* what came of the request at hand */
    int32_t word;

    /* lease */
    bool leased;
    uint32_t lease_until;

    /* stop */
    bool stopping;
    bool latched;
    bool in_hand; /* the control code has had a tick for it: what it said before was of another stop */
    bool stands;
    uint8_t stop_reason;
    uint8_t latch_reason;

    /* commands outside a program */
    uint8_t commanded;
    int32_t commanded_value;

    /* answers of fail-safes */
    uint8_t answered[SNAG_HIGHEST_FAIL_SAFE / 8 + 1];
    uint32_t answer_count;
    uint32_t answers_of[SNAG_HIGHEST_FAIL_SAFE]; /* from number 1 on */

    /* events */
    event events[SNAG_RING];
    uint8_t newest_at;
    uint32_t newest;
    uint32_t seen;
    uint32_t sent;
    uint32_t armed_after;
    bool lost;

    /* program */
    slot slots[SNAG_SLOTS];
    term terms[SNAG_TERMS];
#if SNAG_TIMINGS > 0
    timing timings[SNAG_TIMINGS];
    uint8_t timing_count;
#endif
#if SNAG_POINTS > 0
    point points[SNAG_POINTS];
    uint16_t point_count;
#endif
#if SNAG_WITH_DELAY
    int32_t history[SNAG_HISTORY];
    uint16_t history_taken;
#endif
#if SNAG_WINDOWS > 0
    int32_t windows[SNAG_WINDOWS];
    uint16_t windows_taken;
#endif
    uint8_t slot_count;
    uint8_t term_count;
    bool armed;
    bool ended;
    uint8_t active_count;
    uint32_t armed_micros;
    uint32_t program_digest;

    /* guards */
    uint8_t guard_count;
    uint32_t guard_digest;
#if SNAG_GUARDS > 0
    guard guards[SNAG_GUARDS];
#if SNAG_KEPT > 0
    uint8_t kept_channels[SNAG_KEPT];
    int32_t kept_readings[SNAG_KEPT][SNAG_WINDOW];
    uint8_t kept_at;
    uint8_t kept_ticks;
#endif
#endif

    /* records */
    uint8_t watched[SNAG_WATCHED];
    uint8_t watched_count;
    uint16_t period;
    uint32_t dropped;
#if SNAG_WITH_PERIODS
    span spans[SNAG_WATCHED];
    uint16_t period_ticks;
    int32_t shortest_loop;
    int32_t longest_loop;
#endif
} s;

/* ---- small helpers ---- */

static uint8_t rom8(const void *from) {
#ifdef __AVR__
    return pgm_read_byte(from);
#else
    return *(const uint8_t *)from;
#endif
}

static int32_t rom32(const int32_t *from) {
#ifdef __AVR__
    return (int32_t)pgm_read_dword(from);
#else
    return *from;
#endif
}

static uint16_t rom16(const void *from) {
#ifdef __AVR__
    return pgm_read_word(from);
#else
    uint16_t value;
    memcpy(&value, from, sizeof value);
    return value;
#endif
}

/* The bits as a signed number; C99 leaves the plain cast to the compiler. */
static int32_t as_signed(uint32_t bits) {
    int32_t value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

/* From an earlier time to a later one, modulo 2^32; negative where it is the other way round. */
static APART int32_t since(uint32_t then, uint32_t now) {
    return as_signed(now - then);
}

static APART int32_t within(int32_t value, int32_t least, int32_t most) {
    return value < least ? least : value > most ? most : value;
}

/* |x - y|, exact. */
static APART uint32_t distance(int32_t x, int32_t y) {
    return x >= y ? (uint32_t)x - (uint32_t)y : (uint32_t)y - (uint32_t)x;
}

/* From a time to the start of this tick. */
static APART int32_t ago(const uint32_t *then) {
    return since(*then, s.micros);
}

/* Whether a distance is beyond a limit, which may be negative. */
static APART bool is_beyond(uint32_t far, int32_t limit) {
    return limit < 0 || far > (uint32_t)limit;
}

static uint8_t kind_of(uint8_t channel) {
    return rom8(&s.rig->channels[channel].kind);
}

static bool has_flag(uint8_t channel, uint8_t flag) {
    return (rom8(&s.rig->channels[channel].flags) & flag) != 0;
}

/* Whether a fail-safe can have that number. */
static bool is_fail_safe(uint8_t number) {
#if SNAG_HIGHEST_FAIL_SAFE < 255
    return number > 0 && number <= SNAG_HIGHEST_FAIL_SAFE;
#else
    return number > 0;
#endif
}

/* ---- checksum: CRC-32/ISO-HDLC ---- */

#if SNAG_CRC_TABLE == 16
static const uint32_t crc_table[16] SNAG_ROM = {
    0x00000000u, 0x1DB71064u, 0x3B6E20C8u, 0x26D930ACu, 0x76DC4190u, 0x6B6B51F4u, 0x4DB26158u, 0x5005713Cu,
    0xEDB88320u, 0xF00F9344u, 0xD6D6A3E8u, 0xCB61B38Cu, 0x9B64C2B0u, 0x86D3D2D4u, 0xA00AE278u, 0xBDBDF21Cu};
#elif SNAG_CRC_TABLE == 256
static const uint32_t crc_table[256] SNAG_ROM = {
#include "snag_crc_table.inc"
};
#endif

/* Goes on from the checksum of what came before, 0 for nothing. */
static uint32_t crc_over(uint32_t crc, const uint8_t *bytes, uint16_t count) {
    crc = ~crc;
    while (count-- > 0) {
#if SNAG_CRC_TABLE == 0
        crc ^= *bytes++;
        for (uint8_t bit = 0; bit < 8; bit++) {
            crc = (crc >> 1) ^ ((crc & 1u) != 0 ? 0xEDB88320u : 0u);
        }
#elif SNAG_CRC_TABLE == 16
        crc ^= *bytes++;
        crc = (crc >> 4) ^ (uint32_t)rom32((const int32_t *)&crc_table[crc & 15u]);
        crc = (crc >> 4) ^ (uint32_t)rom32((const int32_t *)&crc_table[crc & 15u]);
#else
        crc = (crc >> 8) ^ (uint32_t)rom32((const int32_t *)&crc_table[(crc ^ *bytes++) & 255u]);
#endif
    }
    return ~crc;
}

/* ---- frames in ---- */

static void in_clear(void) {
    s.in_promised = 0;
    s.in_length = 0;
    s.in_run_end = 0;
    s.in_zero_pending = false;
    s.in_too_long = false;
}

/* Undoes the byte stuffing as the bytes come. Decoding never gives more bytes than it takes, less one. */
static void in_unstuff(uint8_t next) {
    if (s.in_length < s.in_run_end) {
        s.in[s.in_length++] = next;
        return;
    }
    if (s.in_too_long) {
        return;
    }
    s.in_promised += next;
    /* Looked at before anything is written, so that this alone keeps within the buffer. */
    s.in_too_long = s.in_promised > SNAG_FRAME - 1;
    if (s.in_too_long) {
        return;
    }
    if (s.in_zero_pending) {
        s.in[s.in_length++] = 0;
    }
    s.in_run_end = (uint8_t)(s.in_length + next - 1);
    /* A run of 254 is longer than any frame here, so each stands for a zero behind it. */
    s.in_zero_pending = true;
}

/* Takes a byte; returns the length of the payload that came whole with it, 0 for none. */
static uint8_t in_take(uint8_t next) {
    uint8_t payload = 0;
    if (next != 0) {
        in_unstuff(next);
        return 0;
    }
    if (s.in_promised > 0) {
        bool whole = !s.in_too_long && s.in_length == s.in_run_end && s.in_length > CRC_BYTES;
        /* A register run over payload and checksum ends at this, whatever they are. */
        if (whole && crc_over(0, s.in, s.in_length) == 0x2144DF1Cu) {
            payload = (uint8_t)(s.in_length - CRC_BYTES);
        } else {
            s.bad_frames++;
        }
    }
    in_clear();
    return payload;
}

/* ---- CBOR in ---- */

/* What fails leaves nothing to be read; from then on all is 0. */
typedef struct {
    const uint8_t *at;
    const uint8_t *end;
    bool failed;
} reader;

static uint32_t read_failed(reader *in) {
    in->failed = true;
    in->at = in->end;
    return 0;
}

/* The head of the next item, in its shortest form: its argument, and its major type, 0xFF when failed. */
static uint32_t read_head(reader *in, uint8_t *major) {
    uint8_t additional;
    uint8_t bytes;
    uint32_t argument = 0;
    *major = NONE;
    if (in->at == in->end) {
        return read_failed(in);
    }
    additional = *in->at & 0x1F;
    if (additional < 24) {
        *major = *in->at++ >> 5;
        return additional;
    }
    if (additional > 26) {
        return read_failed(in);
    }
    bytes = (uint8_t)(1u << (additional - 24));
    if (in->end - in->at <= bytes) {
        return read_failed(in);
    }
    *major = *in->at++ >> 5;
    for (uint8_t i = 0; i < bytes; i++) {
        argument = argument << 8 | *in->at++;
    }
    if (argument < (bytes == 1 ? 24u : bytes == 2 ? 0x100u : 0x10000u)) {
        *major = NONE;
        return read_failed(in);
    }
    return argument;
}

static uint32_t read_u32(reader *in) {
    uint8_t major;
    uint32_t argument = read_head(in, &major);
    return major == 0 ? argument : read_failed(in);
}

static int32_t read_i32(reader *in) {
    uint8_t major;
    uint32_t argument = read_head(in, &major);
    if (major > 1 || argument > INT32_MAX) {
        return (int32_t)read_failed(in);
    }
    return major == 0 ? (int32_t)argument : -1 - (int32_t)argument;
}

static bool read_all(const reader *in) {
    return !in->failed && in->at == in->end;
}

/* ---- frames out ---- */

/* Starts a frame behind those that wait. What does not fit is found out at its end. */
static void write_begin(void) {
    uint16_t free_to;
    if (s.out_from > 0) {
        s.out_to = (uint16_t)(s.out_to - s.out_from);
        memmove(s.out, s.out + s.out_from, s.out_to);
        s.out_from = 0;
    }
    free_to = SNAG_OUT - s.out_to < SNAG_FRAME ? SNAG_OUT : (uint16_t)(s.out_to + SNAG_FRAME);
    s.full = free_to - s.out_to < CRC_BYTES + 2;
    /* One byte in front for the stuffing, the checksum and the delimiter behind. */
    s.writing = (uint16_t)(s.out_to + 1);
    s.limit = s.full ? s.writing : (uint16_t)(free_to - CRC_BYTES - 1);
}

static void write_byte(uint8_t byte) {
    if (s.writing >= s.limit) {
        s.full = true;
    } else {
        s.out[s.writing++] = byte;
    }
}

static void write_head(uint8_t major, uint32_t argument) {
    uint8_t type = (uint8_t)(major << 5);
    uint8_t bytes = argument < 24 ? 0 : argument <= 0xFF ? 1 : argument <= 0xFFFF ? 2 : 4;
    if (bytes == 0) {
        write_byte((uint8_t)(type | argument));
        return;
    }
    write_byte((uint8_t)(type | (bytes == 1 ? 24 : bytes == 2 ? 25 : 26)));
    while (bytes-- > 0) {
        write_byte((uint8_t)(argument >> (8 * bytes)));
    }
}

static void write_array(uint8_t items) {
    write_head(4, items);
}

static void write_u32(uint32_t value) {
    write_head(0, value);
}

/* By address: on 8-bit parts a quarter of the flash of a value. */
static APART void write_at(const uint32_t *value) {
    write_head(0, *value);
}

static void write_i32(int32_t value) {
    if (value < 0) {
        write_head(1, ~(uint32_t)value);
    } else {
        write_head(0, (uint32_t)value);
    }
}

/* Closes the frame: checksum, stuffing, delimiter. False where it did not fit: nothing is on the way then. */
static bool write_end(void) {
    uint32_t crc;
    uint16_t code = s.out_to;
    if (s.full) {
        return false;
    }
    crc = crc_over(0, s.out + s.out_to + 1, (uint16_t)(s.writing - s.out_to - 1));
    for (uint8_t i = 0; i < CRC_BYTES; i++) {
        s.out[s.writing++] = (uint8_t)(crc >> (8 * i));
    }
    /* In place: fewer than 254 bytes, so that each zero becomes the length of the run behind it, and none is added. */
    for (uint16_t i = (uint16_t)(s.out_to + 1); i < s.writing; i++) {
        if (s.out[i] == 0) {
            s.out[code] = (uint8_t)(i - code);
            code = i;
        }
    }
    s.out[code] = (uint8_t)(s.writing - code);
    s.out[s.writing++] = 0;
    s.out_to = s.writing;
    return true;
}

/* Gives the line what it takes at once. */
static void out_flush(void) {
    if (s.out_to > s.out_from) {
        s.out_from = (uint16_t)(s.out_from + snag_port_put(s.out + s.out_from, (uint16_t)(s.out_to - s.out_from)));
    }
    if (s.out_from >= s.out_to) {
        s.out_from = 0;
        s.out_to = 0;
    }
}

/* ---- the description ---- */

static uint8_t rom_length(const char *text, uint8_t size) {
    uint8_t length = 0;
    while (length < size && rom8(text + length) != 0) {
        length++;
    }
    return length;
}

static void write_rom_text(const char *text, uint8_t size) {
    uint8_t length = rom_length(text, size);
    write_head(3, length);
    for (uint8_t i = 0; i < length; i++) {
        write_byte(rom8(text + i));
    }
}

/* Up to the item's kind; returns where its content begins. */
static uint16_t write_item_head(const answer *to, uint8_t kind, uint8_t figures) {
    uint16_t content;
    write_array((uint8_t)(5 + figures));
    write_u32(ITEM);
    write_at(&to->session);
    write_at(&to->number);
    write_i32(to->word);
    content = s.writing;
    write_u32(kind);
    return content;
}

static uint16_t write_value_name(const snag_value_name *name, const answer *to) {
    uint16_t content = write_item_head(to, ITEM_VALUE_NAME, 2);
    write_i32(rom32(&name->value));
    write_rom_text(name->name, SNAG_NAME_SIZE - 1);
    return content;
}

static uint16_t write_fail_safe(const snag_fail_safe *fail_safe, const answer *to) {
    uint16_t content = write_item_head(to, ITEM_FAIL_SAFE, 3);
    uint16_t inhibition = rom16(&fail_safe->inhibition);
    write_u32(rom8(&fail_safe->number));
    write_i32(inhibition < 0x8000 ? (int32_t)inhibition : -1);
    write_rom_text(fail_safe->name, SNAG_NAME_SIZE - 1);
    return content;
}

static uint16_t write_channel(const snag_channel *channel, const answer *to) {
    uint16_t content = write_item_head(to, ITEM_CHANNEL, 4);
    write_u32(rom8(&channel->kind));
    write_u32(rom8(&channel->flags));
    write_rom_text(channel->name, SNAG_NAME_SIZE - 1);
    write_rom_text(channel->unit, SNAG_UNIT_SIZE - 1);
    return content;
}

static uint16_t write_range(const snag_channel *channel, const answer *to) {
    uint16_t content = write_item_head(to, ITEM_RANGE, 5);
    uint8_t exponent = rom8(&channel->exponent);
    write_u32(rom16(&channel->multiplier));
    write_i32(exponent < 0x80 ? exponent : (int32_t)exponent - 0x100);
    write_i32(rom32(&channel->lowest));
    write_i32(rom32(&channel->highest));
    write_i32(rom32(&channel->absent));
    return content;
}

/*
 * Writes the item with that index into the frame that was begun: for each channel itself, its range, the names of its
 * values; then the fail-safes. Returns where its content begins; 0 where there is no such item.
 */
static uint16_t write_item(const answer *to) {
    const snag_rig *rig = s.rig;
    uint16_t left = (uint16_t)to->word;
    uint16_t name = 0;
    for (uint8_t c = 0; c < rig->channel_count; c++) {
        uint16_t first = name;
        while (name < rig->value_name_count && rom8(&rig->value_names[name].channel) == c) {
            name++;
        }
        if (left == 0) {
            return write_channel(&rig->channels[c], to);
        }
        if (left == 1) {
            return write_range(&rig->channels[c], to);
        }
        left = (uint16_t)(left - 2);
        if (left < name - first) {
            return write_value_name(&rig->value_names[first + left], to);
        }
        left = (uint16_t)(left - (name - first));
    }
    if (left < rig->fail_safe_count) {
        return write_fail_safe(&rig->fail_safes[left], to);
    }
    return 0;
}

static void write_hello(const answer *to) {
    const char *build = s.rig->build;
    uint8_t length = 0;
    while (length < 12 && build[length] != 0) {
        length++;
    }
    write_array(20);
    write_u32(HELLO);
    write_at(&to->session);
    write_at(&to->number);
    write_u32(VERSION);
    write_at(&s.boot);
    write_u32(s.cause);
    write_u32(s.rig->real ? 1 : 0);
    write_at(&s.digest);
    write_u32(s.items);
    write_u32(s.channels);
    write_u32(s.rig->tick_micros);
    write_u32(SNAG_SLOTS);
    write_u32(SNAG_TERMS);
    write_u32(SNAG_POINTS);
    write_u32(SNAG_GUARDS);
    write_u32(SNAG_RING);
    write_u32(SNAG_FRAME);
    write_u32(KINDS);
    write_u32(SNAG_WITH_DELAY ? SNAG_HISTORY : 0);
    write_head(3, length);
    for (uint8_t i = 0; i < length; i++) {
        write_byte((uint8_t)build[i]);
    }
}

/* Goes over all items once: how many there are, their digest, and whether each fits a frame. */
static bool describe(const snag_rig *rig) {
    answer longest;
    uint32_t items = 2u * rig->channel_count + rig->value_name_count + rig->fail_safe_count;
    if (items > UINT16_MAX) {
        return false;
    }
    s.items = (uint16_t)items;
    longest.session = UINT32_MAX;
    longest.number = UINT16_MAX;
    for (uint16_t i = 0; i < s.items; i++) {
        uint16_t content;
        write_begin();
        longest.word = i;
        content = write_item(&longest);
        /* A table of names that is not sorted by channel leaves some out. */
        if (content == 0 || s.full) {
            return false;
        }
        s.digest = crc_over(s.digest, s.out + content, (uint16_t)(s.writing - content));
    }
    for (uint8_t i = 0; i < rig->fail_safe_count; i++) {
        uint8_t number = rom8(&rig->fail_safes[i].number);
        if (!is_fail_safe(number)) {
            return false;
        }
    }
    write_begin();
    longest.number = 1;
    write_hello(&longest);
    return !s.full;
}

/* ---- events ---- */

static APART void event_add(uint8_t kind, uint8_t a, int32_t b) {
    event *added;
    s.newest++;
    s.newest_at = s.newest_at + 1 == SNAG_RING ? 0 : (uint8_t)(s.newest_at + 1);
    added = &s.events[s.newest_at];
    added->tick = s.tick;
    added->micros = s.micros;
    added->kind = kind;
    added->a = a;
    added->b = b;
    if (s.newest - s.seen > SNAG_RING) {
        s.seen = s.newest - SNAG_RING;
        if (since(s.seen, s.sent) < 0) {
            s.sent = s.seen;
        }
        if (since(s.armed_after, s.seen) > 0) {
            s.lost = true;
        }
    }
}

/* The bench has seen all up to a number; what it has not is sent again. */
static void events_seen(uint32_t number) {
    if (since(s.seen, number) > 0 && since(number, s.newest) >= 0) {
        s.seen = number;
    }
    s.sent = s.seen;
}

/* From now on nothing older is owed, or its loss counted. */
static void events_start(bool forget) {
    if (forget) {
        s.seen = s.newest;
        s.sent = s.newest;
    }
    s.armed_after = s.newest;
    s.lost = false;
}

static bool event_send(void) {
    uint8_t back = (uint8_t)(s.newest - s.sent - 1);
    const event *next = &s.events[s.newest_at >= back ? s.newest_at - back : s.newest_at + SNAG_RING - back];
    write_begin();
    write_array(7);
    write_u32(EVENT);
    write_u32(s.sent + 1);
    write_at(&next->tick);
    write_at(&next->micros);
    write_u32(next->kind);
    write_u32(next->a);
    write_i32(next->b);
    return write_end();
}

/* ---- readings ---- */

static void set_reading(uint8_t channel, int32_t real, int32_t told, uint8_t marks) {
    reading *r = &s.readings[channel];
    r->real = real;
    r->told = told;
    r->marks = (uint8_t)((r->marks & FORCED_IN_PERIOD) | READ_NOW | marks);
}

/*
 * Values are 64 bits wide between entries. All that does not need the width is done in 32, since it is costly on small
 * parts, and >> of a negative number is not portable C99.
 */

/* Since the entry became active, at most 2^31 - 1. */
static APART int32_t elapsed(const slot *e) {
    int32_t micros = ago(&e->on_micros);
    return micros < 0 ? INT32_MAX : micros;
}

static APART int32_t clamp(const int64_t *value, int32_t least, int32_t most) {
    return *value < least ? least : *value > most ? most : (int32_t)*value;
}

#if SNAG_WITH_OFFSET || SNAG_WITH_DRIFT || SNAG_WITH_SPIKE || SNAG_WITH_NOISE
static APART void add(int64_t *value, int32_t x) {
    *value += x;
}
#endif

#if SNAG_WITH_OFFSET || SNAG_WITH_DRIFT
/* floor(rate * elapsed / 2^32), from products of halves. A negative rate is 2^32 less than its bits. */
static APART int32_t drifted(int32_t rate, const slot *e) {
    uint32_t micros = (uint32_t)elapsed(e);
    uint32_t bits = (uint32_t)rate;
    uint16_t low = (uint16_t)micros;
    uint16_t high = (uint16_t)(micros >> 16);
    uint32_t middle = (uint32_t)(uint16_t)(bits >> 16) * low + ((uint32_t)(uint16_t)bits * low >> 16);
    uint32_t other = (uint32_t)(uint16_t)bits * high + (uint16_t)middle;
    uint32_t product = (uint32_t)(uint16_t)(bits >> 16) * high + (middle >> 16) + (other >> 16);
    return as_signed(rate < 0 ? product - micros : product);
}
#endif

#if SNAG_WITH_OFFSET
static int32_t ramped(const slot *e) {
    int32_t value;
    if (e->b == 0) {
        return e->a;
    }
    value = drifted(e->b, e);
    return e->a >= 0 ? (value > e->a ? e->a : value) : (value < e->a ? e->a : value);
}
#endif

#if SNAG_WITH_SCALE
static APART void scale(int64_t *value, int32_t factor) {
    int64_t product = (int64_t)clamp(value, INT32_MIN, INT32_MAX) * factor + 0x8000;
    *value = product >= 0 ? product >> 16 : ~(~product >> 16);
}
#endif

#if SNAG_WITH_NOISE
/* floor((a * g + 2^13) / 2^14), the part of a beyond 14 bits by itself. */
static APART int32_t noise(const slot *e) {
    uint32_t draw = e->of.draw;
    int16_t g = (int16_t)((uint8_t)draw + (uint8_t)(draw >> 8) + (uint8_t)(draw >> 16) + (uint8_t)(draw >> 24) - 510);
    int32_t low = e->a & 0x3FFF;
    int32_t high = (e->a - low) / 0x4000;
    int32_t rest = low * g + 0x2000;
    return high * g + (rest >= 0 ? rest >> 14 : ~(~rest >> 14));
}
#endif

#if SNAG_WITH_REPLAY
static void replay(int64_t *value, const slot *e) {
    uint8_t entry = (uint8_t)(e - s.slots);
    for (uint16_t i = 0; i < s.point_count; i++) {
        if (s.points[i].entry == entry && s.points[i].ticks <= e->of.ticks) {
            *value = s.points[i].value;
        }
    }
}
#endif

static void apply(int64_t *value, const slot *e) {
    switch (e->kind) {
    case STUCK_AT:
        *value = e->a;
        break;
#if SNAG_WITH_FREEZE
    case FREEZE:
        *value = e->of.frozen;
        break;
#endif
#if SNAG_WITH_OFFSET
    case OFFSET:
        add(value, ramped(e));
        break;
#endif
#if SNAG_WITH_SCALE
    case SCALE:
        scale(value, e->a);
        break;
#endif
#if SNAG_WITH_DRIFT
    case DRIFT:
        add(value, drifted(e->a, e));
        break;
#endif
#if SNAG_WITH_SPIKE
    case SPIKE:
        add(value, e->a);
        break;
#endif
#if SNAG_WITH_NOISE
    case NOISE:
        add(value, noise(e));
        break;
#endif
#if SNAG_WITH_DROPOUT
    case DROPOUT:
        *value = rom32(&s.rig->channels[e->channel].absent);
        break;
#endif
#if SNAG_WITH_DELAY
    case DELAY:
        *value = s.history[e->of.past.from + ((e->marks & ROUND) != 0 ? e->of.past.next : 0)];
        break;
#endif
#if SNAG_WITH_REPLAY
    case REPLAY:
        replay(value, e);
        break;
#endif
    default:
        break;
    }
}

/* What the channel is told under the active entries. Returns marks: 0 where no entry forces it now. */
static uint8_t force(uint8_t channel, int32_t real, int32_t *told) {
    int64_t value = real;
    uint8_t marks = 0;
    if (s.active_count == 0) {
        return 0;
    }
    for (const slot *e = s.slots; e < s.slots + s.slot_count; e++) {
        if (e->channel == channel && (e->flags & ACTIVE) != 0 && (e->marks & SHUT) == 0) {
            apply(&value, e);
            marks |= e->kind == DROPOUT ? FORCED | ABSENT : FORCED;
        }
    }
    if (marks != 0) {
        *told = clamp(&value, rom32(&s.rig->channels[channel].lowest), rom32(&s.rig->channels[channel].highest));
    }
    return marks;
}

int32_t snag_read(uint8_t channel, int32_t real) {
    int32_t told = real;
    uint8_t marks = 0;
    uint8_t kind;
    if (channel >= s.channels) {
        return real;
    }
    if ((s.readings[channel].marks & READ_NOW) != 0) {
        return s.readings[channel].told;
    }
    kind = kind_of(channel);
    /* Actuators go by snag_drive(); and while the rig stops, no command may set it going. */
    if (kind != SNAG_ACTUATOR && (kind != SNAG_COMMAND || !s.stopping)) {
        marks = force(channel, real, &told);
    }
    if (marks == 0 && s.commanded == channel) {
        told = s.commanded_value;
        marks = FORCED;
    }
    set_reading(channel, real, told, marks);
    return told;
}

int32_t snag_drive(uint8_t channel, int32_t wanted) {
    int32_t told = wanted;
    uint8_t marks = 0;
    if (channel >= s.channels) {
        return wanted;
    }
    if ((s.readings[channel].marks & READ_NOW) != 0) {
        return s.readings[channel].told;
    }
    if (snag_may_move() && force(channel, wanted, &told) != 0) {
        marks = FORCED;
        told = wanted >= 0 ? within(told, 0, wanted) : within(told, wanted, 0);
    }
    set_reading(channel, wanted, told, marks);
    return told;
}

void snag_report(uint8_t channel, int32_t value) {
    bool changed;
    if (channel >= s.channels) {
        return;
    }
    changed = s.readings[channel].told != value;
    set_reading(channel, value, value, 0);
    if (changed && kind_of(channel) == SNAG_STATE) {
        event_add(STATE, channel, value);
    }
}

void snag_answered(uint8_t fail_safe) {
    if (s.channels == 0 || !is_fail_safe(fail_safe)) {
        return;
    }
    s.answered[fail_safe >> 3] |= (uint8_t)(1u << (fail_safe & 7));
    s.answer_count++;
    s.answers_of[fail_safe - 1]++;
    event_add(ANSWERED, fail_safe, as_signed(s.answers_of[fail_safe - 1]));
    set_reading(0, fail_safe, fail_safe, 0);
}

/* ---- the program ---- */

static void program_clear(void) {
    s.slot_count = 0;
    s.term_count = 0;
#if SNAG_TIMINGS > 0
    s.timing_count = 0;
#endif
#if SNAG_POINTS > 0
    s.point_count = 0;
#endif
#if SNAG_WITH_DELAY
    s.history_taken = 0;
#endif
#if SNAG_WINDOWS > 0
    s.windows_taken = 0;
#endif
    s.active_count = 0;
    s.armed = false;
    s.ended = false;
    s.program_digest = 0;
}

static bool is_active(const slot *e) {
    return (e->flags & ACTIVE) != 0;
}

static void program_arm(uint32_t seed) {
    for (uint8_t i = 0; i < s.slot_count; i++) {
        slot *e = &s.slots[i];
        /* What must come about anew did not, if it holds from the first tick on. */
        e->marks = (e->flags & ANEW) != 0 ? OCCASION : 0;
        e->flags &= (uint8_t)~ACTIVE;
        e->decided_end = NOT_ENDED;
        e->ended_why = NOT_ENDED;
        e->strikes = 0;
#if SNAG_WITH_NOISE
        if (e->kind == NOISE) {
            uint32_t draw = seed + i * 0x9E3779B9u;
            e->of.draw = draw == 0 ? 1 : draw;
        }
#endif
#if SNAG_WITH_DELAY
        if (e->kind == DELAY) {
            e->of.past.next = 0;
        }
#endif
    }
    (void)seed;
#if SNAG_TIMINGS > 0
    for (uint8_t i = 0; i < s.timing_count; i++) {
        s.timings[i].occasions = 0;
    }
#endif
    for (uint8_t i = 0; i < s.term_count; i++) {
        s.terms[i].what &= (uint8_t)~(WAS_BEYOND | WENT_ROUND);
#if SNAG_WINDOWS > 0
        s.terms[i].next = 0;
#endif
    }
    s.armed_micros = s.micros;
    s.active_count = 0;
    s.armed = true;
    s.ended = false;
}

/* What ends an active entry at the start of a tick: what was decided at the end of the one before, or its own time. */
static uint8_t end_of(const slot *e) {
    if (e->decided_end != NOT_ENDED) {
        return e->decided_end;
    }
    if ((e->flags & ONE_TICK) != 0 || (e->lasts != 0 && elapsed(e) >= e->lasts)) {
        return LASTED;
    }
    return e->leader == NONE ? (uint8_t)NOT_ENDED : s.slots[e->leader].ended_why;
}

/* Whatever an active entry does by itself in each tick, also while a stop runs. */
static void entry_goes_on(slot *e, bool begins) {
#if SNAG_WITH_INTERMITTENT
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (begins) {
            t->edge = s.micros + t->on_micros;
        } else if (t->on_micros != 0 && ago(&t->edge) >= 0) {
            e->marks ^= SHUT;
            t->edge += (e->marks & SHUT) != 0 ? t->off_micros : t->on_micros;
        }
    }
#endif
#if SNAG_WITH_NOISE
    if (e->kind == NOISE) {
        uint32_t x = e->of.draw;
        x ^= x << 13;
        x ^= x >> 17;
        x ^= x << 5;
        e->of.draw = x;
    }
#endif
#if SNAG_WITH_REPLAY
    if (e->kind == REPLAY) {
        e->of.ticks = begins ? 0 : e->of.ticks + 1;
    }
#endif
    (void)e;
    (void)begins;
}

static void program_begin_tick(void) {
    for (uint8_t i = 0; i < s.slot_count; i++) {
        slot *e = &s.slots[i];
        bool begins = false;
        if (!s.stopping) {
            if (is_active(e)) {
                uint8_t end = end_of(e);
                if (end != NOT_ENDED) {
                    e->flags &= (uint8_t)~ACTIVE;
                    s.active_count--;
                    e->decided_end = NOT_ENDED;
                    e->ended_why = end;
                    event_add(ENTRY_OFF, i, end);
                }
            }
            if ((e->marks & STRUCK) != 0) {
                e->marks &= (uint8_t)~(STRUCK | SHUT);
                e->strikes++;
                e->on_micros = s.micros;
                e->ended_why = NOT_ENDED;
                e->flags |= ACTIVE;
                s.active_count++;
                event_add(ENTRY_ON, i, as_signed(e->strikes));
                begins = true;
            }
        }
        if (is_active(e)) {
            entry_goes_on(e, begins);
        }
    }
}

/* Ends everything at once, when the safe stop is done. */
static void program_release(void) {
    for (uint8_t i = 0; i < s.slot_count; i++) {
        if (is_active(&s.slots[i])) {
            event_add(ENTRY_OFF, i, RELEASED);
        }
    }
    program_clear();
}

#if SNAG_WINDOWS > 0
/* Puts the value of this tick into a term's window and gives that of so many ticks ago; false where there is none. */
static bool window_turn(term *t, int32_t now, int32_t *then) {
    int32_t *cell = &s.windows[t->from + t->next];
    bool reaches = (t->what & WENT_ROUND) != 0;
    *then = *cell;
    *cell = now;
    t->next++;
    if (t->next == t->window) {
        t->next = 0;
        t->what |= WENT_ROUND;
    }
    return reaches;
}
#endif

static bool edge(term *t, bool reached, bool beyond) {
    bool holds = reached && (t->what & WAS_BEYOND) != 0;
    t->what = (uint8_t)(beyond ? t->what | WAS_BEYOND : t->what & ~WAS_BEYOND);
    return holds;
}

static bool term_holds(term *t) {
    uint8_t comparison = t->what & COMPARISON_BITS;
    const reading *r;
    int32_t now;
    int32_t value = t->value;
    if (comparison == HAS_ANSWERED) {
        return is_fail_safe((uint8_t)value) && (s.answered[value >> 3] >> (value & 7) & 1) != 0;
    }
    r = &s.readings[t->channel];
    now = (t->what & OF_TOLD) != 0 ? r->told : r->real;
    switch (comparison) {
    case AT_LEAST:
        return now >= value;
    case ABOVE:
        return now > value;
    case AT_MOST:
        return now <= value;
    case BELOW:
        return now < value;
    case IS:
        return now == value;
    case IS_NOT:
        return now != value;
    case RISES_TO:
        return edge(t, now >= value, now < value);
    case FALLS_TO:
        return edge(t, now <= value, now > value);
    case AGREES:
        return !is_beyond(distance(r->told, r->real), value);
#if SNAG_WINDOWS > 0
    case FASTER_THAN:
    case SLOWER_THAN: {
        int32_t then;
        if (!window_turn(t, now, &then)) {
            return false;
        }
        if (comparison == FASTER_THAN) {
            return is_beyond(distance(now, then), value);
        }
        return value > 0 && distance(now, then) < (uint32_t)value;
    }
#endif
    default:
        return false;
    }
}

static void look_at_terms(void) {
    for (uint8_t i = 0; i < s.slot_count; i++) {
        s.slots[i].conditions &= HAS_UNTIL;
    }
    for (uint8_t i = 0; i < s.term_count; i++) {
        term *t = &s.terms[i];
        if (!term_holds(t)) {
            s.slots[t->entry].conditions |= (uint8_t)(WHEN_FAILS << t->role);
        }
    }
}

/* What ends an active entry with the next tick; a follower ends with its leader, which stands before it. */
static uint8_t decide_end(const slot *e) {
    if (e->leader != NONE) {
        return s.slots[e->leader].decided_end;
    }
    if ((e->conditions & (HAS_UNTIL | UNTIL_FAILS)) == HAS_UNTIL) {
        return ENDED_UNTIL;
    }
    return (e->conditions & WHILE_FAILS) != 0 ? ENDED_WHILE : NOT_ENDED;
}

static void strike(slot *e) {
    e->marks |= STRUCK;
#if SNAG_WITH_FREEZE
    if (e->kind == FREEZE) {
        e->of.frozen = s.readings[e->channel].real;
    }
#endif
}

static void finish(slot *e) {
    e->marks |= DONE | DONE_NOW;
    e->done_micros = s.micros;
    event_add(STAGE_DONE, (uint8_t)(e - s.slots), 0);
}

/* Enabled from the tick after the one in which the stage that it hangs on was done, or from that one on. */
static bool is_enabled(const slot *e) {
    uint8_t wanted = (e->flags & SAME_TICK) != 0 ? DONE : DONE | DONE_NOW;
    if (e->kind == WAIT && (e->marks & DONE) != 0) {
        return false;
    }
    return e->after == NONE || (s.slots[e->after].marks & wanted) == DONE;
}

/* A wait has its limit in `lasts`: what comes about later, even in this tick, came too late. */
static bool is_overdue(const slot *e) {
    const uint32_t *enabled = e->after == NONE ? &s.armed_micros : &s.slots[e->after].done_micros;
    return e->kind == WAIT && e->lasts != 0 && ago(enabled) > e->lasts;
}

/* Takes the truth of the condition at the end of a tick; true if it is an occasion. */
static bool rises(slot *e, bool holds) {
    bool occasion = holds;
    bool before = (e->marks & OCCASION) != 0;
#if SNAG_TIMINGS > 0
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (holds && (e->marks & HELD) == 0) {
            t->held_since = s.micros;
        }
        occasion = holds && (before || ago(&t->held_since) >= t->for_micros);
    }
#endif
    e->marks &= (uint8_t)~(HELD | OCCASION);
    e->marks |= (uint8_t)((holds ? HELD : 0) | (occasion ? OCCASION : 0));
    return occasion && !before;
}

/* True if the entry strikes with it. Without a timing the first occasion strikes, once. */
static bool strikes_now(slot *e, bool holds) {
    bool occasion = rises(e, holds);
#if SNAG_TIMINGS > 0
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (occasion) {
            bool may_strike = !is_active(e) && (t->times == 0 || e->strikes < t->times);
            t->occasions++;
            if (may_strike && (e->marks & DELAYING) == 0 && t->occasions >= t->occasion) {
                e->marks |= DELAYING;
                t->delayed_since = s.micros;
            }
        }
        if ((e->marks & DELAYING) != 0 && ago(&t->delayed_since) >= t->delay_micros) {
            e->marks &= (uint8_t)~DELAYING;
            return true;
        }
        return false;
    }
#endif
    return occasion && !is_active(e) && e->strikes == 0;
}

static void decide_start(uint8_t i) {
    slot *e = &s.slots[i];
    bool holds = (e->conditions & WHEN_FAILS) == 0;
    if (e->leader != NONE) {
        if ((s.slots[e->leader].marks & STRUCK) != 0) {
            strike(e);
        }
        return;
    }
    if ((e->flags & (ACTIVE | STAGE)) == (ACTIVE | STAGE) && (e->marks & DONE) == 0) {
        finish(e);
    }
    if (!is_enabled(e)) {
        if ((e->flags & ANEW) != 0) {
            (void)rises(e, holds);
        }
        return;
    }
    if (is_overdue(e)) {
        s.ended = true;
        for (uint8_t k = 0; k < s.slot_count; k++) {
            s.slots[k].marks &= (uint8_t)~STRUCK;
        }
        event_add(STAGE_TIMED_OUT, i, 0);
    } else if (strikes_now(e, holds)) {
        if (e->kind == WAIT) {
            finish(e);
        } else {
            strike(e);
        }
    }
}

static void program_end_tick(void) {
    look_at_terms();
    for (uint8_t i = 0; i < s.slot_count; i++) {
        slot *e = &s.slots[i];
        e->marks &= (uint8_t)~DONE_NOW;
        if (is_active(e)) {
            e->decided_end = decide_end(e);
        }
    }
    for (uint8_t i = 0; i < s.slot_count && !s.ended; i++) {
        decide_start(i);
    }
}

#if SNAG_WITH_DELAY
/* Keeps what the delays need of a tick, from tick 0 on and through a safe stop too. */
static void history_keep(void) {
    for (uint8_t i = 0; i < s.slot_count; i++) {
        slot *e = &s.slots[i];
        if (e->kind == DELAY) {
            s.history[e->of.past.from + e->of.past.next] = s.readings[e->channel].real;
            e->of.past.next++;
            if (e->of.past.next == e->a) {
                e->of.past.next = 0;
                e->marks |= ROUND;
            }
        }
    }
}
#endif

/* ---- guards ---- */

#if SNAG_GUARDS > 0
/* Row of the kept readings of a channel; NONE where it has none. */
static uint8_t row_of(uint8_t channel) {
#if SNAG_KEPT > 0
    for (uint8_t row = 0; row < SNAG_KEPT; row++) {
        if (s.kept_channels[row] == channel) {
            return row;
        }
    }
#endif
    (void)channel;
    return NONE;
}

static bool guard_beyond(const guard *g) {
    int32_t real = s.readings[g->channel].real;
    return real < g->a || real > g->b;
}

static bool trips_on_travel(guard *g) {
    int32_t real = s.readings[g->channel].real;
    if (!guard_beyond(g)) {
        g->marks &= (uint8_t)~WAY_BACK;
        return false;
    }
    if ((g->marks & WAY_BACK) == 0) {
        return true;
    }
    return real > g->b ? real > g->of.way_back_from : real < g->of.way_back_from;
}

#if SNAG_KEPT > 0
/* The change over a guard's window; false while that reaches further back than the readings. */
static bool guard_change(const guard *g, uint32_t *change) {
    uint8_t at;
    if (s.kept_ticks < g->window) {
        return false;
    }
    at = s.kept_at >= g->window ? (uint8_t)(s.kept_at - g->window) : (uint8_t)(s.kept_at + SNAG_WINDOW - g->window);
    *change = distance(s.readings[g->channel].real, s.kept_readings[g->kept][at]);
    return true;
}

static bool guard_stands(const guard *g) {
    const reading *r = &s.readings[g->command];
    /* What a drive was given, not what was wanted: a motor that is made weak does not push. */
    int32_t command = kind_of(g->command) == SNAG_ACTUATOR ? r->told : r->real;
    uint32_t change;
    return distance(command, 0) >= (uint32_t)g->a && guard_change(g, &change) && !is_beyond(change, g->b);
}
#endif

static bool guard_trips(guard *g) {
#if SNAG_KEPT > 0
    uint32_t change;
    if (g->kind == SPEED) {
        return guard_change(g, &change) && is_beyond(change, g->a);
    }
    if (g->kind == STALL) {
        /* In a safe stop the drives go past the probe, so that no stall can be told. */
        if (s.stopping || !guard_stands(g)) {
            g->marks &= (uint8_t)~STALLED;
            return false;
        }
        if ((g->marks & STALLED) == 0) {
            g->marks |= STALLED;
            g->of.stalled_since = s.micros;
        }
        return ago(&g->of.stalled_since) >= g->time;
    }
#endif
    return trips_on_travel(g);
}

/* The first guard that trips at the end of this tick; NONE for none. All are looked at, since some count time. */
static uint8_t guards_tripped(void) {
    uint8_t first = NONE;
    for (uint8_t i = s.guard_count; i > 0; i--) {
        if (guard_trips(&s.guards[i - 1])) {
            first = (uint8_t)(i - 1);
        }
    }
    return first;
}

/* After a latch is released, the machine may come back from beyond a limit of travel. */
static void guards_allow_way_back(void) {
    for (uint8_t i = 0; i < s.guard_count; i++) {
        guard *g = &s.guards[i];
        g->marks = 0;
        if (g->kind == TRAVEL && guard_beyond(g)) {
            g->marks = WAY_BACK;
            g->of.way_back_from = s.readings[g->channel].real;
        }
    }
}

/* No time from before arming counts; of a simulated plant, which is reset then, no reading either. */
static void guards_arm(void) {
    for (uint8_t i = 0; i < s.guard_count; i++) {
        s.guards[i].marks &= (uint8_t)~STALLED;
    }
#if SNAG_KEPT > 0
    if (!s.rig->real) {
        s.kept_ticks = 0;
    }
#endif
}

static bool guards_watch(uint8_t channel) {
    for (uint8_t i = 0; i < s.guard_count; i++) {
        if (s.guards[i].channel == channel) {
            return true;
        }
    }
    return false;
}

/* Rows for the channels that close a loop, then for the others, as far as there are rows. */
static void kept_start(void) {
#if SNAG_KEPT > 0
    uint8_t rows = 0;
    memset(s.kept_channels, NONE, sizeof s.kept_channels);
    for (uint8_t pass = 0; pass < 2; pass++) {
        for (uint8_t c = 0; c < s.channels && rows < SNAG_KEPT; c++) {
            if (has_flag(c, SNAG_CLOSES_LOOP) == (pass == 0)) {
                s.kept_channels[rows++] = c;
            }
        }
    }
#endif
}

static void kept_end_tick(void) {
#if SNAG_KEPT > 0
    for (uint8_t row = 0; row < SNAG_KEPT; row++) {
        if (s.kept_channels[row] != NONE) {
            s.kept_readings[row][s.kept_at] = s.readings[s.kept_channels[row]].real;
        }
    }
    s.kept_at = s.kept_at + 1 == SNAG_WINDOW ? 0 : (uint8_t)(s.kept_at + 1);
    if (s.kept_ticks < SNAG_WINDOW) {
        s.kept_ticks++;
    }
#endif
}
#endif

static void guards_clear(void) {
    s.guard_count = 0;
    s.guard_digest = 0;
}

/* ---- the safe stop ---- */

bool snag_may_move(void) {
    return !s.stopping && !s.latched;
}

/* Begins a stop, or makes the one that runs a graver one. */
static void stop_begin(uint8_t reason) {
    if (reason != SNAG_STOP_LET_GO && !(s.latched && s.latch_reason == SNAG_STOP_GUARD)) {
        s.latched = true;
        s.latch_reason = reason;
    }
    if (!s.stopping) {
        s.stopping = true;
        s.stop_reason = reason;
        snag_port_stop(reason);
        event_add(STOP, reason, 0);
    }
}

/* In their order of power. */
static void stop_if_needed(void) {
#if SNAG_GUARDS > 0
    if (!(s.latched && s.latch_reason == SNAG_STOP_GUARD)) {
        uint8_t tripped = guards_tripped();
        if (tripped != NONE) {
            event_add(GUARD_TRIPPED, tripped, s.readings[s.guards[tripped].channel].real);
            stop_begin(SNAG_STOP_GUARD);
        }
    }
#endif
    if (s.leased && ago(&s.lease_until) >= 0) {
        s.leased = false;
        event_add(LEASE, 0, 0);
        /* A bench that waits for the end of a stop cannot renew: that stop goes on under its own reason. */
        if (!s.stopping) {
            stop_begin(SNAG_STOP_LEASE);
        }
    }
    if (s.letting_go) {
        stop_begin(SNAG_STOP_LET_GO);
    }
}

/* ---- requests ---- */

typedef struct {
    int32_t type;
    uint32_t session;
    uint32_t boot;
    uint32_t number;
    int16_t fields; /* behind the header */
    const uint8_t *body;
} header;

static bool read_header(reader *in, header *h) {
    uint8_t major;
    uint32_t items = read_head(in, &major);
    if (major != 4 || items > (uint32_t)(in->end - in->at)) {
        return false;
    }
    h->fields = (int16_t)((int16_t)items - HEADER_FIELDS);
    h->type = read_i32(in);
    h->session = read_u32(in);
    h->boot = read_u32(in);
    h->number = read_u32(in);
    h->body = in->at;
    return !in->failed && h->fields >= 0;
}

static void done(int32_t word) {
    s.code = 0;
    s.word = word;
}

static void refused(uint8_t why, int32_t word) {
    s.code = why;
    s.word = word;
}

static void malformed(int16_t field) {
    refused(MALFORMED, field);
}

static void set_answer(answer *to, uint8_t type, uint32_t session, uint32_t number) {
    to->type = type;
    to->session = session;
    to->number = number;
    to->code = s.code;
    to->word = s.word;
    to->tick = s.tick;
    to->micros = s.micros;
}

/* Answers a request of the session with what came of it. That of the last one is kept, to be given again. */
static void answer_done(uint32_t number) {
    uint8_t type = s.code == 0 ? ACK : NO;
    if (number == s.last_number) {
        set_answer(&s.kept, type, s.session, number);
        s.answer_waits = true;
    } else {
        set_answer(&s.aside, type, s.session, number);
    }
}

/* Refuses what is no request of this session: the session's own last answer stays. */
static void refuse_aside(const header *h, uint8_t why, int32_t word) {
    refused(why, word);
    set_answer(&s.aside, NO, h->session, h->number);
}

static bool is_worked_on(uint32_t number) {
    return (s.letting_go && number == s.let_go_number) || (s.commanding && number == s.command_number);
}

/*
 * Reads all fields of a request: bit n of `unsigneds` for a u32, else an i32. Where they are not what the request has,
 * it is refused.
 */
static bool read_fields(reader *in, const header *h, uint8_t count, uint16_t unsigneds, int32_t *fields) {
    for (uint8_t i = 0; i < count; i++) {
        fields[i] = (unsigneds >> i & 1u) != 0 ? as_signed(read_u32(in)) : read_i32(in);
    }
    if (!read_all(in) || h->fields != count) {
        malformed(h->fields < count ? h->fields : count);
        return false;
    }
    return true;
}

/* For fields that are small where they are right: what is not becomes a number that is wrong everywhere. */
static APART int16_t narrow(int32_t field) {
    return field < -1 || field > INT16_MAX ? -2 : (int16_t)field;
}

static void narrow_all(const int32_t *fields, uint8_t count, int16_t *narrowed) {
    for (uint8_t i = 0; i < count; i++) {
        narrowed[i] = narrow(fields[i]);
    }
}

static bool is_channel(int16_t channel) {
    return channel >= 0 && channel < s.channels;
}

static bool is_loaded(int16_t entry) {
    return entry >= 0 && entry < s.slot_count;
}

/* -- entry -- */

enum { E_INDEX, E_KIND, E_CHANNEL, E_A, E_B, E_LEADER, E_AFTER, E_LASTS, E_FLAGS, E_FIELDS };

static bool may_lead(int16_t entry) {
    return is_loaded(entry) && s.slots[entry].kind != WAIT && s.slots[entry].leader == NONE;
}

static bool is_stage(int16_t entry) {
    return is_loaded(entry) && (s.slots[entry].flags & STAGE) != 0;
}

static bool flags_are_wrong(int16_t flags, bool waits, bool follows, int16_t after) {
    if (flags < 0 || flags > (ONE_TICK | STAGE | ANEW | SAME_TICK)) {
        return true;
    }
    return (waits && (flags & STAGE) == 0) || (follows && (flags & ~ONE_TICK) != 0) ||
           ((flags & SAME_TICK) != 0 && after < 0);
}

/* The first field that is wrong; -1 for none. */
static int8_t entry_wrong(const int32_t *f, const int16_t *n) {
    bool waits = n[E_KIND] == WAIT;
    bool follows = n[E_LEADER] >= 0;
    if (n[E_INDEX] != s.slot_count) {
        return E_INDEX;
    }
    if (waits ? n[E_CHANNEL] != -1 : !is_channel(n[E_CHANNEL])) {
        return E_CHANNEL;
    }
    if (n[E_KIND] == DELAY && f[E_A] < 1) {
        return E_A;
    }
    if (n[E_KIND] == OFFSET && f[E_B] != 0 && (f[E_A] < 0) != (f[E_B] < 0)) {
        return E_B;
    }
    if (n[E_LEADER] < -1 || (follows && (waits || !may_lead(n[E_LEADER])))) {
        return E_LEADER;
    }
    if (n[E_AFTER] < -1 || (n[E_AFTER] >= 0 && !is_stage(n[E_AFTER]))) {
        return E_AFTER;
    }
    if (f[E_LASTS] < 0) {
        return E_LASTS;
    }
    return flags_are_wrong(n[E_FLAGS], waits, follows, n[E_AFTER]) ? E_FLAGS : -1;
}

static bool may_force(const int32_t *f, const int16_t *n) {
    uint8_t channel = (uint8_t)n[E_CHANNEL];
    switch (kind_of(channel)) {
    case SNAG_STATE:
    case SNAG_COUNTER:
        return false;
    case SNAG_ACTUATOR:
        return has_flag(channel, SNAG_MAY_BE_WEAKENED) &&
               ((n[E_KIND] == STUCK_AT && f[E_A] == 0) || (n[E_KIND] == SCALE && f[E_A] >= 0 && f[E_A] <= 0x10000));
    default:
        return true;
    }
}

static void entry_load(const int32_t *f, const int16_t *n) {
    slot *e = &s.slots[s.slot_count++];
    memset(e, 0, sizeof *e);
    e->a = f[E_A];
    e->b = f[E_B];
    e->lasts = f[E_LASTS];
    /* Here -1 becomes NONE. */
    e->kind = (uint8_t)n[E_KIND];
    e->channel = (uint8_t)n[E_CHANNEL];
    e->leader = (uint8_t)n[E_LEADER];
    e->after = (uint8_t)n[E_AFTER];
    e->flags = (uint8_t)n[E_FLAGS];
    e->timing = NONE;
#if SNAG_WITH_DELAY
    if (e->kind == DELAY) {
        e->of.past.from = s.history_taken;
        s.history_taken = (uint16_t)(s.history_taken + e->a);
    }
#endif
    done(0);
}

static void entry_take(const int32_t *f) {
    int16_t n[E_FIELDS];
    int8_t wrong;
    narrow_all(f, E_FIELDS, n);
    if (n[E_KIND] < 0 || n[E_KIND] > REPLAY || ((uint16_t)KINDS >> n[E_KIND] & 1u) == 0) {
        refused(UNKNOWN_KIND, f[E_KIND]);
        return;
    }
    if (s.slot_count == SNAG_SLOTS) {
        refused(NO_ROOM, SNAG_SLOTS);
        return;
    }
    wrong = entry_wrong(f, n);
    if (wrong >= 0) {
        malformed(wrong);
    } else if (n[E_KIND] != WAIT && !may_force(f, n)) {
        refused(NOT_ALLOWED, n[E_CHANNEL]);
#if SNAG_WITH_DELAY
    } else if (n[E_KIND] == DELAY && f[E_A] > (int32_t)SNAG_HISTORY - s.history_taken) {
        refused(NO_ROOM, SNAG_HISTORY);
#endif
    } else {
        entry_load(f, n);
    }
}

/* -- timing -- */

enum { T_ENTRY, T_FOR, T_DELAY, T_ON, T_OFF, T_OCCASION, T_TIMES, T_FIELDS };

static int8_t timing_wrong(const int32_t *f, int16_t entry) {
    const slot *e;
    bool follows;
    if (!is_loaded(entry)) {
        return T_ENTRY;
    }
    e = &s.slots[entry];
    follows = e->leader != NONE;
    if (f[T_FOR] < 0 || (follows && f[T_FOR] != 0)) {
        return T_FOR;
    }
    if (f[T_DELAY] < 0 || (follows && f[T_DELAY] != 0)) {
        return T_DELAY;
    }
    if (f[T_ON] < 0 || (e->kind == WAIT && f[T_ON] != 0)) {
        return T_ON;
    }
    if (f[T_OFF] < 0 || (f[T_ON] == 0 && f[T_OFF] != 0)) {
        return T_OFF;
    }
    if (f[T_OCCASION] < 1 || (follows && f[T_OCCASION] != 1)) {
        return T_OCCASION;
    }
    return f[T_TIMES] < 0 || (follows && f[T_TIMES] != 1) ? T_TIMES : -1;
}

static void timing_take(const int32_t *f) {
    int16_t entry = narrow(f[T_ENTRY]);
    int8_t wrong = timing_wrong(f, entry);
    if (wrong >= 0) {
        malformed(wrong);
        return;
    }
    if (!SNAG_WITH_INTERMITTENT && f[T_ON] != 0) {
        refused(UNKNOWN_KIND, 0);
        return;
    }
#if SNAG_TIMINGS > 0
    {
        slot *e = &s.slots[entry];
        timing *t;
        if (e->timing == NONE) {
            if (s.timing_count == SNAG_TIMINGS) {
                refused(NO_ROOM, SNAG_TIMINGS);
                return;
            }
            e->timing = s.timing_count++;
        }
        t = &s.timings[e->timing];
        memset(t, 0, sizeof *t);
        t->for_micros = f[T_FOR];
        t->delay_micros = f[T_DELAY];
        t->occasion = (uint32_t)f[T_OCCASION];
        t->times = (uint32_t)f[T_TIMES];
#if SNAG_WITH_INTERMITTENT
        t->on_micros = (uint32_t)f[T_ON];
        t->off_micros = (uint32_t)f[T_OFF];
#endif
        done(0);
    }
#else
    refused(NO_ROOM, 0);
#endif
}

/* -- term -- */

enum { C_ENTRY, C_ROLE, C_CHANNEL, C_SOURCE, C_COMPARISON, C_VALUE, C_WINDOW, C_FIELDS };

static bool is_windowed(int16_t comparison) {
    return comparison == FASTER_THAN || comparison == SLOWER_THAN;
}

static int8_t term_wrong(const int32_t *f, const int16_t *n) {
    int16_t comparison = n[C_COMPARISON];
    if (!is_loaded(n[C_ENTRY]) || s.slots[n[C_ENTRY]].leader != NONE) {
        return C_ENTRY;
    }
    if (comparison == HAS_ANSWERED ? n[C_CHANNEL] != -1 : !is_channel(n[C_CHANNEL])) {
        return C_CHANNEL;
    }
    if (n[C_SOURCE] != 0 && (n[C_SOURCE] != 1 || comparison == AGREES)) {
        return C_SOURCE;
    }
    if ((comparison == HAS_ANSWERED && (n[C_VALUE] < 1 || n[C_VALUE] > 255)) ||
        (comparison == AGREES && f[C_VALUE] < 0)) {
        return C_VALUE;
    }
    return is_windowed(comparison) && (n[C_WINDOW] < 1 || n[C_WINDOW] > SNAG_WINDOW) ? C_WINDOW : -1;
}

static void term_take(const int32_t *f) {
    int16_t n[C_FIELDS];
    int8_t wrong;
    term *t;
    narrow_all(f, C_FIELDS, n);
    if (n[C_COMPARISON] < 0 || n[C_COMPARISON] > AGREES || (SNAG_WINDOWS == 0 && is_windowed(n[C_COMPARISON]))) {
        refused(UNKNOWN_KIND, f[C_COMPARISON]);
        return;
    }
    if (n[C_ROLE] < 0 || n[C_ROLE] > UNTIL) {
        refused(UNKNOWN_KIND, f[C_ROLE]);
        return;
    }
    if (s.term_count == SNAG_TERMS) {
        refused(NO_ROOM, SNAG_TERMS);
        return;
    }
    wrong = term_wrong(f, n);
    if (wrong >= 0) {
        malformed(wrong);
        return;
    }
#if SNAG_WINDOWS > 0
    if (is_windowed(n[C_COMPARISON]) && n[C_WINDOW] > (int32_t)SNAG_WINDOWS - s.windows_taken) {
        refused(NO_ROOM, SNAG_WINDOWS);
        return;
    }
#endif
    if (n[C_ROLE] == UNTIL) {
        s.slots[n[C_ENTRY]].conditions |= HAS_UNTIL;
    }
    t = &s.terms[s.term_count++];
    t->value = f[C_VALUE];
    t->entry = (uint8_t)n[C_ENTRY];
    t->role = (uint8_t)n[C_ROLE];
    t->channel = (uint8_t)n[C_CHANNEL];
    t->what = (uint8_t)(n[C_COMPARISON] | (n[C_SOURCE] != 0 ? OF_TOLD : 0));
#if SNAG_WINDOWS > 0
    t->window = 0;
    if (is_windowed(n[C_COMPARISON])) {
        t->window = (uint8_t)n[C_WINDOW];
        t->from = s.windows_taken;
        s.windows_taken = (uint16_t)(s.windows_taken + t->window);
    }
#endif
    done(0);
}

/* -- point -- */

enum { P_ENTRY, P_TICKS, P_VALUE, P_FIELDS };

static void point_take(const int32_t *f) {
#if SNAG_WITH_REPLAY
    int16_t entry = narrow(f[P_ENTRY]);
    int32_t last = -1;
    if (s.point_count == SNAG_POINTS) {
        refused(NO_ROOM, SNAG_POINTS);
        return;
    }
    if (!is_loaded(entry) || s.slots[entry].kind != REPLAY) {
        malformed(P_ENTRY);
        return;
    }
    for (uint16_t i = 0; i < s.point_count; i++) {
        if (s.points[i].entry == entry) {
            last = (int32_t)s.points[i].ticks;
        }
    }
    if (f[P_TICKS] <= last) {
        malformed(P_TICKS);
        return;
    }
    s.points[s.point_count].entry = (uint8_t)entry;
    s.points[s.point_count].ticks = (uint32_t)f[P_TICKS];
    s.points[s.point_count].value = f[P_VALUE];
    s.point_count++;
    done(0);
#else
    (void)f;
    refused(UNKNOWN_KIND, REPLAY);
#endif
}

/* -- guard -- */

enum { G_INDEX, G_KIND, G_CHANNEL, G_A, G_B, G_WINDOW, G_TIME, G_COMMAND, G_FIELDS };

#if SNAG_GUARDS > 0
static int8_t guard_wrong(const int32_t *f, const int16_t *n) {
    bool travel = n[G_KIND] == TRAVEL;
    bool stall = n[G_KIND] == STALL;
    if (n[G_INDEX] != s.guard_count) {
        return G_INDEX;
    }
    if (!is_channel(n[G_CHANNEL])) {
        return G_CHANNEL;
    }
    /* A limit that no reading can keep would stop the machine at once, and no one would know why. */
    if (!travel && f[G_A] < 0) {
        return G_A;
    }
    if ((travel && f[G_A] > f[G_B]) || (stall && f[G_B] < 0)) {
        return G_B;
    }
    if (!travel && (n[G_WINDOW] < 1 || n[G_WINDOW] > SNAG_WINDOW)) {
        return G_WINDOW;
    }
    if (f[G_TIME] < 0) {
        return G_TIME;
    }
    return stall && !is_channel(n[G_COMMAND]) ? G_COMMAND : -1;
}
#endif

static void guard_take(const int32_t *f) {
#if SNAG_GUARDS > 0
    int16_t n[G_FIELDS];
    guard *g;
    int8_t wrong;
    narrow_all(f, G_FIELDS, n);
    if (n[G_KIND] < 0 || n[G_KIND] > STALL) {
        refused(UNKNOWN_KIND, f[G_KIND]);
        return;
    }
    if (s.guard_count == SNAG_GUARDS) {
        refused(NO_ROOM, SNAG_GUARDS);
        return;
    }
    wrong = guard_wrong(f, n);
    if (wrong >= 0) {
        malformed(wrong);
        return;
    }
    g = &s.guards[s.guard_count];
    memset(g, 0, sizeof *g);
    g->kept = row_of((uint8_t)n[G_CHANNEL]);
    if (n[G_KIND] != TRAVEL && g->kept == NONE) {
        refused(NO_ROOM, SNAG_KEPT);
        return;
    }
    s.guard_count++;
    g->kind = (uint8_t)n[G_KIND];
    g->channel = (uint8_t)n[G_CHANNEL];
    g->a = f[G_A];
    g->b = f[G_B];
    g->window = (uint8_t)n[G_WINDOW];
    g->time = f[G_TIME];
    g->command = (uint8_t)n[G_COMMAND];
    done(0);
#else
    (void)f;
    refused(NO_ROOM, 0);
#endif
}

/* -- arm, do -- */

enum { A_ENTRIES, A_DIGEST, A_GUARDS, A_GUARD_DIGEST, A_SEED, A_FIELDS };
enum { D_WHAT, D_CHANNEL, D_VALUE, D_FIELDS };

static bool is_held_back(void) {
    if (s.latched) {
        refused(LATCHED, s.latch_reason);
        return true;
    }
    if (!s.leased) {
        refused(NO_LEASE, 0);
        return true;
    }
    return false;
}

/* A channel that closes a control loop, is under a lasting fault and has no guard; NONE for none. */
static uint8_t unguarded(void) {
    if (!s.rig->real) {
        return NONE;
    }
    for (uint8_t i = 0; i < s.slot_count; i++) {
        const slot *e = &s.slots[i];
        if (e->channel != NONE && (e->flags & ONE_TICK) == 0 && has_flag(e->channel, SNAG_CLOSES_LOOP)) {
#if SNAG_GUARDS > 0
            if (guards_watch(e->channel)) {
                continue;
            }
#endif
            return e->channel;
        }
    }
    return NONE;
}

static void period_restart(void);

static void arm_start(const int32_t *f) {
    s.commanded = NONE;
    program_arm((uint32_t)f[A_SEED]);
    s.answer_count = 0;
    memset(s.answers_of, 0, sizeof s.answers_of);
#if SNAG_GUARDS > 0
    guards_arm();
#endif
    set_reading(0, 0, 0, 0);
    period_restart();
    events_start(false);
    done(as_signed(s.newest));
    event_add(ARMED, s.slot_count, f[A_SEED]);
    snag_port_armed((uint32_t)f[A_SEED]);
}

static void arm_take(const int32_t *f) {
    uint8_t open;
    if (is_held_back()) {
        return;
    }
    open = unguarded();
    if (narrow(f[A_ENTRIES]) != s.slot_count || (uint32_t)f[A_DIGEST] != s.program_digest) {
        refused(MISMATCH, as_signed(s.program_digest));
    } else if (narrow(f[A_GUARDS]) != s.guard_count || (uint32_t)f[A_GUARD_DIGEST] != s.guard_digest) {
        refused(MISMATCH, as_signed(s.guard_digest));
    } else if (open != NONE) {
        refused(NEEDS_GUARD, open);
    } else if (!snag_port_enabled()) {
        refused(NOT_ENABLED, 0);
    } else {
        arm_start(f);
    }
}

static void latch_release(void) {
    if (!s.leased) {
        refused(NO_LEASE, 0);
        return;
    }
    if (s.latched) {
        s.latched = false;
#if SNAG_GUARDS > 0
        guards_allow_way_back();
#endif
    }
    done(0);
}

static void command_take(const int32_t *f) {
    int16_t asked = narrow(f[D_CHANNEL]);
    uint8_t channel = (uint8_t)asked;
    if (is_held_back()) {
        return;
    }
    if (!is_channel(asked) || kind_of(channel) != SNAG_COMMAND) {
        malformed(D_CHANNEL);
    } else if (f[D_VALUE] < rom32(&s.rig->channels[channel].lowest) ||
               f[D_VALUE] > rom32(&s.rig->channels[channel].highest)) {
        malformed(D_VALUE);
    } else if (!snag_port_enabled()) {
        refused(NOT_ENABLED, 0);
    } else {
        s.commanded = channel;
        s.commanded_value = f[D_VALUE];
        s.commanding = true;
        s.command_number = s.last_number;
        done(0);
    }
}

static void do_take(const int32_t *f) {
    int16_t what = narrow(f[D_WHAT]);
    if (what == DO_RELEASE_LATCH) {
        latch_release();
    } else if (what == DO_COMMAND) {
        command_take(f);
    } else {
        refused(UNKNOWN_KIND, f[D_WHAT]);
    }
}

/* -- watch -- */

static void period_restart(void) {
#if SNAG_WITH_PERIODS
    s.period_ticks = 0;
    s.shortest_loop = INT32_MAX;
    s.longest_loop = 0;
#endif
}

static bool watched_fit(reader list, int16_t count) {
    for (int16_t i = 0; i < count; i++) {
        if (!is_channel(narrow(read_i32(&list)))) {
            malformed((int16_t)(2 + i));
            return false;
        }
    }
    return true;
}

static void watch_take(reader *in, const header *h) {
    int32_t ticks = read_i32(in);
    int16_t first = narrow(read_i32(in));
    int16_t count = (int16_t)(h->fields - 2);
    reader list = *in;
    uint8_t most = s.channels < SNAG_WATCHED ? s.channels : SNAG_WATCHED;
    for (int16_t i = 0; i < count; i++) {
        (void)read_i32(in);
    }
    if (!read_all(in) || count < 0) {
        malformed(h->fields);
    } else if (ticks < 1 || ticks > 0xFFFF || (!SNAG_WITH_PERIODS && ticks > 1)) {
        malformed(0);
    } else if (first != 0 && first != s.watched_count) {
        malformed(1);
    } else if (first + count > most) {
        refused(NO_ROOM, most);
    } else if (watched_fit(list, count)) {
        for (int16_t i = 0; i < count; i++) {
            s.watched[first + i] = (uint8_t)read_i32(&list);
        }
        s.period = (uint16_t)ticks;
        s.watched_count = (uint8_t)(first + count);
        period_restart();
        done(0);
    }
}

/* -- session -- */

static void keep_take(reader *in, const header *h) {
    int32_t f[2];
    if (!read_fields(in, h, 2, 2, f)) {
        return;
    }
    if (f[0] < 1 || f[0] > LONGEST_LEASE_MILLIS) {
        malformed(0);
        return;
    }
    s.lease_until = s.micros + (uint32_t)f[0] * 1000u;
    events_seen((uint32_t)f[1]);
    if (!s.leased) {
        s.leased = true;
        event_add(LEASE, 1, 0);
    }
    done(as_signed(s.newest));
}

static void item_take(const int32_t *f) {
    if (f[0] < 0 || f[0] >= s.items) {
        malformed(0);
    } else {
        done(f[0]);
    }
}

static void digest_add(uint32_t *digest, const header *h, const reader *in) {
    uint8_t type = (uint8_t)h->type;
    if (s.code == 0) {
        *digest = crc_over(*digest, &type, 1);
        *digest = crc_over(*digest, h->body, (uint16_t)(in->end - h->body));
    }
}

/* What is taken only while nothing is armed and no stop runs. */
static void perform_at_rest(reader *in, const header *h) {
    static const uint8_t counts[] SNAG_ROM = {1, 0, E_FIELDS, T_FIELDS, C_FIELDS, P_FIELDS, G_FIELDS, A_FIELDS, 0,
                                              D_FIELDS, 0};
    static const uint16_t unsigneds[] SNAG_ROM = {0, 0, 1 << E_LASTS, 1 << T_FOR | 1 << T_DELAY | 1 << T_ON | 1 << T_OFF,
                                                  0, 0, 1 << G_TIME,
                                                  1 << A_DIGEST | 1 << A_GUARD_DIGEST | 1 << A_SEED, 0, 0, 0};
    int32_t f[E_FIELDS];
    uint8_t at = (uint8_t)(h->type - ITEM_REQUEST);
    if (h->type < ITEM_REQUEST || h->type > LET_GO) {
        refused(UNKNOWN_REQUEST, h->type);
        return;
    }
    if (h->type == WATCH) {
        watch_take(in, h);
        return;
    }
    if (!read_fields(in, h, rom8(&counts[at]), rom16(&unsigneds[at]), f)) {
        return;
    }
    switch (h->type) {
    case ITEM_REQUEST:
        item_take(f);
        break;
    case ENTRY:
        entry_take(f);
        digest_add(&s.program_digest, h, in);
        break;
    case TIMING:
        timing_take(f);
        digest_add(&s.program_digest, h, in);
        break;
    case TERM:
        term_take(f);
        digest_add(&s.program_digest, h, in);
        break;
    case POINT:
        point_take(f);
        digest_add(&s.program_digest, h, in);
        break;
    case GUARD:
        guard_take(f);
        digest_add(&s.guard_digest, h, in);
        break;
    case ARM:
        arm_take(f);
        break;
    case DO:
        do_take(f);
        break;
    default:
        malformed(0);
        break;
    }
}

static void perform(reader *in, const header *h) {
    s.last_number = h->number;
    if (h->type == KEEP) {
        keep_take(in, h);
    } else if (h->type == LET_GO && h->fields == 0) {
        s.letting_go = true;
        s.let_go_number = h->number;
    } else if (s.armed || s.stopping) {
        refused(NOT_NOW, 0);
    } else {
        perform_at_rest(in, h);
    }
    if (is_worked_on(h->number)) {
        return;
    }
    answer_done(h->number);
    if (h->type == ITEM_REQUEST && s.code == 0) {
        s.kept.type = ITEM;
    }
}

static void open_take(reader *in, const header *h) {
    int32_t lowest = read_i32(in);
    int32_t highest = read_i32(in);
    if (!read_all(in) || h->fields != 2) {
        refuse_aside(h, MALFORMED, h->fields);
    } else if (s.leased && h->session != s.session) {
        int32_t left = since(s.micros, s.lease_until);
        refuse_aside(h, BUSY, left > 0 ? (int32_t)(((uint32_t)left + 999u) / 1000u) : 0);
    } else if (s.stopping || s.armed) {
        refuse_aside(h, NOT_NOW, 0);
    } else if (VERSION < lowest || VERSION > highest) {
        refuse_aside(h, UNKNOWN_KIND, VERSION);
    } else {
        s.session = h->session;
        s.last_number = h->number;
        program_clear();
        guards_clear();
        s.watched_count = 0;
        s.dropped = 0;
        period_restart();
        events_start(true);
        s.is_open = true;
        done(0);
        set_answer(&s.kept, HELLO, s.session, s.last_number);
        s.answer_waits = true;
    }
}

static void request_take(uint8_t length) {
    reader in = {s.in, s.in + length, false};
    header h;
    bool opens;
    bool ours;
    if (!read_header(&in, &h) || h.session == 0) {
        return;
    }
    opens = h.type == OPEN;
    ours = h.session == s.session;
    if (!opens && h.boot != s.boot) {
        refuse_aside(&h, OTHER_BOOT, 0);
    } else if (!opens && !ours) {
        refuse_aside(&h, OTHER_SESSION, 0);
    } else if (ours && h.number == s.last_number) {
        if (!is_worked_on(h.number) && s.kept.type != 0) {
            s.answer_waits = true;
        }
    } else if (ours && since(s.last_number, h.number) < 0) {
        return; /* an old one out of some buffer */
    } else if (opens) {
        open_take(&in, &h);
    } else {
        perform(&in, &h);
    }
}

/* The safe stop is done and the program gone: a let-go that asked for it is answered. */
static void stop_answer(void) {
    if (s.letting_go) {
        s.letting_go = false;
        s.leased = false;
        done(s.latched ? 1 : 0);
        answer_done(s.let_go_number);
    }
}

/* A command is answered when the control code has had its chance to take it. */
static void command_end_tick(void) {
    if (s.commanding) {
        s.commanding = false;
        if (s.commanded != NONE && (s.readings[s.commanded].marks & READ_NOW) != 0) {
            done(0);
        } else {
            refused(NOT_NOW, 1);
        }
        answer_done(s.command_number);
    }
    s.commanded = NONE;
}

/* ---- what the bench is told ---- */

static bool answer_send(const answer *a) {
    write_begin();
    if (a->type == HELLO) {
        write_hello(a);
    } else if (a->type == ITEM) {
        (void)write_item(a);
    } else {
        write_array(7);
        write_u32(a->type);
        write_at(&a->session);
        write_at(&a->number);
        write_u32(a->code);
        write_i32(a->word);
        write_at(&a->tick);
        write_at(&a->micros);
    }
    return write_end();
}

/* Answers, then events, as far as there is room; true if nothing is left of them. */
static bool send_first(void) {
    if (s.greets) {
        answer unasked;
        unasked.session = 0;
        unasked.number = 0;
        write_begin();
        write_hello(&unasked);
        if (!write_end()) {
            return false;
        }
        s.greets = false;
    }
    if (s.answer_waits) {
        if (!answer_send(&s.kept)) {
            return false;
        }
        s.answer_waits = false;
    }
    if (s.aside.type != 0) {
        if (!answer_send(&s.aside)) {
            return false;
        }
        s.aside.type = 0;
    }
    while (s.is_open && s.sent != s.newest) {
        if (!event_send()) {
            return false;
        }
        s.sent++;
    }
    return true;
}

#if SNAG_WITH_PERIODS
static void widen(int32_t *least, int32_t *greatest, int32_t value) {
    if (value < *least) {
        *least = value;
    }
    if (value > *greatest) {
        *greatest = value;
    }
}

/* Takes the tick into the period. A channel that was not read in it had its old value in it, which counts. */
static void period_take(void) {
    bool first = s.period_ticks++ == 0;
    for (uint8_t i = 0; first && i < s.watched_count; i++) {
        reading *r = &s.readings[s.watched[i]];
        r->marks &= (uint8_t)~FORCED_IN_PERIOD;
        s.spans[i].least_told = s.spans[i].greatest_told = r->told;
        s.spans[i].least_real = s.spans[i].greatest_real = r->real;
    }
    for (uint8_t i = 0; i < s.watched_count; i++) {
        reading *r = &s.readings[s.watched[i]];
        widen(&s.spans[i].least_told, &s.spans[i].greatest_told, r->told);
        widen(&s.spans[i].least_real, &s.spans[i].greatest_real, r->real);
        if ((r->marks & FORCED) != 0) {
            r->marks |= FORCED_IN_PERIOD;
        }
    }
}

static void loop_took(int32_t micros) {
    if (micros < s.shortest_loop) {
        s.shortest_loop = micros;
    }
    if (micros > s.longest_loop) {
        s.longest_loop = micros;
    }
}
#endif

/* Takes the tick at its end and tells whether a record is due. */
static bool record_is_due(void) {
    if (s.watched_count == 0) {
        return false;
    }
#if SNAG_WITH_PERIODS
    if (s.period > 1) {
        period_take();
        return s.period_ticks >= s.period;
    }
#endif
    return true;
}

static uint8_t flags_now(void) {
    return (uint8_t)((s.armed ? FLAG_ARMED : 0) | (s.leased ? FLAG_LEASED : 0) | (s.stopping ? FLAG_STOPPING : 0) |
                     (s.latched ? FLAG_LATCHED : 0) | (s.lost ? FLAG_EVENTS_LOST : 0) |
                     (s.ended ? FLAG_PROGRAM_ENDED : 0));
}

/* Part of the watched list in a record, and which of it is forced, not read, absent. */
typedef struct {
    uint8_t from;
    uint8_t count;
    uint32_t forced;
    uint32_t stale;
    uint32_t absent;
} part;

static void part_marks(part *p) {
    p->forced = 0;
    p->stale = 0;
    p->absent = 0;
    for (uint8_t i = 0; i < p->count; i++) {
        uint8_t marks = s.readings[s.watched[p->from + i]].marks;
        uint32_t bit = (uint32_t)1 << i;
        p->forced |= (marks & (s.period > 1 ? FORCED_IN_PERIOD : FORCED)) != 0 ? bit : 0;
        p->stale |= (marks & READ_NOW) != 0 ? 0 : bit;
        p->absent |= (marks & ABSENT) != 0 ? bit : 0;
    }
}

/* The values of a part, one kind of them: all, or only of what is forced. */
enum { TOLD, REAL, LEAST_TOLD, GREATEST_TOLD, LEAST_REAL, GREATEST_REAL };

static int32_t value_of(uint8_t place, uint8_t what) {
    switch (what) {
    case TOLD:
        return s.readings[s.watched[place]].told;
#if SNAG_WITH_PERIODS
    case LEAST_TOLD:
        return s.spans[place].least_told;
    case GREATEST_TOLD:
        return s.spans[place].greatest_told;
    case LEAST_REAL:
        return s.spans[place].least_real;
    case GREATEST_REAL:
        return s.spans[place].greatest_real;
#endif
    default:
        return s.readings[s.watched[place]].real;
    }
}

static void write_values(const part *p, uint8_t what) {
    bool forced_only = what == REAL || what >= LEAST_REAL;
    for (uint8_t i = 0; i < p->count; i++) {
        if (!forced_only || (p->forced >> i & 1u) != 0) {
            write_i32(value_of((uint8_t)(p->from + i), what));
        }
    }
}

static uint32_t active_mask(void) {
    uint32_t mask = 0;
    for (uint8_t i = s.slot_count; i > 0; i--) {
        mask = mask << 1 | (is_active(&s.slots[i - 1]) ? 1u : 0u);
    }
    return mask;
}

static bool record_part(part *p) {
    bool more = p->from + p->count < s.watched_count;
    uint8_t values = p->count;
    part_marks(p);
    for (uint32_t left = p->forced; left != 0; left &= left - 1) {
        values++;
    }
    write_begin();
    write_array((uint8_t)(s.period > 1 ? 15 + 3 * values : 13 + values));
    write_u32(RECORD);
    write_u32(s.period);
    write_at(&s.tick);
    write_at(&s.micros);
    write_u32(active_mask());
    write_u32(more ? flags_now() | FLAG_MORE : flags_now());
    write_at(&s.newest);
    write_at(&s.dropped);
    write_u32(p->from);
    write_u32(p->count);
    write_at(&p->forced);
    write_at(&p->stale);
    write_at(&p->absent);
#if SNAG_WITH_PERIODS
    if (s.period > 1) {
        write_i32(s.shortest_loop < s.longest_loop ? s.shortest_loop : s.longest_loop);
        write_i32(s.longest_loop);
    }
#endif
    for (uint8_t what = TOLD; what <= (s.period > 1 ? GREATEST_REAL : REAL); what++) {
        write_values(p, what);
    }
    return write_end();
}

/* Puts all parts of a record on the way, or none: half a record would look like a whole one of few channels. */
static bool record_send(void) {
    part p = {0, 0, 0, 0, 0};
    uint16_t waiting;
    write_begin(); /* moves what waits to the front, so that this length stays its end */
    waiting = s.out_to;
    while (p.from < s.watched_count) {
        p.count = (uint8_t)(s.watched_count - p.from);
        if (p.count > MASK_BITS) {
            p.count = MASK_BITS;
        }
        while (p.count > 0 && !record_part(&p)) {
            p.count /= 2;
        }
        if (p.count == 0) {
            s.out_to = waiting;
            return false;
        }
        p.from = (uint8_t)(p.from + p.count);
    }
    return true;
}

static void send(void) {
    bool first_done;
    out_flush();
    first_done = send_first();
    if (record_is_due()) {
        if (!first_done || !record_send()) {
            s.dropped++;
        }
        period_restart();
    }
    out_flush();
}

/* ---- the tick ---- */

bool snag_start(const snag_rig *rig, uint32_t boot, uint8_t cause) {
    memset(&s, 0, sizeof s);
    s.rig = rig;
    s.boot = boot;
    s.cause = cause;
    s.commanded = NONE;
    s.period = 1;
    s.channels = rig->channel_count;
    if (boot == 0 || rig->channel_count < 2 || rig->channel_count > SNAG_CHANNELS || !describe(rig)) {
        s.channels = 0;
        return false;
    }
    for (uint8_t c = 0; c < s.channels; c++) {
        int32_t resting = within(0, rom32(&rig->channels[c].lowest), rom32(&rig->channels[c].highest));
        s.readings[c].real = resting;
        s.readings[c].told = resting;
    }
#if SNAG_GUARDS > 0
    kept_start();
#endif
    period_restart();
    s.greets = true;
    return true;
}

static void take_bytes(void) {
    for (uint16_t taken = 0; taken < SNAG_BYTES_PER_TICK; taken++) {
        int16_t next = snag_port_get();
        uint8_t payload;
        if (next < 0) {
            return;
        }
        payload = in_take((uint8_t)next);
        if (payload > 0) {
            request_take(payload);
        }
    }
}

void snag_begin_tick(void) {
    uint32_t now = snag_port_micros();
    if (s.channels == 0 || s.in_tick) {
        return;
    }
    s.in_tick = true;
    if (s.ticked) {
        s.tick++;
#if SNAG_WITH_PERIODS
        loop_took(since(s.micros, now));
#endif
    }
    s.ticked = true;
    s.micros = now;
    for (uint8_t c = 0; c < s.channels; c++) {
        s.readings[c].marks &= (uint8_t)~READ_NOW;
    }
    if (s.stands) {
        program_release();
        stop_answer();
        s.stands = false;
        s.stopping = false;
    }
    s.in_hand = s.stopping;
    take_bytes();
    if (s.armed) {
        program_begin_tick();
    }
}

void snag_end_tick(void) {
    if (!s.in_tick) {
        return;
    }
    s.in_tick = false;
    set_reading(0, s.readings[0].real, s.readings[0].real, 0);
    set_reading(1, as_signed(s.answer_count), as_signed(s.answer_count), 0);
#if SNAG_WITH_DELAY
    if (s.armed) {
        history_keep();
    }
#endif
    stop_if_needed();
    if (s.armed && !s.stopping) {
        program_end_tick();
    }
    command_end_tick();
    if (s.stopping && s.in_hand && snag_port_stopped()) {
        s.stands = true;
        event_add(STOP, s.stop_reason, 1);
    }
    memset(s.answered, 0, sizeof s.answered);
    send();
#if SNAG_GUARDS > 0
    kept_end_tick();
#endif
}

uint32_t snag_tick_micros(void) {
    return s.micros;
}

uint32_t snag_bad_frames(void) {
    return s.bad_frames;
}
