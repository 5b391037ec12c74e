#include "command/terminal.hpp"

#include <fcntl.h>
#include <termios.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>

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

/// The terminal itself with echo switched off; restored on every way out.
class SilentTerminal {
 public:
    SilentTerminal() : descriptor_(::open("/dev/tty", O_RDWR | O_CLOEXEC)) {
        if (descriptor_ < 0)
            throw Error("there is no terminal to ask for the passphrase", {},
                        "give --passphrase-file FILE or set RIGDEED_PASSPHRASE");
        ::tcgetattr(descriptor_, &before_);
        termios silent = before_;
        silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        ::tcsetattr(descriptor_, TCSAFLUSH, &silent);
    }
    ~SilentTerminal() {
        ::tcsetattr(descriptor_, TCSAFLUSH, &before_);
        ::close(descriptor_);
    }
    SilentTerminal(const SilentTerminal&) = delete;
    SilentTerminal& operator=(const SilentTerminal&) = delete;

    std::string ask(const std::string& prompt) {
        say(prompt);
        std::string line;
        char c = 0;
        while (::read(descriptor_, &c, 1) == 1 && c != '\n') line += c;
        say("\n");
        return line;
    }

 private:
    void say(const std::string& text) const {
        if (::write(descriptor_, text.data(), text.size()) < 0) throw Error("cannot write to the terminal");
    }
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
