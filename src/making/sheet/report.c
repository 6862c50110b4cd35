/* report.c: adding one finding of this study. */
#include "making/sheet/sheet_parts.h"

sw_status sw_sheet_report(sw_run *run, const sw_sheet_study *study, sw_finding finding, double watch_margin)
{
    if (finding.what == NULL || finding.where == NULL) return SW_NO_MEMORY;
    finding.study = "sheet";
    SW_TRY(sw_finding_add(run, study->findings, finding, watch_margin));
    sw_finding *added = &study->findings->items[study->findings->count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}

const char *sw_piece_label(sw_run *run, const sw_piece *piece)
{
    return sw_text_format(run, run->keep, "%s %s", piece->number, piece->name);
}
