/* json.c: findings and figures as JSON. Schema version 1, described in docs/json.md: keys are stable, what is not
 * known is null. */
#include "papers/json_parts.h"

#include <string.h>

enum { SCHEMA = 1 };

static void point(json_out *j, const char *key, sw_vec3 p)
{
    json_begin(j, key, '[');
    json_number(j, NULL, p.x_mm);
    json_number(j, NULL, p.y_mm);
    json_number(j, NULL, p.z_mm);
    json_end(j, ']');
}

static void flat_point(json_out *j, const char *key, sw_point p)
{
    json_begin(j, key, '[');
    json_number(j, NULL, p.x_mm);
    json_number(j, NULL, p.y_mm);
    json_end(j, ']');
}

/* Members of an object under way. */
static void body(json_out *j, const sw_body *b)
{
    json_number(j, "mass_kg", b->mass_kg);
    point(j, "centre_mm", b->centre);
    json_begin(j, "inertia_kg_mm2", '[');
    for (int i = 0; i < 6; i++) json_number(j, NULL, b->inertia_kg_mm2[i]);
    json_end(j, ']');
}

/* ---- findings ---- */

static void place(json_out *j, sw_place p)
{
    if (p.file == NULL) {
        json_nothing(j, "place");
        return;
    }
    json_begin(j, "place", '{');
    json_text(j, "file", p.file);
    json_whole(j, "line", p.line);
    json_whole(j, "column", p.column);
    json_end(j, '}');
}

static const char *sense_name(sw_sense sense)
{
    static const char *const names[] = {[SW_AT_LEAST] = "at_least", [SW_AT_MOST] = "at_most", [SW_STATED] = "stated"};
    return names[sense];
}

static void finding(json_out *j, const sw_finding *f)
{
    json_begin(j, NULL, '{');
    json_text(j, "verdict", sw_verdict_name(f->verdict));
    json_text(j, "study", f->study);
    json_text(j, "check", f->check);
    json_text(j, "what", f->what);
    json_text(j, "where", f->where);
    json_text(j, "sense", sense_name(f->sense));
    json_number(j, "value", f->value);
    json_number(j, "limit", f->limit);
    json_text(j, "unit", f->unit);
    json_number(j, "margin", f->margin);
    json_text(j, "source", f->source);
    json_text(j, "remedy", f->remedy);
    place(j, f->place);
    json_end(j, '}');
}

void json_verdicts(json_out *j, const sw_findings *all)
{
    size_t counts[SW_VERDICTS];
    sw_findings_count(all, counts);
    json_begin(j, "verdicts", '{');
    json_count(j, "fails", counts[SW_FAILS]);
    json_count(j, "watch", counts[SW_WATCH]);
    json_count(j, "unknown", counts[SW_UNKNOWN]);
    json_count(j, "holds", counts[SW_HOLDS]);
    json_end(j, '}');
}

static void findings(json_out *j, const sw_findings *all)
{
    json_verdicts(j, all);
    json_begin(j, "findings", '[');
    for (size_t i = 0; i < all->count; i++) finding(j, &all->items[i]);
    json_end(j, ']');
}

/* ---- what the stove is made of ---- */

static void parameters(json_out *j, const sw_stove *stove)
{
    json_begin(j, "parameters", '[');
    for (size_t i = 0; i < stove->parameter_count; i++) {
        const sw_parameter *p = &stove->parameters[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", p->name);
        json_text(j, "meaning", p->meaning);
        json_text(j, "unit", p->unit);
        json_number(j, "value", p->value);
        json_number(j, "low", p->low);
        json_number(j, "high", p->high);
        json_number(j, "preset", p->preset);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void heft_lines(json_out *j, const char *key, const sw_heft_line *lines, size_t n)
{
    json_begin(j, key, '[');
    for (size_t i = 0; i < n; i++) {
        json_begin(j, NULL, '{');
        body(j, &lines[i].body);
        json_text(j, "name", lines[i].name);
        json_count(j, "count", lines[i].count);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void masses(json_out *j, const sw_heft_result *heft)
{
    if (heft == NULL) {
        json_nothing(j, "masses");
        return;
    }
    json_begin(j, "masses", '{');
    json_begin(j, "stove", '{');
    body(j, &heft->stove);
    json_end(j, '}');
    heft_lines(j, "groups", heft->groups, heft->group_count);
    heft_lines(j, "pieces", heft->pieces, heft->piece_count);
    heft_lines(j, "items", heft->items, heft->item_count);
    json_end(j, '}');
}

static void bend(json_out *j, const sw_flat_bend *b, size_t index)
{
    static const char *const kinds[] = {[SW_PRESSED] = "press", [SW_ROLLED] = "roll", [SW_HEMMED] = "hem"};
    json_begin(j, NULL, '{');
    json_count(j, "number", index + 1);
    json_text(j, "name", b->bend->name);
    json_text(j, "kind", kinds[b->bend->kind]);
    json_number(j, "angle_deg", sw_deg_from_rad(b->bend->angle_rad));
    json_number(j, "radius_mm", b->bend->radius_mm);
    json_number(j, "allowance_mm", b->allowance_mm);
    json_number(j, "k", b->k);
    json_text(j, "rule", b->rule);
    json_truth(j, "up", b->up);
    flat_point(j, "from_mm", b->from);
    flat_point(j, "to_mm", b->to);
    json_end(j, '}');
}

static void piece(json_out *j, const sw_sheet_piece *p)
{
    const sw_piece *m = p->piece;
    json_begin(j, NULL, '{');
    json_text(j, "number", m->number);
    json_text(j, "name", m->name);
    json_text(j, "group", m->group);
    json_text(j, "role", m->role);
    json_text(j, "material", m->grade->name);
    json_number(j, "thickness_mm", m->thickness_mm);
    json_count(j, "count", m->count);
    json_number(j, "flat_length_mm", p->flat.box.x1_mm);
    json_number(j, "flat_width_mm", p->flat.box.y1_mm);
    json_number(j, "flat_area_mm2", p->flat.area_mm2);
    json_number(j, "cut_mm", p->flat.cut_mm);
    json_count(j, "cut_outs", p->flat.region.hole_count);
    json_number(j, "mass_kg", p->mass_kg);
    json_begin(j, "bends", '[');
    for (size_t i = 0; i < p->flat.bend_count; i++) bend(j, &p->flat.bends[i], i);
    json_end(j, ']');
    json_end(j, '}');
}

static void pieces(json_out *j, const sw_sheet_result *sheet)
{
    json_begin(j, "pieces", '[');
    for (size_t i = 0; i < sheet->piece_count; i++) piece(j, &sheet->pieces[i]);
    json_end(j, ']');
}

static void items(json_out *j, const sw_stove *stove)
{
    static const char *const kinds[] = {[SW_ITEM_CAST] = "cast",
                                        [SW_ITEM_BOUGHT] = "bought",
                                        [SW_ITEM_BOARD] = "board",
                                        [SW_ITEM_GLASS] = "glass",
                                        [SW_ITEM_ROPE] = "rope"};
    json_begin(j, "items", '[');
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        json_begin(j, NULL, '{');
        json_text(j, "number", item->number);
        json_text(j, "name", item->name);
        json_text(j, "group", item->group);
        json_text(j, "role", item->role);
        json_text(j, "kind", kinds[item->kind]);
        json_text(j, "material", item->material);
        json_count(j, "count", item->count);
        json_number(j, "mass_kg", item->mass_kg);
        json_number(j, "price", item->price);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void joints(json_out *j, const sw_sheet_result *sheet)
{
    json_begin(j, "joints", '[');
    for (size_t i = 0; i < sheet->joint_count; i++) {
        const sw_joint_fit *fit = &sheet->joints[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", fit->joint->name);
        json_text(j, "kind", sw_joint_kind_name(fit->joint->kind));
        json_text(j, "seam", sw_seam_kind_name(fit->joint->seam));
        json_number(j, "length_mm", fit->length_mm);
        json_number(j, "gap_least_mm", fit->gap_least_mm);
        json_number(j, "gap_most_mm", fit->gap_most_mm);
        point(j, "worst_at_mm", fit->worst);
        json_end(j, '}');
    }
    json_end(j, ']');
}

/* ---- nests ---- */

static void plan(json_out *j, const sw_cut_plan *p)
{
    if (p == NULL) {
        json_nothing(j, "cut");
        return;
    }
    json_begin(j, "cut", '{');
    json_number(j, "cut_mm", p->cut_mm);
    json_number(j, "etch_mm", p->etch_mm);
    json_number(j, "rapid_mm", p->rapid_mm);
    json_count(j, "pierces", p->pierces);
    json_count(j, "micro_joints", p->micro_joints);
    json_number(j, "cut_s", p->cut_s);
    json_number(j, "pierce_s", p->pierce_s);
    json_number(j, "rapid_s", p->rapid_s);
    json_number(j, "etch_s", p->etch_s);
    json_number(j, "total_s", p->total_s);
    json_number(j, "gas_m3", p->gas_m3);
    json_number(j, "cost", p->cost);
    json_end(j, '}');
}

static void places(json_out *j, const sw_nested *nest, const sw_nest_sheet *s, const sw_stove *stove)
{
    json_begin(j, "places", '[');
    for (size_t i = 0; i < s->place_count; i++) {
        const sw_nest_shape *shape = &nest->input->shapes[s->places[i].shape];
        sw_motion m = s->places[i].motion;
        bool known = shape->tag >= 0 && (size_t)shape->tag < stove->piece_count;
        json_begin(j, NULL, '{');
        json_text(j, "number", known ? stove->pieces[shape->tag].number : shape->name);
        json_number(j, "x_mm", m.dx_mm);
        json_number(j, "y_mm", m.dy_mm);
        json_number(j, "turn_deg", sw_deg_from_rad(m.turn_rad));
        json_truth(j, "mirror", m.mirror);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void zones(json_out *j, const sw_stock *stock)
{
    json_begin(j, "zones", '[');
    for (size_t i = 0; i < stock->zone_count; i++) {
        sw_box b = stock->zones[i].box;
        json_begin(j, NULL, '{');
        json_number(j, "x_mm", b.x0_mm);
        json_number(j, "y_mm", b.y0_mm);
        json_number(j, "width_mm", b.x1_mm - b.x0_mm);
        json_number(j, "height_mm", b.y1_mm - b.y0_mm);
        json_text(j, "reason", stock->zones[i].reason);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void nest_sheet(json_out *j, const sw_nested *nest, size_t index, const sw_stove *stove)
{
    const sw_nest_sheet *s = &nest->result->sheets[index];
    json_begin(j, NULL, '{');
    json_text(j, "stock", s->stock->name);
    json_number(j, "length_mm", s->stock->length_mm);
    json_number(j, "width_mm", s->stock->width_mm);
    json_count(j, "repeat", s->repeat);
    json_number(j, "density", s->density);
    json_number(j, "used_length_mm", s->used_length_mm);
    json_number(j, "remnant_length_mm", s->remnant_length_mm);
    json_number(j, "remnant_width_mm", s->remnant_width_mm);
    json_count(j, "lot", s->lot);
    json_count(j, "completes_lot", s->completes);
    zones(j, s->stock);
    places(j, nest, s, stove);
    plan(j, nest->plans == NULL ? NULL : nest->plans[index]);
    json_end(j, '}');
}

static void remnants(json_out *j, const sw_nest_result *r)
{
    json_begin(j, "remnants", '[');
    for (size_t i = 0; i < r->remnant_count; i++) {
        const sw_nest_remnant *k = &r->remnants[i];
        json_begin(j, NULL, '{');
        json_count(j, "layout", k->sheet + 1);
        json_text(j, "stock", r->sheets[k->sheet].stock->name);
        json_count(j, "count", k->count);
        json_number(j, "x_mm", k->x_mm);
        json_number(j, "y_mm", k->y_mm);
        json_number(j, "length_mm", k->length_mm);
        json_number(j, "width_mm", k->width_mm);
        json_number(j, "worth", k->worth);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void nest_sheets(json_out *j, const sw_nested *n, const sw_stove *stove)
{
    const sw_nest_result *r = n->result;
    json_begin(j, "sheets", '[');
    for (size_t i = 0; i < r->sheet_count; i++) nest_sheet(j, n, i, stove);
    json_end(j, ']');
    remnants(j, r);
    json_count(j, "sheets_total", r->sheets_total);
    json_number(j, "density", r->density);
    json_number(j, "bound_density", r->bound_density);
    json_number(j, "cost", r->cost);
    json_number(j, "scrap_kg", r->scrap_kg);
    json_number(j, "seconds", r->seconds);
    json_truth(j, "stopped", r->stopped);
}

static void nest(json_out *j, const sw_nested *n, const sw_stove *stove)
{
    json_begin(j, NULL, '{');
    json_text(j, "name", n->name);
    json_text(j, "material", n->grade->name);
    json_number(j, "thickness_mm", n->thickness_mm);
    if (n->result != NULL) {
        nest_sheets(j, n, stove);
    } else {
        json_nothing(j, "sheets");
        json_text(j, "why", n->why);
    }
    json_end(j, '}');
}

static void nests(json_out *j, const sw_dossier *d)
{
    json_begin(j, "nests", '[');
    for (size_t i = 0; i < d->nest_count; i++) nest(j, &d->nests[i], d->model.stove);
    json_end(j, ']');
}

/* ---- the whole ---- */

static void stove(json_out *j, const sw_model *model)
{
    json_begin(j, "stove", '{');
    json_text(j, "name", model->stove->name);
    json_text(j, "title", model->stove->title);
    json_text(j, "note", model->stove->note);
    json_text(j, "file", model->stove_file);
    json_end(j, '}');
}

static void works(json_out *j, const sw_model *model)
{
    if (model->works == NULL) {
        json_nothing(j, "works");
        return;
    }
    json_begin(j, "works", '{');
    json_text(j, "name", model->works->name);
    json_text(j, "currency", model->works->currency);
    json_text(j, "file", model->works_file);
    json_end(j, '}');
}

static void whole(json_out *j, const sw_dossier *d)
{
    json_begin(j, NULL, '{');
    json_whole(j, "schema", SCHEMA);
    json_text(j, "program", "stovewright " SW_VERSION);
    json_text(j, "date", d->date);
    stove(j, &d->model);
    works(j, &d->model);
    json_count(j, "batch", d->batch);
    findings(j, &d->findings);
    parameters(j, d->model.stove);
    masses(j, d->heft);
    pieces(j, d->sheet);
    items(j, d->model.stove);
    joints(j, d->sheet);
    nests(j, d);
    json_burned(j, d->burned);
    json_housed(j, d);
    json_shopped(j, d);
    json_end(j, '}');
}

sw_status sw_paper_json(sw_run *run, const sw_dossier *d, sw_writer *writer)
{
    json_out j = {.out = writer};
    whole(&j, d);
    sw_write_text(writer, "\n");
    if (!j.broken) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "json",
                   "a text of the description is not UTF-8, which JSON must be; save the description as UTF-8");
}
