/* coat_masks.c: what must stay bare. */
#include "making/coat/coat_parts.h"

#include <math.h>
#include <string.h>

const char *sw_mask_kind_name(sw_mask_kind kind)
{
    static const char *const names[SW_MASK_KINDS] = {"thread", "pin and bore", "rope land", "glass land",
                                                     "earth point"};
    return (size_t)kind < SW_MASK_KINDS ? names[kind] : "";
}

typedef struct mask_role {
    const char *word;
    sw_mask_kind kind;
} mask_role;
static const mask_role mask_roles[] = {{"screw", SW_MASK_THREAD}, {"fastener", SW_MASK_THREAD},
                                       {"foot", SW_MASK_THREAD},  {"knob", SW_MASK_THREAD},
                                       {"hinge", SW_MASK_PIN},    {"latch", SW_MASK_PIN}};

static const char *how(sw_mask_kind kind)
{
    static const char *const ways[SW_MASK_KINDS] = {
        "plugs in threaded holes, caps on studs", "plugs in bores; pins are put in after curing",
        "tape the width of the rope, taken off before curing", "tape round the pane's land, taken off before curing",
        "a dot of tape where the earth wire meets the metal"};
    return ways[kind];
}

/* True when the item asks for a mask. A pane without a shape gives no length. */
static bool mask_of(const coat_job *job, const sw_item *item, sw_coat_mask *mask)
{
    *mask = (sw_coat_mask){.where = item->name, .group = item->group, .count = item->count};
    double width_mm = 0, n = (double)item->count;
    if (item->kind == SW_ITEM_ROPE) {
        mask->kind = SW_MASK_ROPE_LAND;
        mask->length_mm = n * item->length_mm;
        width_mm = job->opt->rope_land_mm;
    } else if (item->kind == SW_ITEM_GLASS) {
        mask->kind = SW_MASK_GLASS_LAND;
        mask->length_mm = n * sw_contour_length(item->shape.outline);
        width_mm = job->opt->glass_land_mm;
    } else {
        size_t k = 0, known = sizeof mask_roles / sizeof *mask_roles;
        while (k < known && strcmp(mask_roles[k].word, item->role) != 0) k++;
        if (k == known) return false;
        mask->kind = mask_roles[k].kind;
    }
    mask->how = how(mask->kind);
    mask->area_m2 = sw_m2_from_mm2(mask->length_mm * width_mm);
    return true;
}

sw_status coat_masks(sw_run *run, coat_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_coat_mask *masks = SW_KEEP(run, stove->item_count + 1, sw_coat_mask);
    if (masks == NULL) return SW_NO_MEMORY;
    size_t count = 0;
    for (size_t i = 0; i < stove->item_count; i++)
        if (mask_of(job, &stove->items[i], &masks[count])) job->result->masked_m2 += masks[count++].area_m2;
    masks[count++] = (sw_coat_mask){SW_MASK_EARTH, "stove, low at the rear", "", how(SW_MASK_EARTH), 1, 0, 0};
    job->result->masked_m2 = fmin(job->result->masked_m2, job->result->coat_m2);
    job->result->coat_m2 -= job->result->masked_m2;
    job->result->masks = masks;
    job->result->mask_count = count;
    return SW_OK;
}
