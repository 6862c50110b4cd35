/* nest_pack_parts.h: moves pieces between sheets so that fewer or cheaper sheets are needed. For making/nest alone.
 *
 * A packing is a plan taken apart: every piece with its sheet and position. Sheets are emptied, or exchanged for a
 * cheaper size, by inserting their pieces into the others: a piece is put where it overlaps least and the sheet is
 * pulled apart (nest_separate); what finds no place so is pulled apart together with all sheets. Positions are
 * translations of the turned flat in the frame of the sheet's usable box, mm. */
#ifndef SW_MAKING_NEST_NEST_PACK_PARTS_H
#define SW_MAKING_NEST_NEST_PACK_PARTS_H

#include "making/nest/nest_separate_parts.h"

#include <omp.h>

#define NEST_LOOSE UINT32_MAX /* on no sheet */

typedef struct nest_packing {
    size_t count;                 /* pieces */
    const uint32_t *kind;         /* [count] shape; the same in every packing */
    uint32_t *sheet;              /* [count] index, NEST_LOOSE = none */
    nest_state state;             /* [count] entries of the pack's core */
    size_t sheet_count;           /* sheets that are gone have no pieces */
    uint32_t *stock;              /* [sheet_room] */
    double *area_mm2, *claim_mm2; /* [sheet_room] of its pieces: exact, and with what they take from others */
    double gross, cost;           /* of all sheets: without and with what remnants are worth */
    double rest_mm2;              /* area on the emptiest sheet, and a little of its reach */
} nest_packing;

typedef struct nest_pack { /* shared by the workers; read only but for what the lock guards */
    const nest_core *core; /* of the search before */
    sw_run store;          /* owns what follows */
    nest_core own;         /* few turns a kind, and a kind for each sheet's block */
    sw_arena *fields;
    nest_table_work *work;
    uint32_t *from_core; /* [core->turned_count] entry of `own`, UINT32_MAX = none */
    uint32_t *to_core;   /* [own.turned_count] */
    size_t kind_count;   /* with blocks */
    atomic_uchar *ready; /* [kind_count*kind_count] nest_readiness */
    omp_lock_t lock;     /* guards work, own.run, best and tries */
    nest_packing best;   /* by nest_packing_better: where the workers go on from */
    nest_packing answer; /* of least cost */
    size_t sheet_room;
    int *tries; /* [NEST_AIMS] vain tries of an aim since the last success */
    uint64_t rounds, wins;
    double begun_s, until_s;
    double least_price; /* of any sheets that could hold the pieces */
} nest_pack;

enum { NEST_AIMS = 4096, NEST_SWAPS = 16384 };
typedef enum nest_readiness { NEST_UNMADE, NEST_READY, NEST_NO_ROOM } nest_readiness;

typedef struct nest_packer { /* one worker */
    nest_pack *pack;
    sw_run run;
    sw_random random;
    nest_packing now, kept;
    uint32_t *list;             /* [count] pieces of a sheet */
    uint32_t *version, *failed; /* [sheet_room] changes; [sheet_room*shapes] version at which a kind failed, plus 1 */
    bool *closed;               /* [sheet_room] takes no piece in this aim */
    uint32_t *sheets;           /* [sheet_room] being looked through */
    uint32_t *loose;            /* [count] */
    uint8_t *swaps;             /* [NEST_SWAPS] vain tries of a change of places since the sheet changed */
    size_t loose_count;
    double until_s; /* of the aim */
    uint64_t looks;
    sw_status status;
} nest_packer;

/* nest_pack_core.c: own core, table and locks. SW_OUT_OF_RANGE: too many turned pieces to compare. */
sw_status nest_pack_open(nest_pack *pack, const nest_core *core, const nest_plan *plan);
void nest_pack_close(nest_pack *pack);
void nest_pack_warm(nest_pack *pack); /* fields of few kinds are made at once, so that no try has to wait for them */
/* Makes what is missing of the fields between the kinds; false = no memory for them, or no time. */
bool nest_pack_ready(nest_pack *pack, const uint32_t *kinds, size_t count);

/* nest_packing.c */
sw_status nest_packing_make(sw_run *run, size_t count, size_t sheet_room, const uint32_t *kind, nest_packing *p);
void nest_packing_copy(const nest_packing *from, nest_packing *to);
sw_status nest_packing_from_plan(nest_pack *pack, const nest_plan *plan);
sw_status nest_packing_to_plan(const nest_pack *pack, const nest_packing *p, nest_plan *plan);
void nest_packing_reckon(const nest_pack *pack, nest_packing *p); /* areas, cost, rest */
/* By gross cost first: room is worth most as a sheet saved, and what is left then is pressed into remnants. */
bool nest_packing_better(const nest_packing *a, const nest_packing *b);
bool nest_packing_cheaper(const nest_packing *a, const nest_packing *b); /* remnants counted; then by rest */
double nest_packing_reach(const nest_pack *pack, const nest_packing *p, uint32_t sheet); /* in the usable box */
size_t nest_packing_list(const nest_packing *p, uint32_t sheet, uint32_t *list);

void nest_packing_count(const nest_pack *pack, nest_packing *p, uint32_t piece, uint32_t sheet, int sign);

/* nest_pack_insert.c */
typedef struct nest_attempt {
    uint32_t sheet;
    uint32_t piece;       /* NEST_LOOSE = none: only pulls together */
    const uint32_t *list; /* [count] pieces that stay, the piece not among them */
    size_t count;
    double length_mm; /* of the rectangle; the usable box's or less */
    int passes;
    bool placed; /* the piece starts where it is noted, not at random */
} nest_attempt;
/* When it becomes legal the positions of all are taken over. */
bool nest_pack_attempt(nest_packer *w, const nest_attempt *a);
bool nest_pack_insert(nest_packer *w, uint32_t piece);                         /* into any sheet */
bool nest_pack_may_hold(const nest_packer *w, uint32_t sheet, uint32_t piece); /* by its box */
double nest_pack_length(const nest_packer *w, uint32_t sheet);                 /* of the usable box */
bool nest_pack_over(const nest_packer *w);

/* Takes another turn of the kind, at random, where the one given does not fit a rectangle of that size; false = none
 * does. */
bool nest_pack_turn_to_fit(nest_packer *w, uint32_t kind, double length_mm, double height_mm, uint32_t *turned);

/* Whether the fields between these kinds are there; makes what is missing. Leaves its list in scratch. */
bool nest_pack_kinds_ready(nest_packer *w, const uint32_t *kind, size_t count);

/* nest_pack_join.c: the open sheets with most room and what is loose, together. Of `cut` only the first cut_mm of the
 * usable box may be used; NEST_LOOSE = of none. */
bool nest_pack_join(nest_packer *w, uint32_t cut, double cut_mm);

/* nest_pack_swap.c: pieces of `from` change places with smaller ones of other sheets until it is empty or time is
 * over; also other sheets are unloaded so that one gets room for what is left. */
void nest_pack_swap(nest_packer *w, uint32_t from, double until_s);

/* nest_pack_settle.c */
/* Takes a packing over: the best, or the answer; nothing is loose, closed or failed. */
void nest_pack_start(nest_packer *w, const nest_packing *from);
void nest_pack_lift(nest_packer *w, uint32_t sheet);  /* its pieces become loose */
bool nest_pack_empty(nest_packer *w, uint32_t sheet); /* false = not all of it, but perhaps some */
bool nest_pack_commit(
    nest_packer *w); /* hands it in; false = neither better than the best nor cheaper than the answer */

/* nest_pack_aim.c: one try to do with fewer or cheaper sheets. false = nothing left to try. */
bool nest_pack_aim(nest_packer *w, bool *won);

/* nest_pack_press.c: one try to leave more of the emptiest sheet. */
bool nest_pack_press(nest_packer *w);

/* nest_pack.c: goes on from `best` until core->stop_at_s, a cancel, or nothing more to try. */
sw_status nest_pack_improve(nest_core *core, nest_plan *best, bool *stopped);

#endif
