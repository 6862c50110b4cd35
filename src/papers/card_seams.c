/* card_seams.c: a body to be welded, from the directions that together show most of its seams: seams as thick lines with
 * their place in the order of welding, those behind sheet dashed. */
#include "papers/cards_parts.h"

#include <math.h>
#include <stdlib.h>

enum { VIEWS_MOST = 4, LOOKS = 14 };
#define GAP_MM     5.0
#define ONE_ROW_MM 66.0
#define BODY_MM    140.0 /* a body this long or shorter is shown lower */
#define LOW_MM     46.0
#define RING_MM    2.0
#define PITCH_MM   4.5
#define MARGIN_MM  8.0  /* left and right of a picture, for the rings */
#define LIFT_MM    2.5  /* a seam is seen where this much of the way to the torch is */
#define FEW_SEAMS  5    /* so few need two views at most */
#define WORTH      0.04 /* a further view shows at least this share more */

static const solid_view looks[LOOKS] = {
    {{0.55, -0.62, 0.60}, {0, 0, 1}}, {{-0.55, -0.62, 0.60}, {0, 0, 1}}, {{0.55, 0.62, 0.60}, {0, 0, 1}},
    {{-0.55, 0.62, 0.60}, {0, 0, 1}}, {{0.55, -0.62, -0.60}, {0, 0, 1}}, {{-0.55, -0.62, -0.60}, {0, 0, 1}},
    {{0.55, 0.62, -0.60}, {0, 0, 1}}, {{-0.55, 0.62, -0.60}, {0, 0, 1}}, {{0.15, -0.95, 0.20}, {0, 0, 1}},
    {{0.15, 0.95, 0.20}, {0, 0, 1}},  {{0.95, -0.15, 0.20}, {0, 0, 1}},  {{-0.95, -0.15, 0.20}, {0, 0, 1}},
    {{0.10, -0.25, 0.95}, {0, 0, 1}}, {{0.10, -0.25, -0.95}, {0, 0, 1}},
};

sw_status weld_body_of(sw_run *run, const sw_join_result *join, size_t index, weld_body *out)
{
    const sw_join_body *b = &join->bodies[index];
    size_t n = b->robot_count + b->hand_count;
    size_t *seams = SW_SCRATCH(run, n + 1, size_t);
    const sw_join_step **steps = SW_SCRATCH(run, n + 1, const sw_join_step *);
    if (seams == NULL || steps == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < b->robot_count; i++) {
        seams[i] = b->robot[i].seam;
        steps[i] = &b->robot[i];
    }
    for (size_t i = 0; i < b->hand_count; i++) seams[b->robot_count + i] = b->hand[i];
    *out = (weld_body){b, index + 1, seams, steps, n};
    return SW_OK;
}

/* ---- the body and what is seen of its seams ---------------------------------------------------------------------- */

typedef struct scene {
    const sw_join_result *join;
    weld_body w;
    solid_part *parts;
    size_t count;
} scene;

static sw_status scene_of(sw_run *run, const doc_book *doc, size_t index, scene *s)
{
    *s = (scene){.join = doc->d->shop.join};
    SW_TRY(weld_body_of(run, s->join, index, &s->w));
    const sw_join_body *b = s->w.body;
    s->parts = SW_SCRATCH(run, b->piece_count + 1, solid_part);
    if (s->parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < b->piece_count; i++) {
        const sw_sheet_piece *p = &doc->d->sheet->pieces[b->pieces[i]];
        s->parts[i] = (solid_part){.mesh = p->solid.mesh,
                                   .shape = doc->desk->shapes[b->pieces[i]],
                                   .frame = p->piece->placements[b->placements[i]],
                                   .colour = look_piece(b->pieces[i]),
                                   .tag = (int)i};
    }
    s->count = b->piece_count;
    return SW_OK;
}

static bool point_seen(const solid_picture *p, const sw_join_point *at)
{
    double pixel_mm = 1.0 / (p->pixels_per_mm * p->scale);
    sw_vec3 lifted = sw_vec3_add(at->at, sw_vec3_scaled(at->torch, LIFT_MM + 1.5 * pixel_mm));
    return solid_sees(p, lifted, 0.5 * LIFT_MM + 1.5 * pixel_mm);
}

static double share_seen(const solid_picture *p, const sw_join_seam *seam)
{
    size_t n = 0;
    for (size_t i = 0; i < seam->count; i++) n += point_seen(p, &seam->points[i]);
    return seam->count == 0 ? 0.0 : (double)n / (double)seam->count;
}

typedef struct choice {
    double *shares; /* [LOOKS x seams] */
    double *best;   /* [seams] over the views chosen */
    int views[VIEWS_MOST];
    int count;
} choice;

static sw_status try_looks(sw_run *run, const scene *s, choice *c)
{
    const solid_wish coarse = {60.0, 60.0, 1.5, false};
    for (size_t k = 0; k < LOOKS; k++) {
        solid_picture p;
        SW_TRY(solid_look(run, s->parts, s->count, looks[k], coarse, &p));
        for (size_t i = 0; i < s->w.count && p.scale > 0.0; i++)
            c->shares[k * s->w.count + i] = share_seen(&p, &s->join->seams[s->w.seams[i]]);
    }
    return SW_OK;
}

/* What look k adds to those chosen, of all seams alike; ties go to the earlier look. */
static double gain(const choice *c, size_t n, size_t k)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) sum += fmax(0.0, c->shares[k * n + i] - c->best[i]);
    return sum / (double)n;
}

static int views_most(const sw_join_body *b)
{
    return b->seam_count <= FEW_SEAMS ? 2 : VIEWS_MOST;
}

/* Greedy cover. Source: Nemhauser, Wolsey and Fisher 1978: at least 63 % of the best. */
static void choose(choice *c, size_t n, int most)
{
    while (c->count < most) {
        size_t best = 0;
        double most_gain = -1.0;
        for (size_t k = 0; k < LOOKS; k++) {
            double g = gain(c, n, k);
            if (g > most_gain + 1e-9) best = k, most_gain = g;
        }
        if (c->count > 0 && most_gain < WORTH) return;
        c->views[c->count++] = (int)best;
        for (size_t i = 0; i < n; i++) c->best[i] = fmax(c->best[i], c->shares[best * n + i]);
    }
}

static sw_status chosen(sw_run *run, const scene *s, choice *c)
{
    size_t n = s->w.count;
    *c = (choice){.shares = SW_SCRATCH(run, LOOKS * n + 1, double), .best = SW_SCRATCH(run, n + 1, double)};
    if (c->shares == NULL || c->best == NULL) return SW_NO_MEMORY;
    if (n == 0) return SW_OK;
    SW_TRY(try_looks(run, s, c));
    choose(c, n, views_most(s->w.body));
    return SW_OK;
}

/* ---- drawing ------------------------------------------------------------------------------------------------------ */

typedef struct ring {
    sw_point at;
    double y_mm;
    size_t number;
} ring;

typedef struct stage { /* one view on the page */
    sw_pen *pen;
    sw_box box;
    sw_point at; /* of the picture's top left */
    const solid_picture *picture;
} stage;

static sw_point on_page(const stage *g, sw_vec3 world)
{
    sw_point p = solid_at(g->picture, world);
    return (sw_point){g->at.x_mm + p.x_mm, g->at.y_mm + p.y_mm};
}

/* Runs of seen and of hidden points as lines of their own. line[count] is lent. */
static void seam_lines(const stage *g, const sw_join_stretch *s, bool seen, sw_point *line)
{
    static const double dash_mm[] = {0.9, 0.9};
    const sw_ink ink = seen ? look_rust(0.75) : look_dashed(look_rust(0.2), dash_mm, 2);
    size_t n = 0;
    for (size_t i = 0; i < s->count; i++) {
        bool both = i + 1 < s->count &&
                    (point_seen(g->picture, &s->points[i]) && point_seen(g->picture, &s->points[i + 1])) == seen;
        if (n > 0 || both) line[n++] = on_page(g, s->points[i].at);
        if (both) continue;
        if (n > 1) sw_pen_polygon(g->pen, ink, line, n, false);
        n = 0;
    }
}

static sw_status all_seam_lines(sw_run *run, const stage *g, const sw_join_seam *seam)
{
    for (size_t k = 0; k < seam->stretch_count; k++) {
        sw_point *line = SW_SCRATCH(run, seam->stretches[k].count + 1, sw_point);
        if (line == NULL) return SW_NO_MEMORY;
        seam_lines(g, &seam->stretches[k], false, line);
        seam_lines(g, &seam->stretches[k], true, line);
    }
    return SW_OK;
}

/* The seen point nearest to the middle of the seam, else its middle. */
static sw_point anchor(const stage *g, const sw_join_seam *s)
{
    size_t middle = s->count / 2;
    for (size_t off = 0; off <= middle; off++) {
        if (point_seen(g->picture, &s->points[middle - off])) return on_page(g, s->points[middle - off].at);
        if (middle + off < s->count && point_seen(g->picture, &s->points[middle + off]))
            return on_page(g, s->points[middle + off].at);
    }
    return on_page(g, s->points[middle].at);
}

static int by_height(const void *left, const void *right)
{
    const ring *a = left, *b = right;
    if (a->at.y_mm != b->at.y_mm) return a->at.y_mm < b->at.y_mm ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

static int by_side(const void *left, const void *right)
{
    const ring *a = left, *b = right;
    if (a->at.x_mm != b->at.x_mm) return a->at.x_mm < b->at.x_mm ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

static sw_status rings_beside(sw_run *run, const stage *g, ring *rings, size_t count, bool left)
{
    double low = g->box.y0_mm + RING_MM + 0.5, high = g->box.y1_mm - RING_MM - 0.5;
    double pitch = fmin(PITCH_MM, (high - low) / fmax(1.0, (double)count)), least = low;
    double wide_mm = g->picture->width_mm,
           x_mm = left ? fmax(g->box.x0_mm + RING_MM + 0.5, g->at.x_mm - MARGIN_MM)
                       : fmin(g->box.x1_mm - RING_MM - 0.5, g->at.x_mm + wide_mm + MARGIN_MM);
    if (count > 0) qsort(rings, count, sizeof *rings, by_height);
    for (size_t i = 0; i < count; i++) {
        rings[i].y_mm = fmax(rings[i].at.y_mm, least);
        least = rings[i].y_mm + pitch;
    }
    for (size_t i = count; i-- > 0;) {
        rings[i].y_mm = fmin(rings[i].y_mm, high);
        high = rings[i].y_mm - pitch;
    }
    const pen_paint dot = {.fill = true, .fill_ink = look_dark(0.0)};
    for (size_t i = 0; i < count; i++) {
        sw_point c = {x_mm, rings[i].y_mm};
        const char *text = sw_text_format(run, run->scratch, "%zu", rings[i].number);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(g->pen, look_grey(0.1), c, rings[i].at);
        pen_circle(g->pen, &dot, rings[i].at, 0.35);
        card_circle(g->pen, c, fmin(RING_MM, pitch / 2.1), text);
    }
    return SW_OK;
}

/* Numbers of the seams this view shows; a seam no view shows stands where most of it would be. */
static sw_status numbers(sw_run *run, const stage *g, const scene *s, const choice *c, int view)
{
    size_t n = s->w.count, count = 0;
    ring *rings = SW_SCRATCH(run, n + 1, ring);
    if (rings == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        double share = c->shares[(size_t)c->views[view] * n + i];
        bool shown = share >= 0.3 || (share > 0.0 && share >= c->best[i]) || (c->best[i] <= 0.0 && view == 0);
        const sw_join_seam *seam = &s->join->seams[s->w.seams[i]];
        if (!shown || seam->count == 0) continue;
        rings[count++] = (ring){anchor(g, seam), 0.0, i + 1};
    }
    if (count > 0) qsort(rings, count, sizeof *rings, by_side);
    size_t half = (count + 1) / 2;
    SW_TRY(rings_beside(run, g, rings, half, true));
    return rings_beside(run, g, rings + half, count - half, false);
}

static const char *direction(sw_run *run, solid_view v)
{
    const char *side = fabs(v.towards_viewer.y_mm) >= fabs(v.towards_viewer.x_mm)
                           ? (v.towards_viewer.y_mm < 0 ? "front" : "rear")
                           : (v.towards_viewer.x_mm > 0 ? "right" : "left");
    bool corner = fabs(fabs(v.towards_viewer.x_mm) - fabs(v.towards_viewer.y_mm)) < 0.2;
    const char *beside = !corner ? "" : v.towards_viewer.x_mm > 0 ? " right" : " left";
    const char *level = v.towards_viewer.z_mm > 0.4 ? ", above" : v.towards_viewer.z_mm < -0.4 ? ", below" : "";
    return sw_text_format(run, run->scratch, "from the %s%s%s", side, beside, level);
}

static sw_status one_view(sw_run *run, const scene *s, const choice *c, int view, sw_pen *pen, sw_box box)
{
    const double words_mm = 4.0;
    const solid_wish wish = {box.x1_mm - box.x0_mm - 2.0 * MARGIN_MM, box.y1_mm - box.y0_mm - words_mm, 3.6, false};
    solid_view look = looks[c->views[view]];
    solid_picture picture;
    SW_TRY(solid_draw(run, s->parts, s->count, look, wish, &picture));
    stage g = {
        pen,
        box,
        {(box.x0_mm + box.x1_mm - picture.width_mm) / 2.0, box.y0_mm + (wish.height_mm - picture.height_mm) / 2.0},
        &picture};
    g.box.y1_mm -= words_mm;
    solid_show(pen, g.at, 1.0, &picture, 0.13);
    for (size_t i = 0; i < s->w.count; i++) SW_TRY(all_seam_lines(run, &g, &s->join->seams[s->w.seams[i]]));
    const char *words = direction(run, look);
    if (words == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){(box.x0_mm + box.x1_mm) / 2.0, box.y1_mm - 0.8}, look_type_grey(1.7, SW_CENTRE), words);
    return numbers(run, &g, s, c, view);
}

double weld_views_height_mm(const sw_join_body *b)
{
    double row_mm = b->span_mm > BODY_MM ? ONE_ROW_MM : LOW_MM;
    return views_most(b) > 2 ? 2.0 * row_mm + GAP_MM : row_mm;
}

static sw_status drawn(sw_run *run, const doc_book *doc, size_t body, sw_pen *pen, sw_box box)
{
    scene s;
    choice c;
    SW_TRY(scene_of(run, doc, body, &s));
    SW_TRY(chosen(run, &s, &c));
    int columns = c.count == 1 ? 1 : 2, rows = (c.count + 1) / 2;
    double wide_mm = (box.x1_mm - box.x0_mm - GAP_MM * (columns - 1)) / columns,
           high_mm = (box.y1_mm - box.y0_mm - GAP_MM * (rows - 1)) / fmax(rows, 1);
    for (int i = 0; i < c.count; i++) {
        int column = i % 2, row = i / 2;
        double x_mm = box.x0_mm + (wide_mm + GAP_MM) * column, y_mm = box.y0_mm + (high_mm + GAP_MM) * row;
        SW_TRY(one_view(run, &s, &c, i, pen, (sw_box){x_mm, y_mm, x_mm + wide_mm, y_mm + high_mm}));
    }
    return SW_OK;
}

sw_status draw_weld_views(sw_run *run, const doc_book *doc, size_t body, size_t unused, sw_pen *pen, sw_box box)
{
    (void)unused;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = drawn(run, doc, body, pen, box);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
