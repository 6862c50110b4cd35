/* design.h: reads the descriptions of a stove, a works and a house into one model.
 *
 * A description is Lua 5.4 run in a sandbox: no files, clock, network or programs within its reach, bounded memory
 * and steps, the same answer every time. The language is docs/description.md. All faults of a file are recorded
 * together in the run's error list, each with file, line, dotted field path and what was expected; nothing of a
 * faulty description becomes a model. Lengths mm, angles radians, all else as model.h says. */
#ifndef SW_DESIGN_DESIGN_H
#define SW_DESIGN_DESIGN_H

#include "model/model.h"

typedef struct sw_design_options {
    double memory_mb; /* of one description while it runs */
    double steps;     /* Lua instructions one description may take */
    double seconds;   /* wall time of one description: a last guard, far above what `steps` allows */
    uint32_t made_by_defaults;
} sw_design_options;

sw_design_options sw_design_options_defaults(void);
const sw_option *sw_design_option_table(size_t *count);

typedef struct sw_design_input {
    const char *stove_path, *works_path, *house_path; /* NULL = none */
    const char *house_text;                           /* taken instead of what house_path holds; NULL = the file's */
    const char *declared_path;                        /* NULL = none; see sw_design_texts */
    const char *const *settings;                      /* [setting_count] "name=value", value with unit: "width=420mm" */
    size_t setting_count;
    const sw_design_options *options; /* NULL = defaults */
} sw_design_input;

/* Reads the files given; *model and all it points to live in run->keep, and *model is NULL on any failure.
 * returns  SW_IO (a file cannot be read), SW_BAD_INPUT (faults in a description or a setting),
 *          SW_NO_MEMORY (the run's ceiling, or a description that grows beyond memory_mb) */
sw_status sw_design_read(sw_run *run, const sw_design_input *in, const sw_model **model);

typedef struct sw_design_text {
    const char *name; /* as it shall stand in messages; NULL = no such description */
    const char *text; /* [length], need not end in NUL */
    size_t length;
} sw_design_text;

typedef struct sw_design_texts {
    sw_design_text stove, works, house;
    sw_design_text
        declared;       /* declared { ... } alone, as a test writes it: stands for the house's own, field by field */
    const char *folder; /* where from_dxf looks for its files; NULL = nowhere */
    const char *works_folder; /* where the works' drawings and trials lie; NULL = in `folder` */
    const char *const *settings;
    size_t setting_count;
    const sw_design_options *options; /* NULL = defaults */
} sw_design_texts;

/* As sw_design_read, from memory. */
sw_status sw_design_read_texts(sw_run *run, const sw_design_texts *in, const sw_model **model);

#endif
