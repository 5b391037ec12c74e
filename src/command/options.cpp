#include "command/options.hpp"

#include <CLI/CLI.hpp>

#include "base/date.hpp"
#include "base/error.hpp"
#include "base/language.hpp"
#include "base/text.hpp"

namespace rigdeed::command {
namespace {

void add_choice(CLI::App& command, const char* name, std::string& into, const std::string& what,
                const std::vector<std::string>& known) {
    command.add_option(name, into, what + "; by default the letterhead's")
        ->check(CLI::IsMember(known))
        ->type_name(join(known, "|"));
}

}  // namespace

void add_paper(CLI::App& command, std::string& paper, const std::string& of) {
    std::vector<std::string> names;
    for (const PaperRow& row : papers) names.emplace_back(row.name);
    add_choice(command, "--paper", paper, "Paper of the " + of, names);
}

void add_language(CLI::App& command, std::string& language, const std::string& of) {
    add_choice(command, "--language", language, "Language of the " + of, {languages.begin(), languages.end()});
}

std::optional<std::size_t> read_mail_size(const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto end = text.find_first_not_of("0123456789.");
    const auto parts = split(text.substr(0, end), '.');
    constexpr std::size_t most_decimals = 3;  // bytes of a kB
    std::string thousandths = parts.size() == 2 ? parts[1] : std::string();
    const bool is_number =
        parts.size() <= 2 && (parts.size() == 1 || !thousandths.empty()) && thousandths.size() <= most_decimals;
    thousandths.resize(most_decimals, '0');
    const auto number = read_digits(parts[0]), more = read_digits(thousandths);
    const std::string unit = end == std::string::npos ? "" : squeezed(text.substr(end));
    if (!is_number || !number || !more || *number + *more == 0 || *number > 100000 || (unit != "MB" && unit != "kB"))
        throw Error("--mail-size " + in_quotes(text) + " is no size", {}, "write it as 15MB, 5.5MB or 900kB");
    return (static_cast<std::size_t>(*number) * 1000 + static_cast<std::size_t>(*more)) * (unit == "MB" ? 1000 : 1);
}

}  // namespace rigdeed::command
