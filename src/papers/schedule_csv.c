/* schedule_csv.c: the schedule as CSV (RFC 4180: commas, CRLF, quotes doubled), UTF-8, one line a bar of the chart. */
#include "papers/shop_parts.h"

#include <math.h>

static void field(sw_writer *w, const char *text)
{
    sw_csv_write_text(w, text);
    sw_write_text(w, ",");
}

/* Day of work from 1 and the time worked in it; an end at closing time belongs to its day. */
static void clock_field(sw_writer *w, double s, double day_s, bool end)
{
    double whole = floor(s + 0.5), day = floor(whole / day_s);
    if (end && day > 0 && whole - day * day_s < 0.5) day -= 1;
    double left = whole - day * day_s, hours = floor(sw_h_from_s(left)),
           minutes = floor(sw_min_from_s(left - sw_s_from_h(hours)));
    sw_print(w, "%.0f %02.0f:%02.0f:%02.0f,", day + 1, hours, minutes,
             left - sw_s_from_h(hours) - sw_s_from_min(minutes));
}

static void write_all(sw_writer *w, const sw_dossier *d)
{
    const sw_line_input *in = d->shop.line_in;
    const sw_line_plan *p = d->shop.line->plan;
    double day_s = schedule_day_s(d);
    sw_print(w, "station,machine,task,part,stove,stoves,start,end,start_s,run_from_s,end_s\r\n");
    for (size_t i = 0; i < p->bar_count; i++) {
        const sw_line_bar *b = &p->bars[i];
        field(w, d->shop.line->loads[b->station].station);
        sw_print(w, "%zu,", b->machine + 1);
        field(w, in->tasks[b->task].name);
        field(w, in->tasks[b->task].part);
        sw_print(w, "%zu,%zu,", b->stove + 1, b->stoves);
        clock_field(w, b->start_s, day_s, false);
        clock_field(w, b->end_s, day_s, true);
        sw_print(w, "%.1f,%.1f,%.1f\r\n", b->start_s, b->run_from_s, b->end_s);
    }
}

sw_status paper_schedule_csv(sw_run *run, const sw_dossier *d, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    write_all(w, d);
    return sw_writer_close(run, w);
}
