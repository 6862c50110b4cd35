#include "reckon_solved.h"

#include <math.h>

static void gas_of_the_reference_wood(sw_test *t)
{
    const char *book = "handbook FS-1 (computed)";
    const double *out = SOLVED(t, "chimney_gas", "CO2=10", "t=300");
    sw_near(t, out[0], 2.0385, 2e-3, book);
    sw_near(t, out[1], 11.1525, 0.01, book);
    sw_near(t, out[2], 0.74030, 7e-4, book);
    sw_near(t, out[3], 9.933, 0.01, book);
    sw_near(t, out[4], 287.27, 0.28, book);
    sw_near(t, out[5], 1113.7, 1.1, book);
    sw_true(t, isnan(SOLVED(t, "chimney_gas", "C=20", "O=5", "H=15", "CO2=20")[0]));
    sw_near(t, SOLVED(t, "chimney_flow", "Q=7")[0], 6.018, 6e-3, "handbook FS-8 (computed)");
    out = SOLVED(t, "chimney_lowest", "m=6", "t=280");
    sw_near(t, out[0], 2, 1e-12, "EN 13384-1 cl. 5.5 (from memory)");
    sw_near(t, out[1], 186.667, 1e-3, "EN 13384-1 cl. 5.5 (from memory)");
}

static void air_and_dew_point(sw_test *t)
{
    const double *out = SOLVED(t, "chimney_air", "z=200", "TL=-10");
    sw_near(t, out[0], 94521.1, 0.1, "handbook FS-2 (computed)");
    sw_near(t, out[1], 1.24719, 1e-5, "handbook FS-2 (computed)");
    sw_near(t, SOLVED(t, "chimney_dew_point", "H2O=10", "p=94521.06")[0], 44.74, 0.01, "handbook FS-3 (computed)");
    out = SOLVED(t, "chimney_gas_properties", "t=259.765", "p=94733.6");
    sw_near(t, out[0], 0.0391847, 1e-7, "handbook FS-8 (computed)");
    sw_near(t, out[1], 2.58594e-5, 1e-9, "handbook FS-8 (computed)");
    sw_near(t, out[2], 1107.17, 1.1, "handbook FS-8 (computed)");
    sw_near(t, out[3], 0.730659, 7e-4, "handbook FS-8 (computed)");
    sw_near(t, out[4], 0.619008, 6e-4, "handbook FS-8 (computed)");
}

static void friction_and_heat_transfer(sw_test *t)
{
    const double *out = SOLVED(t, "chimney_friction", "Re=5000", "L=6");
    sw_near(t, out[0], 0.044197, 1e-6, "handbook FS-4 (computed)");
    sw_near(t, out[1], 0.037393, 1e-6, "handbook FS-4 (computed)");
    sw_near(t, out[2], 18.546, 1e-3, "handbook FS-4 (computed)");
}

static void cooling_is_the_law_of_the_reference(sw_test *t)
{
    const double *out = SOLVED(t, "chimney_cooling", "m=6", "Te=240.588", "L=5", "R=0.384232", "Da=449", "SH=0.5");
    sw_near(t, out[0], 465.216 - 273.15, 0.1, "handbook FS-8 (computed): temperatures do not depend on the pressure");
    sw_near(t, out[1], 424.207 - 273.15, 0.1, "handbook FS-8 (computed)");
    sw_near(t, out[2], 0.505633, 5e-4, "handbook FS-8 (computed)");
    sw_near(t, out[3], 1.40159, 1.4e-3, "handbook FS-8 (computed)");
    sw_near(t, out[4], 1.99808, 2e-3, "handbook FS-8 (computed)");
    sw_true(t, isnan(SOLVED(t, "chimney_cooling", "m=6", "Te=240", "L=5", "Da=100")[0]));
    out = SOLVED(t, "chimney_inner_wall", "To=168.254", "Tu=-10", "ai=1.93535", "R=0.384232", "Da=449");
    sw_near(t, out[0], 67.64, 0.02, "handbook FS-8 (computed)");
    sw_near(t, out[1], 1.09235, 1e-4, "handbook FS-8 (computed)");
}

static void walls(sw_test *t)
{
    sw_near(t, SOLVED(t, "chimney_layer", "lambda=0.07", "Din=150", "Dout=200")[0], 0.30823, 1e-5,
            "handbook FS-5 (computed)");
    sw_near(t, SOLVED(t, "chimney_layer", "y=1.1", "lambda=0.75", "Din=225", "Dout=449")[0], 0.07600, 1e-5,
            "handbook FS-5 (computed)");
    const double *out = SOLVED(t, "chimney_air_gap", "hc=1.3");
    sw_near(t, out[0], 6.0, 0.15, "handbook S1.9 (computed)");
    sw_near(t, out[1], 0.14, 3e-3, "handbook S1.9 (computed)");
}

static void draught_and_resistance(sw_test *t)
{
    const double *out = SOLVED(t, "chimney_draught", "H=5", "Tm=192.066", "z=200");
    sw_near(t, out[0], 21.212, 0.02, "handbook FS-8 (computed)");
    sw_near(t, out[2], 0.709088, 7e-4, "handbook FS-8 (computed)");
    out = SOLVED(t, "chimney_resistance", "m=6", "Tm=192.066", "L=5", "zeta=1.75");
    sw_near(t, out[0], 0.284 * 94733.6 / 97000, 1e-3, "handbook FS-8 (computed), at sea level");
    sw_near(t, out[5], 2186.8, 2, "handbook FS-8 (computed)");
    sw_near(t, out[3], 1.5 * out[0], 1e-12, "EN 13384-1, S_E 1.5 (from memory)");
    out = SOLVED(t, "chimney_steps", "d1=100", "d2=200");
    sw_near(t, out[0], 0.5625, 1e-12, "Borda and Carnot (from memory)");
    sw_true(t, isnan(out[1]));
    sw_near(t, SOLVED(t, "chimney_steps", "d1=200", "d2=100")[1], 0.9375, 1e-12, "ASHRAE (from memory)");
    sw_near(t, SOLVED(t, "chimney_plate", "excess=31.32", "m=6", "t=262.4")[0], 334 * 97000 / 94521.0, 3,
            "handbook FS-11 (computed), at sea level");
    out = SOLVED(t, "chimney_supply", "m=19.5", "A=2914", "zeta=2.7778", "SEB=1");
    sw_near(t, out[0], 4, 0.02, "handbook FS-17 (computed): 5.4176 g/s at 4 Pa");
}

static void wind_and_standing_draught(sw_test *t)
{
    const double *out = SOLVED(t, "chimney_wind", "pitch=45", "ridge=3", "above=1");
    sw_near(t, out[1], 25, 0, "EN 13384-1 cl. 5.10.4 (from memory)");
    sw_near(t, out[2], 40, 0, "EN 13384-1 cl. 5.10.4 (from memory)");
    sw_near(t, out[3], -2, 1e-12, "derived");
    sw_near(t, SOLVED(t, "chimney_wind", "pitch=45", "ridge=0", "above=1")[1], 0, 0,
            "EN 13384-1 cl. 5.10.4 (from memory): over the ridge");
    const char *book = "handbook FS-13 (computed)";
    sw_near(t, SOLVED(t, "standing_draught", "H=8", "Tout=18", "Tshaft=10")[0], -2.69, 0.01, book);
    sw_near(t, SOLVED(t, "standing_draught", "H=8", "Tout=5", "Tshaft=20")[0], 5.10, 0.01, book);
    sw_near(t, SOLVED(t, "standing_draught", "H=6", "Tout=15", "Tshaft=60")[0], 9.74, 0.01, book);
    sw_near(t, SOLVED(t, "standing_draught", "H=2.5", "Tout=-5", "Tshaft=20")[0], 2.75, 0.01, book);
    out = SOLVED(t, "chimney_soak", "time=30");
    sw_near(t, out[0], 30, 0.2, book);
    sw_near(t, out[1] * 1.2 * 8, 434, 1, book);
    out = SOLVED(t, "chimney_soak", "lambda=17", "rho=7900", "c=500", "s=0.24");
    sw_near(t, out[1] * SW_PI * 0.15 * 8, 3.57, 0.01, book);
    sw_near(t, out[2], 8, 0.2, book);
}

static void stabiliser_and_door(sw_test *t)
{
    const double *out = SOLVED(t, "stabiliser_mix", "m=6", "T=280", "CO2=11", "air=0");
    sw_near(t, out[0], 280, 1e-9, "derived: no air, no change");
    sw_near(t, out[2], 10.732, 2e-3, "handbook FS-8 (computed)");
    out = SOLVED(t, "stabiliser_mix", "m=6", "T=280", "CO2=11", "air=6", "p=94521.06");
    sw_near(t, out[0], 150, 10, "derived: as much air as gas, near the middle of 280 and 20 degC");
    sw_near(t, out[1], 5.3, 0.5, "derived: as much air as gas, about half of 11 %");
    sw_true(t, out[3] < 46); /* below the gas's own, handbook FS-8 */
    sw_near(t, SOLVED(t, "stabiliser_open", "D=60.911", "P=4", "rho=1.2")[0], 5.4176, 2e-3,
            "handbook FS-17 (computed)");
    out = SOLVED(t, "door_open", "W=350", "H=350", "rho=1.2");
    sw_near(t, out[0], 35.28, 1e-9, "derived: rho w A at 0.24 m/s");
    sw_near(t, out[1], 0.096, 1e-12, "law: (w/0.6)2 rho/2");
    sw_near(t, SOLVED(t, "chimney_gust", "v=6.455", "rho=1.2")[0], 25, 0.01, "law: rho v2/2");
}

SW_TESTS(SW_CASE(stabiliser_and_door), SW_CASE(gas_of_the_reference_wood), SW_CASE(air_and_dew_point),
         SW_CASE(friction_and_heat_transfer), SW_CASE(cooling_is_the_law_of_the_reference), SW_CASE(walls),
         SW_CASE(draught_and_resistance), SW_CASE(wind_and_standing_draught))
