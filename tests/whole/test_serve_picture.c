/* The solid as the page asks for it while a slider moves: small, whole, and without what the page holds already. */
#include "serve_fixture.h"

#include <math.h>

/* ---- reading a .glb -------------------------------------------------------------------------------------------------- */

typedef struct glb {
    json_t *root;
    const unsigned char *bytes; /* of the geometry */
} glb;

static uint32_t u32_at(const char *p)
{
    const unsigned char *b = (const unsigned char *)p;
    return (uint32_t)b[0] | (uint32_t)b[1] << 8 | (uint32_t)b[2] << 16 | (uint32_t)b[3] << 24;
}

static glb glb_at(sw_test *t, const server *s, const char *path, const char *more)
{
    const char *body =
        sw_text_format(&t->run, t->run.keep, "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\"%s}", more);
    const char *answer = posted(t, s, path, body), *file = body_of(answer);
    if (!answers(t, answer, 200) || !sw_true(t, strncmp(file, "glTF", 4) == 0)) return (glb){0};
    size_t length = u32_at(file + 12);
    glb g = {json_loadb(file + 20, length, 0, NULL), (const unsigned char *)file + 28 + length};
    sw_true(t, g.root != NULL);
    return g;
}

static glb glb_of(sw_test *t, const server *s, const char *more)
{
    return glb_at(t, s, "/api/picture", more);
}

static json_t *list_of(const glb *g, const char *name)
{
    return json_object_get(g->root, name);
}

static const char *about(const json_t *node, const char *field)
{
    const char *text = json_string_value(json_object_get(json_object_get(node, "extras"), field));
    return text == NULL ? "" : text;
}

static long whole(const json_t *object, const char *field)
{
    return (long)json_integer_value(json_object_get(object, field));
}

static const json_t *accessor_of(const glb *g, const json_t *node, const char *attribute)
{
    const json_t *mesh = json_array_get(list_of(g, "meshes"), (size_t)whole(node, "mesh"));
    const json_t *primitive = json_array_get(json_object_get(mesh, "primitives"), 0);
    const json_t *from = strcmp(attribute, "indices") == 0 ? primitive : json_object_get(primitive, "attributes");
    return json_array_get(list_of(g, "accessors"), (size_t)whole(from, attribute));
}

/* One coordinate of a vertex, m in the piece's frame. */
static double coordinate(const glb *g, const json_t *node, size_t vertex, size_t axis)
{
    const json_t *a = accessor_of(g, node, "POSITION");
    const json_t *view = json_array_get(list_of(g, "bufferViews"), (size_t)whole(a, "bufferView"));
    const unsigned char *at = g->bytes + whole(view, "byteOffset");
    float metres = 0;
    int16_t steps = 0;
    if (whole(a, "componentType") == 5126) {
        memcpy(&metres, at + 12 * vertex + 4 * axis, sizeof metres);
        return (double)metres;
    }
    memcpy(&steps, at + (size_t)whole(view, "byteStride") * vertex + 2 * axis, sizeof steps);
    return steps * json_number_value(json_array_get(json_object_get(node, "scale"), 0));
}

static size_t triangles(const glb *g)
{
    size_t all = 0, i = 0;
    const json_t *node = NULL;
    json_array_foreach(list_of(g, "nodes"), i, node)
    {
        if (json_object_get(node, "mesh") != NULL) all += (size_t)whole(accessor_of(g, node, "indices"), "count") / 3;
    }
    return all;
}

static bool same_field(const json_t *a, const json_t *b, const char *field)
{
    const json_t *of_a = json_object_get(a, field), *of_b = json_object_get(b, field);
    return (of_a == NULL && of_b == NULL) || json_equal(of_a, of_b);
}

/* "held": all marks of g, as the page would say. */
static const char *held_of(sw_test *t, const glb *g)
{
    const char *text = "";
    size_t i = 0;
    const json_t *node = NULL;
    json_array_foreach(list_of(g, "nodes"), i, node)
    {
        if (about(node, "shape")[0] != '\0')
            text = sw_text_format(&t->run, t->run.keep, "%s%s\"%s\"", text, text[0] == '\0' ? "" : ",",
                                  about(node, "shape"));
    }
    return sw_text_format(&t->run, t->run.keep, ",\"held\":[%s]", text);
}

/* ---- what it says ------------------------------------------------------------------------------------------------------ */

static void a_fine_picture_has_the_points_of_the_whole_model_in_their_places(sw_test *t)
{
    server s;
    open_bench(t, &s);
    glb all = glb_at(t, &s, "/api/model", ""), light = glb_of(t, &s, ",\"held\":[]");
    size_t count = json_array_size(list_of(&all, "nodes")), compared = 0;
    sw_true(t, count == json_array_size(list_of(&light, "nodes")) && count > 50);
    for (size_t i = 0; i < count; i++) {
        const json_t *a = json_array_get(list_of(&all, "nodes"), i), *b = json_array_get(list_of(&light, "nodes"), i);
        sw_same_text(t, about(b, "number"), about(a, "number"));
        sw_true(t, same_field(a, b, "translation") && same_field(a, b, "rotation"));
        if (json_object_get(a, "mesh") == NULL) continue;
        size_t vertices = (size_t)whole(accessor_of(&all, a, "POSITION"), "count");
        if (!sw_true(t, vertices == (size_t)whole(accessor_of(&light, b, "POSITION"), "count"))) return;
        double unit_m = json_number_value(json_array_get(json_object_get(b, "scale"), 0)), worst_m = 0;
        for (size_t k = 0; k < 3 * vertices; k++)
            worst_m = fmax(worst_m, fabs(coordinate(&all, a, k / 3, k % 3) - coordinate(&light, b, k / 3, k % 3)));
        if (!sw_true(t, worst_m <= 0.51 * unit_m && unit_m < 1e-4)) return;
        compared++;
    }
    sw_true(t, compared > 50 && triangles(&all) == triangles(&light));
    json_decref(all.root);
    json_decref(light.root);
    stop(t, &s);
}

static void what_the_page_holds_is_not_sent_again(sw_test *t)
{
    server s;
    open_bench(t, &s);
    glb first = glb_of(t, &s, ",\"held\":[]"), again = glb_of(t, &s, held_of(t, &first));
    sw_true(t, triangles(&first) > 0 && list_of(&again, "meshes") == NULL && list_of(&again, "buffers") == NULL);
    sw_true(t, json_array_size(list_of(&again, "nodes")) == json_array_size(list_of(&first, "nodes")));
    sw_same_text(t, held_of(t, &again), held_of(t, &first));
    json_decref(first.root);
    json_decref(again.root);
    stop(t, &s);
}

static void of_a_changed_stove_just_the_changed_geometry_comes(sw_test *t)
{
    server s;
    open_bench(t, &s);
    glb first = glb_of(t, &s, ",\"held\":[]");
    const char *held = held_of(t, &first);
    json_decref(first.root);
    const char *wider = ",\"set\":{\"firebox_width\":\"380mm\"}";
    glb part = glb_of(t, &s, sw_text_format(&t->run, t->run.keep, "%s%s", held, wider));
    glb all = glb_of(t, &s, sw_text_format(&t->run, t->run.keep, ",\"held\":[]%s", wider));
    size_t i = 0, came = json_array_size(list_of(&part, "meshes"));
    const json_t *node = NULL;
    sw_true(t, came > 0 && came < json_array_size(list_of(&all, "meshes")));
    sw_same_text(t, held_of(t, &part), held_of(t, &all)); /* the same stove, whatever was held */
    json_array_foreach(list_of(&part, "nodes"), i, node)
    {
        const char *mark = about(node, "shape");
        if (mark[0] == '\0') continue;
        sw_true(t, (json_object_get(node, "mesh") == NULL) == (strstr(held, mark) != NULL));
    }
    json_decref(part.root);
    json_decref(all.root);
    stop(t, &s);
}

static void a_rough_picture_has_fewer_triangles_in_the_same_places(sw_test *t)
{
    server s;
    open_bench(t, &s);
    glb fine = glb_of(t, &s, ",\"held\":[]"), rough = glb_of(t, &s, ",\"held\":[],\"chord_mm\":0.25");
    sw_true(t, triangles(&rough) < 3 * triangles(&fine) / 4);
    for (size_t i = 0; i < json_array_size(list_of(&fine, "nodes")); i++)
        sw_true(t, same_field(json_array_get(list_of(&fine, "nodes"), i), json_array_get(list_of(&rough, "nodes"), i),
                              "translation"));
    json_decref(fine.root);
    json_decref(rough.root);
    stop(t, &s);
}

static void marks_and_chords_that_are_none_are_refused(sw_test *t)
{
    static const char *const wrong[] = {"\"chord_mm\":1", /* says not what is held */
                                        "\"held\":5",
                                        "\"held\":[5]",
                                        "\"held\":[\"abc\"]",
                                        "\"held\":[\"ABCDEF0123456789\"]",
                                        "\"held\":[],\"chord_mm\":0",
                                        "\"held\":[],\"chord_mm\":\"fine\""};
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        const char *body = sw_text_format(&t->run, t->run.keep, "{\"stove\":\"a.stove.lua\",%s}", wrong[i]);
        const char *answer = posted(t, &s, "/api/picture", body);
        answers(t, answer, 422);
        sw_contains(t, answer, i < 5 ? "held" : "chord_mm");
    }
    stop(t, &s);
}

static void pictures_drive_no_kept_answer_out(sw_test *t)
{
    static const char *const heft = "{\"stove\":\"a.stove.lua\",\"studies\":[\"heft\"]}";
    server s;
    open_bench(t, &s);
    const char *first = body_of(posted(t, &s, "/api/compute", heft));
    for (int i = 0; i < 70; i++) { /* it keeps 64 */
        const char *body = sw_text_format(&t->run, t->run.keep, "{\"stove\":\"a.stove.lua\",\"held\":%d}", i);
        answers(t, posted(t, &s, "/api/picture", body), 422);
    }
    sw_same_text(t, body_of(posted(t, &s, "/api/compute", heft)), first); /* to the time it took */
    stop(t, &s);
}

SW_TESTS(SW_CASE(a_fine_picture_has_the_points_of_the_whole_model_in_their_places),
         SW_CASE(what_the_page_holds_is_not_sent_again), SW_CASE(of_a_changed_stove_just_the_changed_geometry_comes),
         SW_CASE(a_rough_picture_has_fewer_triangles_in_the_same_places),
         SW_CASE(marks_and_chords_that_are_none_are_refused), SW_CASE(pictures_drive_no_kept_answer_out))
