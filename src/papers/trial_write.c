/* trial_write.c: the papers and files of a test on the stand, into one folder. */
#include "papers/trial_parts.h"

#include <math.h>

sw_status tested_statement(sw_run *run, doc_book *doc)
{
    return doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = doc->tested->result->statement});
}

static int places_of(double half)
{
    return half < 1 ? 2 : half < 10 ? 1 : 0;
}

const char *tested_with_half(sw_run *run, double value, double half)
{
    if (!isfinite(value)) return "not measured";
    if (!isfinite(half)) return sheet_fixed(run, value, 1);
    return sw_text_format(run, run->scratch, "%.*f \xc2\xb1 %.*f", places_of(half), value, places_of(half), half);
}

/* ---- documents ------------------------------------------------------------------------------------------------------ */

typedef struct job {
    sw_run *run;
    const sw_tested *tested;
    const paper_desk *desk;
    const char *folder;
    sw_paper_file *files;
    size_t count;
} job;

enum { FILES_MOST = 12 };

static void list(job *j, const char *name, const char *what)
{
    SW_ASSERT(j->count < FILES_MOST);
    j->files[j->count++] = (sw_paper_file){name, what};
}

static const char *named(const job *j, const char *name)
{
    return sw_text_format(j->run, j->run->scratch, "%s/%s", j->folder, name);
}

static const char *model_of(const sw_tested *t)
{
    if (t->record->model[0] != '\0') return t->record->model;
    return t->d->model.stove == NULL ? "a stove" : t->d->model.stove->title;
}

static sw_status rendered(job *j, const char *title, tested_content *content, const char *html, const char *pdf)
{
    sw_run *run = j->run;
    const sw_tested *t = j->tested;
    const sw_model *m = &t->d->model;
    doc_book doc = {.d = t->d, .desk = j->desk, .tested = t};
    doc.title = sw_text_format(run, run->scratch, "%s: %s", title, model_of(t));
    doc.subtitle = sw_text_format(
        run, run->scratch, "%s%s%s. From %s%s%s, %s. stovewright " SW_VERSION ".", t->record->maker,
        t->record->maker[0] == '\0' || t->record->note[0] == '\0' ? "" : ". ", t->record->note, t->record->file,
        m->stove == NULL ? "" : " and ", m->stove == NULL ? "" : m->stove_file, t->d->date);
    const char *to_html = named(j, html), *to_pdf = named(j, pdf);
    if (doc.title == NULL || doc.subtitle == NULL || to_html == NULL || to_pdf == NULL) return SW_NO_MEMORY;
    SW_TRY(tested_statement(run, &doc));
    SW_TRY(content(run, &doc));
    SW_TRY(doc_to_html(run, &doc, to_html));
    return doc_to_pdf(run, &doc, to_pdf);
}

static sw_status document(job *j, const char *title, tested_content *content, const char *html, const char *pdf)
{
    size_t mark = sw_arena_mark(j->run->scratch);
    sw_status status = rendered(j, title, content, html, pdf);
    sw_arena_rewind(j->run->scratch, mark);
    return status;
}

static sw_status documents(job *j)
{
    SW_TRY(document(j, "Test report", tested_report, "report.html", "report.pdf"));
    list(j, "report.html", "charts, results with what is not sure, limits, measured beside the model");
    list(j, "report.pdf", "the same on paper");
    SW_TRY(document(j, "Rating plate and technical documentation", tested_plate, "plate.html", "plate.pdf"));
    list(j, "plate.html", "rating plate, technical documentation and fiche, as drafts");
    list(j, "plate.pdf", "the same on paper");
    if (j->tested->result->plan == NULL) return SW_OK;
    SW_TRY(document(j, "Test plan", tested_plan, "plan.html", "plan.pdf"));
    list(j, "plan.html", "the next test: what to place where, how long, how much wood");
    list(j, "plan.pdf", "the same on paper");
    return SW_OK;
}

/* ---- files for machines --------------------------------------------------------------------------------------------- */

static void write_hot_test(sw_writer *w, const job *j)
{
    sw_trial_write_hot_test(w, j->tested->result);
}

static void write_declared(sw_writer *w, const job *j)
{
    const sw_tested *t = j->tested;
    sw_print(w,
             "-- What the test in %s says of the stove, for the chimney of any house: stovewright flue ... --declared "
             "declared.lua,\n-- or as a line of the house's description. %s\n%s\n",
             t->record->file, t->result->statement, t->result->declared.lua);
}

static void write_header(sw_writer *w, const job *j)
{
    sw_write_text(w, j->tested->result->plan->header);
}

static sw_status file(job *j, const char *name, const char *what, void (*write)(sw_writer *w, const job *j))
{
    sw_writer *w = NULL;
    const char *path = named(j, name);
    if (path == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_writer_to_file(j->run, path, &w));
    write(w, j);
    SW_TRY(sw_writer_close(j->run, w));
    list(j, name, what);
    return SW_OK;
}

static sw_status machine_files(job *j)
{
    const sw_trial_result *r = j->tested->result;
    SW_TRY(file(j, "hot_test.csv", "readings for heat --test, which corrects the stove's model", write_hot_test));
    if (r->declared.lua[0] != '\0')
        SW_TRY(file(j, "declared.lua", "gas flow, temperature, CO2 and draught for flue --declared", write_declared));
    return r->plan == NULL ? SW_OK : file(j, "measured.csv", "first lines of the next measured file", write_header);
}

/* ---- the whole ------------------------------------------------------------------------------------------------------ */

static sw_status desk_of(sw_run *run, const sw_dossier *d, paper_desk *desk)
{
    if (d->model.stove != NULL && d->sheet != NULL) return desk_whole(run, d, desk);
    *desk = (paper_desk){.d = d};
    return lettering_open(run, &desk->letters);
}

static sw_status all(job *j, paper_desk *desk)
{
    SW_TRY(desk_of(j->run, j->tested->d, desk));
    j->desk = desk;
    SW_TRY(documents(j));
    return machine_files(j);
}

sw_status sw_papers_trial(sw_run *run, const sw_tested *tested, const char *folder, const sw_paper_file **files,
                          size_t *count)
{
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk = {.d = tested->d};
    job j = {.run = run, .tested = tested, .folder = folder, .files = SW_KEEP(run, FILES_MOST, sw_paper_file)};
    sw_status status = j.files == NULL ? SW_NO_MEMORY : all(&j, &desk);
    if (desk.letters != NULL) desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    *files = j.files;
    *count = j.count;
    return status;
}
