/* coat_areas.c: which sides of which pieces are coated, by their roles.
 *
 * Both sides of a sheet have the area of its flat (bends move it by less than a per cent: ours). A piece has an outer side, seen
 * or away from the fire, and an inner one. Cut edges are coated; blasted they are in passing. */
#include "making/coat/coat_parts.h"

#include <math.h>
#include <string.h>

typedef enum coat_place {             /* where a role's sides lie */
                          COAT_WALL,  /* outer side away from the fire, inner one in it */
                          COAT_FIRE,  /* all of it in the fire or its gas */
                          COAT_COVER, /* outer side seen, inner one not */
                          COAT_OPEN   /* both sides seen */
} coat_place;

typedef struct coat_role {
    const char *word;
    coat_place place;
} coat_role;

/* Words as in docs/description.md; those not here are seen from both sides. */
static const coat_role roles[] = {
    {"firebox wall", COAT_WALL}, {"firebox floor", COAT_WALL}, {"firebox roof", COAT_WALL}, {"front", COAT_WALL},
    {"flue collar", COAT_WALL},  {"oven", COAT_WALL},          {"door", COAT_WALL},         {"baffle", COAT_FIRE},
    {"log guard", COAT_FIRE},    {"lining", COAT_FIRE},        {"grate", COAT_FIRE},        {"grate seat", COAT_FIRE},
    {"insulation", COAT_FIRE},   {"shell", COAT_COVER},        {"top", COAT_COVER},         {"shield", COAT_COVER},
    {"heat shield", COAT_COVER}, {"ash door", COAT_COVER},     {"air box", COAT_COVER},     {"air duct", COAT_COVER},
    {"air way", COAT_COVER},     {"ash box", COAT_COVER},      {"ash pan", COAT_COVER},     {"base", COAT_COVER},
    {"air slide", COAT_FIRE},    {"air control", COAT_FIRE},
};

static coat_place place_of(const char *role)
{
    for (size_t i = 0; i < sizeof roles / sizeof *roles; i++)
        if (strcmp(roles[i].word, role) == 0) return roles[i].place;
    return COAT_OPEN;
}

static bool slides(const char *role)
{
    return strcmp(role, "air slide") == 0 || strcmp(role, "air control") == 0;
}

sw_coat_sides sw_coat_sides_of(const char *role, sw_matter_kind kind, const sw_coat_options *opt)
{
    bool fire = opt->fire_side >= 0.5, inner = opt->inner_side >= 0.5;
    if (kind != SW_STEEL)
        return (sw_coat_sides){.why = kind == SW_STAINLESS ? "stainless: bare" : "no steel sheet: bare"};
    switch (place_of(role)) {
    case COAT_WALL:
        return (sw_coat_sides){true, fire, true,
                               fire ? "both sides, that to the fire as well" : "side to the fire bare"};
    case COAT_FIRE:
        if (slides(role)) return (sw_coat_sides){.why = "slides: bare, or it sticks"};
        return (sw_coat_sides){fire, fire, true, fire ? "in the fire, coated all the same" : "in the fire: bare"};
    case COAT_COVER:
        return (sw_coat_sides){true, inner, false, inner ? "both sides" : "outer side, overspray inside"};
    case COAT_OPEN:
        break;
    }
    return (sw_coat_sides){true, true, false, "seen from both sides"};
}

static sw_coat_line line_of(const coat_job *job, size_t i)
{
    const sw_piece *p = &job->in->stove->pieces[i];
    sw_coat_line line = {.piece = p, .count = p->count};
    double n = (double)p->count;
    line.side_m2 = sw_m2_from_mm2(job->in->sheets[i].area_mm2);
    line.edge_m2 = sw_m2_from_mm2(job->in->sheets[i].cut_mm * p->thickness_mm);
    line.sides = sw_coat_sides_of(p->role, p->grade->kind, job->opt);
    line.outer_m2 = line.sides.outer ? n * line.side_m2 : 0;
    line.inner_m2 = line.sides.inner ? n * line.side_m2 : 0;
    line.coat_m2 = line.outer_m2 + line.inner_m2;
    line.blast_m2 = line.coat_m2;
    if (line.coat_m2 > 0) line.coat_m2 += n * line.edge_m2;
    line.thin =
        job->blasting != NULL && line.blast_m2 > 0 && p->thickness_mm < job->blasting->least_mm - SW_SAME_POINT_MM;
    line.blast_s = job->blasting == NULL ? (double)NAN : sw_blast_time_s(line.blast_m2, job->blasting->m2_s);
    line.coat_s = job->coating == NULL ? (double)NAN : line.coat_m2 / job->coating->m2_s * (double)job->coating->coats;
    return line;
}

sw_status coat_areas(sw_run *run, coat_job *job)
{
    size_t count = job->in->stove->piece_count;
    sw_coat_line *lines = SW_KEEP(run, count, sw_coat_line);
    if (lines == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        lines[i] = line_of(job, i);
        job->result->blast_m2 += lines[i].blast_m2;
        job->result->coat_m2 += lines[i].coat_m2;
    }
    job->result->lines = lines;
    job->result->line_count = count;
    return SW_OK;
}
