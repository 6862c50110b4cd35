/* join_smooth.c: how the torch stands along a seam, with few changes. Going along, and back, a new attitude was taken where
 * the last one met something; of all these each place has some that are free. From the first place on the one that goes
 * farthest is taken, again and again: no other choice among them has fewer changes (derived: intervals). */
#include "making/join/join_access_parts.h"

enum { MOST = 12 }; /* ours: attitudes compared */

typedef struct choice {
    join_attitude all[MOST];
    size_t count;
} choice;

static bool same(join_attitude a, join_attitude b)
{
    return a.tilt == b.tilt && a.turn == b.turn;
}

static void note(choice *c, join_attitude at)
{
    for (size_t i = 0; i < c->count; i++)
        if (same(c->all[i], at)) return;
    if (c->count < MOST) c->all[c->count++] = at;
}

static size_t changes(const join_look *r)
{
    size_t count = 0;
    for (size_t i = 1; i < r->place_count; i++) count += !same(r->places[i].at, r->places[i - 1].at);
    return count;
}

/* Backwards from what the last place has: where it meets something, what the place has is taken. */
static void note_back(join_look *r, choice *c)
{
    join_attitude at = r->places[r->place_count - 1].at;
    for (size_t i = r->place_count; i-- > 0;) {
        if (!join_stands(r, r->places[i].point, at)) at = r->places[i].at;
        note(c, at);
    }
}

/* How many places from `first` on it is free at. */
static size_t goes(join_look *r, size_t first, join_attitude at)
{
    size_t i = first;
    while (i < r->place_count && join_stands(r, r->places[i].point, at)) i++;
    return i - first;
}

void join_smooth(join_look *r)
{
    choice c = {.count = 0};
    if (changes(r) == 0) return;
    for (size_t i = 0; i < r->place_count; i++) note(&c, r->places[i].at);
    note_back(r, &c);
    for (size_t first = 0; first < r->place_count;) {
        join_attitude best = r->places[first].at;
        size_t most = goes(r, first, best); /* 1 at least: it was found there */
        for (size_t k = 0; k < c.count && first + most < r->place_count; k++) {
            size_t far = goes(r, first, c.all[k]);
            if (far > most) best = c.all[k];
            if (far > most) most = far;
        }
        for (size_t i = first; i < first + most; i++) {
            r->places[i].at = best;
            join_stand(r, r->places[i].point, best);
        }
        first += most;
    }
    r->at = r->places[r->place_count - 1].at;
}
