/* join_report.c: adding one finding of this study. */
#include "making/join/join_parts.h"

sw_status join_report(sw_run *run, join_job *job, sw_finding finding, double watch_margin)
{
    if (finding.what == NULL || finding.where == NULL || finding.remedy == NULL) return SW_NO_MEMORY;
    sw_findings *findings = &job->result->findings;
    finding.study = "join";
    SW_TRY(sw_finding_add(run, findings, finding, watch_margin));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}
