/* log_parts.h: the papers of the works' log: labels, the history of a stove, statistics. For this folder's files. */
#ifndef SW_PAPERS_LOG_PARTS_H
#define SW_PAPERS_LOG_PARTS_H

#include "papers/doc_parts.h"

/* A QR code of the text with its quiet zone into a square box. */
sw_status draw_qr(sw_run *run, sw_pen *pen, sw_box box, const char *text);

sw_status logged_history(sw_run *run, doc_book *doc);
sw_status logged_statistics(sw_run *run, doc_book *doc);

#endif
