#pragma once

#include <string>
#include <string_view>

namespace rigdeed {

/// Where a plain HTTP request goes.
struct HttpTarget {
    std::string host;
    std::string port;
    std::string path;  ///< with its query, from the first "/"
};

/// Of "http://host[:port][/path]". Throws Error for anything else, https among it.
[[nodiscard]] HttpTarget read_http_url(const std::string& url);

/// One POST (HTTP/1.0, so that the answer is neither chunked nor kept open), and the body of the answer: status 200,
/// 64 kB at most, ten seconds for all of it. Throws Error if there is no such answer.
[[nodiscard]] std::string http_post(const std::string& url, std::string_view content_type, std::string_view body);

}  // namespace rigdeed
