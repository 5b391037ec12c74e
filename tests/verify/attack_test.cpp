// Published classes of attack that need more than one exchanged word: each with the check that stops it and with what
// the reader is told. Made from one of our own reports, one defect a file.
#include <doctest/doctest.h>

#include <cstring>

#include "crypto/der.hpp"
#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using crypto::der::element;
using sample::object_count;
using sample::replaced;
using sample::resealed;
using sample::sealed_report;
using sample::with_table;
using verify::Reason;

namespace {

struct Stopped {
    const char* by;
    Reason reason;
    bool operator==(const Stopped&) const = default;
};

std::ostream& operator<<(std::ostream& to, const Stopped& one) {
    return to << one.by << ", reason " << static_cast<int>(one.reason);
}

constexpr const char* start = "starts as a report";
constexpr const char* table = "one cross-reference table";
constexpr const char* objects = "every object in its place";
constexpr const char* kinds = "only objects of a report";
constexpr const char* nothing_beside = "nothing beside the signature";
constexpr const char* fits = "the signature fits the content";

// The name of the check is compared by its text, so it must outlive the verdict: one of those above.
Stopped stopped(std::string_view file) {
    const verify::Verdict verdict = sample::examined(file);
    for (const char* known : {start, table, objects, kinds, nothing_beside, fits})
        if (!verdict.intact() && verdict.checks.back().name == known) return {known, verdict.reason};
    return {"", verdict.reason};
}

std::string summary(std::string_view file) { return verify::verify(file, {}).summary; }

std::size_t place_of(std::string_view word) { return sealed_report().find(word); }

std::string update(const std::string& object, const std::string& table_and_trailer) {
    return sealed_report() + object + table_and_trailer;
}

std::string plain_table(std::size_t number, std::size_t object_length, const std::string& trailer) {
    const std::string at = std::to_string(sealed_report().size());
    return "xref\n" + std::to_string(number) + " 1\n" + std::string(10 - at.size(), '0') + at +
           " 00000 n\r\ntrailer\n<<\n" + trailer + ">>\nstartxref\n" +
           std::to_string(sealed_report().size() + object_length) + "\n%%EOF\n";
}

std::string previous() {
    const std::size_t at = sealed_report().rfind("startxref\n") + 10;
    return sealed_report().substr(at, sealed_report().find('\n', at) - at);
}

const std::string page = "4 0 obj\n<<\n/Type /Page\n>>\nendobj\n";

// The signature's bytes exchanged for others; the rest of its room stays zeros.
std::string with_cms(const std::string& der) {
    const std::size_t at = place_of("/Contents <") + 11;
    std::string hex = to_hex(to_bytes(der));
    hex.resize(32768, '0');
    std::string file = sealed_report();
    return file.replace(at, hex.size(), hex);
}

std::string cms() {
    const std::size_t at = place_of("/Contents <") + 11;
    std::string bytes;
    for (std::size_t i = 0; i < 32768; i += 2)
        bytes += static_cast<char>(std::stoi(sealed_report().substr(at + i, 2), nullptr, 16));
    return bytes.substr(0, 4 + (static_cast<std::size_t>(static_cast<unsigned char>(bytes[2])) << 8 |
                                static_cast<unsigned char>(bytes[3])));
}

// The parts of the SignedData, and of its SignerInfo.
struct Opened {
    std::string type;
    std::vector<std::string> data, signer;

    Opened() {
        const std::string whole = cms();
        const auto info = crypto::der::elements(crypto::der::only(whole, crypto::der::sequence)->content);
        type = (*info)[0].whole;
        const auto signed_data = crypto::der::elements((*info)[1].content);
        const auto fields = crypto::der::elements(signed_data->front().content);
        for (const auto& one : *fields) data.emplace_back(one.whole);
        const auto infos = crypto::der::elements(fields->back().content);
        const auto parts = crypto::der::elements(infos->front().content);
        for (const auto& one : *parts) signer.emplace_back(one.whole);
    }
    [[nodiscard]] std::string info() const {
        std::string all;
        for (const std::string& one : signer) all += one;
        return element(crypto::der::sequence, all);
    }
    [[nodiscard]] std::string closed(const std::string& signers) const {
        const std::string fields = data[0] + data[1] + data[2] + data[3] + element(crypto::der::set, signers);
        return element(crypto::der::sequence,
                       type + element(crypto::der::context0, element(crypto::der::sequence, fields)));
    }
    [[nodiscard]] std::string closed() const { return closed(info()); }
};

std::string exchanged(std::string text, char from, char to) {
    for (char& c : text)
        if (c == from) c = to;
    return text;
}

}  // namespace

TEST_CASE("incremental saving: an update is refused, whatever it consists of") {
    const Stopped appended{table, Reason::bytes_appended};
    const std::string trailer = "/Size " + object_count(sealed_report()) + "\n/Root 1 0 R\n/Prev " + previous() + "\n";
    CHECK(stopped(update(page, plain_table(4, page.size(), trailer))) == appended);
    CHECK(stopped(update(page, plain_table(4, page.size(),
                                           "/Size " + object_count(sealed_report()) + "\n/Root 1 0 R\n"))) == appended);
    CHECK(stopped(update(page, "")) == appended);
    CHECK(stopped(update(page, "trailer\n<<\n" + trailer + ">>\n")) == appended);
    CHECK(stopped(update(page, "trailer\n<<\n" + trailer + ">>\nstartxref\n" + previous() + "\n%%EOF\n")) == appended);
    CHECK(stopped(update("% a comment\n", "")) == appended);
    CHECK(stopped(update("%%EOF\n", "")) == appended);
    CHECK(stopped(update(std::string(1, '\0'), "")) == appended);
    CHECK(stopped(update("startxref\n" + previous() + "\n%%EOF\n", "")) == appended);
    CHECK(stopped(sealed_report() + sealed_report()) == appended);
}

TEST_CASE("shadow hide: an update that takes away what lies over the hidden content is refused") {
    const std::string hidden = "4 0 obj\nnull\nendobj\n";
    CHECK(stopped(update(hidden, plain_table(4, hidden.size(),
                                             "/Size " + object_count(sealed_report()) + "\n/Root 1 0 R\n/Prev " +
                                                 previous() + "\n"))) == Stopped{table, Reason::bytes_appended});
}

TEST_CASE("shadow replace: an update that gives a font or a form another look is refused") {
    for (const char* object : {"18 0 obj\n<<\n/Type /Font\n>>\nendobj\n", "32 0 obj\n<<\n/Type /Annot\n>>\nendobj\n"})
        CHECK(stopped(update(object, plain_table(18, std::strlen(object),
                                                 "/Size " + object_count(sealed_report()) + "\n/Root 1 0 R\n/Prev " +
                                                     previous() + "\n"))) == Stopped{table, Reason::bytes_appended});
}

TEST_CASE("shadow hide and replace: two catalogs in one file, switched by an update, are refused") {
    const std::string second = replaced(sealed_report(), "\nxref\n0 " + object_count(sealed_report()) + "\n",
                                        "\n" + object_count(sealed_report()) +
                                            " 0 obj\n<<\n/Type /Catalog\n/Pages 2 0 R\n>>\nendobj\nxref\n0 " +
                                            object_count(sealed_report()) + "\n");
    CHECK(stopped(resealed(second)) == Stopped{kinds, Reason::changed_inside});
    const std::string switched = "xref\n0 1\n0000000000 65535 f\r\ntrailer\n<<\n/Size " +
                                 sample::one_more(object_count(sealed_report())) + "\n/Root " +
                                 object_count(sealed_report()) + " 0 R\n/Prev " + previous() + "\n>>\nstartxref\n" +
                                 std::to_string(resealed(second).size()) + "\n%%EOF\n";
    CHECK(stopped(resealed(second) + switched) == Stopped{table, Reason::bytes_appended});
}

TEST_CASE("signature wrapping: the signed second part moved behind a forged one is refused") {
    const std::size_t close = sealed_report().find('>', place_of("/Contents <")) + 1;
    const std::string before = sealed_report().substr(0, close), rest = sealed_report().substr(close);
    CHECK(stopped(before + "\n>>\nendobj\n" + page + rest) == Stopped{table, Reason::changed_inside});
    CHECK(stopped(with_table(before + "\n>>\nendobj\n" + page + rest)).by == std::string(objects));
    CHECK(stopped(before + rest + rest) == Stopped{table, Reason::bytes_appended});
}

TEST_CASE("cross-reference loops and detours are refused") {
    const std::string loop = "/Root 1 0 R\n/Prev " + previous();
    CHECK(stopped(resealed(replaced(sealed_report(), "/Root 1 0 R", loop))) == Stopped{kinds, Reason::changed_inside});
    CHECK(stopped(replaced(sealed_report(), "/Length 6 0 R", "/Length 7 0 R")).by == std::string(objects));
    for (const char* wrong : {"0", "99999999", "4294967295", "18446744073709551616"}) {
        const std::string file =
            replaced(sealed_report(), "startxref\n" + previous(), std::string("startxref\n") + wrong);
        CHECK(stopped(file).by == std::string(table));
    }
    CHECK(stopped(resealed(replaced(sealed_report(), "/Parent 2 0 R", "/Parent 4 0 R"))).by == std::string(kinds));
}

TEST_CASE("junk before the header is refused, and said") {
    for (const char* junk : {"\n", "%", "junk\n", "\xEF\xBB\xBF", "MZ"}) {
        CHECK(stopped(junk + sealed_report()) == Stopped{start, Reason::bytes_before});
        CHECK(summary(junk + sealed_report()) == "bytes were put before the report");
    }
}

TEST_CASE("a signature with two signers, content or other attributes than ours is refused in a report, too") {
    const Stopped refused{fits, Reason::changed_inside};
    CHECK(stopped(with_cms(Opened().closed())).by == std::string());
    Opened opened;
    CHECK(stopped(with_cms(opened.closed(opened.info() + opened.info()))) == refused);
    CHECK(stopped(with_cms(opened.closed(""))) == refused);
    opened.data[2] =
        element(crypto::der::sequence, std::string(crypto::der::only(opened.data[2], crypto::der::sequence)->content) +
                                           element(crypto::der::context0, element(crypto::der::octets, "content")));
    CHECK(stopped(with_cms(opened.closed())) == refused);
    const Opened good;
    const std::string attributes(crypto::der::elements(good.signer[3])->front().content);
    const auto list = *crypto::der::elements(attributes);
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string one(list[i].whole);
        Opened changed;
        changed.signer[3] = element(crypto::der::context0, replaced(attributes, one, ""));
        CHECK(stopped(with_cms(changed.closed())) == refused);
        changed.signer[3] = element(crypto::der::context0, replaced(attributes, one, one + one));
        CHECK(stopped(with_cms(changed.closed())) == refused);
    }
}

TEST_CASE("a signature that is BER and no DER is refused") {
    const std::string good = cms();
    const std::string inner = good.substr(4);
    std::string indefinite = "\x30\x80" + inner;
    indefinite += std::string(2, '\0');
    CHECK(stopped(with_cms(indefinite)) == Stopped{nothing_beside, Reason::changed_inside});
    const auto length = static_cast<unsigned>(inner.size());
    const std::string long_length{'\x30', '\x83', '\0', static_cast<char>(length >> 8),
                                  static_cast<char>(length & 0xFF)};
    CHECK(stopped(with_cms(long_length + inner)) == Stopped{nothing_beside, Reason::changed_inside});
    CHECK(stopped(with_cms("\x04\x82" + good.substr(2))) == Stopped{nothing_beside, Reason::changed_inside});
}

TEST_CASE("a signature written as a literal text is refused") {
    std::string file = sealed_report();
    const std::size_t at = place_of("/Contents <") + 10;
    file[at] = '(';
    file[file.find('>', at)] = ')';
    CHECK(stopped(file).by == std::string(""));
    CHECK_FALSE(verify::verify(file, {}).intact());
}

TEST_CASE("the same name on a self-made certificate is told by its key") {
    const std::string forged = resealed(sealed_report(), sample::another_ann());
    const auto verdict = verify::verify(forged, {sample::ann().certificate().fingerprint, {}});
    CHECK(verdict.reason == Reason::other_signer);
    CHECK(verdict.exit_code() == ExitCode::signer_unknown);
    CHECK(verdict.summary == "intact, but sealed by another than the expected signer");
}

TEST_CASE("what mail and file transfer do to a report is told in plain words") {
    const std::string& good = sealed_report();
    CHECK(summary(exchanged(good, '\n', '\r')) == "changed in transport: line ends were converted");
    std::string seven_bits = good;
    for (char& c : seven_bits) c = static_cast<char>(c & 0x7F);
    CHECK(summary(seven_bits) == "changed in transport: the file was converted as if it were text");
    std::string questions = good;
    for (char& c : questions)
        if ((c & 0x80) != 0) c = '?';
    CHECK(summary(questions) == "changed in transport: the file was converted as if it were text");
    CHECK(summary(good.substr(0, good.size() - 1000)) ==
          "cut short: 1000 bytes of " + std::to_string(good.size()) + " are missing");
    CHECK(summary(good + "\x1A") == "changed after it was issued: 1 byte stand behind its end");
    CHECK(summary(std::string("\x1F\x8B\x08", 3) + good) == "bytes were put before the report");
    CHECK(summary("JVBERi0xLjcK") == "the file is not a PDF");
    std::string without_zeros;
    for (const char c : good)
        if (c != '\0') without_zeros += c;
    CHECK_FALSE(verify::verify(without_zeros, {}).intact());
    std::string zeroed = good;
    zeroed.replace(good.size() / 2, 512, std::string(512, '\0'));
    CHECK(summary(zeroed) == "changed after it was issued");
}
