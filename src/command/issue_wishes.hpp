#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace rigdeed::command {

/// What the command line asks of `issue`.
struct IssueWishes {
    std::vector<std::string> files;
    std::string output;
    std::string signer;
    std::string passphrase_file;
    std::string issued_on;
    std::string paper;
    std::string language;
    std::string mail_size;
    std::string replaces;
    std::vector<std::string> since;
    bool other_yacht = false;
    std::string because;
    std::string replaced_signer;
    std::string timestamp;
    std::string time_authorities;
    bool timestamp_optional = false;
    bool with_gaps = false;
    bool force = false;
    bool on_behalf = false;
    bool preview = false;
};

void add_options(CLI::App& command, IssueWishes& options);

/// Throws Error for wishes that do not go together.
void check_wishes(const IssueWishes& options);

}  // namespace rigdeed::command
