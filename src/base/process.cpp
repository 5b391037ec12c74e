#include "base/process.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <csignal>
#include <initializer_list>

namespace rigdeed {

void settle_process() {
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
    for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        if (::fcntl(descriptor, F_GETFD) != -1) continue;
        // The lowest free number is taken, and opened so that any use of it fails as it would have done.
        const int useless = descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY;
        if (::open("/dev/null", useless | O_CLOEXEC) < 0) return;
    }
}

}  // namespace rigdeed
