#include "base/http.hpp"

#include <fcntl.h>
#include <netdb.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <memory>
#include <optional>

#include "base/date.hpp"
#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::seconds patience{10};
constexpr std::size_t largest_answer = 65536;

class Socket {
 public:
    explicit Socket(int descriptor) : descriptor_(descriptor) {}
    Socket(const Socket&) = delete;
    Socket& operator=(const Socket&) = delete;
    ~Socket() {
        if (descriptor_ >= 0) close(descriptor_);
    }
    [[nodiscard]] int get() const { return descriptor_; }

 private:
    int descriptor_;
};

struct AddressesFree {
    void operator()(addrinfo* list) const { freeaddrinfo(list); }
};

// One exchange: every wait in it ends at the same moment.
class Exchange {
 public:
    explicit Exchange(std::string url) : url_(std::move(url)), end_(Clock::now() + patience) {}

    [[noreturn]] void fail(const std::string& what) const { throw Error(what, url_); }

    void wait(int descriptor, short events) const {
        if (!is_ready(descriptor, events, end_)) fail("the server did not answer within 10 seconds");
    }

    /// False if it is not ready at that moment.
    [[nodiscard]] bool is_ready(int descriptor, short events, Clock::time_point until) const {
        for (;;) {
            const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now()).count();
            pollfd one{descriptor, events, 0};
            const int ready = left <= 0 ? 0 : poll(&one, 1, static_cast<int>(left));
            if (ready >= 0) return ready > 0;
            if (errno != EINTR) fail(std::string("waiting for the server failed: ") + std::strerror(errno));
        }
    }

    /// An address that does not answer must leave time for those after it.
    [[nodiscard]] Clock::time_point patience_with(bool last_address) const {
        constexpr std::chrono::seconds for_one{3};
        return last_address ? end_ : std::min(end_, Clock::now() + for_one);
    }

    void send_all(int descriptor, std::string_view bytes) const {
        while (!bytes.empty()) {
            wait(descriptor, POLLOUT);
            const ssize_t sent = send(descriptor, bytes.data(), bytes.size(), MSG_NOSIGNAL);
            if (sent < 0 && errno != EAGAIN && errno != EINTR)
                fail(std::string("the server cannot be written to: ") + std::strerror(errno));
            if (sent > 0) bytes.remove_prefix(static_cast<std::size_t>(sent));
        }
    }

    /// More of the answer; false at its end.
    bool receive(int descriptor, std::string& answer) const {
        char piece[4096];
        for (;;) {
            wait(descriptor, POLLIN);
            const ssize_t got = recv(descriptor, piece, sizeof piece, 0);
            if (got < 0 && (errno == EAGAIN || errno == EINTR)) continue;
            if (got < 0) fail(std::string("the server cannot be read from: ") + std::strerror(errno));
            answer.append(piece, static_cast<std::size_t>(got));
            if (answer.size() > largest_answer) fail("the server's answer is larger than 64 kB");
            return got > 0;
        }
    }

 private:
    std::string url_;
    Clock::time_point end_;
};

// Connected, or the reason why not.
int try_address(const Exchange& exchange, const addrinfo& address, std::string& why) {
    const int descriptor = socket(address.ai_family, address.ai_socktype | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    int error = descriptor < 0 ? errno : 0;
    if (error == 0 && connect(descriptor, address.ai_addr, address.ai_addrlen) != 0) error = errno;
    if (error == EINPROGRESS) {
        socklen_t size = sizeof error;
        if (!exchange.is_ready(descriptor, POLLOUT, exchange.patience_with(address.ai_next == nullptr)))
            error = ETIMEDOUT;
        else if (getsockopt(descriptor, SOL_SOCKET, SO_ERROR, &error, &size) != 0) error = errno;
    }
    if (error == 0) return descriptor;
    why = std::strerror(error);
    if (descriptor >= 0) close(descriptor);
    return -1;
}

int connected(const Exchange& exchange, const HttpTarget& target) {
    addrinfo wanted{};
    wanted.ai_socktype = SOCK_STREAM;
    addrinfo* list = nullptr;
    const int code = getaddrinfo(target.host.c_str(), target.port.c_str(), &wanted, &list);
    if (code != 0) exchange.fail(std::string("the server is not found: ") + gai_strerror(code));
    const std::unique_ptr<addrinfo, AddressesFree> owner(list);
    std::string why = "no address";
    for (const addrinfo* one = list; one != nullptr; one = one->ai_next)
        if (const int descriptor = try_address(exchange, *one, why); descriptor >= 0) return descriptor;
    exchange.fail("the server cannot be reached: " + why);
}

// The value of Content-Length, if there is one; `fault` if it is no number.
std::optional<std::size_t> content_length(std::string_view head, bool& fault) {
    constexpr std::string_view name = "content-length:";
    for (const std::string& line : split(std::string(head), '\n')) {
        std::string lower = line.substr(0, name.size());
        std::transform(lower.begin(), lower.end(), lower.begin(),
                       [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
        if (lower != name) continue;
        const std::string value(squeezed(line.substr(name.size())));
        fault = value.empty() || value.size() > 6 || value.find_first_not_of("0123456789") != std::string::npos;
        return fault ? 0 : static_cast<std::size_t>(std::stoul(value));
    }
    return std::nullopt;
}

}  // namespace

HttpTarget read_http_url(const std::string& url) {
    constexpr std::string_view scheme = "http://";
    const auto bad = [&](const char* what) {
        return Error(what + (": " + in_quotes(url)), {}, "write it as http://host/path or http://host:port/path");
    };
    if (url.compare(0, scheme.size(), scheme) != 0) throw bad("only http:// addresses are asked");
    if (std::any_of(url.begin(), url.end(), [](char c) { return c <= 0x20 || c >= 0x7F; }))
        throw bad("not the address of a server");
    const std::size_t slash = std::min(url.find_first_of("/?", scheme.size()), url.size());
    std::string host = url.substr(scheme.size(), slash - scheme.size()), port = "80", path = url.substr(slash);
    const std::size_t bracket = host.find(']');
    const std::size_t colon = host.find(':', bracket == std::string::npos ? 0 : bracket);
    if (colon != std::string::npos) {
        port = host.substr(colon + 1);
        host.resize(colon);
    }
    if (bracket != std::string::npos && host.front() == '[' && host.back() == ']')
        host = host.substr(1, host.size() - 2);
    path = path.substr(0, path.find('#'));
    if (path.empty() || path[0] != '/') path.insert(0, 1, '/');
    const bool is_port = !port.empty() && port.size() <= 5 && port.find_first_not_of("0123456789") == std::string::npos;
    if (host.empty() || host.find_first_of("@[]\\") != std::string::npos || !is_port)
        throw bad("not the address of a server");
    return {host, port, path};
}

std::string http_post(const std::string& url, std::string_view content_type, std::string_view body) {
    const HttpTarget target = read_http_url(url);
    const Exchange exchange(url);
    const Socket socket(connected(exchange, target));
    const std::string name = target.host.find(':') == std::string::npos ? target.host : "[" + target.host + "]";
    exchange.send_all(socket.get(), "POST " + target.path + " HTTP/1.0\r\nHost: " + name +
                                        (target.port == "80" ? "" : ":" + target.port) +
                                        "\r\nContent-Type: " + std::string(content_type) +
                                        "\r\nContent-Length: " + std::to_string(body.size()) +
                                        "\r\nConnection: close\r\n\r\n" + std::string(body));
    std::string answer;
    std::size_t end = std::string::npos;
    bool more = true;
    while (more && (end = answer.find("\r\n\r\n")) == std::string::npos) more = exchange.receive(socket.get(), answer);
    end = answer.find("\r\n\r\n");
    if (end == std::string::npos || answer.compare(0, 7, "HTTP/1.") != 0 || answer.size() < 12)
        exchange.fail("the server's answer is not HTTP");
    if (answer.compare(8, 4, " 200") != 0)
        exchange.fail("the server refused: status " + std::to_string(read_digits(answer.substr(9, 3)).value_or(0)));
    bool fault = false;
    const auto length = content_length(std::string_view(answer).substr(0, end), fault);
    if (fault) exchange.fail("the server's answer has no sensible length");
    const std::size_t begin = end + 4;
    while (more && (!length || answer.size() - begin < *length)) more = exchange.receive(socket.get(), answer);
    if (length && answer.size() - begin < *length) exchange.fail("the server's answer is cut short");
    return answer.substr(begin, length.value_or(std::string::npos));
}

}  // namespace rigdeed
