/* reckon_parts.h: the chapters, one file each; for reckon.c alone. */
#ifndef SW_RECKON_RECKON_PARTS_H
#define SW_RECKON_RECKON_PARTS_H

#include "reckon/reckon.h"

const sw_reckon *sw_reckon_bending(size_t *count);    /* developed length, hems, joggles, gauging */
const sw_reckon *sw_reckon_cutting(size_t *count);    /* laser */
const sw_reckon *sw_reckon_form(size_t *count);       /* press brake, plate rolls */
const sw_reckon *sw_reckon_fit(size_t *count);        /* tolerances, capability, sampling, control charts */
const sw_reckon *sw_reckon_join(size_t *count);       /* fillets, wire, heat, preheat, shrinkage, leaks */
const sw_reckon *sw_reckon_stock(size_t *count);      /* sheet mass, tolerances, cost of steel */
const sw_reckon *sw_reckon_radiation(size_t *count);  /* gas, flames, view factors, panes */
const sw_reckon *sw_reckon_gas(size_t *count);        /* gases, air, water vapour */
const sw_reckon *sw_reckon_material(size_t *count);   /* hot steel, linings, burns */
const sw_reckon *sw_reckon_convection(size_t *count); /* surfaces, gaps, ducts, openings */
const sw_reckon *sw_reckon_conduction(size_t *count); /* walls, fins, bodies that warm up, plates */
const sw_reckon *sw_reckon_fire(size_t *count);       /* wood, its air and gas, losses, flames, burns */
const sw_reckon *sw_reckon_air(size_t *count);        /* openings, legs of hot gas, jets */
const sw_reckon *sw_reckon_site(size_t *count);       /* distances, shields, room air, hearth, floor, outlet */
const sw_reckon *sw_reckon_flue(size_t *count);     /* chimneys: gas, cooling, draught, resistance, walls, cold start */
const sw_reckon *sw_reckon_lifting(size_t *count);  /* lifting by hand, slings, hoists, tipping */
const sw_reckon *sw_reckon_coat(size_t *count);     /* blasting, paint, solvent and air */
const sw_reckon *sw_reckon_fittings(size_t *count); /* hot gaps, rope, grate, ball drop */
const sw_reckon *sw_reckon_line(size_t *count);     /* takt, queues, line balance, flow shop, unit cost */
const sw_reckon *sw_reckon_trial(size_t *count);    /* type test: efficiency, emissions, season, repeats */

#endif
