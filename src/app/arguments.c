/* arguments.c: the words of the command line, by table. */
#include "app/app.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef enum option_kind { FLAG, TEXT, NUMBER, SETTING, CONDITION, AXIS } option_kind;

typedef struct option_row {
    const char *name;
    option_kind kind;
    size_t offset; /* in sw_request */
    double low, high;
    bool whole;
    const char *value, *meaning;
    const char *commands; /* that heed it, a space between; "" = all */
} option_row;

#define AT(field) offsetof(sw_request, field)

#define STOVES "check make sheet nest cut heft form join fit coat line fire air heat flue site sweep trial"

static const option_row options[] = {
    {"--works", TEXT, AT(works), 0, 0, false, "FILE", "the works' description (*.works.lua): stock, laser, press",
     STOVES},
    {"--house", TEXT, AT(house), 0, 0, false, "FILE", "the house's description (*.house.lua)",
     "check make flue site trial"},
    {"--set", SETTING, 0, 0, 0, false, "NAME=VALUE",
     "override a parameter within its bounds, e.g. firebox_width=420mm; may be repeated", STOVES},
    {"--with", CONDITION, 0, 0, 0, false, "NAME=VALUE",
     "a condition of the fire (draught_pa=15; `heat --help` lists them) or an option of a workshop study\n"
     "                           (join.stickout_mm=18; `join --help`); may be repeated",
     "check make fire air heat flue site sweep heft form join fit coat line trial"},
    {"--vary", AXIS, 0, 0, 0, false, "NAME=A:B:N",
     "N values from A to B of a parameter (firebox_width=340mm:420mm:5) or a condition (draught_pa=8:16:5)", "sweep"},
    {"--report", TEXT, AT(report), 0, 0, false, "NAME,...", "what to tabulate; `sweep --help` lists it", "sweep"},
    {"--test", TEXT, AT(test), 0, 0, false, "FILE",
     "a hot test (CSV time_min,place,value) that corrects the heat model's constants; docs/studies/burn.md",
     "heat fire air coat make check flue site"},
    {"--record", TEXT, AT(record), 0, 0, false, "FILE",
     "readings of the first fire (CSV name,value), judged against what this house should give", "site check make"},
    {"--declared", TEXT, AT(declared), 0, 0, false, "FILE",
     "what a test declared of the stove (declared.lua of `trial --out`), instead of the house's own",
     "check make flue site"},
    {"--log", TEXT, AT(log), 0, 0, false, "FILE",
     "the works' log: its remnants in stock are used before whole sheets; serve: default works.log in the folder",
     "nest cut line sweep check make serve"},
    {"--measured", TEXT, AT(measured), 0, 0, false, "FILE",
     "measured pieces (CSV piece,feature,sample,value): control charts and capability", "fit check make"},
    {"--explain", FLAG, AT(explain), 0, 0, false, "", "the calculation sheet, line by line", "flue"},
    {"--bands", NUMBER, AT(bands), 0, 100000, true, "N",
     "how sure the outputs are, by so many draws of what is not known exactly (e.g. 200)", "heat"},
    {"--map", FLAG, AT(map), 0, 0, false, "",
     "the surface map of every part; flue: the stove on this chimney over weather and slide", "heat make flue"},
    {"--batch", NUMBER, AT(batch), 1, 10000, true, "N", "how many stoves (default 1)",
     "check make nest cut fit coat line sweep"},
    {"--lot", NUMBER, AT(lot), 1, 10000, true, "N",
     "so many stoves leave together: sheets are cut lot by lot (default the whole batch)",
     "check make nest cut line sweep"},
    {"--out", TEXT, AT(out), 0, 0, false, "PATH",
     "where the papers go (make: a folder, default dossier; others: a file); written whole or not at all",
     "make nest join sweep trial log"},
    {"--seconds", NUMBER, AT(seconds), 0, 86400, false, "S",
     "time to improve the nests after the first answer (default 0)", "make nest cut line check sweep"},
    {"--iterations", NUMBER, AT(iterations), 0, 1e9, true, "N",
     "with --instance: rounds of the search instead of a time, so that an answer can be repeated", "nest"},
    {"--instance", TEXT, AT(instance), 0, 0, false, "FILE",
     "a strip-packing instance (JSON) in place of a stove; docs/nesting.md", "nest"},
    {"--seed", NUMBER, AT(seed), 0, 1e15, true, "K", "start of the random numbers (default 1): same seed, same answer",
     "make nest cut line fit heat check sweep serve"},
    {"--threads", NUMBER, AT(threads), 1, 256, true, "T",
     "processor cores to use (default 1; serve: 1 = all, at most 8)", ""},
    {"--memory", NUMBER, AT(memory_mb), 64, 1e6, true, "MB", "memory limit (default 2048)", ""},
    {"--port", NUMBER, AT(port), 0, 65535, true, "P", "port to listen on (default 8617; 0 = any free one)", "serve"},
    {"--address", TEXT, AT(address), 0, 0, false, "A", "address to listen on (default 127.0.0.1: this machine alone)",
     "serve"},
    {"--token", TEXT, AT(token), 0, 0, false, "T", "secret that opens the page (default: a random one)", "serve"},
    {"--patience", NUMBER, AT(patience_s), 1, 600, true, "S",
     "how long a caller may take to send the head of a request; twice that for the rest (default 15)", "serve"},
    {"--web", TEXT, AT(web), 0, 0, false, "FOLDER", "where the built page lies (default web/dist)", "serve"},
    {"--all", FLAG, AT(all), 0, 0, false, "",
     "list the findings that hold, too; sweep: compute each design, lay none between", STOVES " log"},
    {"--json", FLAG, AT(json), 0, 0, false, "", "machine-readable answer (docs/json.md)", ""},
    {"--help", FLAG, AT(help), 0, 0, false, "", "this page, or the page of a command", ""},
    {"--version", FLAG, AT(version), 0, 0, false, "", "name, version and licence", ""},
};
enum { OPTION_COUNT = sizeof options / sizeof *options };

typedef struct command_row {
    const char *name, *words, *meaning, *more;
} command_row;

static const command_row commands[] = {
    {"check", "STOVE", "all findings of a stove on one screen",
     "Reads the descriptions, runs every study and lists what fails or is near its limit, worst first.\n"
     "Example: stovewright check demo/a.stove.lua --works demo/demo.works.lua --set firebox_width=420mm"},
    {"make", "STOVE", "the whole dossier: drawings, nest maps, cut files, piece list, findings",
     "Example: stovewright make demo/a.stove.lua --works demo/demo.works.lua --batch 20 --out dossier-a\n"
     "Ctrl-C while nests are improved: goes on with the best so far. Ctrl-C again: stops and leaves nothing half-written."},
    {"sheet", "STOVE", "flats, bend tables, bending limits, fit of the pieces",
     "Needs no works; with one, its bend trials and dies count."},
    {"nest", "STOVE", "pieces on stock sheets",
     "Needs --works. --seconds gives time to improve. --log FILE uses the remnants in stock first; --out FILE.csv lists the\n"
     "sheets to cut, for `log FILE cut`.\n"
     "Strip form, to compare with the literature: stovewright nest --instance FILE.json --seconds 60 --threads 2 --out "
     "strip.svg"},
    {"cut", "STOVE", "laser path, time, gas and cost of every nested sheet", "Needs --works."},
    {"heft", "STOVE", "mass and centre of gravity of pieces, groups and stove; how each is lifted",
     "With --works its hoists and trolley count."},
    {"form", "STOVE", "press and rolls: order of bends, dies, forces, stops, over-bend, templates",
     "Needs --works. Trial bends and rolls of the works are fitted first."},
    {"join", "STOVE", "seams, tacks, who welds what in which order, time, wire, gas, heat",
     "Needs --works for times. --out FILE.csv writes the seam table."},
    {"fit", "STOVE", "will the pieces fit: tolerances to every joint, what to measure, control charts",
     "Example: stovewright fit demo/a.stove.lua --works demo/demo.works.lua --measured readings.csv"},
    {"coat", "STOVE", "blasting, masking, coating, curing, first fires", "Needs --works."},
    {"line", "STOVE", "route, bottleneck, schedule and cost of a batch", "Needs --works; --batch N."},
    {"fire", "STOVE", "wood, air, flue gas, losses and batch at the duty",
     "Conditions by --with; `heat --help` lists them."},
    {"air", "STOVE", "what the draught lets in through which opening",
     "Conditions by --with; `heat --help` lists them."},
    {"heat", "STOVE", "how hot everything gets, steady and through a whole burn",
     "Example: stovewright heat demo/a.stove.lua --with draught_pa=15 --with moisture=0.2"},
    {"flue", "STOVE", "will the chimney draw and stay dry; sizes and liners compared",
     "Needs --house. Example: stovewright flue demo/a.stove.lua --house demo/demo.house.lua --explain\n"
     "--map: where on this chimney the stove burns well, starves or wastes, over outside temperature and wash slide."},
    {"site", "STOVE", "clearances, hearth, air for the room, alarm, first fire",
     "Needs --house. --record judges the readings of the first fire.\n"
     "Example: stovewright site demo/a.stove.lua --house demo/tall.house.lua --set stabilised=1 \\\n"
     "             --record demo/first_fire.csv"},
    {"sweep", "STOVE", "many designs: parameters and conditions varied, results tabulated",
     "Example: stovewright sweep demo/a.stove.lua --vary lining=24mm:30mm:4 --vary draught_pa=8:16:5 \\\n"
     "             --report output_kw,efficiency,pane_c --threads 2 --out sweep.csv\n"
     "What a parameter costs: --works demo/demo.works.lua --batch 20 --vary firebox_width=340mm:420mm:5 \\\n"
     "             --report cost,sheet_cost,weld_m,mass_kg\n"
     "--out writes the table (.csv) or draws it (.svg, .pdf, .png)."},
    {"trial", "MEASURED [STOVE]",
     "a type test or hot test evaluated: losses, emissions, class, limits, plate, test plan",
     "MEASURED is a CSV of time, gases, temperatures, draught and mass; docs/studies/trial.md. Only an accredited laboratory\n"
     "can certify. Example: stovewright trial demo/trial.csv demo/a.stove.lua --out trial-a\n"
     "--out: report, plate and test plan (HTML, PDF), hot_test.csv for `heat --test`, declared.lua for `flue --declared`."},
    {"reckon", "[NAME key=value ...]", "one handbook formula; without a name, the list of them",
     "Example: stovewright reckon din6935_length r=4 s=3 beta=90 a=60 b=40"},
    {"log", "FILE VERB ...", "the works' records: serials, inspections, first fires", "See stovewright log --help."},
    {"serve", "[FOLDER]", "the workbench in a browser",
     "Serves the descriptions of a folder (default demo or .) at http://127.0.0.1:8617/ until Ctrl-C; docs/workbench.md.\n"
     "Example: stovewright serve demo --port 8617"},
    {"new", "FOLDER", "start from a commented example",
     "Writes example.stove.lua and example.works.lua into a new folder."},
};
enum { COMMAND_COUNT = sizeof commands / sizeof *commands };

static const option_row *find_option(const char *name, size_t length)
{
    for (size_t i = 0; i < OPTION_COUNT; i++)
        if (strlen(options[i].name) == length && strncmp(options[i].name, name, length) == 0) return &options[i];
    return NULL;
}

static sw_status wrong_word(sw_run *run, const char *word, const char *kind, const char *const *names, size_t count)
{
    const char *near = sw_text_nearest(word, names, count);
    if (near != NULL) return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, word, "is no %s; did you mean %s?", kind, near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, word, "is no %s; see stovewright --help", kind);
}

static sw_status unknown_option(sw_run *run, const char *word)
{
    const char *names[OPTION_COUNT];
    for (size_t i = 0; i < OPTION_COUNT; i++) names[i] = options[i].name;
    return wrong_word(run, word, "option", names, OPTION_COUNT);
}

static sw_status check_command(sw_run *run, const char *word)
{
    const char *names[COMMAND_COUNT];
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        names[i] = commands[i].name;
        if (strcmp(word, names[i]) == 0) return SW_OK;
    }
    return wrong_word(run, word, "command", names, COMMAND_COUNT);
}

static sw_status set_number(sw_run *run, const option_row *o, const char *text, sw_request *request)
{
    char *end = NULL;
    errno = 0;
    double value = strtod(text, &end);
    bool number = end != text && *end == '\0' && errno == 0 && isfinite(value);
    if (!number || value < o->low || value > o->high || (o->whole && value != floor(value)))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "\"%s\" is not a %snumber from %g to %g", text,
                       o->whole ? "whole " : "", o->low, o->high);
    memcpy((char *)request + o->offset, &value, sizeof value);
    return SW_OK;
}

static sw_status add_setting(sw_run *run, const option_row *o, const char *text, const char **list, size_t *count)
{
    const char *equals = strchr(text, '='), *example = o->kind == SETTING     ? "firebox_width=420mm"
                                                       : o->kind == CONDITION ? "draught_pa=15"
                                                                              : "draught_pa=8:16:5";
    if (equals == NULL || equals == text || equals[1] == '\0')
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "\"%s\" is not of the form name=value, e.g. %s", text,
                       example);
    if (*count == SW_WORDS_MAX)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "more than %d of them", SW_WORDS_MAX);
    list[(*count)++] = text;
    return SW_OK;
}

static sw_status set_option(sw_run *run, const option_row *o, const char *value, sw_request *request)
{
    const bool yes = true;
    switch (o->kind) {
    case FLAG:
        memcpy((char *)request + o->offset, &yes, sizeof yes);
        return SW_OK;
    case NUMBER:
        return set_number(run, o, value, request);
    case SETTING:
        return add_setting(run, o, value, request->settings, &request->setting_count);
    case CONDITION:
        return add_setting(run, o, value, request->conditions, &request->condition_count);
    case AXIS:
        return add_setting(run, o, value, request->axes, &request->axis_count);
    case TEXT:
        if (value[0] == '\0')
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "is empty; give a %s", o->value);
        memcpy((char *)request + o->offset, &value, sizeof value);
        return SW_OK;
    }
    return SW_INTERNAL;
}

/* Takes argv[*i] (and its value); a fault is recorded and reading goes on. NULL: no option is called so. */
static const option_row *take_option(sw_run *run, int argc, char **argv, int *i, sw_request *request)
{
    const char *word = argv[*i];
    const char *equals = strchr(word, '=');
    size_t length = equals == NULL ? strlen(word) : (size_t)(equals - word);
    const option_row *o = find_option(word, length);
    if (o == NULL) {
        (void)unknown_option(run, word);
        return NULL;
    }
    const char *value = equals == NULL ? NULL : equals + 1;
    if (o->kind == FLAG && value != NULL) {
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "takes no value");
        return o;
    }
    if (o->kind != FLAG && value == NULL) {
        if (*i + 1 >= argc) {
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "needs a value: %s %s", o->name, o->value);
            return o;
        }
        value = argv[++*i];
    }
    (void)set_option(run, o, value, request);
    return o;
}

static void take_word(sw_run *run, const char *word, sw_request *request)
{
    if (request->command == NULL)
        request->command = word;
    else if (request->word_count < SW_WORDS_MAX)
        request->words[request->word_count++] = word;
    else
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, word, "is one word too many");
}

/* ---- what a command does with it ---------------------------------------------------------------------------------------- */

static bool heeds(const char *command, const option_row *o)
{
    size_t length = strlen(command);
    for (const char *at = o->commands; *at != '\0';) {
        size_t word = strcspn(at, " ");
        if (word == length && strncmp(at, command, length) == 0) return true;
        at += word + strspn(at + word, " ");
    }
    return o->commands[0] == '\0';
}

/* "make, nest and sweep" of "make nest sweep". */
static const char *listed(sw_run *run, const char *names)
{
    const char *text = "";
    for (const char *at = names; *at != '\0' && text != NULL;) {
        size_t word = strcspn(at, " "), next = word + strspn(at + word, " ");
        const char *between = at == names ? "" : at[next] == '\0' ? " and " : ", ";
        text = sw_text_format(run, run->scratch, "%s%s%.*s", text, between, (int)word, at);
        at += next;
    }
    return text;
}

static void check_heeded(sw_run *run, const char *command, const option_row *o)
{
    if (heeds(command, o)) return;
    const char *who = listed(run, o->commands);
    if (who != NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "changes nothing in what `%s` does; give it to %s",
                      command, who);
}

static bool ends_so(const char *word, const char *end)
{
    size_t n = strlen(word), m = strlen(end);
    return n > m && strcmp(word + n - m, end) == 0;
}

/* A works or a house where the stove belongs, told by the file's name. */
static void check_stove_word(sw_run *run, const sw_request *request)
{
    bool stove = request->command != NULL && strcmp(request->command, "serve") != 0 &&
                 strcmp(request->command, "new") != 0 && strcmp(request->command, "reckon") != 0 &&
                 strcmp(request->command, "log") != 0;
    for (size_t i = 0; stove && i < request->word_count; i++) {
        const char *kind = ends_so(request->words[i], ".works.lua")   ? "works"
                           : ends_so(request->words[i], ".house.lua") ? "house"
                                                                      : NULL;
        if (kind != NULL)
            (void)sw_fail(
                run, SW_BAD_INPUT, (sw_place){0}, request->words[i],
                "describes a %s: give it with --%s, and name the stove's description (*.stove.lua) without an "
                "option",
                kind, kind);
    }
}

sw_status sw_request_read(sw_run *run, int argc, char **argv, sw_request *request)
{
    *request = (sw_request){.batch = 1, .seed = 1, .threads = 1, .memory_mb = 2048, .port = 8617};
    bool given[OPTION_COUNT] = {false};
    for (int i = 1; i < argc; i++) {
        if (!sw_text_is_utf8(argv[i], strlen(argv[i])))
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "command line", "word %d is not UTF-8 text", i);
        else if (argv[i][0] == '-' && argv[i][1] != '\0') {
            const option_row *o = take_option(run, argc, argv, &i, request);
            if (o != NULL) given[o - options] = true;
        } else
            take_word(run, argv[i], request);
    }
    bool known = request->command != NULL && check_command(run, request->command) == SW_OK;
    for (size_t k = 0; known && k < OPTION_COUNT; k++)
        if (given[k]) check_heeded(run, request->command, &options[k]);
    if (known) check_stove_word(run, request);
    if (request->lot > request->batch)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--lot",
                      "a lot of %.0f stoves is more than the batch of %.0f; give a whole number from 1 to %.0f",
                      request->lot, request->batch, request->batch);
    return run->error_count == 0 ? SW_OK : SW_BAD_INPUT;
}

/* All of them, those of few commands with their names; or those that one command heeds. */
static void print_options(sw_writer *out, const char *command)
{
    enum { FEW = 24 }; /* letters */
    sw_print(out, "\nOptions:\n");
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const option_row *o = &options[i];
        bool told = command == NULL && o->commands[0] != '\0' && strlen(o->commands) < FEW;
        if (command != NULL && !heeds(command, o)) continue;
        sw_print(out, "  %-12s %-11s %s%s%s\n", o->name, o->value, told ? o->commands : "", told ? ": " : "",
                 o->meaning);
    }
}

static void print_overview(sw_writer *out)
{
    sw_print(out, "stovewright " SW_VERSION ": a steel wood stove from one description to cut sheets\n\n"
                  "  stovewright COMMAND [WORDS] [OPTIONS]\n\nCommands:\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++)
        sw_print(out, "  %-7s %-21s %s\n", commands[i].name, commands[i].words, commands[i].meaning);
    print_options(out, NULL);
    sw_print(
        out,
        "\nStart here:\n"
        "  stovewright new my-stove\n"
        "  stovewright check my-stove/example.stove.lua --works my-stove/example.works.lua\n"
        "  stovewright make my-stove/example.stove.lua --works my-stove/example.works.lua --out my-dossier\n\n"
        "Exit codes: 0 all findings hold, 1 some finding fails, 2 the input is wrong, 3 could not work.\n"
        "Results support and never replace type testing by an accredited body, local codes and licensed practice.\n");
}

void sw_request_help(sw_writer *out, const char *command)
{
    for (size_t i = 0; command != NULL && i < COMMAND_COUNT; i++) {
        if (strcmp(commands[i].name, command) != 0) continue;
        sw_print(out, "stovewright %s %s [OPTIONS]\n\n%s.\n", command, commands[i].words, commands[i].meaning);
        if (commands[i].more[0] != '\0') sw_print(out, "%s\n", commands[i].more);
        print_options(out, command);
        if (strcmp(command, "fire") == 0 || strcmp(command, "air") == 0 || strcmp(command, "heat") == 0)
            sw_print_conditions(out);
        if (strcmp(command, "sweep") == 0) sw_print_quantities(out);
        sw_print_shop_options(out, command);
        if (strcmp(command, "flue") == 0 || strcmp(command, "site") == 0) sw_print_house_conditions(out);
        return;
    }
    print_overview(out);
}

void sw_request_version(sw_writer *out)
{
    sw_print(out, "stovewright " SW_VERSION "\n"
                  "Licence: GNU General Public License, version 3 or later, see the file LICENSE; no warranty.\n");
}
