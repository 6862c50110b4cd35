#include "app/instance.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

enum { FILE_MOST = 64 << 20, OUTLINE_MOST = 4000, KINDS_MOST = 1000, PIECES_MOST = 5000, COORDINATE_MOST = 1000000 };

static const double least_width_mm = 2048; /* of the scaled strip: 0.02 mm of slack are then 1e-5 of it. Ours */

typedef struct reader {
    sw_run *run;
    const char *path;
    sw_instance *out;
    sw_nest_shape *shapes;
    bool sound;
} reader;

static void wrong(reader *r, const char *field, const char *text)
{
    r->sound = false;
    (void)sw_fail(r->run, SW_BAD_INPUT, (sw_place){.file = r->path}, field, "%s", text);
}

static const char *piece_field(reader *r, size_t piece, const char *field)
{
    const char *text = sw_text_format(r->run, r->run->keep, "pieces[%zu].%s", piece, field);
    return text == NULL ? field : text;
}

static void wrong_piece(reader *r, size_t piece, const char *field, const char *text)
{
    wrong(r, piece_field(r, piece, field), text);
}

/* ---- turns --------------------------------------------------------------------------------------- */

/* Degrees that are whole quarter turns, as a set of bits; 0 = not a list of these. */
static unsigned quarters_of(const json_t *list)
{
    unsigned set = 0;
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *item = json_array_get(list, i);
        double quarter = json_is_number(item) ? json_number_value(item) / 90 : 0.5;
        if (quarter != floor(quarter) || fabs(quarter) > 1e6) return 0;
        set |= 1U << ((long)quarter & 3);
    }
    return set;
}

static void read_turns(reader *r, const json_t *piece, size_t index, sw_nest_shape *shape)
{
    static const struct {
        unsigned set;
        sw_turns turns;
    } rules[] = {{1, SW_TURN_FIXED}, {1 | 4, SW_TURN_HALF}, {1 | 2 | 4 | 8, SW_TURN_QUARTER}};
    const json_t *list = json_object_get(piece, "rotations_deg");
    unsigned set = list == NULL ? 1 : quarters_of(list);
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        if (rules[i].set == set) {
            shape->turns = rules[i].turns;
            return;
        }
    wrong_piece(r, index, "rotations_deg", "must be [0], [0, 180] or [0, 90, 180, 270]");
}

/* ---- outlines -------------------------------------------------------------------------------------- */

static bool read_point(const json_t *pair, double scale, sw_vertex *v)
{
    const json_t *x = json_array_get(pair, 0), *y = json_array_get(pair, 1);
    if (json_array_size(pair) != 2 || !json_is_number(x) || !json_is_number(y)) return false;
    *v = (sw_vertex){json_number_value(x) * scale, json_number_value(y) * scale, 0};
    return isfinite(v->x_mm) && isfinite(v->y_mm) && fabs(v->x_mm) <= COORDINATE_MOST &&
           fabs(v->y_mm) <= COORDINATE_MOST;
}

static bool same(sw_vertex a, sw_vertex b)
{
    return hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) <= SW_SHORTEST_MM;
}

/* Drops a point that stands where the one before it stands, as exchanged data often closes a ring. */
static size_t without_doubles(sw_vertex *v, size_t n)
{
    size_t kept = 0;
    for (size_t i = 0; i < n; i++)
        if (kept == 0 || !same(v[kept - 1], v[i])) v[kept++] = v[i];
    while (kept > 1 && same(v[kept - 1], v[0])) kept--;
    return kept;
}

static void reverse(sw_vertex *v, size_t n)
{
    for (size_t i = 0; i < n / 2; i++) {
        sw_vertex kept = v[i];
        v[i] = v[n - 1 - i];
        v[n - 1 - i] = kept;
    }
}

static sw_status judge_outline(reader *r, size_t index, sw_vertex *v, size_t n, sw_nest_shape *shape)
{
    n = without_doubles(v, n);
    sw_contour outline = {v, n};
    if (n >= 3 && sw_contour_area(outline) < 0) reverse(v, n);
    sw_contour tidy = {0};
    SW_TRY(sw_contour_tidied(r->run, outline, &tidy));
    const char *fault = NULL;
    SW_TRY(sw_contour_fault(r->run, tidy, &fault));
    if (n < 3 || fault != NULL) wrong_piece(r, index, "outline", n < 3 ? "has fewer than 3 different points" : fault);
    shape->region = (sw_region){.outline = tidy};
    return SW_OK;
}

/* Whether some allowed turn fits across the strip. */
static void judge_width(reader *r, size_t index, const sw_nest_shape *shape)
{
    sw_box box = sw_contour_box(shape->region.outline);
    double wide_mm = box.x1_mm - box.x0_mm, high_mm = box.y1_mm - box.y0_mm, width_mm = r->out->width * r->out->scale;
    double across_mm = shape->turns == SW_TURN_QUARTER ? fmin(wide_mm, high_mm) : high_mm;
    if (!r->sound || across_mm <= width_mm * (1 + 1e-12)) return;
    const char *text = sw_text_format(r->run, r->run->keep, "is %g across at its allowed turns; the strip is %g wide",
                                      across_mm / r->out->scale, r->out->width);
    wrong_piece(r, index, "outline", text == NULL ? "is wider than the strip" : text);
}

static sw_status read_outline(reader *r, const json_t *piece, size_t index, sw_nest_shape *shape)
{
    const json_t *list = json_object_get(piece, "outline");
    size_t n = json_array_size(list);
    if (n < 3 || n > OUTLINE_MOST) {
        const char *text = sw_text_format(r->run, r->run->keep, "has %zu points; 3 to %d are allowed: simplify it", n,
                                          (int)OUTLINE_MOST);
        wrong_piece(r, index, "outline", text == NULL ? "has too few or too many points" : text);
        return SW_OK;
    }
    sw_vertex *v = SW_KEEP(r->run, n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        if (!read_point(json_array_get(list, i), r->out->scale, &v[i])) {
            const char *text = sw_text_format(r->run, r->run->keep, "point %zu must be two numbers [x, y] within %g",
                                              i + 1, COORDINATE_MOST / r->out->scale);
            wrong_piece(r, index, "outline", text == NULL ? "a point is not two numbers" : text);
            return SW_OK;
        }
    return judge_outline(r, index, v, n, shape);
}

/* ---- the file -------------------------------------------------------------------------------------- */

static sw_status read_piece(reader *r, const json_t *piece, size_t index)
{
    sw_nest_shape *shape = &r->shapes[index];
    const json_t *count = json_object_get(piece, "count");
    shape->tag = (int)index;
    shape->name = sw_text_format(r->run, r->run->keep, "piece %zu", index + 1);
    if (shape->name == NULL) return SW_NO_MEMORY;
    json_int_t wanted = count == NULL ? 1 : json_integer_value(count);
    if (!(wanted >= 1 && wanted <= PIECES_MOST))
        wrong_piece(r, index, "count", "must be a whole number from 1 to 5000");
    else
        shape->count = (size_t)wanted;
    r->out->pieces += shape->count;
    read_turns(r, piece, index, shape);
    SW_TRY(read_outline(r, piece, index, shape));
    judge_width(r, index, shape);
    return SW_OK;
}

static sw_status read_pieces(reader *r, const json_t *list)
{
    size_t n = json_array_size(list);
    if (n < 1 || n > KINDS_MOST) {
        wrong(r, "pieces", "must be a list of 1 to 1000 kinds of pieces");
        return SW_OK;
    }
    r->shapes = SW_KEEP(r->run, n, sw_nest_shape);
    if (r->shapes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) SW_TRY(read_piece(r, json_array_get(list, i), i));
    if (r->out->pieces > PIECES_MOST) wrong(r, "pieces", "are more than 5000 in all");
    r->out->input.shapes = r->shapes;
    r->out->input.shape_count = n;
    return SW_OK;
}

static const char *text_of(reader *r, const json_t *root, const char *field)
{
    const char *text = json_string_value(json_object_get(root, field));
    return sw_text_copy(r->run, r->run->keep, text == NULL ? "" : text);
}

static sw_status read_root(reader *r, const json_t *root)
{
    sw_instance *out = r->out;
    const json_t *width = json_object_get(root, "strip_width");
    out->width = json_number_value(width);
    if (!(out->width > 0 && out->width <= 1e6)) wrong(r, "strip_width", "must be a number above 0, at most 1e6");
    out->scale = 1;
    while (r->sound && out->width * out->scale < least_width_mm) out->scale *= 2;
    out->input.width_mm = out->width * out->scale;
    out->input.name = text_of(r, root, "name");
    out->source = text_of(r, root, "source");
    if (out->input.name == NULL || out->source == NULL) return SW_NO_MEMORY;
    return read_pieces(r, json_object_get(root, "pieces"));
}

sw_status sw_instance_read(sw_run *run, const char *path, sw_instance *instance)
{
    const char *bytes = NULL;
    size_t length = 0;
    *instance = (sw_instance){0};
    SW_TRY(sw_file_read(run, path, FILE_MOST, &bytes, &length));
    json_error_t error;
    json_t *root = json_loadb(bytes, length, JSON_REJECT_DUPLICATES, &error);
    if (root == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){path, error.line, error.column}, "", "is no JSON: %s", error.text);
    reader r = {.run = run, .path = path, .out = instance, .sound = true};
    sw_status status = json_is_object(root) ? read_root(&r, root) : SW_OK;
    if (!json_is_object(root)) wrong(&r, "", "must be an object with name, strip_width and pieces");
    json_decref(root);
    if (status != SW_OK) return status;
    return r.sound ? SW_OK : SW_BAD_INPUT;
}
