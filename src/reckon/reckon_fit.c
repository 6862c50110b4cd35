/* reckon_fit.c: tolerances, capability, sampling and control charts by hand. Sources stand in each row; the functions are those of
 * making/fit. */
#include "making/fit/fit.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define MONTGOMERY "Montgomery, Introduction to Statistical Quality Control, ch. 8 (from memory)"
#define CHARTS                                                                                                         \
    "Montgomery, Introduction to Statistical Quality Control, ch. 6 (from memory); constants by numerical integration"

static void chain(const double *in, double *out)
{
    out[0] = sw_chain_worst(in, NULL, SW_RECKON_INPUTS);
    out[1] = sw_chain_rss(in, NULL, SW_RECKON_INPUTS);
    out[2] = sw_chain_inflated(in, NULL, SW_RECKON_INPUTS);
}

static void tail(const double *in, double *out)
{
    out[0] = 100 * sw_tail_share(in[2], in[0], in[1]);
    out[1] = 100 * sw_tail_error(out[0] / 100, in[3]);
}

static void capability(const double *in, double *out)
{
    size_t n = (size_t)in[4];
    double confidence = in[5] / 100;
    out[0] = sw_cp(in[0], in[1], in[3]);
    out[1] = sw_cpk(in[0], in[1], in[2], in[3]);
    sw_interval cp = sw_cp_interval(out[0], n, confidence), cpk = sw_cpk_interval(out[1], n, confidence);
    out[2] = cp.low;
    out[3] = cp.high;
    out[4] = cpk.low;
    out[5] = cpk.high;
}

static void ppm(const double *in, double *out)
{
    out[0] = sw_ppm(in[0]);
}

static void iso2768(const double *in, double *out)
{
    static const char classes[] = "fmcv";
    char class_ = classes[(int)in[0] - 1];
    out[0] = sw_iso2768_length_mm(class_, in[1]);
    out[1] = sw_iso2768_radius_mm(class_, in[1]);
    out[2] = sw_deg_from_rad(sw_iso2768_angle_rad(class_, in[1]));
}

static void iso13920(const double *in, double *out)
{
    char class_ = "ABCD"[(int)in[0] - 1];
    out[0] = sw_iso13920_length_mm(class_, in[1]);
    out[1] = sw_deg_from_rad(sw_iso13920_angle_rad(class_, in[1]));
}

static void iso286(const double *in, double *out)
{
    out[0] = sw_iso286_unit_um(in[1]);
    out[1] = sw_iso286_it_um((int)in[0], in[1]);
}

static void misalignment(const double *in, double *out)
{
    out[0] = sw_iso5817_misalignment_mm('B', in[0]);
    out[1] = sw_iso5817_misalignment_mm('C', in[0]);
    out[2] = sw_iso5817_misalignment_mm('D', in[0]);
}

static void guard_band(const double *in, double *out)
{
    sw_interval accepted = sw_guarded(in[0], in[1], in[2] / 2, in[3]);
    out[0] = accepted.low;
    out[1] = accepted.high;
}

static void sampling(const double *in, double *out)
{
    sw_sampling plan = sw_sampling_plan((size_t)in[0], in[1]);
    bool known = plan.letter != '\0';
    out[0] = known ? (double)plan.sample : (double)NAN;
    out[1] = known ? (double)plan.accept : (double)NAN;
    out[2] = known ? sw_accept_probability(plan.sample, plan.accept, in[2] / 100) : (double)NAN;
}

static void acceptance(const double *in, double *out)
{
    out[0] = sw_accept_probability((size_t)in[0], (size_t)in[1], in[2] / 100);
}

static void shewhart(const double *in, double *out)
{
    sw_shewhart k = sw_shewhart_of((size_t)in[0]);
    out[0] = k.d2;
    out[1] = k.d3;
    out[2] = k.c4;
    out[3] = k.a2;
    out[4] = k.D3;
    out[5] = k.D4;
}

static void shewhart_s(const double *in, double *out)
{
    sw_shewhart k = sw_shewhart_of((size_t)in[0]);
    out[0] = k.c4;
    out[1] = k.a3;
    out[2] = k.B3;
    out[3] = k.B4;
}

static void chart_limits(const double *in, double *out)
{
    sw_shewhart k = sw_shewhart_of((size_t)in[0]);
    out[0] = in[1] - k.a2 * in[2];
    out[1] = in[1] + k.a2 * in[2];
    out[2] = k.D3 * in[2];
    out[3] = k.D4 * in[2];
    out[4] = in[2] / k.d2;
}

static void profile(const double *in, double *out)
{
    out[0] = sw_profile_deviation_mm(in, 2);
}

/* clang-format off */
#define IN_CLASS(names) {"class", "", names, 2, 1, 4}
#define IN_T(name) {name, "mm", "tolerance, plus or minus", 0, 0, 1e4}
#define IN_N {"n", "", "values in a sample", NAN, 2, 25}

static const sw_reckon rows[] = {
    {"tolerance_chain", "a chain of tolerances in one line", "worst sum T; rss sqrt(sum T2); inflated 1.5 rss", "up to eight links of sensitivity 1", "derived: sums; 1.5: Bender 1962 (from memory)",
     {{"T1", "mm", "tolerance, plus or minus", NAN, 0, 1e4}, IN_T("T2"), IN_T("T3"), IN_T("T4"), IN_T("T5"), IN_T("T6"), IN_T("T7"), IN_T("T8")},
     {{"worst", "mm", "worst case"}, {"rss", "mm", "root of squares"}, {"inflated", "mm", "inflated root of squares"}}, chain},
    {"tail_share", "share of a normal quantity beyond a limit", "p = Phi((mean - limit)/sigma); error sqrt(p (1 - p)/N)", "normal law", "derived: normal and binomial law",
     {{"mean", "", "mean", NAN, -1e6, 1e6}, {"sigma", "", "standard deviation", NAN, 0, 1e6}, {"limit", "", "upper limit", NAN, -1e6, 1e6}, {"N", "", "trials that would count it", 100000, 1, 1e12}},
     {{"p", "%", "share above the limit"}, {"error", "%", "standard error when counted in N trials"}}, tail},
    {"capability", "Cp and Cpk with their intervals", "Cp = (U - L)/6 s; Cpk = min(U - m, m - L)/3 s; chi square, Bissell", "normal law", MONTGOMERY,
     {{"L", "", "lower limit", NAN, -1e6, 1e6}, {"U", "", "upper limit", NAN, -1e6, 1e6}, {"mean", "", "mean", NAN, -1e6, 1e6}, {"s", "", "standard deviation", NAN, 1e-9, 1e6}, {"n", "", "values", NAN, 2, 1e6}, {"confidence", "%", "of the intervals", 95, 1, 99.99}},
     {{"Cp", "", "spread alone"}, {"Cpk", "", "with the mean's place"}, {"Cp_low", "", "lower bound"}, {"Cp_high", "", "upper bound"}, {"Cpk_low", "", "lower bound"}, {"Cpk_high", "", "upper bound"}}, capability},
    {"ppm", "parts beyond the nearer limit at a Cpk", "1e6 Phi(-3 Cpk)", "normal law, one side", "derived: normal law",
     {{"Cpk", "", "capability", NAN, -2, 5}}, {{"ppm", "ppm", "beyond the nearer limit"}}, ppm},
    {"iso2768", "general tolerances of ISO 2768-1", "table by class and size", "lengths 0.5 to 4000 mm", "ISO 2768-1 (f, m, v of lengths found; the rest from memory)",
     {IN_CLASS("1 = f, 2 = m, 3 = c, 4 = v"), {"L", "mm", "nominal size; of angles the shorter leg", NAN, 0.5, 4000}},
     {{"length", "mm", "of a length, plus or minus"}, {"radius", "mm", "of a radius or chamfer, plus or minus"}, {"angle", "deg", "of an angle, plus or minus"}}, iso2768},
    {"iso13920", "general tolerances of weldments", "table by class and size", "lengths 2 to 4000 mm", "ISO 13920 (found)",
     {IN_CLASS("1 = A, 2 = B, 3 = C, 4 = D"), {"L", "mm", "nominal size; of angles the shorter leg", NAN, 2, 4000}},
     {{"length", "mm", "of a length, plus or minus"}, {"angle", "deg", "of an angle, plus or minus"}}, iso13920},
    {"iso286", "standard tolerance of a diameter", "i = 0.45 D^(1/3) + 0.001 D, D of the step; IT6 10 i to IT13 250 i", "to 500 mm; the standard rounds", "ISO 286-1 (from memory)",
     {{"grade", "", "IT grade", 7, 6, 13}, {"D", "mm", "nominal size", NAN, 0.01, 500}}, {{"i", "um", "tolerance unit"}, {"IT", "um", "tolerance zone"}}, iso286},
    {"misalignment", "how far butting sheets may stand apart", "level B 0.1 t, C 0.15 t, D 0.25 t", "plates; the standard's rows are for above 3 mm", "ISO 5817, linear misalignment (from memory)",
     {{"t", "mm", "thickness", NAN, 0.1, 100}}, {{"B", "mm", "level B, at most 3"}, {"C", "mm", "level C, at most 4"}, {"D", "mm", "level D, at most 5"}}, misalignment},
    {"guard_band", "where a measured value proves conformity", "accept L + g to U - g; g = k U95/2", "k 2: the expanded uncertainty; 1.65: one-sided 95 %", "ISO 14253-1 (from memory)",
     {{"L", "", "lower limit", NAN, -1e6, 1e6}, {"U", "", "upper limit", NAN, -1e6, 1e6}, {"U95", "", "expanded uncertainty, k = 2", NAN, 0, 1e6}, {"k", "", "guard factor", 2, 0, 3}},
     {{"low", "", "accept from"}, {"high", "", "accept to"}}, guard_band},
    {"sampling", "sample of a lot by attributes", "table by lot and AQL; P = sum of the binomial law", "level II, normal, single; lots to 35000", "ISO 2859-1 (letters found; acceptance numbers from memory)",
     {{"lot", "", "pieces in the lot", NAN, 2, 35000}, {"AQL", "%", "0.65, 1, 1.5, 2.5, 4 or 6.5", 2.5, 0.65, 6.5}, {"bad", "%", "bad ones in the lot", 1, 0, 100}},
     {{"n", "", "sample"}, {"Ac", "", "accept with at most so many bad ones"}, {"Pa", "", "probability of acceptance"}}, sampling},
    {"acceptance", "probability that a sample passes a lot", "sum k = 0..c of binomial(n, k)", "lot much larger than the sample", "derived: binomial law",
     {{"n", "", "sample", NAN, 1, 100000}, {"c", "", "acceptance number", NAN, 0, 100000}, {"bad", "%", "bad ones in the lot", NAN, 0, 100}}, {{"Pa", "", "probability of acceptance"}}, acceptance},
    {"shewhart", "constants of control charts with ranges", "d2, d3 by integration of the normal range; A2 = 3/(d2 sqrt n), D = 1 -+ 3 d3/d2", "samples of 2 to 25", CHARTS,
     {IN_N}, {{"d2", "", "mean range, in sigma"}, {"d3", "", "its standard deviation"}, {"c4", "", "mean s, in sigma"}, {"A2", "", "limits of the mean"}, {"D3", "", "lower limit of the range"}, {"D4", "", "upper limit of the range"}}, shewhart},
    {"shewhart_s", "constants of control charts with standard deviations", "c4 = sqrt(2/(n - 1)) G(n/2)/G((n - 1)/2); A3 = 3/(c4 sqrt n)", "samples of 2 to 25", CHARTS,
     {IN_N}, {{"c4", "", "mean s, in sigma"}, {"A3", "", "limits of the mean"}, {"B3", "", "lower limit of s"}, {"B4", "", "upper limit of s"}}, shewhart_s},
    {"chart_limits", "limits of an X-bar and R chart", "X -+ A2 R; D3 R, D4 R; sigma = R/d2", "samples of 2 to 25", CHARTS,
     {IN_N, {"X", "", "mean of the means", NAN, -1e6, 1e6}, {"R", "", "mean range", NAN, 0, 1e6}},
     {{"low", "", "lower limit of the mean"}, {"high", "", "upper limit of the mean"}, {"R_low", "", "lower limit of the range"}, {"R_high", "", "upper limit of the range"}, {"sigma", "", "standard deviation"}}, chart_limits},
    {"profile", "deviation of a surface from its true profile", "t = 2 max |d|", "d measured normal to the true profile", "ISO 1101 (from memory)",
     {{"high", "mm", "farthest above", NAN, -1e4, 1e4}, {"low", "mm", "farthest below", 0, -1e4, 1e4}}, {{"t", "mm", "deviation, to compare with the tolerance"}}, profile},
};
/* clang-format on */

const sw_reckon *sw_reckon_fit(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
