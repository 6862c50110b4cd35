/* site_parts.h: what the files of this folder share. */
#ifndef SW_SITING_SITE_SITE_PARTS_H
#define SW_SITING_SITE_SITE_PARTS_H

#include "siting/flue/flue.h"
#include "siting/site/site.h"

typedef struct site_job {
    const sw_site_input *in;
    const sw_house *house;
    const char *code;       /* "" when the house names none that is known: physics alone */
    double rise_k, watch_k; /* how far a combustible may warm above the room */
    const char *rise_source;
    double depression_most_pa; /* of the room below outside */
    const char *depression_source;
    sw_site_result *r;
    sw_site_need *needs;
    size_t need_room;
    double surroundings_k, hearth_mm; /* hottest combustible computed, NAN none; thickness asked of the hearth */
} site_job;

sw_status site_check(sw_run *run, const sw_site_input *in); /* site_check.c */
sw_status site_find_code(sw_run *run, site_job *job);       /* find_code.c: the rules, and what may warm how far */
sw_status site_find_unruled(sw_run *run, site_job *job);    /* find_code.c: what no rule is held for */
sw_status site_find_walls(sw_run *run, site_job *job);      /* find_walls.c */
sw_status site_find_hearth(sw_run *run, site_job *job);     /* find_hearth.c: plate, floor below it, load */
sw_status site_find_recess(sw_run *run, site_job *job);     /* find_recess.c: does the stove fit, its hearth */
sw_status site_find_pipes(sw_run *run, site_job *job);      /* find_pipes.c: distances, way, size */
sw_status site_find_outlet(sw_run *run, site_job *job);     /* find_outlet.c */
sw_status site_find_air(sw_run *run, site_job *job);        /* find_air.c: vent, fans, alarm */
sw_status site_expect(sw_run *run, site_job *job);          /* site_expected.c */

/* ---- site_findings.c ---- */

enum site_weight { SITE_HARD, SITE_SOFT }; /* soft: beyond the limit it is watched */

/* Adds a finding of which check, where, what and, unless it is stated, sense, value, limit and unit are filled; what NULL =
 * its text found no memory. The remedy goes when it holds. */
sw_status site_add(sw_run *run, site_job *job, sw_finding f, double watch_margin, enum site_weight weight);
sw_status site_state(sw_run *run, site_job *job, sw_finding f, sw_verdict verdict);
sw_status site_need(sw_run *run, site_job *job, sw_site_need need);
/* A distance to keep: a need and its finding. f: check, where, source, remedy, place; value there and limit needed, mm. */
sw_status site_keep_off(sw_run *run, site_job *job, const char *what, sw_finding f);
const sw_site_rule *site_rule(const site_job *job, const char *what);
double site_rule_value(const site_job *job, const char *what); /* NAN = none */
const char *site_rule_source(sw_run *run,
                             const sw_site_rule *rule); /* "edition, clause (how obtained)"; NULL no memory */

double site_hearth_back_mm(const site_job *job);     /* how far the plate stands out behind the stove: find_hearth.c */
double site_part_outer_mm(const sw_flue_part *part); /* over all layers; NAN unknown */
double site_part_side_mm(const sw_flue_part *part);  /* diameter or least side */
double site_part_area_m2(const sw_flue_part *part);
double site_kw(double w);

#define SITE_PRACTICE "common practice, no source"

#endif
