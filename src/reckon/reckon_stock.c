/* reckon_stock.c: sheet as it is bought. Sources stand in each row. */
#include "making/nest/nest.h"
#include "matter/matter.h"
#include "reckon/reckon_parts.h"

#include <math.h>

static void sheet_mass(const double *in, double *out)
{
    out[0] = sw_sheet_mass_kg(in[3], in[0] * in[1], in[2]);
}

static void tolerance(const double *in, double *out)
{
    sw_grade hot = *sw_grade_find("S235");
    hot.re_min_mpa = in[2];
    out[0] = sw_thickness_tolerance_mm(&hot, in[0], in[1]);
    out[1] = sw_thickness_tolerance_mm(sw_grade_find("DC01"), in[0], in[1]);
    out[2] = sw_special_tolerance_mm(in[0], in[1]);
}

static void steel_cost(const double *in, double *out)
{
    double parts_kg = in[0] * in[1], remnant_kg = in[0] * in[2];
    double cost = sw_steel_cost(in[0] * in[3], in[0], parts_kg, remnant_kg, in[4], in[5]);
    out[0] = parts_kg;
    out[1] = cost / parts_kg;
    out[2] = sw_steel_cost(in[0] * in[3], in[0], parts_kg, remnant_kg, in[4], 0) / parts_kg;
}

/* clang-format off */
static const sw_reckon rows[] = {
    {"sheet_mass", "mass of a sheet", "m = rho L W s", "any", "density 7850 kg/m3: EN 10025-2 (from memory)",
     {{"L", "mm", "length", NAN, 1, 1e5}, {"W", "mm", "width", NAN, 1, 1e5}, {"s", "mm", "thickness", NAN, 0.1, 100}, {"rho", "kg/m3", "density", 7850, 100, 2e4}},
     {{"m", "kg", "mass"}}, sheet_mass},
    {"thickness_tolerance", "how far the thickness may be off", "table by thickness and width of the sheet; hot rolled 15, 30, 40 % more above Re 300, 360, 420 MPa", "EN 10051: to 10 mm; EN 10131: 0.8 to 3 mm, Re below 260 MPa",
     "EN 10051:2010 (shares seen for an older edition); EN 10131:2006", {{"s", "mm", "thickness", NAN, 0.1, 50}, {"w", "mm", "width of the sheet", 1500, 1, 4000}, {"Re", "MPa", "least yield strength of the hot rolled sheet", 235, 100, 900}},
     {{"hot", "mm", "hot rolled, plus or minus"}, {"cold", "mm", "cold rolled, normal, plus or minus"}, {"special", "mm", "cold rolled, special, plus or minus"}}, tolerance},
    {"steel_cost", "cost of a kilogram of steel that ends in pieces", "[p m_sheet - p_scrap m_skeleton - f p m_remnant]/m_parts", "any", "derived: balance of one sheet",
     {{"m", "kg", "sheet", NAN, 1e-3, 1e6}, {"used", "", "share that becomes pieces", NAN, 1e-3, 1}, {"kept", "", "share kept as a remnant", 0, 0, 1}, {"p", "1/kg", "price of sheet", NAN, 0, 1e4}, {"f", "", "value of a remnant against new sheet", 0.6, 0, 1}, {"scrap", "1/kg", "price paid for scrap", 0, 0, 1e4}},
     {{"parts", "kg", "mass of the pieces"}, {"cost", "1/kg", "cost a kilogram used"}, {"without", "1/kg", "the same without money for scrap"}}, steel_cost},
};
/* clang-format on */

const sw_reckon *sw_reckon_stock(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
