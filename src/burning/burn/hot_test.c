/* hot_test.c: the table of a hot test: what was burnt and moved when, and how hot each place was. */
#include "burning/burn/burn.h"

#include <math.h>
#include <string.h>

typedef struct reading {
    sw_run *run;
    const sw_scene *scene;
    sw_csv csv;
    size_t time, place, value; /* columns */
    sw_burn_event *events;
    sw_hot_reading *readings;
    size_t event_count, reading_count;
} reading;

static const char *const slides[] = {"primary slide", "wash slide", "rear slide"};
enum { SLIDES = 3, FIXED_NAMES = 6, DAY_MIN = 1440 };

static sw_status find_columns(reading *r)
{
    struct {
        const char *name;
        size_t *column;
    } wanted[] = {{"time_min", &r->time}, {"place", &r->place}, {"value", &r->value}};
    sw_status status = SW_OK;
    for (size_t i = 0; i < 3; i++) {
        *wanted[i].column = sw_csv_column(&r->csv, wanted[i].name);
        if (*wanted[i].column == SIZE_MAX)
            status = sw_fail(r->run, SW_BAD_INPUT, (sw_place){.file = r->csv.file, .line = 1}, wanted[i].name,
                             "is missing; the first line names time_min, place and value");
    }
    return status;
}

static size_t part_of(const sw_scene *scene, const char *name)
{
    for (size_t i = 0; i < scene->part_count; i++)
        if (strcmp(scene->parts[i].name, name) == 0) return i;
    return SIZE_MAX;
}

static sw_status unknown_place(reading *r, size_t row, const char *name)
{
    size_t count = r->scene->part_count + FIXED_NAMES, n = 0;
    const char **names = SW_SCRATCH(r->run, count, const char *);
    if (names == NULL) return SW_NO_MEMORY;
    names[n++] = "wood", names[n++] = "flue gas", names[n++] = "firebox gas";
    for (size_t i = 0; i < SLIDES; i++) names[n++] = slides[i];
    for (size_t i = 0; i < r->scene->part_count; i++) names[n++] = r->scene->parts[i].name;
    const char *near = sw_text_nearest(name, names, n);
    return sw_fail(r->run, SW_BAD_INPUT, sw_csv_place(&r->csv, row), "place",
                   "\"%s\" is no part of this stove, nor wood, flue gas, firebox gas or a slide%s%s", name,
                   near == NULL ? "" : "; did you mean ", near == NULL ? "" : near);
}

/* The event at that time, joined with the one before when it is the same. */
static sw_burn_event *event_at(reading *r, double time_s)
{
    if (r->event_count > 0 && r->events[r->event_count - 1].time_s == time_s) return &r->events[r->event_count - 1];
    sw_burn_event *e = &r->events[r->event_count++];
    *e = (sw_burn_event){time_s, 0, NAN, NAN, NAN};
    return e;
}

static sw_status take_event(reading *r, size_t row, double time_s, const char *name, bool *taken)
{
    double value = 0;
    *taken = true;
    if (strcmp(name, "wood") == 0) {
        SW_TRY(sw_csv_number(r->run, &r->csv, row, r->value, 0.01, 50, &value));
        event_at(r, time_s)->wood_kg += value;
        return SW_OK;
    }
    for (size_t i = 0; i < SLIDES; i++) {
        if (strcmp(name, slides[i]) != 0) continue;
        SW_TRY(sw_csv_number(r->run, &r->csv, row, r->value, 0, 1, &value));
        sw_burn_event *e = event_at(r, time_s);
        *(i == 0 ? &e->primary_share : i == 1 ? &e->wash_share : &e->rear_share) = value;
        return SW_OK;
    }
    *taken = false;
    return SW_OK;
}

static sw_status take_row(reading *r, size_t row, double *last_s)
{
    double minutes = 0, value = 0;
    const char *name = sw_csv_as_it_was(sw_csv_cell(&r->csv, row, r->place));
    SW_TRY(sw_csv_number(r->run, &r->csv, row, r->time, 0, 7 * DAY_MIN, &minutes));
    double time_s = sw_s_from_min(minutes);
    if (time_s < *last_s)
        return sw_fail(r->run, SW_BAD_INPUT, sw_csv_place(&r->csv, row), "time_min", "%g min goes back in time",
                       minutes);
    *last_s = time_s;
    bool taken = false;
    SW_TRY(take_event(r, row, time_s, name, &taken));
    if (taken) return SW_OK;
    size_t place = strcmp(name, "flue gas") == 0      ? SW_PLACE_FLUE
                   : strcmp(name, "firebox gas") == 0 ? SW_PLACE_FIREBOX
                                                      : part_of(r->scene, name);
    if (place == SIZE_MAX) return unknown_place(r, row, name);
    SW_TRY(sw_csv_number(r->run, &r->csv, row, r->value, -40, 1500, &value));
    r->readings[r->reading_count++] = (sw_hot_reading){time_s, sw_k_from_c(value), place};
    return SW_OK;
}

static sw_status take_rows(reading *r, double *last_s)
{
    sw_status worst = SW_OK;
    for (size_t row = 0; row < r->csv.row_count; row++) {
        sw_status status = take_row(r, row, last_s);
        if (status == SW_NO_MEMORY) return status;
        if (status != SW_OK) worst = status;
    }
    return worst;
}

sw_status sw_hot_test_read(sw_run *run, const char *file, const char *bytes, size_t length, const sw_scene *scene,
                           sw_hot_test *test)
{
    reading r = {.run = run, .scene = scene};
    double last_s = 0;
    *test = (sw_hot_test){0};
    SW_TRY(sw_csv_read(run, file, bytes, length, &r.csv));
    SW_TRY(find_columns(&r));
    r.events = SW_KEEP(run, r.csv.row_count + 1, sw_burn_event);
    r.readings = SW_KEEP(run, r.csv.row_count + 1, sw_hot_reading);
    if (r.events == NULL || r.readings == NULL) return SW_NO_MEMORY;
    SW_TRY(take_rows(&r, &last_s));
    bool lit = r.event_count > 0 && r.events[0].time_s == 0 && r.events[0].wood_kg > 0;
    if (!lit || r.reading_count == 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){.file = file}, "",
                       lit ? "holds no temperature" : "begins without wood; give time_min 0, place wood, its kg");
    *test = (sw_hot_test){r.events, r.event_count, r.readings, r.reading_count, last_s + 60};
    return SW_OK;
}
