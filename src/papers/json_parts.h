/* json_parts.h: JSON written straight to a writer, one line a value, indented by one blank a level (RFC 8259). */
#ifndef SW_PAPERS_JSON_PARTS_H
#define SW_PAPERS_JSON_PARTS_H

#include "papers/papers.h"

typedef struct json_out {
    sw_writer *out;
    int depth;
    bool begun;  /* the list or object under way has a value */
    bool broken; /* a text was not UTF-8 */
} json_out;

/* Each writes one value: in an object under its key, in a list (and outermost) with key NULL. */
void json_begin(json_out *j, const char *key, char bracket);    /* '{' or '[' */
void json_end(json_out *j, char bracket);                       /* '}' or ']' */
void json_text(json_out *j, const char *key, const char *text); /* null for NULL */
void json_number(json_out *j, const char *key, double value);   /* 12 digits, up to 15 decimals; null when not finite */
void json_count(json_out *j, const char *key, size_t value);
void json_whole(json_out *j, const char *key, int64_t value);
void json_truth(json_out *j, const char *key, bool value);
void json_nothing(json_out *j, const char *key); /* null */

void json_burned(json_out *j, const sw_burned *burned); /* json_burn.c: null when not asked */
void json_housed(json_out *j,
                 const sw_dossier *d); /* "house": chimney and site; null when none was given; json_house.c */
void json_shopped(json_out *j, const sw_dossier *d);     /* "shop": the workshop, each study null when not asked */
void json_verdicts(json_out *j, const sw_findings *all); /* how many of each */
void json_quoted(sw_writer *out, const char *text);      /* text in quotes, escaped where it must be */

#endif
