/* check_flat.c: is the flat one sound sheet? Where it is not, how much of it lies on itself (by GEOS). */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct overlap { /* the two parts that share most */
    double area_mm2;
    int a, b;
} overlap;

static const char *part_name(const sw_piece *p, int part)
{
    return part < (int)p->face_count ? p->faces[part].name : p->bends[part - (int)p->face_count].name;
}

/* A part as it lies in the flat; false when it has no area. In run->keep. */
static sw_status flat_part(sw_run *run, const sw_tree *tree, int part, sw_region *out)
{
    int faces = (int)tree->piece->face_count;
    sw_motion m = sw_sheet_part_motion(tree, part);
    if (part < faces) return sw_region_moved(run, &tree->piece->faces[part].region, m, out);
    const sw_zone *z = &tree->zones[part - faces];
    sw_vertex v[4] = {{0, 0, 0}, {z->width_mm, 0, 0}, {z->width_mm, z->allowance_mm, 0}, {0, z->allowance_mm, 0}};
    *out = (sw_region){0};
    return sw_contour_moved(run, (sw_contour){v, 4}, m, &out->outline);
}

static bool boxes_apart(sw_box a, sw_box b)
{
    return a.x0_mm >= b.x1_mm || b.x0_mm >= a.x1_mm || a.y0_mm >= b.y1_mm || b.y0_mm >= a.y1_mm;
}

static sw_status find_overlap(sw_run *run, const sw_tree *tree, overlap *worst)
{
    int count = (int)(tree->piece->face_count + tree->piece->bend_count);
    sw_region *parts = SW_SCRATCH(run, (size_t)count, sw_region);
    if (parts == NULL) return SW_NO_MEMORY;
    for (int i = 0; i < count; i++) SW_TRY(flat_part(run, tree, i, &parts[i]));
    for (int a = 0; a < count; a++)
        for (int b = a + 1; b < count; b++) {
            double area_mm2 = 0.0;
            bool thin = sw_region_area(&parts[a]) < 1e-6 || sw_region_area(&parts[b]) < 1e-6;
            if (thin || boxes_apart(sw_contour_box(parts[a].outline), sw_contour_box(parts[b].outline))) continue;
            SW_TRY(sw_geos_overlap_area(run, &parts[a], &parts[b], SW_CHORD_MM, &area_mm2));
            if (area_mm2 > worst->area_mm2) *worst = (overlap){area_mm2, a, b};
        }
    return SW_OK;
}

static sw_finding sound(sw_run *run, const sw_piece *p)
{
    sw_finding f = sw_finding_of("sheet", "flat_sound", sw_piece_label(run, p), p->place);
    f.source = "plane geometry: one sheet cannot lie on itself";
    return f;
}

static sw_status report_fault(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c, const char *fault)
{
    const sw_piece *p = c->piece->piece;
    overlap worst = {0.0, 0, 0};
    SW_TRY(find_overlap(run, c->tree, &worst));
    sw_finding f = sound(run, p);
    f.verdict = SW_FAILS;
    f.what = sw_text_format(run, run->keep, "the flat is not one sound sheet: %s", fault);
    f.remedy = "leave a gap or relief where parts of the flat touch or cross";
    if (worst.area_mm2 > SW_CHORD_MM) {
        f.what = sw_text_format(run, run->keep, "%s and %s lie on each other in the flat by %.1f mm2",
                                part_name(p, worst.a), part_name(p, worst.b), worst.area_mm2);
        f.remedy = "shorten or slope the flanges, or make it of two pieces";
    }
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_flat(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    const char *fault = NULL;
    SW_TRY(sw_region_fault(run, &c->piece->flat.region, &fault));
    if (fault != NULL) return report_fault(run, study, c, fault);
    sw_finding f = sound(run, p);
    const sw_flat *flat = &c->piece->flat;
    f.what = sw_text_format(run, run->keep, "flat %.1f x %.1f mm, %zu contours, none crosses or touches another",
                            flat->box.x1_mm, flat->box.y1_mm, flat->region.hole_count + 1);
    return sw_sheet_report(run, study, f, 0.0);
}
