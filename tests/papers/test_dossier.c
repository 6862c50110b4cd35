#include "papers_fixture.h"

static void the_whole_folder_is_written(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    sw_folder folder;
    const sw_paper_file *files = NULL;
    size_t count = 0;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &f, "out"), &folder));
    double before = sw_seconds();
    sw_ok(t, sw_papers_write(&t->run, d, &folder, &files, &count));
    printf("%.1f ms\n", 1e3 * (sw_seconds() - before));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    for (size_t i = 0; i < count; i++) {
        const char *path = sw_text_format(&t->run, t->run.keep, "%s/out/%s", f.folder, files[i].path);
        sw_true(t, access(path, R_OK) == 0);
    }
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(the_whole_folder_is_written))
