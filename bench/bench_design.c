/* bench_design: how long reading descriptions takes, and what it asks of memory. Prints CSV; judges nothing.
 *   bench_design [STOVE.lua ...]   without files: a made-up stove of about 300 lines
 * evaluate_ms: the description alone (Lua state, parsing, running, quantities), its constructors reading nothing;
 * read_ms: the whole reading with every check. The least of all rounds each. */
#include "design/design_parts.h"

#include <stdio.h>
#include <string.h>

enum { ROUNDS = 50 };

static const char *made_up_stove(sw_run *run, size_t *lines)
{
    sw_writer *writer = NULL;
    const char *text = NULL;
    size_t length;
    if (sw_writer_to_memory(run, &writer) != SW_OK) return NULL;
    sw_print(
        writer,
        "stove { name = 'made up', duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }\n"
        "group('g', { title = 'All' })\nlocal W = parameter('w', 400*mm, { min = 300*mm, max = 500*mm }, 'width')\nlocal t = 4*mm\n");
    for (int i = 0; i < 48; i++)
        sw_print(
            writer,
            "piece { number = 'A-%d', name = 'wall %d', group = 'g', role = 'firebox wall', material = 'S235', thickness = t,\n"
            "  face = { outline = rectangle { W - 2*t, 500*mm + %d*mm, corner = 3*mm },\n"
            "    holes = { row { hole { at = {50*mm, 80*mm}, d = 8*mm }, step = {30*mm, 0*mm}, count = 8 }, slot { at = {100*mm, 200*mm}, length = 30*mm, width = 8*mm } },\n"
            "    bends = { { on = 'left', height = 30*mm, gap_start = 1*mm }, { on = 'top', from = 60*mm, to = 260*mm, height = 40*mm },\n"
            "      joggle { on = 'right', offset = 5*mm } } },\n"
            "  place = { at = {0*mm, %d*mm, 0*mm}, x = 'right', y = 'up', surface = 'front' } }\n",
            i, i, i, 10 * i);
    *lines = 4 + 48 * 6;
    return sw_writer_take(run, writer, &text, &length) == SW_OK ? text : NULL;
}

/* ---- the description alone ---- */

static int unread(lua_State *L)
{
    lua_settop(L, 1);
    return 1;
}

static int setup_unread(lua_State *L)
{
    static const char *const names[] = {"rectangle", "polygon", "disc",   "from_dxf", "hole",  "slot", "window",
                                        "row",       "grid",    "etch",   "line",     "piece", "item", "joint",
                                        "opening",   "group",   "mirror", "joggle",   "hem",   "stove"};
    for (size_t i = 0; i < DESIGN_COUNT_OF(names); i++) lua_register(L, names[i], unread);
    lua_register(L, "parameter", design_parameter);
    return 0;
}

static void finish_nothing(design *d)
{
    (void)d;
}

static sw_status evaluate(sw_run *run, const sw_design_texts *in)
{
    static const lua_CFunction setups[] = {design_setup_common, setup_unread};
    const sw_design_options options = sw_design_options_defaults();
    design d = {.run = run, .file = in->stove.name, .folder = in->folder, .options = &options};
    return design_run(&d, in->stove.text, in->stove.length, setups, DESIGN_COUNT_OF(setups), finish_nothing);
}

/* ---- measuring ---- */

typedef struct figures {
    double evaluate_s, read_s; /* least so far */
    size_t takes, bytes, pieces;
} figures;

static sw_status one_round(sw_run *run, const sw_design_texts *in, figures *f)
{
    const sw_model *model = NULL;
    double start_s = sw_seconds();
    SW_TRY(evaluate(run, in));
    double between_s = sw_seconds();
    size_t takes = sw_arena_takes(run->keep) + sw_arena_takes(run->scratch), bytes = sw_arena_bytes(run->keep);
    SW_TRY(sw_design_read_texts(run, in, &model));
    double end_s = sw_seconds();
    f->evaluate_s = between_s - start_s < f->evaluate_s ? between_s - start_s : f->evaluate_s;
    f->read_s = end_s - between_s < f->read_s ? end_s - between_s : f->read_s;
    f->takes = sw_arena_takes(run->keep) + sw_arena_takes(run->scratch) - takes;
    f->bytes = sw_arena_bytes(run->keep) - bytes;
    f->pieces = model->stove->piece_count;
    return SW_OK;
}

static int measure(const char *name, const char *text, size_t lines)
{
    const sw_design_texts in = {.stove = {name, text, strlen(text)}, .folder = "."};
    figures f = {.evaluate_s = 1e9, .read_s = 1e9};
    for (int i = 0; i < ROUNDS; i++) {
        sw_run run;
        if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 1;
        sw_status status = one_round(&run, &in, &f);
        if (status != SW_OK)
            printf("%s: %s:%d %s\n", sw_status_name(status), name, run.errors[0].place.line, run.errors[0].text);
        sw_run_close(&run);
        if (status != SW_OK) return 1;
    }
    printf("%s,%zu,%zu,%.3f,%.3f,%zu,%zu\n", name, lines, f.pieces, f.evaluate_s * 1e3, f.read_s * 1e3, f.takes,
           f.bytes);
    return 0;
}

int main(int argc, char **argv)
{
    sw_run run;
    size_t lines = 0, length;
    int failed = 0;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 1;
    printf("description,lines,pieces,evaluate_ms,read_ms,allocations,kept_bytes\n");
    const char *text = made_up_stove(&run, &lines);
    if (text != NULL) failed |= measure("made up", text, lines);
    for (int i = 1; i < argc; i++) {
        if (sw_file_read(&run, argv[i], (size_t)1 << 22, &text, &length) != SW_OK) continue;
        lines = 0;
        for (const char *p = text; *p != '\0'; p++) lines += *p == '\n';
        failed |= measure(argv[i], text, lines);
    }
    sw_run_close(&run);
    return failed;
}
