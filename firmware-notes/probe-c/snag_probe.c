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

/*
 * Kept as functions where flash counts. On 8-bit parts each 32-bit figure that is fetched from its place costs 16 bytes of
 * code and its address 4: so such figures go by address, and by few functions.
 */
#if defined __clang__
#define APART __attribute__((noinline))
#elif defined __GNUC__
/* A clone would be given the figure and not its address. */
#define APART __attribute__((noinline, noclone))
#else
#define APART
#endif

/* On an 8-bit part, members are reached from one address in a register, with half the code of each one's own address. */
#ifdef __AVR__
#define FROM_ONE_ADDRESS(pointer) __asm__("" : "+b"(pointer))
#else
#define FROM_ONE_ADDRESS(pointer) (void)0
#endif

#define VERSION 1
/* Of a channel or an entry: -1 on the line; and what no small figure on the line is. */
#define NONE 0xFF
#define WRONG 0xFE
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
    DONE_WELL = 0,
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
/* Flags of a record, which are the probe's own state too; the last is of the record alone. */
enum {
    IS_ARMED = 1,
    IS_LEASED = 2,
    IS_STOPPING = 4,
    IS_LATCHED = 8,
    EVENTS_LOST = 16,
    PROGRAM_ENDED = 32,
    MORE = 64
};

#define KINDS                                                                                                          \
    (1u << WAIT | 1u << STUCK_AT | (SNAG_WITH_FREEZE ? 1u << FREEZE : 0u) | (SNAG_WITH_OFFSET ? 1u << OFFSET : 0u) |   \
     (SNAG_WITH_SCALE ? 1u << SCALE : 0u) | (SNAG_WITH_DRIFT ? 1u << DRIFT : 0u) |                                     \
     (SNAG_WITH_SPIKE ? 1u << SPIKE : 0u) | (SNAG_WITH_NOISE ? 1u << NOISE : 0u) |                                     \
     (SNAG_WITH_DROPOUT ? 1u << DROPOUT : 0u) | (SNAG_WITH_DELAY ? 1u << DELAY : 0u) |                                 \
     (SNAG_WITH_REPLAY ? 1u << REPLAY : 0u))

/* What is left out beside kinds: above them in the greeting, so that a probe with everything has nothing there. */
#define LEFT_OUT                                                                                                       \
    ((SNAG_TIMINGS > 0 ? 0 : 1u << 11) | (SNAG_WINDOWS > 0 ? 0 : 1u << 12) | (SNAG_WITH_PERIODS ? 0 : 1u << 13) |      \
     (SNAG_WITH_INTERMITTENT ? 0 : 1u << 14) | (SNAG_KEPT > 0 ? 0 : 1u << 15))

/* Kinds that add to what there is, so that a value between entries may need more than 32 bits. */
#define ADDS (SNAG_WITH_OFFSET || SNAG_WITH_SCALE || SNAG_WITH_DRIFT || SNAG_WITH_SPIKE || SNAG_WITH_NOISE)

/* A tick, and when it began. */
typedef struct {
    uint32_t tick;
    uint32_t micros;
} moment;

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
    uint8_t kind;
    uint8_t channel;
    uint8_t leader;
    uint8_t after;
    uint8_t flags;
    uint8_t conditions;
    uint8_t marks;
    uint8_t decided_end;
    uint8_t ended_why;
    int32_t a;
    int32_t lasts;
    uint32_t on_micros;
    uint32_t done_micros;
    uint32_t strikes;
#if SNAG_WITH_OFFSET
    int32_t b;
#endif
    union {
        int32_t frozen; /* freeze */
#if SNAG_WITH_NOISE
        uint32_t draw;
#endif
#if SNAG_WITH_REPLAY
        uint32_t ticks; /* since it became active */
#endif
#if SNAG_WITH_DELAY
        struct {
            uint16_t from; /* its first cell of the history */
            uint16_t next; /* the cell of the present tick, from 0; after a round it holds the oldest reading */
        } past;
#endif
    } of;
#if SNAG_TIMINGS > 0
    uint8_t timing;
#endif
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
    uint8_t fails; /* the condition of the entry that does when this does */
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
    moment at;
    int32_t b;
    uint8_t kind;
    uint8_t a; /* of every kind of event a number below 256 */
} event;

#if SNAG_WITH_PERIODS
typedef struct {
    int32_t told[2]; /* least and greatest */
    int32_t real[2];
} span;
#endif

/* Whose request: what every answer begins with. */
typedef struct {
    uint32_t session;
    uint32_t number;
} address;

/* What came of a request: done, or refused and why. */
typedef struct {
    uint8_t code;
    int32_t word;
} outcome;

/* An answer to a request: what it takes to write it, also again. */
typedef struct {
    address to;
    outcome came; /* of an item the word is its index */
    moment at;
    uint8_t type; /* of the message; 0 for none */
} answer;

/* The line in: the frame that comes, and where it is read. */
typedef struct {
    uint8_t length;
    uint8_t run_end;
    uint8_t promised;
    bool zero_pending;
    bool too_long;
    uint8_t at;
    uint8_t end;
    bool failed;   /* something was not as it has to be */
    uint8_t major; /* type of the item that was read last */
    uint32_t bad;
    uint8_t bytes[SNAG_FRAME - 2];
} line_in;

#if SNAG_OUT < 256
typedef uint8_t out_place;
#else
typedef uint16_t out_place;
#endif

/* The line out: frames that wait, and the one being written behind them. */
typedef struct {
    out_place from;
    out_place to;
    out_place writing;
    out_place limit;
    bool full;
    uint8_t bytes[SNAG_OUT];
} line_out;

/* The events: the newest, and how many of the newest are kept, are still to be sent, are of the program (at most 255). */
typedef struct {
    uint32_t newest;
    uint8_t newest_at;
    uint8_t unseen;
    uint8_t unsent;
    uint8_t since_armed;
    event events[SNAG_RING];
} event_log;

static struct {
    const snag_rig *rig;
    uint32_t boot;
    uint32_t digest;
    uint16_t items;
    uint8_t channels; /* 0 while the probe is off */
    uint8_t cause;

    moment now;
    bool ticked;
    bool in_tick;
    uint8_t flags; /* those of a record */

    reading readings[SNAG_CHANNELS];

    line_in in;
    line_out out;

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

    /* the request at hand */
    address asked;
    uint8_t body;   /* where its fields begin */
    uint8_t fields; /* how many */
    outcome came;

    uint32_t lease_until;

    /* stop */
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

    event_log log;

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
    uint32_t dropped;
#if SNAG_WITH_PERIODS
    uint16_t period;
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

static APART int32_t rom32(const int32_t *from) {
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

static APART void copy(uint32_t *to, const uint32_t *from) {
    *to = *from;
}

static APART bool equal(const uint32_t *x, const uint32_t *y) {
    return *x == *y;
}

/* Now, to be kept. */
static APART void mark_time(uint32_t *to) {
    copy(to, &s.now.micros);
}

static APART void mark_moment(moment *to) {
    *to = s.now;
}

/* From an earlier time to a later one, modulo 2^32; negative where it is the other way round. */
static APART int32_t since(const uint32_t *then, const uint32_t *now) {
    return as_signed(*now - *then);
}

/* From a time to the start of this tick. */
static APART int32_t ago(const uint32_t *then) {
    return since(then, &s.now.micros);
}

#if SNAG_TIMINGS > 0 || (SNAG_GUARDS > 0 && SNAG_KEPT > 0)
/* Whether so much time has gone since then. */
static APART bool is_over(const uint32_t *then, const int32_t *micros) {
    return ago(then) >= *micros;
}
#endif

static APART int32_t within(int32_t value, int32_t least, int32_t most) {
    return value < least ? least : value > most ? most : value;
}

/* |x - y|, exact. */
static APART uint32_t distance(const int32_t *x, const int32_t *y) {
    return *x >= *y ? (uint32_t)*x - (uint32_t)*y : (uint32_t)*y - (uint32_t)*x;
}

/* Whether a distance is beyond a limit, which may be negative. */
static APART bool is_beyond(uint32_t far, const int32_t *limit) {
    return *limit < 0 || far > (uint32_t)*limit;
}

static APART const snag_channel *channel_at(uint8_t channel) {
    return &s.rig->channels[channel];
}

static APART reading *reading_at(uint8_t channel) {
    return &s.readings[channel];
}

static APART slot *slot_at(uint8_t entry) {
    return &s.slots[entry];
}

static APART uint8_t kind_of(uint8_t channel) {
    return rom8(&channel_at(channel)->kind);
}

static APART bool has_flag(uint8_t channel, uint8_t flag) {
    return (rom8(&channel_at(channel)->flags) & flag) != 0;
}

/* Whether a fail-safe can have that number. */
static bool is_fail_safe(uint8_t number) {
#if SNAG_HIGHEST_FAIL_SAFE < 255
    return number > 0 && number <= SNAG_HIGHEST_FAIL_SAFE;
#else
    return number > 0;
#endif
}

static bool is(uint8_t flags) {
    return (s.flags & flags) != 0;
}

static APART void set(uint8_t flags) {
    s.flags |= flags;
}

static APART void reset(uint8_t flags) {
    s.flags &= (uint8_t)~flags;
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
static APART void crc_add(uint32_t *sum, const uint8_t *bytes, uint8_t count) {
    uint32_t crc = ~*sum;
    while (count-- > 0) {
#if SNAG_CRC_TABLE == 0
        crc ^= *bytes++;
        for (uint8_t bit = 8; bit > 0; bit--) {
            crc = (crc >> 1) ^ ((crc & 1u) != 0 ? 0xEDB88320u : 0u);
        }
#elif SNAG_CRC_TABLE == 16
        crc ^= *bytes++;
        for (uint8_t half = 2; half > 0; half--) {
            crc = (crc >> 4) ^ (uint32_t)rom32((const int32_t *)&crc_table[crc & 15u]);
        }
#else
        crc = (crc >> 8) ^ (uint32_t)rom32((const int32_t *)&crc_table[(crc ^ *bytes++) & 255u]);
#endif
    }
    *sum = ~crc;
}

/* ---- frames in ---- */

static void in_clear(line_in *in) {
    in->promised = 0;
    in->length = 0;
    in->run_end = 0;
    in->zero_pending = false;
    in->too_long = false;
}

static void in_store(line_in *in, uint8_t byte) {
    in->bytes[in->length++] = byte;
}

/* Undoes the byte stuffing as the bytes come. Decoding never gives more bytes than it takes, less one. */
static void in_unstuff(line_in *in, uint8_t next) {
    if (in->length < in->run_end) {
        in_store(in, next);
        return;
    }
    /* Looked at before anything is written, so that this alone keeps within the buffer. */
    if (next > SNAG_FRAME - 1 - in->promised) {
        in->too_long = true;
    }
    if (in->too_long) {
        return;
    }
    in->promised = (uint8_t)(in->promised + next);
    if (in->zero_pending) {
        in_store(in, 0);
    }
    in->run_end = (uint8_t)(in->length + next - 1);
    /* A run of 254 is longer than any frame here, so each stands for a zero behind it. */
    in->zero_pending = true;
}

/* Takes a byte; returns the length of the payload that came whole with it, 0 for none. */
static uint8_t in_take(uint8_t next) {
    line_in *in = &s.in;
    uint8_t payload = 0;
    FROM_ONE_ADDRESS(in);
    if (next != 0) {
        in_unstuff(in, next);
        return 0;
    }
    if (in->promised > 0 || in->too_long) {
        uint32_t sum = 0;
        crc_add(&sum, in->bytes, in->length);
        /* A register run over payload and checksum ends at this, whatever they are. */
        if (!in->too_long && in->length == in->run_end && in->length > CRC_BYTES && sum == 0x2144DF1Cu) {
            payload = (uint8_t)(in->length - CRC_BYTES);
        } else {
            in->bad++;
        }
    }
    in_clear(in);
    return payload;
}

/* ---- CBOR in ---- */

/* What fails leaves nothing to be read; from then on all is 0. */
static APART uint32_t read_failed(void) {
    s.in.failed = true;
    s.in.at = s.in.end;
    return 0;
}

static APART uint8_t read_byte(void) {
    line_in *in = &s.in;
    FROM_ONE_ADDRESS(in);
    return in->at == in->end ? (uint8_t)read_failed() : in->bytes[in->at++];
}

/* The head of the next item, in its shortest form: its argument. */
static APART uint32_t read_head(void) {
    uint32_t argument = 0;
    uint32_t least = 24;
    uint8_t first = read_byte();
    uint8_t additional = first & 0x1F;
    uint8_t bytes = 1;
    s.in.major = first >> 5;
    if (additional < 24) {
        return additional;
    }
    if (additional > 26) {
        return read_failed();
    }
    if (additional == 25) {
        bytes = 2;
        least = 0x100;
    } else if (additional == 26) {
        bytes = 4;
        least = 0x10000;
    }
    for (; bytes > 0; bytes--) {
        argument = argument << 8 | read_byte();
    }
    return s.in.failed || argument < least ? read_failed() : argument;
}

static APART uint32_t read_u32(void) {
    uint32_t argument = read_head();
    return s.in.major == 0 ? argument : read_failed();
}

static APART int32_t read_i32(void) {
    uint32_t argument = read_head();
    if (s.in.major > 1 || argument > INT32_MAX) {
        return (int32_t)read_failed();
    }
    return s.in.major == 0 ? (int32_t)argument : -1 - (int32_t)argument;
}

/* Of a figure that is below 254 where it is right, or -1, which becomes NONE; everything else is wrong everywhere. */
static APART uint8_t small(const int32_t *figure) {
    return *figure < -1 || *figure >= WRONG ? WRONG : (uint8_t)*figure;
}

/* ---- frames out ---- */

/* Starts a frame behind those that wait. What does not fit is found out at its end. */
static APART void write_begin(void) {
    line_out *out = &s.out;
    out_place room;
    FROM_ONE_ADDRESS(out);
    if (out->from > 0) {
        out->to = (out_place)(out->to - out->from);
        memmove(out->bytes, out->bytes + out->from, out->to);
        out->from = 0;
    }
    room = (out_place)(SNAG_OUT - out->to);
    if (room > SNAG_FRAME) {
        room = SNAG_FRAME;
    }
    /* One byte in front for the stuffing, the checksum and the delimiter behind. */
    out->writing = (out_place)(out->to + 1);
    out->limit = out->writing;
    out->full = room < CRC_BYTES + 2;
    if (!out->full) {
        out->limit = (out_place)(out->to + room - CRC_BYTES - 1);
    }
}

static APART void write_byte(uint8_t byte) {
    line_out *out = &s.out;
    FROM_ONE_ADDRESS(out);
    if (out->writing >= out->limit) {
        out->full = true;
    } else {
        out->bytes[out->writing++] = byte;
    }
}

/* Of a type that is shifted to its place. */
static APART void write_head(uint32_t argument, uint8_t type) {
    uint8_t bytes = 0;
    if (argument < 24) {
        type |= (uint8_t)argument;
    } else if (argument <= 0xFF) {
        type |= 24;
        bytes = 1;
    } else if (argument <= 0xFFFF) {
        type |= 25;
        bytes = 2;
    } else {
        type |= 26;
        bytes = 4;
    }
    write_byte(type);
    while (bytes-- > 0) {
        write_byte((uint8_t)(argument >> (8 * bytes)));
    }
}

static APART void write_u32(uint32_t value) {
    write_head(value, 0);
}

static APART void write_u16(uint16_t value) {
    write_u32(value);
}

static APART void write_u8(uint8_t value) {
    write_u16(value);
}

static APART void write_at(const uint32_t *value) {
    write_u32(*value);
}

static APART void write_i32(int32_t value) {
    if (value < 0) {
        write_head(~(uint32_t)value, 1 << 5);
    } else {
        write_u32((uint32_t)value);
    }
}

static APART void write_signed_at(const int32_t *value) {
    write_i32(*value);
}

/* Begins a message: below 24 items, and its type. */
static APART void write_message(uint8_t items, uint8_t type) {
    write_head(items, 4 << 5);
    write_u8(type);
}

static APART void write_address(const address *to) {
    write_at(&to->session);
    write_at(&to->number);
}

static APART void write_moment(const moment *at) {
    write_at(&at->tick);
    write_at(&at->micros);
}

/* Closes the frame: checksum, stuffing, delimiter. False where it did not fit: nothing is on the way then. */
static APART bool write_end(void) {
    line_out *out = &s.out;
    uint32_t sum = 0;
    uint8_t *code;
    uint8_t *next;
    uint8_t left;
    FROM_ONE_ADDRESS(out);
    if (out->full) {
        return false;
    }
    code = out->bytes + out->to;
    next = code + 1;
    left = (uint8_t)(out->writing - out->to - 1);
    crc_add(&sum, next, left);
    /* There is room for both: no frame is longer than `limit` and these. */
    out->limit = (out_place)(out->limit + CRC_BYTES + 1);
    for (uint8_t i = CRC_BYTES; i > 0; i--) {
        write_byte((uint8_t)sum);
        sum >>= 8;
    }
    write_byte(0);
    /* In place: fewer than 254 bytes, so that each zero becomes the length of the run behind it, and none is added. */
    for (left = (uint8_t)(left + CRC_BYTES + 1); left > 0; left--, next++) {
        if (*next == 0) {
            *code = (uint8_t)(next - code);
            code = next;
        }
    }
    out->to = out->writing;
    return true;
}

/* Gives the line what it takes at once. */
static APART void out_flush(void) {
    line_out *out = &s.out;
    FROM_ONE_ADDRESS(out);
    if (out->to > out->from) {
        out->from = (out_place)(out->from + snag_port_put(out->bytes + out->from, (uint16_t)(out->to - out->from)));
    }
    if (out->from >= out->to) {
        out->from = 0;
        out->to = 0;
    }
}

/* ---- the description ---- */

#if SNAG_WITH_DESCRIPTION
static void write_rom_text(const char *text, uint8_t size) {
    uint8_t length = 0;
    while (length < size && rom8(text + length) != 0) {
        length++;
    }
    write_head(length, 3 << 5);
    while (length-- > 0) {
        write_byte(rom8(text++));
    }
}

static void write_rom_name(const char *name) {
    write_rom_text(name, SNAG_NAME_SIZE - 1);
}

static APART void write_rom8(const void *figure) {
    write_u8(rom8(figure));
}

static APART void write_rom32(const int32_t *figure) {
    write_i32(rom32(figure));
}

/* Up to the item's kind; returns where its content begins. */
static APART uint16_t write_item_head(uint8_t kind, uint8_t figures) {
    uint16_t content;
    write_message((uint8_t)(5 + figures), ITEM);
    write_address(&s.kept.to);
    write_signed_at(&s.kept.came.word);
    content = s.out.writing;
    write_u8(kind);
    return content;
}

static uint16_t write_value_name(const snag_value_name *name) {
    uint16_t content = write_item_head(ITEM_VALUE_NAME, 2);
    write_rom32(&name->value);
    write_rom_name(name->name);
    return content;
}

static uint16_t write_fail_safe(const snag_fail_safe *fail_safe) {
    uint16_t content = write_item_head(ITEM_FAIL_SAFE, 3);
    uint16_t inhibition = rom16(&fail_safe->inhibition);
    write_rom8(&fail_safe->number);
    write_i32(inhibition < 0x8000 ? (int32_t)inhibition : -1);
    write_rom_name(fail_safe->name);
    return content;
}

static uint16_t write_channel(const snag_channel *channel) {
    uint16_t content = write_item_head(ITEM_CHANNEL, 4);
    write_rom8(&channel->kind);
    write_rom8(&channel->flags);
    write_rom_name(channel->name);
    write_rom_text(channel->unit, SNAG_UNIT_SIZE - 1);
    return content;
}

static uint16_t write_range(const snag_channel *channel) {
    uint16_t content = write_item_head(ITEM_RANGE, 5);
    uint8_t exponent = rom8(&channel->exponent);
    write_u16(rom16(&channel->multiplier));
    write_i32(exponent < 0x80 ? exponent : (int32_t)exponent - 0x100);
    write_rom32(&channel->lowest);
    write_rom32(&channel->highest);
    write_rom32(&channel->absent);
    return content;
}

/*
 * Writes the item that the kept answer is of into the frame that was begun: for each channel itself, its range, the names of
 * its values; then the fail-safes. Returns where its content begins; 0 where there is no such item.
 */
static APART uint16_t write_item(void) {
    const snag_rig *rig = s.rig;
    const snag_channel *channel = rig->channels;
    const snag_value_name *name = rig->value_names;
    const snag_value_name *last = name + rig->value_name_count;
    uint16_t left = (uint16_t)s.kept.came.word;
    for (uint8_t c = 0; c < rig->channel_count; c++, channel++) {
        if (left == 0) {
            return write_channel(channel);
        }
        left--;
        if (left == 0) {
            return write_range(channel);
        }
        left--;
        for (; name < last && rom8(&name->channel) == c; name++) {
            if (left == 0) {
                return write_value_name(name);
            }
            left--;
        }
    }
    return left < rig->fail_safe_count ? write_fail_safe(&rig->fail_safes[left]) : 0;
}

#endif

static APART void write_hello(const address *to) {
    const snag_rig *rig = s.rig;
    const char *build = rig->build;
    uint8_t length = 0;
    while (length < 12 && build[length] != 0) {
        length++;
    }
    write_message(20, HELLO);
    write_address(to);
    write_u8(VERSION);
    write_at(&s.boot);
    write_u8(s.cause);
    write_u8(rig->real ? 1 : 0);
    write_at(&s.digest);
    write_u16(s.items);
    write_u8(s.channels);
    write_u16(rig->tick_micros);
    write_u8(SNAG_SLOTS);
    write_u8(SNAG_TERMS);
    write_u16(SNAG_POINTS);
    write_u8(SNAG_GUARDS);
    write_u8(SNAG_RING);
    write_u8(SNAG_FRAME);
    write_u16(KINDS | LEFT_OUT);
    write_u16(SNAG_WITH_DELAY ? SNAG_HISTORY : 0);
    write_head(length, 3 << 5);
    while (length-- > 0) {
        write_byte((uint8_t)*build++);
    }
}

#if SNAG_WITH_DESCRIPTION
/* Goes over all items once: how many there are, their digest, and whether each fits a frame. */
static bool describe_items(void) {
    const snag_rig *rig = s.rig;
    uint32_t items = 2u * rig->channel_count + (uint32_t)rig->value_name_count + rig->fail_safe_count;
    if (items > UINT16_MAX) {
        return false;
    }
    s.items = (uint16_t)items;
    /* In the longest form that an answer has. */
    s.kept.to.session = UINT32_MAX;
    s.kept.to.number = UINT16_MAX;
    for (uint16_t i = 0; i < s.items; i++) {
        uint16_t content;
        s.kept.came.word = i;
        write_begin();
        content = write_item();
        /* A table of names that is not sorted by channel leaves some out. */
        if (content == 0 || s.out.full) {
            return false;
        }
        crc_add(&s.digest, s.out.bytes + content, (uint8_t)(s.out.writing - content));
    }
    for (uint8_t i = 0; i < rig->fail_safe_count; i++) {
        if (!is_fail_safe(rom8(&rig->fail_safes[i].number))) {
            return false;
        }
    }
    return true;
}
#endif

/* Whether what the rig tells of itself fits a frame. */
static bool describe(void) {
#if SNAG_WITH_DESCRIPTION
    if (!describe_items()) {
        return false;
    }
#else
    copy(&s.digest, &s.rig->digest);
    s.kept.to.session = UINT32_MAX;
#endif
    s.kept.to.number = 1;
    write_begin();
    write_hello(&s.kept.to);
    return !s.out.full;
}

/* ---- events ---- */

static APART void event_add(uint8_t kind, uint8_t a, const int32_t *b) {
    event_log *log = &s.log;
    event *added;
    FROM_ONE_ADDRESS(log);
    log->newest++;
    if (++log->newest_at == SNAG_RING) {
        log->newest_at = 0;
    }
    added = &log->events[log->newest_at];
    added->kind = kind;
    added->a = a;
    added->b = *b;
    mark_moment(&added->at);
    if (++log->since_armed == 0) {
        log->since_armed--;
    }
    if (log->unsent < SNAG_RING) {
        log->unsent++;
    }
    if (log->unseen < SNAG_RING) {
        log->unseen++;
    } else if (log->since_armed > SNAG_RING) {
        set(EVENTS_LOST);
    }
}

/* An event of two small figures. */
static APART void event_note(uint8_t kind, uint8_t a, uint8_t b) {
    int32_t figure = b;
    event_add(kind, a, &figure);
}

static APART void event_add_bits(uint8_t kind, uint8_t a, const uint32_t *b) {
    int32_t figure = as_signed(*b);
    event_add(kind, a, &figure);
}

/* The bench has seen all up to a number; what it has not is sent again. */
static void events_seen(const uint32_t *number) {
    uint32_t later = s.log.newest - *number;
    if (later < s.log.unseen) {
        s.log.unseen = (uint8_t)later;
    }
    s.log.unsent = s.log.unseen;
}

static bool event_send(void) {
    const event_log *log = &s.log;
    const event *next;
    uint8_t back;
    uint8_t at;
    FROM_ONE_ADDRESS(log);
    back = (uint8_t)(log->unsent - 1);
    at = (uint8_t)(log->newest_at - back);
    if (back > log->newest_at) {
        at = (uint8_t)(at + SNAG_RING);
    }
    next = &log->events[at];
    write_begin();
    write_message(7, EVENT);
    write_u32(log->newest - back);
    write_moment(&next->at);
    write_u8(next->kind);
    write_u8(next->a);
    write_signed_at(&next->b);
    return write_end();
}

/* ---- readings ---- */

static APART void set_reading(uint8_t channel, const int32_t *real, const int32_t *told, uint8_t marks) {
    reading *r = reading_at(channel);
    r->real = *real;
    r->told = *told;
    r->marks = (uint8_t)((r->marks & FORCED_IN_PERIOD) | READ_NOW | marks);
}

static APART void set_plain(uint8_t channel, const int32_t *value) {
    set_reading(channel, value, value, 0);
}

#if ADDS
/* Between entries values are wider than 32 bits: high * 2^32 + low. */
typedef struct {
    uint32_t low;
    int16_t high;
} wide;

static APART void take(wide *value, const int32_t *x) {
    value->low = (uint32_t)*x;
    value->high = *x < 0 ? -1 : 0;
}

static APART int32_t clamp(const wide *value, int32_t least, int32_t most) {
    if (value->high == (value->low > INT32_MAX ? -1 : 0)) {
        return within(as_signed(value->low), least, most);
    }
    return value->high < 0 ? least : most;
}
#else
/* Nothing adds: a value between entries is one of 32 bits. */
typedef int32_t wide;

static void take(wide *value, const int32_t *x) {
    *value = *x;
}

static int32_t clamp(const wide *value, int32_t least, int32_t most) {
    return within(*value, least, most);
}
#endif

#if SNAG_WITH_OFFSET || SNAG_WITH_DRIFT || SNAG_WITH_SPIKE || SNAG_WITH_NOISE
static APART void add(wide *value, int32_t x) {
    value->low += (uint32_t)x;
    value->high = (int16_t)(value->high + (value->low < (uint32_t)x ? 1 : 0) - (x < 0 ? 1 : 0));
}
#endif

#if SNAG_WITH_OFFSET || SNAG_WITH_DRIFT
/* Since the entry became active, at most 2^31 - 1. */
static uint32_t elapsed(const slot *e) {
    int32_t micros = ago(&e->on_micros);
    return micros < 0 ? INT32_MAX : (uint32_t)micros;
}

/*
 * floor(rate * elapsed / 2^32), from products of halves: 64 bits are costly on small parts. A negative rate is 2^32 less than
 * its bits.
 */
static APART int32_t drifted(int32_t rate, const slot *e) {
    uint32_t micros = elapsed(e);
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
/* floor((v * k + 2^15) / 2^16); >> of a negative number is not portable C99. */
static APART void scale(wide *value, int32_t factor) {
    int64_t product = (int64_t)clamp(value, INT32_MIN, INT32_MAX) * factor + 0x8000;
    uint64_t bits = (uint64_t)product;
    value->low = (uint32_t)(bits >> 16);
    value->high = (int16_t)((int32_t)(bits >> 48) - (product < 0 ? 0x10000 : 0));
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
static void replay(wide *value, const slot *e) {
    uint8_t entry = (uint8_t)(e - s.slots);
    for (uint16_t i = 0; i < s.point_count; i++) {
        if (s.points[i].entry == entry && s.points[i].ticks <= e->of.ticks) {
            take(value, &s.points[i].value);
        }
    }
}
#endif

static void apply(wide *value, const slot *e) {
    switch (e->kind) {
    case STUCK_AT:
        take(value, &e->a);
        break;
#if SNAG_WITH_FREEZE
    case FREEZE:
        take(value, &e->of.frozen);
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
    case DROPOUT: {
        int32_t absent = rom32(&channel_at(e->channel)->absent);
        take(value, &absent);
        break;
    }
#endif
#if SNAG_WITH_DELAY
    case DELAY:
        take(value, &s.history[e->of.past.from + ((e->marks & ROUND) != 0 ? e->of.past.next : 0)]);
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

static bool is_active(const slot *e) {
    return (e->flags & ACTIVE) != 0;
}

/*
 * What the channel is told under the active entries, beginning with what is real. Returns marks: 0 where no entry forces it
 * now, and it is told what is real.
 */
static APART uint8_t force(uint8_t channel, int32_t *told) {
    wide value;
    uint8_t marks = 0;
    const slot *e = s.slots;
    if (s.active_count == 0) {
        return 0;
    }
    take(&value, told);
    for (uint8_t left = s.slot_count; left > 0; left--, e++) {
        if (e->channel == channel && is_active(e) && (e->marks & SHUT) == 0) {
            apply(&value, e);
            marks |= SNAG_WITH_DROPOUT && e->kind == DROPOUT ? FORCED | ABSENT : FORCED;
        }
    }
    if (marks != 0) {
        const snag_channel *spec = channel_at(channel);
        *told = clamp(&value, rom32(&spec->lowest), rom32(&spec->highest));
    }
    return marks;
}

/* Passes a reading or a drive: the first of a channel in a tick decides. */
static APART int32_t pass(uint8_t channel, int32_t real, bool drives) {
    int32_t told = real;
    uint8_t marks = 0;
    uint8_t kind;
    if (channel >= s.channels) {
        return real;
    }
    if ((reading_at(channel)->marks & READ_NOW) != 0) {
        return reading_at(channel)->told;
    }
    kind = kind_of(channel);
    if (drives) {
        if (snag_may_move() && force(channel, &told) != 0) {
            marks = FORCED;
            told = real >= 0 ? within(told, 0, real) : within(told, real, 0);
        }
    } else {
        /* Actuators go as drives; and while the rig stops, no command may set it going. */
        if (kind != SNAG_ACTUATOR && (kind != SNAG_COMMAND || !is(IS_STOPPING))) {
            marks = force(channel, &told);
        }
        if (marks == 0 && s.commanded == channel) {
            told = s.commanded_value;
            marks = FORCED;
        }
    }
    set_reading(channel, &real, &told, marks);
    return told;
}

int32_t snag_read(uint8_t channel, int32_t real) {
    return pass(channel, real, false);
}

int32_t snag_drive(uint8_t channel, int32_t wanted) {
    return pass(channel, wanted, true);
}

void snag_report(uint8_t channel, int32_t value) {
    bool changed;
    if (channel >= s.channels) {
        return;
    }
    changed = reading_at(channel)->told != value;
    set_plain(channel, &value);
    if (changed && kind_of(channel) == SNAG_STATE) {
        event_add(STATE, channel, &value);
    }
}

/* Where in its byte the answer of a fail-safe is kept. */
static APART uint8_t bit_of(uint8_t fail_safe) {
    return (uint8_t)(1u << (fail_safe & 7));
}

void snag_answered(uint8_t fail_safe) {
    int32_t number = fail_safe;
    uint32_t *times;
    if (s.channels == 0 || !is_fail_safe(fail_safe)) {
        return;
    }
    s.answered[fail_safe >> 3] |= bit_of(fail_safe);
    s.answer_count++;
    times = &s.answers_of[fail_safe - 1];
    ++*times;
    event_add_bits(ANSWERED, fail_safe, times);
    set_plain(0, &number);
}

/* ---- the program ---- */

static APART void program_clear(void) {
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
    reset(IS_ARMED | PROGRAM_ENDED);
    s.program_digest = 0;
}

static void program_arm(uint32_t seed) {
    slot *e = s.slots;
    term *t = s.terms;
    for (uint8_t i = 0; i < s.slot_count; i++, e++) {
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
    for (uint8_t left = s.term_count; left > 0; left--, t++) {
        t->what &= (uint8_t)~(WAS_BEYOND | WENT_ROUND);
#if SNAG_WINDOWS > 0
        t->next = 0;
#endif
    }
    mark_time(&s.armed_micros);
    s.active_count = 0;
    reset(PROGRAM_ENDED);
    set(IS_ARMED);
}

/* What ends an active entry at the start of a tick: what was decided at the end of the one before, or its own time. */
static uint8_t end_of(const slot *e) {
    if (e->decided_end != NOT_ENDED) {
        return e->decided_end;
    }
    if ((e->flags & ONE_TICK) != 0) {
        return LASTED;
    }
    if (e->lasts != 0) {
        int32_t lasted = ago(&e->on_micros);
        /* Longer than the clock can tell is long enough. */
        if (lasted < 0 || lasted >= e->lasts) {
            return LASTED;
        }
    }
    return e->leader == NONE ? (uint8_t)NOT_ENDED : slot_at(e->leader)->ended_why;
}

/* Whatever an active entry does by itself in each tick, also while a stop runs. */
static void entry_goes_on(slot *e, bool begins) {
#if SNAG_WITH_INTERMITTENT
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (begins) {
            t->edge = s.now.micros + t->on_micros;
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
    slot *e = s.slots;
    for (uint8_t i = 0; i < s.slot_count; i++, e++) {
        bool begins = false;
        if (!is(IS_STOPPING)) {
            if (is_active(e)) {
                uint8_t end = end_of(e);
                if (end != NOT_ENDED) {
                    e->flags &= (uint8_t)~ACTIVE;
                    s.active_count--;
                    e->decided_end = NOT_ENDED;
                    e->ended_why = end;
                    event_note(ENTRY_OFF, i, end);
                }
            }
            if ((e->marks & STRUCK) != 0) {
                e->marks &= (uint8_t)~(STRUCK | SHUT);
                e->strikes++;
                mark_time(&e->on_micros);
                e->ended_why = NOT_ENDED;
                e->flags |= ACTIVE;
                s.active_count++;
                event_add_bits(ENTRY_ON, i, &e->strikes);
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
    slot *e = s.slots;
    for (uint8_t i = 0; i < s.slot_count; i++, e++) {
        if (is_active(e)) {
            event_note(ENTRY_OFF, i, RELEASED);
        }
    }
    program_clear();
}

#if SNAG_WINDOWS > 0
/* Puts the value of this tick into a term's window and gives that of so many ticks ago; false where there is none. */
static bool window_turn(term *t, const int32_t *now, int32_t *then) {
    int32_t *cell = &s.windows[t->from + t->next];
    bool reaches = (t->what & WENT_ROUND) != 0;
    *then = *cell;
    *cell = *now;
    t->next++;
    if (t->next == t->window) {
        t->next = 0;
        t->what |= WENT_ROUND;
    }
    return reaches;
}

static bool window_holds(term *t, const int32_t *now, bool faster) {
    int32_t then;
    uint32_t change;
    if (!window_turn(t, now, &then)) {
        return false;
    }
    change = distance(now, &then);
    return faster ? is_beyond(change, &t->value) : t->value > 0 && change < (uint32_t)t->value;
}
#endif

/* As many as there are comparisons of two values by themselves: how they hold for less, equal and greater. */
enum { LESS = 1, EQUAL = 2, GREATER = 4 };

static bool term_holds(term *t) {
    static const uint8_t holding[] SNAG_ROM = {EQUAL | GREATER, GREATER, LESS | EQUAL, LESS, EQUAL, LESS | GREATER,
                                               EQUAL | GREATER, LESS | EQUAL};
    uint8_t comparison = t->what & COMPARISON_BITS;
    const reading *r;
    const int32_t *now;
    uint8_t order;
    bool holds;
    if (comparison == HAS_ANSWERED) {
        uint8_t number = (uint8_t)t->value;
        return is_fail_safe(number) && (s.answered[number >> 3] & bit_of(number)) != 0;
    }
    r = reading_at(t->channel);
    now = (t->what & OF_TOLD) != 0 ? &r->told : &r->real;
    if (comparison == AGREES) {
        return !is_beyond(distance(&r->told, &r->real), &t->value);
    }
#if SNAG_WINDOWS > 0
    if (comparison >= FASTER_THAN) {
        return window_holds(t, now, comparison == FASTER_THAN);
    }
#endif
    order = *now < t->value ? LESS : *now == t->value ? EQUAL : GREATER;
    holds = (rom8(&holding[comparison]) & order) != 0;
    if (comparison >= RISES_TO) {
        bool before = (t->what & WAS_BEYOND) != 0;
        t->what &= (uint8_t)~WAS_BEYOND;
        if (!holds) {
            t->what |= WAS_BEYOND;
        }
        holds = holds && before;
    }
    return holds;
}

static void look_at_terms(void) {
    slot *e = s.slots;
    term *t = s.terms;
    for (uint8_t left = s.slot_count; left > 0; left--, e++) {
        e->conditions &= HAS_UNTIL;
    }
    for (uint8_t left = s.term_count; left > 0; left--, t++) {
        if (!term_holds(t)) {
            slot_at(t->entry)->conditions |= t->fails;
        }
    }
}

/* What ends an active entry with the next tick; a follower ends with its leader, which stands before it. */
static uint8_t decide_end(const slot *e) {
    if (e->leader != NONE) {
        return slot_at(e->leader)->decided_end;
    }
    if ((e->conditions & (HAS_UNTIL | UNTIL_FAILS)) == HAS_UNTIL) {
        return ENDED_UNTIL;
    }
    return (e->conditions & WHILE_FAILS) != 0 ? ENDED_WHILE : NOT_ENDED;
}

static APART void strike(slot *e) {
    e->marks |= STRUCK;
#if SNAG_WITH_FREEZE
    if (e->kind == FREEZE) {
        e->of.frozen = reading_at(e->channel)->real;
    }
#endif
}

static APART void finish(slot *e, uint8_t entry) {
    e->marks |= DONE | DONE_NOW;
    mark_time(&e->done_micros);
    event_note(STAGE_DONE, entry, 0);
}

/* Enabled from the tick after the one in which the stage that it hangs on was done, or from that one on. */
static bool is_enabled(const slot *e) {
    uint8_t wanted = (e->flags & SAME_TICK) != 0 ? DONE : DONE | DONE_NOW;
    if (e->kind == WAIT && (e->marks & DONE) != 0) {
        return false;
    }
    return e->after == NONE || (slot_at(e->after)->marks & wanted) == DONE;
}

/* A wait has its limit in `lasts`: what comes about later, even in this tick, came too late. */
static bool is_overdue(const slot *e) {
    const uint32_t *enabled = e->after == NONE ? &s.armed_micros : &slot_at(e->after)->done_micros;
    return e->kind == WAIT && e->lasts != 0 && ago(enabled) > e->lasts;
}

/* Takes the truth of the condition at the end of a tick; true if it is an occasion. */
static APART bool rises(slot *e) {
    bool holds = (e->conditions & WHEN_FAILS) == 0;
    bool occasion = holds;
    bool before = (e->marks & OCCASION) != 0;
#if SNAG_TIMINGS > 0
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (holds && (e->marks & HELD) == 0) {
            mark_time(&t->held_since);
        }
        occasion = holds && (before || is_over(&t->held_since, &t->for_micros));
    }
    e->marks &= (uint8_t)~HELD;
    if (holds) {
        e->marks |= HELD;
    }
#endif
    e->marks &= (uint8_t)~OCCASION;
    if (occasion) {
        e->marks |= OCCASION;
    }
    return occasion && !before;
}

/* True if the entry strikes with it. Without a timing the first occasion strikes, once. */
static bool strikes_now(slot *e) {
    bool occasion = rises(e);
#if SNAG_TIMINGS > 0
    if (e->timing != NONE) {
        timing *t = &s.timings[e->timing];
        if (occasion) {
            bool may_strike = !is_active(e) && (t->times == 0 || e->strikes < t->times);
            t->occasions++;
            if (may_strike && (e->marks & DELAYING) == 0 && t->occasions >= t->occasion) {
                e->marks |= DELAYING;
                mark_time(&t->delayed_since);
            }
        }
        if ((e->marks & DELAYING) != 0 && is_over(&t->delayed_since, &t->delay_micros)) {
            e->marks &= (uint8_t)~DELAYING;
            return true;
        }
        return false;
    }
#endif
    return occasion && !is_active(e) && e->strikes == 0;
}

static void decide_start(slot *e, uint8_t i) {
    if (e->leader != NONE) {
        if ((slot_at(e->leader)->marks & STRUCK) != 0) {
            strike(e);
        }
        return;
    }
    if ((e->flags & (ACTIVE | STAGE)) == (ACTIVE | STAGE) && (e->marks & DONE) == 0) {
        finish(e, i);
    }
    if (!is_enabled(e)) {
        if ((e->flags & ANEW) != 0) {
            (void)rises(e);
        }
        return;
    }
    if (is_overdue(e)) {
        set(PROGRAM_ENDED);
        for (slot *other = s.slots; other < s.slots + s.slot_count; other++) {
            other->marks &= (uint8_t)~STRUCK;
        }
        event_note(STAGE_TIMED_OUT, i, 0);
    } else if (strikes_now(e)) {
        if (e->kind == WAIT) {
            finish(e, i);
        } else {
            strike(e);
        }
    }
}

static void program_end_tick(void) {
    slot *e = s.slots;
    look_at_terms();
    for (uint8_t left = s.slot_count; left > 0; left--, e++) {
        e->marks &= (uint8_t)~DONE_NOW;
        if (is_active(e)) {
            e->decided_end = decide_end(e);
        }
    }
    e = s.slots;
    for (uint8_t i = 0; i < s.slot_count && !is(PROGRAM_ENDED); i++, e++) {
        decide_start(e, i);
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

static APART bool guard_beyond(const guard *g) {
    int32_t real = reading_at(g->channel)->real;
    return real < g->a || real > g->b;
}

static bool trips_on_travel(guard *g) {
    int32_t real;
    if (!guard_beyond(g)) {
        g->marks = 0;
        return false;
    }
    if (g->marks == 0) {
        return true;
    }
    real = reading_at(g->channel)->real;
    return real > g->b ? real > g->of.way_back_from : real < g->of.way_back_from;
}

#if SNAG_KEPT > 0
/* Whether the change over a guard's window is beyond a limit, or the other way; false while there are not so many readings. */
static APART bool guard_changes(const guard *g, const int32_t *limit, bool beyond) {
    uint8_t at;
    if (s.kept_ticks < g->window) {
        return false;
    }
    at = (uint8_t)(s.kept_at - g->window);
    if (s.kept_at < g->window) {
        at = (uint8_t)(at + SNAG_WINDOW);
    }
    return is_beyond(distance(&reading_at(g->channel)->real, &s.kept_readings[g->kept][at]), limit) == beyond;
}

static bool guard_stands(const guard *g) {
    int32_t nothing = 0;
    const reading *r = reading_at(g->command);
    /* What a drive was given, not what was wanted: a motor that is made weak does not push. */
    const int32_t *command = kind_of(g->command) == SNAG_ACTUATOR ? &r->told : &r->real;
    return distance(command, &nothing) >= (uint32_t)g->a && guard_changes(g, &g->b, false);
}
#endif

static bool guard_trips(guard *g) {
#if SNAG_KEPT > 0
    if (g->kind == SPEED) {
        return guard_changes(g, &g->a, true);
    }
    if (g->kind == STALL) {
        /* In a safe stop the drives go past the probe, so that no stall can be told. */
        if (is(IS_STOPPING) || !guard_stands(g)) {
            g->marks = 0;
            return false;
        }
        if (g->marks == 0) {
            g->marks = STALLED;
            mark_time(&g->of.stalled_since);
        }
        return is_over(&g->of.stalled_since, &g->time);
    }
#endif
    return trips_on_travel(g);
}

/* The first guard that trips at the end of this tick; NONE for none. All are looked at, since some count time. */
static uint8_t guards_tripped(void) {
    uint8_t first = NONE;
    guard *g = s.guards + s.guard_count;
    for (uint8_t i = s.guard_count; i > 0; i--) {
        if (guard_trips(--g)) {
            first = (uint8_t)(i - 1);
        }
    }
    return first;
}

/* After a latch is released, the machine may come back from beyond a limit of travel. */
static void guards_allow_way_back(void) {
    guard *g = s.guards;
    for (uint8_t left = s.guard_count; left > 0; left--, g++) {
        g->marks = 0;
        if (g->kind == TRAVEL && guard_beyond(g)) {
            g->marks = WAY_BACK;
            g->of.way_back_from = reading_at(g->channel)->real;
        }
    }
}

/* No time from before arming counts; of a simulated plant, which is reset then, no reading either. */
static void guards_arm(void) {
    guard *g = s.guards;
    for (uint8_t left = s.guard_count; left > 0; left--, g++) {
        g->marks &= (uint8_t)~STALLED;
    }
#if SNAG_KEPT > 0
    if (!s.rig->real) {
        s.kept_ticks = 0;
    }
#endif
}

static bool guards_watch(uint8_t channel) {
    const guard *g = s.guards;
    for (uint8_t left = s.guard_count; left > 0; left--, g++) {
        if (g->channel == channel) {
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
    for (uint8_t pass_over = 0; pass_over < 2; pass_over++) {
        for (uint8_t c = 0; c < s.channels && rows < SNAG_KEPT; c++) {
            if (has_flag(c, SNAG_CLOSES_LOOP) == (pass_over == 0)) {
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
            s.kept_readings[row][s.kept_at] = reading_at(s.kept_channels[row])->real;
        }
    }
    s.kept_at++;
    if (s.kept_at == SNAG_WINDOW) {
        s.kept_at = 0;
    }
    if (s.kept_ticks < SNAG_WINDOW) {
        s.kept_ticks++;
    }
#endif
}
#endif

/* ---- the safe stop ---- */

bool snag_may_move(void) {
    return !is(IS_STOPPING | IS_LATCHED);
}

static APART bool is_latched_by_guard(void) {
    return is(IS_LATCHED) && s.latch_reason == SNAG_STOP_GUARD;
}

/* Begins a stop, or makes the one that runs a graver one. */
static APART void stop_begin(uint8_t reason) {
    if (reason != SNAG_STOP_LET_GO && !is_latched_by_guard()) {
        set(IS_LATCHED);
        s.latch_reason = reason;
    }
    if (!is(IS_STOPPING)) {
        set(IS_STOPPING);
        s.stop_reason = reason;
        snag_port_stop(reason);
        event_note(STOP, reason, 0);
    }
}

/* In their order of power. */
static void stop_if_needed(void) {
#if SNAG_GUARDS > 0
    if (!is_latched_by_guard()) {
        uint8_t tripped = guards_tripped();
        if (tripped != NONE) {
            event_add(GUARD_TRIPPED, tripped, &reading_at(s.guards[tripped].channel)->real);
            stop_begin(SNAG_STOP_GUARD);
        }
    }
#endif
    if (is(IS_LEASED) && ago(&s.lease_until) >= 0) {
        reset(IS_LEASED);
        event_note(LEASE, 0, 0);
        /* A bench that waits for the end of a stop cannot renew: that stop goes on under its own reason. */
        if (!is(IS_STOPPING)) {
            stop_begin(SNAG_STOP_LEASE);
        }
    }
    if (s.letting_go) {
        stop_begin(SNAG_STOP_LET_GO);
    }
}

/* ---- requests ---- */

static APART bool read_all(void) {
    return !s.in.failed && s.in.at == s.in.end;
}

/* What comes of a request is that it is done, unless something refuses it: why, with a word. */
static APART void refused(uint8_t why, int32_t word) {
    s.came.code = why;
    s.came.word = word;
}

static APART void refused_small(uint8_t why, uint8_t word) {
    refused(why, word);
}

static APART void refused_at(uint8_t why, const int32_t *word) {
    refused(why, *word);
}

static APART void refused_digest(const uint32_t *digest) {
    refused(MISMATCH, as_signed(*digest));
}

static APART void malformed(uint8_t field) {
    refused_small(MALFORMED, field);
}

static APART void no_room(uint16_t most) {
    refused(NO_ROOM, most);
}

static APART void done_with_newest(void) {
    s.came.word = as_signed(s.log.newest);
}

static APART void set_answer(answer *to, uint8_t type, const address *of) {
    to->type = type;
    to->to = *of;
    to->came = s.came;
    mark_moment(&to->at);
}

/* Answers a request of the session with what came of it. That of the last one is kept, to be given again. */
static APART void answer_done(const uint32_t *number) {
    address of;
    answer *to = &s.aside;
    copy(&of.session, &s.session);
    copy(&of.number, number);
    if (equal(number, &s.last_number)) {
        to = &s.kept;
        s.answer_waits = true;
    }
    set_answer(to, s.came.code == DONE_WELL ? ACK : NO, &of);
}

/* Refuses what is no request of this session: the session's own last answer stays. */
static APART void refuse_aside(uint8_t why, int32_t word) {
    refused(why, word);
    set_answer(&s.aside, NO, &s.asked);
}

static APART bool is_worked_on(void) {
    return (s.letting_go && equal(&s.asked.number, &s.let_go_number)) ||
           (s.commanding && equal(&s.asked.number, &s.command_number));
}

/*
 * Reads all fields of a request: bit n of `unsigneds` for a u32, else an i32. Where they are not what the request has,
 * it is refused.
 */
static APART bool read_fields(uint8_t count, uint16_t unsigneds, int32_t *f, uint8_t *n) {
    for (uint8_t i = count; i > 0; i--) {
        *f = (unsigneds & 1u) != 0 ? as_signed(read_u32()) : read_i32();
        *n++ = small(f++);
        unsigneds >>= 1;
    }
    if (!read_all() || s.fields != count) {
        malformed((uint8_t)(s.fields < count ? s.fields : count));
        return false;
    }
    return true;
}

/* NONE and WRONG are no channels and no entries. */
static APART bool is_channel(uint8_t channel) {
    return channel < s.channels;
}

static APART bool is_loaded(uint8_t entry) {
    return entry < s.slot_count;
}

/* -- entry -- */

enum { E_INDEX, E_KIND, E_CHANNEL, E_A, E_B, E_LEADER, E_AFTER, E_LASTS, E_FLAGS, E_FIELDS };

static bool flags_are_wrong(const uint8_t *n) {
    uint8_t flags = n[E_FLAGS];
    return flags > (ONE_TICK | STAGE | ANEW | SAME_TICK) || (n[E_KIND] == WAIT && (flags & STAGE) == 0) ||
           (n[E_LEADER] != NONE && (flags & ~ONE_TICK) != 0) || ((flags & SAME_TICK) != 0 && n[E_AFTER] == NONE);
}

static bool leader_is_wrong(const uint8_t *n) {
    const slot *leader;
    if (n[E_LEADER] == NONE) {
        return false;
    }
    if (!is_loaded(n[E_LEADER]) || n[E_KIND] == WAIT) {
        return true;
    }
    leader = slot_at(n[E_LEADER]);
    return leader->kind == WAIT || leader->leader != NONE;
}

static bool after_is_wrong(const uint8_t *n) {
    if (n[E_AFTER] == NONE) {
        return false;
    }
    return !is_loaded(n[E_AFTER]) || (slot_at(n[E_AFTER])->flags & STAGE) == 0;
}

/* The first field that is wrong; NONE for none. */
static uint8_t entry_wrong(const int32_t *f, const uint8_t *n) {
    if (n[E_INDEX] != s.slot_count) {
        return E_INDEX;
    }
    if (n[E_KIND] == WAIT ? n[E_CHANNEL] != NONE : !is_channel(n[E_CHANNEL])) {
        return E_CHANNEL;
    }
#if SNAG_WITH_DELAY
    if (n[E_KIND] == DELAY && f[E_A] < 1) {
        return E_A;
    }
#endif
#if SNAG_WITH_OFFSET
    if (n[E_KIND] == OFFSET && f[E_B] != 0 && (f[E_A] < 0) != (f[E_B] < 0)) {
        return E_B;
    }
#endif
    if (leader_is_wrong(n)) {
        return E_LEADER;
    }
    if (after_is_wrong(n)) {
        return E_AFTER;
    }
    if (f[E_LASTS] < 0) {
        return E_LASTS;
    }
    return flags_are_wrong(n) ? E_FLAGS : NONE;
}

static bool may_force(const int32_t *f, const uint8_t *n) {
    uint8_t kind = kind_of(n[E_CHANNEL]);
    if (kind == SNAG_ACTUATOR) {
        return has_flag(n[E_CHANNEL], SNAG_MAY_BE_WEAKENED) &&
               ((n[E_KIND] == STUCK_AT && f[E_A] == 0) ||
                (SNAG_WITH_SCALE && n[E_KIND] == SCALE && f[E_A] >= 0 && f[E_A] <= 0x10000));
    }
    return kind != SNAG_STATE && kind != SNAG_COUNTER;
}

static void entry_load(const int32_t *f, const uint8_t *n) {
    slot *e = slot_at(s.slot_count++);
    memset(e, 0, sizeof *e);
    e->a = f[E_A];
#if SNAG_WITH_OFFSET
    e->b = f[E_B];
#endif
    e->lasts = f[E_LASTS];
    e->kind = n[E_KIND];
    e->channel = n[E_CHANNEL];
    e->leader = n[E_LEADER];
    e->after = n[E_AFTER];
    e->flags = n[E_FLAGS];
#if SNAG_TIMINGS > 0
    e->timing = NONE;
#endif
#if SNAG_WITH_DELAY
    if (e->kind == DELAY) {
        e->of.past.from = s.history_taken;
        s.history_taken = (uint16_t)(s.history_taken + e->a);
    }
#endif
}

static void entry_take(const int32_t *f, const uint8_t *n) {
    uint8_t wrong;
    if (n[E_KIND] > REPLAY || ((uint16_t)KINDS >> n[E_KIND] & 1u) == 0) {
        refused_at(UNKNOWN_KIND, &f[E_KIND]);
        return;
    }
    if (s.slot_count == SNAG_SLOTS) {
        no_room(SNAG_SLOTS);
        return;
    }
    wrong = entry_wrong(f, n);
    if (wrong != NONE) {
        malformed(wrong);
    } else if (n[E_KIND] != WAIT && !may_force(f, n)) {
        refused_small(NOT_ALLOWED, n[E_CHANNEL]);
#if SNAG_WITH_DELAY
    } else if (n[E_KIND] == DELAY && f[E_A] > (int32_t)SNAG_HISTORY - s.history_taken) {
        no_room(SNAG_HISTORY);
#endif
    } else {
        entry_load(f, n);
    }
}

/* -- timing -- */

enum { T_ENTRY, T_FOR, T_DELAY, T_ON, T_OFF, T_OCCASION, T_TIMES, T_FIELDS };

#if SNAG_TIMINGS > 0
static uint8_t timing_wrong(const int32_t *f, uint8_t entry) {
    const slot *e;
    bool follows;
    if (!is_loaded(entry)) {
        return T_ENTRY;
    }
    e = slot_at(entry);
    follows = e->leader != NONE;
    /* None is below 0; a follower begins with its leader, at once and as often; a wait has no gate. */
    for (uint8_t i = T_FOR; i <= T_OFF; i++) {
        bool none = i <= T_DELAY ? follows : i == T_ON ? e->kind == WAIT : f[T_ON] == 0;
        if (f[i] < 0 || (none && f[i] != 0)) {
            return i;
        }
    }
    if (f[T_OCCASION] < 1 || (follows && f[T_OCCASION] != 1)) {
        return T_OCCASION;
    }
    return f[T_TIMES] < 0 || (follows && f[T_TIMES] != 1) ? T_TIMES : NONE;
}

static void timing_take(const int32_t *f, const uint8_t *n) {
    uint8_t wrong = timing_wrong(f, n[T_ENTRY]);
    slot *e;
    timing *t;
    if (wrong != NONE) {
        malformed(wrong);
        return;
    }
    if (!SNAG_WITH_INTERMITTENT && f[T_ON] != 0) {
        refused_small(UNKNOWN_KIND, 0);
        return;
    }
    e = slot_at(n[T_ENTRY]);
    if (e->timing == NONE) {
        if (s.timing_count == SNAG_TIMINGS) {
            no_room(SNAG_TIMINGS);
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
}
#endif

/* -- term -- */

enum { C_ENTRY, C_ROLE, C_CHANNEL, C_SOURCE, C_COMPARISON, C_VALUE, C_WINDOW, C_FIELDS };

static bool is_windowed(const uint8_t *n) {
    return n[C_COMPARISON] == FASTER_THAN || n[C_COMPARISON] == SLOWER_THAN;
}

static uint8_t term_wrong(const int32_t *f, const uint8_t *n) {
    uint8_t comparison = n[C_COMPARISON];
    if (!is_loaded(n[C_ENTRY]) || slot_at(n[C_ENTRY])->leader != NONE) {
        return C_ENTRY;
    }
    if (comparison == HAS_ANSWERED ? n[C_CHANNEL] != NONE : !is_channel(n[C_CHANNEL])) {
        return C_CHANNEL;
    }
    if (n[C_SOURCE] > (comparison == AGREES ? 0 : 1)) {
        return C_SOURCE;
    }
    if ((comparison == HAS_ANSWERED && (f[C_VALUE] < 1 || f[C_VALUE] > 255)) || (comparison == AGREES && f[C_VALUE] < 0)) {
        return C_VALUE;
    }
    return SNAG_WINDOWS > 0 && is_windowed(n) && (n[C_WINDOW] < 1 || n[C_WINDOW] > SNAG_WINDOW) ? C_WINDOW : NONE;
}

static void term_take(const int32_t *f, const uint8_t *n) {
    uint8_t wrong;
    uint8_t role;
    term *t;
    if (n[C_COMPARISON] > AGREES || (SNAG_WINDOWS == 0 && is_windowed(n))) {
        refused_at(UNKNOWN_KIND, &f[C_COMPARISON]);
        return;
    }
    if (n[C_ROLE] > UNTIL) {
        refused_at(UNKNOWN_KIND, &f[C_ROLE]);
        return;
    }
    if (s.term_count == SNAG_TERMS) {
        no_room(SNAG_TERMS);
        return;
    }
    wrong = term_wrong(f, n);
    if (wrong != NONE) {
        malformed(wrong);
        return;
    }
#if SNAG_WINDOWS > 0
    if (is_windowed(n) && n[C_WINDOW] > (int32_t)SNAG_WINDOWS - s.windows_taken) {
        no_room(SNAG_WINDOWS);
        return;
    }
#endif
    role = (uint8_t)(WHEN_FAILS << n[C_ROLE]);
    if (role == UNTIL_FAILS) {
        slot_at(n[C_ENTRY])->conditions |= HAS_UNTIL;
    }
    t = &s.terms[s.term_count++];
    t->value = f[C_VALUE];
    t->entry = n[C_ENTRY];
    t->fails = role;
    t->channel = n[C_CHANNEL];
    t->what = n[C_COMPARISON];
    if (n[C_SOURCE] != 0) {
        t->what |= OF_TOLD;
    }
#if SNAG_WINDOWS > 0
    t->window = 0;
    if (is_windowed(n)) {
        t->window = n[C_WINDOW];
        t->from = s.windows_taken;
        s.windows_taken = (uint16_t)(s.windows_taken + t->window);
    }
#endif
}

/* -- point -- */

enum { P_ENTRY, P_TICKS, P_VALUE, P_FIELDS };

#if SNAG_WITH_REPLAY
static void point_take(const int32_t *f, const uint8_t *n) {
    int32_t last = -1;
    uint8_t entry = n[P_ENTRY];
    if (s.point_count == SNAG_POINTS) {
        no_room(SNAG_POINTS);
        return;
    }
    if (!is_loaded(entry) || slot_at(entry)->kind != REPLAY) {
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
    s.points[s.point_count].entry = entry;
    s.points[s.point_count].ticks = (uint32_t)f[P_TICKS];
    s.points[s.point_count].value = f[P_VALUE];
    s.point_count++;
}
#endif

/* -- guard -- */

enum { G_INDEX, G_KIND, G_CHANNEL, G_A, G_B, G_WINDOW, G_TIME, G_COMMAND, G_FIELDS };

#if SNAG_GUARDS > 0
static uint8_t guard_wrong(const int32_t *f, const uint8_t *n) {
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
    return stall && !is_channel(n[G_COMMAND]) ? G_COMMAND : NONE;
}
#endif

static void guard_take(const int32_t *f, const uint8_t *n) {
#if SNAG_GUARDS > 0
    guard *g;
    uint8_t wrong;
    if (n[G_KIND] > STALL) {
        refused_at(UNKNOWN_KIND, &f[G_KIND]);
        return;
    }
    if (s.guard_count == SNAG_GUARDS) {
        no_room(SNAG_GUARDS);
        return;
    }
    wrong = guard_wrong(f, n);
    if (wrong != NONE) {
        malformed(wrong);
        return;
    }
    g = &s.guards[s.guard_count];
    g->kept = row_of(n[G_CHANNEL]);
    if (n[G_KIND] != TRAVEL && g->kept == NONE) {
        no_room(SNAG_KEPT);
        return;
    }
    s.guard_count++;
    g->marks = 0;
    g->kind = n[G_KIND];
    g->channel = n[G_CHANNEL];
    g->a = f[G_A];
    g->b = f[G_B];
    g->window = n[G_WINDOW];
    g->time = f[G_TIME];
    g->command = n[G_COMMAND];
#else
    (void)f;
    (void)n;
    no_room(0);
#endif
}

/* -- arm, do -- */

enum { A_ENTRIES, A_DIGEST, A_GUARDS, A_GUARD_DIGEST, A_SEED, A_FIELDS };
enum { D_WHAT, D_CHANNEL, D_VALUE, D_FIELDS };

static bool is_held_back(void) {
    if (is(IS_LATCHED)) {
        refused_small(LATCHED, s.latch_reason);
        return true;
    }
    if (!is(IS_LEASED)) {
        refused_small(NO_LEASE, 0);
        return true;
    }
    return false;
}

static APART bool is_not_enabled(void) {
    if (snag_port_enabled()) {
        return false;
    }
    refused_small(NOT_ENABLED, 0);
    return true;
}

/* A channel that closes a control loop, is under a lasting fault and has no guard; NONE for none. */
static uint8_t unguarded(void) {
    const slot *e = s.slots;
    if (!s.rig->real) {
        return NONE;
    }
    for (uint8_t left = s.slot_count; left > 0; left--, e++) {
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

static APART void period_restart(void) {
#if SNAG_WITH_PERIODS
    s.period_ticks = 0;
    s.shortest_loop = INT32_MAX;
    s.longest_loop = 0;
#endif
}

/* From now on the loss of nothing older is counted. */
static APART void events_start(void) {
    s.log.since_armed = 0;
    reset(EVENTS_LOST);
}

static void arm_start(const int32_t *f) {
    int32_t nothing = 0;
    uint32_t seed = (uint32_t)f[A_SEED];
    s.commanded = NONE;
    program_arm(seed);
    s.answer_count = 0;
    memset(s.answers_of, 0, sizeof s.answers_of);
#if SNAG_GUARDS > 0
    guards_arm();
#endif
    set_plain(0, &nothing);
    period_restart();
    events_start();
    done_with_newest();
    event_add_bits(ARMED, s.slot_count, &seed);
    snag_port_armed(seed);
}

static bool same_bits(const int32_t *field, const uint32_t *figure) {
    return equal((const uint32_t *)field, figure);
}

static void arm_take(const int32_t *f, const uint8_t *n) {
    uint8_t open;
    if (is_held_back()) {
        return;
    }
    if (n[A_ENTRIES] != s.slot_count || !same_bits(&f[A_DIGEST], &s.program_digest)) {
        refused_digest(&s.program_digest);
        return;
    }
    if (n[A_GUARDS] != s.guard_count || !same_bits(&f[A_GUARD_DIGEST], &s.guard_digest)) {
        refused_digest(&s.guard_digest);
        return;
    }
    open = unguarded();
    if (open != NONE) {
        refused_small(NEEDS_GUARD, open);
    } else if (!is_not_enabled()) {
        arm_start(f);
    }
}

static void command_take(const int32_t *f, const uint8_t *n) {
    uint8_t channel = n[D_CHANNEL];
    const snag_channel *spec;
    if (is_held_back()) {
        return;
    }
    if (!is_channel(channel) || kind_of(channel) != SNAG_COMMAND) {
        malformed(D_CHANNEL);
        return;
    }
    spec = channel_at(channel);
    if (within(f[D_VALUE], rom32(&spec->lowest), rom32(&spec->highest)) != f[D_VALUE]) {
        malformed(D_VALUE);
    } else if (!is_not_enabled()) {
        s.commanded = channel;
        s.commanded_value = f[D_VALUE];
        s.commanding = true;
        copy(&s.command_number, &s.last_number);
    }
}

static void do_take(const int32_t *f, const uint8_t *n) {
    if (n[D_WHAT] == DO_COMMAND) {
        command_take(f, n);
    } else if (n[D_WHAT] != DO_RELEASE_LATCH) {
        refused_at(UNKNOWN_KIND, &f[D_WHAT]);
    } else if (!is(IS_LEASED)) {
        refused_small(NO_LEASE, 0);
    } else if (is(IS_LATCHED)) {
        reset(IS_LATCHED);
#if SNAG_GUARDS > 0
        guards_allow_way_back();
#endif
    }
}

/* -- watch -- */

static void watch_take(void) {
    int32_t ticks = read_i32();
    int32_t figure = read_i32();
    uint8_t first = small(&figure);
    uint8_t count = (uint8_t)(s.fields - 2);
    uint8_t list = s.in.at;
    uint8_t most = s.channels < SNAG_WATCHED ? s.channels : SNAG_WATCHED;
    uint8_t wrong = NONE;
    for (uint8_t i = 2; i < s.fields; i++) {
        figure = read_i32();
        if (wrong == NONE && !is_channel(small(&figure))) {
            wrong = i;
        }
    }
    if (!read_all() || s.fields < 2) {
        malformed(s.fields);
    } else if (ticks < 1 || ticks > (SNAG_WITH_PERIODS ? 0xFFFF : 1)) {
        malformed(0);
    } else if (first != 0 && first != s.watched_count) {
        malformed(1);
    } else if ((uint16_t)first + count > most) {
        no_room(most);
    } else if (wrong != NONE) {
        malformed(wrong);
    } else {
        uint8_t *to = s.watched + first;
        s.in.at = list;
        s.watched_count = (uint8_t)(first + count);
        while (count-- > 0) {
            *to++ = (uint8_t)read_u32();
        }
#if SNAG_WITH_PERIODS
        s.period = (uint16_t)ticks;
        period_restart();
#endif
    }
}

/* -- session -- */

static void keep_take(const int32_t *f) {
    if (f[0] < 1 || f[0] > LONGEST_LEASE_MILLIS) {
        malformed(0);
        return;
    }
    s.lease_until = s.now.micros + (uint32_t)(uint16_t)f[0] * 1000u;
    events_seen((const uint32_t *)&f[1]);
    if (!is(IS_LEASED)) {
        set(IS_LEASED);
        event_note(LEASE, 1, 0);
    }
    done_with_newest();
}

#if SNAG_WITH_DESCRIPTION
static void item_take(const int32_t *f) {
    if (f[0] < 0 || f[0] >= s.items) {
        malformed(0);
    } else {
        s.came.word = f[0];
    }
}
#endif

static APART void digest_add(uint32_t *digest, uint8_t type) {
    if (s.came.code == DONE_WELL) {
        crc_add(digest, &type, 1);
        crc_add(digest, s.in.bytes + s.body, (uint8_t)(s.in.end - s.body));
    }
}

/* Of the requests from `item` on: how many fields, and which of them are u32. */
#define FIELDS(count, unsigneds) ((uint16_t)((count) << 12 | (unsigneds)))

static void perform_listed(uint8_t type) {
    static const uint16_t listed[] SNAG_ROM = {FIELDS(1, 0),
                                               FIELDS(0, 0),
                                               FIELDS(E_FIELDS, 1 << E_LASTS),
                                               FIELDS(T_FIELDS, 1 << T_FOR | 1 << T_DELAY | 1 << T_ON | 1 << T_OFF),
                                               FIELDS(C_FIELDS, 0),
                                               FIELDS(P_FIELDS, 0),
                                               FIELDS(G_FIELDS, 1 << G_TIME),
                                               FIELDS(A_FIELDS, 1 << A_DIGEST | 1 << A_GUARD_DIGEST | 1 << A_SEED),
                                               FIELDS(2, 2),
                                               FIELDS(D_FIELDS, 0),
                                               FIELDS(0, 0)};
    int32_t f[E_FIELDS];
    uint8_t n[E_FIELDS];
    uint16_t fields = rom16(&listed[type - ITEM_REQUEST]);
    if (!read_fields((uint8_t)(fields >> 12), fields & 0xFFF, f, n)) {
        return;
    }
    switch (type) {
    case ITEM_REQUEST:
#if SNAG_WITH_DESCRIPTION
        item_take(f);
#else
        malformed(0);
#endif
        return;
    case ARM:
        arm_take(f, n);
        return;
    case KEEP:
        keep_take(f);
        return;
    case DO:
        do_take(f, n);
        return;
    case GUARD:
        guard_take(f, n);
        digest_add(&s.guard_digest, type);
        return;
    case ENTRY:
        entry_take(f, n);
        break;
    case TERM:
        term_take(f, n);
        break;
    case TIMING:
#if SNAG_TIMINGS > 0
        timing_take(f, n);
#else
        no_room(0);
#endif
        break;
    default: /* a point; a let-go has no fields and does not come here */
#if SNAG_WITH_REPLAY
        point_take(f, n);
#else
        refused_small(UNKNOWN_KIND, REPLAY);
#endif
        break;
    }
    digest_add(&s.program_digest, type);
}

static void perform(const int32_t *asked) {
    uint8_t type = small(asked);
    copy(&s.last_number, &s.asked.number);
    if (type == LET_GO && s.fields == 0) {
        s.letting_go = true;
        copy(&s.let_go_number, &s.last_number);
    } else if (type != KEEP && is(IS_ARMED | IS_STOPPING)) {
        refused_small(NOT_NOW, 0);
    } else if (type == WATCH) {
        watch_take();
    } else if (type < ITEM_REQUEST || type > LET_GO) {
        refused_at(UNKNOWN_REQUEST, asked);
    } else {
        perform_listed(type);
    }
    if (is_worked_on()) {
        return;
    }
    answer_done(&s.last_number);
    if (type == ITEM_REQUEST && s.came.code == DONE_WELL) {
        s.kept.type = ITEM;
    }
}

/* While another session's lease lives it is still so many milliseconds, of a part one too. */
static void refuse_busy(void) {
    int32_t left = since(&s.now.micros, &s.lease_until);
    refuse_aside(BUSY, left > 0 ? (int32_t)(((uint32_t)left + 999u) / 1000u) : 0);
}

static void open_take(bool ours) {
    int32_t lowest = read_i32();
    int32_t highest = read_i32();
    if (!read_all() || s.fields != 2) {
        refuse_aside(MALFORMED, s.fields);
    } else if (is(IS_LEASED) && !ours) {
        refuse_busy();
    } else if (is(IS_STOPPING | IS_ARMED)) {
        refuse_aside(NOT_NOW, 0);
    } else if (VERSION < lowest || VERSION > highest) {
        refuse_aside(UNKNOWN_KIND, VERSION);
    } else {
        copy(&s.session, &s.asked.session);
        copy(&s.last_number, &s.asked.number);
        program_clear();
        s.guard_count = 0;
        s.guard_digest = 0;
        s.watched_count = 0;
        s.dropped = 0;
        period_restart();
        s.log.unseen = 0;
        s.log.unsent = 0;
        events_start();
        s.is_open = true;
        s.answer_waits = true;
        set_answer(&s.kept, HELLO, &s.asked);
    }
}

static void request_take(uint8_t length) {
    int32_t type;
    uint32_t items;
    uint32_t boot;
    bool ours;
    s.in.at = 0;
    s.in.end = length;
    s.in.failed = false;
    refused_small(DONE_WELL, 0);
    items = read_head();
    if (s.in.major != 4 || items < HEADER_FIELDS || items > (uint8_t)(s.in.end - s.in.at)) {
        return;
    }
    s.fields = (uint8_t)(items - HEADER_FIELDS);
    type = read_i32();
    s.asked.session = read_u32();
    boot = read_u32();
    s.asked.number = read_u32();
    s.body = s.in.at;
    if (s.in.failed || s.asked.session == 0) {
        return;
    }
    ours = equal(&s.asked.session, &s.session);
    if (type != OPEN) {
        if (!equal(&boot, &s.boot)) {
            refuse_aside(OTHER_BOOT, 0);
            return;
        }
        if (!ours) {
            refuse_aside(OTHER_SESSION, 0);
            return;
        }
    }
    if (ours) {
        int32_t later = since(&s.last_number, &s.asked.number);
        if (later == 0 && !is_worked_on() && s.kept.type != 0) {
            s.answer_waits = true;
        }
        if (later <= 0) {
            return; /* given again, or an old one out of some buffer */
        }
    }
    if (type == OPEN) {
        open_take(ours);
    } else {
        perform(&type);
    }
}

/* The safe stop is done and the program gone: a let-go that asked for it is answered. */
static void stop_answer(void) {
    if (s.letting_go) {
        s.letting_go = false;
        reset(IS_LEASED);
        refused_small(DONE_WELL, is(IS_LATCHED) ? 1 : 0);
        answer_done(&s.let_go_number);
    }
}

/* A command is answered when the control code has had its chance to take it. */
static void command_end_tick(void) {
    if (s.commanding) {
        s.commanding = false;
        refused_small(NOT_NOW, 1);
        if (s.commanded != NONE && (reading_at(s.commanded)->marks & READ_NOW) != 0) {
            refused_small(DONE_WELL, 0);
        }
        answer_done(&s.command_number);
    }
    s.commanded = NONE;
}

/* ---- what the bench is told ---- */

static APART bool answer_send(const answer *a) {
    write_begin();
    if (a->type == HELLO) {
        write_hello(&a->to);
#if SNAG_WITH_DESCRIPTION
    } else if (a->type == ITEM) {
        (void)write_item();
#endif
    } else {
        write_message(7, a->type);
        write_address(&a->to);
        write_u8(a->came.code);
        write_signed_at(&a->came.word);
        write_moment(&a->at);
    }
    return write_end();
}

/* Answers, then events, as far as there is room; true if nothing is left of them. */
static bool send_first(void) {
    if (s.greets) {
        answer unasked;
        memset(&unasked, 0, sizeof unasked);
        unasked.type = HELLO;
        if (!answer_send(&unasked)) {
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
    while (s.is_open && s.log.unsent > 0) {
        if (!event_send()) {
            return false;
        }
        s.log.unsent--;
    }
    return true;
}

/* A watched channel, by its place in the list. */
static APART reading *watched_at(uint8_t place) {
    return reading_at(s.watched[place]);
}

#if SNAG_WITH_PERIODS
static APART void widen(int32_t *range, const int32_t *value) {
    if (*value < range[0]) {
        range[0] = *value;
    }
    if (*value > range[1]) {
        range[1] = *value;
    }
}

/* Takes the tick into the period. A channel that was not read in it had its old value in it, which counts. */
static void period_take(void) {
    bool first = s.period_ticks++ == 0;
    for (uint8_t i = 0; first && i < s.watched_count; i++) {
        reading *r = watched_at(i);
        r->marks &= (uint8_t)~FORCED_IN_PERIOD;
        s.spans[i].told[0] = s.spans[i].told[1] = r->told;
        s.spans[i].real[0] = s.spans[i].real[1] = r->real;
    }
    for (uint8_t i = 0; i < s.watched_count; i++) {
        reading *r = watched_at(i);
        widen(s.spans[i].told, &r->told);
        widen(s.spans[i].real, &r->real);
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

static bool is_of_more_ticks(void) {
#if SNAG_WITH_PERIODS
    return s.period > 1;
#else
    return false;
#endif
}

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

/* Part of the watched list in a record. */
typedef struct {
    uint8_t from;
    uint8_t count;
} part;

/* Which of it have a mark, or have it not; the first in the lowest bit. */
static APART void write_mask(const part *p, uint8_t mark, uint8_t as) {
    uint32_t mask = 0;
    for (uint8_t place = (uint8_t)(p->from + p->count); place > p->from; place--) {
        mask <<= 1;
        if ((watched_at((uint8_t)(place - 1))->marks & mark) == as) {
            mask |= 1;
        }
    }
    write_u32(mask);
}

static APART uint8_t forced_mark(void) {
    return is_of_more_ticks() ? FORCED_IN_PERIOD : FORCED;
}

static APART bool is_forced(uint8_t place) {
    return (watched_at(place)->marks & forced_mark()) != 0;
}

static void write_active(void) {
    uint32_t mask = 0;
    const slot *e = s.slots + s.slot_count;
    while (e > s.slots) {
        mask <<= 1;
        e--;
        if (is_active(e)) {
            mask |= 1;
        }
    }
    write_u32(mask);
}
/* The values of a part, one kind of them: all, or only of what is forced. */
enum { TOLD, REAL, LEAST_TOLD, GREATEST_TOLD, LEAST_REAL, GREATEST_REAL };

static const int32_t *value_of(uint8_t place, uint8_t what) {
    const reading *r = watched_at(place);
#if SNAG_WITH_PERIODS
    if (what >= LEAST_REAL) {
        return &s.spans[place].real[what - LEAST_REAL];
    }
    if (what >= LEAST_TOLD) {
        return &s.spans[place].told[what - LEAST_TOLD];
    }
#endif
    return what == TOLD ? &r->told : &r->real;
}

static void write_values(const part *p, uint8_t what) {
    bool forced_only = what == REAL || what >= LEAST_REAL;
    uint8_t place = p->from;
    for (uint8_t left = p->count; left > 0; left--, place++) {
        if (!forced_only || is_forced(place)) {
            write_signed_at(value_of(place, what));
        }
    }
}

static APART bool record_part(const part *p) {
    uint8_t end = (uint8_t)(p->from + p->count);
    uint8_t values = p->count;
    for (uint8_t place = p->from; place < end; place++) {
        if (is_forced(place)) {
            values++;
        }
    }
    write_begin();
#if SNAG_WITH_PERIODS
    write_message((uint8_t)(s.period > 1 ? 15 + 3 * values : 13 + values), RECORD);
    write_u16(s.period);
#else
    write_message((uint8_t)(13 + values), RECORD);
    write_u8(1);
#endif
    write_moment(&s.now);
    write_active();
    write_u8(end < s.watched_count ? s.flags | MORE : s.flags);
    write_at(&s.log.newest);
    write_at(&s.dropped);
    write_u8(p->from);
    write_u8(p->count);
    write_mask(p, forced_mark(), forced_mark());
    write_mask(p, READ_NOW, 0);
    write_mask(p, ABSENT, ABSENT);
#if SNAG_WITH_PERIODS
    if (s.period > 1) {
        write_i32(s.shortest_loop < s.longest_loop ? s.shortest_loop : s.longest_loop);
        write_i32(s.longest_loop);
    }
#endif
    for (uint8_t what = TOLD; what <= (is_of_more_ticks() ? GREATEST_REAL : REAL); what++) {
        write_values(p, what);
    }
    return write_end();
}

/* Puts all parts of a record on the way, or none: half a record would look like a whole one of few channels. */
static bool record_send(void) {
    part p;
    out_place waiting;
    write_begin(); /* moves what waits to the front, so that this length stays its end */
    waiting = s.out.to;
    p.from = 0;
    while (p.from < s.watched_count) {
        p.count = (uint8_t)(s.watched_count - p.from);
        if (p.count > MASK_BITS) {
            p.count = MASK_BITS;
        }
        while (p.count > 0 && !record_part(&p)) {
            p.count >>= 1;
        }
        if (p.count == 0) {
            s.out.to = waiting;
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
#if SNAG_WITH_PERIODS
    s.period = 1;
#endif
    s.channels = rig->channel_count;
    if (boot == 0 || s.channels < 2 || s.channels > SNAG_CHANNELS || !describe()) {
        s.channels = 0;
        return false;
    }
    for (uint8_t c = 0; c < s.channels; c++) {
        const snag_channel *spec = channel_at(c);
        int32_t resting = within(0, rom32(&spec->lowest), rom32(&spec->highest));
        set_plain(c, &resting);
    }
#if SNAG_GUARDS > 0
    kept_start();
#endif
    period_restart();
    s.greets = true;
    return true;
}

static void take_bytes(void) {
    for (uint16_t left = SNAG_BYTES_PER_TICK; left > 0; left--) {
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
    reading *r = s.readings;
    if (s.channels == 0 || s.in_tick) {
        return;
    }
    s.in_tick = true;
    if (s.ticked) {
        s.now.tick++;
#if SNAG_WITH_PERIODS
        loop_took(since(&s.now.micros, &now));
#endif
    }
    s.ticked = true;
    s.now.micros = now;
    for (uint8_t left = s.channels; left > 0; left--, r++) {
        r->marks &= (uint8_t)~READ_NOW;
    }
    if (s.stands) {
        program_release();
        stop_answer();
        s.stands = false;
        reset(IS_STOPPING);
    }
    s.in_hand = is(IS_STOPPING);
    take_bytes();
    if (is(IS_ARMED)) {
        program_begin_tick();
    }
}

void snag_end_tick(void) {
    if (!s.in_tick) {
        return;
    }
    s.in_tick = false;
    set_plain(0, &s.readings[0].real);
    set_plain(1, (const int32_t *)&s.answer_count);
#if SNAG_WITH_DELAY
    if (is(IS_ARMED)) {
        history_keep();
    }
#endif
    stop_if_needed();
    if (is(IS_ARMED) && !is(IS_STOPPING)) {
        program_end_tick();
    }
    command_end_tick();
    if (s.in_hand && is(IS_STOPPING) && snag_port_stopped()) {
        s.stands = true;
        event_note(STOP, s.stop_reason, 1);
    }
    memset(s.answered, 0, sizeof s.answered);
    send();
#if SNAG_GUARDS > 0
    kept_end_tick();
#endif
}

uint32_t snag_tick_micros(void) {
    return s.now.micros;
}

uint32_t snag_bad_frames(void) {
    return s.in.bad;
}
