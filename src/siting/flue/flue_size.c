/* flue_size.c: which liner or diameter holds: every one tried with the same stove, house and weather. */
#include "siting/flue/flue_parts.h"

#include <math.h>

enum { MOST_TRIES = 64 };

static const double diameters_mm[] = {100, 125, 150, 180, 200, 250};
static const double wrap_mm = 25, wrap_conductivity = 0.07; /* foil-faced blanket of flexible liners, handbook S1.9 */
static const double fill_conductivity = 0.10, gap_h = 7.3, square_factor = 1.1;
static const double taller_step_m = 0.5;
enum { TALLER = 6 };
static const double steel_mm = 1; /* liner or pipe and its play on each side */

typedef enum kind { KIND_BARE_LINER, KIND_WRAPPED, KIND_FILLED, KIND_OTHER, KIND_TWIN_25, KIND_TWIN_50, KINDS } kind;
static const char *const kind_texts[][2] = {
    {"liner", " with an air gap"},    {"liner", " in 25 mm wrap"},           {"liner", " in vermiculite"},
    {"liner", ", the rest as it is"}, {"twin wall", ", 25 mm mineral wool"}, {"twin wall", ", 50 mm mineral wool"}};

typedef struct sizing {
    sw_run *run;
    const sw_flue_input *in;
    const sw_flue_options *opt;
    sw_flue_part *parts; /* [part_count] of the house that is tried */
    sw_house house;
    sw_flue_input tried;
    sw_flue_try *tries; /* [MOST_TRIES] */
    size_t count;
} sizing;

/* ---- one flue ---- */

static void judge(sizing *z, sw_flue_try *t)
{
    sw_flue_result r = {.solved = false};
    t->reserve_pa = t->wall_over_dew_k = t->over_pa = t->least_m = NAN;
    t->height_m = flue_chimney_rise_m(&z->house);
    r.solved = flue_solve_cases(&z->tried, z->opt, &r);
    if (!r.solved) return;
    flue_sum_up(&z->tried, &r);
    t->reserve_pa = r.reserve_pa;
    t->least_m = flue_least_height_m(&z->tried, &r.gas, z->opt);
    t->wall_over_dew_k = flue_over_dew_k(&z->tried, &r);
    t->over_pa = r.over.P_Z - (z->in->nominal.most_pa + r.over.P_FV + r.over.P_B);
    t->holds = r.draws && r.dry && !r.over_draught && !flue_is_narrowed(&z->tried);
}

static bool keep_try(sizing *z, const sw_flue_try *t)
{
    if (z->count == MOST_TRIES) return false;
    z->tries[z->count++] = *t;
    return true;
}

/* As it is; then, where only draught is missing, with more height on top until it holds. */
static sw_status try_flue(sizing *z, double diameter_mm, const char *what)
{
    sw_flue_try t = {.diameter_mm = diameter_mm, .what = what};
    sw_flue_part *top = &z->parts[z->house.part_count - 1];
    double rise_m = top->rise_m, length_m = top->length_m;
    if (what == NULL) return SW_NO_MEMORY;
    judge(z, &t);
    if (!keep_try(z, &t)) return SW_OK;
    for (int i = 1; i <= TALLER && !t.holds && t.reserve_pa < 0; i++) {
        top->rise_m = rise_m + taller_step_m * i;
        top->length_m = length_m + taller_step_m * i;
        judge(z, &t);
        if (t.holds) (void)keep_try(z, &t);
    }
    top->rise_m = rise_m;
    top->length_m = length_m;
    return SW_OK;
}

/* ---- walls ---- */

/* A shaft's resistance counts by its own inner surface: at the liner's it is less by the diameters. */
static double liner_resistance(const sw_flue_part *shaft, kind k, double d_m)
{
    double shaft_m = sw_flue_hydraulic_m(shaft), masonry = sw_flue_resistance(shaft) * d_m / shaft_m;
    if (k == KIND_BARE_LINER) return 1 / gap_h + masonry;
    if (k == KIND_FILLED)
        return sw_flue_layer_resistance(square_factor, d_m, fill_conductivity, d_m, shaft_m) + masonry;
    return sw_flue_layer_resistance(1, d_m, wrap_conductivity, d_m, d_m + 2 * sw_m_from_mm(wrap_mm)) + masonry;
}

static double twin_mm(kind k)
{
    return k == KIND_TWIN_50 ? 50 : 25;
}

static void set_part(sw_flue_part *part, const sw_flue_part *was, kind k, double diameter_mm)
{
    double d_m = sw_m_from_mm(diameter_mm);
    part->round = true;
    part->width_mm = part->depth_mm = diameter_mm;
    part->roughness_mm = 1; /* welded steel: EN 13384-1 table B.4 (from memory) */
    part->designation = "";
    part->layer_count = 0;
    if (k >= KIND_TWIN_25) {
        double outer_mm = diameter_mm + 2 * twin_mm(k);
        double wool = sw_flue_material_find("mineral wool")->conductivity;
        part->resistance = sw_flue_layer_resistance(1, d_m, wool, d_m, sw_m_from_mm(outer_mm));
        part->outer_mm = outer_mm;
        return;
    }
    part->liner = true;
    part->resistance = liner_resistance(was, k, d_m);
    part->outer_mm = sw_mm_from_m(sw_flue_outer_m(was));
}

/* A shaft takes a liner that leaves it room; where there is none, a new chimney is tried. */
static bool fits(const sw_flue_part *was, kind k, double diameter_mm)
{
    double clear_mm = was->round ? was->width_mm : fmin(was->width_mm, was->depth_mm);
    return diameter_mm + 2 * steel_mm + (k == KIND_WRAPPED ? 2 * wrap_mm : 0) <= clear_mm;
}

/* A connecting pipe goes with the flue that is tried: never narrower than the stove's outlet. */
static void widen_pipe(const sizing *z, sw_flue_part *part)
{
    double collar_m2 = flue_collar_m2(z->in), was_mm = sw_mm_from_m(sw_flue_hydraulic_m(part));
    if (!part->pipe || sw_flue_area_m2(part) >= collar_m2 * (1 - 1e-9)) return;
    part->round = true;
    part->width_mm = part->depth_mm = sw_mm_from_m(2 * sqrt(collar_m2 / SW_PI));
    part->outer_mm += part->width_mm - was_mm; /* NAN stays NAN */
}

/* A shaft that is lined already: another diameter in the same outer size, as if the wall were of one material:
 * R = D/(2 lambda) ln(D_a/D) (EN 13384-1 annex A, from memory). */
static bool set_other(sizing *z, double diameter_mm)
{
    for (size_t i = 0; i < z->house.part_count; i++) {
        const sw_flue_part *was = &z->in->house->parts[i];
        sw_flue_part *part = &z->parts[i];
        *part = *was;
        widen_pipe(z, part);
        if (was->pipe) continue;
        if (!was->liner || !was->round || was->width_mm == diameter_mm) return false;
        double outer_m = sw_flue_outer_m(was);
        if (sw_m_from_mm(diameter_mm) >= outer_m) return false;
        part->width_mm = part->depth_mm = diameter_mm;
        part->layer_count = 0;
        part->resistance = sw_flue_resistance(was) * diameter_mm / was->width_mm *
                           log(outer_m / sw_m_from_mm(diameter_mm)) / log(outer_m / sw_m_from_mm(was->width_mm));
        part->outer_mm = sw_mm_from_m(outer_m);
    }
    return true;
}

static bool set_parts(sizing *z, kind k, double diameter_mm)
{
    bool shaft = z->in->house->survey.old_shaft;
    if (shaft != (k < KIND_TWIN_25)) return false;
    if (k == KIND_OTHER) return set_other(z, diameter_mm);
    for (size_t i = 0; i < z->house.part_count; i++) {
        const sw_flue_part *was = &z->in->house->parts[i];
        z->parts[i] = *was;
        widen_pipe(z, &z->parts[i]);
        if (was->pipe) continue;
        if (shaft && (was->liner || !fits(was, k, diameter_mm))) return false;
        set_part(&z->parts[i], was, k, diameter_mm);
    }
    return true;
}

/* ---- all ---- */

static sw_status try_described(sizing *z)
{
    const sw_flue_part *last = &z->in->house->parts[z->house.part_count - 1];
    for (size_t i = 0; i < z->house.part_count; i++) z->parts[i] = z->in->house->parts[i];
    bool bare = z->in->house->survey.old_shaft && !last->liner;
    return try_flue(z, sw_mm_from_m(sw_flue_hydraulic_m(last)),
                    flue_is_narrowed(z->in) ? "as described, below the outlet"
                    : bare                  ? "bare shaft"
                                            : "as described");
}

static sw_status try_all(sizing *z)
{
    double collar_m2 = flue_collar_m2(z->in);
    SW_TRY(try_described(z));
    for (size_t i = 0; i < sizeof diameters_mm / sizeof *diameters_mm; i++) {
        double d_mm = diameters_mm[i];
        if (SW_PI / 4 * sw_m2_from_mm2(d_mm * d_mm) < collar_m2 * (1 - 1e-9)) continue; /* never below the outlet */
        for (int k = 0; k < KINDS; k++) {
            if (!set_parts(z, (kind)k, d_mm)) continue;
            SW_TRY(try_flue(
                z, d_mm, sw_text_format(z->run, z->run->keep, "%s %.0f%s", kind_texts[k][0], d_mm, kind_texts[k][1])));
        }
    }
    return SW_OK;
}

static bool before(const sw_flue_try *a, const sw_flue_try *b)
{
    if (a->holds != b->holds) return a->holds;
    if (a->diameter_mm != b->diameter_mm) return a->diameter_mm < b->diameter_mm;
    return a->height_m < b->height_m;
}

static void sort(sw_flue_try *t, size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i; k > 0 && before(&t[k], &t[k - 1]); k--) {
            sw_flue_try other = t[k];
            t[k] = t[k - 1];
            t[k - 1] = other;
        }
}

static sw_status size_it(sizing *z)
{
    z->parts = SW_SCRATCH(z->run, z->in->house->part_count, sw_flue_part);
    z->tries = SW_KEEP(z->run, MOST_TRIES, sw_flue_try);
    if (z->parts == NULL || z->tries == NULL) return SW_NO_MEMORY;
    z->house = *z->in->house;
    z->house.parts = z->parts;
    z->tried = *z->in;
    z->tried.house = &z->house;
    SW_TRY(try_all(z));
    sort(z->tries, z->count);
    return SW_OK;
}

sw_status sw_flue_size(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_try **tries,
                       size_t *count)
{
    *tries = NULL;
    *count = 0;
    SW_TRY(sw_flue_check(run, in, opt));
    sizing z = {.run = run, .in = in, .opt = opt};
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = size_it(&z);
    sw_arena_rewind(run->scratch, mark);
    if (status != SW_OK) return status;
    *tries = z.tries;
    *count = z.count;
    return SW_OK;
}
