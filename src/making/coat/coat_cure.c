/* coat_cure.c: drying, oven and first fires.
 *
 * Resin cures in 30 to 60 min at 200 to 250 degC of the metal, or in three first fires: common practice, no source; the
 * product's data sheet counts. */
#include "making/coat/coat_parts.h"

#include <math.h>

static const double room_c = 20;

static sw_coat_step step(const char *name, const char *text, double t_k, double time_s)
{
    return (sw_coat_step){name, text, t_k, time_s};
}

static size_t oven_steps(const coat_job *job, sw_coat_step *steps)
{
    const sw_coating *c = job->coating;
    sw_coat_result *r = job->result;
    double room_k = sw_k_from_c(room_c);
    double up_s = sw_s_from_min(fmax(0, c->cure_k - room_k) / job->opt->heat_up_k_min);
    size_t n = 0;
    steps[n++] = step("flash off", "in the booth's air until touch-dry after each coat", room_k, c->dry_s);
    r->cure_s = r->cure_each_s = 0;
    if (!(c->cure_k > room_k) || !(c->cure_s > 0)) return n;
    steps[n++] =
        step("heat up", "oven with fresh air on; the metal's temperature counts, not the air's", c->cure_k, up_s);
    steps[n++] = step("hold", "at the metal's temperature", c->cure_k, c->cure_s);
    steps[n++] = step("cool down", "to hand-warm before anybody touches the film", room_k, 0);
    r->cure_s = up_s + c->cure_s;
    r->cure_each_s = r->cure_s / fmax(1, c->oven_load);
    return n;
}

/* Figures: common practice, no source. The last is a full fire, below the class of the coating. */
static void fire_steps(const coat_job *job, sw_coat_step *steps)
{
    double class_k = job->coating != NULL && job->coating->class_k > 0 ? job->coating->class_k : sw_k_from_c(600);
    steps[0] =
        step("first fire, small", "kindling alone, windows open, door ajar by a finger; let it go out and cool down",
             sw_k_from_c(150), sw_s_from_min(30));
    steps[1] = step("second fire, half", "half a charge, windows open; it smells: the resin hardens. Let it cool down",
                    sw_k_from_c(250), sw_s_from_min(45));
    steps[2] = step("third fire, full", "a full charge, windows open until nothing smells any more",
                    fmin(sw_k_from_c(400), class_k - 50), sw_s_from_min(60));
}

sw_status coat_cure(sw_run *run, coat_job *job)
{
    enum { OVEN_STEPS = 4, FIRES = 3 };
    sw_coat_step *cure = SW_KEEP(run, OVEN_STEPS, sw_coat_step), *fires = SW_KEEP(run, FIRES, sw_coat_step);
    if (cure == NULL || fires == NULL) return SW_NO_MEMORY;
    job->result->cure_s = job->result->cure_each_s = NAN;
    job->result->cure = cure;
    if (job->coating != NULL) job->result->cure_count = oven_steps(job, cure);
    fire_steps(job, fires);
    job->result->fires = fires;
    job->result->fire_count = FIRES;
    return SW_OK;
}
