/* deflate_parts.h: packs bytes as a zlib stream, fast for drawings. Source: RFC 1950 (zlib), RFC 1951 (deflate). */
#ifndef SW_PAPERS_DEFLATE_PARTS_H
#define SW_PAPERS_DEFLATE_PARTS_H

#include "papers/bytes_parts.h"

/* Appends the zlib stream of data[length] to out; out->no_memory tells a refusal. length below 2^31. */
void deflate_zlib(byte_run *out, const unsigned char *data, size_t length);

#endif
