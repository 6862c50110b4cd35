/* Vertices read at one glance against the same ones read group by group: lines that end with carriage return and line
 * feed are never plain, and otherwise mean the same. */
#include "dxf/dxf_parts.h"
#include "sw_test.h"

#include <stdio.h>
#include <stdlib.h>

#define BEFORE "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n8\nCUT\n66\n1\n70\n1\n"
#define AFTER  "0\nSEQEND\n0\nENDSEC\n0\nEOF\n"

enum { ROOM = 4096 };

typedef struct text {
    char bytes[2 * ROOM];
    size_t length;
} text;

static void add(text *to, const char *words)
{
    for (; *words != '\0' && to->length < ROOM; words++) to->bytes[to->length++] = *words;
}

static void add_number(text *to, sw_random *r, const char *code, double most)
{
    char line[64];
    (void)snprintf(line, sizeof line, "%s\n%.*f\n", code, (int)sw_random_below(r, 9),
                   sw_random_between(r, -most, most));
    add(to, line);
}

static void add_vertex(text *to, sw_random *r)
{
    static const char *const layers[] = {"CUT", "ETCH", "", " CUT ", "a b"};
    add(to, "0\nVERTEX\n8\n");
    add(to, layers[sw_random_below(r, sizeof layers / sizeof *layers)]);
    add(to, "\n");
    add_number(to, r, "10", 3000.0);
    add_number(to, r, "20", 3000.0);
    if (sw_random_below(r, 3) == 0) add_number(to, r, "30", 10.0);
    if (sw_random_below(r, 3) == 0) add_number(to, r, "42", 3.0);
    if (sw_random_below(r, 9) == 0) add_number(to, r, "91", 3.0);
}

static void random_polyline(text *to, sw_random *r)
{
    to->length = 0;
    add(to, BEFORE);
    for (size_t n = 2 + sw_random_below(r, 6); n > 0; n--) add_vertex(to, r);
    add(to, AFTER);
}

static void spoil(text *in, sw_random *r)
{
    static const char hostile[] = "0123456789..--+ \t\neE,\x80VEX";
    size_t first = sizeof BEFORE - 1, last = in->length - (sizeof AFTER - 1);
    for (size_t n = sw_random_below(r, 4); n > 0; n--)
        in->bytes[first + sw_random_below(r, last - first)] = hostile[sw_random_below(r, sizeof hostile - 1)];
}

static void with_returns(const text *from, text *to)
{
    to->length = 0;
    for (size_t i = 0; i < from->length; i++) {
        if (from->bytes[i] == '\n') to->bytes[to->length++] = '\r';
        to->bytes[to->length++] = from->bytes[i];
    }
}

static sw_status read_one(sw_test *t, const text *in, sw_dxf_drawing *drawing, const char **skipped)
{
    char *block = malloc(in->length); /* of exactly that size */
    if (!sw_true(t, block != NULL)) return SW_NO_MEMORY;
    memcpy(block, in->bytes, in->length);
    sw_run_clear_errors(&t->run);
    sw_status status = sw_dxf_read(&t->run, "part.dxf", block, in->length, 0.01, drawing, skipped);
    free(block);
    return status;
}

static bool same_paths(const sw_dxf_drawing *a, const sw_dxf_drawing *b)
{
    bool same = a->path_count == b->path_count;
    for (size_t i = 0; same && i < a->path_count; i++) {
        const sw_dxf_path *p = &a->paths[i], *q = &b->paths[i];
        same = p->n == q->n && p->closed == q->closed && strcmp(p->layer, q->layer) == 0 &&
               memcmp(p->v, q->v, p->n * sizeof *p->v) == 0;
    }
    return same;
}

/* The same drawing, or refused in the same line for the same reason. */
static bool ways_agree(sw_test *t, const text *plain, const text *strict, bool *read)
{
    sw_dxf_drawing a, b;
    const char *skipped_a = "", *skipped_b = "";
    sw_status one = read_one(t, plain, &a, &skipped_a);
    sw_error error = {0};
    if (one != SW_OK) error = t->run.errors[0];
    sw_status other = read_one(t, strict, &b, &skipped_b);
    *read = one == SW_OK;
    if (one != other) return false;
    if (one == SW_OK) return same_paths(&a, &b) && strcmp(skipped_a, skipped_b) == 0;
    return error.place.line == t->run.errors[0].place.line;
}

static void plain_vertices_read_as_the_strict_way_reads_them(sw_test *t)
{
    static text plain, strict;
    size_t good = 0, refused = 0;
    for (uint64_t seed = 1; seed <= 4000; seed++) {
        bool read = false;
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        random_polyline(&plain, &r);
        spoil(&plain, &r);
        with_returns(&plain, &strict);
        if (!sw_true(t, ways_agree(t, &plain, &strict, &read))) return;
        good += read;
        refused += !read;
    }
    t->seed = 0;
    sw_true(t, good > 800 && refused > 800);
}

/* ---- which are plain ---- */

static bool taken(const char *groups, sw_vertex *v)
{
    dxf_pairs in = {.bytes = groups, .length = strlen(groups)};
    bool plain = dxf_plain_vertex(&in, v);
    return plain && in.held && in.code == 0;
}

static void the_plainest_form_is_taken_and_no_other(sw_test *t)
{
    static const char *const left[] = {
        "8\nCUT\n10\n1\n20\n2\n",                            /* cut short */
        "8\nCUT\n10\n1\n20\n2\n0\nVERTEX",                   /* no line end */
        "8\nCUT\n10\n1\n20\n2\n0\nLINE\n",                   /* to be refused with its line */
        "8\nCUT\n20\n2\n10\n1\n0\nVERTEX\n",                 /* another order */
        "8\nCUT\n10\n1\n10\n1\n20\n2\n0\nVERTEX\n",          /* one twice */
        "8\nCUT\n10\n1e3\n20\n2\n0\nVERTEX\n",               /* an exponent */
        "8\nCUT\n10\n1 \n20\n2\n0\nVERTEX\n",                /* a blank */
        "8\nCUT\n10\n1234567.123456789\n20\n2\n0\nVERTEX\n", /* 16 digits */
        "8\nCUT\n10\n2000000000\n20\n2\n0\nVERTEX\n",        /* too large */
        "8\nCUT\n10\n-\n20\n2\n0\nVERTEX\n",                 /* no digit */
        "10\n1\n20\n2\n0\nVERTEX\n",                         /* no layer */
    };
    sw_vertex v;
    if (sw_true(t, taken("8\nCUT\n10\n-1.25\n20\n.5\n30\n0\n42\n-1\n0\nSEQEND\n", &v)))
        sw_true(t, v.x_mm == -1.25 && v.y_mm == 0.5 && v.bulge == -1.0);
    for (size_t i = 0; i < sizeof left / sizeof *left; i++) {
        t->seed = i + 1;
        sw_true(t, !taken(left[i], &v));
    }
    t->seed = 0;
}

SW_TESTS(SW_CASE(plain_vertices_read_as_the_strict_way_reads_them), SW_CASE(the_plainest_form_is_taken_and_no_other))
