/* cut_lead.c: where and how the beam enters a loop.
 *
 * Tried in this order, the first level with any clear lead-in wins and up to CUT_LEADS_MAX of it are kept: the full
 * lead length, then 3/4, 1/2 and 0.35 of it; for each a straight with a quarter arc, then a straight one; first away
 * from corners by that length, then anywhere. Small holes are entered straight from the centre. Loops with bridges
 * get straight ones only: an arc would run along the bridge and cut it. Practice of 90-degree arc lead-ins on the
 * scrap side: common practice, no source; the lengths are ours. */
#include "making/cut/cut_clear.h"
#include "making/cut/cut_stations.h"

#include <math.h>

static const double shares[] = {1, 0.75, 0.5, 0.35};
enum { SHARES = sizeof shares / sizeof *shares };

static sw_point off(sw_point p, sw_point a, double by_a, sw_point b, double by_b)
{
    return (sw_point){p.x_mm + a.x_mm * by_a + b.x_mm * by_b, p.y_mm + a.y_mm * by_a + b.y_mm * by_b};
}

static cut_lead lead_at(const cut_station *s)
{
    return (cut_lead){.segment = s->segment, .t = s->t, .at_mm = s->at_mm, .touch = s->at};
}

static cut_lead straight_lead(const cut_station *s, double length_mm)
{
    cut_lead lead = lead_at(s);
    lead.length_mm = length_mm;
    lead.start = off(s->at, s->scrap, length_mm, s->along, 0);
    return lead;
}

/* Half the length straight towards the contour, then a quarter arc, clockwise, into its direction. */
static cut_lead arc_lead(const cut_station *s, double length_mm)
{
    cut_lead lead = lead_at(s);
    lead.length_mm = length_mm;
    lead.radius_mm = length_mm / 2;
    lead.bend = off(s->at, s->scrap, lead.radius_mm, s->along, -lead.radius_mm);
    lead.start = off(s->at, s->scrap, length_mm, s->along, -lead.radius_mm);
    return lead;
}

size_t cut_lead_moves(const cut_lead *lead, sw_move moves[2])
{
    sw_vertex start = {lead->start.x_mm, lead->start.y_mm, 0};
    if (lead->radius_mm <= 0) {
        moves[0] = (sw_move){SW_MOVE_CUT, start, lead->touch};
        return 1;
    }
    moves[0] = (sw_move){SW_MOVE_CUT, start, lead->bend};
    moves[1] = (sw_move){SW_MOVE_CUT, {lead->bend.x_mm, lead->bend.y_mm, -tan(SW_PI / 8)}, lead->touch};
    return 2;
}

static bool lead_clear(cut_near *near, const cut_lead *lead)
{
    cut_near_focus(near, lead->touch);
    if (!cut_on_scrap(near, lead->start)) return false;
    sw_move moves[2];
    size_t count = cut_lead_moves(lead, moves);
    for (size_t i = 0; i < count; i++)
        if (!cut_segment_clear(near, moves[i].from, moves[i].to)) return false;
    return true;
}

static void keep_lead(cut_loop *loop, cut_lead lead)
{
    if (loop->lead_count < CUT_LEADS_MAX) loop->leads[loop->lead_count++] = lead;
}

static size_t common_divisor(size_t a, size_t b)
{
    return b == 0 ? a : common_divisor(b, a % b);
}

/* A step that visits every one of count stations, far from the last ones each time (about the golden section), so that
 * the first clear ones found lie all round the loop. */
static size_t visiting_step(size_t count)
{
    size_t step = 1 + count * 3 / 8;
    while (common_divisor(step, count) != 1) step++;
    return step;
}

/* One level: one length, one shape, near corners or not. */
static void try_level(cut_near *near, const cut_stations *s, double length_mm, bool arc, bool by_corners,
                      cut_loop *loop)
{
    size_t step = visiting_step(s->count);
    for (size_t i = 0; i < s->count && loop->lead_count < CUT_LEADS_MAX; i++) {
        const cut_station *station = &s->stations[i * step % s->count];
        if (!by_corners && station->corner_mm < length_mm) continue;
        cut_lead lead = arc ? arc_lead(station, length_mm) : straight_lead(station, length_mm);
        if (lead_clear(near, &lead)) keep_lead(loop, lead);
    }
    loop->room_mm = length_mm;
    loop->clear = loop->lead_count > 0;
}

/* From the centre to the points of the loop that are hardly farther than the nearest one. */
static void try_centre(cut_near *near, const cut_stations *s, cut_loop *loop)
{
    sw_point centre = sw_contour_centroid(loop->path);
    double nearest_mm = INFINITY;
    for (size_t i = 0; i < s->count; i++)
        nearest_mm =
            fmin(nearest_mm, hypot(s->stations[i].at.x_mm - centre.x_mm, s->stations[i].at.y_mm - centre.y_mm));
    size_t step = visiting_step(s->count);
    for (size_t i = 0; i < s->count && loop->lead_count < CUT_LEADS_MAX; i++) {
        const cut_station *station = &s->stations[i * step % s->count];
        cut_lead lead = lead_at(station);
        lead.start = centre;
        lead.length_mm = hypot(station->at.x_mm - centre.x_mm, station->at.y_mm - centre.y_mm);
        if (lead.length_mm > 1.2 * nearest_mm || lead.length_mm < SW_SHORTEST_MM || !lead_clear(near, &lead)) continue;
        keep_lead(loop, lead);
    }
    loop->room_mm = nearest_mm;
    loop->clear = loop->lead_count > 0;
}

/* No lead-in has room: the shortest straight one, where it is least in the way. */
static void take_least_bad(cut_near *near, const cut_stations *s, double length_mm, cut_loop *loop)
{
    double best_mm = -INFINITY;
    for (size_t i = 0; i < s->count; i++) {
        cut_lead lead = straight_lead(&s->stations[i], length_mm);
        cut_near_focus(near, lead.touch);
        double clear_mm = cut_clearance(near, lead.start);
        if (!cut_on_scrap(near, lead.start)) clear_mm = -length_mm - fabs(clear_mm);
        if (clear_mm <= best_mm) continue;
        best_mm = clear_mm;
        loop->leads[0] = lead;
        loop->lead_count = 1;
    }
    loop->room_mm = 0;
    loop->clear = false;
}

static void try_all(const cut_job *job, cut_near *near, const cut_stations *s, cut_loop *loop)
{
    if (loop->small) try_centre(near, s, loop);
    for (int corners = 0; corners < 2; corners++)
        for (size_t k = 0; k < SHARES; k++)
            for (int shape = loop->held ? 1 : 0; shape < 2; shape++) {
                if (loop->clear) return;
                try_level(near, s, job->lead_mm * shares[k], shape == 0, corners == 1, loop);
            }
    if (!loop->clear) take_least_bad(near, s, job->lead_mm * shares[SHARES - 1], loop);
}

/* The clear lead-in farthest along the loop from the given one: the two bridges hold best on opposite sides. */
static size_t opposite(const cut_loop *loop, size_t first)
{
    size_t best = first;
    double best_mm = 0;
    for (size_t i = 0; i < loop->lead_count; i++) {
        double d = fabs(loop->leads[i].at_mm - loop->leads[first].at_mm);
        d = fmin(d, loop->length_mm - d);
        if (d <= best_mm) continue;
        best_mm = d;
        best = i;
    }
    return best_mm > loop->length_mm / 8 ? best : first;
}

void cut_choose_lead(cut_loop *loop, size_t chosen)
{
    loop->chosen = chosen;
    loop->second = loop->held ? opposite(loop, chosen) : chosen;
}

static sw_status loop_leads(sw_run *run, const cut_job *job, const cut_edges *edges, cut_loop *loop)
{
    cut_stations stations;
    cut_near near;
    SW_TRY(cut_stations_make(run, loop->path, job->lead_mm, &stations));
    SW_TRY(cut_near_make(run, job, edges, loop, &near));
    try_all(job, &near, &stations, loop);
    cut_choose_lead(loop, 0);
    return SW_OK;
}

sw_status cut_leads(sw_run *run, cut_job *job)
{
    cut_edges edges;
    SW_TRY(cut_edges_make(run, job, &edges));
    for (size_t i = 0; i < job->loop_count; i++) {
        cut_loop *loop = &job->loops[i];
        if (sw_run_cancelled(run))
            return sw_fail(run, SW_CANCELLED, (sw_place){0}, job->name, "stopped on request while planning the cut");
        loop->leads = SW_SCRATCH(run, CUT_LEADS_MAX, cut_lead);
        if (loop->leads == NULL) return SW_NO_MEMORY;
        size_t mark = sw_arena_mark(run->scratch);
        sw_status status = loop_leads(run, job, &edges, loop);
        sw_arena_rewind(run->scratch, mark);
        if (status != SW_OK) return status;
    }
    return SW_OK;
}
