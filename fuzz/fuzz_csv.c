/* fuzz_csv.c: the reader of tables takes any bytes; what it accepts has every cell inside its copy. */
#include "base/base.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    sw_run run;
    sw_csv csv;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    if (sw_csv_read(&run, "fuzz.csv", (const char *)data, size, &csv) == SW_OK)
        for (size_t i = 0; i < csv.row_count; i++)
            for (size_t k = 0; k < csv.column_count; k++) {
                double value = 0;
                if (strlen(sw_csv_cell(&csv, i, k)) > size) abort();
                (void)sw_csv_number(&run, &csv, i, k, -1e300, 1e300, &value);
            }
    sw_run_close(&run);
    return 0;
}
