#include "papers/doc_parts.h"
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

/* The plate's bend lines, etched line and number: each moved by a little, the file written before must be refused. */
static void a_moved_bend_etched_line_or_text_is_noticed(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "flat.dxf");
    const sw_vertex line[] = {{20, 20, 0}, {50, 20, 0.3}, {60, 40, 0}},
                    moved_line[] = {{20, 20, 0}, {50, 20, 0.31}, {60, 40, 0}};
    sw_sheet_piece piece = d->sheet->pieces[0];
    sw_flat *flat = &piece.flat;
    sw_flat_mark marks[] = {{.text = "A-01 \xc3\xa4", .at = {30, 120}, .height_mm = 10},
                            {.text = "", .path = {line, 3}}};
    sw_flat_bend bends[8];
    if (!sw_true(t, flat->bend_count >= 2 && flat->bend_count <= 8)) return;
    memcpy(bends, flat->bends, flat->bend_count * sizeof *bends);
    flat->bends = bends;
    flat->marks = marks;
    flat->mark_count = 2;
    sw_ok(t, sw_paper_flat_dxf(&t->run, &piece, path));
    sw_ok(t, machine_check_flat_dxf(&t->run, &piece, path));
    bends[1].from.y_mm += 0.1;
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    bends[1].from.y_mm -= 0.1;
    marks[1].path.v = moved_line;
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    marks[1].path.v = line;
    marks[0].turn_rad = 0.001;
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    marks[0].turn_rad = 0.0;
    marks[0].text = "A-01 \xc3\xb6";
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    flat->mark_count = 0;
    sw_true(t, machine_check_flat_dxf(&t->run, &piece, path) == SW_INTERNAL);
    fixture_clear(t, &f);
}

static void pieces_whose_names_come_out_alike_have_files_of_their_own(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const sw_paper_file *files = NULL;
    f.pieces[0].number = "1", f.pieces[0].name = "2 side \xc3\xa4";
    f.pieces[1].number = "1 2", f.pieces[1].name = "SIDE \xc3\x84";
    f.pieces[2].number = "1/2", f.pieces[2].name = "side";
    size_t count = written_whole(t, &f, d, &files);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++) sw_true(t, strcmp(files[i].path, files[j].path) != 0);
    sw_ok(t, machine_check_flat_dxf(&t->run, &d->sheet->pieces[0], inside(t, &f, "flats/1 2 side \xc3\xa4.dxf")));
    sw_ok(t, machine_check_flat_dxf(&t->run, &d->sheet->pieces[1], inside(t, &f, "flats/1 2 SIDE \xc3\x84 (2).dxf")));
    sw_ok(t, machine_check_flat_dxf(&t->run, &d->sheet->pieces[2], inside(t, &f, "flats/1_2 side.dxf")));
    const char *found = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep, "find %s/out -type f ! -name .stovewright | wc -l", f.folder));
    sw_true(t, found != NULL && strtoul(found, NULL, 10) == count);
    fixture_clear(t, &f);
}

/* A letter of two bytes, `count` times, after an odd byte. */
static const char *umlauts(sw_test *t, size_t count)
{
    char *text = SW_KEEP(&t->run, 2 * count + 2, char);
    text[0] = 'x';
    for (size_t i = 0; i < count; i++) memcpy(text + 1 + 2 * i, "\xc3\xa4", 2);
    return text;
}

static void long_names_are_cut_between_letters(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const sw_paper_file *files = NULL;
    f.pieces[0].number = umlauts(t, 120);
    f.pieces[0].name = umlauts(t, 190);
    size_t count = written_whole(t, &f, d, &files);
    for (size_t i = 0; i < count; i++) sw_true(t, sw_text_is_utf8(files[i].path, strlen(files[i].path)));
    const char *bytes = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_file_read(&t->run, inside(t, &f, "stove.glb"), (size_t)1 << 28, &bytes, &length))) return;
    uint32_t json = 0; /* glTF 2.0, 4.4: header of 12 bytes, then length and kind of the first chunk */
    memcpy(&json, bytes + 12, sizeof json);
    sw_true(t, json + 20 <= length && sw_text_is_utf8(bytes + 20, json));
    fixture_clear(t, &f);
}

/* A word of `count` numbered letters groups, the last of which is the end of the text. */
static const char *long_text(sw_test *t, size_t count)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &w));
    for (size_t i = 1; i <= count; i++) sw_print(w, "word%zu ", i);
    sw_ok(t, sw_writer_take(&t->run, w, &text, &length));
    return text;
}

static sw_status long_row_and_finding(sw_run *run, const sw_dossier *d, const char *text, const char *path)
{
    static const doc_column columns[] = {{"Name", 1.0, SW_LEFT}, {"What is told", 2.0, SW_LEFT}};
    const char *const cells[] = {"one", text}, *const last[] = {"two", "the last row"};
    sw_finding finding = {.what = text, .where = "here", .unit = "mm", .source = "ours", .remedy = "the remedy"};
    paper_desk desk;
    doc_table table = {.columns = columns, .column_count = 2};
    SW_TRY(desk_open(run, d, &desk));
    doc_book doc = {.d = d, .desk = &desk, .title = "Long", .subtitle = ""};
    sw_status status = doc_row(run, &table, cells);
    if (status == SW_OK) status = doc_row(run, &table, last);
    if (status == SW_OK) status = doc_put_table(run, &doc, &table);
    if (status == SW_OK) status = doc_add(run, &doc, (doc_block){.kind = DOC_FINDING, .finding = &finding});
    if (status == SW_OK) status = doc_to_pdf(run, &doc, path);
    desk_close(&desk);
    return status;
}

static void a_row_or_finding_higher_than_a_page_goes_on_on_the_next(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "long.pdf");
    sw_ok(t, long_row_and_finding(&t->run, d, long_text(t, 3000), path));
    const char *found = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep,
                          "pdftotext -nopgbrk '%s' - | grep -o 'word[0-9]*' | sort | uniq -c | grep -c ' 2 '", path));
    sw_true(t, found != NULL && strtoul(found, NULL, 10) == 3000); /* once in the table, once in the finding */
    const char *box =
        fixture_shell(/* A4 with a foot: nothing lower than 280 of 297 mm = 794 pt but page number and title */
                      t,
                      sw_text_format(
                          &t->run, t->run.keep,
                          "pdftotext -bbox '%s' - | sed -n 's/.*yMax=\"\\([0-9.]*\\)\">word.*/\\1/p' | sort -n | tail -1",
                          path));
    sw_true(t, box != NULL && strtod(box, NULL) > 700.0 && strtod(box, NULL) < 794.0);
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext '%s' -", path));
    sw_contains(t, text, "the last row");
    sw_contains(t, text, "the remedy");
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
         SW_CASE(a_moved_bend_etched_line_or_text_is_noticed),
         SW_CASE(pieces_whose_names_come_out_alike_have_files_of_their_own),
         SW_CASE(long_names_are_cut_between_letters), SW_CASE(a_row_or_finding_higher_than_a_page_goes_on_on_the_next),
         SW_CASE(writing_stops_on_request_and_progress_only_grows), SW_CASE(no_memory_is_said_and_nothing_is_listed))
