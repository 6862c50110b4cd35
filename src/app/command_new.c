/* command_new.c: a folder with a commented example to start from. The texts come from src/app/example/ at build time. */
#include "app/app.h"

#include "app/example.h"

#include <jansson.h>
#include <stdlib.h>

static sw_status write_text(sw_run *run, const sw_folder *folder, const char *name, const unsigned char *text,
                            size_t length)
{
    const char *path = sw_text_format(run, run->scratch, "%s/%s", folder->working, name);
    if (path == NULL) return SW_NO_MEMORY;
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_write(w, text, length);
    return sw_writer_close(run, w);
}

static sw_status write_example(sw_run *run, const char *path)
{
    sw_folder folder = {0};
    sw_status status = sw_folder_open_new(run, path, &folder);
    for (size_t i = 0; status == SW_OK && i < sw_example_count; i++)
        status = write_text(run, &folder, sw_examples[i].name, sw_examples[i].text, sw_examples[i].length);
    if (status == SW_OK) status = sw_folder_publish(run, &folder);
    sw_folder_discard(&folder);
    return status;
}

static void print_json(sw_writer *out, const char *path)
{
    json_t *files = json_array();
    for (size_t i = 0; i < sw_example_count; i++) (void)json_array_append_new(files, json_string(sw_examples[i].name));
    json_t *root = json_pack("{s:i, s:s, s:o}", "schema", 1, "folder", path, "files", files);
    char *text = root == NULL ? NULL : json_dumps(root, JSON_INDENT(2));
    if (text != NULL) sw_print(out, "%s\n", text);
    free(text);
    json_decref(root);
}

int sw_command_new(sw_run *run, const sw_request *request, sw_writer *out)
{
    if (request->word_count != 1)
        return sw_exit_of_status(sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "new",
                                         "needs the name of one folder, e.g. stovewright new my-stove"));
    const char *path = request->words[0];
    sw_status status = write_example(run, path);
    if (status != SW_OK) return sw_exit_of_status(status);
    if (request->json) {
        print_json(out, path);
        return SW_EXIT_HOLDS;
    }
    sw_print(out,
             "%s is there with a commented stove, works and house. Next:\n"
             "  stovewright check %s/example.stove.lua --works %s/example.works.lua --house %s/example.house.lua\n"
             "  stovewright serve %s\n",
             path, path, path, path, path);
    return SW_EXIT_HOLDS;
}
