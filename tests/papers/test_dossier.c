#include "papers/machine_parts.h"
#include "papers_fixture.h"

#include <stdatomic.h>

static const char *inside(sw_test *t, const fixture *f, const char *name)
{
    return sw_text_format(&t->run, t->run.keep, "%s/out/%s", f->folder, name);
}

/* The dossier in the fixture's folder `out`; gives how many files it lists. */
static size_t written_whole(sw_test *t, const fixture *f, const sw_dossier *d, const sw_paper_file **files)
{
    sw_folder folder;
    size_t count = 0;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, f, "out"), &folder));
    sw_ok(t, sw_papers_write(&t->run, d, &folder, files, &count));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    return count;
}

static void the_whole_folder_is_written_and_listed(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const sw_paper_file *files = NULL;
    size_t count = written_whole(t, &f, d, &files);
    sw_near(t, (double)count, 5 + 1 + 2 * FIXTURE_PIECES + 1 + 1 + 3 + 4, 0.0,
            "derived: whole, flats, template, sheets, views");
    for (size_t i = 0; i < count; i++) sw_true(t, access(inside(t, &f, files[i].path), R_OK) == 0);
    const char *found = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep, "find %s/out -type f ! -name .stovewright | wc -l", f.folder));
    sw_near(t, found == NULL ? -1.0 : strtod(found, NULL), (double)count, 0.0, "derived: every file is listed");
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep,
                                     "for f in %s/out/*/*.pdf %s/out/*.pdf; do qpdf --check \"$f\" || exit 1; done",
                                     f.folder, f.folder)) != NULL);
    sw_true(t,
            fixture_shell(t, sw_text_format(&t->run, t->run.keep, "xmllint --noout %s/out/*/*.svg", f.folder)) != NULL);
    fixture_clear(t, &f);
}

/* One document for all flats and one for all sheets: a page each, with bookmarks and page labels. */
static void flats_and_sheets_are_documents_with_bookmarks(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const sw_paper_file *files = NULL;
    (void)written_whole(t, &f, d, &files);
    const char *flats = inside(t, &f, "flats/flats.pdf"), *sheets = inside(t, &f, "sheets/sheets.pdf");
    const char *info = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdfinfo '%s'", flats));
    sw_contains(t, info, sw_text_format(&t->run, t->run.keep, "Pages:           %d", FIXTURE_PIECES));
    for (size_t i = 0; i < FIXTURE_PIECES; i++) { /* bookmarks are UTF-16: 'A-01' is 0041002D00300031 */
        char hex[4 * 32] = "";
        const char *number = f.pieces[i].number;
        for (size_t k = 0; number[k] != '\0' && k < 16; k++)
            (void)snprintf(hex + 4 * k, 5, "00%02x", (unsigned)(unsigned char)number[k]);
        const char *text = fixture_shell(
            t, sw_text_format(&t->run, t->run.keep, "pdftotext -f %zu -l %zu '%s' -", i + 1, i + 1, flats));
        sw_contains(t, text, number);
        sw_true(t,
                fixture_shell(t, sw_text_format(&t->run, t->run.keep, "grep -aqi '<FEFF%s' '%s'", hex, flats)) != NULL);
    }
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep, "grep -aq '/Outlines .*/PageLabels' '%s'", flats)) != NULL);
    info = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdfinfo '%s'", sheets));
    sw_contains(t, info, "Pages:           1");
    sw_contains(t, info, "841.89 x 595.276 pts (A4)"); /* ISO 216 in points of 1/72 inch */
    fixture_clear(t, &f);
}

/* A letter the font lacks still comes out as what was written, as do signs beyond Latin. */
static void text_of_a_pdf_reads_back_as_it_was_written(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    sw_pen *pen = NULL;
    const char *path = fixture_path(t, &f, "text.pdf");
    const char *lines[] = {"\xc3\xb8"
                           "9 \xc3\x97 12.5\xc2\xb0",
                           "\xce\xa9\xd0\x96\xe2\x89\xa4", "\xe4\xb8\xad\xe6\x96\x87",
                           "\xc3\x84\xc3\x96\xc3\x9c \xc3\xa9"};
    sw_ok(t, sw_pen_open(&t->run, path, 100, 60, &pen));
    for (int i = 0; i < 4; i++) sw_pen_text(pen, (sw_point){10, 10 + 10.0 * i}, 3.0, SW_LEFT, 0.0, lines[i]);
    sw_ok(t, sw_pen_close(&t->run, pen));
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext '%s' -", path));
    for (int i = 0; i < 4; i++) sw_contains(t, text, lines[i]);
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "qpdf --check '%s'", path)) != NULL);
    fixture_clear(t, &f);
}

static void the_dossier_says_the_same_in_html_and_pdf(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    static const char *const parts[] = {"Fixture stove",
                                        "flange of 8 mm",
                                        "lengthen the flange to 11 mm",
                                        "common practice, no source",
                                        "shell, \"round\"",
                                        "B2",
                                        "45\xc2\xb0 down R4",
                                        "4 mm S235",
                                        "Masses",
                                        "Cautions",
                                        "carbon monoxide",
                                        "ceramic fibre",
                                        "class 4",
                                        "pinch",
                                        "accredited body",
                                        "DIN 6935:1975-10"};
    sw_ok(t, sw_paper_dossier(&t->run, d, f.folder));
    const char *html = fixture_text(t, fixture_path(t, &f, "dossier.html"));
    const char *plain = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s/dossier.pdf - | tr -s ' \\n' ' '", f.folder));
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        sw_contains(t, plain, parts[i]);
        if (strchr(parts[i], '"') == NULL) sw_contains(t, html, parts[i]);
    }
    sw_contains(t, html, "shell, &quot;round&quot;");
    sw_true(t, strstr(html, "<script") == NULL);
    sw_true(t, strstr(html, "http://") ==
                   strstr(html, "http://www.w3.org/")); /* nothing is fetched: names of standards only */
    sw_contains(t, html, "prefers-color-scheme:dark");
    sw_contains(t, html, "@media print");
    sw_contains(t, html, "data-k=\"mass, kg\""); /* a narrow screen shows the column beside its cell */
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "xmllint --noout %s/dossier.html", f.folder)) !=
                   NULL); /* every element shut */
    fixture_clear(t, &f);
}

static void spoil(sw_test *t, const char *path, const char *from, const char *to)
{
    const char *bytes = fixture_text(t, path);
    const char *hit = strstr(bytes, from);
    if (!sw_true(t, hit != NULL)) return;
    const char *changed =
        sw_text_format(&t->run, t->run.keep, "%.*s%s%s", (int)(hit - bytes), bytes, to, hit + strlen(from));
    FILE *out = fopen(path, "w");
    if (out == NULL) return;
    (void)fputs(changed, out);
    (void)fclose(out);
}

static void a_cut_file_that_reads_back_differently_does_not_count(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *flat = fixture_path(t, &f, "flat.dxf"), *sheet = fixture_path(t, &f, "sheet.dxf"),
               *program = fixture_path(t, &f, "sheet.nc");
    sw_ok(t, sw_paper_flat_dxf(&t->run, &d->sheet->pieces[0], flat));
    sw_ok(t, machine_check_flat_dxf(&t->run, &d->sheet->pieces[0], flat));
    sw_true(t, machine_check_flat_dxf(&t->run, &d->sheet->pieces[1], flat) == SW_INTERNAL);
    sw_ok(t, sw_paper_sheet_dxf(&t->run, &f.cut, sheet));
    sw_ok(t, machine_check_sheet_dxf(&t->run, &f.cut, sheet));
    spoil(t, sheet, "\nCIRCLE\n", "\nCRCLE\n");
    sw_true(t, machine_check_sheet_dxf(&t->run, &f.cut, sheet) != SW_OK);
    sw_ok(t, sw_paper_motion(&t->run, &f.cut, f.plans[0], program));
    sw_ok(t, machine_check_motion(&t->run, &f.cut, f.plans[0], program));
    spoil(t, program, "\nM3", "\nM5");
    sw_true(t, machine_check_motion(&t->run, &f.cut, f.plans[0], program) != SW_OK);
    fixture_clear(t, &f);
}

/* Moves one vertex of the flat by 0.05 mm: the file written before must be refused. */
static void a_moved_vertex_is_noticed(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "flat.dxf");
    sw_sheet_piece piece = d->sheet->pieces[1];
    sw_ok(t, sw_paper_flat_dxf(&t->run, &piece, path));
    sw_vertex *moved = SW_KEEP(&t->run, piece.flat.region.outline.n, sw_vertex);
    memcpy(moved, piece.flat.region.outline.v, piece.flat.region.outline.n * sizeof *moved);
    moved[0].x_mm -= 0.05;
    piece.flat.region.outline.v = moved;
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    fixture_clear(t, &f);
}

static atomic_int stop;

static void stop_at_half(void *context, const sw_progress *progress)
{
    double *last = context;
    if (progress->done < *last) *last = -1e9;
    if (*last >= 0) *last = progress->done;
    if (progress->done * 2.0 > progress->total) atomic_store(&stop, 1);
}

static void writing_stops_on_request_and_progress_only_grows(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    sw_folder folder;
    const sw_paper_file *files = NULL;
    size_t count = 0;
    double last = 0;
    atomic_store(&stop, 0);
    t->run.cancel = &stop;
    t->run.on_progress = stop_at_half;
    t->run.progress_context = &last;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &f, "out"), &folder));
    sw_true(t, sw_papers_write(&t->run, d, &folder, &files, &count) == SW_CANCELLED);
    sw_true(t, last > 0 && files == NULL && count == 0);
    sw_folder_discard(&folder);
    fixture_clear(t, &f);
}

static void no_memory_is_said_and_nothing_is_listed(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    size_t before = sw_arena_takes(t->run.scratch);
    sw_ok(t, sw_paper_dossier(&t->run, d, f.folder));
    size_t takes = sw_arena_takes(t->run.scratch) - before;
    for (int i = 0; i < 6; i++) {
        sw_arena_fail_at(t->run.scratch, 1 + takes * (size_t)i / 6);
        sw_true(t, sw_paper_dossier(&t->run, d, f.folder) == SW_NO_MEMORY);
        sw_arena_fail_at(t->run.scratch, 0);
        sw_run_clear_errors(&t->run);
    }
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(the_whole_folder_is_written_and_listed), SW_CASE(flats_and_sheets_are_documents_with_bookmarks),
         SW_CASE(text_of_a_pdf_reads_back_as_it_was_written), SW_CASE(the_dossier_says_the_same_in_html_and_pdf),
         SW_CASE(a_cut_file_that_reads_back_differently_does_not_count), SW_CASE(a_moved_vertex_is_noticed),
         SW_CASE(writing_stops_on_request_and_progress_only_grows), SW_CASE(no_memory_is_said_and_nothing_is_listed))
