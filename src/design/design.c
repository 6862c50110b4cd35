/* design.c: the steps from three texts to one model. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { FILE_BYTES = 4 << 20 };

static const sw_option options_table[] = {
    SW_OPTION(sw_design_options, memory_mb, "MB", 64.0, 1.0, 4096.0, "memory one description may use while it runs",
              "ours"),
    SW_OPTION(sw_design_options, steps, "", 20e6, 1e3, 2e9, "Lua instructions one description may take", "ours"),
    SW_OPTION(sw_design_options, seconds, "s", 20.0, 0.1, 1e4, "wall time of one description, the last guard", "ours"),
};

const sw_option *sw_design_option_table(size_t *count)
{
    *count = DESIGN_COUNT_OF(options_table);
    return options_table;
}

sw_design_options sw_design_options_defaults(void)
{
    sw_design_options options;
    sw_options_fill(options_table, DESIGN_COUNT_OF(options_table), &options);
    options.made_by_defaults = SW_DEFAULTS_MARK;
    return options;
}

typedef struct reading {
    sw_run *run;
    const sw_design_texts *in;
    sw_design_options options;
    design_setting *settings;
    sw_model *model;
    design stove; /* outlives its reading: what its parameters are called */
} reading;

/* ---- settings ---- */

static sw_status split_setting(reading *r, size_t i)
{
    const char *given = r->in->settings[i], *sign = strchr(given, '=');
    const char *name = sign == NULL ? NULL : sw_text_format(r->run, r->run->keep, "%.*s", (int)(sign - given), given);
    if (sign == NULL || sign == given || sign[1] == '\0')
        return sw_fail(r->run, SW_BAD_INPUT, (sw_place){0}, "--set",
                       "\"%.80s\" is no setting; write name=value with its unit, e.g. width=420mm", given);
    if (name == NULL) return SW_NO_MEMORY;
    for (size_t j = 0; j < i; j++)
        if (r->settings[j].name != NULL && strcmp(r->settings[j].name, name) == 0)
            return sw_fail(r->run, SW_BAD_INPUT, (sw_place){0}, "--set", "\"%s\" is set twice; set it once", name);
    r->settings[i] = (design_setting){.name = name, .value = sign + 1};
    return SW_OK;
}

static sw_status split_settings(reading *r)
{
    r->settings = SW_SCRATCH(r->run, r->in->setting_count, design_setting);
    if (r->settings == NULL) return SW_NO_MEMORY;
    sw_status status = SW_OK;
    for (size_t i = 0; i < r->in->setting_count; i++) {
        sw_status one = split_setting(r, i);
        if (one != SW_OK) status = one;
        if (one == SW_NO_MEMORY) return one;
    }
    if (r->in->setting_count == 0 || r->in->stove.name != NULL || r->in->house.name != NULL) return status;
    return sw_fail(r->run, SW_BAD_INPUT, (sw_place){0}, "--set",
                   "there is no stove or house description whose parameters could be set");
}

/* ---- one description ---- */

typedef struct language {
    const lua_CFunction *setups;
    size_t count;
    void (*finish)(design *d);
} language;

static sw_status read_text(reading *r, const sw_design_text *text, const language *words, design *d)
{
    *d = (design){.run = r->run,
                  .file = text->name,
                  .folder = text == &r->in->works && r->in->works_folder != NULL ? r->in->works_folder : r->in->folder,
                  .options = &r->options,
                  .settings = r->settings,
                  .setting_count = r->in->setting_count,
                  .before = d == &r->stove || r->in->stove.name == NULL ? NULL : &r->stove,
                  .last = d != &r->stove || r->in->house.name == NULL};
    return design_run(d, text->text, text->length, words->setups, words->count, words->finish);
}

static sw_status read_stove(reading *r)
{
    static const lua_CFunction setups[] = {design_setup_common, design_setup_shapes, design_setup_stove};
    static const language stove = {setups, DESIGN_COUNT_OF(setups), design_finish_stove};
    SW_TRY(read_text(r, &r->in->stove, &stove, &r->stove));
    sw_stove *kept = SW_KEEP(r->run, 1, sw_stove);
    if (kept == NULL) return SW_NO_MEMORY;
    *kept = r->stove.stove;
    r->model->stove = kept;
    r->model->stove_file = r->in->stove.name;
    return SW_OK;
}

static sw_status read_works(reading *r)
{
    static const lua_CFunction setups[] = {design_setup_common, design_setup_shapes, design_setup_works};
    static const language works = {setups, DESIGN_COUNT_OF(setups), design_finish_works};
    design d;
    SW_TRY(read_text(r, &r->in->works, &works, &d));
    sw_works *kept = SW_KEEP(r->run, 1, sw_works);
    if (kept == NULL) return SW_NO_MEMORY;
    *kept = d.works;
    r->model->works = kept;
    r->model->works_file = r->in->works.name;
    return SW_OK;
}

static sw_status read_house(reading *r)
{
    static const lua_CFunction setups[] = {design_setup_common, design_setup_house};
    static const language house = {setups, DESIGN_COUNT_OF(setups), design_finish_house};
    design d;
    SW_TRY(read_text(r, &r->in->house, &house, &d));
    sw_house *kept = SW_KEEP(r->run, 1, sw_house);
    if (kept == NULL) return SW_NO_MEMORY;
    *kept = d.house;
    r->model->house = kept;
    r->model->house_file = r->in->house.name;
    return SW_OK;
}

/* What is given here stands for what the house says; the rest of the house's own stays. */
static sw_status read_declared(reading *r)
{
    static const lua_CFunction setups[] = {design_setup_common, design_setup_declared};
    static const language declared = {setups, DESIGN_COUNT_OF(setups), design_finish_declared};
    design d;
    SW_TRY(read_text(r, &r->in->declared, &declared, &d));
    sw_house *house = SW_KEEP(r->run, 1, sw_house);
    if (house == NULL) return SW_NO_MEMORY;
    *house = *r->model->house;
    const double given[] = {d.house.declared_kg_s, d.house.declared_k, d.house.declared_pa, d.house.declared_most_pa,
                            d.house.declared_co2};
    double *const fields[] = {&house->declared_kg_s, &house->declared_k, &house->declared_pa, &house->declared_most_pa,
                              &house->declared_co2};
    for (size_t i = 0; i < DESIGN_COUNT_OF(given); i++)
        if (!isnan(given[i])) *fields[i] = given[i];
    r->model->house = house;
    if (!(house->declared_most_pa < house->declared_pa)) return SW_OK;
    return sw_fail(r->run, SW_BAD_INPUT, (sw_place){.file = r->in->declared.name}, "draught",
                   "is %g Pa, more than the most_draught of %g Pa in %s", house->declared_pa, house->declared_most_pa,
                   r->in->house.name);
}

/* ---- all ---- */

static sw_status worse(sw_status so_far, sw_status next)
{
    return so_far == SW_OK || so_far == SW_BAD_INPUT ? (next == SW_OK ? so_far : next) : so_far;
}

/* Faults of every description come out together. */
static sw_status read_all(sw_run *run, const sw_design_texts *in, const sw_model **model)
{
    reading r = {.run = run, .in = in, .options = in->options == NULL ? sw_design_options_defaults() : *in->options};
    SW_ASSERT(r.options.made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, options_table, DESIGN_COUNT_OF(options_table), &r.options));
    if (in->stove.name == NULL && in->works.name == NULL && in->house.name == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "",
                       "no description was given; give a stove, a works or a house");
    r.model = SW_KEEP(run, 1, sw_model);
    if (r.model == NULL) return SW_NO_MEMORY;
    *r.model = (sw_model){.stove_file = "", .works_file = "", .house_file = ""};
    SW_TRY(split_settings(&r));
    sw_status status = in->stove.name == NULL ? SW_OK : read_stove(&r);
    if (in->works.name != NULL && worse(SW_OK, status) != SW_NO_MEMORY) status = worse(status, read_works(&r));
    if (in->house.name != NULL && worse(SW_OK, status) != SW_NO_MEMORY) status = worse(status, read_house(&r));
    if (in->declared.name != NULL && in->house.name == NULL)
        status = worse(status, sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--declared",
                                       "what a stove declares is for a chimney: give the house, too (--house FILE)"));
    if (in->declared.name != NULL && status == SW_OK) status = read_declared(&r);
    if (status == SW_OK) *model = r.model;
    return status;
}

sw_status sw_design_read_texts(sw_run *run, const sw_design_texts *in, const sw_model **model)
{
    size_t mark = sw_arena_mark(run->scratch);
    *model = NULL;
    sw_status status = read_all(run, in, model);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* ---- files ---- */

static sw_status read_file(sw_run *run, const char *path, sw_design_text *text)
{
    if (path == NULL) return SW_OK;
    text->name = path;
    return sw_file_read(run, path, FILE_BYTES, &text->text, &text->length);
}

static const char *folder_of(sw_run *run, const char *path)
{
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    if (slash == NULL) return ".";
    return sw_text_format(run, run->keep, "%.*s", slash == path ? 1 : (int)(slash - path), path);
}

sw_status sw_design_read(sw_run *run, const sw_design_input *in, const sw_model **model)
{
    *model = NULL;
    sw_design_texts texts = {.settings = in->settings, .setting_count = in->setting_count, .options = in->options};
    SW_TRY(read_file(run, in->stove_path, &texts.stove));
    SW_TRY(read_file(run, in->works_path, &texts.works));
    if (in->house_text != NULL && in->house_path != NULL)
        texts.house = (sw_design_text){in->house_path, in->house_text, strlen(in->house_text)};
    else
        SW_TRY(read_file(run, in->house_path, &texts.house));
    SW_TRY(read_file(run, in->declared_path, &texts.declared));
    texts.folder = folder_of(run, in->stove_path != NULL ? in->stove_path : in->works_path);
    texts.works_folder = folder_of(run, in->works_path);
    if (texts.folder == NULL || texts.works_folder == NULL) return SW_NO_MEMORY;
    return sw_design_read_texts(run, &texts, model);
}
