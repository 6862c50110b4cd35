/* png.c: packs opaque pictures and writes them as PNG. Each row is told as its difference from the one above, which for
 * flat colours is nothing nearly everywhere. Source: ISO/IEC 15948:2004 (PNG). */
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

/* ---- rows: each less the one above it (Up) ---- */

/* Numbers of the colours, less those above; false when there are too many colours. out is zero. */
static bool places_changed(palette *p, const uint32_t *row, const uint32_t *above, int count, unsigned char *out)
{
    for (int i = 0; i < count; i++) {
        if (row[i] == above[i]) continue;
        int here = place_of(p, row[i] & 0xffffffu), over = place_of(p, above[i] & 0xffffffu);
        if (here < 0 || over < 0) return false;
        out[i] = (unsigned char)(here - over);
    }
    return true;
}

static void channels_changed(const uint32_t *row, const uint32_t *above, int count, unsigned char *out)
{
    for (int i = 0; i < count; i++, out += 3) {
        out[0] = (unsigned char)((row[i] >> 16) - (above[i] >> 16));
        out[1] = (unsigned char)((row[i] >> 8) - (above[i] >> 8));
        out[2] = (unsigned char)(row[i] - above[i]);
    }
}

/* out is zero, and stays so where nothing changes. */
static bool changed(palette *p, const uint32_t *row, const uint32_t *above, int columns, unsigned char *out)
{
    enum { FEW = 8 };
    for (int x = 0; x < columns; x += FEW) {
        int count = columns - x < FEW ? columns - x : FEW;
        uint32_t change = 0;
        for (int i = x; i < x + count; i++) change |= row[i] ^ above[i];
        if (change == 0) continue;
        if (p == NULL)
            channels_changed(row + x, above + x, count, out + 3 * x);
        else if (!places_changed(p, row + x, above + x, count, out + x))
            return false;
    }
    return true;
}

/* Where the row is as the one above there is nothing to tell. */
static bool filter_row(palette *p, const uint32_t *row, const uint32_t *above, int columns, unsigned char *out)
{
    enum { AT_ONCE = 64 };
    int bytes = p == NULL ? 3 : 1; /* a pixel */
    *out++ = 2;
    for (int x = 0; x < columns; x += AT_ONCE) {
        int count = columns - x < AT_ONCE ? columns - x : AT_ONCE;
        memset(out + bytes * x, 0, (size_t)bytes * (size_t)count);
        if (memcmp(row + x, above + x, (size_t)count * sizeof *row) == 0) continue;
        if (!changed(p, row + x, above + x, count, out + bytes * x)) return false;
    }
    return true;
}

/* All rows on the heap, by the palette or else three bytes a pixel; NULL: no memory, or too many colours. */
static unsigned char *filtered(const png_picture *picture, palette *p)
{
    size_t columns = (size_t)picture->columns, length = 1 + (p == NULL ? 3 : 1) * columns;
    unsigned char *out = malloc((size_t)picture->rows * length);
    uint32_t *ground = calloc(columns, sizeof *ground); /* above the first row: what is packed as zero */
    bool whole = out != NULL && ground != NULL;
    for (size_t x = 0; whole && p != NULL && x < columns; x++) ground[x] = picture->pixels[0];
    if (whole && p != NULL) (void)place_of(p, picture->pixels[0] & 0xffffffu); /* number 0 */
    for (int y = 0; whole && y < picture->rows; y++) {
        const uint32_t *above = y == 0 ? ground : row_of(picture, y - 1);
        whole = filter_row(p, row_of(picture, y), above, picture->columns, out + (size_t)y * length);
    }
    free(ground);
    if (whole) return out;
    free(out);
    return NULL;
}

bool png_pack(const png_picture *picture, byte_run *into, png_packed *out)
{
    size_t count = (size_t)picture->columns * (size_t)picture->rows;
    *out = (png_packed){.columns = picture->columns, .row_count = picture->rows};
    if (count == 0 || count >= UINT32_MAX / 8) return false;
    palette *p = calloc(1, sizeof *p);
    unsigned char *rows = p == NULL ? NULL : filtered(picture, p);
    size_t step = rows == NULL ? 3 : 1;
    if (rows != NULL) {
        out->colours = p->count;
        memcpy(out->palette, p->colours, sizeof out->palette);
    } else if (p != NULL) {
        rows = filtered(picture, NULL);
    }
    if (rows != NULL) deflate_zlib(into, rows, (1 + step * (size_t)picture->columns) * (size_t)picture->rows);
    bool whole = rows != NULL && !into->no_memory;
    free(p);
    free(rows);
    out->rows = into->at;
    out->length = into->used;
    return whole;
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
