/* read_zones.c: the zones of a sheet or remnant: rectangles where nothing may be cut (clamps, dents, rust). Given in the
 * frame of the sheet, for a remnant in that of its outline. */
#include "design/design_parts.h"

#include <math.h>

enum { ZONES_MOST = 1000 };

static const double least_overlap_mm2 = 1e-3; /* less is rounding at an edge. Ours */

typedef struct zone_fields {
    double x_mm, y_mm, width_mm, height_mm;
    const char *reason;
} zone_fields;

/* ---- what of the sheet lies in a zone ------------------------------------------------------------- */

/* Integral from low to y of how far the height, kept within low..high, is above low. */
static double filled_to(double y_mm, double low_mm, double high_mm)
{
    if (y_mm <= low_mm) return 0.0;
    double in_mm = fmin(y_mm, high_mm) - low_mm;
    return in_mm * in_mm / 2.0 + fmax(y_mm - high_mm, 0.0) * (high_mm - low_mm);
}

/* Area of the box below an edge; negative where the edge runs to the left. */
static double below_edge(sw_point a, sw_point b, sw_box box)
{
    double dx_mm = b.x_mm - a.x_mm;
    if (dx_mm == 0.0) return 0.0;
    double xa_mm = fmin(fmax(a.x_mm, box.x0_mm), box.x1_mm), xb_mm = fmin(fmax(b.x_mm, box.x0_mm), box.x1_mm);
    double slope = (b.y_mm - a.y_mm) / dx_mm;
    double ya_mm = a.y_mm + slope * (xa_mm - a.x_mm), yb_mm = a.y_mm + slope * (xb_mm - a.x_mm);
    if (fabs(yb_mm - ya_mm) < SW_SAME_POINT_MM)
        return (xb_mm - xa_mm) * (fmin(fmax((ya_mm + yb_mm) / 2.0, box.y0_mm), box.y1_mm) - box.y0_mm);
    return (xb_mm - xa_mm) / (yb_mm - ya_mm) *
           (filled_to(yb_mm, box.y0_mm, box.y1_mm) - filled_to(ya_mm, box.y0_mm, box.y1_mm));
}

/* Signed as the contour runs: holes count negative. */
static double area_within(design *d, sw_contour c, sw_box box)
{
    sw_contour flat;
    double area_mm2 = 0.0;
    design_must(d, sw_contour_flattened(d->run, c, SW_CHORD_MM, &flat));
    for (size_t i = 0; i < flat.n; i++) {
        sw_vertex a = flat.v[i], b = flat.v[(i + 1) % flat.n];
        area_mm2 -= below_edge((sw_point){a.x_mm, a.y_mm}, (sw_point){b.x_mm, b.y_mm}, box);
    }
    return area_mm2;
}

static double sheet_within(design *d, const sw_region *r, sw_box box)
{
    double area_mm2 = area_within(d, r->outline, box);
    for (size_t i = 0; i < r->hole_count; i++) area_mm2 += area_within(d, r->holes[i], box);
    return area_mm2;
}

/* ---- one zone ---------------------------------------------------------------------------------------- */

static bool is_inside(sw_box box, sw_box sheet)
{
    double e = SW_SAME_POINT_MM;
    return box.x0_mm >= sheet.x0_mm - e && box.y0_mm >= sheet.y0_mm - e && box.x1_mm <= sheet.x1_mm + e &&
           box.y1_mm <= sheet.y1_mm + e;
}

static void check_zone(const design_scope *s, const sw_region *sheet, sw_box box)
{
    sw_box all = sw_contour_box(sheet->outline);
    if (!is_inside(box, all))
        design_fault(s, "",
                     "reaches from (%g, %g) to (%g, %g) mm, outside the sheet (%g, %g) to (%g, %g) mm; end it at the "
                     "sheet's edge",
                     box.x0_mm, box.y0_mm, box.x1_mm, box.y1_mm, all.x0_mm, all.y0_mm, all.x1_mm, all.y1_mm);
    else if (sheet_within(s->d, sheet, box) < least_overlap_mm2)
        design_fault(
            s, "",
            "from (%g, %g) to (%g, %g) mm lies where the sheet has no material; move it onto the sheet or leave "
            "it out",
            box.x0_mm, box.y0_mm, box.x1_mm, box.y1_mm);
}

static void read_zone(const design_scope *s, const sw_region *sheet, sw_stock_zone *zone)
{
    static const design_field fields[] = {
        {.name = "x", .kind = DESIGN_LENGTH, .offset = offsetof(zone_fields, x_mm), .needed = true},
        {.name = "y", .kind = DESIGN_LENGTH, .offset = offsetof(zone_fields, y_mm), .needed = true},
        {.name = "width",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(zone_fields, width_mm),
         .needed = true,
         .low = 1.0,
         .high = 2e4},
        {.name = "height",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(zone_fields, height_mm),
         .needed = true,
         .low = 1.0,
         .high = 2e4},
        {DESIGN_FIELD(zone_fields, reason, DESIGN_TEXT), .needed = true},
    };
    zone_fields f = {.reason = ""};
    if (!lua_istable(s->d->L, s->table)) {
        design_fault(s, "",
                     "is %s, but a table is needed: { x = 0*mm, y = 0*mm, width = 120*mm, height = 80*mm, "
                     "reason = \"clamp\" }",
                     design_describe(s, s->table));
        return;
    }
    if (!design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, &f)) return;
    *zone = (sw_stock_zone){{f.x_mm, f.y_mm, f.x_mm + f.width_mm, f.y_mm + f.height_mm}, f.reason};
    check_zone(s, sheet, zone->box);
}

static bool is_list(const design_scope *s, int type, size_t *count)
{
    *count = type == LUA_TTABLE ? lua_rawlen(s->d->L, -1) : 0;
    if (type == LUA_TNIL) return false;
    if (type != LUA_TTABLE)
        design_fault(s, "zones", "is %s, but a list in braces is needed", design_describe(s, lua_gettop(s->d->L)));
    else if (*count > ZONES_MOST)
        design_fault(s, "zones", "has %zu entries, allowed are %d; join zones that lie together", *count, ZONES_MOST);
    else
        return true;
    return false;
}

bool design_read_zones(const design_scope *s, const sw_region *sheet, const sw_stock_zone **zones, size_t *count)
{
    lua_State *L = s->d->L;
    size_t before = s->d->faults, n = 0;
    *zones = NULL;
    *count = 0;
    if (is_list(s, lua_getfield(L, s->table, "zones"), &n)) {
        sw_stock_zone *made = DESIGN_TAKE(s->d, n, sw_stock_zone);
        design_scope list = design_within(s, "zones", 0);
        (void)design_read_fields(&list, NULL, 0, true, NULL);
        for (size_t i = 0; i < n; i++) {
            (void)lua_geti(L, list.table, (lua_Integer)i + 1);
            design_scope entry = design_within(s, "zones", i + 1);
            read_zone(&entry, sheet, &made[i]);
            lua_pop(L, 1);
        }
        *zones = made;
        *count = n;
    }
    lua_pop(L, 1);
    return before == s->d->faults;
}
