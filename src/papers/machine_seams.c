/* machine_seams.c: the seam table for the robot's teacher, and its reading back: each row of the file is held against the
 * point of the plan it stands for. */
#include "papers/machine_parts.h"

#include <math.h>
#include <string.h>

enum { MOST_BYTES = 1 << 28 };
#define LIKE_MM   6e-3 /* places are written to hundredths */
#define LIKE_UNIT 6e-6 /* directions to five decimals */
#define LIKE_DEG  6e-2 /* angles to a tenth of a degree */
#define LIKE_TURN 6e-4 /* what points up to three */

static sw_status written(sw_run *run, const sw_join_result *join, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_join_write_csv(join, w);
    return sw_writer_close(run, w);
}

sw_status sw_paper_seams_csv(sw_run *run, const sw_join_result *join, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = written(run, join, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* ---- reading back ------------------------------------------------------------------------------------------------ */

typedef struct reading {
    const sw_join_result *join;
    sw_csv csv;
    size_t row; /* the next one */
} reading;

typedef struct arc_of {               /* what a run of rows stands for */
    size_t body, step, seam, stretch; /* stretch: from 1, in the order of welding */
    const sw_join_stretch *points;
    bool backwards;
    sw_vec3 up;
} arc_of;

static sw_status differs(sw_run *run, const reading *r, const char *column, double got, double wanted)
{
    return sw_fail(run, SW_INTERNAL, sw_csv_place(&r->csv, r->row), column,
                   "the seam table as read back has %g where the plan has %g; report this", got, wanted);
}

static sw_status same(sw_run *run, const reading *r, const char *name, double wanted, double like)
{
    double got = NAN;
    size_t column = sw_csv_column(&r->csv, name);
    if (column == SIZE_MAX)
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, name, "the seam table has no such column; report this");
    SW_TRY(sw_csv_number(run, &r->csv, r->row, column, -1e9, 1e9, &got));
    return fabs(got - wanted) <= like ? SW_OK : differs(run, r, name, got, wanted);
}

static sw_status same_vector(sw_run *run, const reading *r, const char *const names[3], sw_vec3 v, double like)
{
    SW_TRY(same(run, r, names[0], v.x_mm, like));
    SW_TRY(same(run, r, names[1], v.y_mm, like));
    return same(run, r, names[2], v.z_mm, like);
}

/* Welded backwards the neck leans the other way along the seam. */
static sw_status same_turn(sw_run *run, const reading *r, double turn_rad, bool backwards)
{
    const double half_deg = 180;
    double wanted_deg = sw_deg_from_rad(turn_rad);
    if (backwards) wanted_deg += wanted_deg > 0 ? -half_deg : half_deg;
    return same(run, r, "turn_deg", wanted_deg, LIKE_DEG);
}

static sw_status same_point(sw_run *run, const reading *r, const arc_of *a, size_t i)
{
    static const char *const at[] = {"x_mm", "y_mm", "z_mm"}, *const along[] = {"along_x", "along_y", "along_z"},
                             *const torch[] = {"torch_x", "torch_y", "torch_z"}, *const up[] = {"up_x", "up_y", "up_z"};
    const sw_join_seam *s = &r->join->seams[a->seam];
    const sw_join_point *p = &a->points->points[a->backwards ? a->points->count - 1 - i : i];
    if (r->row >= r->csv.row_count)
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, "seams.csv",
                       "the seam table ends after %zu points; report this", r->row);
    SW_TRY(same(run, r, "body", (double)(a->body + 1), 0.0));
    SW_TRY(same(run, r, "step", (double)(a->step + 1), 0.0));
    SW_TRY(same(run, r, "seam", (double)s->number, 0.0));
    SW_TRY(same(run, r, "stretch", (double)a->stretch, 0.0));
    SW_TRY(same(run, r, "point", (double)(i + 1), 0.0));
    SW_TRY(same_vector(run, r, at, p->at, LIKE_MM));
    SW_TRY(same_vector(run, r, along, sw_vec3_scaled(p->along, a->backwards ? -1.0 : 1.0), LIKE_UNIT));
    SW_TRY(same_vector(run, r, torch, p->torch, LIKE_UNIT));
    SW_TRY(same_vector(run, r, up, a->up, LIKE_TURN));
    SW_TRY(same_turn(run, r, p->turn_rad, a->backwards));
    SW_TRY(same(run, r, "throat_mm", s->throat_mm, LIKE_MM));
    SW_TRY(same(run, r, "arc", i + 1 < a->points->count ? 1.0 : 0.0, 0.0));
    const char *joint = sw_csv_as_it_was(sw_csv_cell(&r->csv, r->row, sw_csv_column(&r->csv, "joint")));
    if (strcmp(joint, s->joint->name) != 0)
        return sw_fail(run, SW_INTERNAL, sw_csv_place(&r->csv, r->row), "joint",
                       "the seam table as read back names another joint than %s; report this", s->joint->name);
    return SW_OK;
}

static sw_status same_seam(sw_run *run, reading *r, arc_of a)
{
    const sw_join_seam *s = &r->join->seams[a.seam];
    for (size_t k = 0; k < s->stretch_count; k++) {
        a.stretch = k + 1;
        a.points = &s->stretches[a.backwards ? s->stretch_count - 1 - k : k];
        for (size_t i = 0; i < a.points->count; i++, r->row++) SW_TRY(same_point(run, r, &a, i));
    }
    return SW_OK;
}

static sw_status same_body(sw_run *run, reading *r, size_t index)
{
    const sw_join_body *b = &r->join->bodies[index];
    for (size_t i = 0; i < b->robot_count; i++) {
        const sw_join_step *s = &b->robot[i];
        SW_TRY(same_seam(
            run, r,
            (arc_of){.body = index, .step = i, .seam = s->seam, .backwards = s->backwards, .up = sw_join_up(s->up)}));
    }
    for (size_t i = 0; i < b->hand_count; i++)
        SW_TRY(same_seam(run, r, (arc_of){.body = index, .step = b->robot_count + i, .seam = b->hand[i]}));
    return SW_OK;
}

static sw_status same_all(sw_run *run, const sw_join_result *join, const char *path)
{
    const char *bytes = NULL;
    size_t length = 0;
    reading r = {.join = join};
    SW_TRY(sw_file_read(run, path, MOST_BYTES, &bytes, &length));
    SW_TRY(sw_csv_read(run, "seams.csv", bytes, length, &r.csv));
    for (size_t i = 0; i < join->body_count; i++) SW_TRY(same_body(run, &r, i));
    if (r.row == r.csv.row_count) return SW_OK;
    return sw_fail(run, SW_INTERNAL, sw_csv_place(&r.csv, r.row), "seams.csv",
                   "the seam table has %zu points, the plan %zu; report this", r.csv.row_count, r.row);
}

sw_status machine_check_seams(sw_run *run, const sw_join_result *join, const char *path)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = same_all(run, join, path);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}
