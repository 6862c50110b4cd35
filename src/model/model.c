/* model.c: names and look-ups of the model. */
#include "model/model.h"

#include <math.h>
#include <string.h>

const char *sw_joint_kind_name(sw_joint_kind kind)
{
    static const char *const names[SW_JOINT_KINDS] = {"butt", "corner", "lap", "tee", "slot and tab", "interlock"};
    return (size_t)kind < SW_JOINT_KINDS ? names[kind] : "";
}

const char *sw_seam_kind_name(sw_seam_kind kind)
{
    static const char *const names[SW_SEAM_KINDS] = {"none", "fillet", "square butt", "outside corner", "plug"};
    return (size_t)kind < SW_SEAM_KINDS ? names[kind] : "";
}

const char *sw_operation_name(sw_operation operation)
{
    static const char *const names[SW_OPERATIONS] = {"cut",  "deburr",       "bend",      "roll",  "tack",
                                                     "weld", "weld by hand", "leak test", "blast", "coat",
                                                     "cure", "line",         "assemble",  "test",  "pack"};
    return (size_t)operation < SW_OPERATIONS ? names[operation] : "";
}

const char *sw_around_name(sw_around around)
{
    static const char *const names[SW_AROUNDS] = {"heated", "boiler room", "unheated", "outdoors"};
    return (size_t)around < SW_AROUNDS ? names[around] : "";
}

int sw_stove_piece_index(const sw_stove *stove, const char *name_or_number)
{
    for (size_t i = 0; i < stove->piece_count; i++)
        if (strcmp(stove->pieces[i].name, name_or_number) == 0) return (int)i;
    for (size_t i = 0; i < stove->piece_count; i++)
        if (strcmp(stove->pieces[i].number, name_or_number) == 0) return (int)i;
    return -1;
}

const sw_laser_row *sw_works_laser_row(const sw_works *works, const sw_grade *grade, double thickness_mm)
{
    for (size_t i = 0; i < works->laser.row_count; i++) {
        const sw_laser_row *row = &works->laser.rows[i];
        if (row->grade == grade && fabs(row->thickness_mm - thickness_mm) <= SW_SAME_POINT_MM) return row;
    }
    return NULL;
}
