#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "base/error.hpp"
#include "evidence/logo.hpp"
#include "survey/sample.hpp"
#include "temporary.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

namespace {

/// A PNG of 2 x 1 pixels, red and transparent, written for this test (RFC 2083).
const unsigned char png[] = {0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0x00, 0x00, 0x00, 0x0D, 0x49, 0x48, 0x44,
                             0x52, 0x00, 0x00, 0x00, 0x02, 0x00, 0x00, 0x00, 0x01, 0x08, 0x06, 0x00, 0x00, 0x00, 0xF4,
                             0x22, 0x7F, 0x8A, 0x00, 0x00, 0x00, 0x0F, 0x49, 0x44, 0x41, 0x54, 0x78, 0x9C, 0x63, 0xF8,
                             0xCF, 0xC0, 0x00, 0x44, 0x0C, 0x0C, 0x00, 0x0C, 0xFC, 0x01, 0xFF, 0x5C, 0xFD, 0x14, 0x95,
                             0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4E, 0x44, 0xAE, 0x42, 0x60, 0x82};

/// A templates folder of one's own with this letterhead, gone at the end.
class OwnTemplates {
 public:
    explicit OwnTemplates(const std::string& attributes, const std::string& lines = "") {
        std::filesystem::create_directories(folder_ / "look");
        std::ofstream(folder_ / "look/letterhead.xml")
            << "<letterhead xmlns=\"urn:rigdeed:letterhead:1\" " << attributes << ">" << lines << "</letterhead>";
        std::ofstream(folder_ / "look/logo.png", std::ios::binary)
            .write(reinterpret_cast<const char*>(png), sizeof png);
        std::ofstream(folder_ / "look/broken.png", std::ios::binary).write(reinterpret_cast<const char*>(png), 40);
    }
    ~OwnTemplates() { std::filesystem::remove_all(folder_); }
    OwnTemplates(const OwnTemplates&) = delete;
    OwnTemplates& operator=(const OwnTemplates&) = delete;

    [[nodiscard]] trade::Letterhead read() const {
        return trade::load_trade(trade::read_own_templates(folder_)).letterhead;
    }
    [[nodiscard]] std::string refusal() const {
        try {
            (void)read();
        } catch (const Error& error) { return error.what(); }
        return {};
    }

 private:
    std::filesystem::path folder_ = sample::temporary("letterhead-test");
};

}  // namespace

TEST_CASE("a firm's letterhead takes the place of ours") {
    const OwnTemplates own("paper=\"letter\" firm=\"Sorrel Rigging\" accent=\"#1F4e79\" logo=\"logo.png\"",
                           "<line>1 Quay</line><line>Town</line>");
    const trade::Letterhead letterhead = own.read();
    CHECK(letterhead.paper == PaperSize::letter);
    CHECK(letterhead.firm == "Sorrel Rigging");
    CHECK(letterhead.lines == std::vector<std::string>{"1 Quay", "Town"});
    CHECK(letterhead.accent == Colour{0x1F, 0x4E, 0x79});
    const evidence::PrintCopy logo = evidence::logo_for_print(letterhead.logo, letterhead.logo_file);
    CHECK(logo.width == 2);
    CHECK(logo.height == 1);
    CHECK(trade::load_trade().letterhead.firm.empty());
}

TEST_CASE("what is wrong with a letterhead is said") {
    CHECK(OwnTemplates("accent=\"blue\"").refusal().find("no colour") != std::string::npos);
    CHECK(OwnTemplates("paper=\"a5\"").refusal().find("a5") != std::string::npos);
    CHECK(OwnTemplates("logo=\"../logo.png\"").refusal().find("is a path") != std::string::npos);
    CHECK(OwnTemplates("logo=\"none.png\"").refusal().find("none.png") != std::string::npos);
    CHECK(OwnTemplates("", "<line>1</line><line>2</line><line>3</line><line>4</line>").refusal().find("three") !=
          std::string::npos);
    CHECK(OwnTemplates("", "<row>1</row>").refusal().find("row") != std::string::npos);
    const trade::Letterhead broken = OwnTemplates("logo=\"broken.png\"").read();
    CHECK_THROWS_AS((void)evidence::logo_for_print(broken.logo, broken.logo_file), Error);
    CHECK_THROWS_AS((void)evidence::logo_for_print(Bytes{'G', 'I', 'F', '8', '9', 'a', 0, 0}, "logo.gif"), Error);
}
