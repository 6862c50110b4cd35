/* house_faces.h: what the house sees of a stove: its box, the face of each side that warms most, its underside and its pipe.
 * For the driver of the house's studies. */
#ifndef SW_APP_HOUSE_FACES_H
#define SW_APP_HOUSE_FACES_H

#include "app/app.h"

/* The stove's box as its pieces stand, mm. */
void sw_box_of(const sw_dossier *d, double *width_mm, double *depth_mm, double *height_mm);
/* The largest leaf of role "door", mm, which its opening is no larger than; 0 when there is none. */
void sw_door_of(const sw_dossier *d, double *width_mm, double *height_mm);

/* Fills box, panels and floor_k of *in from the burnt stove, panels in run->keep; without a fire the box alone. */
sw_status sw_faces_of(sw_run *run, const sw_dossier *d, sw_site_input *in);

/* Fills pipe_k and pipe_diameter_m: of the connecting pipe that is hottest outside with gas of gas_k at its beginning. */
void sw_faces_of_pipe(const sw_house *house, double gas_k, sw_site_input *in);

#endif
