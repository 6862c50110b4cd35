/* app.h: the command line: turns words into a request, runs the studies, prints or writes what they say.
 *
 * Exit codes: 0 every finding holds (or is only to be watched), 1 some finding fails, 2 the input is wrong,
 * 3 the program could not work (memory, disk, stopped). */
#ifndef SW_APP_APP_H
#define SW_APP_APP_H

#include "design/design.h"
#include "papers/papers.h"

enum { SW_EXIT_HOLDS = 0, SW_EXIT_FAILS = 1, SW_EXIT_INPUT = 2, SW_EXIT_TROUBLE = 3, SW_WORDS_MAX = 64 };

/* What the command line asks. Texts lend from argv. */
typedef struct sw_request {
    const char *command;             /* "check", "make", "sheet", ... */
    const char *words[SW_WORDS_MAX]; /* what stands there without an option: STOVE, or NAME key=value ... */
    size_t word_count;
    const char *settings[SW_WORDS_MAX]; /* --set */
    size_t setting_count;
    const char *conditions[SW_WORDS_MAX]; /* --with */
    size_t condition_count;
    const char *axes[SW_WORDS_MAX]; /* --vary */
    size_t axis_count;
    const char *works, *house, *out, *instance, *report, *test, *record, *measured, *declared,
        *log;                          /* NULL = not given */
    const char *address, *token, *web; /* serve; NULL = not given */
    const char *house_text; /* of the workbench: a working copy, read instead of the house's file; NULL = the file */
    double wind_pa;         /* of the workbench: on the outlet, for the operating map */
    double chord_mm;        /* of the workbench: of a picture's arcs; 0 = as fine as the sheet study's */
    double batch, lot, bands, seconds, seed, threads, memory_mb, iterations, port, patience_s;
    bool json, all, map, explain, help, version;
    atomic_int *stop; /* the run's cancel flag: cleared when a stop has been honoured by a good-enough answer */
} sw_request;

/* Fills the request from argv. SW_BAD_INPUT: every wrong word is recorded, with the nearest known one. */
sw_status sw_request_read(sw_run *run, int argc, char **argv, sw_request *request);
void sw_request_help(sw_writer *out, const char *command); /* NULL or unknown: the overview */
void sw_request_version(sw_writer *out);                   /* name, version and licence */

/* Which studies run besides sheet; SW_DO_CUT needs SW_DO_NEST. */
typedef enum sw_work {
    SW_DO_SHEET = 0,
    SW_DO_HEFT = 1,
    SW_DO_NEST = 2,
    SW_DO_CUT = 4,
    SW_DO_BURN = 8,
    SW_DO_THROUGH = 16, /* a whole burn from cold; with SW_DO_BURN */
    SW_DO_MAP = 32,     /* the surface map; with SW_DO_BURN */
    SW_DO_POINT = 64,   /* with SW_DO_BURN: the steady point alone, its faults as errors, nothing judged */
    SW_DO_HOUSE = 128,  /* flue and site, where a house is given; with SW_DO_BURN and SW_DO_HEFT */
    SW_DO_SIZE = 256,   /* with SW_DO_HOUSE: sizes and liners compared, the map */
    SW_DO_FORM = 512,
    SW_DO_JOIN = 1024,
    SW_DO_FIT = 2048,
    SW_DO_LIFT = 4096,  /* with SW_DO_HEFT */
    SW_DO_COAT = 8192,  /* rated by temperature with SW_DO_BURN */
    SW_DO_LINE = 16384, /* with form, join, coat, nest and cut */
    SW_DO_FITTINGS = 32768,
    SW_DO_SOLIDS = 65536, /* alone: pieces folded for a picture, no study runs, not even sheet */
    SW_DO_SHOP = SW_DO_FORM | SW_DO_JOIN | SW_DO_FIT | SW_DO_LIFT | SW_DO_COAT | SW_DO_FITTINGS | SW_DO_LINE,
    SW_DO_CHECK = SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_BURN | SW_DO_HOUSE | SW_DO_SHOP,
    SW_DO_MAKE = SW_DO_CHECK | SW_DO_THROUGH | SW_DO_SIZE
} sw_work;

/* Reads the descriptions and runs the studies of `work`, a sum of sw_work. What was not run stays NULL / empty in the dossier.
 * SW_BAD_INPUT and so on as the parts give them. date is kept for the papers. */
sw_status sw_dossier_make(sw_run *run, const sw_request *request, unsigned work, const char *date, sw_dossier *dossier);

/* Takes a study's findings over; one that stands there already, word for word, is not repeated. */
sw_status sw_dossier_tell(sw_run *run, sw_dossier *dossier, const sw_findings *from);

/* Makes one finding "computed" of the errors from first_error on, which are taken back; study, where, verdict, remedy and
 * place are the caller's. *why: the reasons. */
sw_status sw_dossier_tell_missing(sw_run *run, sw_dossier *dossier, size_t first_error, sw_finding finding,
                                  const char **why);

/* Findings on the lots and remnants of a nest. */
sw_status sw_dossier_tell_nest(sw_run *run, sw_dossier *dossier, const sw_nested *nest);

/* Cutting plans for every nested sheet of the dossier; its findings are added. */
sw_status sw_dossier_cut(sw_run *run, sw_dossier *dossier);

/* Fits the works' trials and puts what they say into the works of the dossier's model: before sheets are unfolded. */
sw_status sw_dossier_trials(sw_run *run, sw_dossier *dossier);
/* Forming, welding, fit, lifting and coating, as `work` says; their findings are added. */
sw_status sw_dossier_shop(sw_run *run, const sw_request *request, sw_dossier *dossier, unsigned work);
/* Route, schedule and cost of the batch from what the other studies found. */
sw_status sw_dossier_line(sw_run *run, const sw_request *request, sw_dossier *dossier);
void sw_print_form(sw_writer *out, const sw_dossier *dossier);
void sw_print_join(sw_writer *out, const sw_dossier *dossier);
void sw_print_fit(sw_writer *out, const sw_dossier *dossier);
void sw_print_lift(sw_writer *out, const sw_dossier *dossier);
void sw_print_coat(sw_writer *out, const sw_dossier *dossier);
void sw_print_line(sw_writer *out, const sw_dossier *dossier);

/* Fire, air and heat at the stove's duty under the request's conditions, as `work` says. A stove without a firebox gets a
 * finding that says so. May be called again with other conditions: scene and networks are kept. */
sw_status sw_dossier_burn(sw_run *run, const sw_request *request, sw_dossier *dossier, unsigned work);
/* The chimney, clearances, room air and first fire of the house; its findings are added. */
sw_status sw_dossier_house(sw_run *run, const sw_request *request, sw_dossier *dossier, unsigned work);
/* After it: the operating point under one weather, and the gas along the chimney there. SW_BAD_INPUT: no house;
 * SW_NO_SOLUTION: chimney or fire was not computed. */
sw_status sw_dossier_operating(sw_run *run, const sw_request *request, sw_dossier *dossier, double outside_k,
                               double wind_pa, sw_operating *operating);
void sw_print_flue(sw_writer *out, const sw_dossier *dossier);
void sw_print_site(sw_writer *out, const sw_dossier *dossier);
/* Burn options and heat model from --with; every unknown name is recorded with the nearest known one. */
sw_status sw_burn_conditions(sw_run *run, const sw_request *request, sw_burn_options *opt, sw_heat_model *model);
/* Every name and value of --with, tried before anything is computed: SW_BAD_INPUT, SW_OUT_OF_RANGE, each with its remedy. */
sw_status sw_conditions_check(sw_run *run, const sw_request *request);
/* The same, and that each is of a study that `work` runs: SW_BAD_INPUT for one that would change nothing. */
sw_status sw_conditions_heeded(sw_run *run, const sw_request *request, unsigned work);
bool sw_is_condition(const char *name);   /* of the fire or the heat model */
void sw_print_conditions(sw_writer *out); /* the names --with takes */
/* The options of one workshop study ("form" "join" "fit" "lift" "coat" "fittings" "line") from --with STUDY.NAME=VALUE. */
sw_status sw_shop_options(sw_run *run, const sw_request *request, const char *study, void *options);
bool sw_shop_asks(const sw_request *request, const char *name);                /* whether --with gives "fit.seed" */
sw_status sw_shop_option_check(sw_run *run, const char *setting, bool *known); /* known: it names such a study */
const char *sw_shop_option_like(sw_run *run, const char *name); /* "fit.seed" of "sed"; NULL none. In scratch */
/* The sw_work that heeds the option of a workshop study, 0 when it is none; *page: the command whose --help lists it. */
unsigned sw_shop_option_work(const char *setting, const char **page);
void sw_print_shop_options(sw_writer *out, const char *command); /* those that the page of the command lists */
typedef struct sw_house_conditions {                             /* what of --with is the house's */
    double wind_pa, wind_m_s; /* on the outlet: the pressure, or the wind's speed; 0 = none */
    double supply_pa;         /* P_B; 0 = computed where the room is described, else the standard's */
    uint32_t made_by_defaults;
} sw_house_conditions;
sw_house_conditions sw_house_conditions_of(sw_run *run, const sw_request *request); /* faults were told before */
void sw_print_house_conditions(sw_writer *out);
void sw_print_quantities(sw_writer *out); /* what --report takes */
void sw_print_fire(sw_writer *out, const sw_dossier *dossier);
void sw_print_air(sw_writer *out, const sw_dossier *dossier);
void sw_print_heat(sw_writer *out, const sw_dossier *dossier);

/* Single commands; each gives its exit code. */
int sw_command_check(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_study(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_nest(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_make(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_sweep(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_trial(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_reckon(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_new(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_serve(sw_run *run, const sw_request *request, sw_writer *out);
int sw_command_log(sw_run *run, const sw_request *request, sw_writer *out);

/* The screen: headline, figures, findings worst first. study NULL = all; all: also those that hold. */
void sw_report_findings(sw_writer *out, const sw_dossier *dossier, const char *study, bool all);
/* Letters of the longest entry of a column, which texts widen one by one. */
void sw_widen(int *letters, const char *text);
double sw_without_sign(double value, int decimals); /* 0 where it would be printed as -0.0 */
void sw_report_errors(sw_run *run, const sw_request *request, sw_writer *errors, sw_writer *out);
const char *sw_today(sw_run *run); /* "2026-11-25" by the machine's clock, in run->keep; NULL: no memory */
int sw_exit_of_status(sw_status status);
int sw_exit_of_findings(const sw_findings *findings, const char *study);

/* A progress line on stderr while it is a terminal; end wipes it. */
void sw_progress_listen(sw_run *run);
void sw_progress_end(sw_run *run);

/* Lets the allocator keep freed memory for the next request instead of giving it back: pictures and sheets ask for the same
 * sizes again and again, and a page from the system costs more than using it. For a program's start. */
void sw_keep_memory(void);

/* Whole program: argv in, exit code out. */
int sw_app(int argc, char **argv);

#endif
