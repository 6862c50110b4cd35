/* join_figures.c: what one seam takes: the works' row, filler, heat, wire, gas, energy, shrinkage. */
#include "making/join/join_parts.h"

static const double row_slack_mm = 0.05; /* ours: throats are given to a tenth */

static bool row_fits(const sw_weld_row *row, double throat_mm, double thin_mm)
{
    if (fabs(row->throat_mm - throat_mm) > row_slack_mm) return false;
    return thin_mm >= row->thick_least_mm - row_slack_mm &&
           (row->thick_most_mm <= 0 || thin_mm <= row->thick_most_mm + row_slack_mm);
}

const sw_weld_row *join_row_of(const join_job *job, const sw_join_seam *s)
{
    double thin_mm = fmin(s->thick_a_mm, s->thick_b_mm);
    for (size_t i = 0; job->welding != NULL && i < job->welding->row_count; i++)
        if (row_fits(&job->welding->rows[i], s->throat_mm, thin_mm)) return &job->welding->rows[i];
    return NULL;
}

/* A square butt is filled as deep as its throat and has a cap 1 mm high and 2 mm wider than the gap (ours); an outside
 * corner and a plug take what a fillet of their throat takes (ours). */
static double filler_mm2(const join_job *job, const sw_join_seam *s, double gap_mm)
{
    if (s->kind != SW_SEAM_SQUARE) return sw_fillet_area_mm2(s->throat_mm, job->opt->excess);
    const double cap_mm = 1, wider_mm = 2;
    return s->throat_mm > 0 ? s->throat_mm * gap_mm + 2.0 / 3.0 * (gap_mm + wider_mm) * cap_mm : (double)NAN;
}

static double travel_of(const join_job *job, const sw_join_seam *s)
{
    const sw_weld_row *row = s->row;
    double given = s->station == SW_JOIN_ROBOT ? row->robot_mm_s : row->hand_mm_s;
    if (given > 0) return given;
    return sw_weld_travel_mm_s(row->wire_mm, row->feed_m_s, s->area_mm2, job->opt->wire_share);
}

/* By the heat; a butt of unknown heat, or too thick for it, by its filler. At a corner both sheets end: half of what runs on. */
static double across_mm(const join_seam *seam, const sw_join_seam *s, double gap_mm)
{
    double thin_mm = fmin(s->thick_a_mm, s->thick_b_mm);
    double foot_mm = s->joint->kind == SW_JOINT_CORNER ? 2 * s->thick_a_mm : s->thick_a_mm;
    double by_heat_mm = seam->butt ? sw_shrink_across_mm(s->heat_kj_mm, thin_mm, 0)
                                   : sw_shrink_across_mm(s->heat_kj_mm, s->thick_b_mm, foot_mm);
    return isnan(by_heat_mm) && seam->butt ? sw_shrink_butt_gap_mm(s->area_mm2, thin_mm, gap_mm) : by_heat_mm;
}

static void shrinkage(const join_job *job, const join_seam *seam, sw_join_seam *s, double gap_mm)
{
    double leg_mm = sw_fillet_leg_mm(s->throat_mm), share = s->touch_mm > 0 ? s->weld_mm / s->touch_mm : 0;
    s->along_mm = sw_shrink_along_mm(s->weld_mm, seam->butt);
    s->transverse_mm = across_mm(seam, s, gap_mm);
    bool whole = !seam->butt && s->weld_mm >= job->opt->width_mm; /* the formula is for long seams */
    s->rise_mm = !whole ? (double)NAN : sw_flange_rise_mm(job->opt->width_mm, leg_mm, s->thick_b_mm) * share;
}

static void rowed(const join_job *job, sw_join_seam *s)
{
    s->travel_mm_s = travel_of(job, s);
    s->heat_kj_mm =
        sw_heat_input_kj_mm(sw_weld_efficiency(job->welding->process), s->row->volts, s->row->amps, s->travel_mm_s);
    s->arc_s = s->arc_mm / s->travel_mm_s;
    s->wire_kg = sw_weld_kg_m(s->area_mm2) * sw_m_from_mm(s->arc_mm) / job->opt->wire_share;
    s->gas_m3 = s->row->gas_m3_s * s->arc_s;
    s->energy_j = s->row->volts * s->row->amps * s->arc_s / job->opt->source_share;
}

void join_figures(const join_job *job, join_seam *seam)
{
    sw_join_seam *s = seam->out;
    const sw_joint_fit *fit = &job->in->sheet->joints[s->joint - job->in->stove->joints];
    double gap_mm = isnan(fit->gap_most_mm) ? s->joint->gap_max_mm : (fit->gap_least_mm + fit->gap_most_mm) / 2;
    s->row = join_row_of(job, s);
    s->area_mm2 = filler_mm2(job, s, gap_mm);
    s->travel_mm_s = s->heat_kj_mm = s->wire_kg = s->gas_m3 = s->energy_j = s->arc_s = NAN;
    if (s->row != NULL) rowed(job, s);
    shrinkage(job, seam, s, gap_mm);
}
