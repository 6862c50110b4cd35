#include "papers/png_parts.h"
#include "papers_fixture.h"

static bool svg_is_sound(sw_test *t, const char *path)
{
    return fixture_shell(t, sw_text_format(&t->run, t->run.keep, "xmllint --noout '%s'", path)) != NULL;
}

static void svg_drawings_are_well_formed(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *paths[] = {fixture_path(t, &f, "assembled.svg"), fixture_path(t, &f, "exploded.svg"),
                           fixture_path(t, &f, "map.svg"), fixture_path(t, &f, "flat.svg")};
    sw_ok(t, sw_paper_views(&t->run, d, false, paths[0]));
    sw_ok(t, sw_paper_views(&t->run, d, true, paths[1]));
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, paths[2]));
    sw_ok(t, sw_paper_flat(&t->run, d, 2, paths[3]));
    for (int i = 0; i < 4; i++) sw_true(t, svg_is_sound(t, paths[i]));
    sw_contains(t, fixture_text(t, paths[0]), "data:image/png;base64,iVBORw0KGgo");
    sw_contains(t, fixture_text(t, paths[1]), ">A-02</text>");
    sw_contains(t, fixture_text(t, paths[3]), "disc &lt;top &amp; base&gt;");
    sw_contains(t, fixture_text(t, paths[3]), "width=\"210mm\"");
    fixture_clear(t, &f);
}

static size_t count_of(const char *text, const char *what)
{
    size_t n = 0;
    for (const char *hit = strstr(text, what); hit != NULL; hit = strstr(hit + 1, what)) n++;
    return n;
}

/* A map tells each shape once and places it as often as it lies there; the head's ways are one dashed path. */
static void a_map_tells_a_shape_once(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "map.svg"), *plain = fixture_path(t, &f, "plain.svg");
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, path));
    const char *text = fixture_text(t, path);
    sw_near(t, (double)count_of(text, "<defs>"), FIXTURE_PIECES, 0, "derived: one for each shape");
    sw_near(t, (double)count_of(text, "<use "), FIXTURE_PLACES, 0, "derived: one for each place");
    sw_near(t, (double)count_of(text, "stroke-dasharray"), 1, 0, "derived: the head's ways");
    sw_contains(t, text, "the head's way with the beam off");
    f.nested[0].plans = NULL;
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, plain));
    sw_true(t, strstr(fixture_text(t, plain), "stroke-dasharray") == NULL);
    fixture_clear(t, &f);
}

static void the_same_dossier_gives_the_same_bytes(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *endings[] = {"pdf", "svg"};
    for (int i = 0; i < 2; i++) {
        const char *one = sw_text_format(&t->run, t->run.keep, "%s/one.%s", f.folder, endings[i]),
                   *two = sw_text_format(&t->run, t->run.keep, "%s/two.%s", f.folder, endings[i]);
        sw_ok(t, sw_paper_flat(&t->run, d, 0, one));
        sw_ok(t, sw_paper_flat(&t->run, d, 0, two));
        sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "cmp '%s' '%s'", one, two)) != NULL);
    }
    fixture_clear(t, &f);
}

/* Rasters the page at 10 pixels a millimetre with another program and measures between the bar's end ticks. */
static void the_scale_bar_of_a_template_is_100_mm(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "template.pdf");
    sw_ok(t, sw_paper_template(&t->run, d, 1, path));
    const char *pages = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdfinfo '%s'", path));
    sw_contains(t, pages, "841.89 x 595.276 pts (A4)"); /* ISO 216 in points of 1/72 inch */
    const char *image = sw_text_format(&t->run, t->run.keep, "%s/bar", f.folder);
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep,
                                               "pdftoppm -r 254 -gray -x 0 -y 1880 -W 2970 -H 20 '%s' '%s'", path,
                                               image)) != NULL);
    const char *found = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "ls '%s'*.pgm", image));
    const char *bytes = NULL;
    size_t length = 0;
    char name[200] = "";
    if (found == NULL || sscanf(found, "%199[^\n]", name) != 1) return;
    sw_ok(t, sw_file_read(&t->run, name, 1 << 20, &bytes, &length));
    size_t head = length - (size_t)2970 * 20;
    double first = -1, last = -1;
    for (size_t x = 0; x < 2970; x++) {
        if ((unsigned char)bytes[head + (size_t)2970 * 10 + x] > 128) continue;
        if (first < 0) first = (double)x;
        last = (double)x;
    }
    sw_near(t, (last - first) / 10.0, 100.0, 0.15, "definition: the bar is 100 mm long");
    fixture_clear(t, &f);
}

static void a_template_tells_the_sagitta_of_its_chord(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "template.pdf");
    sw_ok(t, sw_paper_template(&t->run, d, 1, path));
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout '%s' -", path));
    sw_contains(t, text,
                "chord 212.13 mm, check sagitta 43.93 mm"); /* derived: 2 R sin 45 deg, R (1 - cos 45 deg), R = 150 */
    sw_contains(t, text, "chord of 100 mm anywhere: check sagitta 8.58 mm"); /* derived: 150 - sqrt(150^2 - 50^2) */
    sw_true(t, sw_paper_template(&t->run, d, 0, path) == SW_BAD_INPUT);
    fixture_clear(t, &f);
}

static void a_large_template_is_tiled_and_every_tile_holds_part_of_it(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    f.shell_bends[0].radius_mm = 320.0;
    const char *path = fixture_path(t, &f, "large.pdf");
    sw_ok(t, sw_paper_template(&t->run, d, 1, path));
    const char *info = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdfinfo '%s'", path));
    sw_contains(t, info, "Pages:           2");
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout '%s' -", path));
    sw_contains(t, text, "part 2 of 2 (column 2, row 1)");
    fixture_clear(t, &f);
}

static void text_widths_scale_with_height_and_grow_with_text(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    sw_pen *pen = NULL;
    sw_ok(t, sw_pen_open(&t->run, fixture_path(t, &f, "a.svg"), 100, 100, &pen));
    double one = sw_pen_text_width(pen, 1.0, "Stove 12.5 mm");
    sw_near(t, sw_pen_text_width(pen, 3.5, "Stove 12.5 mm"), 3.5 * one, 1e-9, "invariance");
    sw_true(t, sw_pen_text_width(pen, 1.0, "Stove 12.5 mm wide") > one);
    /* DejaVu Sans: advance of H is 0.752 em (1540 of 2048), capitals 0.729 em (1493 of 2048) */
    sw_near(t, sw_pen_text_width(pen, 1.0, "H"), 1540.0 / 1493.0, 2e-3, "DejaVu Sans 2.37, hmtx and OS/2 tables");
    sw_ok(t, sw_pen_close(&t->run, pen));
    fixture_clear(t, &f);
}

static void a_name_that_is_no_drawing_is_refused(sw_test *t)
{
    sw_pen *pen = NULL;
    sw_true(t, sw_pen_open(&t->run, "drawing.bmp", 100, 100, &pen) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "must end in .svg, .pdf or .png");
    sw_true(t, pen == NULL);
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_pen_open(&t->run, "no/such/folder/a.pdf", 100, 100, &pen) == SW_IO);
}

/* Another program unpacks the rows (of bytes or of a palette) and must find the very pixels that were drawn. */
static const char read_png[] =
    "import zlib, struct, sys\n"
    "d = open(sys.argv[1], 'rb').read(); p, idat, plte = 8, b'', None\n"
    "while p < len(d):\n"
    " n, = struct.unpack('>I', d[p:p+4]); k = d[p+4:p+8]; b = d[p+8:p+8+n]\n"
    " assert struct.unpack('>I', d[p+8+n:p+12+n])[0] == zlib.crc32(k + b)\n"
    " if k == b'IHDR': w, h, bits, kind = struct.unpack('>IIBB', b[:10])\n"
    " if k == b'PLTE': plte = b\n"
    " if k == b'IDAT': idat += b\n"
    " p += 12 + n\n"
    "assert bits == 8 and kind == (3 if plte else 2)\n"
    "step = 1 if plte else 3; m = step * w; raw = zlib.decompress(idat); assert len(raw) == h * (m + 1)\n"
    "prev = bytes(m); out = b''\n"
    "for y in range(h):\n"
    " f, r = raw[y*(m+1)], bytearray(raw[y*(m+1)+1:(y+1)*(m+1)])\n"
    " for i in range(m): r[i] = (r[i] + (prev[i] if f == 2 else (r[i-step] if i >= step else 0))) & 255\n"
    " prev = r; out += bytes(r) if not plte else b''.join(plte[3*i:3*i+3] for i in r)\n"
    "sys.stdout.buffer.write(b'%d %d\\n' % (w, h) + out.hex().encode())\n";

static const char *pixels_of(sw_test *t, const fixture *f, const char *path)
{
    const char *script = fixture_path(t, f, "read_png.py");
    FILE *out = fopen(script, "w");
    if (out == NULL) return "";
    (void)fputs(read_png, out);
    (void)fclose(out);
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "python3 '%s' '%s'", script, path));
    return text == NULL ? "" : text;
}

static void a_png_holds_the_pixels_that_were_drawn(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    sw_pen *pen = NULL;
    const char *path = fixture_path(t, &f, "box.png");
    sw_ok(t, sw_pen_open(&t->run, path, 50.8, 25.4, &pen));
    const sw_ink rust = {.r = 164.0 / 255.0, .g = 71.0 / 255.0, .b = 42.0 / 255.0};
    const sw_point box[] = {{0, 0}, {25.4, 0}, {25.4, 25.4}, {0, 25.4}};
    sw_pen_polygon(pen, rust, box, 4, true);
    sw_ok(t, sw_pen_close(&t->run, pen));
    const char *text = pixels_of(t, &f, path);
    if (!sw_true(t, strncmp(text, "240 120\n", 8) == 0 && strlen(text) == 8 + 240 * 120 * 6)) return;
    for (size_t i = 0; i < 240 * 120; i++)
        if (!sw_true(t, strncmp(text + 8 + 6 * i, i % 240 < 120 ? "a4472a" : "ffffff", 6) == 0)) return;
    fixture_clear(t, &f);
}

/* Random pictures with few and with many colours, in runs and in noise, come back unchanged through the reader. */
static void packed_pictures_come_back_unchanged(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    for (uint64_t seed = 1; seed <= 6; seed++) {
        enum { MOST = 97 * 61 };
        uint32_t pixels[MOST];
        sw_random random = sw_random_seeded(seed);
        int columns = 1 + (int)sw_random_below(&random, 97), rows = 1 + (int)sw_random_below(&random, 61);
        size_t colours = seed % 2 == 0 ? 200 : 5000, count = (size_t)(columns * rows);
        for (size_t i = 0; i < count; i++) {
            bool go_on = i > 0 && seed > 2 && sw_random_unit(&random) < 0.9;
            pixels[i] = go_on ? pixels[i - 1] : (uint32_t)(sw_random_below(&random, colours) * 2654435u & 0xffffffu);
        }
        t->seed = seed;
        byte_run rows_packed = {0}, file = {0};
        png_packed packed;
        const png_picture picture = {pixels, columns, rows, sizeof *pixels * (size_t)columns};
        sw_true(t, png_pack(&picture, &rows_packed, &packed));
        if (seed % 2 == 0) sw_true(t, packed.colours > 0 && packed.colours <= 200);
        png_file(&file, &packed, 0);
        const char *path = fixture_path(t, &f, "random.png");
        FILE *out = fopen(path, "wb");
        if (!sw_true(t, out != NULL && fwrite(file.at, 1, file.used, out) == file.used)) return;
        (void)fclose(out);
        const char *text = strchr(pixels_of(t, &f, path), '\n');
        for (size_t i = 0; text != NULL && i < count; i++) {
            char want[8];
            (void)snprintf(want, sizeof want, "%06x", pixels[i]);
            if (!sw_true(t, strncmp(text + 1 + 6 * i, want, 6) == 0)) return;
        }
        sw_true(t, text != NULL);
        bytes_free(&rows_packed);
        bytes_free(&file);
    }
    fixture_clear(t, &f);
}

typedef sw_status one_paper(sw_run *run, const sw_dossier *d, const char *path);

static sw_status flat_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_flat(run, d, 0, path);
}
static sw_status map_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_nest_map(run, d, 0, 0, path);
}
static sw_status template_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_template(run, d, 1, path);
}
static sw_status view_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_views(run, d, true, path);
}
static sw_status gltf_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_gltf(run, d, path);
}
static sw_status light_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_status status = sw_paper_gltf_light(run, d, NULL, 0, w);
    if (status == SW_OK) return sw_writer_close(run, w);
    sw_writer_abandon(w);
    return status;
}
static sw_status csv_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_piece_list_csv(run, d, path);
}
static sw_status dxf_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_flat_dxf(run, &d->sheet->pieces[0], path);
}
static sw_status sheet_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    return sw_paper_sheet_dxf(run, d->nests[0].cuts[0], path);
}

/* Refuses request after request, in each arena: the paper says so and leaves no file behind. */
static void fail_everywhere(sw_test *t, const fixture *f, one_paper *paper, const char *ending, size_t step)
{
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/fail.%s", f->folder, ending);
    for (int which = 0; which < 2; which++) {
        sw_status status = SW_NO_MEMORY;
        for (size_t n = 1; status != SW_OK && n < 60000; n += step) {
            sw_arena *arena = which == 0 ? t->run.scratch : t->run.keep;
            sw_arena_fail_at(arena, n);
            status = paper(&t->run, &f->dossier, path);
            sw_arena_fail_at(arena, 0);
            if (status != SW_OK && !sw_true(t, status == SW_NO_MEMORY)) return;
            if (status != SW_OK) sw_true(t, access(path, F_OK) != 0);
            sw_run_clear_errors(&t->run);
        }
        sw_true(t, status == SW_OK);
        sw_true(t, unlink(path) == 0);
    }
}

static void papers_without_memory_say_so(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    fail_everywhere(t, &f, flat_paper, "svg", 101);
    fail_everywhere(t, &f, flat_paper, "pdf", 397);
    fail_everywhere(t, &f, map_paper, "svg", 3);
    fail_everywhere(t, &f, template_paper, "pdf", 1);
    fail_everywhere(t, &f, view_paper, "trace", 2999);
    fail_everywhere(t, &f, gltf_paper, "glb", 1);
    fail_everywhere(t, &f, light_paper, "glb", 1);
    fail_everywhere(t, &f, csv_paper, "csv", 1);
    fail_everywhere(t, &f, dxf_paper, "dxf", 1);
    fail_everywhere(t, &f, sheet_paper, "dxf", 1);
    fixture_clear(t, &f);
}

static void a_small_solid_stops_on_request(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/stopped.glb", f.folder);
    atomic_int stop = 1;
    t->run.cancel = &stop;
    sw_true(t, light_paper(&t->run, &f.dossier, path) == SW_CANCELLED && access(path, F_OK) != 0);
    t->run.cancel = NULL;
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(svg_drawings_are_well_formed), SW_CASE(a_map_tells_a_shape_once),
         SW_CASE(the_same_dossier_gives_the_same_bytes), SW_CASE(the_scale_bar_of_a_template_is_100_mm),
         SW_CASE(a_template_tells_the_sagitta_of_its_chord),
         SW_CASE(a_large_template_is_tiled_and_every_tile_holds_part_of_it),
         SW_CASE(text_widths_scale_with_height_and_grow_with_text), SW_CASE(a_name_that_is_no_drawing_is_refused),
         SW_CASE(a_png_holds_the_pixels_that_were_drawn), SW_CASE(packed_pictures_come_back_unchanged),
         SW_CASE(papers_without_memory_say_so), SW_CASE(a_small_solid_stops_on_request))
