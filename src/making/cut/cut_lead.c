/* cut_lead.c: where and how the beam enters a loop.
 *
 * Tried in this order, the first level with any clear lead-in wins and up to CUT_LEADS_MAX of it are kept: the full
 * lead length, then 3/4, 1/2 and 0.35 of it; for each a straight with a quarter arc, then a straight one; first away
 * from corners by that length, then anywhere. Small holes are entered straight from the centre. Loops with bridges
 * get straight ones only: an arc would run along the bridge and cut it. Practice of 90-degree arc lead-ins on the
 * scrap side: common practice, no source; the lengths are ours. */
#include "making/cut/cut_clear.h"

static const double shares[] = {1, 0.75, 0.5, 0.35};

/* Kinds of lead-in: arcs of each share of the lead length, straight ones of each, from the centre. */
enum { SHARES = sizeof shares / sizeof *shares, CENTRE = 2 * SHARES, KINDS };
enum { UNKNOWN, CLEAR, BLOCKED }; /* what is known of a lead-in beside its own piece */

typedef struct search {
    const cut_job *job;
    const cut_shape *shape;
    cut_track *track;
    const cut_near *near;
    sw_point by;     /* from the shape's frame to the sheet's */
    cut_lead *items; /* [CUT_LEADS_MAX] */
    cut_leads found;
} search;

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

static cut_lead centre_lead(const cut_track *track, const cut_station *s)
{
    cut_lead lead = lead_at(s);
    lead.start = track->centre;
    lead.length_mm = cut_distance(lead.start, s->at);
    return lead;
}

size_t cut_lead_moves(const cut_lead *lead, sw_point by, sw_move moves[2])
{
    sw_point start = cut_plus(lead->start, by), bend = cut_plus(lead->bend, by), touch = cut_plus(lead->touch, by);
    if (lead->radius_mm <= 0) {
        moves[0] = (sw_move){SW_MOVE_CUT, {start.x_mm, start.y_mm, 0}, touch};
        return 1;
    }
    moves[0] = (sw_move){SW_MOVE_CUT, {start.x_mm, start.y_mm, 0}, bend};
    moves[1] = (sw_move){SW_MOVE_CUT, {bend.x_mm, bend.y_mm, -tan(SW_PI / 8)}, touch};
    return 2;
}

/* ---- those with room ---- */

static double kind_length_mm(const cut_job *job, int kind)
{
    return job->lead_mm * shares[kind % SHARES];
}

static cut_lead make_lead(const search *s, int kind, const cut_station *station)
{
    if (kind == CENTRE) return centre_lead(s->track, station);
    double length_mm = kind_length_mm(s->job, kind);
    return kind < SHARES ? arc_lead(station, length_mm) : straight_lead(station, length_mm);
}

/* Copies of a piece ask the same of it: the answer is kept. */
static bool clear_of_own(search *s, int kind, size_t station, const cut_lead *lead)
{
    unsigned char *known = &s->track->tried[(size_t)kind * s->track->stations.count + station];
    if (*known == UNKNOWN) *known = cut_clear_of_own(s->job, s->shape, s->track, lead) ? CLEAR : BLOCKED;
    return *known == CLEAR;
}

static void keep_if_clear(search *s, int kind, size_t station)
{
    cut_lead lead = make_lead(s, kind, &s->track->stations.stations[station]);
    if (clear_of_own(s, kind, station, &lead) && cut_clear_of_others(s->near, &lead, s->by))
        s->items[s->found.count++] = lead;
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

/* One level: one kind, near corners or not. */
static void try_level(search *s, int kind, bool by_corners)
{
    const cut_stations *at = &s->track->stations;
    double length_mm = kind_length_mm(s->job, kind);
    size_t step = visiting_step(at->count);
    for (size_t i = 0; i < at->count && s->found.count < CUT_LEADS_MAX; i++) {
        size_t station = i * step % at->count;
        if (by_corners || at->stations[station].corner_mm >= length_mm) keep_if_clear(s, kind, station);
    }
    s->found.room_mm = length_mm;
    s->found.clear = s->found.count > 0;
}

/* From the centre to the points of the loop that are hardly farther than the nearest one. */
static void try_centre(search *s)
{
    const cut_stations *at = &s->track->stations;
    double nearest_mm = INFINITY;
    for (size_t i = 0; i < at->count; i++)
        nearest_mm = fmin(nearest_mm, cut_distance(at->stations[i].at, s->track->centre));
    size_t step = visiting_step(at->count);
    for (size_t i = 0; i < at->count && s->found.count < CUT_LEADS_MAX; i++) {
        size_t station = i * step % at->count;
        double length_mm = cut_distance(at->stations[station].at, s->track->centre);
        if (length_mm <= 1.2 * nearest_mm && length_mm >= SW_SHORTEST_MM) keep_if_clear(s, CENTRE, station);
    }
    s->found.room_mm = nearest_mm;
    s->found.clear = s->found.count > 0;
}

/* No lead-in has room: the shortest straight one, where it is least in the way. */
static void take_least_bad(search *s)
{
    const cut_stations *at = &s->track->stations;
    double best_mm = -INFINITY;
    for (size_t i = 0; i < at->count; i++) {
        cut_lead lead = make_lead(s, CENTRE - 1, &at->stations[i]);
        double room_mm = cut_start_room(s->near, s->shape, &lead, s->by);
        if (room_mm <= best_mm) continue;
        best_mm = room_mm;
        s->items[0] = lead;
        s->found.count = 1;
    }
    s->found.room_mm = 0;
}

static void try_all(search *s)
{
    if (s->track->small) try_centre(s);
    for (int corners = 0; corners < 2; corners++)
        for (int share = 0; share < SHARES; share++)
            for (int shape = s->track->held ? 1 : 0; shape < 2; shape++) {
                if (s->found.clear) return;
                try_level(s, shape * SHARES + share, corners == 1);
            }
    if (!s->found.clear) take_least_bad(s);
}

/* items[CUT_LEADS_MAX] becomes theirs. */
static void search_leads(const cut_near *near, const cut_loop *loop, cut_lead *items, cut_leads *leads)
{
    search s = {.job = near->job, .shape = near->job->places[loop->part].shape, .track = loop->track, .near = near};
    s.by = loop->by;
    s.items = items;
    try_all(&s);
    *leads = s.found;
    leads->items = items;
}

static sw_status leads_among_others(sw_run *run, const cut_near *near, cut_loop *loop)
{
    cut_lead *items = SW_SCRATCH(run, CUT_LEADS_MAX, cut_lead);
    if (items == NULL) return SW_NO_MEMORY;
    search_leads(near, loop, items, &loop->leads);
    return SW_OK;
}

/* Loops that have no other piece and no edge near share what was found for the first of their track. */
static void leads_alone(const cut_near *near, cut_loop *loop)
{
    cut_track *track = loop->track;
    if (!track->alone_known) search_leads(near, loop, track->alone_items, &track->alone);
    track->alone_known = true;
    loop->leads = track->alone;
}

/* The clear lead-in farthest along the loop from the given one: the two bridges hold best on opposite sides. */
static size_t opposite(const cut_loop *loop, size_t first)
{
    const cut_lead *items = loop->leads.items;
    size_t best = first;
    double best_mm = 0;
    for (size_t i = 0; i < loop->leads.count; i++) {
        double d = fabs(items[i].at_mm - items[first].at_mm);
        d = fmin(d, loop->track->length_mm - d);
        if (d <= best_mm) continue;
        best_mm = d;
        best = i;
    }
    return best_mm > loop->track->length_mm / 8 ? best : first;
}

void cut_choose_lead(cut_loop *loop, size_t chosen)
{
    loop->chosen = chosen;
    loop->second = loop->track->held ? opposite(loop, chosen) : chosen;
}

sw_status cut_track_leads(sw_run *run, cut_track *track)
{
    track->tried = SW_SCRATCH(run, KINDS * track->stations.count, unsigned char);
    track->alone_items = SW_SCRATCH(run, CUT_LEADS_MAX, cut_lead);
    if (track->tried == NULL || track->alone_items == NULL) return SW_NO_MEMORY;
    if (track->small) track->centre = sw_contour_centroid(track->path);
    return SW_OK;
}

sw_status cut_find_leads(sw_run *run, cut_job *job)
{
    cut_near near;
    SW_TRY(cut_near_make(run, job, &near));
    for (size_t i = 0; i < job->loop_count; i++) {
        cut_loop *loop = &job->loops[i];
        if (sw_run_cancelled(run))
            return sw_fail(run, SW_CANCELLED, (sw_place){0}, job->name, "stopped on request while planning the cut");
        cut_near_turn_to(&near, loop);
        if (cut_alone(&near))
            leads_alone(&near, loop);
        else
            SW_TRY(leads_among_others(run, &near, loop));
        cut_choose_lead(loop, 0);
    }
    return SW_OK;
}
