/* reckon_coat.c: blasting and coating by hand. Sources stand in each row; the functions are those of making/coat. */
#include "making/coat/coat.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static void paint(const double *in, double *out)
{
    double solids = in[2] / 100, transfer = in[3] / 100;
    out[0] = sw_coat_cover_m2_l(solids, in[1]);
    out[1] = sw_coat_wet_um(solids, in[1]);
    out[2] = sw_coat_litres(in[0], in[1], solids, 1);
    out[3] = sw_coat_valley_litres(in[0], in[4]);
    out[4] = (out[2] + out[3]) / transfer;
    out[5] = sw_coat_film_kg(in[0], in[1], in[5]);
}

static void solvent(const double *in, double *out)
{
    double kg = in[0] * 1e-3 * in[1], lel = sw_coat_lel_kg_m3(in[3] / 100, in[4], sw_k_from_c(in[5]));
    out[0] = kg * 1e3;
    out[1] = lel * 1e3;
    out[2] = sw_s_from_h(sw_coat_air_m3_s(kg / sw_s_from_min(in[2]), lel, in[6] / 100));
}

static void blasting(const double *in, double *out)
{
    out[0] = sw_min_from_s(sw_blast_time_s(in[0], sw_h_from_s(in[1])));
    out[1] = sw_blast_media_kg(in[0], in[2]);
}

static void profile(const double *in, double *out)
{
    sw_profile_rz_um((sw_profile)(int)in[0], false, &out[0], &out[1]);
    sw_profile_rz_um((sw_profile)(int)in[0], true, &out[2], &out[3]);
}

/* clang-format off */
#define IN_AREA {"A", "m2", "surface", 1, 0, 1e4}

static const sw_reckon rows[] = {
    {"paint", "litres for a coat", "cover = 10 VS%/DFT; wet = DFT/VS; litres = (A/cover + valleys)/TE", "one coat; valleys of the first alone", "any handbook of painting, by its units; valleys 0.02 L/m2 for Rz 40 um: " PRACTICE,
     {IN_AREA, {"DFT", "um", "dry film", 25, 1, 1000}, {"VS", "%", "solids by volume", 30, 1, 100}, {"TE", "%", "of the paint that lands", 55, 5, 100}, {"Rz", "um", "profile; 0 = smooth", 0, 0, 200}, {"rho", "kg/m3", "dry film", 1600, 500, 5000}},
     {{"cover", "m2/L", "theoretical coverage"}, {"wet", "um", "wet film"}, {"film", "L", "paint of the film"}, {"valleys", "L", "paint in the profile"}, {"paint", "L", "paint to spray"}, {"m", "kg", "dry film"}}, paint},
    {"solvent_air", "air that keeps solvent off its explosive limit", "m = V VOC; LEL = x p M/(R T); Q = m/t/(share LEL)", "evenly mixed; health limits ask for far more", "ideal gas, mass balance: derived; 25 %: EN 16985, EN 1539; xylene 1 %: IEC 60079-20-1 (from memory)",
     {{"V", "L", "paint sprayed", NAN, 0, 1e4}, {"VOC", "g/L", "solvent in it", 480, 0, 1500}, {"t", "min", "in which it leaves", NAN, 0.1, 1e4}, {"x", "%", "lower explosive limit by volume", 1, 0.1, 20}, {"M", "kg/kmol", "solvent", 106.17, 10, 500}, {"T", "degC", "air", 20, -20, 100}, {"share", "%", "of the limit that is allowed", 25, 1, 50}},
     {{"m", "g", "solvent"}, {"LEL", "g/m3", "lower explosive limit"}, {"Q", "m3/h", "least air"}}, solvent},
    {"blasting", "time and media of blasting", "t = A/v, m = A q", "free access", "rates 9.3, 14.9, 21.4 m2/h and 24.4 kg/m2 through the nozzle: a nozzle chart (found)",
     {IN_AREA, {"v", "m2/h", "rate", 14.9, 0.1, 1000}, {"q", "kg/m2", "media through the nozzle", 24.4, 0, 500}}, {{"t", "min", "time"}, {"m", "kg", "media through the nozzle, most comes back"}}, blasting},
    {"blast_profile", "roughness after blasting", "segments of the comparators", "0, 1 or 2", "ISO 8503-1 (from memory)",
     {{"segment", "", "0 = fine, 1 = medium, 2 = coarse", 0, 0, 2}}, {{"grit_low", "um", "Rz, grit"}, {"grit_high", "um", "Rz, grit"}, {"shot_low", "um", "Rz, shot"}, {"shot_high", "um", "Rz, shot"}}, profile},
};
/* clang-format on */

const sw_reckon *sw_reckon_coat(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
