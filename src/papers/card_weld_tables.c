/* card_weld_tables.c: the tables of a body's welding card: setting up and tacks, seams, the robot's steps, notes, leak
 * points. */
#include "papers/cards_parts.h"
#include "papers/sheets_parts.h"

#include <math.h>
#include <string.h>

typedef struct job {
    doc_book *doc;
    const sw_join_result *join;
    const weld_body *w;
} job;

static const sw_join_seam *seam_at(const job *j, size_t order)
{
    return &j->join->seams[j->w->seams[order]];
}

/* Place of a seam in the order of welding, from 1. */
static size_t order_of(const job *j, size_t seam)
{
    for (size_t i = 0; i < j->w->count; i++)
        if (j->w->seams[i] == seam) return i + 1;
    return 0;
}

static const char *count_words(sw_run *run, size_t n)
{
    return sw_text_format(run, run->scratch, "%zu", n);
}

/* ---- setting up and tacks -------------------------------------------------------------------------------------- */

static sw_status set_up(sw_run *run, const job *j)
{
    const sw_join_body *b = j->w->body;
    const sw_stove *stove = j->doc->d->model.stove;
    const char *text = "Set up in this order: ";
    for (size_t i = 0, same = 1; i < b->piece_count && text != NULL; i += same) {
        const sw_piece *p = &stove->pieces[b->pieces[i]];
        for (same = 1; i + same < b->piece_count && b->pieces[i + same] == b->pieces[i]; same++) {}
        const char *times = same == 1 ? "" : sw_text_format(run, run->scratch, "%zu \xc3\x97 ", same);
        if (times == NULL) return SW_NO_MEMORY;
        text = sw_text_format(run, run->scratch, "%s%s%s%s %s", text, i == 0 ? "" : "; ", times, p->number, p->name);
    }
    if (text != NULL) text = sw_text_format(run, run->scratch, "%s.", text);
    return doc_paragraph(run, j->doc, text);
}

enum { TACKS_BESIDE = 3, TACK_CELLS = 4 };

static sw_status tack_cells(sw_run *run, const job *j, size_t index, const char **cells)
{
    const sw_join_body *b = j->w->body;
    for (int i = 0; i < TACK_CELLS; i++) cells[i] = "";
    if (index >= b->tack_count) return SW_OK;
    const sw_join_tack *t = &b->tacks[index];
    const char *length = words_number(run, t->length_mm, 0);
    if (length == NULL) return SW_NO_MEMORY;
    cells[0] = count_words(run, index + 1);
    cells[1] = count_words(run, order_of(j, t->seam));
    cells[2] = sheet_place(run, t->at);
    cells[3] =
        t->side == 0 ? length : sw_text_format(run, run->scratch, "%s %s", length, t->side > 0 ? "+" : "\xe2\x88\x92");
    return SW_OK;
}

static sw_status tacks(sw_run *run, const job *j)
{
    static const doc_column columns[TACKS_BESIDE * TACK_CELLS] = {
        {"tack", 0.7, SW_LEFT}, {"seam", 0.7, SW_LEFT}, {"at x, y, z, mm", 2.4, SW_LEFT}, {"long", 0.9, SW_LEFT},
        {"tack", 0.7, SW_LEFT}, {"seam", 0.7, SW_LEFT}, {"at x, y, z, mm", 2.4, SW_LEFT}, {"long", 0.9, SW_LEFT},
        {"tack", 0.7, SW_LEFT}, {"seam", 0.7, SW_LEFT}, {"at x, y, z, mm", 2.4, SW_LEFT}, {"long", 0.9, SW_LEFT}};
    size_t n = j->w->body->tack_count, rows = (n + TACKS_BESIDE - 1) / TACKS_BESIDE;
    doc_table table = {.columns = columns, .column_count = TACKS_BESIDE * TACK_CELLS, .dense = true};
    for (size_t i = 0; i < rows; i++) {
        const char *cells[TACKS_BESIDE * TACK_CELLS];
        for (size_t k = 0; k < TACKS_BESIDE; k++) SW_TRY(tack_cells(run, j, i + k * rows, cells + k * TACK_CELLS));
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, j->doc, 2, "Setting up and tacks"));
    SW_TRY(set_up(run, j));
    return doc_put_table(run, j->doc, &table);
}

/* ---- seams ----------------------------------------------------------------------------------------------------------- */

static const char *kind_words(sw_run *run, const sw_join_seam *s)
{
    const char *throat = words_number(run, s->throat_mm, 2);
    if (throat == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s a%s%s", sw_seam_kind_name(s->kind), throat,
                          s->joint->tight ? ", tight" : "");
}

static const char *settings_words(sw_run *run, const sw_join_seam *s)
{
    const sw_weld_row *r = s->row;
    if (r == NULL) return "none in the works";
    return sw_text_format(run, run->scratch, "\xc3\xb8%.1f, %.1f m/min, %.1f V, %.0f A", r->wire_mm,
                          r->feed_m_s * sw_s_from_min(1), r->volts, r->amps);
}

static const char *shrink_words(sw_run *run, const sw_join_seam *s)
{
    const char *across = words_number(run, s->transverse_mm, 2), *along = words_number(run, s->along_mm, 2),
               *rise = words_number(run, s->rise_mm, 1);
    if (across == NULL || along == NULL || rise == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s / %s / %s", across, along, rise);
}

static sw_status seam_row(sw_run *run, const job *j, doc_table *table, size_t i)
{
    const sw_join_seam *s = seam_at(j, i);
    const char *const cells[] = {count_words(run, i + 1),
                                 count_words(run, s->number),
                                 s->joint->name,
                                 kind_words(run, s),
                                 words_number(run, s->weld_mm, 0),
                                 count_words(run, s->stretch_count),
                                 sw_join_station_name(s->station),
                                 settings_words(run, s),
                                 words_number(run, s->travel_mm_s, 1),
                                 words_number(run, s->heat_kj_mm, 3),
                                 shrink_words(run, s)};
    return doc_row(run, table, cells);
}

static sw_status seams(sw_run *run, const job *j)
{
    static const doc_column columns[] = {{"order", 0.8, SW_LEFT},
                                         {"seam", 0.8, SW_LEFT},
                                         {"joint", 2.7, SW_LEFT},
                                         {"kind, throat", 1.9, SW_LEFT},
                                         {"mm", 0.7, SW_RIGHT},
                                         {"arcs", 0.6, SW_RIGHT},
                                         {"by", 0.8, SW_LEFT},
                                         {"wire, feed, voltage, current", 3.2, SW_LEFT},
                                         {"travel, mm/s", 0.8, SW_RIGHT},
                                         {"heat, kJ/mm", 0.8, SW_RIGHT},
                                         {"across / along / rise, mm", 1.6, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 11, .dense = true};
    for (size_t i = 0; i < j->w->count; i++) SW_TRY(seam_row(run, j, &table, i));
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, j->doc, 2, "Seams in the order of welding"));
    SW_TRY(doc_put_table(run, j->doc, &table));
    return doc_paragraph(
        run, j->doc,
        "Shrinkage across and along the seam and the rise of the free edge are estimates, \xc2\xb1 50 %: "
        "check by measuring the first body. A + or \xe2\x88\x92 behind a tack tells the side of the sheet.");
}

/* ---- the robot ------------------------------------------------------------------------------------------------------- */

/* "z", "-x", "-y and z": what points up. */
static const char *up_words(sw_run *run, sw_vec3 up)
{
    const double xyz[3] = {up.x_mm, up.y_mm, up.z_mm};
    static const char *const names[2][3] = {{"x", "y", "z"}, {"\xe2\x88\x92x", "\xe2\x88\x92y", "\xe2\x88\x92z"}};
    const char *text = "";
    for (int i = 0; i < 3 && text != NULL; i++) {
        if (fabs(xyz[i]) < 0.3) continue;
        text = sw_text_format(run, run->scratch, "%s%s%s", text, text[0] == '\0' ? "" : " and ", names[xyz[i] < 0][i]);
    }
    return text;
}

static sw_status robot(sw_run *run, const job *j)
{
    static const doc_column columns[] = {{"step", 0.7, SW_LEFT},
                                         {"joint", 3.4, SW_LEFT},
                                         {"positioner", 1.2, SW_LEFT},
                                         {"up", 1.3, SW_LEFT},
                                         {"way", 1.3, SW_LEFT},
                                         {"air, mm", 0.9, SW_RIGHT},
                                         {"arc and starts", 1.2, SW_RIGHT},
                                         {"pull to one side, %", 1.2, SW_RIGHT}};
    const sw_join_body *b = j->w->body;
    doc_table table = {.columns = columns, .column_count = 8, .dense = true};
    for (size_t i = 0; i < b->robot_count; i++) {
        const sw_join_step *s = &b->robot[i];
        const char *const cells[] = {
            count_words(run, i + 1),          j->join->seams[s->seam].joint->name,     s->turned ? "turn" : "",
            up_words(run, sw_join_up(s->up)), s->backwards ? "backwards" : "forwards", words_number(run, s->air_mm, 0),
            words_time(run, s->weld_s),       words_number(run, 100.0 * s->pull, 0)};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, j->doc, 2, "The robot's steps"));
    const char *clamp = words_time(run, b->fixture_s), *arc = words_time(run, b->robot_arc_s),
               *starts = words_time(run, b->starts_s), *air = words_time(run, b->air_s),
               *turns = words_time(run, b->turns_s);
    if (clamp == NULL || arc == NULL || starts == NULL || air == NULL || turns == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_paragraph(
        run, j->doc,
        sw_text_format(run, run->scratch,
                       "Load and clamp %s, arc %s, %zu starts %s, air moves %s, %zu turns %s. Axes are the stove's.",
                       clamp, arc, b->starts, starts, air, b->turns, turns)));
    return doc_put_table(run, j->doc, &table);
}

/* ---- notes and leak points --------------------------------------------------------------------------------------------- */

static bool has_robot(const job *j)
{
    const sw_works *works = j->doc->d->model.works;
    return works != NULL && works->welding.robot;
}

static sw_status notes_of(sw_run *run, const job *j, doc_table *table, size_t i)
{
    const sw_join_seam *s = seam_at(j, i);
    const char *const seam = sw_text_format(run, run->scratch, "%zu %s", i + 1, s->joint->name);
    if (s->ahead_of[0] != '\0') {
        const char *const cells[] = {seam,
                                     sw_text_format(run, run->scratch, "weld before %s is in place", s->ahead_of)};
        SW_TRY(doc_row(run, table, cells));
    }
    if (s->station == SW_JOIN_HAND && s->why[0] != '\0' && has_robot(j)) {
        const char *const cells[] = {seam, sw_text_format(run, run->scratch, "by hand: %s", s->why)};
        SW_TRY(doc_row(run, table, cells));
    }
    if (s->reached) return SW_OK;
    const char *const cells[] = {seam, sw_text_format(run, run->scratch, "no torch reaches %.0f mm: %s is in the way",
                                                      s->blocked_mm, s->in_the_way)};
    return doc_row(run, table, cells);
}

static sw_status notes(sw_run *run, const job *j)
{
    static const doc_column columns[] = {{"seam", 1.0, SW_LEFT}, {"note", 2.6, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 2, .dense = true};
    for (size_t i = 0; i < j->w->count; i++) SW_TRY(notes_of(run, j, &table, i));
    if (!has_robot(j)) SW_TRY(doc_paragraph(run, j->doc, "All seams by hand: the works have no robot."));
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, j->doc, 2, "Mind at these seams"));
    return doc_put_table(run, j->doc, &table);
}

static const char *points_of(sw_run *run, const job *j, size_t seam)
{
    const char *text = "";
    for (size_t i = 0; i < j->join->leak_count && text != NULL; i++) {
        const sw_join_leak_point *p = &j->join->leaks[i];
        if (p->seam != seam) continue;
        const char *at = sheet_place(run, p->at);
        text = at == NULL
                   ? NULL
                   : sw_text_format(run, run->scratch, "%s%s%s (%s)", text, text[0] == '\0' ? "" : "; ", p->what, at);
    }
    return text;
}

static sw_status leaks(sw_run *run, const job *j)
{
    static const doc_column columns[] = {{"seam", 1.0, SW_LEFT},
                                         {"look here with smoke or soap, x, y, z mm", 2.6, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 2, .dense = true};
    for (size_t i = 0; i < j->w->count; i++) {
        const char *points = points_of(run, j, j->w->seams[i]);
        if (points == NULL) return SW_NO_MEMORY;
        if (points[0] == '\0') continue;
        const char *const cells[] = {sw_text_format(run, run->scratch, "%zu %s", i + 1, seam_at(j, i)->joint->name),
                                     points};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, j->doc, 2, "Leak test"));
    return doc_put_table(run, j->doc, &table);
}

sw_status weld_tables(sw_run *run, doc_book *doc, const weld_body *w)
{
    const job j = {doc, doc->d->shop.join, w};
    SW_TRY(tacks(run, &j));
    SW_TRY(seams(run, &j));
    SW_TRY(robot(run, &j));
    SW_TRY(notes(run, &j));
    return leaks(run, &j);
}
