/* deflate.c: one pass with fixed Huffman codes and one remembered place a hash. Plain areas and repeated marks shrink
 * well and the pass costs little more than reading the bytes. Sources: RFC 1950; RFC 1951, 3.2.5 and 3.2.6. */
#include "papers/deflate_parts.h"

#include <stdlib.h>
#include <string.h>

enum {
    HASH_BITS = 14,
    SMALL_HASH_BITS = 11,
    SMALL = 1 << 14,
    WINDOW = 32768,
    LONGEST = 258,
    SHORTEST = 4,
    WORD = sizeof(uint64_t),
    LENGTH_CODES = 29,
    DISTANCE_CODES = 30
};

typedef struct code {
    uint32_t bits; /* as they go out: least significant first */
    uint32_t count;
} code;

typedef struct bits { /* room for what comes was reserved beforehand: no symbol makes more than the bound counts */
    unsigned char *to;
    uint64_t held; /* not yet written */
    uint32_t count;
} bits;

typedef struct packer {
    code symbols[286];
    code lengths[LONGEST + 1]; /* with their extra bits */
    code distances[DISTANCE_CODES];
    int hash_bits;
    uint16_t *heads; /* [1 << hash_bits] the last 16 bits of place + 1 of the last bytes with this hash */
} packer;

/* The lowest bits, at most 16, in the other order: Huffman codes go most significant bit first. */
static uint32_t turned(uint32_t value, uint32_t count)
{
    value = (value & 0x5555u) << 1 | (value >> 1 & 0x5555u);
    value = (value & 0x3333u) << 2 | (value >> 2 & 0x3333u);
    value = (value & 0x0f0fu) << 4 | (value >> 4 & 0x0f0fu);
    return ((value & 0x00ffu) << 8 | value >> 8) >> (16 - count);
}

static code symbol_code(uint32_t s)
{
    if (s < 144) return (code){turned(0x30 + s, 8), 8};
    if (s < 256) return (code){turned(0x190 + s - 144, 9), 9};
    if (s < 280) return (code){turned(s - 256, 7), 7};
    return (code){turned(0xc0 + s - 280, 8), 8};
}

/* Its place, 0 for 1; of a value that is not 0. */
static uint32_t highest_bit(uint32_t value)
{
    return 31u - (uint32_t)__builtin_clz(value);
}

/* Lengths 3..258 come in classes of 4 with extra bits; the last has a class of its own. */
static code length_code(const packer *p, uint32_t length)
{
    if (length == LONGEST) return p->symbols[285];
    uint32_t rest = length - 3, extra = rest < 4 ? 0 : highest_bit(rest) - 2;
    code c = p->symbols[257 + 4 * extra + (rest >> extra)];
    return (code){c.bits | (rest & ((1u << extra) - 1u)) << c.count, c.count + extra};
}

static void make_codes(packer *p)
{
    for (uint32_t s = 0; s < 286; s++) p->symbols[s] = symbol_code(s);
    for (uint32_t n = 3; n <= LONGEST; n++) p->lengths[n] = length_code(p, n);
    for (uint32_t s = 0; s < DISTANCE_CODES; s++) p->distances[s] = (code){turned(s, 5), 5};
}

static void put(bits *b, code c)
{
    b->held |= (uint64_t)c.bits << b->count;
    b->count += c.count;
    if (b->count < 32) return;
    for (int i = 0; i < 4; i++) *b->to++ = (unsigned char)(b->held >> (8 * i));
    b->held >>= 32;
    b->count -= 32;
}

/* The last bits, filled up to a whole byte. */
static void put_rest(bits *b)
{
    for (uint32_t done = 0; done < b->count; done += 8) *b->to++ = (unsigned char)(b->held >> done);
}

/* Length and distance with their extra bits: 31 bits at most. */
static void put_match(bits *b, const packer *p, size_t length, uint32_t distance)
{
    code c = p->lengths[length];
    uint32_t rest = distance - 1, extra = rest < 2 ? 0 : highest_bit(rest) - 1;
    code way = p->distances[2 * extra + (rest >> extra)];
    c.bits |= way.bits << c.count;
    c.count += way.count;
    c.bits |= (rest & ((1u << extra) - 1u)) << c.count;
    put(b, (code){c.bits, c.count + extra});
}

static uint32_t hash_of(const unsigned char *b, int wide)
{
    uint32_t v = 0;
    memcpy(&v, b, sizeof v);
    return v * 2654435761u >> (32 - wide);
}

/* Eight bytes, the first lowest. */
static uint64_t word_at(const unsigned char *b)
{
    return (uint64_t)b[0] | (uint64_t)b[1] << 8 | (uint64_t)b[2] << 16 | (uint64_t)b[3] << 24 | (uint64_t)b[4] << 32 |
           (uint64_t)b[5] << 40 | (uint64_t)b[6] << 48 | (uint64_t)b[7] << 56;
}

/* How many bytes are the same, when so many are; most at most. */
static size_t same_bytes(const unsigned char *a, const unsigned char *b, size_t n, size_t most)
{
    for (; n + WORD <= most; n += WORD) {
        uint64_t change = word_at(a + n) ^ word_at(b + n);
        if (change != 0) return n + (size_t)__builtin_ctzll(change) / 8;
    }
    while (n < most && a[n] == b[n]) n++;
    return n;
}

/* 0 where not even SHORTEST are the same; most is a WORD at least. */
static size_t match_length(const unsigned char *a, const unsigned char *b, size_t most)
{
    enum { LONG = 40 }; /* so much alike is mostly alike to the end */
    uint64_t change = word_at(a) ^ word_at(b);
    size_t n = change == 0 ? WORD : (size_t)__builtin_ctzll(change) / 8;
    if (n < WORD) return n < SHORTEST ? 0 : n;
    n = same_bytes(a, b, n, most < LONG ? most : LONG);
    if (n < LONG || n == most) return n;
    return memcmp(a + n, b + n, most - n) == 0 ? most : same_bytes(a, b, n, most);
}

static void pack(const packer *p, const unsigned char *data, size_t n, bits *out)
{
    bits b = *out;
    size_t i = 0;
    while (i + WORD <= n) {
        uint16_t *head = &p->heads[hash_of(data + i, p->hash_bits)];
        size_t length = 0,
               back = (uint16_t)(i + 1 - *head); /* of an older place: anywhere, and compared all the same */
        if (back - 1 < WINDOW && back <= i)
            length = match_length(data + i - back, data + i, n - i < LONGEST ? n - i : LONGEST);
        *head = (uint16_t)(i + 1);
        if (length == 0) {
            put(&b, p->symbols[data[i++]]);
            continue;
        }
        put_match(&b, p, length, (uint32_t)back);
        i += length;
    }
    while (i < n) put(&b, p->symbols[data[i++]]);
    *out = b;
}

enum { BLOCK = 32 };

/* Adds a block to Adler's sums: within it the second one takes each byte as often as bytes follow. */
static void add_block(uint32_t sums[2], const unsigned char *data)
{
    static const int16_t follow[BLOCK] = {32, 31, 30, 29, 28, 27, 26, 25, 24, 23, 22, 21, 20, 19, 18, 17,
                                          16, 15, 14, 13, 12, 11, 10, 9,  8,  7,  6,  5,  4,  3,  2,  1};
    int sum = 0, weighted = 0;
    for (int k = 0; k < BLOCK; k++) {
        int16_t byte = data[k];
        sum += byte;
        weighted += follow[k] * byte; /* of short numbers: many at a time */
    }
    sums[1] += BLOCK * sums[0] + (uint32_t)weighted;
    sums[0] += (uint32_t)sum;
}

static void add_blocks(uint32_t sums[2], const unsigned char *data, size_t count)
{
    enum { MANY = 8 };
    static const unsigned char nothing[MANY * BLOCK] = {0};
    for (; count > 0; count--, data += BLOCK) {
        if (count >= MANY && memcmp(data, nothing, sizeof nothing) == 0) {
            sums[1] += MANY * BLOCK * sums[0];
            count -= MANY - 1;
            data += (MANY - 1) * BLOCK;
            continue;
        }
        if (memcmp(data, nothing, BLOCK) == 0)
            sums[1] += BLOCK * sums[0];
        else
            add_block(sums, data);
    }
}

static uint32_t adler(const unsigned char *data, size_t n)
{
    enum { PRIME = 65521, MOST = 172 }; /* MOST blocks keep the sums below 2^32 */
    uint32_t sums[2] = {1, 0};
    size_t whole = n / BLOCK;
    for (size_t done = 0, some = 0; done < whole; done += some) {
        some = whole - done < MOST ? whole - done : MOST;
        add_blocks(sums, data + done * BLOCK, some);
        sums[0] %= PRIME;
        sums[1] %= PRIME;
    }
    for (size_t i = whole * BLOCK; i < n; i++) {
        sums[0] += data[i];
        sums[1] += sums[0];
    }
    return (sums[1] % PRIME) << 16 | sums[0] % PRIME;
}

void deflate_zlib(byte_run *out, const unsigned char *data, size_t length)
{
    SW_ASSERT(length < (size_t)1 << 31);
    packer p = {.hash_bits = length < SMALL ? SMALL_HASH_BITS : HASH_BITS};
    p.heads = calloc((size_t)1 << p.hash_bits, sizeof *p.heads);
    if (p.heads == NULL) out->no_memory = true;
    if (p.heads == NULL || !bytes_reserve(out, length + length / 8 + 64)) { /* a symbol takes 9 bits a byte at most */
        free(p.heads);
        return;
    }
    static const unsigned char head[2] = {0x78, 0x01}; /* deflate, window 32 KiB, fastest */
    make_codes(&p);
    bytes_put(out, head, 2);
    bits b = {.to = out->at + out->used};
    put(&b, (code){3, 3}); /* last block, fixed codes */
    pack(&p, data, length, &b);
    put(&b, p.symbols[256]);
    put_rest(&b);
    out->used = (size_t)(b.to - out->at);
    uint32_t sum = adler(data, length);
    const unsigned char tail[4] = {(unsigned char)(sum >> 24), (unsigned char)(sum >> 16), (unsigned char)(sum >> 8),
                                   (unsigned char)sum};
    bytes_put(out, tail, 4);
    free(p.heads);
}
