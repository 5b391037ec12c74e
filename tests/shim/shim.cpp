// Fails the n-th call of one function of the C library, as failing hardware, a full disk or a busy machine would:
// RIGDEED_FAIL="write:5". To be preloaded. With "write:0" nothing fails; RIGDEED_COUNT names a file that gets how often
// each function was called. Counted in the process that was started; its children have what it had when they began.
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

enum Which { opens, reads, writes, fsyncs, renames, mmaps, forks, threads, all };
constexpr const char* names[all] = {"open", "read", "write", "fsync", "rename", "mmap", "fork", "thread"};
constexpr int errors[all] = {EACCES, EIO, ENOSPC, EIO, EACCES, ENOMEM, EAGAIN, EAGAIN};

std::atomic<long> counts[all];
int failing = all;
long at = 0;
pid_t first = 0;

__attribute__((constructor)) void begin() {
    first = getpid();
    const char* wanted = std::getenv("RIGDEED_FAIL");
    if (wanted == nullptr) return;
    const char* colon = std::strchr(wanted, ':');
    if (colon == nullptr) return;
    for (int i = 0; i < all; ++i)
        if (std::strlen(names[i]) == static_cast<std::size_t>(colon - wanted) &&
            std::strncmp(wanted, names[i], colon - wanted) == 0)
            failing = i, at = std::atol(colon + 1);
}

template <class F>
F real(const char* name) {
    return reinterpret_cast<F>(dlsym(RTLD_NEXT, name));
}

bool fails(Which which) {
    const long now = ++counts[which];
    if (which != failing || now != at) return false;
    errno = errors[which];
    return true;
}

__attribute__((destructor)) void end() {
    const char* path = std::getenv("RIGDEED_COUNT");
    if (path == nullptr || getpid() != first) return;
    failing = all;
    if (std::FILE* file = std::fopen(path, "w")) {
        for (int i = 0; i < all; ++i) std::fprintf(file, "%s %ld\n", names[i], counts[i].load());
        std::fclose(file);
    }
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if (fails(opens)) return -1;
    static const auto next = real<int (*)(const char*, int, ...)>("open");
    return next(path, flags, mode);
}

int open64(const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if (fails(opens)) return -1;
    static const auto next = real<int (*)(const char*, int, ...)>("open64");
    return next(path, flags, mode);
}

int openat(int folder, const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if (fails(opens)) return -1;
    static const auto next = real<int (*)(int, const char*, int, ...)>("openat");
    return next(folder, path, flags, mode);
}

ssize_t read(int file, void* bytes, size_t size) {
    if (fails(reads)) return -1;
    static const auto next = real<ssize_t (*)(int, void*, size_t)>("read");
    return next(file, bytes, size);
}

ssize_t write(int file, const void* bytes, size_t size) {
    if (fails(writes)) return -1;
    static const auto next = real<ssize_t (*)(int, const void*, size_t)>("write");
    return next(file, bytes, size);
}

int fsync(int file) {
    if (fails(fsyncs)) return -1;
    static const auto next = real<int (*)(int)>("fsync");
    return next(file);
}

int rename(const char* from, const char* to) {
    if (fails(renames)) return -1;
    static const auto next = real<int (*)(const char*, const char*)>("rename");
    return next(from, to);
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
    if (fails(renames)) return -1;
    static const auto next = real<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    return next(from_folder, from, to_folder, to, flags);
}

int link(const char* from, const char* to) {
    if (fails(renames)) return -1;
    static const auto next = real<int (*)(const char*, const char*)>("link");
    return next(from, to);
}

void* mmap(void* address, size_t size, int protection, int flags, int file, off_t offset) {
    if (fails(mmaps)) return MAP_FAILED;
    static const auto next = real<void* (*)(void*, size_t, int, int, int, off_t)>("mmap");
    return next(address, size, protection, flags, file, offset);
}

pid_t fork() {
    if (fails(forks)) return -1;
    static const auto next = real<pid_t (*)()>("fork");
    return next();
}

int pthread_create(pthread_t* thread, const pthread_attr_t* attributes, void* (*work)(void*), void* argument) {
    if (fails(threads)) return EAGAIN;
    static const auto next =
        real<int (*)(pthread_t*, const pthread_attr_t*, void* (*)(void*), void*)>("pthread_create");
    return next(thread, attributes, work, argument);
}
}
