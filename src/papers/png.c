/* png.c: writes opaque pictures as PNG, fast for drawings with large plain areas: each row is filtered by Sub or Up,
 * whichever leaves fewer bytes, and packed with fixed Huffman codes and one remembered place a hash.
 * Sources: ISO/IEC 15948:2004 (PNG), RFC 1950 (zlib), RFC 1951 (deflate, fixed codes in 3.2.6). */
#include "papers/png_parts.h"

#include <stdlib.h>
#include <string.h>

enum { CHUNK = 1 << 15, HASH_BITS = 14, WINDOW = 32768, LONGEST = 258, SHORTEST = 4 };

typedef struct packer {
    png_write *write;
    void *closure;
    uint32_t crc_table[256];
    unsigned char held[CHUNK + 64]; /* of the IDAT chunk being filled */
    size_t used;
    uint64_t bits;
    int bit_count;
} packer;

static void make_crc_table(uint32_t table[256])
{
    for (uint32_t n = 0; n < 256; n++) {
        uint32_t c = n;
        for (int k = 0; k < 8; k++) c = (c & 1u) != 0 ? 0xedb88320u ^ (c >> 1) : c >> 1;
        table[n] = c;
    }
}

static uint32_t crc(const packer *p, uint32_t c, const unsigned char *bytes, size_t n)
{
    for (size_t i = 0; i < n; i++) c = p->crc_table[(c ^ bytes[i]) & 255u] ^ (c >> 8);
    return c;
}

static void big_endian(unsigned char out[4], uint32_t v)
{
    for (int i = 0; i < 4; i++) out[i] = (unsigned char)(v >> (24 - 8 * i));
}

static void chunk(packer *p, const char kind[4], const unsigned char *bytes, size_t n)
{
    unsigned char head[8], tail[4];
    big_endian(head, (uint32_t)n);
    memcpy(head + 4, kind, 4);
    uint32_t c = crc(p, 0xffffffffu, head + 4, 4);
    big_endian(tail, crc(p, c, bytes, n) ^ 0xffffffffu);
    p->write(p->closure, head, 8);
    if (n > 0) p->write(p->closure, bytes, n);
    p->write(p->closure, tail, 4);
}

/* ---- deflate ---- */

static void flush_chunk(packer *p)
{
    if (p->used > 0) chunk(p, "IDAT", p->held, p->used);
    p->used = 0;
}

static void put_byte(packer *p, unsigned char b)
{
    p->held[p->used++] = b;
    if (p->used >= CHUNK) flush_chunk(p);
}

static void put_bits(packer *p, uint32_t value, int count) /* least significant first */
{
    p->bits |= (uint64_t)value << p->bit_count;
    p->bit_count += count;
    while (p->bit_count >= 8) {
        put_byte(p, (unsigned char)(p->bits & 255u));
        p->bits >>= 8;
        p->bit_count -= 8;
    }
}

static void put_code(packer *p, uint32_t code, int count) /* Huffman codes go most significant first */
{
    uint32_t turned = 0;
    for (int i = 0; i < count; i++) turned |= (code >> i & 1u) << (count - 1 - i);
    put_bits(p, turned, count);
}

static void put_symbol(packer *p, uint32_t s)
{
    if (s < 144)
        put_code(p, 0x30 + s, 8);
    else if (s < 256)
        put_code(p, 0x190 + s - 144, 9);
    else if (s < 280)
        put_code(p, s - 256, 7);
    else
        put_code(p, 0xc0 + s - 280, 8);
}

/* Lengths 3..258 and distances 1..32768 come in classes with extra bits (RFC 1951, 3.2.5). */
static void put_length(packer *p, uint32_t length)
{
    if (length == LONGEST) {
        put_symbol(p, 285);
        return;
    }
    uint32_t rest = length - 3;
    int extra = 0;
    while (rest >> (extra + 3) != 0) extra++;
    uint32_t top = rest >> extra;
    put_symbol(p, 257 + 4 * (uint32_t)extra + top);
    put_bits(p, rest & ((1u << extra) - 1u), extra);
}

static void put_distance(packer *p, uint32_t distance)
{
    uint32_t rest = distance - 1;
    int extra = 0;
    while (rest >> (extra + 2) != 0) extra++;
    put_code(p, 2 * (uint32_t)extra + (rest >> extra), 5);
    put_bits(p, rest & ((1u << extra) - 1u), extra);
}

static uint32_t hash_of(const unsigned char *b)
{
    uint32_t v = 0;
    memcpy(&v, b, sizeof v);
    return v * 2654435761u >> (32 - HASH_BITS);
}

static size_t match_length(const unsigned char *a, const unsigned char *b, size_t most)
{
    size_t n = 0;
    while (n < most && a[n] == b[n]) n++;
    return n;
}

static void deflate(packer *p, const unsigned char *data, size_t n, uint32_t *heads)
{
    put_bits(p, 1, 1); /* last block */
    put_bits(p, 1, 2); /* fixed codes */
    for (size_t i = 0; i < n;) {
        size_t length = 0, from = 0, most = n - i < LONGEST ? n - i : LONGEST;
        if (most >= SHORTEST) {
            uint32_t *head = &heads[hash_of(data + i)];
            from = *head;
            if (from > 0 && i - (from - 1) <= WINDOW) length = match_length(data + from - 1, data + i, most);
            *head = (uint32_t)i + 1;
        }
        if (length < SHORTEST) {
            put_symbol(p, data[i++]);
            continue;
        }
        put_length(p, (uint32_t)length);
        put_distance(p, (uint32_t)(i - (from - 1)));
        i += length;
    }
    put_symbol(p, 256);
    if (p->bit_count > 0) put_bits(p, 0, 8 - p->bit_count);
}

static uint32_t adler(const unsigned char *data, size_t n)
{
    uint32_t a = 1, b = 0;
    while (n > 0) {
        size_t step = n < 5552 ? n : 5552; /* sums stay below 2^32 */
        for (size_t i = 0; i < step; i++) {
            a += data[i];
            b += a;
        }
        a %= 65521u;
        b %= 65521u;
        data += step;
        n -= step;
    }
    return b << 16 | a;
}

/* ---- rows ---- */

static void row_bytes(const uint32_t *pixels, int columns, unsigned char *out)
{
    for (int i = 0; i < columns; i++) {
        *out++ = (unsigned char)(pixels[i] >> 16);
        *out++ = (unsigned char)(pixels[i] >> 8);
        *out++ = (unsigned char)pixels[i];
    }
}

/* Filters the row against its left and upper neighbours into out[0 .. n]; out[0] is the filter's number. */
static void filter_row(const unsigned char *row, const unsigned char *above, size_t n, unsigned char *out)
{
    size_t sub = 0, up = 0;
    for (size_t i = 0; i < n; i++) {
        sub += row[i] != (i < 3 ? 0 : row[i - 3]);
        up += row[i] != above[i];
    }
    bool by_sub = sub < up;
    *out++ = by_sub ? 1 : 2;
    for (size_t i = 0; i < n; i++) out[i] = (unsigned char)(row[i] - (by_sub ? (i < 3 ? 0 : row[i - 3]) : above[i]));
}

static void filter_all(const png_picture *picture, unsigned char *filtered, unsigned char *rows)
{
    size_t n = 3 * (size_t)picture->columns;
    unsigned char *row = rows, *above = rows + n;
    for (int y = 0; y < picture->rows; y++) {
        row_bytes(
            (const uint32_t *)(const void *)((const unsigned char *)picture->pixels + (size_t)y * picture->stride),
            picture->columns, row);
        filter_row(row, above, n, filtered + (size_t)y * (n + 1));
        unsigned char *swap = above;
        above = row;
        row = swap;
    }
}

static void header(packer *p, const png_picture *picture)
{
    static const unsigned char signature[8] = {137, 'P', 'N', 'G', 13, 10, 26, 10};
    unsigned char ihdr[13] = {0};
    big_endian(ihdr, (uint32_t)picture->columns);
    big_endian(ihdr + 4, (uint32_t)picture->rows);
    ihdr[8] = 8; /* bits a sample */
    ihdr[9] = 2; /* RGB */
    p->write(p->closure, signature, 8);
    chunk(p, "IHDR", ihdr, 13);
    if (picture->pixels_per_m == 0) return;
    unsigned char phys[9] = {0};
    big_endian(phys, picture->pixels_per_m);
    big_endian(phys + 4, picture->pixels_per_m);
    phys[8] = 1; /* metre */
    chunk(p, "pHYs", phys, 9);
}

bool png_bytes(const png_picture *picture, png_write *write, void *closure)
{
    size_t n = 3 * (size_t)picture->columns, total = (n + 1) * (size_t)picture->rows;
    packer *p = calloc(1, sizeof *p);
    unsigned char *filtered = calloc(total + 1, 1), *rows = calloc(2 * n + 1, 1);
    uint32_t *heads = calloc((size_t)1 << HASH_BITS, sizeof *heads);
    bool whole = p != NULL && filtered != NULL && rows != NULL && heads != NULL && total < UINT32_MAX / 2;
    if (whole) {
        unsigned char sum[4];
        p->write = write;
        p->closure = closure;
        make_crc_table(p->crc_table);
        header(p, picture);
        filter_all(picture, filtered, rows);
        put_byte(p, 0x78); /* deflate, window 32 KiB */
        put_byte(p, 0x01);
        deflate(p, filtered, total, heads);
        big_endian(sum, adler(filtered, total));
        for (int i = 0; i < 4; i++) put_byte(p, sum[i]);
        flush_chunk(p);
        chunk(p, "IEND", NULL, 0);
    }
    free(p);
    free(filtered);
    free(rows);
    free(heads);
    return whole;
}
