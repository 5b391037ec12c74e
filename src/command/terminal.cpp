#include "command/terminal.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <utility>

#include "base/text.hpp"

namespace rigdeed::command {
namespace {

bool wants_colour(int descriptor) {
    const char* off = std::getenv("NO_COLOR");
    const char* kind = std::getenv("TERM");
    const bool dumb = kind != nullptr && std::string_view(kind) == "dumb";
    return ::isatty(descriptor) == 1 && (off == nullptr || *off == '\0') && !dumb;
}

/// Columns of a terminal; nothing where there is none, or it does not say.
std::size_t columns_of(int descriptor) {
    winsize size{};
    if (::isatty(descriptor) != 1 || ::ioctl(descriptor, TIOCGWINSZ, &size) != 0) return 0;
    return size.ws_col;
}

void to_stderr(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stderr); }

[[noreturn]] void cannot_write() {
    if (errno == EPIPE) throw OutputClosed{};
    throw Error("cannot write the result: " + std::string(std::strerror(errno)), "standard output");
}

/// Columns that a word takes: an escape sequence takes none.
std::size_t letters_shown(std::string_view word) {
    std::string shown;
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (word[i] != '\033') shown += word[i];
        else
            while (i + 1 < word.size() && word[i] != 'm') ++i;
    }
    return count_letters(shown);
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

void Terminal::result(std::string_view line) const { raw_result(wrapped(line, columns_of(STDOUT_FILENO)) + "\n"); }

namespace {

/// Words of a line; what is XML to be written, an element or an attribute, is one word with the blanks in it.
std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    const auto open = [](const std::string& word) {
        const auto tag = word.find('<');
        const bool element = tag != std::string::npos && tag + 1 < word.size() &&
                             (std::isalpha(word[tag + 1]) != 0 || word[tag + 1] == '/');
        if (element) return word.find('>', tag) == std::string::npos;
        return word.find("=\"") != std::string::npos && std::count(word.begin(), word.end(), '"') % 2 == 1;
    };
    const std::vector<std::string> parts = split(line, ' ');
    for (std::size_t i = 0; i < parts.size(); ++i) {
        std::string whole = parts[i];
        std::size_t last = i;
        while (open(whole) && last + 1 < parts.size()) whole += " " + parts[++last];
        const bool closed = !open(whole);  // else a "<" that opens nothing
        words.push_back(closed ? whole : parts[i]);
        if (closed) i = last;
    }
    return words;
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t columns) {
    if (columns < 20 || count_letters(text) <= columns) return std::string(text);
    std::string out;
    for (const std::string& line : split(text, '\n')) {
        const std::size_t indent = std::min(line.find_first_not_of(' '), columns / 2);
        const std::string margin(indent == std::string::npos ? 0 : indent + 2, ' ');
        std::size_t width = 0;
        bool first = true;
        out += out.empty() ? "" : "\n";
        for (const std::string& word : words_of(line)) {
            const std::size_t letters = letters_shown(word);
            if (!first && width > margin.size() && width + 1 + letters > columns) {
                out += "\n" + margin;
                width = margin.size();
            } else if (!first) {
                out += ' ';
                ++width;
            }
            out += word;
            width += letters;
            first = false;
        }
    }
    return out;
}

void Terminal::note(std::string_view line) const {
    if (!quiet_) to_stderr(wrapped("rigdeed: " + std::string(line), columns_of(STDERR_FILENO)) + "\n");
}

void Terminal::problem(const Problem& problem) const { error(Error(problem.what, problem.at.text(), problem.hint)); }

void Terminal::error(const Error& error) const {
    const std::string where = error.where.empty() ? "" : error.where + ": ";
    const std::string word = colour_err_ ? "\033[1;31merror:\033[0m " : "error: ";
    const std::size_t columns = columns_of(STDERR_FILENO);
    to_stderr(wrapped("rigdeed: " + word + where + error.message, columns) + "\n");
    if (!error.hint.empty()) to_stderr(wrapped("rigdeed: hint: " + error.hint, columns) + "\n");
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
