/* dossier_cautions.c: the usual cautions for everyone who acts on these papers. Common practice, no source, unless
 * the text names one. */
#include "papers/doc_parts.h"

static const char *const cautions[] = {
    "Before cutting: these papers are computed from the descriptions named on the front page. Measure the first piece of each kind after bending, and the first "
    "stove after tacking, before the batch goes on.",
    "Laser: the beam is class 4 inside the enclosure (IEC 60825-1). Keep the enclosure shut and the interlocks whole; extract and filter the fume; cut-outs and "
    "skeletons stay hot; oxygen-assisted cutting throws sparks, keep combustibles away.",
    "Sheets and flats have sharp edges: cut-resistant gloves, edges broken before handling. Small pieces can tip up into the path of the head.",
    "Press brake and rolls: pinch and crush points. Guards in place, fingers out of the die space, nobody in the path of a flange that whips up; nobody alone at "
    "the rolls; support large shells.",
    "Lifting: plan the lift from the mass and the centre of gravity given here. Use gear that is marked and inspected, and two people or a hoist above what one "
    "may lift under local rules; nobody under a load.",
    "Welding and grinding are hot work: permit where one is needed, combustibles away or covered, extinguisher at hand, fire watch afterwards. Extract the fume, "
    "above all from stainless and coated sheet; screen the arc.",
    "Blasting dust and old paint: use silica-free abrasive, extraction and a supplied-air helmet.",
    "Lining boards and rope may hold crystalline silica or ceramic fibre: cut wet or with extraction, filter mask of the class the data sheet asks for, no dry "
    "sweeping, no compressed air. Vermiculite dust is a nuisance dust.",
    "High-temperature coating gives off fumes while it cures: coat and cure with extraction, and tell the owner to air the room well during the first fires.",
    "Any fire gives off carbon monoxide, which has no smell and kills: a carbon monoxide alarm belongs in the room (EN 50291-1), air for combustion must be able "
    "to come in, and the chimney must be inspected and swept before it is used again.",
    "Surfaces get hot enough to burn skin: guard children; keep the distances to combustibles that the type test or local code asks for.",
    "These results support and never replace type testing by an accredited body, the local building code and the work of licensed fitters and sweeps. A verdict "
    "\"unknown\" is not a pass.",
};

sw_status dossier_cautions(sw_run *run, doc_book *doc)
{
    SW_TRY(doc_heading(run, doc, 1, "Cautions"));
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = cautions[i]}));
    return SW_OK;
}
