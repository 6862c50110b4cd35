/* png.c: packs opaque pictures and writes them as PNG. Each row is filtered by Sub or Up, whichever leaves fewer
 * changes. Source: ISO/IEC 15948:2004 (PNG). */
#include "papers/deflate_parts.h"
#include "papers/png_parts.h"

#include <stdlib.h>
#include <string.h>

/* ---- palette ---- */

enum { SLOTS = 1024, MOST_COLOURS = 256 };

typedef struct palette {
    uint32_t colours[MOST_COLOURS];
    int count;
    uint32_t keys[SLOTS]; /* colour + 1 */
    unsigned char places[SLOTS];
} palette;

/* Number of the colour, which is entered when new; -1 when there are too many. */
static int place_of(palette *p, uint32_t colour)
{
    uint32_t slot = (colour * 2654435761u) >> 22;
    while (p->keys[slot] != 0 && p->keys[slot] != colour + 1) slot = (slot + 1) % SLOTS;
    if (p->keys[slot] != 0) return p->places[slot];
    if (p->count == MOST_COLOURS) return -1;
    p->keys[slot] = colour + 1;
    p->places[slot] = (unsigned char)p->count;
    p->colours[p->count] = colour;
    return p->count++;
}

static const uint32_t *row_of(const png_picture *picture, int row)
{
    return (const uint32_t *)(const void *)((const unsigned char *)picture->pixels + (size_t)row * picture->stride);
}

/* One byte a pixel into out[rows][columns]; false when there are more than 256 colours. */
static bool by_palette(const png_picture *picture, palette *p, unsigned char *out)
{
    for (int y = 0; y < picture->rows; y++) {
        const uint32_t *row = row_of(picture, y);
        uint32_t last = 0xffffffffu;
        int place = 0;
        for (int x = 0; x < picture->columns; x++) {
            if (row[x] != last) place = place_of(p, row[x] & 0xffffffu);
            if (place < 0) return false;
            last = row[x];
            *out++ = (unsigned char)place;
        }
    }
    return true;
}

static void by_channels(const png_picture *picture, unsigned char *out)
{
    for (int y = 0; y < picture->rows; y++) {
        const uint32_t *row = row_of(picture, y);
        for (int x = 0; x < picture->columns; x++, out += 3) {
            out[0] = (unsigned char)(row[x] >> 16);
            out[1] = (unsigned char)(row[x] >> 8);
            out[2] = (unsigned char)row[x];
        }
    }
}

/* ---- rows ---- */

/* How many of the bytes differ. */
static size_t changes(const unsigned char *restrict a, const unsigned char *restrict b, size_t n)
{
    size_t sum = 0;
    for (size_t i = 0; i < n;) { /* few enough for a byte to count, so that many go at a time */
        size_t end = n - i < 255 ? n : i + 255;
        unsigned char part = 0;
        for (; i < end; i++) part = (unsigned char)(part + (a[i] != b[i]));
        sum += part;
    }
    return sum;
}

static void differences(const unsigned char *restrict a, const unsigned char *restrict b, size_t n,
                        unsigned char *restrict out)
{
    for (size_t i = 0; i < n; i++) out[i] = (unsigned char)(a[i] - b[i]);
}

/* Filters the row against its left (`step` bytes before) and upper neighbours; out[0] is the filter's number. */
static void filter_row(const unsigned char *row, const unsigned char *above, size_t n, size_t step, unsigned char *out)
{
    bool by_sub = changes(row + step, row, n - step) < changes(row, above, n);
    *out++ = by_sub ? 1 : 2;
    memcpy(out, row, step);
    if (by_sub)
        differences(row + step, row, n - step, out + step);
    else
        differences(row, above, n, out);
}

static bool filter_all(const unsigned char *raw, size_t n, int rows, size_t step, unsigned char *out)
{
    unsigned char *nothing = calloc(n, 1); /* above the first row */
    if (nothing == NULL) return false;
    for (int y = 0; y < rows; y++) {
        const unsigned char *row = raw + (size_t)y * n;
        filter_row(row, y == 0 ? nothing : row - n, n, step, out + (size_t)y * (n + 1));
    }
    free(nothing);
    return true;
}

bool png_pack(const png_picture *picture, byte_run *into, png_packed *out)
{
    size_t count = (size_t)picture->columns * (size_t)picture->rows;
    *out = (png_packed){.columns = picture->columns, .row_count = picture->rows};
    palette *p = calloc(1, sizeof *p);
    unsigned char *raw = malloc(3 * count + 1), *filtered = malloc(3 * count + (size_t)picture->rows + 1);
    bool whole = p != NULL && raw != NULL && filtered != NULL && count > 0 && count < UINT32_MAX / 8;
    if (whole && by_palette(picture, p, raw)) {
        out->colours = p->count;
        memcpy(out->palette, p->colours, sizeof out->palette);
    } else if (whole) {
        by_channels(picture, raw);
    }
    size_t step = out->colours > 0 ? 1 : 3, n = step * (size_t)picture->columns;
    whole = whole && filter_all(raw, n, picture->rows, step, filtered);
    if (whole) deflate_zlib(into, filtered, (n + 1) * (size_t)picture->rows);
    free(p);
    free(raw);
    free(filtered);
    out->rows = into->at;
    out->length = into->used;
    return whole && !into->no_memory;
}

/* ---- file ---- */

static void big_endian(unsigned char out[4], uint32_t v)
{
    for (int i = 0; i < 4; i++) out[i] = (unsigned char)(v >> (24 - 8 * i));
}

/* CRC of ISO 3309, four bytes a step: tables[k] carries a byte k places further. */
static void crc_tables(uint32_t tables[4][256])
{
    for (uint32_t n = 0; n < 256; n++) {
        uint32_t c = n;
        for (int k = 0; k < 8; k++) c = (c & 1u) != 0 ? 0xedb88320u ^ (c >> 1) : c >> 1;
        tables[0][n] = c;
    }
    for (uint32_t n = 0; n < 256; n++)
        for (int k = 1; k < 4; k++) tables[k][n] = tables[0][tables[k - 1][n] & 255u] ^ (tables[k - 1][n] >> 8);
}

static uint32_t crc(uint32_t tables[4][256], const unsigned char *data, size_t n)
{
    uint32_t c = 0xffffffffu;
    for (; n >= 4; n -= 4, data += 4) {
        c ^= (uint32_t)data[0] | (uint32_t)data[1] << 8 | (uint32_t)data[2] << 16 | (uint32_t)data[3] << 24;
        c = tables[3][c & 255u] ^ tables[2][c >> 8 & 255u] ^ tables[1][c >> 16 & 255u] ^ tables[0][c >> 24];
    }
    for (; n > 0; n--, data++) c = tables[0][(c ^ *data) & 255u] ^ (c >> 8);
    return c ^ 0xffffffffu;
}

static void chunk(byte_run *out, uint32_t tables[4][256], const char kind[4], const unsigned char *data, size_t n)
{
    unsigned char word[4];
    big_endian(word, (uint32_t)n);
    bytes_put(out, word, 4);
    size_t from = out->used;
    bytes_put(out, kind, 4);
    bytes_put(out, data, n);
    if (out->no_memory) return;
    big_endian(word, crc(tables, out->at + from, n + 4));
    bytes_put(out, word, 4);
}

void png_file(byte_run *out, const png_packed *p, uint32_t pixels_per_m)
{
    static const unsigned char signature[8] = {137, 'P', 'N', 'G', 13, 10, 26, 10};
    uint32_t tables[4][256];
    unsigned char head[13] = {0}, size[9] = {0}, colours[3 * MOST_COLOURS];
    crc_tables(tables);
    big_endian(head, (uint32_t)p->columns);
    big_endian(head + 4, (uint32_t)p->row_count);
    head[8] = 8;                      /* bits a sample */
    head[9] = p->colours > 0 ? 3 : 2; /* palette, RGB */
    bytes_put(out, signature, 8);
    chunk(out, tables, "IHDR", head, 13);
    big_endian(size, pixels_per_m);
    big_endian(size + 4, pixels_per_m);
    size[8] = 1; /* metre */
    if (pixels_per_m > 0) chunk(out, tables, "pHYs", size, 9);
    for (int i = 0; i < p->colours; i++)
        for (int k = 0; k < 3; k++) colours[3 * i + k] = (unsigned char)(p->palette[i] >> (16 - 8 * k));
    if (p->colours > 0) chunk(out, tables, "PLTE", colours, 3 * (size_t)p->colours);
    chunk(out, tables, "IDAT", p->rows, p->length);
    chunk(out, tables, "IEND", NULL, 0);
}
