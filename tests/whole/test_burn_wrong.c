/* What a fire, its air and its heat cannot be: demonstration stove (a) with one thing wrong, as a person meets it. */
#include "program.h"

#define STOVE SW_SOURCE_DIR "/demo/a.stove.lua"

enum { MOST_BYTES = 1 << 20 };

typedef struct change {
    const char *from, *to; /* every place; NULL ends the list */
} change;
typedef struct wrong {
    change changes[3];
    const char *words; /* FILE stands for the stove so changed */
    int code;
    const char *says;
} wrong;

/* ---- the stove with something else in it ------------------------------------------------------------------------- */

static const char *replaced(sw_test *t, const char *text, change c)
{
    sw_writer *w = NULL;
    const char *out = NULL, *at = NULL;
    size_t length = 0;
    if (!sw_true(t, strstr(text, c.from) != NULL) || !sw_ok(t, sw_writer_to_memory(&t->run, &w))) return NULL;
    while ((at = strstr(text, c.from)) != NULL) {
        sw_print(w, "%.*s%s", (int)(at - text), text, c.to);
        text = at + strlen(c.from);
    }
    sw_print(w, "%s", text);
    return sw_ok(t, sw_writer_take(&t->run, w, &out, &length)) ? out : NULL;
}

static const char *changed_stove(sw_test *t, const wrong *w)
{
    const char *text = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_file_read(&t->run, STOVE, MOST_BYTES, &text, &length))) return NULL;
    for (size_t i = 0; i < 3 && w->changes[i].from != NULL && text != NULL; i++)
        text = replaced(t, text, w->changes[i]);
    return text;
}

static const char *written(sw_test *t, const char *text)
{
    const char *base = getenv("TMPDIR");
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/sw-burn-wrong-%ld.stove.lua",
                                      base == NULL ? "/tmp" : base, (long)getpid());
    FILE *file = fopen(path, "w");
    if (!sw_true(t, file != NULL)) return NULL;
    bool whole = fputs(text, file) >= 0;
    return sw_true(t, fclose(file) == 0 && whole) ? path : NULL;
}

/* ---- the program's answer ------------------------------------------------------------------------------------------- */

static const char *with_file(sw_test *t, const char *words, const char *path)
{
    const char *file = strstr(words, "FILE");
    return sw_text_format(&t->run, t->run.keep, "%.*s'%s'%s", (int)(file - words), words, path, file + 4);
}

static void try_all(sw_test *t, const wrong *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *stove = changed_stove(t, &list[i]), *path = stove == NULL ? NULL : written(t, stove);
        if (path == NULL) return;
        expect(t, with_file(t, list[i].words, path), list[i].code, list[i].says);
        (void)remove(path);
    }
}
#define TRY(list) try_all(t, list, sizeof(list) / sizeof *(list))

/* ---- one thing wrong ------------------------------------------------------------------------------------------------- */

#define NO_OPENINGS                                                                                                    \
    {                                                                                                                  \
        {                                                                                                              \
            "\nopening {", "\nlocal _ = {"                                                                             \
        }                                                                                                              \
    }

static void a_stove_without_openings_is_asked_for_one(sw_test *t)
{
    static const wrong list[] = {{NO_OPENINGS, "air FILE", 2, "the stove has no air opening; describe at least one"},
                                 {NO_OPENINGS, "fire FILE", 2, "the stove has no air opening"},
                                 {NO_OPENINGS, "heat FILE", 2, "the stove has no air opening"},
                                 {NO_OPENINGS, "heat FILE --json", 2, "the stove has no air opening"}};
    TRY(list);
}

#define ROOF_HOLE                                                                                                      \
    {                                                                                                                  \
        {                                                                                                              \
            ",\n             holes = { hole { at = { plate_x, collar_y - front_y + 6*mm }, d = flue } } },", " },"     \
        }                                                                                                              \
    }

static void a_blocked_flue_is_found(sw_test *t)
{
    static const wrong list[] = {
        {ROOF_HOLE, "heat FILE", 1, "it is blocked: nothing in the stove sees out through it"},
        {ROOF_HOLE, "air FILE", 2, "the collar has a free area of 0 mm2: it is blocked"},
        {{{"role = \"flue collar\"", "role = \"bracket\""}}, "heat FILE", 2, "no collar was found"},
    };
    TRY(list);
}

static void wood_too_wet_to_burn_well_fails_and_wetter_is_refused(sw_test *t)
{
    static const wrong list[] = {{{{0}}, "fire FILE --with moisture=0.6", 1, "fails   fire / moisture"},
                                 {{{0}}, "fire FILE --with moisture=0.61", 2, "is outside 0 to 0.6"}};
    TRY(list);
}

static void too_little_draught_ends_with_what_was_tried_and_is_no_number(sw_test *t)
{
    static const wrong list[] = {
        {{{0}}, "heat FILE --with draught_pa=0", 1, "kW off; nothing of it is a result"},
        {{{0}}, "air FILE --with draught_pa=0", 1, "no amount of wood gives 6.00 kW"},
        {{{0}}, "fire FILE --with draught_pa=0", 1, "fails   fire / computed"},
        {{{0}}, "heat FILE --with draught_pa=-1", 2, "is outside 0 to 100 Pa"},
        {{{0}}, "heat FILE --with primary_share=0 --with wash_share=0 --with rear_share=0", 1, "with excess air"},
    };
    TRY(list);
}

static void air_that_does_not_settle_is_told_with_its_residual(sw_test *t)
{
    static const wrong list[] = {
        {{{0}},
         "heat FILE --with fuel_kg_h=8 --with draught_pa=0 --with primary_share=0 --with wash_share=0 --with rear_share=0",
         1,
         "% after 40 rounds"}};
    TRY(list);
}

static void a_piece_that_nothing_holds_is_named(sw_test *t)
{
    static const wrong list[] = {
        {{{"place = { at = { -in_x + 5*mm, throat_y + 40*mm,", "place = { at = { -in_x + 5*mm, throat_y - 1900*mm,"}},
         "heat FILE",
         0,
         "watch   heat / held: throat board"}};
    TRY(list);
}

static void a_surface_without_emissivity_is_told_and_says_what_is_taken(sw_test *t)
{
    static const wrong list[] = {
        {{{"name = \"grate\", group = \"lining\", role = \"grate\", kind = \"cast\", material = \"EN-GJL-200\",",
           "name = \"grate\", group = \"lining\", role = \"grate\", kind = \"cast\", material = \"stone\", mass = 3*kg,"}},
         "heat FILE",
         0,
         "unknown heat / material: grate"}};
    TRY(list);
}

static void a_negative_lining_is_refused(sw_test *t)
{
    static const wrong list[] = {
        {{{0}}, "heat FILE --set lining=-5mm", 2, "is -5 mm, allowed is 24 mm to 30 mm"},
        {{{"board_top - board_z }, thickness = lining", "board_top - board_z }, thickness = -lining"}},
         "heat FILE",
         2,
         "thickness: is -25 mm"},
    };
    TRY(list);
}

static void a_pane_that_faces_nothing_is_told(sw_test *t)
{
    static const wrong list[] = {{{{"place = { at = { -pane_x, pane_y + glass_t, floor_z + pane_z }",
                                    "place = { at = { -pane_x, pane_y - 700*mm, floor_z + pane_z }"}},
                                  "heat FILE",
                                  0,
                                  "the pane faces little or no fire"}};
    TRY(list);
}

SW_TESTS(SW_CASE(a_stove_without_openings_is_asked_for_one), SW_CASE(a_blocked_flue_is_found),
         SW_CASE(wood_too_wet_to_burn_well_fails_and_wetter_is_refused),
         SW_CASE(too_little_draught_ends_with_what_was_tried_and_is_no_number),
         SW_CASE(air_that_does_not_settle_is_told_with_its_residual), SW_CASE(a_piece_that_nothing_holds_is_named),
         SW_CASE(a_surface_without_emissivity_is_told_and_says_what_is_taken), SW_CASE(a_negative_lining_is_refused),
         SW_CASE(a_pane_that_faces_nothing_is_told))
