/* coat.h: blasting and coating: how much surface, what is masked, media, paint, air, curing, first fires, hot parts.
 *
 * Areas m2, volumes m3 unless the name says litres, film um, times s, temperatures K, money in the works' currency. Paint is
 * one-part silicone of the works' table. Method, ranges and worked example: docs/studies/coat.md. */
#ifndef SW_MAKING_COAT_COAT_H
#define SW_MAKING_COAT_COAT_H

#include "model/model.h"

/* ---- single formulas, NAN outside their range -------------------------------------------------------------------------- */

double sw_coat_cover_m2_l(double solids, double film_um); /* theoretical coverage: 1000 VS / DFT */
double sw_coat_wet_um(double solids, double film_um);     /* film as sprayed: DFT / VS */
/* Litres for one coat of dry film, of which `transfer` (0..1) lands on the piece. */
double sw_coat_litres(double area_m2, double film_um, double solids, double transfer);
double sw_coat_valley_litres(double area_m2, double rz_um); /* what fills a blasted profile: 0.02 L/m2 for Rz 40 um */
double sw_coat_film_kg(double area_m2, double film_um, double density); /* dry film, kg/m3 */
/* Lower explosive limit in kg per m3 of air at t: ideal gas. share: of volume; kg_kmol: of the solvent. */
double sw_coat_lel_kg_m3(double share, double kg_kmol, double t_k);
/* Least air that keeps evenly mixed solvent at the share of the limit: (m/t) / (share x limit). */
double sw_coat_air_m3_s(double solvent_kg_s, double lel_kg_m3, double share);
double sw_blast_media_kg(double area_m2, double kg_m2);
double sw_blast_time_s(double area_m2, double m2_s);

/* Surface profile after blasting by ISO 8503-1 comparator, um; NAN for an unknown segment. */
typedef enum sw_profile { SW_PROFILE_FINE, SW_PROFILE_MEDIUM, SW_PROFILE_COARSE } sw_profile;
void sw_profile_rz_um(sw_profile profile, bool shot, double *low_um, double *high_um);

/* ---- the study ---------------------------------------------------------------------------------------------------------- */

typedef struct sw_coat_options {
    double fire_side;     /* 1 = surfaces that face the fire are coated as well */
    double inner_side;    /* 1 = inner sides of shells, doors and air ways are coated as well */
    double nozzle_kg_m2;  /* media through the nozzle; most of it comes back */
    double rz_um;         /* profile after blasting */
    double film_kg_m3;    /* density of the dry film */
    double lel_share;     /* lower explosive limit of the solvent, share of volume */
    double lel_kg_kmol;   /* its molar mass */
    double lel_part;      /* of the limit that is allowed */
    double flash_s;       /* time in which the solvent leaves, at least that of spraying */
    double pot_h;         /* how long an opened, stirred pot is good */
    double stoves;        /* blasted and sprayed in one go */
    double rope_land_mm;  /* width kept bare where a rope lies */
    double glass_land_mm; /* width kept bare where the pane lies */
    double heat_up_k_min; /* of the oven */
    double coat_within_h; /* of blasting */
    uint32_t made_by_defaults;
} sw_coat_options;
sw_coat_options sw_coat_options_defaults(void);
const sw_option *sw_coat_option_table(size_t *count);

typedef struct sw_coat_sheet { /* of one piece, from the sheet study: flat.area_mm2, flat.cut_mm */
    double area_mm2, cut_mm;
} sw_coat_sheet;

typedef struct sw_coat_part { /* how hot a part gets, from the heat study */
    const char *name;
    const char *role;     /* what decides whether it is coated; as in the model */
    double temperature_k; /* NAN = not computed */
} sw_coat_part;

typedef struct sw_coat_input {
    const sw_stove *stove;
    const sw_works *works;       /* blasting and coating tables; NULL or without them: findings say so */
    const sw_coat_sheet *sheets; /* [stove->piece_count] */
    const sw_coat_part *parts;   /* [part_count] */
    size_t part_count;
} sw_coat_input;

typedef struct sw_coat_sides { /* which sides of a piece of a role carry coating */
    bool outer, inner;         /* the side seen or away from the fire; the other */
    bool fire;                 /* the inner one faces the fire */
    const char *why;           /* "seen", "faces the fire: bare", "stainless: bare" */
} sw_coat_sides;
sw_coat_sides sw_coat_sides_of(const char *role, sw_matter_kind kind, const sw_coat_options *opt);

typedef struct sw_coat_line { /* one kind of piece, all of it in one stove */
    const sw_piece *piece;
    size_t count;
    double side_m2, edge_m2; /* one side of one; cut edges of one */
    sw_coat_sides sides;
    double outer_m2, inner_m2, coat_m2; /* coated, all `count`; coat_m2 with the cut edges */
    double blast_m2;                    /* what is coated is blasted; edges in passing */
    double blast_s;                     /* run time, no set-up */
    double coat_s;                      /* of all coats, run time */
    bool thin;                          /* below the works' least thickness for blasting */
} sw_coat_line;

typedef enum sw_mask_kind {
    SW_MASK_THREAD,
    SW_MASK_PIN,
    SW_MASK_ROPE_LAND,
    SW_MASK_GLASS_LAND,
    SW_MASK_EARTH,
    SW_MASK_KINDS
} sw_mask_kind;
const char *sw_mask_kind_name(sw_mask_kind kind); /* "thread" "pin and bore" "rope land" "glass land" "earth point" */

typedef struct sw_coat_mask {
    sw_mask_kind kind;
    const char *where; /* item that asks for it */
    const char *group;
    const char *how;
    size_t count;
    double length_mm, area_m2; /* of all; 0 for points */
} sw_coat_mask;

typedef struct sw_coat_coat { /* one coat over one stove */
    double film_um, wet_um;
    double litres, landed_litres; /* bought; on the stove. The first one fills the profile too */
    double solvent_kg;
    double spray_s, dry_s;
} sw_coat_coat;

typedef struct sw_coat_step { /* of curing, or a first fire */
    const char *name, *text;
    double temperature_k, time_s; /* of the metal; cooling down: time 0, by itself */
} sw_coat_step;

typedef struct sw_coat_rating {
    const char *name;
    bool coated;
    double temperature_k, class_k, margin_k; /* class less temperature; NAN unknown */
} sw_coat_rating;

typedef struct sw_coat_result {
    const sw_coat_line *lines; /* [line_count] as the stove's pieces */
    size_t line_count;
    const sw_coat_mask *masks;
    size_t mask_count;
    double blast_m2, coat_m2, masked_m2; /* coat_m2: without what is masked */
    /* blasting of one stove */
    double media_kg, nozzle_kg;    /* used up; through the nozzle */
    double blast_s, blast_setup_s; /* run; set-up of a batch */
    double media_cost, blast_cost; /* blast_cost: machine and people, without set-up */
    const char *grade;             /* ISO 8501-1 grade asked for */
    /* coating of one stove */
    const sw_coat_coat *coats; /* [coat_count] */
    size_t coat_count;
    double cover_m2_l;               /* theoretical */
    double litres, film_um, film_kg; /* all coats */
    double solvent_kg, solvent_kg_s; /* all; while a coat leaves the most */
    double lel_kg_m3, air_m3_s;      /* least air of the booth by the explosive limit alone */
    double coat_s, coat_setup_s;     /* spraying, all coats, no drying; set-up of a batch */
    double paint_cost, coat_cost;    /* coat_cost: machine and people */
    double pot_s, blast_to_coat_s;   /* spraying of the batch; from the first blasted to the last sprayed */
    const sw_coat_step *cure;        /* [cure_count] in order */
    size_t cure_count;
    double cure_s;             /* oven with heating up, one load */
    double cure_each_s;        /* of the oven for one stove */
    const sw_coat_step *fires; /* [fire_count] the first fires */
    size_t fire_count;
    const sw_coat_rating *ratings; /* [in->part_count] */
    size_t rating_count;
    const char *const *cautions;
    size_t caution_count;
    sw_findings findings; /* "blast_table" "coat_table" "thin_sheet" "profile" "pot" "coat_within" "solvent" "rating" */
} sw_coat_result;

/* result in run->keep; pieces lend from the stove. Without a blasting or coating table its figures are NAN and a finding says
 * so. SW_OUT_OF_RANGE: an option, an area or a figure of the tables that cannot be, each named; SW_NO_MEMORY. */
sw_status sw_coat_solve(sw_run *run, const sw_coat_input *in, const sw_coat_options *opt,
                        const sw_coat_result **result);

#endif
