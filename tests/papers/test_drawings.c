#include "papers_fixture.h"

static void views_maps_and_templates_are_drawn(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    sw_ok(t, sw_paper_views(&t->run, d, false, fixture_path(t, &f, "assembled.svg")));
    sw_ok(t, sw_paper_views(&t->run, d, true, fixture_path(t, &f, "exploded.svg")));
    sw_ok(t, sw_paper_views(&t->run, d, true, fixture_path(t, &f, "exploded.png")));
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, fixture_path(t, &f, "map.pdf")));
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, fixture_path(t, &f, "map.svg")));
    sw_ok(t, sw_paper_template(&t->run, d, 1, fixture_path(t, &f, "template.pdf")));
    sw_ok(t, sw_paper_gltf(&t->run, d, fixture_path(t, &f, "stove.glb")));
    sw_ok(t, sw_paper_flat(&t->run, d, 0, fixture_path(t, &f, "flat.svg")));
    sw_writer *w = NULL;
    sw_ok(t, sw_writer_to_file(&t->run, fixture_path(t, &f, "findings.json"), &w));
    sw_ok(t, sw_paper_json(&t->run, d, w));
    sw_ok(t, sw_writer_close(&t->run, w));
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(views_maps_and_templates_are_drawn))
