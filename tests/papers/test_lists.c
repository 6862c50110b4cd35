#include "papers_fixture.h"

#include <jansson.h>

/* Splits RFC 4180 text into fields; rows end in CRLF. Own small reader, apart from the writer. */
static size_t csv_row(const char **at, char fields[20][100])
{
    size_t n = 0, k = 0;
    bool inside = false;
    for (const char *c = *at;; c++) {
        if (*c == '\0') return 0;
        if (inside && *c == '"' && c[1] == '"') {
            fields[n][k++] = *c++;
        } else if (*c == '"') {
            inside = !inside;
        } else if (!inside && (*c == ',' || *c == '\r')) {
            fields[n++][k] = '\0';
            k = 0;
            if (*c == ',') continue;
            *at = c + 2;
            return c[1] == '\n' ? n : 0;
        } else {
            fields[n][k++] = *c;
        }
    }
}

static void the_piece_list_survives_the_round_trip(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "pieces.csv");
    sw_ok(t, sw_paper_piece_list_csv(&t->run, d, path));
    const char *at = fixture_text(t, path);
    static char fields[20][100];
    sw_true(t, csv_row(&at, fields) == 15);
    sw_same_text(t, fields[0], "number");
    sw_same_text(t, fields[14], "mass_in_a_stove_kg");
    for (size_t i = 0; i < FIXTURE_PIECES; i++) {
        sw_true(t, csv_row(&at, fields) == 15);
        sw_same_text(t, fields[0], f.pieces[i].number);
        sw_same_text(t, fields[1], f.pieces[i].name);
        sw_near(t, strtod(fields[13], NULL), d->sheet->pieces[i].mass_kg, 6e-5, "round trip");
        sw_near(t, strtod(fields[7], NULL), (double)(f.pieces[i].count * d->batch), 0.0, "round trip");
        sw_near(t, strtod(fields[8], NULL), d->sheet->pieces[i].flat.box.x1_mm, 6e-4, "round trip");
    }
    for (size_t i = 0; i < FIXTURE_ITEMS; i++) {
        sw_true(t, csv_row(&at, fields) == 15);
        sw_same_text(t, fields[1], f.items[i].name);
        sw_near(t, strtod(fields[13], NULL), f.items[i].mass_kg, 6e-5, "round trip");
    }
    sw_true(t, *at == '\0');
    fixture_clear(t, &f);
}

/* A spreadsheet runs what begins with such a sign as a formula (OWASP, "CSV injection"). */
static void names_a_spreadsheet_would_run_are_texts_in_the_piece_list(sw_test *t)
{
    fixture f;
    sw_csv csv;
    const sw_dossier *d = fixture_make(t, &f);
    f.pieces[0].name = "=1+1";
    f.items[0].name = "@glass, thick";
    const char *path = fixture_path(t, &f, "pieces.csv");
    sw_ok(t, sw_paper_piece_list_csv(&t->run, d, path));
    const char *text = fixture_text(t, path);
    if (!sw_ok(t, sw_csv_read(&t->run, path, text, strlen(text), &csv))) return;
    const char *piece = sw_csv_cell(&csv, 0, 1), *item = sw_csv_cell(&csv, FIXTURE_PIECES, 1);
    sw_same_text(t, piece, "'=1+1");
    sw_same_text(t, sw_csv_as_it_was(piece), f.pieces[0].name);
    sw_same_text(t, item, "'@glass, thick");
    sw_same_text(t, sw_csv_as_it_was(item), f.items[0].name);
    fixture_clear(t, &f);
}

static json_t *json_of(sw_test *t, const sw_dossier *d)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &w));
    sw_ok(t, sw_paper_json(&t->run, d, w));
    sw_ok(t, sw_writer_take(&t->run, w, &text, &length));
    sw_true(t, length > 0 && text[length - 1] == '\n');
    return json_loads(text, 0, NULL);
}

static void json_carries_findings_and_figures_and_null_for_what_is_unknown(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    json_t *root = json_of(t, d);
    if (!sw_true(t, root != NULL)) return;
    sw_near(t, (double)json_integer_value(json_object_get(root, "schema")), 1.0, 0.0, "docs/json.md");
    json_t *findings = json_object_get(root, "findings"), *first = json_array_get(findings, 0),
           *third = json_array_get(findings, 2);
    sw_true(t, json_array_size(findings) == FIXTURE_FINDINGS);
    sw_same_text(t, json_string_value(json_object_get(first, "verdict")), "fails");
    sw_same_text(t, json_string_value(json_object_get(json_object_get(first, "place"), "file")), "fixture.stove.lua");
    sw_near(t, json_number_value(json_object_get(first, "value")), 8.0, 0.0, "round trip");
    sw_true(t, json_is_null(json_object_get(third, "value")));
    sw_true(t, json_is_null(json_object_get(json_array_get(json_object_get(root, "items"), 1), "price")));
    json_t *piece = json_array_get(json_object_get(root, "pieces"), 0);
    sw_near(t, json_number_value(json_object_get(piece, "mass_kg")), d->sheet->pieces[0].mass_kg, 1e-9, "round trip");
    sw_true(t, json_array_size(json_object_get(piece, "bends")) == 2);
    json_t *sheet = json_array_get(json_object_get(json_array_get(json_object_get(root, "nests"), 0), "sheets"), 0);
    sw_true(t, json_array_size(json_object_get(sheet, "places")) == FIXTURE_PLACES);
    sw_near(t, json_number_value(json_object_get(json_object_get(sheet, "cut"), "cut_mm")), f.plans[0]->cut_mm, 1e-6,
            "round trip");
    json_decref(root);
    fixture_clear(t, &f);
}

static void a_nest_that_failed_is_null_with_its_reason(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    f.nested[0].result = NULL;
    f.nested[0].why = "piece \"shell\" fits no sheet";
    json_t *root = json_of(t, d);
    json_t *nest = json_array_get(json_object_get(root, "nests"), 0);
    sw_true(t, json_is_null(json_object_get(nest, "sheets")));
    sw_same_text(t, json_string_value(json_object_get(nest, "why")), "piece \"shell\" fits no sheet");
    json_decref(root);
    fixture_clear(t, &f);
}

static uint32_t little(const char *bytes)
{
    return (uint32_t)(unsigned char)bytes[0] | (uint32_t)(unsigned char)bytes[1] << 8 |
           (uint32_t)(unsigned char)bytes[2] << 16 | (uint32_t)(unsigned char)bytes[3] << 24;
}

static double rotated(const double q[4], const double v[3], int axis)
{
    /* v + 2 u x (u x v + w v) */
    double c[3], e[3];
    for (int i = 0; i < 3; i++) c[i] = q[(i + 1) % 3] * v[(i + 2) % 3] - q[(i + 2) % 3] * v[(i + 1) % 3] + q[3] * v[i];
    for (int i = 0; i < 3; i++) e[i] = q[(i + 1) % 3] * c[(i + 2) % 3] - q[(i + 2) % 3] * c[(i + 1) % 3];
    return v[axis] + 2.0 * e[axis];
}

static void the_solid_has_a_named_node_a_placed_piece_in_metres_y_up(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "stove.glb"), *bytes = NULL;
    size_t length = 0;
    sw_ok(t, sw_paper_gltf(&t->run, d, path));
    sw_ok(t, sw_file_read(&t->run, path, 1 << 26, &bytes, &length));
    sw_true(t, length > 20 && memcmp(bytes, "glTF", 4) == 0 && little(bytes + 4) == 2 && little(bytes + 8) == length);
    uint32_t n = little(bytes + 12);
    json_t *root = json_loadb(bytes + 20, n, 0, NULL);
    if (!sw_true(t, root != NULL)) return;
    json_t *buffer = json_array_get(json_object_get(root, "buffers"), 0);
    sw_true(t, little(bytes + 20 + n) == (uint32_t)json_integer_value(json_object_get(buffer, "byteLength")));
    size_t placed = 0;
    json_t *nodes = json_object_get(root, "nodes");
    for (size_t i = 0; i < json_array_size(nodes); i++) {
        json_t *node = json_array_get(nodes, i), *extras = json_object_get(node, "extras");
        if (json_object_get(node, "mesh") == NULL) continue;
        placed++;
        if (strcmp(json_string_value(json_object_get(extras, "number")), "A-01") != 0) continue;
        sw_same_text(t, json_string_value(json_object_get(node, "name")), "A-01 front plate");
        sw_near(t, json_number_value(json_object_get(extras, "mass_kg")), d->sheet->pieces[0].mass_kg, 1e-5,
                "round trip");
        double q[4], shift[3];
        for (size_t k = 0; k < 4; k++) q[k] = json_number_value(json_array_get(json_object_get(node, "rotation"), k));
        for (size_t k = 0; k < 3; k++)
            shift[k] = json_number_value(json_array_get(json_object_get(node, "translation"), k));
        /* local (100, 50, 0) mm of the plate lies at stove (-100, 0, 70) mm: in glTF (-0.1, 0.07, 0) */
        const double local[3] = {0.1, 0.05, 0.0}, want[3] = {-0.1, 0.07, 0.0};
        for (int k = 0; k < 3; k++)
            sw_near(t, rotated(q, local, k) + shift[k], want[k], 1e-7, "derived: (x, y, z) of the stove is (x, z, -y)");
    }
    sw_true(t, placed == 5); /* plate, shell, two discs, glass; the rope has no shape */
    json_decref(root);
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(the_piece_list_survives_the_round_trip),
         SW_CASE(names_a_spreadsheet_would_run_are_texts_in_the_piece_list),
         SW_CASE(json_carries_findings_and_figures_and_null_for_what_is_unknown),
         SW_CASE(a_nest_that_failed_is_null_with_its_reason),
         SW_CASE(the_solid_has_a_named_node_a_placed_piece_in_metres_y_up))
