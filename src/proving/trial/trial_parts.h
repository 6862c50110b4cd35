/* trial_parts.h: what the files of proving/trial share. Nobody else includes it. */
#ifndef SW_PROVING_TRIAL_TRIAL_PARTS_H
#define SW_PROVING_TRIAL_TRIAL_PARTS_H

#include "proving/trial/trial.h"

#define TRIAL_KILO     1e3
#define TRIAL_MEGA     1e6
#define TRIAL_M3N      22.414 /* m3 per kmol of ideal gas at 0 degC, 101 325 Pa */
#define TRIAL_AIR_O2   0.2095
#define TRIAL_RESIDUE  0.005 /* of the heat, wood, where it is not measured: EN 13240 annex A (from memory) */
#define TRIAL_PRACTICE "common practice, no source"

/* ---- trial_cell.c: one cell of a real-life file ---- */
typedef struct trial_text {
    const char *at;
    size_t length;
} trial_text;
trial_text trial_trimmed(trial_text text); /* without blanks and one pair of quotes */
bool trial_number(trial_text cell, double *value);
bool trial_is_gap(trial_text cell); /* empty or a usual sign for a missing value */
/* "10:35", "10:35:07,5", with a date before it or not: s from some midnight; *dated tells. */
bool trial_stamp(trial_text cell, double *seconds, bool *dated);
bool trial_same(trial_text text, const char *word); /* letters of either case alike */

/* ---- trial_column.c: what a column's name says ---- */
typedef struct trial_column_kind {
    bool is_time;
    sw_trial_quantity of;
    trial_text place;     /* of a surface */
    double scale, offset; /* SI = cell x scale + offset */
    double low, high;     /* SI: beyond it the sensor is at fault */
    bool by_mass, known, unit_missing;
} trial_column_kind;
bool trial_is_unit(trial_text text);
trial_column_kind trial_column_of_name(trial_text name, trial_text unit); /* unit: of a line of its own, or empty */

/* ---- trial_header.c ---- */
typedef struct trial_header {
    sw_run *run;
    sw_trial_record *record;
    bool stamped[SW_TRIAL_CHARGES]; /* the charge's time is of the clock */
    sw_status status;
} trial_header;
sw_status trial_header_line(trial_header *h, trial_text line, int number);

/* ---- the study ---- */
typedef struct trial_job {
    const sw_trial_input *in;
    const sw_trial_record *record;
    const sw_trial_options *opt;
    sw_trial_result *result;
    sw_fuel fuel;
    sw_trial_cycle *cycles;
    double gap_s;
} trial_job;
sw_status trial_check(sw_run *run, trial_job *job);   /* options, wood */
sw_status trial_charges(sw_run *run, trial_job *job); /* told or seen on the scale */
sw_status trial_cycles(sw_run *run, trial_job *job);  /* and the whole of the valid ones */
void trial_evaluate(trial_job *job, sw_trial_cycle *cycle);
void trial_gaps(trial_job *job);
size_t trial_warm_up(const trial_job *job); /* charges left out because they light and warm the stove; 0 of too few */
sw_status trial_answers(sw_run *run, trial_job *job);
sw_status trial_rises(sw_run *run, trial_job *job);
sw_status trial_limits(sw_run *run, trial_job *job);
sw_status trial_charts(sw_run *run, trial_job *job);
sw_status trial_compare(sw_run *run, trial_job *job);
sw_status trial_declare(sw_run *run, trial_job *job);
sw_status trial_sheets(sw_run *run, trial_job *job);
sw_status trial_findings(sw_run *run, trial_job *job);
sw_status trial_readings_findings(sw_run *run, trial_job *job);
sw_finding trial_finding(const trial_job *job, const char *check, const char *where);
sw_status trial_add(sw_run *run, trial_job *job, sw_finding finding, double watch_margin);
/* Mean over start..end by trapezoids between neighbours that both have a value and are no gap apart; *covered: s of them. */
double trial_mean_over(const trial_job *job, const sw_trial_column *column, double start_s, double end_s,
                       double *covered_s);
size_t trial_row_from(const sw_trial_record *record, double time_s); /* first row at or after; row_count = none */

#endif
