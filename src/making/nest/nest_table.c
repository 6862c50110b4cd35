/* nest_table.c: the fields between all turned pieces. Two pieces turned together lie to each other as before, so a
 * field is made once for each relative turn and the vector between them is turned back before looking. */
#include "making/nest/nest_crowd_parts.h"

#include <math.h>

typedef struct table_job {
    nest_core *core;
    uint32_t cells;
    sw_arena *fields_into;
    nest_relation *relations;
    const nest_field **fields; /* [count*count] by base entry and relative entry, NULL = not made */
    size_t count;
} table_job;

static double whole_turn(double rad)
{
    double r = fmod(rad, 2 * SW_PI);
    return r < -1e-9 ? r + 2 * SW_PI : r;
}

static bool same_turn(double a, double b)
{
    double d = fabs(whole_turn(a) - whole_turn(b));
    return d < 1e-9 || 2 * SW_PI - d < 1e-9;
}

/* The entry of the same shape and mirroring at that turn, or SIZE_MAX. */
static size_t entry_at(const nest_core *core, size_t like, double turn_rad)
{
    const nest_turned *t = &core->turned[like];
    const nest_kind *kind = &core->kinds[t->shape];
    for (size_t i = kind->first; i < kind->first + kind->count; i++)
        if (core->turned[i].mirror == t->mirror && same_turn(core->turned[i].turn_rad, turn_rad)) return i;
    return SIZE_MAX;
}

static double exact(double v)
{
    return fabs(v) < 1e-12 ? 0 : fabs(v - 1) < 1e-12 ? 1 : fabs(v + 1) < 1e-12 ? -1 : v;
}

static sw_status field_of(table_job *job, size_t a, size_t b, const nest_field **field)
{
    const nest_field **slot = &job->fields[a * job->count + b];
    if (*slot == NULL) {
        const nest_pair *pair = NULL;
        const nest_field *made = NULL;
        SW_TRY(nest_pair_find(job->core, a, b, &pair));
        SW_TRY(nest_field_make(job->core, job->fields_into, pair, job->cells, &made));
        *slot = made;
    }
    *field = *slot;
    return SW_OK;
}

/* a comes first in the table of shapes: the field is looked up in a's own unturned axes when it has such an entry. */
static sw_status relate(table_job *job, size_t a, size_t b, nest_relation *out)
{
    const nest_core *core = job->core;
    double turn_rad = core->turned[a].turn_rad;
    size_t base = entry_at(core, a, 0), other = entry_at(core, b, core->turned[b].turn_rad - turn_rad);
    if (base == SIZE_MAX || other == SIZE_MAX) base = a, other = b, turn_rad = 0;
    SW_TRY(field_of(job, base, other, &out->field));
    out->c = exact(cos(turn_rad));
    out->s = exact(-sin(turn_rad));
    out->shift_x_mm = core->turned[other].base.x_mm - core->turned[base].base.x_mm;
    out->shift_y_mm = core->turned[other].base.y_mm - core->turned[base].base.y_mm;
    return SW_OK;
}

static sw_status relate_row(table_job *job, size_t a)
{
    for (size_t b = 0; b < job->count; b++) {
        if (nest_time_is_up(job->core)) return SW_CANCELLED;
        bool swapped = job->core->turned[a].shape > job->core->turned[b].shape;
        nest_relation *r = &job->relations[a * job->count + b];
        SW_TRY(relate(job, swapped ? b : a, swapped ? a : b, r));
        r->swapped = swapped;
    }
    return SW_OK;
}

sw_status nest_table_make(nest_core *core, uint32_t cells, const nest_table **table)
{
    table_job job = {.core = core, .cells = cells, .fields_into = core->pair_arena, .count = core->turned_count};
    nest_table *made = SW_SCRATCH(core->run, 1, nest_table);
    job.relations = SW_SCRATCH(core->run, job.count * job.count, nest_relation);
    job.fields = SW_SCRATCH(core->run, job.count * job.count, const nest_field *);
    if (made == NULL || job.relations == NULL || job.fields == NULL) return SW_NO_MEMORY;
    for (size_t a = 0; a < job.count; a++) SW_TRY(relate_row(&job, a));
    *made = (nest_table){core, job.count, job.relations};
    *table = made;
    return SW_OK;
}

double nest_table_slope(const nest_table *table, uint32_t a, uint32_t b, double dx_mm, double dy_mm, nest_slope *slope)
{
    const nest_relation *r = &table->relations[(size_t)a * table->count + b];
    double sign = -1; /* the place looked up is that of the second beside the first */
    if (r->swapped) dx_mm = -dx_mm, dy_mm = -dy_mm, sign = 1;
    double x = r->c * dx_mm - r->s * dy_mm + r->shift_x_mm, y = r->s * dx_mm + r->c * dy_mm + r->shift_y_mm;
    nest_slope own;
    double depth_mm = nest_field_slope(r->field, x, y, &own);
    *slope = (nest_slope){sign * (r->c * own.x + r->s * own.y), sign * (r->c * own.y - r->s * own.x)};
    return depth_mm;
}

/* ---- a relation at a time --------------------------------------------------------------------------- */

struct nest_table_work {
    table_job job;
    nest_table table;
};

sw_status nest_table_start(nest_core *core, sw_arena *fields, uint32_t cells, nest_table_work **work)
{
    nest_table_work *w = SW_SCRATCH(core->run, 1, nest_table_work);
    if (w == NULL) return SW_NO_MEMORY;
    w->job = (table_job){.core = core, .cells = cells, .fields_into = fields, .count = core->turned_count};
    w->job.relations = SW_SCRATCH(core->run, w->job.count * w->job.count, nest_relation);
    w->job.fields = SW_SCRATCH(core->run, w->job.count * w->job.count, const nest_field *);
    if (w->job.relations == NULL || w->job.fields == NULL) return SW_NO_MEMORY;
    w->table = (nest_table){core, w->job.count, w->job.relations};
    *work = w;
    return SW_OK;
}

const nest_table *nest_table_of(const nest_table_work *work)
{
    return &work->table;
}

static void forget_pairs(nest_core *core)
{
    for (size_t i = 0; i < core->turned_count; i++) core->pairs[i] = NULL;
    sw_arena_rewind(core->pair_arena, 0);
}

sw_status nest_table_relate(nest_table_work *work, size_t a, size_t b)
{
    bool swapped = work->job.core->turned[a].shape > work->job.core->turned[b].shape;
    nest_relation *r = &work->job.relations[a * work->job.count + b];
    sw_status status = relate(&work->job, swapped ? b : a, swapped ? a : b, r);
    r->swapped = swapped;
    forget_pairs(work->job.core);
    return status;
}
