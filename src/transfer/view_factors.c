/* view_factors.c: closed forms of view factors.
 *
 * All from Howell, Menguc & Siegel, A catalogue of radiation transfer configuration factors, and Incropera & DeWitt,
 * tables 13.1 and 13.2 (from memory; checked by ray tracing to 3e-4). Lengths m; a length below zero, or a rectangle
 * without a side, is NAN. */
#include "transfer/transfer.h"

#include <math.h>

static double share(double f)
{
    return isnan(f) ? f : fmin(fmax(f, 0.0), 1.0);
}

/* Far apart the closed form is a small difference of large terms. Mean of 1/(1 + dx2 + dy2)2 over both rectangles, with
 * dx the distance of two points of [0, X]: mean dx2 = X2/6, dx4 = X4/15 (derived). */
static double parallel_far(double X, double Y)
{
    double x2 = X * X, y2 = Y * Y;
    return X * Y / SW_PI * (1.0 - (x2 + y2) / 3.0 + (x2 * x2 + y2 * y2) / 5.0 + x2 * y2 / 6.0);
}

double sw_view_parallel(double a_m, double b_m, double apart_m)
{
    if (!(a_m > 0.0) || !(b_m > 0.0) || !(apart_m >= 0.0)) return NAN;
    if (apart_m == 0.0) return 1.0;
    double X = a_m / apart_m, Y = b_m / apart_m;
    if (fmax(X, Y) < 0.02) return parallel_far(X, Y);
    double u = sqrt(1.0 + X * X), v = sqrt(1.0 + Y * Y);
    double sum = log(u) + log(v) - 0.5 * log1p(X * X + Y * Y);
    sum += X * v * atan(X / v) + Y * u * atan(Y / u) - X * atan(X) - Y * atan(Y);
    return share(2.0 / (SW_PI * X * Y) * sum);
}

double sw_view_corner(double common_m, double emitter_m, double receiver_m)
{
    if (!(common_m > 0.0) || !(emitter_m > 0.0) || !(receiver_m >= 0.0)) return NAN;
    if (receiver_m == 0.0) return 0.0;
    double W = emitter_m / common_m, H = receiver_m / common_m;
    double w2 = W * W, h2 = H * H, s = w2 + h2, r = sqrt(s);
    double logs = log1p(w2) + log1p(h2) - log1p(s);
    logs += w2 * (log(w2 / s) + log1p(s) - log1p(w2)) + h2 * (log(h2 / s) + log1p(s) - log1p(h2));
    double arcs = W * atan(1.0 / W) + H * atan(1.0 / H) - r * atan(1.0 / r);
    return share((arcs + 0.25 * logs) / (SW_PI * W));
}

/* F12 = (S - sqrt(S2 - 4 (r2/r1)2))/2, written without the difference. */
double sw_view_discs(double r1_m, double r2_m, double apart_m)
{
    if (!(r1_m > 0.0) || !(r2_m >= 0.0) || !(apart_m >= 0.0)) return NAN;
    double a = r1_m * r1_m, b = r2_m * r2_m, s = a + b + apart_m * apart_m;
    return share(2.0 * b / (s + sqrt(fmax(s * s - 4.0 * a * b, 0.0))));
}

/* sqrt(1 + (h/w)2) - h/w, Hottel's crossed strings; written without the difference. */
double sw_view_strips(double width_m, double apart_m)
{
    if (!(width_m > 0.0) || !(apart_m >= 0.0)) return NAN;
    double ratio = apart_m / width_m;
    return 1.0 / (sqrt(1.0 + ratio * ratio) + ratio);
}

double sw_view_point_parallel(double a_m, double b_m, double apart_m)
{
    if (!(a_m >= 0.0) || !(b_m >= 0.0) || !(apart_m > 0.0)) return NAN;
    double X = a_m / apart_m, Y = b_m / apart_m, u = sqrt(1.0 + X * X), v = sqrt(1.0 + Y * Y);
    return share((X / u * atan(Y / u) + Y / v * atan(X / v)) / (2.0 * SW_PI));
}

/* a_m along the element's normal, b_m across, one bottom corner opposite the element. */
double sw_view_point_upright(double a_m, double b_m, double apart_m)
{
    if (!(a_m >= 0.0) || !(b_m > 0.0) || !(apart_m > 0.0)) return NAN;
    double far_m = hypot(a_m, apart_m);
    return share((atan(b_m / apart_m) - apart_m / far_m * atan(b_m / far_m)) / (2.0 * SW_PI));
}
