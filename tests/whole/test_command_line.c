/* The program as a person or a script meets it: exit codes, messages, files. */
#define _XOPEN_SOURCE 700 /* NOLINT: terminals are in no narrower standard */
#include "program.h"

#include <fcntl.h>
#include <jansson.h>
#include <poll.h>
#include <signal.h>

#define DEMO SW_SOURCE_DIR "/demo/"

static void help_teaches(sw_test *t)
{
    expect(t, "--help", 0, "Exit codes");
    expect(t, "make --help", 0, "Ctrl-C");
    expect(t, "--version", 0, "General Public License");
    expect(t, "", 2, "stovewright COMMAND");
    expect(t, "reckon din6935_length --help", 0, "opening angle");
}

static void options_of_the_workshop_reach_their_study(sw_test *t)
{
    static const char *const pages[][2] = {{"form", "form.step_deg"},     {"join", "join.stickout_mm"},
                                           {"fit", "fit.adjust_mm"},      {"heft", "lift.grip_mm"},
                                           {"coat", "coat.pot_h"},        {"line", "line.rounds"},
                                           {"check", "fittings.opens_mm"}};
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++)
        expect(t, sw_text_format(&t->run, t->run.keep, "%s --help", pages[i][0]), 0, pages[i][1]);
    expect(t, "make --help", 0, "heft --help (lift)");
    outcome usual = said(t, "fit demo/a.stove.lua"), stiff = said(t, "fit demo/a.stove.lua --with fit.adjust_mm=0");
    sw_true(t, strcmp(usual.text, stiff.text) != 0);
    expect(t, "check demo/a.stove.lua --all", 0, "degC (heat study), round it ");
    expect(t, "check demo/a.stove.lua --all --with fittings.board_c=640", 0, "640 degC (option), round it");
    expect(t, "check demo/a.stove.lua --all --batch 101", 0, "sheets for 100 stoves");
    expect(t, "check demo/a.stove.lua --all --with fittings.opens_mm=3", 1, "fittings / rope_hot");
}

/* A figure that there is none of is no number on the screen: a hem pressed flat, one trial strip alone. */
static void forming_is_told_without_nan(sw_test *t)
{
    outcome o = said(t, "form '" DEMO "a.stove.lua' --works '" DEMO "demo.works.lua'");
    sw_true(t, o.code == 0 && strstr(o.text, "nan") == NULL);
    sw_contains(t, o.text, "flattening 350 mm, tools set up");
    sw_contains(t, o.text, "A-03 left side: 4 strokes, 1 tool set-up, 0 turns over");
    const char *folder = folder_made(t);
    o = shell(t,
              sw_text_format(
                  &t->run, t->run.keep,
                  "cp demo/rolls.csv '%s' && head -2 demo/bends.csv >'%s/bends.csv' && cp demo/demo.works.lua '%s' && "
                  "'%s' form demo/a.stove.lua --works '%s/demo.works.lua' 2>&1",
                  folder, folder, folder, SW_PROGRAM, folder));
    sw_true(t, o.code == 1 && strstr(o.text, "nan") == NULL);
    sw_contains(t, o.text, "too few: 1 strip, not used");
    clear_away(t, folder);
}

typedef struct wrong {
    const char *words;
    int code;
    const char *part;
} wrong;

static const wrong wrong_lines[] = {
    {"chek demo/a.stove.lua", 2, "did you mean check?"},
    {"check demo/a.stove.lua --workz x", 2, "did you mean --works?"},
    {"check demo/a.stove.lua --batch", 2, "needs a value"},
    {"check demo/a.stove.lua --batch 0", 2, "from 1 to 10000"},
    {"check demo/a.stove.lua --batch 2.5", 2, "whole number"},
    {"check demo/a.stove.lua --seconds nan", 2, "is not a number"},
    {"check demo/a.stove.lua --threads 1e9", 2, "from 1 to 256"},
    {"check demo/a.stove.lua --json=yes", 2, "takes no value"},
    {"check demo/a.stove.lua --set width", 2, "name=value"},
    {"check demo/a.stove.lua --set nonsense_here=3mm", 2, "nonsense_here"},
    {"check", 2, "needs one stove description"},
    {"check demo/a.stove.lua demo/b.stove.lua", 2, "needs one stove description"},
    {"check demo/none.stove.lua", 3, "No such file"},
    {"check demo", 3, "directory"},
    {"check demo/a.stove.lua --works demo/a.stove.lua", 2, "unknown name 'stove'"},
    {"nest demo/a.stove.lua", 2, "needs the works"},
    {"cut demo/a.stove.lua", 2, "needs the works"},
    {"make demo/a.stove.lua --out /proc/nothing", 3, "--out"},
    {"make demo/a.stove.lua --out /dev/null", 3, "is no folder"},
    {"make demo/none.stove.lua --out /tmp/sw-never", 3, "No such file"},
    {"new", 2, "one folder"},
    {"new demo", 3, "left alone"},
    {"reckon din6935_lenght r=1", 2, "did you mean din6935_length?"},
    {"reckon din6935_k r=4", 2, "is missing"},
    {"check demo/a.stove.lua --memory 1", 2, "from 64"},
    {"fit demo/a.stove.lua --with fit.adjust=1", 2, "did you mean fit.adjust_mm?"},
    {"fit demo/a.stove.lua --with adjust_mm=1", 2, "did you mean fit.adjust_mm?"},
    {"join demo/a.stove.lua --with stickout=1", 2, "did you mean join.stickout_mm?"},
    {"join demo/a.stove.lua --with join.warp_factor_of_everything=1", 2, "join --help lists those of join"},
    {"check demo/a.stove.lua --with fittings.gap_mm_m=99", 2, "fittings.gap_mm_m: 99 mm/m is outside 0 to 20"},
    {"form demo/a.stove.lua --works demo/demo.works.lua --with form.step_deg=wide", 2, "is no number"},
    {"check demo/a.stove.lua --with fittings.abcdef=1", 2, "check --help lists those of fittings"},
    {"heat demo/a.stove.lua --with fit.adjust_mm=1", 2, "fit.adjust_mm changes nothing in what `heat` computes"},
    {"line demo/a.stove.lua --works demo/demo.works.lua --with draught_pa=15", 2, "give it to fire, air, heat"},
    {"heat demo/a.stove.lua --with wind_pa=5", 2, "give it to flue, site, check or make"},
    {"sheet demo/a.stove.lua --out x.svg", 2, "give it to make, nest, join, sweep, trial and log"},
    {"check demo/demo.works.lua", 2, "describes a works: give it with --works"},
    {"coat demo/a.stove.lua --with fittings.gap_mm_m=1", 2, "give it to check or make"},
    {"trial demo/trial.csv --with nonsense=1", 2, "nonsense is no condition"},
    {"trial demo/trial.csv --with draught_pa=15", 2, "without a stove; name it behind the measured file"},
    {"trial demo/trial.csv demo/a.stove.lua --with join.stickout_mm=18", 2, "changes nothing in what `trial`"},
    {"sweep demo/a.stove.lua --vary lining=24mm:30mm:2 --report mass_kg --with draught_pa=15", 2, "give it to fire"},
    {"coat demo/a.stove.lua --with rust.speed=1", 2, "is no condition"},
    {"check \"$(printf 'bad\\377name')\"", 2, "UTF-8"},
};

static void every_wrong_command_line_is_explained(sw_test *t)
{
    for (size_t i = 0; i < sizeof wrong_lines / sizeof *wrong_lines; i++)
        expect(t, wrong_lines[i].words, wrong_lines[i].code, wrong_lines[i].part);
}

/* Standard output of the program with these words as JSON; NULL when it is none. */
static json_t *answered(sw_test *t, const char *words)
{
    return json_loads(shell(t, sw_text_format(&t->run, t->run.keep, "'%s' %s 2>/dev/null", SW_PROGRAM, words)).text, 0,
                      NULL);
}

static void errors_come_as_json_when_asked(sw_test *t)
{
    json_t *root = answered(t, "check none.stove.lua --json");
    const json_t *first = json_array_get(json_object_get(root, "errors"), 0);
    sw_same_text(t, json_string_value(json_object_get(first, "status")), "io");
    json_decref(root);
}

static void the_calculator_answers_as_json(sw_test *t)
{
    json_t *root = answered(t, "reckon din6935_length r=4 s=3 beta=90 a=60 b=40 --json");
    sw_near(t, json_number_value(json_object_get(json_object_get(root, "outputs"), "L")), 93.962, 5e-4,
            "handbook W1.2, computed from DIN 6935");
    json_decref(root);
    root = answered(t, "reckon din6935_k r=0.1 s=4 --json");
    sw_true(t, json_is_null(json_object_get(json_object_get(root, "outputs"), "k")));
    json_decref(root);
    root = answered(t, "reckon --json");
    sw_true(t, json_array_size(json_object_get(root, "formulas")) > 20);
    json_decref(root);
    root = answered(t, "reckon bulge --help --json");
    const json_t *bulge = json_array_get(json_object_get(root, "formulas"), 0);
    sw_true(t, json_array_size(json_object_get(bulge, "inputs")) == 2);
    json_decref(root);
}

static const char *place(sw_test *t, const char *name)
{
    const char *base = getenv("TMPDIR");
    return sw_text_format(&t->run, t->run.keep, "%s/swc-%ld-%s", base == NULL ? "/tmp" : base, (long)getpid(), name);
}

static void a_new_example_checks_and_makes(sw_test *t)
{
    const char *path = place(t, "new"), *out = place(t, "dossier");
    json_t *made = answered(t, sw_text_format(&t->run, t->run.keep, "new '%s' --json", path));
    sw_same_text(t, json_string_value(json_object_get(made, "folder")), path);
    sw_true(t, json_array_size(json_object_get(made, "files")) == 3);
    json_decref(made);
    clear_away(t, path);
    expect(t, sw_text_format(&t->run, t->run.keep, "new '%s'", path), 0, "Next");
    expect(
        t,
        sw_text_format(&t->run, t->run.keep, "check '%s/example.stove.lua' --works '%s/example.works.lua'", path, path),
        0, "0 fail");
    expect(t,
           sw_text_format(&t->run, t->run.keep, "make '%s/example.stove.lua' --works '%s/example.works.lua' --out '%s'",
                          path, path, out),
           0, "files in");
    sw_true(t, access(sw_text_format(&t->run, t->run.keep, "%s/dossier.html", out), R_OK) == 0);
    sw_true(t, access(sw_text_format(&t->run, t->run.keep, "%s/dossier.pdf", out), R_OK) == 0);
    clear_away(t, path);
    clear_away(t, out);
}

static bool nothing_like(sw_test *t, const char *path)
{
    return shell(t, sw_text_format(&t->run, t->run.keep, "ls -d '%s'* >/dev/null 2>&1", path)).code != 0;
}

static void a_wrong_description_leaves_no_folder(sw_test *t)
{
    const char *out = place(t, "half"), *file = place(t, "wrong.stove.lua");
    (void)shell(t, sw_text_format(&t->run, t->run.keep, "echo 'stove { name = }' > '%s'", file));
    expect(t, sw_text_format(&t->run, t->run.keep, "make '%s' --out '%s'", file, out), 2, ":1:");
    sw_true(t, nothing_like(t, out));
    (void)shell(t, sw_text_format(&t->run, t->run.keep, ": > '%s'", file));
    expect(t, sw_text_format(&t->run, t->run.keep, "check '%s'", file), 2, ".stove.lua: stove: is missing");
    clear_away(t, file);
}

/* A file size limit stands for a full disk: writes fail, nothing may be left behind. */
static void a_full_disk_leaves_no_folder(sw_test *t)
{
    const char *out = place(t, "full");
    const char *command = sw_text_format(
        &t->run, t->run.keep,
        "trap '' XFSZ && ulimit -f 20 && '%s' make demo/a.stove.lua --works demo/demo.works.lua --out '%s' 2>&1",
        SW_PROGRAM, out);
    ended(t, command, shell(t, command), 3, "cannot be written");
    sw_true(t, nothing_like(t, out));
}

/* The program with a terminal of its own for all it says. */
typedef struct session {
    pid_t pid; /* 0: could not be started */
    int screen;
    char *text; /* [screen_size] shown so far */
    size_t length;
} session;

enum { screen_size = 1 << 16 };

static void run_on(int terminal, char *const words[])
{
    (void)dup2(terminal, STDOUT_FILENO);
    (void)dup2(terminal, STDERR_FILENO);
    (void)execv(words[0], words);
    _exit(127);
}

static session started(sw_test *t, char *const words[])
{
    session s = {.screen = posix_openpt(O_RDWR | O_NOCTTY), .text = sw_keep(&t->run, screen_size, 1)};
    if (s.screen < 0 || grantpt(s.screen) != 0 || unlockpt(s.screen) != 0) return s;
    int terminal = open(ptsname(s.screen), O_RDWR | O_NOCTTY);
    if (terminal < 0) return s;
    (void)fcntl(s.screen, F_SETFD, FD_CLOEXEC);
    s.pid = fork();
    if (s.pid == 0) run_on(terminal, words);
    (void)close(terminal);
    return s;
}

/* Adds what the program says within 20 ms; false when it has ended. */
static bool listen_on(session *s)
{
    struct pollfd screen = {.fd = s->screen, .events = POLLIN};
    if (poll(&screen, 1, 20) == 0) return true;
    ssize_t got = read(s->screen, s->text + s->length, screen_size - 1 - s->length);
    if (got > 0) s->length += (size_t)got;
    return got > 0;
}

static bool says_within(session *s, const char *sign, double most_s)
{
    double until_s = sw_seconds() + most_s;
    while (strstr(s->text, sign) == NULL)
        if (sw_seconds() > until_s || !listen_on(s)) return false;
    return true;
}

/* Exit code; -1 when it had to be killed. */
static int end_within(session *s, double most_s)
{
    double until_s = sw_seconds() + most_s;
    bool runs = true;
    while (runs && sw_seconds() < until_s) runs = listen_on(s);
    if (runs && s->pid > 0) (void)kill(s->pid, SIGKILL);
    int status = 0;
    (void)waitpid(s->pid, &status, 0);
    (void)close(s->screen);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* The share of the time budget that is gone shows on the terminal as soon as nests are improved. */
static void interrupt_while_nesting_goes_on_with_the_best_so_far(sw_test *t)
{
    char *const words[] = {SW_PROGRAM, "nest", DEMO "a.stove.lua", "--works", DEMO "demo.works.lua",
                           "--batch",  "5",    "--seconds",        "120",     NULL};
    session s = started(t, words);
    sw_true(t, s.pid > 0);
    if (s.pid <= 0) return;
    sw_true(t, says_within(&s, " %", 30));
    (void)kill(s.pid, SIGINT);
    int code = end_within(&s, 60);
    sw_true(t, code == 0 || code == 1);
    sw_contains(t, s.text, "Findings: ");
}

SW_TESTS(SW_CASE(help_teaches), SW_CASE(options_of_the_workshop_reach_their_study),
         SW_CASE(forming_is_told_without_nan), SW_CASE(every_wrong_command_line_is_explained),
         SW_CASE(errors_come_as_json_when_asked), SW_CASE(the_calculator_answers_as_json),
         SW_CASE(a_new_example_checks_and_makes), SW_CASE(a_wrong_description_leaves_no_folder),
         SW_CASE(a_full_disk_leaves_no_folder), SW_CASE(interrupt_while_nesting_goes_on_with_the_best_so_far))
