/* command_make.c: the whole dossier into a folder that appears whole or not at all. */
#include "app/app.h"

#include <string.h>
#include <time.h>

const char *sw_today(sw_run *run)
{
    time_t now = time(NULL);
    struct tm parts;
    if (localtime_r(&now, &parts) == NULL) return "";
    return sw_text_format(run, run->keep, "%04d-%02d-%02d", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
}

static sw_status write_all(sw_run *run, const sw_dossier *d, sw_folder *folder, const sw_paper_file **files,
                           size_t *count)
{
    SW_TRY(sw_papers_write(run, d, folder, files, count));
    return sw_folder_publish(run, folder);
}

int sw_command_make(sw_run *run, const sw_request *request, sw_writer *out)
{
    sw_folder folder = {0};
    sw_dossier d;
    const char *date = sw_today(run);
    if (date == NULL) return SW_EXIT_TROUBLE;
    /* The folder first: an unwritable place should be told before the work, not after it. */
    sw_status status = sw_folder_open(run, request->out == NULL ? "dossier" : request->out, &folder);
    if (status != SW_OK) return sw_exit_of_status(status);
    const sw_paper_file *files = NULL;
    size_t count = 0;
    status = sw_dossier_make(run, request, SW_DO_MAKE | (request->map ? SW_DO_MAP : 0), date, &d);
    if (status == SW_OK) status = write_all(run, &d, &folder, &files, &count);
    sw_folder_discard(&folder);
    if (status != SW_OK) return sw_exit_of_status(status);
    if (request->json) {
        status = sw_paper_json(run, &d, out);
        return status == SW_OK ? sw_exit_of_findings(&d.findings, NULL) : sw_exit_of_status(status);
    }
    sw_print(out, "%s, batch of %zu: %zu files in %s\n", d.model.stove->title, d.batch, count, folder.path);
    sw_report_findings(out, &d, NULL, request->all);
    return sw_exit_of_findings(&d.findings, NULL);
}
