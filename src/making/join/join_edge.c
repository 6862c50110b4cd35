/* join_edge.c: an edge that runs on into a rolled zone is one edge: a collar is named by its short flat end but welded all
 * round. */
#include "making/join/join_parts.h"

#include <string.h>

enum { EDGES_MAX = 16 }; /* of one chain */

static bool rolled(const sw_piece *p, size_t edge)
{
    size_t zone = p->edges[edge].zone;
    return zone > 0 && p->bends[zone - 1].kind == SW_ROLLED;
}

static sw_vec3 way_at(const sw_folded_edge *e, bool end)
{
    size_t i = end ? e->count - 2 : 0;
    return sw_vec3_unit(sw_vec3_sub(e->points[i + 1], e->points[i]));
}

/* Whether `next` begins where `edge` ends, without a corner. */
static bool goes_on(const sw_folded_edge *edge, const sw_folded_edge *next)
{
    if (edge->count < 2 || next->count < 2) return false;
    return join_apart(edge->points[edge->count - 1], next->points[0]) < SW_SHORTEST_MM &&
           sw_vec3_dot(way_at(edge, true), way_at(next, false)) > 0.9;
}

static bool among(const size_t *chain, size_t count, size_t edge)
{
    for (size_t i = 0; i < count; i++)
        if (chain[i] == edge) return true;
    return false;
}

/* The edge after (or before) one end of the chain; SIZE_MAX = none. */
static size_t neighbour(const sw_sheet_piece *piece, const size_t *chain, size_t count, bool after)
{
    const sw_piece *p = piece->piece;
    size_t end = after ? chain[count - 1] : chain[0];
    for (size_t e = 0; e < p->edge_count; e++) {
        if (among(chain, count, e) || p->edges[e].hole > 0 || (!rolled(p, e) && !rolled(p, end))) continue;
        const sw_folded_edge *edges = piece->solid.edges;
        if (after ? goes_on(&edges[end], &edges[e]) : goes_on(&edges[e], &edges[end])) return e;
    }
    return SIZE_MAX;
}

static size_t chain_of(const sw_sheet_piece *piece, size_t edge, size_t chain[EDGES_MAX])
{
    size_t count = 1;
    chain[0] = edge;
    for (int after = 1; after >= 0; after--)
        while (count < EDGES_MAX) {
            size_t next = neighbour(piece, chain, count, after != 0);
            if (next == SIZE_MAX) break;
            if (!after) memmove(&chain[1], &chain[0], count * sizeof *chain);
            chain[after ? count : 0] = next;
            count++;
        }
    return count;
}

sw_status join_whole_edge(sw_run *run, const sw_sheet_piece *piece, size_t edge, sw_folded_edge *out)
{
    size_t chain[EDGES_MAX], n = 0, most = 0;
    *out = piece->solid.edges[edge];
    if (piece->piece->edges[edge].hole > 0) return SW_OK;
    size_t count = chain_of(piece, edge, chain);
    if (count == 1) return SW_OK;
    for (size_t i = 0; i < count; i++) most += piece->solid.edges[chain[i]].count;
    sw_vec3 *points = SW_SCRATCH(run, most, sw_vec3), *normals = SW_SCRATCH(run, most, sw_vec3);
    if (points == NULL || normals == NULL) return SW_NO_MEMORY;
    out->length_mm = 0;
    for (size_t i = 0; i < count; i++) {
        const sw_folded_edge *e = &piece->solid.edges[chain[i]];
        for (size_t k = i == 0 ? 0 : 1; k < e->count; k++, n++) {
            points[n] = e->points[k];
            normals[n] = e->normals[k];
        }
        out->length_mm += e->length_mm;
    }
    out->points = points;
    out->normals = normals;
    out->count = n;
    return SW_OK;
}
