/* json.c: findings and figures as JSON. Schema version 1, described in docs/json.md: keys are stable, what is not
 * known is null. jansson refuses NaN, so every real goes through `real`. */
#include "papers/papers_parts.h"

#include <jansson.h>
#include <math.h>

enum { SCHEMA = 1, DIGITS = 12 };

static json_t *real(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}
static json_t *count(size_t value)
{
    return json_integer((json_int_t)value);
}
static json_t *point(sw_vec3 p)
{
    return json_pack("[o,o,o]", real(p.x_mm), real(p.y_mm), real(p.z_mm));
}

static json_t *body(const sw_body *b)
{
    json_t *inertia = json_array();
    for (int i = 0; i < 6; i++) json_array_append_new(inertia, real(b->inertia_kg_mm2[i]));
    return json_pack("{s:o,s:o,s:o}", "mass_kg", real(b->mass_kg), "centre_mm", point(b->centre), "inertia_kg_mm2",
                     inertia);
}

static json_t *place(sw_place p)
{
    if (p.file == NULL) return json_null();
    return json_pack("{s:s,s:i,s:i}", "file", p.file, "line", p.line, "column", p.column);
}

static const char *sense_name(sw_sense sense)
{
    static const char *const names[] = {[SW_AT_LEAST] = "at_least", [SW_AT_MOST] = "at_most", [SW_STATED] = "stated"};
    return names[sense];
}

static json_t *finding(const sw_finding *f)
{
    return json_pack("{s:s,s:s,s:s,s:s,s:s,s:s,s:o,s:o,s:s,s:o,s:s,s:s,s:o}", "verdict", sw_verdict_name(f->verdict),
                     "study", f->study, "check", f->check, "what", f->what, "where", f->where, "sense",
                     sense_name(f->sense), "value", real(f->value), "limit", real(f->limit), "unit", f->unit, "margin",
                     real(f->margin), "source", f->source, "remedy", f->remedy, "place", place(f->place));
}

static json_t *findings(const sw_findings *all)
{
    json_t *list = json_array();
    for (size_t i = 0; i < all->count; i++) json_array_append_new(list, finding(&all->items[i]));
    return list;
}

static json_t *verdicts(const sw_findings *all)
{
    size_t counts[4] = {0};
    for (size_t i = 0; i < all->count; i++) counts[all->items[i].verdict]++;
    return json_pack("{s:o,s:o,s:o,s:o}", "fails", count(counts[SW_FAILS]), "watch", count(counts[SW_WATCH]), "unknown",
                     count(counts[SW_UNKNOWN]), "holds", count(counts[SW_HOLDS]));
}

static json_t *bend(const sw_flat_bend *b, size_t index)
{
    static const char *const kinds[] = {[SW_PRESSED] = "press", [SW_ROLLED] = "roll", [SW_HEMMED] = "hem"};
    return json_pack("{s:o,s:s,s:s,s:o,s:o,s:o,s:o,s:s,s:b,s:[o,o],s:[o,o]}", "number", count(index + 1), "name",
                     b->bend->name, "kind", kinds[b->bend->kind], "angle_deg",
                     real(sw_deg_from_rad(b->bend->angle_rad)), "radius_mm", real(b->bend->radius_mm), "allowance_mm",
                     real(b->allowance_mm), "k", real(b->k), "rule", b->rule, "up", b->up ? 1 : 0, "from_mm",
                     real(b->from.x_mm), real(b->from.y_mm), "to_mm", real(b->to.x_mm), real(b->to.y_mm));
}

static json_t *piece(const sw_sheet_piece *p)
{
    json_t *bends = json_array();
    for (size_t i = 0; i < p->flat.bend_count; i++) json_array_append_new(bends, bend(&p->flat.bends[i], i));
    const sw_piece *m = p->piece;
    return json_pack("{s:s,s:s,s:s,s:s,s:s,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o}", "number", m->number, "name", m->name,
                     "group", m->group, "role", m->role, "material", m->grade->name, "thickness_mm",
                     real(m->thickness_mm), "count", count(m->count), "flat_length_mm", real(p->flat.box.x1_mm),
                     "flat_width_mm", real(p->flat.box.y1_mm), "flat_area_mm2", real(p->flat.area_mm2), "cut_mm",
                     real(p->flat.cut_mm), "cut_outs", count(p->flat.region.hole_count), "mass_kg", real(p->mass_kg),
                     "bends", bends);
}

static json_t *pieces(const sw_sheet_result *sheet)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sheet->piece_count; i++) json_array_append_new(list, piece(&sheet->pieces[i]));
    return list;
}

static json_t *items(const sw_stove *stove)
{
    static const char *const kinds[] = {[SW_ITEM_CAST] = "cast",
                                        [SW_ITEM_BOUGHT] = "bought",
                                        [SW_ITEM_BOARD] = "board",
                                        [SW_ITEM_GLASS] = "glass",
                                        [SW_ITEM_ROPE] = "rope"};
    json_t *list = json_array();
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        json_array_append_new(list,
                              json_pack("{s:s,s:s,s:s,s:s,s:s,s:s,s:o,s:o,s:o}", "number", item->number, "name",
                                        item->name, "group", item->group, "role", item->role, "kind", kinds[item->kind],
                                        "material", item->material, "count", count(item->count), "mass_kg",
                                        real(item->mass_kg), "price", real(item->price)));
    }
    return list;
}

static json_t *joints(const sw_sheet_result *sheet)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sheet->joint_count; i++) {
        const sw_joint_fit *fit = &sheet->joints[i];
        json_array_append_new(list, json_pack("{s:s,s:s,s:s,s:o,s:o,s:o,s:o}", "name", fit->joint->name, "kind",
                                              sw_joint_kind_name(fit->joint->kind), "seam",
                                              sw_seam_kind_name(fit->joint->seam), "length_mm", real(fit->length_mm),
                                              "gap_least_mm", real(fit->gap_least_mm), "gap_most_mm",
                                              real(fit->gap_most_mm), "worst_at_mm", point(fit->worst)));
    }
    return list;
}

static json_t *heft_lines(const sw_heft_line *lines, size_t n)
{
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++) {
        json_t *line = body(&lines[i].body);
        if (line == NULL) continue;
        json_object_set_new(line, "name", json_string(lines[i].name));
        json_object_set_new(line, "count", count(lines[i].count));
        json_array_append_new(list, line);
    }
    return list;
}

static json_t *plan(const sw_cut_plan *p)
{
    if (p == NULL) return json_null();
    return json_pack("{s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o}", "cut_mm", real(p->cut_mm), "etch_mm",
                     real(p->etch_mm), "rapid_mm", real(p->rapid_mm), "pierces", count(p->pierces), "micro_joints",
                     count(p->micro_joints), "cut_s", real(p->cut_s), "pierce_s", real(p->pierce_s), "rapid_s",
                     real(p->rapid_s), "etch_s", real(p->etch_s), "total_s", real(p->total_s), "gas_m3",
                     real(p->gas_m3), "cost", real(p->cost));
}

static json_t *nest_sheet(const sw_nested *nest, size_t index, const sw_stove *stove)
{
    const sw_nest_sheet *s = &nest->result->sheets[index];
    json_t *places = json_array();
    for (size_t i = 0; i < s->place_count; i++) {
        const sw_nest_shape *shape = &nest->input->shapes[s->places[i].shape];
        sw_motion m = s->places[i].motion;
        bool known = shape->tag >= 0 && (size_t)shape->tag < stove->piece_count;
        json_array_append_new(places, json_pack("{s:s,s:o,s:o,s:o,s:b}", "number",
                                                known ? stove->pieces[shape->tag].number : shape->name, "x_mm",
                                                real(m.dx_mm), "y_mm", real(m.dy_mm), "turn_deg",
                                                real(sw_deg_from_rad(m.turn_rad)), "mirror", m.mirror ? 1 : 0));
    }
    return json_pack("{s:s,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o}", "stock", s->stock->name, "length_mm",
                     real(s->stock->length_mm), "width_mm", real(s->stock->width_mm), "repeat", count(s->repeat),
                     "density", real(s->density), "used_length_mm", real(s->used_length_mm), "remnant_length_mm",
                     real(s->remnant_length_mm), "remnant_width_mm", real(s->remnant_width_mm), "places", places, "cut",
                     plan(nest->plans == NULL ? NULL : nest->plans[index]));
}

static json_t *nest(const sw_nested *n, const sw_stove *stove)
{
    if (n->result == NULL)
        return json_pack("{s:s,s:s,s:o,s:n,s:s}", "name", n->name, "material", n->grade->name, "thickness_mm",
                         real(n->thickness_mm), "sheets", "why", n->why);
    const sw_nest_result *r = n->result;
    json_t *sheets = json_array();
    for (size_t i = 0; i < r->sheet_count; i++) json_array_append_new(sheets, nest_sheet(n, i, stove));
    return json_pack("{s:s,s:s,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:b}", "name", n->name, "material", n->grade->name,
                     "thickness_mm", real(n->thickness_mm), "sheets", sheets, "sheets_total", count(r->sheets_total),
                     "density", real(r->density), "bound_density", real(r->bound_density), "cost", real(r->cost),
                     "scrap_kg", real(r->scrap_kg), "seconds", real(r->seconds), "stopped", r->stopped ? 1 : 0);
}

static json_t *nests(const sw_dossier *d)
{
    json_t *list = json_array();
    for (size_t i = 0; i < d->nest_count; i++) json_array_append_new(list, nest(&d->nests[i], d->model.stove));
    return list;
}

static json_t *parameters(const sw_stove *stove)
{
    json_t *list = json_array();
    for (size_t i = 0; i < stove->parameter_count; i++) {
        const sw_parameter *p = &stove->parameters[i];
        json_array_append_new(list, json_pack("{s:s,s:s,s:s,s:o,s:o,s:o,s:o}", "name", p->name, "meaning", p->meaning,
                                              "unit", p->unit, "value", real(p->value), "low", real(p->low), "high",
                                              real(p->high), "preset", real(p->preset)));
    }
    return list;
}

static json_t *masses(const sw_heft_result *heft)
{
    if (heft == NULL) return json_null();
    return json_pack("{s:o,s:o,s:o,s:o}", "stove", body(&heft->stove), "groups",
                     heft_lines(heft->groups, heft->group_count), "pieces", heft_lines(heft->pieces, heft->piece_count),
                     "items", heft_lines(heft->items, heft->item_count));
}

static json_t *whole(const sw_dossier *d)
{
    const sw_stove *stove = d->model.stove;
    const sw_works *works = d->model.works;
    return json_pack("{s:i,s:s,s:s,s:{s:s,s:s,s:s,s:s},s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o,s:o}", "schema", SCHEMA,
                     "program", "stovewright " SW_VERSION, "date", d->date, "stove", "name", stove->name, "title",
                     stove->title, "note", stove->note, "file", d->model.stove_file, "works",
                     works == NULL ? json_null()
                                   : json_pack("{s:s,s:s,s:s}", "name", works->name, "currency", works->currency,
                                               "file", d->model.works_file),
                     "batch", count(d->batch), "verdicts", verdicts(&d->findings), "findings", findings(&d->findings),
                     "parameters", parameters(stove), "masses", masses(d->heft), "pieces", pieces(d->sheet), "items",
                     items(stove), "joints", joints(d->sheet), "nests", nests(d));
}

static int to_writer(const char *bytes, size_t length, void *writer)
{
    sw_write(writer, bytes, length);
    return 0;
}

sw_status sw_paper_json(sw_run *run, const sw_dossier *d, sw_writer *writer)
{
    json_t *root = whole(d);
    int failed =
        root == NULL ? -1 : json_dump_callback(root, to_writer, writer, JSON_INDENT(1) | JSON_REAL_PRECISION(DIGITS));
    json_decref(root);
    if (failed != 0)
        return sw_fail(
            run, SW_NO_MEMORY, (sw_place){0}, "json",
            "the findings could not be put as JSON: no memory, or a text that is not UTF-8; mend the texts or allow more memory");
    sw_print(writer, "\n");
    return SW_OK;
}
