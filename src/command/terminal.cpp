#include "command/terminal.hpp"

#include <fcntl.h>
#include <poll.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <utility>

namespace rigdeed::command {
namespace {

bool wants_colour(int descriptor) {
    const char* off = std::getenv("NO_COLOR");
    return ::isatty(descriptor) == 1 && (off == nullptr || *off == '\0');
}

void to_stderr(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stderr); }

[[noreturn]] void cannot_write() {
    if (errno == EPIPE) throw OutputClosed{};
    throw Error("cannot write the result: " + std::string(std::strerror(errno)), "standard output");
}

constexpr std::array interruptions{SIGINT, SIGQUIT, SIGTERM, SIGHUP, SIGTSTP};
volatile std::sig_atomic_t interrupted_by = 0;
void note_interruption(int number) { interrupted_by = number; }

/// Signals that end or stop the program wait until the terminal is as it was before.
class Interruptions {
 public:
    Interruptions() { hold(); }
    ~Interruptions() { let_go(); }
    Interruptions(const Interruptions&) = delete;
    Interruptions& operator=(const Interruptions&) = delete;

    /// Waits for input; false if a signal came first.
    bool wait(int descriptor) const {
        pollfd input{descriptor, POLLIN, 0};
        return ::ppoll(&input, 1, nullptr, &before_) >= 0 || errno != EINTR || interrupted_by == 0;
    }
    /// Gives the signal its way; comes back where the program was stopped and goes on.
    void pass_on() {
        const int number = std::exchange(interrupted_by, 0);
        let_go();
        std::raise(number);
        hold();
    }

 private:
    // What is ignored stays so: `nohup`, for one.
    void hold() {
        sigset_t all;
        ::sigemptyset(&all);
        for (const int number : interruptions) ::sigaddset(&all, number);
        ::sigprocmask(SIG_BLOCK, &all, &before_);
        for (std::size_t i = 0; i < interruptions.size(); ++i) {
            ::sigaction(interruptions[i], nullptr, &actions_[i]);
            if (actions_[i].sa_handler == SIG_IGN) continue;
            struct sigaction noting {};
            noting.sa_handler = note_interruption;
            ::sigaction(interruptions[i], &noting, nullptr);
        }
    }
    void let_go() {
        for (std::size_t i = 0; i < interruptions.size(); ++i) ::sigaction(interruptions[i], &actions_[i], nullptr);
        ::sigprocmask(SIG_SETMASK, &before_, nullptr);
    }
    sigset_t before_{};
    std::array<struct sigaction, interruptions.size()> actions_{};
};

/// The terminal itself with echo switched off; restored on every way out, and before a signal ends or stops us.
class SilentTerminal {
 public:
    SilentTerminal() : descriptor_(::open("/dev/tty", O_RDWR | O_CLOEXEC)) {
        if (descriptor_ < 0)
            throw Error("there is no terminal to ask for the passphrase", {},
                        "give --passphrase-file FILE or set RIGDEED_PASSPHRASE");
        ::tcgetattr(descriptor_, &before_);
        silence();
    }
    ~SilentTerminal() {
        restore();
        ::close(descriptor_);
    }
    SilentTerminal(const SilentTerminal&) = delete;
    SilentTerminal& operator=(const SilentTerminal&) = delete;

    std::string ask(const std::string& prompt) {
        say(prompt);
        std::string line;
        char c = 0;
        for (;;) {
            if (!interruptions_.wait(descriptor_)) {
                restore();
                say("\n");
                interruptions_.pass_on();
                silence();
                line.clear();
                say(prompt);
            } else if (::read(descriptor_, &c, 1) == 1 && c != '\n') {
                line += c;
            } else {
                break;
            }
        }
        say("\n");
        return line;
    }

 private:
    void silence() const {
        termios silent = before_;
        silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        ::tcsetattr(descriptor_, TCSAFLUSH, &silent);
    }
    void restore() const { ::tcsetattr(descriptor_, TCSAFLUSH, &before_); }
    void say(const std::string& text) const {
        if (::write(descriptor_, text.data(), text.size()) < 0) throw Error("cannot write to the terminal");
    }
    Interruptions interruptions_;
    int descriptor_;
    termios before_{};
};

}  // namespace

Terminal::Terminal(bool quiet)
    : quiet_(quiet),
      colour_out_(wants_colour(STDOUT_FILENO)),
      colour_err_(wants_colour(STDERR_FILENO)),
      live_(!quiet && ::isatty(STDERR_FILENO) == 1) {}

void Terminal::raw_result(std::string_view bytes) const {
    if (std::fwrite(bytes.data(), 1, bytes.size(), stdout) != bytes.size()) cannot_write();
}

void Terminal::result(std::string_view line) const { raw_result(std::string(line) + "\n"); }

void Terminal::note(std::string_view line) const {
    if (!quiet_) to_stderr("rigdeed: " + std::string(line) + "\n");
}

void Terminal::problem(const Problem& problem) const { error(Error(problem.what, problem.at.text(), problem.hint)); }

void Terminal::error(const Error& error) const {
    const std::string where = error.where.empty() ? "" : error.where + ": ";
    const std::string word = colour_err_ ? "\033[1;31merror:\033[0m " : "error: ";
    to_stderr("rigdeed: " + word + where + error.message + "\n");
    if (!error.hint.empty()) to_stderr("rigdeed: hint: " + error.hint + "\n");
}

void Terminal::progress(std::string_view what, std::size_t done, std::size_t all) const {
    if (!live_) return;
    if (done >= all) to_stderr("\r\033[K");
    else to_stderr("\r" + std::string(what) + " " + std::to_string(done) + "/" + std::to_string(all));
}

void Terminal::finish() const {
    if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) cannot_write();
}

std::string Terminal::emphasised(std::string_view text, Emphasis emphasis) const {
    if (!colour_out_) return std::string(text);
    switch (emphasis) {
        case Emphasis::strong: return "\033[1m" + std::string(text) + "\033[0m";
        case Emphasis::bad: return "\033[1;31m" + std::string(text) + "\033[0m";
        case Emphasis::good: return "\033[1;32m" + std::string(text) + "\033[0m";
    }
    return std::string(text);
}

std::string ask_passphrase(const std::string& prompt, bool twice) {
    SilentTerminal terminal;
    std::string passphrase = terminal.ask(prompt);
    if (twice && terminal.ask("the same once more: ") != passphrase) throw Error("the two passphrases differ");
    return passphrase;
}

}  // namespace rigdeed::command
