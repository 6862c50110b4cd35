/* fuzz_description: whatever bytes come as a description, reading them ends soon, within its memory, and either makes
 * a model whose pieces hang together or says what is wrong. */
#include "design/design.h"

#include <math.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_piece(const sw_piece *p)
{
    SW_ASSERT(p->face_count == p->bend_count + 1 && p->count >= 1);
    for (size_t i = 0; i < p->face_count; i++) {
        sw_contour c = p->faces[i].region.outline;
        SW_ASSERT(c.n >= 2);
        for (size_t j = 0; j < c.n; j++)
            SW_ASSERT(isfinite(c.v[j].x_mm) && isfinite(c.v[j].y_mm) && isfinite(c.v[j].bulge));
    }
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *b = &p->bends[i];
        SW_ASSERT(b->parent < b->child && b->child < (int)p->face_count);
        SW_ASSERT(hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm) > 0.0);
    }
    for (size_t i = 0; i < p->edge_count; i++) /* those of holes and bent zones count along other lines */
        if (p->edges[i].hole == 0 && p->edges[i].zone == 0)
            SW_ASSERT(p->edges[i].first + p->edges[i].count <= p->faces[p->edges[i].face].region.outline.n);
}

static void check_house(const sw_house *h)
{
    SW_ASSERT(isfinite(h->altitude_m) && h->least_k > 0.0 && isfinite(h->terminal_zeta));
    for (size_t i = 0; i < h->part_count; i++) {
        const sw_flue_part *p = &h->parts[i];
        SW_ASSERT(p->width_mm > 0.0 && p->depth_mm > 0.0 && p->length_m > 0.0 && p->length_m < 101.0);
        SW_ASSERT(fabs(p->rise_m) < p->length_m * 1.001 && p->roughness_mm >= 0.0 && p->zeta >= 0.0);
        SW_ASSERT(!(p->resistance < 0.0) && (p->pipe || p->layer_count > 0 || !isnan(p->resistance)));
        for (size_t j = 0; j < p->layer_count; j++) SW_ASSERT(p->layers[j].thickness_mm > 0.0);
    }
    for (size_t i = 0; i < h->near_count; i++) SW_ASSERT(h->near[i].distance_mm >= 0.0 && h->near[i].side[0] != '\0');
}

static void check_works(const sw_works *w)
{
    const double times[] = {w->press.bend_s,     w->press.setup_s, w->rolls.setup_s,  w->welding.tack_s,
                            w->blasting.setup_s, w->coating.dry_s, w->coating.cure_s, w->labour.shift_s};
    for (size_t i = 0; i < sizeof times / sizeof *times; i++) SW_ASSERT(times[i] >= 0.0);
    for (size_t i = 0; i < w->welding.row_count; i++) {
        const sw_weld_row *r = &w->welding.rows[i];
        SW_ASSERT(r->throat_mm > 0.0 && r->thick_least_mm <= r->thick_most_mm && r->hand_mm_s + r->robot_mm_s > 0.0);
    }
    for (size_t i = 0; i < w->station_count; i++) {
        const sw_station *s = &w->stations[i];
        SW_ASSERT(s->operation < SW_OPERATIONS && s->up > 0.0 && s->up <= 1.001 && s->each_s >= 0.0);
    }
    for (size_t i = 0; i < w->hoist_count; i++) SW_ASSERT(w->hoists[i].swl_kg > 0.0 && w->hoists[i].legs >= 1.0);
    SW_ASSERT(w->press.strip_count == 0 && w->rolls.trial_count == 0); /* no folder, no files */
}

static void check_model(const sw_model *model)
{
    const sw_stove *s = model->stove;
    for (size_t i = 0; s != NULL && i < s->piece_count; i++) check_piece(&s->pieces[i]);
    for (size_t i = 0; s != NULL && i < s->joint_count; i++)
        SW_ASSERT(s->joints[i].a.piece >= 0 && s->joints[i].a.edge >= 0 && s->joints[i].b.piece >= 0);
    if (model->works != NULL) check_works(model->works);
    if (model->house != NULL) check_house(model->house);
}

/* The first byte chooses the language: stove, works, house. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    sw_run run;
    if (size < 1 || sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    sw_design_options options = sw_design_options_defaults();
    options.steps = 1e5;
    options.memory_mb = 8.0;
    sw_design_text text = {"fuzz.lua", (const char *)data + 1, size - 1};
    sw_design_texts in = {.options = &options};
    if (data[0] % 3 == 0) in.stove = text;
    if (data[0] % 3 == 1) in.works = text;
    if (data[0] % 3 == 2) in.house = text;
    const sw_model *model = NULL;
    sw_status status = sw_design_read_texts(&run, &in, &model);
    SW_ASSERT((status == SW_OK) == (model != NULL));
    SW_ASSERT(status == SW_OK || run.error_count > 0);
    if (model != NULL) check_model(model);
    sw_run_close(&run);
    return 0;
}
