/* dxf_plain.c: the vertex of a polyline in its commonest form, read at one glance: layer, x, y, perhaps z, perhaps bulge,
 * nothing else. Whatever differs in the least is left to the general way, which then finds it unread. */
#include "dxf/dxf_parts.h"

typedef struct glance { /* ahead of what has been read */
    const char *at, *end;
    int lines;
} glance;

/* Whether the next line is just this one, which ends with its line feed. */
static bool line_is(glance *g, const char *line, size_t length)
{
    if ((size_t)(g->end - g->at) < length || memcmp(g->at, line, length) != 0) return false;
    g->at += length;
    g->lines++;
    return true;
}

static bool skip_line(glance *g)
{
    while (g->at < g->end && *g->at != '\n') g->at++;
    if (g->at == g->end) return false;
    g->at++;
    g->lines++;
    return true;
}

static const char *add_digits(const char *at, const char *end, uint64_t *digits)
{
    for (; at < end; at++) {
        unsigned digit = (unsigned)(unsigned char)*at - '0';
        if (digit > 9) break;
        *digits = *digits * 10 + digit;
    }
    return at;
}

/* A line of sign, digits and at most one point; with 15 digits at most the quotient is rounded once, hence correctly. */
static bool number_line(glance *g, double *number)
{
    static const double tens[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    enum { MOST_DIGITS = 15 };
    bool negative = g->at < g->end && *g->at == '-';
    const char *first = g->at + (negative ? 1 : 0);
    uint64_t digits = 0;
    const char *point = add_digits(first, g->end, &digits), *last = point;
    if (point < g->end && *point == '.') last = add_digits(point + 1, g->end, &digits);
    size_t after_point = last == point ? 0 : (size_t)(last - point - 1), count = (size_t)(point - first) + after_point;
    if (count == 0 || count > MOST_DIGITS || last == g->end || *last != '\n') return false;
    double size = (double)digits / tens[after_point];
    *number = negative ? -size : size;
    g->at = last + 1;
    g->lines++;
    return size <= DXF_LARGEST;
}

static bool pair_is(glance *g, const char code[3], double *number)
{
    return line_is(g, code, 3) && number_line(g, number);
}

/* The group 0 behind the vertex becomes the pair that is read next. */
static bool hold_next(dxf_pairs *in, const glance *groups)
{
    glance g = *groups;
    if (!line_is(&g, "0\n", 2)) return false;
    const char *value = g.at;
    if (!line_is(&g, "VERTEX\n", 7) && !line_is(&g, "SEQEND\n", 7)) return false;
    in->at = (size_t)(g.at - in->bytes);
    in->line += g.lines;
    in->code = 0;
    in->code_line = in->line - 1;
    in->value_line = in->line;
    in->value = value;
    in->value_length = 6;
    in->held = true;
    return true;
}

bool dxf_plain_vertex(dxf_pairs *in, sw_vertex *v)
{
    glance g = {in->bytes + in->at, in->bytes + in->length, 0};
    double z_mm = 0.0;
    v->bulge = 0.0;
    if (!line_is(&g, "8\n", 2) || !skip_line(&g)) return false;
    if (!pair_is(&g, "10\n", &v->x_mm) || !pair_is(&g, "20\n", &v->y_mm)) return false;
    if (line_is(&g, "30\n", 3) && !number_line(&g, &z_mm)) return false; /* flat: z is not used */
    if (line_is(&g, "42\n", 3) && !number_line(&g, &v->bulge)) return false;
    return hold_next(in, &g);
}
