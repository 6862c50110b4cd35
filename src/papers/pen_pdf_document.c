/* pen_pdf_document.c: a PDF document's pages, contents, resources and end. Source: ISO 32000-1:2008, 7.7, 12.3, 12.4. */
#include "papers/pen_pdf_parts.h"

#include <stdlib.h>
#include <string.h>

#define POINTS_PER_MM (72.0 / 25.4) /* PDF user unit: 1/72 inch */

static void begin_page(sw_pen *pen)
{
    pen_pdf_state *s = pen->pdf;
    s->on_page = true;
    s->content.used = 0;
    s->inks = (inks){0};
    const double matrix[6] = {POINTS_PER_MM, 0.0, 0.0, -POINTS_PER_MM, 0.0, pen->height_mm * POINTS_PER_MM};
    bytes_numbers(&s->content, matrix, 6, PDF_MATRIX_PLACES);
    bytes_text(&s->content, " cm 1 J 1 j\n"); /* round ends and joins */
    pdf_page *pages = heap_grow(s->pages, s->page_count, &s->page_room, sizeof *pages, &pen->no_memory);
    if (pages == NULL) return;
    s->pages = pages;
    pages[s->page_count++] =
        (pdf_page){.object = pdf_reserve(&s->file), .width_mm = pen->width_mm, .height_mm = pen->height_mm};
}

static void end_page(sw_pen *pen)
{
    pen_pdf_state *s = pen->pdf;
    if (!s->on_page || s->page_count == 0) return;
    s->on_page = false;
    size_t content = pdf_reserve(&s->file);
    pdf_stream(&s->file, content, "", &s->content, false);
    const pdf_page *page = &s->pages[s->page_count - 1];
    const double size[2] = {page->width_mm * POINTS_PER_MM, page->height_mm * POINTS_PER_MM};
    byte_run b = {0};
    bytes_print(&b, "<</Type/Page/Parent %zu 0 R/Resources %zu 0 R/Contents %zu 0 R/MediaBox[0 0 ", s->pages_object,
                s->resources_object, content);
    bytes_numbers(&b, size, 2, PDF_PLACES);
    bytes_text(&b, "]>>");
    pdf_object(&s->file, page->object, &b);
    bytes_free(&b);
}

sw_status pdf_document_open(sw_run *run, sw_pen *pen)
{
    pen_pdf_state *s = calloc(1, sizeof *s);
    pen->pdf = s;
    if (s == NULL)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path, "no memory for a drawing; allow more memory");
    s->file.writer = pen->writer;
    pdf_begin(&s->file);
    s->pages_object = pdf_reserve(&s->file);
    s->resources_object = pdf_reserve(&s->file);
    if (pen->width_mm > 0.0) begin_page(pen);
    return SW_OK;
}

void pdf_page_next(sw_pen *pen)
{
    end_page(pen);
    begin_page(pen);
}

static char *copied(sw_pen *pen, const char *text)
{
    char *copy = malloc(strlen(text) + 1);
    if (copy == NULL) pen->no_memory = true;
    if (copy != NULL) memcpy(copy, text, strlen(text) + 1);
    return copy;
}

void pdf_page_entry(sw_pen *pen, const char *title, const char *label)
{
    pen_pdf_state *s = pen->pdf;
    if (s->page_count == 0) return;
    pdf_page *page = &s->pages[s->page_count - 1];
    if (page->title != NULL) return;
    page->title = copied(pen, title);
    page->label = copied(pen, label);
}

/* ---- the end ---- */

static void write_pages(pen_pdf_state *s)
{
    byte_run b = {0};
    bytes_print(&b, "<</Type/Pages/Count %zu/Kids[", s->page_count);
    for (size_t i = 0; i < s->page_count; i++) bytes_print(&b, "%zu 0 R ", s->pages[i].object);
    bytes_text(&b, "]>>");
    pdf_object(&s->file, s->pages_object, &b);
    bytes_free(&b);
}

static void write_resources(sw_pen *pen)
{
    pen_pdf_state *s = pen->pdf;
    size_t fonts[2] = {pdf_reserve(&s->file), pdf_reserve(&s->file)};
    for (int i = 0; i < 2; i++) pdf_font_write(&s->file, fonts[i], &s->fonts[i], pen->letters, i == 1);
    byte_run b = {0};
    bytes_print(&b, "<</Font<</P %zu 0 R/B %zu 0 R>>/XObject<<", fonts[0], fonts[1]);
    for (size_t i = 0; i < s->image_count; i++) bytes_print(&b, "/I%zu %zu 0 R", i, s->images[i].object);
    for (size_t i = 0; i < s->stamp_count; i++) bytes_print(&b, "/S%zu %zu 0 R", i + 1, s->stamps[i]);
    bytes_text(&b, ">>>>");
    pdf_object(&s->file, s->resources_object, &b);
    bytes_free(&b);
}

/* One level of bookmarks. Gives the object of the list, 0 = none. */
static size_t write_outline(pen_pdf_state *s)
{
    size_t count = 0, root = 0, number = 0;
    for (size_t i = 0; i < s->page_count; i++) count += s->pages[i].title != NULL;
    if (count == 0) return 0;
    root = pdf_reserve(&s->file);
    byte_run b = {0};
    for (size_t i = 0; i < s->page_count; i++) {
        if (s->pages[i].title == NULL) continue;
        size_t object = pdf_reserve(&s->file);
        b.used = 0;
        bytes_text(&b, "<</Title");
        pdf_text(&b, s->pages[i].title);
        bytes_print(&b, "/Parent %zu 0 R/Dest[%zu 0 R/Fit]", root, s->pages[i].object);
        if (number > 0) bytes_print(&b, "/Prev %zu 0 R", object - 1);
        if (++number < count) bytes_print(&b, "/Next %zu 0 R", object + 1);
        bytes_text(&b, ">>");
        pdf_object(&s->file, object, &b);
    }
    b.used = 0;
    bytes_print(&b, "<</Type/Outlines/First %zu 0 R/Last %zu 0 R/Count %zu>>", root + 1, root + count, count);
    pdf_object(&s->file, root, &b);
    bytes_free(&b);
    return root;
}

/* The label stands for its page; pages that follow without one count on from it: "A-01", "A-01, 2". */
static void put_labels(const pen_pdf_state *s, byte_run *b)
{
    bytes_text(b, "/PageLabels<</Nums[");
    for (size_t i = 0; i < s->page_count; i++) {
        bool first = s->pages[i].label != NULL;
        if (i > 0 && !first && s->pages[i - 1].label == NULL) continue;
        bytes_print(b, "%zu<<", i);
        size_t named = i;
        while (named > 0 && s->pages[named].label == NULL) named--;
        if (s->pages[named].label != NULL) {
            bytes_text(b, "/P");
            pdf_text(b, s->pages[named].label);
        }
        if (!first) bytes_text(b, "/S/D");
        if (!first && named != i) bytes_text(b, "/St 2");
        bytes_text(b, ">>");
    }
    bytes_text(b, "]>>");
}

static void write_catalog(pen_pdf_state *s, size_t number, size_t outline)
{
    byte_run b = {0};
    bool labelled = false;
    for (size_t i = 0; i < s->page_count; i++) labelled = labelled || s->pages[i].label != NULL;
    bytes_print(&b, "<</Type/Catalog/Lang(en)/Pages %zu 0 R", s->pages_object);
    if (outline != 0) bytes_print(&b, "/Outlines %zu 0 R/PageMode/UseOutlines", outline);
    if (labelled) put_labels(s, &b);
    bytes_text(&b, ">>");
    pdf_object(&s->file, number, &b);
    bytes_free(&b);
}

static void write_info(const sw_pen *pen, size_t number)
{
    byte_run b = {0};
    bytes_text(&b, "<</Title");
    pdf_text(&b, pen->title);
    bytes_text(&b, "/Creator(stovewright " SW_VERSION ")/CreationDate(D:");
    for (const char *c = pen->date; *c != '\0' && c < pen->date + 10; c++)
        if (*c >= '0' && *c <= '9') bytes_put(&b, c, 1);
    bytes_text(&b, "000000Z)>>");
    pdf_object(&pen->pdf->file, number, &b);
    bytes_free(&b);
}

sw_status pdf_document_close(sw_run *run, sw_pen *pen)
{
    (void)run;
    pen_pdf_state *s = pen->pdf;
    end_page(pen);
    write_pages(s);
    write_resources(pen);
    size_t outline = write_outline(s), root = pdf_reserve(&s->file), info = pdf_reserve(&s->file);
    write_catalog(s, root, outline);
    write_info(pen, info);
    pdf_end(&s->file, root, info);
    pen->no_memory = pen->no_memory || s->file.no_memory || s->content.no_memory || s->path.no_memory;
    return SW_OK; /* a refusal is told by the caller */
}

void pdf_document_drop(sw_pen *pen)
{
    pen_pdf_state *s = pen->pdf;
    if (s == NULL) return;
    for (size_t i = 0; i < s->page_count; i++) {
        free(s->pages[i].title);
        free(s->pages[i].label);
    }
    for (int i = 0; i < 2; i++) pdf_font_free(&s->fonts[i]);
    bytes_free(&s->content);
    bytes_free(&s->outer);
    bytes_free(&s->path);
    free(s->pages);
    free(s->images);
    free(s->stamps);
    pdf_free(&s->file);
    free(s);
    pen->pdf = NULL;
}
