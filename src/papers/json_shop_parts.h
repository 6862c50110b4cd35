/* json_shop_parts.h: the parts of "shop" in the answer for machines; each null where its study was not asked. */
#ifndef SW_PAPERS_JSON_SHOP_PARTS_H
#define SW_PAPERS_JSON_SHOP_PARTS_H

#include "papers/json_parts.h"

void json_join(json_out *j, const sw_join_result *r); /* json_join.c */
void json_fit(json_out *j, const sw_fit_result *f);   /* json_fit.c */
void json_coat(json_out *j, const sw_coat_result *c); /* json_coat.c */
void json_line(json_out *j, const sw_dossier *d);     /* json_line.c */

#endif
