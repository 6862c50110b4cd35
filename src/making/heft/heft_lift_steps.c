/* heft_lift_steps.c: what is lifted, in the order of the route. */
#include "making/heft/heft_lift_parts.h"

#include <math.h>
#include <string.h>

static const char *station_of(const lift_job *job, sw_lift_kind kind)
{
    static const sw_operation operations[SW_LIFT_KINDS] = {
        [SW_LIFT_SHEET] = SW_OP_CUT,       [SW_LIFT_FLAT] = SW_OP_CUT,       [SW_LIFT_PRESS] = SW_OP_BEND,
        [SW_LIFT_ROLLS] = SW_OP_ROLL,      [SW_LIFT_GROUP] = SW_OP_ASSEMBLE, [SW_LIFT_GROWN] = SW_OP_ASSEMBLE,
        [SW_LIFT_POSITIONER] = SW_OP_WELD, [SW_LIFT_BLAST] = SW_OP_BLAST,    [SW_LIFT_PACK] = SW_OP_PACK,
        [SW_LIFT_HOUSE] = SW_OPERATIONS};
    const sw_works *works = job->in->works;
    for (size_t i = 0; works != NULL && i < works->station_count; i++)
        if (works->stations[i].operation == operations[kind]) return works->stations[i].name;
    return "";
}

static const char *action_of(sw_lift_kind kind)
{
    static const char *const actions[SW_LIFT_KINDS] = {
        "onto the laser",      "off the laser",       "to the press", "to the rolls", "into its place",
        "as assembled so far", "onto the positioner", "to blasting",  "to packing",   "into the house"};
    return actions[kind];
}

/* Who lifts is judged here; a step is complete when it is in the list. */
static sw_status append(sw_run *run, lift_job *job, sw_lift_step step)
{
    sw_lift_step *steps = sw_grow(run, run->keep, job->steps, job->step_count, &job->room, sizeof *steps);
    if (steps == NULL || step.load == NULL) return SW_NO_MEMORY;
    job->steps = steps;
    step.action = action_of(step.kind);
    step.station = station_of(job, step.kind);
    lift_judge(job, &step);
    lift_by_gear(job, &step);
    job->steps[job->step_count++] = step;
    return SW_OK;
}

static sw_status append_body(sw_run *run, lift_job *job, sw_lift_kind kind, const char *load, const bool *in)
{
    sw_lift_step step = {.kind = kind, .load = load};
    SW_TRY(lift_gather(run, job, in, &step));
    return step.mass_kg > 0 ? append(run, job, step) : SW_OK;
}

/* ---- sheets and pieces ---- */

static bool first_of_its_sheet(const sw_stove *stove, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (stove->pieces[k].grade == stove->pieces[i].grade &&
            fabs(stove->pieces[k].thickness_mm - stove->pieces[i].thickness_mm) < SW_SAME_POINT_MM)
            return false;
    return true;
}

/* The largest full sheet of that kind; NULL when the works has none. */
static const sw_stock *stock_of(const sw_works *works, const sw_piece *piece)
{
    const sw_stock *largest = NULL;
    for (size_t i = 0; i < works->stock_count; i++) {
        const sw_stock *s = &works->stock[i];
        if (s->remnant || s->grade != piece->grade || s->grade == NULL) continue;
        if (fabs(s->thickness_mm - piece->thickness_mm) >= SW_SAME_POINT_MM) continue;
        if (largest == NULL || s->length_mm * s->width_mm > largest->length_mm * largest->width_mm) largest = s;
    }
    return largest;
}

static sw_status sheet_steps(sw_run *run, lift_job *job)
{
    const sw_stove *stove = job->in->stove;
    if (job->in->works == NULL) return SW_OK;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_stock *s = stock_of(job->in->works, &stove->pieces[i]);
        if (s == NULL || !first_of_its_sheet(stove, i)) continue;
        sw_lift_step step = {.kind = SW_LIFT_SHEET};
        step.load = sw_text_format(run, run->keep, "sheet %s, %g x %g x %g mm", s->grade->name, s->length_mm,
                                   s->width_mm, s->thickness_mm);
        step.mass_kg = sw_sheet_mass_kg(s->grade->density, s->length_mm * s->width_mm, s->thickness_mm);
        step.box.high = (sw_vec3){s->length_mm, s->width_mm, s->thickness_mm};
        step.centre = sw_vec3_scaled(step.box.high, 0.5);
        SW_TRY(append(run, job, step));
    }
    return SW_OK;
}

static bool bent_so(const sw_piece *piece, bool rolled)
{
    for (size_t i = 0; i < piece->bend_count; i++)
        if ((piece->bends[i].kind == SW_ROLLED) == rolled) return true;
    return false;
}

static bool goes_there(const sw_piece *piece, sw_lift_kind kind)
{
    return kind == SW_LIFT_FLAT || bent_so(piece, kind == SW_LIFT_ROLLS);
}

static sw_status heaviest_step(sw_run *run, lift_job *job, sw_lift_kind kind)
{
    const sw_stove *stove = job->in->stove;
    size_t best = stove->piece_count;
    for (size_t i = 0; i < stove->piece_count; i++) {
        if (!goes_there(&stove->pieces[i], kind)) continue;
        if (best == stove->piece_count || job->in->pieces[i].mass_kg > job->in->pieces[best].mass_kg) best = i;
    }
    if (best == stove->piece_count) return SW_OK;
    sw_lift_step step = {.kind = kind, .load = stove->pieces[best].name, .mass_kg = job->in->pieces[best].mass_kg};
    step.centre = job->in->pieces[best].centre;
    step.box = job->in->boxes[best];
    if (kind == SW_LIFT_FLAT) {
        const sw_region *flat = job->in->flats[best];
        sw_box b = sw_contour_box(flat->outline);
        sw_point c = sw_region_centroid(flat);
        double s_mm = stove->pieces[best].thickness_mm;
        step.box = (sw_lift_box){{b.x0_mm, b.y0_mm, 0}, {b.x1_mm, b.y1_mm, s_mm}};
        step.centre = (sw_vec3){c.x_mm, c.y_mm, s_mm / 2};
    }
    return append(run, job, step);
}

/* ---- bodies ---- */

static sw_status welded_steps(sw_run *run, lift_job *job, bool *in)
{
    SW_TRY(lift_welded(run, job, in));
    SW_TRY(append_body(run, job, SW_LIFT_POSITIONER, "welded body", in));
    return append_body(run, job, SW_LIFT_BLAST, "welded body", in);
}

static bool has_members(const lift_job *job, const char *group)
{
    for (size_t i = 0; i < job->member_count; i++)
        if (strcmp(job->members[i].group, group) == 0) return true;
    return false;
}

/* Each group with members alone, then with those before it; the first with none and the last, the stove, are left out. */
static sw_status group_steps(sw_run *run, lift_job *job, bool *in, bool *grown)
{
    const sw_stove *stove = job->in->stove;
    size_t last = stove->group_count, joined = 0;
    for (size_t g = 0; g < stove->group_count; g++)
        if (has_members(job, stove->groups[g].name)) last = g;
    for (size_t g = 0; g < stove->group_count; g++) {
        if (!has_members(job, stove->groups[g].name)) continue;
        for (size_t i = 0; i < job->member_count; i++) {
            in[i] = strcmp(job->members[i].group, stove->groups[g].name) == 0;
            grown[i] = grown[i] || in[i];
        }
        SW_TRY(append_body(run, job, SW_LIFT_GROUP, stove->groups[g].name, in));
        if (joined++ == 0 || g == last) continue;
        const char *load = sw_text_format(run, run->keep, "%s and what came before", stove->groups[g].name);
        SW_TRY(append_body(run, job, SW_LIFT_GROWN, load, grown));
    }
    return SW_OK;
}

static sw_status stove_steps(sw_run *run, lift_job *job, bool *in)
{
    for (size_t i = 0; i < job->member_count; i++) in[i] = true;
    SW_TRY(append_body(run, job, SW_LIFT_PACK, "stove", in));
    bool bare = false;
    for (size_t i = 0; i < job->member_count; i++) {
        in[i] = !job->members[i].loose;
        bare = bare || job->members[i].loose;
    }
    return append_body(run, job, SW_LIFT_HOUSE, bare ? "stove without loose linings and grate" : "stove", in);
}

sw_status lift_steps(sw_run *run, lift_job *job)
{
    bool *in = SW_SCRATCH(run, job->member_count, bool), *grown = SW_SCRATCH(run, job->member_count, bool);
    if (in == NULL || grown == NULL) return SW_NO_MEMORY;
    SW_TRY(sheet_steps(run, job));
    SW_TRY(heaviest_step(run, job, SW_LIFT_FLAT));
    SW_TRY(heaviest_step(run, job, SW_LIFT_PRESS));
    SW_TRY(heaviest_step(run, job, SW_LIFT_ROLLS));
    SW_TRY(welded_steps(run, job, in));
    SW_TRY(group_steps(run, job, in, grown));
    SW_TRY(stove_steps(run, job, in));
    job->result->steps = job->steps;
    job->result->step_count = job->step_count;
    return SW_OK;
}
