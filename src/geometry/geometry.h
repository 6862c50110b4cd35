/* geometry.h: plane contours of lines and arcs, rigid frames in space, meshes.
 *
 * Lengths mm, areas mm2, angles radians counter-clockwise. A contour is closed: segment i runs from
 * v[i] to v[i+1] (the last to v[0]) and is a circular arc when its bulge is not zero,
 * bulge = tan(included angle / 4), positive counter-clockwise (DXF reference, VERTEX group 42).
 * A full circle is two vertices of bulge 1. Outer outlines run counter-clockwise, holes clockwise.
 * Arcs stay arcs in every function here but `flatten` and those that say "GEOS": these work on chords
 * with a stated error. Coordinates up to 2e4 mm; tolerances are in tolerance.h. */
#ifndef SW_GEOMETRY_GEOMETRY_H
#define SW_GEOMETRY_GEOMETRY_H

#include "base/base.h"
#include "geometry/tolerance.h"

/* ---- plane ------------------------------------------------------------------------- */

typedef struct sw_point {
    double x_mm, y_mm;
} sw_point;
typedef struct sw_box {
    double x0_mm, y0_mm, x1_mm, y1_mm;
} sw_box; /* empty: x0 > x1 */
typedef struct sw_vertex {
    double x_mm, y_mm, bulge;
} sw_vertex;
typedef struct sw_contour {
    const sw_vertex *v;
    size_t n;
} sw_contour;
typedef struct sw_region {   /* one piece of sheet: outline less holes */
    sw_contour outline;      /* counter-clockwise */
    const sw_contour *holes; /* [hole_count], clockwise, inside the outline, apart from each other */
    size_t hole_count;
} sw_region;
typedef struct sw_path {
    const sw_vertex *v;
    size_t n;
} sw_path; /* open: last vertex's bulge unused */

/* Rigid motion of the plane: p -> R(turn) (mirror ? (-x, y) : (x, y)) + (dx, dy). */
typedef struct sw_motion {
    double turn_rad, dx_mm, dy_mm;
    bool mirror;
} sw_motion;
sw_point sw_motion_point(sw_motion motion, sw_point p);
sw_motion sw_motion_then(sw_motion first, sw_motion second); /* second after first */

/* An arc segment taken apart. Straight: radius_mm = INFINITY and the other fields unset. */
typedef struct sw_arc {
    sw_point centre;
    double radius_mm, from_rad, sweep_rad;
} sw_arc;
sw_arc sw_segment_arc(sw_vertex from, sw_point to);
double sw_segment_length(sw_vertex from, sw_point to);
sw_point sw_segment_point(sw_vertex from, sw_point to, double t);     /* t in [0,1] by arc length */
sw_point sw_segment_direction(sw_vertex from, sw_point to, double t); /* unit tangent */

/* Contour measures; exact for lines and arcs. n = 0 or 1 gives 0. cost n */
double sw_contour_area(sw_contour c); /* signed: counter-clockwise positive */
double sw_contour_length(sw_contour c);
sw_point sw_contour_centroid(sw_contour c);
sw_box sw_contour_box(sw_contour c); /* arcs included */
double sw_region_area(const sw_region *r);
sw_point sw_region_centroid(const sw_region *r);
double sw_region_length(const sw_region *r); /* outline and holes: what a laser cuts */
/* Second moments about the centroid, mm4: integrals of x2, y2 and xy. */
void sw_region_moments(const sw_region *r, double *xx_mm4, double *yy_mm4, double *xy_mm4);

/* +1 inside, 0 within SW_SAME_POINT_MM of the boundary, -1 outside. */
int sw_contour_side(sw_contour c, sw_point p);
int sw_region_side(const sw_region *r, sw_point p);
double sw_contour_distance(sw_contour c, sw_point p); /* to the curve, unsigned */

/* New contours in run->keep. Each returns SW_NO_MEMORY or SW_OK unless said. */
sw_status sw_contour_moved(sw_run *run, sw_contour c, sw_motion motion,
                           sw_contour *out); /* orientation kept ccw/cw as given even under mirror */
sw_status sw_region_moved(sw_run *run, const sw_region *r, sw_motion motion, sw_region *out);
sw_status sw_path_moved(sw_run *run, sw_path path, sw_motion motion, sw_path *out); /* runs the way it did */
sw_status sw_contour_reversed(sw_run *run, sw_contour c, sw_contour *out);
sw_status sw_contour_rectangle(sw_run *run, sw_box box, double corner_radius_mm, sw_contour *out);
sw_status sw_contour_circle(sw_run *run, sw_point centre, double radius_mm, sw_contour *out);
sw_status sw_contour_slot(sw_run *run, sw_point from, sw_point to, double width_mm,
                          sw_contour *out); /* obround; ends at from, to */
/* Rounds the corner at each vertex between two lines with the radius (0 = leave). SW_OUT_OF_RANGE when
 * the tangent points do not fit on the edges; names the corner. radii[c.n]. */
sw_status sw_contour_rounded(sw_run *run, sw_contour c, const double *radii_mm, sw_contour *out);
/* Chords with at most error_mm to the arc; vertices on the arc. */
sw_status sw_contour_flattened(sw_run *run, sw_contour c, double error_mm, sw_contour *out);
/* Drops doubled vertices and joins collinear lines and arcs of one circle. Geometry unchanged. */
sw_status sw_contour_tidied(sw_run *run, sw_contour c, sw_contour *out);
/* Parallel contour at distance_mm to the right-hand side when positive for a counter-clockwise contour
 * (grows it), to the inside when negative. Lines and arcs exact; convex corners get an arc of that
 * radius (round) or stay sharp up to the mitre limit 2 (round = false). Loops that fold over are removed;
 * an inset may split the contour or leave nothing: out[*count], largest first, same orientation as c (pockets
 * that a growing contour closes off are left out). Where walls are just twice the distance apart the distance
 * may be taken up to 16 SW_SAME_POINT_MM off. SW_OUT_OF_RANGE: not finite; SW_INTERNAL: does not close (unsound
 * c). cost n^2 typical */
sw_status sw_contour_offset(sw_run *run, sw_contour c, double distance_mm, bool round, const sw_contour **out,
                            size_t *count);

/* Faults that make a contour unusable, first one found; NULL when sound. Texts such as "edges 3 and 7 cross
 * at (12.0, 40.5)", all counted from 1. Checks: finite, at least 2 vertices (3 if all straight), no segment shorter than
 * SW_SHORTEST_MM, no crossing or touching of itself, area not zero. cost n log n typical. */
sw_status sw_contour_fault(sw_run *run, sw_contour c, const char **fault);
/* Also: holes inside the outline and apart from each other. */
sw_status sw_region_fault(sw_run *run, const sw_region *r, const char **fault);

/* Crossings of two segments (line or arc), at most 2 points (overlapping ones report their shared ends). */
size_t sw_segment_crossings(sw_vertex a, sw_point a_to, sw_vertex b, sw_point b_to, sw_point out[2]);
/* Least distance between the closed curves of two contours, 0 when they cross. cost n1 n2 with box tests */
double sw_contours_distance(sw_contour a, sw_contour b);

/* Convex hull, counter-clockwise from the leftmost point; sorts points[count], fills hull[2 count]; gives its corners.
 * cost n log n. Source: Andrew 1979, monotone chain (from memory) */
size_t sw_points_hull(sw_point *points, size_t count, sw_point *hull);

/* GEOS on chords of error_mm: area of the intersection of two regions, and whether r is valid. Used as the
 * independent check of the code above and where chords are good enough. SW_INTERNAL passes GEOS's message. */
sw_status sw_geos_overlap_area(sw_run *run, const sw_region *a, const sw_region *b, double error_mm, double *area_mm2);
/* One region grown (or shrunk) by distance_mm as polygons; parts largest first. GEOS drops hollows shallower
 * than 1 % of the distance first, so bowed edges may be off by that. */
sw_status sw_geos_buffer(sw_run *run, const sw_region *r, double distance_mm, double error_mm, const sw_region **parts,
                         size_t *count);

/* ---- edges: contours prepared for many questions ---------------------------------------- */

/* The segments of some contours, taken apart once and boxed in runs, so that a question looks only at those near it.
 * For whoever asks more than a few; read only once made, so threads may share them. */
typedef struct sw_edges sw_edges;
/* Made in `into`, run->keep or run->scratch; contours[count] may go. SW_NO_MEMORY. cost n */
sw_status sw_edges_make(sw_run *run, sw_arena *into, const sw_contour *contours, size_t count, const sw_edges **edges);
sw_status sw_edges_of_region(sw_run *run, sw_arena *into, const sw_region *r, const sw_edges **edges);
sw_box sw_edges_box(const sw_edges *e); /* arcs included */
/* Least distance of p from the edges, unsigned; most_mm when that is less. */
double sw_edges_distance(const sw_edges *e, sw_point p, double most_mm);
/* +1 inside, 0 within SW_SAME_POINT_MM of an edge, -1 outside. Inside: within an odd number of the contours. */
int sw_edges_side(const sw_edges *e, sw_point p);
double sw_edges_reach(const sw_edges *e, sw_point u); /* greatest x u.x + y u.y of the edges, u a unit vector */
/* Whether a whole line or arc keeps gap_mm from the edges; any does for gap_mm <= 0. */
bool sw_edges_clear(const sw_edges *e, sw_vertex from, sw_point to, double gap_mm);
/* Whether the straight way from a to b runs inside for more than hair_mm at a stretch; below 2 hair_mm: never. */
bool sw_edges_entered(const sw_edges *e, sw_point a, sw_point b, double hair_mm);
/* Least distance between the edges of a and those of b moved by `by`, 0 when they cross; most_mm when that is less. */
double sw_edges_gap(const sw_edges *a, const sw_edges *b, sw_point by, double most_mm);

/* ---- space ------------------------------------------------------------------------- */

typedef struct sw_vec3 {
    double x_mm, y_mm, z_mm;
} sw_vec3;
/* Right-handed rigid frame: columns x, y, z (unit) and origin. */
typedef struct sw_frame {
    sw_vec3 x, y, z, origin;
} sw_frame;

sw_frame sw_frame_world(void);
sw_frame sw_frame_in(sw_frame outer, sw_frame inner);                 /* inner given in outer's axes -> world */
sw_frame sw_frame_turned(sw_frame f, sw_vec3 axis, double angle_rad); /* about an axis through the world origin */
sw_vec3 sw_frame_point(sw_frame f, sw_vec3 p);                        /* local -> world */
sw_vec3 sw_frame_direction(sw_frame f, sw_vec3 d);
sw_vec3 sw_frame_local(sw_frame f, sw_vec3 world);
sw_vec3 sw_vec3_add(sw_vec3 a, sw_vec3 b);
sw_vec3 sw_vec3_sub(sw_vec3 a, sw_vec3 b);
sw_vec3 sw_vec3_scaled(sw_vec3 a, double k);
sw_vec3 sw_vec3_cross(sw_vec3 a, sw_vec3 b);
double sw_vec3_dot(sw_vec3 a, sw_vec3 b);
double sw_vec3_length(sw_vec3 a);
sw_vec3 sw_vec3_unit(sw_vec3 a);

/* ---- meshes ------------------------------------------------------------------------ */

typedef struct sw_triangle {
    uint32_t a, b, c;
} sw_triangle;
typedef struct sw_mesh {   /* closed, outward normals, unless a function says otherwise */
    const sw_vec3 *points; /* [point_count] */
    size_t point_count;
    const sw_triangle *triangles; /* [triangle_count] counter-clockwise from outside */
    size_t triangle_count;
} sw_mesh;

/* Triangles over a region; vertices are those of the flattened contours (in order: outline, holes) and,
 * where most_mm > 0, extra ones so that no triangle spans more than most_mm in y (for rolled zones).
 * Constrained Delaunay by GEOS. Points z = 0. */
sw_status sw_region_triangles(sw_run *run, const sw_region *r, double error_mm, double most_y_mm, sw_mesh *out);
typedef struct sw_rings { /* a region as straight rings: points of the outline, counter-clockwise, then of each hole */
    const sw_point *points;
    const size_t *ends; /* [count] index after each ring's last point */
    size_t count;
} sw_rings;
double sw_rings_area(const sw_rings *rings); /* outline less holes, mm2 */
/* Delaunay triangles of the rings in run->scratch, counter-clockwise, corners are indices of points; NULL when the rings
 * touch or cross or resist (then GEOS may try). SW_NO_MEMORY. cost n log n typical */
sw_status sw_rings_triangulate(sw_run *run, const sw_rings *rings, sw_triangle **triangles, size_t *count);
double sw_mesh_volume(const sw_mesh *m); /* mm3; closed meshes */
double sw_mesh_area(const sw_mesh *m);
void sw_mesh_box(const sw_mesh *m, sw_vec3 *low, sw_vec3 *high);
/* Whether two closed meshes interpenetrate (surfaces cross, or one lies in the other). `where` is a point
 * of the overlap. cost near-linear through a box tree. */
sw_status sw_meshes_collide(sw_run *run, const sw_mesh *a, const sw_mesh *b, bool *collide, sw_vec3 *where);
/* Least distance of a point from a mesh's surface. For many points build the tree once. */
typedef struct sw_mesh_tree sw_mesh_tree;
sw_status sw_mesh_tree_make(sw_run *run, const sw_mesh *m, const sw_mesh_tree **tree);
sw_status sw_mesh_tree_scratch(sw_run *run, const sw_mesh *m, const sw_mesh_tree **tree); /* the same in run->scratch */
double sw_mesh_tree_distance(const sw_mesh_tree *tree, sw_vec3 p, sw_vec3 *nearest);
/* +1 inside, -1 outside (rays; closed meshes). */
int sw_mesh_tree_side(const sw_mesh_tree *tree, sw_vec3 p);
/* What a tree is asked: `apart` may be false for a box in which nothing is met, never true for one in which something is. */
typedef struct sw_mesh_query {
    const void *context;
    bool (*apart)(const void *context, const sw_vec3 *low, const sw_vec3 *high);
    bool (*meets)(const void *context, size_t triangle);
} sw_mesh_query;
/* A triangle that is met, SIZE_MAX = none. */
size_t sw_mesh_tree_find(const sw_mesh_tree *tree, const sw_mesh_query *query);
/* As sw_meshes_collide, for meshes that are compared with many others. */
bool sw_mesh_trees_collide(const sw_mesh_tree *a, const sw_mesh_tree *b, sw_vec3 *where);

#endif
