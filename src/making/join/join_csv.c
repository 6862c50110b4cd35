/* join_csv.c: the seam table for whoever teaches the robot. */
#include "making/join/join_parts.h"

typedef struct table {
    sw_writer *writer;
    const sw_join_result *result;
} table;

static void write_vector(sw_writer *w, sw_vec3 v, int decimals)
{
    const double xyz[3] = {v.x_mm, v.y_mm, v.z_mm};
    for (int i = 0; i < 3; i++) {
        sw_write_text(w, ",");
        sw_write_fixed(w, xyz[i], decimals);
    }
}

typedef struct row {
    size_t body, step, seam, stretch;
    bool backwards;
    sw_vec3 up;
} row;

static void write_point(const table *t, const row *r, const sw_join_stretch *stretch, size_t i)
{
    const sw_join_seam *s = &t->result->seams[r->seam];
    sw_join_point p = stretch->points[r->backwards ? stretch->count - 1 - i : i];
    double sign = r->backwards ? -1 : 1;
    sw_print(t->writer, "%zu,%zu,%zu,", r->body + 1, r->step + 1, s->number);
    sw_csv_write_text(t->writer, s->joint->name);
    sw_print(t->writer, ",%s,%zu,%zu", sw_join_station_name(s->station), r->stretch + 1, i + 1);
    write_vector(t->writer, p.at, 2);
    write_vector(t->writer, sw_vec3_scaled(p.along, sign), 5);
    write_vector(t->writer, p.torch, 5);
    if (r->backwards) p.turn_rad += p.turn_rad > 0 ? -SW_PI : SW_PI;
    sw_print(t->writer, ",%.1f,%.1f,%.1f,%.2f,", sw_deg_from_rad(p.work_rad), sw_deg_from_rad(sign * p.travel_rad),
             sw_deg_from_rad(p.turn_rad), s->throat_mm);
    if (!isnan(s->travel_mm_s)) sw_write_fixed(t->writer, s->travel_mm_s, 3);
    sw_write_text(t->writer, i + 1 < stretch->count ? ",1" : ",0");
    write_vector(t->writer, r->up, 3);
    sw_write_text(t->writer, "\n");
}

static void write_seam(const table *t, row r)
{
    const sw_join_seam *s = &t->result->seams[r.seam];
    for (r.stretch = 0; r.stretch < s->stretch_count; r.stretch++) {
        size_t at = r.backwards ? s->stretch_count - 1 - r.stretch : r.stretch;
        for (size_t i = 0; i < s->stretches[at].count; i++) write_point(t, &r, &s->stretches[at], i);
    }
}

void sw_join_write_csv(const sw_join_result *result, sw_writer *writer)
{
    const table t = {writer, result};
    sw_write_text(writer, "body,step,seam,joint,station,stretch,point,x_mm,y_mm,z_mm,along_x,along_y,along_z,torch_x,"
                          "torch_y,torch_z,work_deg,travel_deg,turn_deg,throat_mm,speed_mm_s,arc,up_x,up_y,up_z\n");
    for (size_t b = 0; b < result->body_count; b++) {
        const sw_join_body *body = &result->bodies[b];
        for (size_t i = 0; i < body->robot_count; i++) {
            const sw_join_step *step = &body->robot[i];
            write_seam(&t, (row){b, i, step->seam, 0, step->backwards, sw_join_up(step->up)});
        }
        for (size_t i = 0; i < body->hand_count; i++)
            write_seam(&t, (row){b, body->robot_count + i, body->hand[i], 0, false, {0, 0, 0}});
    }
}
