/* serve_house.c: a house's text to be changed on the page, and the stove on its chimney under any weather. */
#include "app/serve.h"

void serve_house_text(serve_call *call)
{
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 20) != SW_OK) {
        serve_say_error(call, MHD_HTTP_INSUFFICIENT_STORAGE, "no memory for this", "wait a little and ask again");
        return;
    }
    if (serve_find_file(call->s, &run, call->rest, ".house.lua") == NULL)
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such house",
                        "give the name of a *.house.lua file of the project");
    else
        serve_send_file(call, call->s->folder, call->rest);
    sw_run_close(&run);
}

/* ---- one weather ------------------------------------------------------------------------------------------------- */

enum { OUTSIDE_LEAST_C = -50, OUTSIDE_MOST_C = 45 };

static sw_status operating(serve_call *call, serve_work *work, const json_t *state)
{
    sw_run *run = &work->run;
    sw_dossier d;
    sw_operating o;
    sw_writer *w = NULL;
    double outside_c = 15; /* the mild day of EN 13384-1, from memory */
    SW_TRY(serve_number_read(run, state, "outside_c", OUTSIDE_LEAST_C, OUTSIDE_MOST_C, &outside_c));
    SW_TRY(sw_dossier_make(run, &work->request, SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE, "", &d));
    SW_TRY(sw_dossier_operating(run, &work->request, &d, sw_k_from_c(outside_c), work->request.wind_pa, &o));
    SW_TRY(sw_writer_to_memory(run, &w));
    return serve_say_written(call, run, w, sw_paper_json_operating(run, &o, w), "application/json");
}

void serve_operating(serve_call *call)
{
    serve_answer_study(call, operating);
}
