/* reckon_parts.h: the chapters, one file each; for reckon.c alone. */
#ifndef SW_RECKON_RECKON_PARTS_H
#define SW_RECKON_RECKON_PARTS_H

#include "reckon/reckon.h"

const sw_reckon *sw_reckon_bending(size_t *count);   /* developed length, hems, joggles, gauging */
const sw_reckon *sw_reckon_cutting(size_t *count);   /* laser */
const sw_reckon *sw_reckon_stock(size_t *count);     /* sheet mass, tolerances, cost of steel */
const sw_reckon *sw_reckon_radiation(size_t *count); /* gas, flames, view factors, panes */

#endif
