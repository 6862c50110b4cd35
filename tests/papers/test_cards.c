#include "making/join/join_scene.h"
#include "papers/cards_parts.h"
#include "papers/machine_parts.h"
#include "papers_fixture.h"

/* ---- forming ------------------------------------------------------------------------------------------------------ */

static const double dies_mm[] = {16, 20, 25, 32, 40};

static void with_press(fixture *f)
{
    f->works.press = (sw_press){.dies_mm = dies_mm,
                                .die_count = 5,
                                .length_mm = 2500,
                                .force_n = 1e6,
                                .punch_radius_mm = 1,
                                .punch_body_mm = 20,
                                .punch_high_mm = 160,
                                .die_block_mm = 6,
                                .die_high_mm = 100,
                                .beam_mm = 80,
                                .gauge_least_mm = 5,
                                .gauge_most_mm = 700,
                                .bend_s = 14,
                                .turn_s = 8,
                                .gauge_s = 10,
                                .setup_s = 720,
                                .rate_h = 52};
    f->works.rolls = (sw_rolls){.length_mm = 1250,
                                .top_radius_mm = 45,
                                .lower_radius_mm = 45,
                                .centres_mm = 130,
                                .flat_end_s = 2,
                                .force_n = 9e4,
                                .pass_mm_s = 60,
                                .setup_s = 300,
                                .rate_h = 40};
}

/* The fixture bent and rolled. */
static void formed(sw_test *t, fixture *f)
{
    (void)fixture_make(t, f);
    with_press(f);
    const sw_form_options opt = sw_form_options_defaults();
    sw_ok(t, sw_form_solve(&t->run, &(sw_form_input){&f->dossier.model, &f->sheet, NULL}, &opt, &f->dossier.shop.form));
}

static void desk_of(sw_test *t, const sw_dossier *d, paper_desk *desk)
{
    sw_ok(t, desk_open(&t->run, d, desk));
    for (size_t i = 0; i < d->sheet->piece_count; i++) sw_ok(t, desk_shape(&t->run, desk, i));
}

static const char *plain_text(sw_test *t, const char *path)
{
    return fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout '%s' - | tr -s ' \\n' ' '", path));
}

static void the_bend_card_tells_each_stroke(sw_test *t)
{
    fixture f;
    paper_desk desk;
    formed(t, &f);
    desk_of(t, &f.dossier, &desk);
    const char *path = fixture_path(t, &f, "bends.pdf");
    sw_ok(t, paper_bends(&t->run, &desk, path));
    const sw_form_piece *p = &f.dossier.shop.form->pieces[0];
    const char *text = plain_text(t, path);
    sw_near(t, (double)p->step_count, 2, 0, "derived: two flanges");
    sw_contains(t, text, "A-01");
    sw_contains(t, text, "bend card");
    for (size_t i = 0; i < p->step_count; i++) {
        const sw_form_step *s = &p->steps[i];
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "V %g", s->die_mm));
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.1f kN", s->force_n * 1e-3));
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.2f mm, ", s->depth_mm));
        if (isfinite(s->gauge_mm)) sw_contains(t, text, s->gauge_edge);
        sw_contains(t, text, s->bends[0]->name);
    }
    sw_contains(t, text, "two-hand control");
    sw_true(t, strstr(text, "A-03") == NULL); /* a disc has no card */
    desk_close(&desk);
    fixture_clear(t, &f);
}

static void the_rolling_card_tells_passes_and_template(sw_test *t)
{
    fixture f;
    paper_desk desk;
    formed(t, &f);
    desk_of(t, &f.dossier, &desk);
    const char *path = fixture_path(t, &f, "rolls.pdf");
    sw_ok(t, paper_rolls(&t->run, &desk, path));
    const sw_form_piece *p = &f.dossier.shop.form->pieces[1];
    const char *text = plain_text(t, path);
    sw_near(t, (double)p->roll_count, 1, 0, "derived: one rolled zone");
    const sw_form_roll *r = &p->rolls[0];
    sw_contains(t, text, "A-02");
    sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.2f mm; good from", r->sagitta_mm));
    sw_contains(t, text, "pass downfeed from flat, mm");
    sw_contains(t, text, "Rolls draw in gloves");
    desk_close(&desk);
    fixture_clear(t, &f);
}

static void a_piece_that_cannot_be_bent_says_why(sw_test *t)
{
    fixture f;
    paper_desk desk;
    formed(t, &f);
    sw_form_result form = *f.dossier.shop.form;
    sw_form_piece pieces[FIXTURE_PIECES];
    sw_finding clash = f.findings[0];
    memcpy(pieces, form.pieces, sizeof pieces);
    pieces[0].step_count = 0;
    pieces[0].bendable = false;
    clash.where = "A-01 front plate";
    clash.what = "no order of its 2 bend lines: bending right flange drives left flange 3.0 mm into the punch";
    form.pieces = pieces;
    form.findings = (sw_findings){&clash, 1, 1};
    f.dossier.shop.form = &form;
    desk_of(t, &f.dossier, &desk);
    const char *path = fixture_path(t, &f, "bends.pdf");
    sw_ok(t, paper_bends(&t->run, &desk, path));
    const char *text = plain_text(t, path);
    sw_contains(t, text, "no order of strokes was found");
    sw_contains(t, text, "drives left flange 3.0 mm into the punch");
    desk_close(&desk);
    fixture_clear(t, &f);
}

static void the_dossier_lists_the_cards(sw_test *t)
{
    fixture f;
    sw_folder folder;
    const sw_paper_file *files = NULL;
    size_t count = 0, found = 0;
    formed(t, &f);
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &f, "out"), &folder));
    sw_ok(t, sw_papers_write(&t->run, &f.dossier, &folder, &files, &count));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    for (size_t i = 0; i < count; i++) found += strncmp(files[i].path, "bending/", 8) == 0;
    sw_near(t, (double)found, 2, 0, "derived: bends and rolls");
    const char *check = sw_text_format(
        &t->run, t->run.keep, "for f in %s/out/bending/*.pdf; do qpdf --check \"$f\" || exit 1; done", f.folder);
    sw_true(t, fixture_shell(t, check) != NULL);
    fixture_clear(t, &f);
}

/* ---- welding ------------------------------------------------------------------------------------------------------- */

typedef struct welded_dossier {
    sw_dossier d;
    fixture f; /* for its folder */
    paper_desk desk;
} welded_dossier;

/* Two walls on a floor. */
static void weld_up(sw_test *t, welded_dossier *wd)
{
    welded *w = new_welded(t);
    sw_frame wall = {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {0, 0, 0}};
    int floor_piece = plate(w, "floor", 400, 300, lying);
    int one = plate(w, "one wall", 200, 150, at(wall, 50, 100, 1.5)),
        other = plate(w, "other, wall", 200, 150, at(wall, 50, 200, 1.5));
    fillet(w, "one on floor", one, 0, floor_piece);
    fillet(w, "=other on floor", other, 0, floor_piece); /* a spreadsheet would run it: the seam table says '= */
    (void)fixture_make(t, &wd->f);
    wd->d = (sw_dossier){.model = w->s->model, .batch = 1, .date = "2026-11-25"};
    wd->d.shop.join = welded_up(w);
    wd->d.sheet = w->sheet;
    desk_of(t, &wd->d, &wd->desk);
}

static void weld_down(sw_test *t, welded_dossier *wd)
{
    desk_close(&wd->desk);
    fixture_clear(t, &wd->f);
}

static void the_welding_card_tells_seams_and_order(sw_test *t)
{
    welded_dossier wd;
    weld_up(t, &wd);
    const char *path = fixture_path(t, &wd.f, "welding.pdf");
    sw_ok(t, paper_welding(&t->run, &wd.desk, path));
    const char *text = plain_text(t, path);
    sw_near(t, (double)wd.d.shop.join->seam_count, 2, 0, "derived: two joints with a seam");
    for (size_t i = 0; i < wd.d.shop.join->seam_count; i++) {
        const sw_join_seam *s = &wd.d.shop.join->seams[i];
        sw_contains(t, text, s->joint->name);
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.0f", s->weld_mm));
    }
    sw_contains(t, text, "Setting up and tacks");
    sw_contains(t, text, "Leak test");
    sw_contains(t, text, "\xc2\xb1 50 %");
    sw_contains(t, text, "The arc blinds and burns");
    sw_contains(t, text, "dashed: behind sheet");
    weld_down(t, &wd);
}

static void without_a_robot_the_welding_card_says_so_once(sw_test *t)
{
    welded_dossier wd;
    weld_up(t, &wd);
    sw_works by_hand = *wd.d.model.works;
    by_hand.welding.robot = false;
    wd.d.model.works = &by_hand;
    const char *path = fixture_path(t, &wd.f, "welding.pdf");
    sw_ok(t, paper_welding(&t->run, &wd.desk, path));
    const char *text = plain_text(t, path), *first = strstr(text, "the works have no robot");
    sw_true(t, first != NULL && strstr(first + 1, "the works have no robot") == NULL);
    weld_down(t, &wd);
}

static void the_seam_table_is_read_back(sw_test *t)
{
    welded_dossier wd;
    weld_up(t, &wd);
    const char *path = fixture_path(t, &wd.f, "seams.csv");
    sw_ok(t, sw_paper_seams_csv(&t->run, wd.d.shop.join, path));
    sw_ok(t, machine_check_seams(&t->run, wd.d.shop.join, path));
    weld_down(t, &wd);
}

/* A table in which one figure, or one line, is another does not count as written. */
static void a_seam_table_that_differs_is_refused(sw_test *t)
{
    static const char *const changes[] = {"2s/\\./1./", "$d", "3s/^1,1,/1,2,/", "1s/torch_x/torch/"};
    welded_dossier wd;
    weld_up(t, &wd);
    const char *path = fixture_path(t, &wd.f, "seams.csv");
    sw_ok(t, sw_paper_seams_csv(&t->run, wd.d.shop.join, path));
    const char *sound = sw_text_copy(&t->run, t->run.keep, fixture_text(t, path));
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++) {
        sw_ok(t, sw_paper_seams_csv(&t->run, wd.d.shop.join, path));
        sw_true(t,
                fixture_shell(t, sw_text_format(&t->run, t->run.keep, "sed -i '%s' '%s'", changes[i], path)) != NULL);
        sw_true(t, strcmp(sound, fixture_text(t, path)) != 0);
        sw_run_clear_errors(&t->run);
        sw_true(t, machine_check_seams(&t->run, wd.d.shop.join, path) != SW_OK);
    }
    sw_run_clear_errors(&t->run);
    weld_down(t, &wd);
}

/* ---- all cards ------------------------------------------------------------------------------------------------------- */

typedef struct card_text {
    double x0, y0, x1, y1;
    char text[120];
} card_text;

/* Marks stay on their pages and no text lies on another. Gives how many texts there are. */
static size_t legible(sw_test *t, const char *trace)
{
    enum { MOST = 4000 };
    card_text *texts = SW_KEEP(&t->run, MOST, card_text);
    double wide = 0, high = 0;
    size_t count = 0, all = 0;
    for (const char *line = trace; line != NULL && *line != '\0'; line = strchr(line, '\n'), line += line != NULL) {
        char *end = NULL;
        double at[6] = {0};
        bool page = strncmp(line, "page ", 5) == 0;
        if (!page && strncmp(line, "text ", 5) != 0) continue;
        const char *from = line + 5;
        for (int i = 0; i < (page ? 2 : 6); i++, from = end) at[i] = strtod(from, &end);
        if (page) wide = at[0], high = at[1], count = 0;
        if (page) continue;
        double x0 = at[0], y0 = at[1], x1 = at[2], y1 = at[3];
        char words[120] = "";
        size_t length = strcspn(from, "\n");
        memcpy(words, from, length < sizeof words ? length : sizeof words - 1);
        sw_true(t, x0 >= 0 && y0 >= 0 && x1 <= wide + 0.5 && y1 <= high + 0.5);
        card_text *now = &texts[count];
        *now = (card_text){.x0 = x0 + 0.02, .y0 = y0 + 0.02, .x1 = x1 - 0.02, .y1 = y1 - 0.02};
        memcpy(now->text, words, sizeof words);
        for (size_t i = 0; i < count; i++) {
            bool apart =
                texts[i].x1 <= now->x0 || now->x1 <= texts[i].x0 || texts[i].y1 <= now->y0 || now->y1 <= texts[i].y0;
            if (!apart) printf("    \"%s\" lies on \"%s\"\n", now->text, texts[i].text);
            sw_true(t, apart);
        }
        if (count + 1 < MOST) count++;
        all++;
    }
    return all;
}

static void no_text_of_a_card_lies_on_another(sw_test *t)
{
    fixture f;
    paper_desk desk;
    welded_dossier wd;
    formed(t, &f);
    desk_of(t, &f.dossier, &desk);
    const char *bends = fixture_path(t, &f, "bends.trace"), *rolls = fixture_path(t, &f, "rolls.trace");
    sw_ok(t, paper_bends(&t->run, &desk, bends));
    sw_ok(t, paper_rolls(&t->run, &desk, rolls));
    sw_true(t, legible(t, fixture_text(t, bends)) > 40);
    sw_true(t, legible(t, fixture_text(t, rolls)) > 40);
    desk_close(&desk);
    fixture_clear(t, &f);
    weld_up(t, &wd);
    const char *welding = fixture_path(t, &wd.f, "welding.trace");
    sw_ok(t, paper_welding(&t->run, &wd.desk, welding));
    sw_true(t, legible(t, fixture_text(t, welding)) > 60);
    weld_down(t, &wd);
}

static void the_bytes_of_cards_repeat(sw_test *t)
{
    welded_dossier wd;
    paper_desk desk;
    fixture f;
    weld_up(t, &wd);
    formed(t, &f);
    desk_of(t, &f.dossier, &desk);
    for (int i = 0; i < 2; i++) {
        sw_ok(t, paper_bends(&t->run, &desk, sw_text_format(&t->run, t->run.keep, "%s/b%d.pdf", f.folder, i)));
        sw_ok(t, paper_rolls(&t->run, &desk, sw_text_format(&t->run, t->run.keep, "%s/r%d.pdf", f.folder, i)));
        sw_ok(t, paper_welding(&t->run, &wd.desk, sw_text_format(&t->run, t->run.keep, "%s/w%d.pdf", f.folder, i)));
    }
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep,
                                               "cd %s && cmp b0.pdf b1.pdf && cmp r0.pdf r1.pdf && cmp w0.pdf w1.pdf",
                                               f.folder)) != NULL);
    desk_close(&desk);
    fixture_clear(t, &f);
    weld_down(t, &wd);
}

SW_TESTS(SW_CASE(the_bend_card_tells_each_stroke), SW_CASE(the_rolling_card_tells_passes_and_template),
         SW_CASE(a_piece_that_cannot_be_bent_says_why), SW_CASE(the_dossier_lists_the_cards),
         SW_CASE(the_welding_card_tells_seams_and_order), SW_CASE(without_a_robot_the_welding_card_says_so_once),
         SW_CASE(the_seam_table_is_read_back), SW_CASE(a_seam_table_that_differs_is_refused),
         SW_CASE(no_text_of_a_card_lies_on_another), SW_CASE(the_bytes_of_cards_repeat))
