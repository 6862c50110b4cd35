/* serve_process.h: a workbench's server as a process of its own: begun, found by what it prints, ended. For tests and bench/. */
#ifndef TESTS_WHOLE_SERVE_PROCESS_H
#define TESTS_WHOLE_SERVE_PROCESS_H

#include <arpa/inet.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct server {
    pid_t pid; /* 0 or less = none */
    int port;
    char said[600];   /* its first lines */
    char cookie[200]; /* header line, "" = none yet */
    const char *folder;
} server;

static inline void server_become(const int said[2], const char *folder, const char *const *words)
{
    (void)setenv("TMPDIR", folder, 1);
    (void)dup2(said[1], STDOUT_FILENO);
    (void)close(said[0]);
    (void)execv(SW_PROGRAM, (char *const *)words);
    _exit(127);
}

/* On a port of its own choice; more: further words, NULL ends them, NULL = none. False when it does not serve. */
static inline bool server_begin(server *s, const char *folder, const char *const *more)
{
    int said[2] = {-1, -1};
    const char *words[16] = {SW_PROGRAM, "serve", "--port", "0", folder};
    for (size_t i = 0; more != NULL && more[i] != NULL && i < 10; i++) words[5 + i] = more[i];
    *s = (server){.folder = folder};
    if (pipe(said) != 0) return false;
    s->pid = fork();
    if (s->pid == 0) server_become(said, folder, words);
    (void)close(said[1]);
    for (size_t used = 0; used + 1 < sizeof s->said && strstr(s->said, "stops it") == NULL;) {
        ssize_t n = read(said[0], s->said + used, sizeof s->said - 1 - used);
        if (n <= 0) break;
        used += (size_t)n;
    }
    (void)close(said[0]);
    const char *at = strstr(s->said, "http://127.0.0.1:");
    s->port = at == NULL ? 0 : (int)strtol(at + 17, NULL, 10);
    return s->pid > 0 && s->port > 0;
}

/* A line to the server; it gives up after 100 s without a byte. -1 = none. */
static inline int server_connect(int port)
{
    const struct sockaddr_in at = {
        .sin_family = AF_INET, .sin_port = htons((uint16_t)port), .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
    const struct timeval patience = {.tv_sec = 100};
    int line = socket(AF_INET, SOCK_STREAM, 0);
    (void)setsockopt(line, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    (void)setsockopt(line, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
    if (connect(line, (const struct sockaddr *)&at, sizeof at) == 0) return line;
    (void)close(line);
    return -1;
}

/* Keeps the cookie of this answer as a header line; false where it has none. */
static inline bool server_admits(server *s, const char *answer)
{
    const char *at = strstr(answer, "Set-Cookie: ");
    if (at == NULL) return false;
    (void)snprintf(s->cookie, sizeof s->cookie, "Cookie: %.*s\r\n", (int)strcspn(at + 12, ";"), at + 12);
    return true;
}

/* As Ctrl-C does; true when it was alive and went cleanly. A pid of 0 or less would mean whole groups of processes. */
static inline bool server_end(const server *s)
{
    int status = 0;
    if (s->pid <= 0 || kill(s->pid, SIGINT) != 0 || waitpid(s->pid, &status, 0) != s->pid) return false;
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

#endif
