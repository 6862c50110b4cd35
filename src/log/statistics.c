/* statistics.c: what many records say together. Only records that hold are counted. */
#include "log/log_parts.h"

#include <math.h>
#include <string.h>

typedef sw_status take_row(void *context, sqlite3_stmt *s);

static sw_status each_row(sw_run *run, sw_log *log, const char *sql, take_row *take, void *context)
{
    sqlite3_stmt *s = NULL;
    SW_TRY(log_prepare(run, log, sql, &s));
    sw_status status = SW_OK;
    int code = SQLITE_ROW;
    while (status == SW_OK && (code = sqlite3_step(s)) == SQLITE_ROW) status = take(context, s);
    (void)sqlite3_finalize(s);
    return status != SW_OK || code == SQLITE_DONE ? status : log_fail(run, log, code);
}

static const char *text_at(sqlite3_stmt *s, int column)
{
    const char *text = (const char *)sqlite3_column_text(s, column);
    return text == NULL ? "" : text;
}

static const char *keep(sw_run *run, sqlite3_stmt *s, int column)
{
    return sw_text_copy(run, run->keep, text_at(s, column));
}

/* ---- capability -------------------------------------------------------------------------- */

typedef struct capability {
    sw_run *run;
    sw_log_capability *items;
    size_t count, room;
    double squares; /* sum of (x - mean)^2 of the last item, Welford 1962 */
} capability;

static double limit_at(sqlite3_stmt *s, int column)
{
    return sqlite3_column_type(s, column) == SQLITE_NULL ? (double)NAN : sqlite3_column_double(s, column);
}

static bool is_same(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool belongs(const sw_log_capability *c, sqlite3_stmt *s)
{
    return strcmp(c->feature, text_at(s, 0)) == 0 && strcmp(c->batch, text_at(s, 1)) == 0 &&
           is_same(c->low, limit_at(s, 3)) && is_same(c->high, limit_at(s, 4)) && strcmp(c->unit, text_at(s, 5)) == 0;
}

static void close_item(capability *c)
{
    if (c->count == 0) return;
    sw_log_capability *last = &c->items[c->count - 1];
    last->cpk = (double)NAN;
    last->sigma = last->count > 1 ? sqrt(c->squares / (double)(last->count - 1)) : (double)NAN;
    if (!(last->sigma > 0)) return;
    /* fmin passes over a side without limit */
    last->cpk = fmin(last->high - last->mean, last->mean - last->low) / (3 * last->sigma);
}

static sw_status open_item(capability *c, sqlite3_stmt *s)
{
    close_item(c);
    sw_log_capability *items = sw_grow(c->run, c->run->keep, c->items, c->count, &c->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    c->items = items;
    c->squares = 0;
    sw_log_capability *item = &items[c->count];
    *item = (sw_log_capability){.feature = keep(c->run, s, 0), .batch = keep(c->run, s, 1), .unit = keep(c->run, s, 5)};
    item->low = limit_at(s, 3);
    item->high = limit_at(s, 4);
    if (item->feature == NULL || item->batch == NULL || item->unit == NULL) return SW_NO_MEMORY;
    c->count++;
    return SW_OK;
}

static sw_status take_reading(void *context, sqlite3_stmt *s)
{
    capability *c = context;
    if (c->count == 0 || !belongs(&c->items[c->count - 1], s)) SW_TRY(open_item(c, s));
    sw_log_capability *item = &c->items[c->count - 1];
    double value = sqlite3_column_double(s, 2), off = value - item->mean;
    item->count++;
    item->mean += off / (double)item->count;
    c->squares += off * (value - item->mean);
    item->outside += value < item->low || value > item->high ? 1 : 0;
    return SW_OK;
}

static const char capability_sql[] =
    "SELECT i.\"feature\",s.\"batch\",i.\"value\",i.\"low\",i.\"high\",i.\"unit\" FROM \"inspection\" i JOIN \"serial\" s "
    "ON s.\"number\"=i.\"serial\" WHERE " LOG_HOLDS("inspection", "i") " AND " LOG_HOLDS(
        "serial", "s") " ORDER BY i.\"feature\",s.\"batch\",i.\"low\",i.\"high\",i.\"unit\",i.\"id\"";

/* ---- scrap and time ------------------------------------------------------------------------ */

typedef struct sums {
    sw_run *run;
    sw_log_statistics *out;
    sw_log_scrap *scrap;
    sw_log_pace *pace;
    size_t room;
} sums;

static sw_status take_scrap(void *context, sqlite3_stmt *s)
{
    sums *t = context;
    t->scrap = sw_grow(t->run, t->run->keep, t->scrap, t->out->scrap_count, &t->room, sizeof *t->scrap);
    if (t->scrap == NULL) return SW_NO_MEMORY;
    sw_log_scrap *item = &t->scrap[t->out->scrap_count++];
    *item = (sw_log_scrap){.sheet_kg = sqlite3_column_double(s, 1), .scrap_kg = sqlite3_column_double(s, 2)};
    const char *month = (const char *)sqlite3_column_text(s, 0);
    if (month != NULL) (void)strncpy(item->month, month, sizeof item->month - 1);
    return SW_OK;
}

static sw_status take_pace(void *context, sqlite3_stmt *s)
{
    sums *t = context;
    t->pace = sw_grow(t->run, t->run->keep, t->pace, t->out->pace_count, &t->room, sizeof *t->pace);
    if (t->pace == NULL) return SW_NO_MEMORY;
    sw_log_pace *item = &t->pace[t->out->pace_count++];
    *item = (sw_log_pace){.operation = keep(t->run, s, 0), .count = (size_t)sqlite3_column_int64(s, 1)};
    item->planned_s = sqlite3_column_double(s, 2);
    item->actual_s = sqlite3_column_double(s, 3);
    return item->operation == NULL ? SW_NO_MEMORY : SW_OK;
}

static const char scrap_sql[] =
    "SELECT strftime('%Y-%m',c.\"at\"/1000,'unixepoch') AS m,sum(c.\"sheet_kg\"),sum(c.\"scrap_kg\") FROM \"cutting\" c "
    "WHERE " LOG_HOLDS("cutting", "c") " GROUP BY m ORDER BY m";
static const char pace_sql[] =
    "SELECT w.\"operation\",count(*),sum(w.\"planned_s\"),sum(w.\"actual_s\") FROM \"work\" w WHERE " LOG_HOLDS(
        "work", "w") " AND w.\"planned_s\" NOT NULL GROUP BY w.\"operation\" ORDER BY w.\"operation\"";

static sw_status reckon_all(sw_run *run, sw_log *log, sw_log_statistics *statistics)
{
    capability c = {.run = run};
    sums t = {.run = run, .out = statistics};
    SW_TRY(each_row(run, log, capability_sql, take_reading, &c));
    close_item(&c);
    SW_TRY(each_row(run, log, scrap_sql, take_scrap, &t));
    t.room = 0;
    SW_TRY(each_row(run, log, pace_sql, take_pace, &t));
    statistics->capability = c.items;
    statistics->capability_count = c.count;
    statistics->scrap = t.scrap;
    statistics->pace = t.pace;
    return SW_OK;
}

sw_status sw_log_reckon(sw_run *run, sw_log *log, sw_log_statistics *statistics)
{
    *statistics = (sw_log_statistics){0};
    SW_TRY(log_do(run, log, "BEGIN"));
    sw_status status = reckon_all(run, log, statistics);
    (void)sqlite3_exec(log->db, "ROLLBACK", NULL, NULL, NULL);
    return status;
}
