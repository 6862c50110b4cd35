#include "papers_fixture.h"

static void a_flat_drawing_tells_number_mass_and_angle(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    for (size_t i = 0; i < FIXTURE_PIECES; i++) {
        const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s.pdf", f.folder, f.pieces[i].number);
        sw_ok(t, sw_paper_flat(&t->run, d, i, path));
        const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s -", path));
        sw_contains(t, text, f.pieces[i].number);
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.2f", d->sheet->pieces[i].mass_kg));
        sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "qpdf --check %s", path)) != NULL);
    }
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(a_flat_drawing_tells_number_mass_and_angle))
