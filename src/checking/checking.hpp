#pragma once

#include <string>

/// The check page: any browser tells by it whether a sealed report is as it was sealed, and what it says.
namespace rigdeed::checking {

/// The page as HTML, with its words in every language; always the same.
[[nodiscard]] std::string compose();

}  // namespace rigdeed::checking
