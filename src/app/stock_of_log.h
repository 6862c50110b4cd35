/* stock_of_log.h: remnants of the works' log as stock for nests, and what was cut from which sheet back into the log. */
#ifndef SW_APP_STOCK_OF_LOG_H
#define SW_APP_STOCK_OF_LOG_H

#include "app/app.h"
#include "log/log.h"

/* Adds the remnants in stock of the log to the works of the dossier's model; those of a steel no stock of the works is of are
 * left out and told as a finding. A remnant is worth its share of the cheapest sheet's price, as the works says of remnants. */
sw_status sw_stock_of_log(sw_run *run, const char *path, sw_dossier *dossier);

/* The sheets of all nests, one line each, in the order they are cut: what it is of, what is used and kept. For `log FILE cut`.
 * Columns as the first line names them. */
sw_status sw_cut_list_write(sw_run *run, const sw_dossier *dossier, const char *path);

/* Records the lines of such a list in one transaction: remnants out of stock, steel and scrap, remnants kept into stock. Names
 * of whole sheets must have been filled in. SW_BAD_INPUT: every faulty line. *lines: how many. */
sw_status sw_cut_list_record(sw_run *run, sw_log *log, const sw_csv *csv, const char *batch, const char *by,
                             size_t *lines);

#endif
