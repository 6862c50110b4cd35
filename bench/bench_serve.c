/* bench_serve.c: the workbench's server under 200 who poll and 20 who drag a slider, on this machine's loopback.
 *   bench_serve [SECONDS]   default 60. Figures are one machine's; server and clients share its cores. */
#include "../tests/whole/serve_load.h"

#include <signal.h>
#include <sys/wait.h>

static pid_t start(const char *folder, int *said)
{
    int ends[2];
    if (pipe(ends) != 0) return -1;
    pid_t pid = fork();
    if (pid == 0) {
        (void)setenv("TMPDIR", folder, 1);
        (void)dup2(ends[1], STDOUT_FILENO);
        (void)close(ends[0]);
        (void)execl(SW_PROGRAM, SW_PROGRAM, "serve", "--port", "0", folder, (char *)NULL);
        _exit(127);
    }
    (void)close(ends[1]);
    *said = ends[0];
    return pid;
}

static bool read_port(load *l, int said)
{
    char text[600] = {0};
    for (size_t used = 0; used + 1 < sizeof text && strstr(text, "stops it") == NULL;) {
        ssize_t n = read(said, text + used, sizeof text - 1 - used);
        if (n <= 0) break;
        used += (size_t)n;
    }
    const char *at = strstr(text, "http://127.0.0.1:");
    l->port = at == NULL ? 0 : (int)strtol(at + 17, NULL, 10);
    return l->port > 0;
}

static bool read_cookie(load *l, char cookie[200])
{
    char head[LOAD_HEAD_MOST];
    size_t at = 0;
    load_client c = {.l = l, .line = load_connect(l)};
    l->cookie = "";
    bool good = c.line >= 0 && load_send(&c, "GET", "/", "") && load_receive(&c, head, &at) == 200;
    const char *given = good ? strstr(head, "Set-Cookie: ") : NULL;
    if (c.line >= 0) (void)close(c.line);
    if (given == NULL) return false;
    (void)snprintf(cookie, 200, "Cookie: %.*s\r\n", (int)strcspn(given + 12, ";"), given + 12);
    l->cookie = cookie;
    return true;
}

static void tell(load *l)
{
    printf("what,value,unit\nerrors,%d,\nleft in the middle,%d,\n", atomic_load(&l->errors), atomic_load(&l->left));
    printf("polls,%.0f,1/s\n", (double)l->polls.count / l->seconds);
    printf("poll p50,%.1f,ms\n", 1e3 * load_quantile(&l->polls, 0.5));
    printf("poll p99,%.1f,ms\n", 1e3 * load_quantile(&l->polls, 0.99));
    printf("answers,%.1f,1/s\n", (double)l->answers.count / l->seconds);
    printf("answer p50,%.0f,ms\n", 1e3 * load_quantile(&l->answers, 0.5));
    printf("answer p99,%.0f,ms\n", 1e3 * load_quantile(&l->answers, 0.99));
    printf("server memory at most,%.0f,MB\nserver threads at most,%ld,\n", (double)l->memory_kb / 1024, l->threads);
    if (l->fault[0] != '\0') fprintf(stderr, "%s\n", l->fault);
}

int main(int argc, char **argv)
{
    char folder[] = "/tmp/sw-serve-XXXXXX", command[400], touched[64], cookie[200];
    int said = -1, status = 0;
    load l = {.pollers = 200, .askers = 20, .seconds = argc > 1 ? strtod(argv[1], NULL) : 60};
    if (mkdtemp(folder) == NULL) return 3;
    (void)snprintf(command, sizeof command, "cp -r '%s/demo/.' '%s'", SW_SOURCE_DIR, folder);
    (void)snprintf(touched, sizeof touched, "%s/touched.csv", folder);
    l.touched = touched;
    bool good = system(command) == 0;
    l.pid = good ? start(folder, &said) : -1;
    good = l.pid > 0 && read_port(&l, said) && read_cookie(&l, cookie);
    if (good) {
        load_run(&l);
        tell(&l);
    }
    if (l.pid > 0) {
        (void)kill(l.pid, SIGINT);
        (void)waitpid(l.pid, &status, 0);
    }
    free(l.polls.s);
    free(l.answers.s);
    (void)snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command) == 0 && good && atomic_load(&l.errors) == 0 && status == 0 ? 0 : 3;
}
