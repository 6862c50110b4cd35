/* bench_serve.c: the workbench's server under 200 who poll and 20 who drag a slider, on this machine's loopback.
 *   bench_serve [SECONDS]   default 60. Figures are one machine's; server and clients share its cores. */
#include "../tests/whole/serve_load.h"

static bool read_cookie(load *l, server *s)
{
    char head[LOAD_HEAD_MOST];
    size_t at = 0;
    load_client c = {.l = l, .line = server_connect(s->port)};
    bool good = c.line >= 0 && load_send(&c, "GET", "/", "") && load_receive(&c, head, &at) == 200;
    if (c.line >= 0) (void)close(c.line);
    return good && server_admits(s, head);
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
    char folder[] = "/tmp/sw-serve-XXXXXX", command[400], touched[64];
    server s = {0};
    load l = {.server = &s,
              .pollers = 200,
              .askers = 20,
              .seconds = argc > 1 ? strtod(argv[1], NULL) : 60,
              .touched = touched};
    if (mkdtemp(folder) == NULL) return 3;
    (void)snprintf(command, sizeof command, "cp -r '%s/demo/.' '%s'", SW_SOURCE_DIR, folder);
    (void)snprintf(touched, sizeof touched, "%s/touched.csv", folder);
    bool good = system(command) == 0 && server_begin(&s, folder, NULL) && read_cookie(&l, &s);
    if (good) {
        load_run(&l);
        tell(&l);
    }
    good = server_end(&s) && good;
    free(l.polls.s);
    free(l.answers.s);
    (void)snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command) == 0 && good && atomic_load(&l.errors) == 0 ? 0 : 3;
}
