/* A disk that loses power: the process dies in its n-th call that makes something durable.
   Loaded before the C library; STOP_AT is n, from 1; COUNT_TO a file that gets how many there were. */
#define _GNU_SOURCE
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>
#include <sys/syscall.h>

static int calls;

static void count(void) {
    const char *at = getenv("STOP_AT");
    calls++;
    if (at && atoi(at) == calls) kill(getpid(), SIGKILL);
}

int fsync(int fd) { count(); return syscall(SYS_fsync, fd); }
int fdatasync(int fd) { count(); return syscall(SYS_fdatasync, fd); }

__attribute__((destructor)) static void tell(void) {
    const char *name = getenv("COUNT_TO");
    FILE *file = name ? fopen(name, "w") : NULL;
    if (file) { fprintf(file, "%d", calls); fclose(file); }
}
