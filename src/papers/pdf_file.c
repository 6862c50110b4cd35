/* pdf_file.c: numbered objects, streams, cross-reference table. Source: ISO 32000-1:2008, 7.3 and 7.5. */
#include "papers/deflate_parts.h"
#include "papers/pdf_parts.h"

#include <stdlib.h>
#include <string.h>

static void put(pdf_file *f, const void *data, size_t length)
{
    sw_write(f->writer, data, length);
    f->written += length;
}

static void put_all(pdf_file *f, byte_run *b)
{
    f->no_memory = f->no_memory || b->no_memory;
    put(f, b->at, b->used);
    bytes_free(b);
}

void pdf_begin(pdf_file *f)
{
    static const char head[] = "%PDF-1.5\n%\xe2\xe3\xcf\xd3\n"; /* four bytes above 127: a binary file */
    put(f, head, sizeof head - 1);
}

size_t pdf_reserve(pdf_file *f)
{
    size_t *offsets = heap_grow(f->offsets, f->count, &f->room, sizeof *offsets, &f->no_memory);
    if (offsets == NULL) return 1;
    f->offsets = offsets;
    offsets[f->count++] = 0;
    return f->count;
}

static void open_object(pdf_file *f, size_t number, byte_run *line)
{
    if (number <= f->count) f->offsets[number - 1] = f->written;
    bytes_print(line, "%zu 0 obj\n", number);
}

void pdf_object(pdf_file *f, size_t number, const byte_run *body)
{
    byte_run line = {0};
    open_object(f, number, &line);
    f->no_memory = f->no_memory || body->no_memory;
    bytes_put(&line, body->at, body->used);
    bytes_text(&line, "\nendobj\n");
    put_all(f, &line);
}

void pdf_stream(pdf_file *f, size_t number, const char *dictionary, const byte_run *data, bool packed)
{
    byte_run line = {0}, small = {0};
    if (!packed) deflate_zlib(&small, data->at, data->used);
    const byte_run *body = packed ? data : &small;
    open_object(f, number, &line);
    bytes_print(&line, "<</Length %zu/Filter/FlateDecode", body->used);
    bytes_text(&line, dictionary);
    bytes_text(&line, ">>stream\n");
    put_all(f, &line);
    f->no_memory = f->no_memory || body->no_memory || data->no_memory;
    put(f, body->at, body->used);
    put(f, "\nendstream\nendobj\n", 18);
    bytes_free(&small);
}

void pdf_end(pdf_file *f, size_t root, size_t info)
{
    byte_run out = {0};
    size_t table = f->written;
    bytes_print(&out, "xref\n0 %zu\n0000000000 65535 f \n", f->count + 1);
    for (size_t i = 0; i < f->count; i++) bytes_print(&out, "%010zu 00000 n \n", f->offsets[i]);
    bytes_print(&out, "trailer\n<</Size %zu/Root %zu 0 R/Info %zu 0 R>>\nstartxref\n%zu\n%%%%EOF\n", f->count + 1, root,
                info, table);
    put_all(f, &out);
}

void pdf_free(pdf_file *f)
{
    free(f->offsets);
    f->offsets = NULL;
    f->count = f->room = 0;
}

void pdf_utf16(byte_run *out, uint32_t code)
{
    if (code >= 0x10000) {
        bytes_hex(out, 0xd800 + ((code - 0x10000) >> 10), 4);
        code = 0xdc00 + ((code - 0x10000) & 0x3ffu);
    }
    bytes_hex(out, code, 4);
}

void pdf_text(byte_run *out, const char *text)
{
    bytes_text(out, "<FEFF");
    for (uint32_t code = lettering_code(&text); code != 0; code = lettering_code(&text)) pdf_utf16(out, code);
    bytes_text(out, ">");
}
