/* design_parts.h: what the files of design/ share. Nobody else includes it.
 *
 * One `design` is one description being read. Constructors (piece{...}, joint{...}) read their tables into plain
 * structs, note every fault and go on; when the description has run, resolve.c joins what refers to each other.
 * All of it runs inside one protected Lua call: design_take and friends leave by lua_error when memory ends, so
 * no function here has to hand SW_NO_MEMORY on. Only arena memory is used, so nothing leaks on the way out. */
#ifndef SW_DESIGN_DESIGN_PARTS_H
#define SW_DESIGN_DESIGN_PARTS_H

#include "design/design.h"

#include <lauxlib.h>
#include <lua.h>

/* ---- quantities: units.c --------------------------------------------------------------- */

enum { DESIGN_DIMENSIONS = 6 }; /* length mm, angle rad, mass kg, time s, temperature K, current A */

typedef struct design_quantity {
    double value; /* in powers of mm, rad, kg, s, K, A */
    signed char dim[DESIGN_DIMENSIONS];
    bool point; /* a temperature (K above absolute zero), not a difference */
    bool degc;  /* the unit degC itself: a number times it is a point */
} design_quantity;

bool design_unit_find(const char *name, size_t length, design_quantity *unit);
const char *design_unit_at(size_t i, design_quantity *unit); /* its name; NULL at the end */
bool design_same_kind(const design_quantity *a, const design_quantity *b);
bool design_is_number(const design_quantity *q);
/* "420mm", "0.95/kg", "10 m/s/s". False: *problem says why ("unknown unit 'mmm', did you mean 'mm'"). */
bool design_quantity_parse(design_quantity *out, const char *text, char *problem, size_t room);
void design_quantity_text(const design_quantity *q, char *out, size_t room);  /* "40 mm" */
void design_quantity_words(const design_quantity *q, char *out, size_t room); /* "a length (40 mm)" */
/* The unit a quantity is shown in; *value in that unit. "" for a plain number. */
const char *design_quantity_unit(const design_quantity *q, double *value, char *room_for_unit, size_t room);

/* ---- one description ------------------------------------------------------------------- */

typedef struct design_list {
    void *items;
    size_t count, room;
} design_list; /* grows in scratch */

typedef struct design_setting {
    const char *name, *value;
    bool used;
} design_setting;

typedef enum design_kind {
    DESIGN_BY_HAND,
    DESIGN_TEXT,
    DESIGN_FLAG,
    DESIGN_WORD,
    DESIGN_COUNT,
    DESIGN_POINT,
    DESIGN_VECTOR,
    /* quantities, from here on: in the model's units */
    DESIGN_NUMBER,
    DESIGN_LENGTH,
    DESIGN_ANGLE,
    DESIGN_AREA,
    DESIGN_MASS,
    DESIGN_TIME,
    DESIGN_POWER,
    DESIGN_FORCE,
    DESIGN_SPEED,
    DESIGN_ACCELERATION,
    DESIGN_PER_MASS,
    DESIGN_PER_HOUR,
    DESIGN_PER_VOLUME,
    DESIGN_FLOW,
    DESIGN_MASS_PER_LENGTH,
    DESIGN_METRES,
    DESIGN_VOLUME,
    DESIGN_DENSITY,
    DESIGN_PRESSURE,
    DESIGN_TEMPERATURE, /* K */
    DESIGN_MASS_FLOW,
    DESIGN_RESISTANCE,
    DESIGN_CONDUCTIVITY,
    DESIGN_PER_AREA, /* m3/(h m2) */
    DESIGN_PER_ENERGY,
    DESIGN_PER_LITRE,
    DESIGN_AREA_RATE, /* m2/s */
    DESIGN_MASS_PER_AREA,
    DESIGN_TIME_PER_MASS,
    DESIGN_METRE_SPEED,        /* m/s */
    DESIGN_METRE_ACCELERATION, /* m/s2 */
    DESIGN_MICRON,
    DESIGN_CURRENT,
    DESIGN_VOLTAGE,
    DESIGN_KINDS
} design_kind;

typedef struct design {
    sw_run *run;
    lua_State *L;
    const struct sandbox_memory *memory; /* of Lua while it runs */
    const char *file, *folder;           /* as the user named it; where from_dxf looks, NULL = nowhere */
    const sw_design_options *options;
    design_setting *settings;
    size_t setting_count;
    size_t faults;            /* noted so far */
    size_t faces_read;        /* of the piece being read */
    bool ran;                 /* the description came to its end */
    sw_status left;           /* why design_leave was called */
    bool lua_full, cancelled; /* Lua's own memory ended */
    double steps_left, deadline_s;
    const void *quantity_table; /* the metatable of quantities */
    int quantity_slot;          /* where the registry keeps it */
    sw_stove stove;
    sw_works works;
    sw_house house;
    bool has_stove, has_works, has_house, has_laser, has_press, has_rolls;
    bool has_welding, has_blasting, has_coating, has_trolley, has_labour;
    design_list parameters, groups, pieces, items, joints, openings,
        hinges;                          /* sw_parameter, sw_group, design_piece, design_item,
                                            design_joint, sw_opening, sw_hinge */
    design_quantity units[DESIGN_KINDS]; /* of each kind of quantity, once asked for */
    design_list stock;                   /* design_stock */
    size_t stock_declared;               /* good or bad */
    design_list hoists, stations;        /* design_hoist, design_station */
    design_list parts, near;             /* sw_flue_part, sw_near */
    struct {
        bool terminal, survey, room, hearth, floor, alarm, declared, recess, stabiliser;
    } seen;
    struct design_names *names;  /* once it has run */
    const struct design *before; /* read before this one and with parameters, too; NULL = none */
    bool last;                   /* no description with parameters follows */
} design;

design *design_of(lua_State *L);
void *design_take(design *d, size_t count, size_t size); /* run->keep; leaves by lua_error */
#define DESIGN_TAKE(d, count, type) ((type *)design_take((d), (count), sizeof(type)))
void *design_append(design *d, design_list *list, size_t size); /* the new zeroed item, in scratch */
/* As design_append, for what a description may list; leaves by an error with the line when there are too many. */
enum { DESIGN_LISTED_MOST = 5000 };
void *design_add(design *d, design_list *list, size_t size, const char *what);                     /* "pieces" */
const void *design_kept(design *d, const design_list *list, size_t size);                          /* copy in keep */
const char *design_text(design *d, const char *format, ...) __attribute__((format(printf, 2, 3))); /* keep */
/* The text at the stack's `index`, at most DESIGN_NAME_BYTES of it, as messages show it. */
const char *design_shown(design *d, int index);
const char *design_joined(design *d, const char *a, const char *b, const char *c);   /* one after the other; keep */
const char *design_numbered(design *d, const char *a, size_t number, const char *b); /* as "%s%zu%s"; keep */
/* Passes on what base and geometry return: leaves by lua_error unless it is SW_OK. */
void design_must(design *d, sw_status status);
_Noreturn void design_leave(design *d);

sw_place design_line(lua_State *L); /* of the constructor call that runs */
void design_note(design *d, sw_status status, sw_place place, const char *field, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* sandbox.c, sandbox_library.c: runs text as a description; notes its faults. */
sw_status design_run(design *d, const char *text, size_t length, const lua_CFunction *setups, size_t setup_count,
                     void (*finish)(design *d));
void design_library_open(lua_State *L); /* leaves the clean global table in place */
/* Counts steps for work done in C, and stops the description when it has no more of them, no more time, or was cancelled. */
void design_charge(lua_State *L, double steps);
enum { DESIGN_CALL_STEPS = 40, DESIGN_FIELD_STEPS = 5, DESIGN_VERTEX_STEPS = 10, DESIGN_NAME_STEPS = 20 };
void design_charge_contours(design *d, const sw_contour *c, size_t count); /* to look at each vertex once */

/* ---- tables of fields: fields.c ---------------------------------------------------------- */

typedef struct design_scope {
    design *d;
    int table; /* absolute stack index of the Lua table being read */
    sw_place place;
    const char *subject; /* "left side"; "" = none */
    const char *path;    /* "face.bends[2]"; "" = the top table */
} design_scope;

typedef struct design_field {
    const char *name;
    design_kind kind;
    size_t offset; /* const char *, bool, int (word), size_t (count), sw_point, sw_vec3 or double */
    bool needed;
    double low, high;         /* range, ends included, in the model's unit; both 0 = any finite value */
    const char *const *words; /* of a DESIGN_WORD, NULL at the end */
    int position;             /* 1.. when the value stands without a name, else 0 */
} design_field;

#define DESIGN_FIELD(type, member, sort) .name = #member, .kind = sort, .offset = offsetof(type, member)
enum { DESIGN_HOUR_S = 60 * 60, DESIGN_DAY_S = 24 * DESIGN_HOUR_S }; /* for ranges */
#define DESIGN_COUNT_OF(array) (sizeof(array) / sizeof *(array))
/* A field that may be left out, called `label`, with its range. */
#define DESIGN_RANGED(type, label, member, sort, least, most)                                                          \
    .name = label, .kind = sort, .offset = offsetof(type, member), .low = least, .high = most

/* Reads every field into the struct (what is absent keeps its value), notes unknown names, wrong kinds, values out
 * of range and missing needed fields. list: numbered entries are read elsewhere. Gives false when it noted a fault. */
bool design_read_fields(const design_scope *s, const design_field *fields, size_t count, bool list, void *into);
/* One quantity at stack index `index`. */
bool design_read_quantity(const design_scope *s, const char *name, int index, design_kind kind, double *value);
bool design_read_point(const design_scope *s, const char *name, int index, sw_point *point);
bool design_read_vector(const design_scope *s, const char *name, int index, sw_vec3 *vector);
/* One line of text at stack index `index`: UTF-8 without control characters. What does not hold is noted, not cut. */
enum { DESIGN_TEXT_BYTES = 400, DESIGN_NAME_BYTES = 80 };
typedef struct design_line_limits {
    size_t most_bytes;
    bool needed; /* may not be empty */
    const char *example;
} design_line_limits;
bool design_read_line(const design_scope *s, const char *name, int index, design_line_limits limits, const char **text);
/* The sub-table pushed at the stack's top as scope "path.name" or "path.name[number]" (number 0 = no number). */
design_scope design_within(const design_scope *s, const char *name, size_t number);
void design_fault(const design_scope *s, const char *field, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* Calls read(scope of entry i, context) for every entry of the list `name`; gives their number. */
size_t design_each(const design_scope *s, const char *name,
                   void (*read)(const design_scope *entry, size_t i, void *context), void *context);
size_t design_entries(const design_scope *s, const char *name);       /* how many the list has */
bool design_is_table(const design_scope *entry, const char *example); /* false = noted */
/* Reads the fields of the table `name` of a table when it is given; false when it is not. */
bool design_read_part(const design_scope *s, const char *name, const char *example, const design_field *fields,
                      size_t count, void *into);
int design_hinge_call(lua_State *L);                            /* read_hinge.c */
void design_read_torches(const design_scope *s, sw_welding *w); /* read_torch.c: `torch`, `hand.torch`, `robot.torch` */
/* Whole path of the file named at stack index `index`, which lies beside the description; NULL = noted. */
const char *design_beside(const design_scope *s, const char *field, int index);
bool design_once(const design_scope *s, bool *seen, const char *whole); /* false = a second time, and noted */
/* Argument 1 must be a table: its scope; false (and noted) when it is not. */
bool design_open(lua_State *L, const char *subject, const char *path, design_scope *s);
const char *design_describe(const design_scope *s, int index); /* "a text", "a length (4 mm)" */
const char *design_hint(design *d, const char *wrong, const char *const *names,
                        size_t count); /* "; did you mean 'x'?" or "" */

/* Values a description carries about without looking into them. */
void design_push_box(lua_State *L, const char *kind, void *pointer);
void *design_box(lua_State *L, int index, const char *kind); /* NULL = something else */
#define DESIGN_OUTLINE_BOX "outline"
#define DESIGN_CUTS_BOX    "hole"
#define DESIGN_MARK_BOX    "mark"

/* ---- what the constructors make ------------------------------------------------------------ */

typedef struct design_outline {
    sw_vertex *v;      /* [n] counter-clockwise, corners sharp */
    double *round_mm;  /* [n] radius of the corner at v[i] */
    const char **edge; /* [n] name of the segment that starts at v[i]; NULL = no name */
    size_t n;
    bool bad; /* faults noted: use nothing of it */
    sw_place place;
} design_outline;

typedef struct design_cuts {
    sw_contour *c;     /* [count] clockwise */
    const char **edge; /* [count] what the whole edge of each is called; "" = no name */
    size_t count;
    bool bad;
} design_cuts;

typedef enum design_relief { DESIGN_RELIEF_ROUND, DESIGN_RELIEF_SQUARE, DESIGN_RELIEF_NONE } design_relief;
typedef enum design_dims { DESIGN_OUTSIDE, DESIGN_TANGENT, DESIGN_DIMS_BY_KIND } design_dims;
typedef enum design_form { DESIGN_PLAIN, DESIGN_JOGGLE, DESIGN_HEM } design_form;

typedef struct design_zone_hole {
    design_cuts *cuts;
    double along_mm, angle_rad;
} design_zone_hole;

struct design_face;
typedef struct design_bend { /* as declared; NAN = not given */
    design_form form;
    const char *on, *name; /* name "" = by number */
    double from_mm, to_mm, angle_rad, radius_mm, height_mm, relief_width_mm, relief_depth_mm, gap_start_mm, gap_end_mm;
    double slope_start_rad, slope_end_rad, corner_mm, k;
    double offset_mm, length_mm, gap_mm; /* joggle, hem */
    int kind, relief, dims, side;        /* sw_bend_kind, design_relief, design_dims, 0 front 1 rear */
    design_zone_hole *holes;
    size_t hole_count;
    bool second;                 /* the second bend of a joggle */
    struct design_bend *partner; /* of the first bend of a joggle: the second */
    struct design_face *face;    /* NULL = a plain flange with nothing on it */
    design_scope at;             /* for messages about it */
} design_bend;

typedef struct design_face {
    const char *name;        /* "" = default */
    design_outline *outline; /* NULL = plain flange */
    design_cuts holes;
    sw_mark *marks;
    size_t mark_count;
    design_bend *bends;
    size_t bend_count;
    sw_point number_at;
    bool has_number_at, no_number, bad;
    design_scope at;
} design_face;

typedef struct design_place {
    sw_vec3 at, about, axis;
    int x, y, surface; /* directions 0..5, 0 mid 1 front 2 rear */
    double angle_rad;
    bool turned, about_given;
    const char *relative_to; /* "" = the stove's frame */
    design_scope scope;
} design_place;

typedef struct design_piece {
    sw_piece made; /* all but placements and mirror_of until resolved */
    design_place *places;
    size_t place_count;
    const char *original; /* of a mirrored copy, else "" */
    int plane;            /* 0 x, 1 y, 2 z */
    double plane_mm;
    bool bad;  /* has noted faults: others may name it, nothing is built on it */
    int visit; /* resolving: 0 not yet, 1 under way, 2 done */
    design_scope scope;
} design_piece;

typedef struct design_item {
    sw_item made;
    design_place *places;
    size_t place_count;
    design_scope scope;
    bool bad;
} design_item;

typedef struct design_joint_end {
    const char *piece, *edge, *face;
    size_t place;
} design_joint_end; /* "" = not given */
typedef struct design_joint {
    sw_joint made;
    design_joint_end a, b;
    design_scope scope;
} design_joint;

typedef struct design_stock {
    sw_stock made;
    design_scope scope;
} design_stock;

typedef struct design_hoist {
    sw_hoist made;
    design_scope scope;
} design_hoist;

typedef struct design_station {
    sw_station made;
    design_scope scope;
} design_station;

/* read_outline.c: an outline with its corners rounded, as a plain contour */
void design_outline_contour(design *d, const design_outline *o, sw_contour *out);
/* geometry of corners: build_round.c. Rounds corners of radius round_mm[i]; tag arrays follow. Gives the index of
 * a corner that cannot be rounded, or -1. */
typedef struct design_ring {
    sw_vertex *v;
    double *round_mm;
    const char **edge;
    int *bend;
    size_t n;
} design_ring;
int design_ring_round(design *d, const design_ring *ring, design_ring *out);

/* read_face.c, read_bend.c, read_place.c */
design_face *design_read_face(const design_scope *s, int depth); /* NULL only when not a table; noted */
design_bend *design_read_bends(const design_scope *s, int depth, size_t *count);
bool design_read_places(const design_scope *s, design_place **places, size_t *count); /* `place` and `places` */
bool design_read_cuts(const design_scope *s, const char *name, design_cuts *cuts);    /* a list of holes */
void design_read_marks(const design_scope *s, design_face *face);
/* `zones` of the sheet with that shape, in its frame; false = a fault was noted. read_zones.c */
bool design_read_zones(const design_scope *s, const sw_region *sheet, const sw_stock_zone **zones, size_t *count);
sw_region design_read_shape(const design_scope *s, const char *outline_name); /* outline + holes; n = 0 when absent */

/* build_piece.c: the tangent-face tree of a declared root face into piece->made; sets piece->bad. */
void design_build_piece(design *d, design_piece *piece, const design_face *root);
void design_build_number(design *d, sw_piece *piece, const design_face *root);          /* build_number.c */
void design_build_mirror(design *d, design_piece *copy, const design_piece *original);  /* build_mirror.c */
sw_frame design_place_frame(const design_place *p, double thickness_mm, sw_frame base); /* build_place.c */

/* Setup functions of the three languages: push their constructors into the globals. */
int design_setup_common(lua_State *L);
int design_setup_shapes(lua_State *L);
int design_setup_cuts(lua_State *L);
int design_setup_stove(lua_State *L);
int design_setup_works(lua_State *L);
int design_setup_house(lua_State *L);
int design_setup_declared(lua_State *L);
int design_parameter(lua_State *L);
int design_piece_call(lua_State *L);
int design_mirror_call(lua_State *L);
int design_item_call(lua_State *L);
int design_joint_call(lua_State *L);
int design_joggle_call(lua_State *L);
int design_hem_call(lua_State *L);
const sw_grade *design_works_grade(const design_scope *s, const char *name); /* NULL = noted */
int design_laser_call(lua_State *L);                                         /* read_machines.c */
int design_press_call(lua_State *L);                                         /* read_press.c */
int design_rolls_call(lua_State *L);
int design_welding_call(lua_State *L);  /* read_welding.c */
int design_blasting_call(lua_State *L); /* read_finish.c */
int design_coating_call(lua_State *L);
int design_hoist_call(lua_State *L); /* read_stations.c */
int design_trolley_call(lua_State *L);
int design_station_call(lua_State *L);
int design_labour_call(lua_State *L);
void design_finish_stations(design *d); /* hoists and stations into the works; notes names that do not meet */
/* `strips` of a press, `trials` of rolls: names of CSV files. read_trials.c */
void design_read_strips(const design_scope *s, sw_press *press);
void design_read_roll_trials(const design_scope *s, sw_rolls *rolls);
int design_pipe_call(lua_State *L); /* read_flue.c */
int design_flue_call(lua_State *L);
int design_liner_call(lua_State *L);
void design_push_quantity(lua_State *L, design_quantity q);           /* a number when it has no dimension */
bool design_to_quantity(lua_State *L, int index, design_quantity *q); /* false: neither quantity nor number */

/* names.c */
typedef struct design_names design_names;
void design_names_make(design *d);
void design_names_check(design *d);                                           /* notes what is taken twice */
design_piece *design_piece_find(const design *d, const char *name_or_number); /* the first; NULL = none */
bool design_name_known(const design *d, const char *name);                    /* of a piece or an item */

void design_finish_stove(design *d); /* resolve.c */
void design_finish_works(design *d);
void design_check_settings(design *d); /* notes settings that no parameter took, once all were read */
void design_finish_house(design *d);   /* read_house.c */
void design_finish_declared(design *d);

#endif
