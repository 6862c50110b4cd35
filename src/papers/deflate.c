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
    LENGTH_CODES = 29,
    DISTANCE_CODES = 30
};

typedef struct code {
    uint32_t bits; /* as they go out: least significant first */
    uint32_t count;
} code;

typedef struct packer {
    byte_run *out;
    uint64_t held; /* bits not yet written */
    uint32_t held_count;
    code symbols[286];
    code lengths[LONGEST + 1]; /* with their extra bits */
    code distances[DISTANCE_CODES];
    int hash_bits;
    uint32_t *heads; /* [1 << hash_bits] place + 1 of the last bytes with this hash; 0 = none */
} packer;

static uint32_t turned(uint32_t value, uint32_t count) /* Huffman codes go most significant bit first */
{
    uint32_t out = 0;
    for (uint32_t i = 0; i < count; i++) out |= (value >> i & 1u) << (count - 1 - i);
    return out;
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

/* Room for the bytes was reserved beforehand: no symbol makes more than the bound counts. */
static void put(packer *p, code c)
{
    p->held |= (uint64_t)c.bits << p->held_count;
    p->held_count += c.count;
    if (p->held_count < 32) return;
    unsigned char *to = p->out->at + p->out->used;
    for (int i = 0; i < 4; i++) to[i] = (unsigned char)(p->held >> (8 * i));
    p->out->used += 4;
    p->held >>= 32;
    p->held_count -= 32;
}

/* The last bits, filled up to a whole byte. */
static void put_rest(packer *p)
{
    for (uint32_t done = 0; done < p->held_count; done += 8)
        p->out->at[p->out->used++] = (unsigned char)(p->held >> done);
}

/* Length and distance with their extra bits: 31 bits at most. */
static void put_match(packer *p, size_t length, uint32_t distance)
{
    code c = p->lengths[length];
    uint32_t rest = distance - 1, extra = rest < 2 ? 0 : highest_bit(rest) - 1;
    code way = p->distances[2 * extra + (rest >> extra)];
    c.bits |= way.bits << c.count;
    c.count += way.count;
    c.bits |= (rest & ((1u << extra) - 1u)) << c.count;
    put(p, (code){c.bits, c.count + extra});
}

static uint32_t hash_of(const unsigned char *b, int bits)
{
    uint32_t v = 0;
    memcpy(&v, b, sizeof v);
    return v * 2654435761u >> (32 - bits);
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
    for (; n + sizeof(uint64_t) <= most; n += sizeof(uint64_t)) {
        uint64_t change = word_at(a + n) ^ word_at(b + n);
        if (change != 0) return n + (size_t)__builtin_ctzll(change) / 8;
    }
    while (n < most && a[n] == b[n]) n++;
    return n;
}

/* 0 where not even SHORTEST are the same. */
static size_t match_length(const unsigned char *a, const unsigned char *b, size_t most)
{
    enum { LONG = 36 }; /* so much alike is mostly alike to the end */
    if (most < SHORTEST || memcmp(a, b, SHORTEST) != 0) return 0;
    size_t n = same_bytes(a, b, SHORTEST, most < LONG ? most : LONG);
    if (n < LONG || n == most) return n;
    return memcmp(a + n, b + n, most - n) == 0 ? most : same_bytes(a, b, n, most);
}

static void pack(packer *p, const unsigned char *data, size_t n)
{
    for (size_t i = 0; i < n;) {
        size_t length = 0, from = 0, most = n - i < LONGEST ? n - i : LONGEST;
        if (most >= SHORTEST) {
            uint32_t *head = &p->heads[hash_of(data + i, p->hash_bits)];
            from = *head;
            if (from > 0 && i - (from - 1) <= WINDOW) length = match_length(data + from - 1, data + i, most);
            *head = (uint32_t)i + 1;
        }
        if (length == 0) {
            put(p, p->symbols[data[i++]]);
            continue;
        }
        put_match(p, length, (uint32_t)(i - (from - 1)));
        i += length;
    }
}

enum { BLOCK = 32 };

/* Adds a block to Adler's sums: within it the second one takes each byte as often as bytes follow. */
static void add_block(uint32_t sums[2], const unsigned char *data, uint32_t length)
{
    uint32_t sum = 0, weighted = 0;
    for (uint32_t k = 0; k < length; k++) {
        sum += data[k];
        weighted += (length - k) * data[k];
    }
    sums[1] += length * sums[0] + weighted;
    sums[0] += sum;
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
            add_block(sums, data, BLOCK); /* of known length: many bytes at a time */
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
    add_block(sums, data + whole * BLOCK, (uint32_t)(n % BLOCK));
    return (sums[1] % PRIME) << 16 | sums[0] % PRIME;
}

void deflate_zlib(byte_run *out, const unsigned char *data, size_t length)
{
    SW_ASSERT(length < (size_t)1 << 31);
    packer p = {.out = out, .hash_bits = length < SMALL ? SMALL_HASH_BITS : HASH_BITS};
    p.heads = calloc((size_t)1 << p.hash_bits, sizeof *p.heads);
    if (p.heads == NULL) out->no_memory = true;
    if (p.heads == NULL || !bytes_reserve(out, length + length / 8 + 64)) { /* a symbol takes 9 bits a byte at most */
        free(p.heads);
        return;
    }
    static const unsigned char head[2] = {0x78, 0x01}; /* deflate, window 32 KiB, fastest */
    make_codes(&p);
    bytes_put(out, head, 2);
    put(&p, (code){3, 3}); /* last block, fixed codes */
    pack(&p, data, length);
    put(&p, p.symbols[256]);
    put_rest(&p);
    uint32_t sum = adler(data, length);
    const unsigned char tail[4] = {(unsigned char)(sum >> 24), (unsigned char)(sum >> 16), (unsigned char)(sum >> 8),
                                   (unsigned char)sum};
    bytes_put(out, tail, 4);
    free(p.heads);
}
