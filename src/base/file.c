#include "base/base.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static sw_status refuse(sw_run *run, const char *path, int reason)
{
    return sw_fail(run, SW_IO, (sw_place){.file = NULL}, path, "cannot be read: %s; check the name and the rights",
                   strerror(reason));
}

static sw_status read_all(sw_run *run, const char *path, int descriptor, char *into, size_t length)
{
    for (size_t done = 0; done < length;) {
        ssize_t n = read(descriptor, into + done, length - done);
        if (n == 0) return sw_fail(run, SW_IO, (sw_place){0}, path, "grew shorter while it was read; run again");
        if (n < 0 && errno != EINTR) return refuse(run, path, errno);
        if (n > 0) done += (size_t)n;
    }
    return SW_OK;
}

static sw_status read_open(sw_run *run, const char *path, int descriptor, size_t limit, const char **bytes,
                           size_t *length)
{
    struct stat about;
    if (fstat(descriptor, &about) != 0) return refuse(run, path, errno);
    if (!S_ISREG(about.st_mode)) return refuse(run, path, S_ISDIR(about.st_mode) ? EISDIR : EINVAL);
    if (about.st_size < 0 || (uint64_t)about.st_size > limit)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, path, "is %lld bytes long; at most %zu are read",
                       (long long)about.st_size, limit);
    *length = (size_t)about.st_size;
    char *into = sw_keep(run, *length + 1, 1);
    if (into == NULL) return SW_NO_MEMORY;
    *bytes = into;
    return read_all(run, path, descriptor, into, *length);
}

sw_status sw_file_read(sw_run *run, const char *path, size_t limit_bytes, const char **bytes, size_t *length)
{
    *bytes = NULL;
    *length = 0;
    int descriptor = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (descriptor < 0) return refuse(run, path, errno);
    sw_status status = read_open(run, path, descriptor, limit_bytes, bytes, length);
    (void)close(descriptor);
    return status;
}
