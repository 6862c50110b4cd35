/* fuzz_dxf.c: any bytes as DXF. What is accepted is written and must read back the same. */
#include "dxf/dxf.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* Coordinates up to 1e9 with 15 digits. */
static void compare(const sw_dxf_path *a, const sw_dxf_path *b)
{
    SW_ASSERT(a->n == b->n && a->closed == b->closed);
    for (size_t i = 0; i < a->n; i++) {
        SW_ASSERT(fabs(a->v[i].x_mm - b->v[i].x_mm) <= 1e-5);
        SW_ASSERT(fabs(a->v[i].y_mm - b->v[i].y_mm) <= 1e-5);
    }
}

static void write_and_read(sw_run *run, const sw_dxf_drawing *drawing)
{
    sw_writer *writer = NULL;
    const char *text, *skipped;
    size_t length;
    sw_dxf_drawing back;
    if (sw_writer_to_memory(run, &writer) != SW_OK) return;
    sw_dxf_write(writer, drawing);
    if (sw_writer_take(run, writer, &text, &length) != SW_OK) return;
    sw_status status = sw_dxf_read(run, "back.dxf", text, length, 0.0, &back, &skipped);
    if (status == SW_NO_MEMORY) return;
    SW_ASSERT(status == SW_OK);
    SW_ASSERT(back.text_count == drawing->text_count);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static sw_run run;
    const char *skipped;
    sw_dxf_drawing drawing, again;
    sw_region region;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    if (sw_dxf_read(&run, "fuzz.dxf", (const char *)bytes, length, 0.01, &drawing, &skipped) == SW_OK) {
        SW_ASSERT(sw_dxf_read(&run, "fuzz.dxf", (const char *)bytes, length, 0.01, &again, &skipped) != SW_BAD_INPUT);
        for (size_t i = 0; i < drawing.path_count && i < again.path_count; i++)
            compare(&drawing.paths[i], &again.paths[i]);
        write_and_read(&run, &drawing);
        (void)sw_dxf_region(&run, "fuzz.dxf", &drawing, NULL, &region);
    }
    sw_run_close(&run);
    return 0;
}
