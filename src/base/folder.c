/* folder.c: an output folder that appears whole or not at all.
 *
 * Work goes on in PATH.making-PID; publish renames it to PATH. A PATH that is there already is replaced only if it
 * is empty or holds our mark file, and is moved aside first so that a failed rename loses nothing. */
#include "base/base.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char mark_name[] = ".stovewright";

static sw_status refuse(sw_run *run, const char *path, const char *what, int reason)
{
    return sw_fail(run, SW_IO, (sw_place){0}, path, "%s: %s; choose another place with --out", what, strerror(reason));
}

static void remove_tree(const char *path, int depth)
{
    DIR *dir = depth > 8 ? NULL : opendir(path);
    if (dir == NULL) return;
    const struct dirent *entry = NULL;
    while ((entry = readdir(dir)) != NULL) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0) continue;
        char child[4096];
        int n = snprintf(child, sizeof child, "%s/%s", path, entry->d_name);
        struct stat about;
        if (n < 0 || (size_t)n >= sizeof child || lstat(child, &about) != 0) continue;
        if (S_ISDIR(about.st_mode))
            remove_tree(child, depth + 1);
        else
            (void)unlink(child);
    }
    (void)closedir(dir);
    (void)rmdir(path);
}

static bool is_empty(const char *path)
{
    DIR *dir = opendir(path);
    if (dir == NULL) return false;
    int entries = 0;
    while (readdir(dir) != NULL) entries++;
    (void)closedir(dir);
    return entries <= 2;
}

/* SW_OK when nothing of the user's own would be lost by putting a folder there. */
static sw_status may_replace(sw_run *run, const char *path)
{
    struct stat about;
    if (lstat(path, &about) != 0) return errno == ENOENT ? SW_OK : refuse(run, path, "cannot be looked at", errno);
    if (!S_ISDIR(about.st_mode)) return refuse(run, path, "is there already and is no folder", EEXIST);
    const char *mark = sw_text_format(run, run->scratch, "%s/%s", path, mark_name);
    if (mark == NULL) return SW_NO_MEMORY;
    if (access(mark, F_OK) == 0 || is_empty(path)) return SW_OK;
    return refuse(run, path, "holds files that are not ours and is left alone", EEXIST);
}

static sw_status make_marked(sw_run *run, const char *working)
{
    remove_tree(working, 0);
    if (mkdir(working, 0777) != 0) return refuse(run, working, "cannot be made", errno);
    const char *mark = sw_text_format(run, run->scratch, "%s/%s", working, mark_name);
    if (mark == NULL) return SW_NO_MEMORY;
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, mark, &w));
    sw_print(w, "Made by stovewright; replaced whole by the next run into this folder.\n");
    return sw_writer_close(run, w);
}

sw_status sw_folder_open(sw_run *run, const char *path, sw_folder *folder)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/') length--;
    folder->path = sw_text_format(run, run->keep, "%.*s", (int)length, path);
    folder->working = sw_text_format(run, run->keep, "%.*s.making-%ld", (int)length, path, (long)getpid());
    if (folder->path == NULL || folder->working == NULL) return SW_NO_MEMORY;
    if (length == 0) return refuse(run, "--out", "needs a folder name", EINVAL);
    SW_TRY(may_replace(run, folder->path));
    sw_status status = make_marked(run, folder->working);
    if (status != SW_OK) sw_folder_discard(folder);
    return status;
}

sw_status sw_folder_open_new(sw_run *run, const char *path, sw_folder *folder)
{
    *folder = (sw_folder){0};
    if (access(path, F_OK) == 0)
        return sw_fail(run, SW_IO, (sw_place){0}, path, "is there already and is left alone; choose another name");
    return sw_folder_open(run, path, folder);
}

sw_status sw_folder_sub(sw_run *run, const sw_folder *folder, const char *name, const char **path)
{
    *path = sw_text_format(run, run->keep, "%s/%s", folder->working, name);
    if (*path == NULL) return SW_NO_MEMORY;
    if (mkdir(*path, 0777) != 0 && errno != EEXIST) return refuse(run, *path, "cannot be made", errno);
    return SW_OK;
}

sw_status sw_folder_publish(sw_run *run, sw_folder *folder)
{
    SW_TRY(may_replace(run, folder->path));
    const char *aside = sw_text_format(run, run->scratch, "%s.old-%ld", folder->path, (long)getpid());
    if (aside == NULL) return SW_NO_MEMORY;
    bool moved = rename(folder->path, aside) == 0;
    if (rename(folder->working, folder->path) != 0) {
        int reason = errno;
        if (moved) (void)rename(aside, folder->path);
        return refuse(run, folder->path, "cannot be put in place", reason);
    }
    if (moved) remove_tree(aside, 0);
    folder->working = NULL;
    return SW_OK;
}

void sw_folder_discard(sw_folder *folder)
{
    if (folder->working != NULL) remove_tree(folder->working, 0);
    folder->working = NULL;
}
