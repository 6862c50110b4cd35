/* print_log.h: records of the log on the screen and as JSON (docs/json.md). */
#ifndef SW_APP_PRINT_LOG_H
#define SW_APP_PRINT_LOG_H

#include "log/log.h"

#include <jansson.h>

void sw_log_print_kinds(sw_writer *out, bool json);
void sw_log_print_kind(sw_writer *out, const sw_log_kind *kind, bool json);
void sw_log_print_record(sw_writer *out, const sw_log_record *record); /* a line, and one more for a correction */
/* "holds" or "outside"; NULL where the record has no value with limits. */
const char *sw_log_verdict(const sw_log_record *record);
void sw_log_print_records(sw_writer *out, const sw_log_records *records, bool json);
void sw_log_print_stock(sw_writer *out, const sw_log_remnant *stock, size_t count, bool json);
void sw_log_print_statistics(sw_writer *out, const sw_log_statistics *s, bool json);
void sw_log_print_faults(sw_writer *out, const char *const *faults, size_t count, bool json);
/* The same as JSON, for the caller to release; NULL = no memory. */
json_t *sw_log_json_kinds(void);
json_t *sw_log_json_record(const sw_log_record *record);
json_t *sw_log_json_stock(const sw_log_remnant *stock, size_t count);
json_t *sw_log_json_statistics(const sw_log_statistics *s);
void sw_log_print_done(sw_writer *out, const char *done, const char *what, int64_t number, bool json);

#endif
