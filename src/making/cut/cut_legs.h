/* cut_legs.h: blocks of the legs of an open way, so that what cannot be exchanged is passed over by its boxes. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_LEGS_H
#define SW_MAKING_CUT_CUT_LEGS_H

#include "making/cut/cut_parts.h"

enum { CUT_LEGS = 8 }; /* in a block */

typedef struct cut_legs {
    sw_box begins, ends; /* of the legs */
    double longest2;     /* of them, squared, mm2 */
} cut_legs;

static inline double cut_square(sw_point a, sw_point b)
{
    sw_point d = cut_minus(a, b);
    return d.x_mm * d.x_mm + d.y_mm * d.y_mm;
}

static inline cut_legs cut_legs_none(void)
{
    const sw_box none = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    return (cut_legs){none, none, 0};
}

static inline void cut_box_add(sw_box *box, sw_point p)
{
    *box = (sw_box){cut_lesser(box->x0_mm, p.x_mm), cut_lesser(box->y0_mm, p.y_mm), cut_greater(box->x1_mm, p.x_mm),
                    cut_greater(box->y1_mm, p.y_mm)};
}

static inline void cut_legs_add(cut_legs *legs, sw_point begin, sw_point end, double length2)
{
    cut_box_add(&legs->begins, begin);
    cut_box_add(&legs->ends, end);
    legs->longest2 = cut_greater(legs->longest2, length2);
}

static inline double cut_square_to_box(sw_box box, sw_point p)
{
    double dx = cut_greater(0, cut_greater(box.x0_mm - p.x_mm, p.x_mm - box.x1_mm));
    double dy = cut_greater(0, cut_greater(box.y0_mm - p.y_mm, p.y_mm - box.y1_mm));
    return dx * dx + dy * dy;
}

/* No leg of the block begins nearer to p than p2 or ends nearer to q than it is long: exchanged for ways from its begin to p and from its end to q, it and one of squared length p2 become no shorter. */
static inline bool cut_legs_out_of_reach(const cut_legs *legs, sw_point p, double p2, sw_point q)
{
    return cut_square_to_box(legs->begins, p) >= p2 && cut_square_to_box(legs->ends, q) >= legs->longest2;
}

#endif
