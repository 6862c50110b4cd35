/* dxf_parts.h: what the files of this folder share; nobody else includes it. */
#ifndef SW_DXF_PARTS_H
#define SW_DXF_PARTS_H

#include "dxf/dxf.h"

#include <math.h>
#include <string.h>

enum {
    DXF_ENTITIES_MAX = 200000, /* ours: far above any drawing of a sheet; keeps a hostile file short */
    DXF_KINDS_MAX = 24,        /* kinds of skipped entities listed by name; further ones count as "other" */
    DXF_KIND_NAME = 24
};

#define DXF_LARGEST 1e9 /* no number of a sheet's drawing is larger (ours) */

/* The file as pairs of group code and value, one at a time. */
typedef struct dxf_pairs {
    sw_run *run;
    const char *file, *bytes;
    size_t length, at;
    int line;  /* of the line read last, from 1 */
    bool held; /* the pair is to be read again */
    int code, code_line, value_line;
    const char *value; /* not terminated; without line end and surrounding blanks */
    size_t value_length;
    const char *layer, *layer_bytes; /* text of the layer named last, and how the file has it; NULL = none yet */
    size_t layer_length;
} dxf_pairs;

sw_status dxf_next(dxf_pairs *in); /* SW_BAD_INPUT at the end of the bytes */
sw_status dxf_fail(const dxf_pairs *in, int line, const char *format, ...) __attribute__((format(printf, 3, 4)));
/* Whether the value is this text. */
static inline bool dxf_is(const dxf_pairs *in, const char *value)
{
    return strlen(value) == in->value_length && memcmp(in->value, value, in->value_length) == 0;
}
sw_status dxf_number(const dxf_pairs *in, double *number);
sw_status dxf_integer(const dxf_pairs *in, int *number);
/* The value as UTF-8 in run->keep: \U+XXXX taken as that character, bytes that are not UTF-8 as Latin-1. */
sw_status dxf_text(const dxf_pairs *in, const char **text);

/* As text, for layers: one that comes again is the same text. */
sw_status dxf_layer(dxf_pairs *in, const char **layer);

/* A line or arc not yet part of a path. */
typedef struct dxf_loose {
    const char *layer;
    sw_vertex from;
    sw_point to;
} dxf_loose;

typedef struct dxf_kind {
    char name[DXF_KIND_NAME];
    size_t count;
} dxf_kind;

/* What has been read so far; arrays grow in run->scratch, vertices and texts are in run->keep. */
typedef struct dxf_found {
    sw_run *run;
    sw_dxf_path *paths;
    size_t path_count, path_room;
    sw_dxf_text *texts;
    size_t text_count, text_room;
    dxf_loose *loose;
    size_t loose_count, loose_room;
    dxf_kind kinds[DXF_KINDS_MAX];
    size_t kind_count;
    size_t entity_count;
    double join_mm;
} dxf_found;

/* The groups of a VERTEX whose group 0 was just read, when they stand in the plainest form; the next group 0 is held
 * then. False: nothing was read. */
bool dxf_plain_vertex(dxf_pairs *in, sw_vertex *v);

/* Entities up to ENDSEC, which is read. */
sw_status dxf_read_entities(dxf_pairs *in, dxf_found *found);
sw_status dxf_add_path(dxf_found *found, const char *layer, bool closed, const sw_vertex *v, size_t n);
/* Joins the loose lines and arcs into paths. */
sw_status dxf_join(dxf_found *found);

#endif
