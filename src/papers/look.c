/* look.c: colours, line widths and type of every paper. Warm grey and rust on white; no meaning by colour alone. */
#include "papers/papers_parts.h"

#include <math.h>

static sw_ink ink(unsigned rgb, double width_mm)
{
    return (sw_ink){.r = (double)(rgb >> 16 & 255u) / 255.0,
                    .g = (double)(rgb >> 8 & 255u) / 255.0,
                    .b = (double)(rgb & 255u) / 255.0,
                    .width_mm = width_mm};
}

sw_ink look_dark(double width_mm)
{
    return ink(0x2e2a26, width_mm);
}
sw_ink look_grey(double width_mm)
{
    return ink(0x756c63, width_mm);
}
sw_ink look_light(double width_mm)
{
    return ink(0xc9c1b8, width_mm);
}
sw_ink look_pale(void)
{
    return ink(0xf4f1ed, 0.0);
}
sw_ink look_rust(double width_mm)
{
    return ink(0xa4472a, width_mm);
}
sw_ink look_white(void)
{
    return ink(0xffffff, 0.0);
}

static double channel(double hue, double shift, double saturation, double lightness)
{
    /* Cosine palette: soft, of even lightness. */
    return lightness + saturation * cos(2.0 * SW_PI * (hue + shift));
}

static sw_ink soft(double hue, double saturation, double lightness)
{
    return (sw_ink){.r = channel(hue, 0.0, saturation, lightness),
                    .g = channel(hue, -1.0 / 3.0, saturation, lightness),
                    .b = channel(hue, 1.0 / 3.0, saturation, lightness)};
}

sw_ink look_piece(size_t index)
{
    const double golden = 0.6180339887498949; /* steps by the golden ratio keep neighbours apart */
    double hue = fmod(0.05 + golden * (double)index, 1.0);
    return soft(hue, 0.062, 0.85 + 0.025 * (double)(index % 3) / 2.0);
}

sw_ink look_group(size_t index)
{
    static const unsigned tones[] = {0xb9aea2, 0xc98f6f, 0x9aa69a, 0xc9b48a, 0x9fa8b3, 0xb59a9a, 0xa8b59a, 0xb3a3b8};
    return ink(tones[index % (sizeof tones / sizeof *tones)], 0.0);
}

sw_ink look_glass(void)
{
    return ink(0xb4c3c7, 0.0);
}

sw_ink look_verdict(sw_verdict verdict)
{
    static const unsigned tones[] = {
        [SW_FAILS] = 0xa3271b, [SW_WATCH] = 0x9a6a12, [SW_UNKNOWN] = 0x59606b, [SW_HOLDS] = 0x4d6b4a};
    return ink(tones[verdict], 0.0);
}

sw_ink look_dashed(sw_ink plain, const double *dash_mm, int dashes)
{
    plain.dash_mm = dash_mm;
    plain.dashes = dashes;
    return plain;
}

const double *look_chain(int *dashes)
{
    static const double chain_mm[] = {4.0, 1.1, 0.3, 1.1};
    *dashes = 4;
    return chain_mm;
}

pen_type look_type(double height_mm, sw_align align)
{
    return (pen_type){.height_mm = height_mm, .align = align, .ink = look_dark(0.0)};
}

pen_type look_type_grey(double height_mm, sw_align align)
{
    return (pen_type){.height_mm = height_mm, .align = align, .ink = look_grey(0.0)};
}

pen_type look_type_bold(double height_mm, sw_align align)
{
    return (pen_type){.height_mm = height_mm, .align = align, .bold = true, .ink = look_dark(0.0)};
}
