/* machine_parts.h: files for machines are read back and compared before they count as written. */
#ifndef SW_PAPERS_MACHINE_PARTS_H
#define SW_PAPERS_MACHINE_PARTS_H

#include "papers/papers_parts.h"

/* Each reads the file and gives SW_INTERNAL with what differs and by how much. */
sw_status machine_check_flat_dxf(sw_run *run, const sw_sheet_piece *piece, const char *path);
sw_status machine_check_sheet_dxf(sw_run *run, const sw_cut_input *cut, const char *path);
sw_status machine_check_motion(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan, const char *path);
sw_status machine_check_seams(sw_run *run, const sw_join_result *join, const char *path);

/* Lines on one layer, however they are parted into paths. machine_marks.c */
typedef struct machine_marks {
    double length_mm;
    sw_box box;
    size_t segments;
} machine_marks;

void machine_marks_count(machine_marks *m, const sw_vertex *v, size_t n, bool closed);
sw_status machine_marks_same(sw_run *run, const char *path, const sw_dxf_drawing *got, const char *layer,
                             const machine_marks *want);
sw_status machine_texts_same(sw_run *run, const char *path, const sw_dxf_drawing *got, const sw_flat *flat);

/* Upper bound of how far any point of the one line or arc lies from the other, run the same way, mm; exact for lines. */
double machine_apart_mm(sw_vertex a, sw_point a_to, sw_vertex b, sw_point b_to);

#endif
