// Published classes of attack on signed PDF files, one case each, and the check that stops it.
#include <doctest/doctest.h>

#include "pdf/sample_pages.hpp"
#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using sample::failing_check;
using sample::object_count;
using sample::one_more;
using sample::replaced;
using sample::resealed;
using sample::sealed_report;
using sample::with_table;

namespace {

constexpr const char* start = "starts as a report";
constexpr const char* table = "one cross-reference table";
constexpr const char* objects = "every object in its place";
constexpr const char* kinds = "only objects of a report";
constexpr const char* one_seal = "one seal, for the whole document";
constexpr const char* every_byte = "the seal covers every byte";
constexpr const char* nothing_beside = "nothing beside the signature";
constexpr const char* fits = "the signature fits the content";
constexpr const char* carried = "the carried files agree";

struct Forgery {
    const char* from;
    const char* to;
    const char* stopped_by;
};

// The forger may even hold the signing key: what he makes is still no report.
bool are_stopped(const std::vector<Forgery>& forgeries) {
    bool all = !forgeries.empty();
    for (const Forgery& one : forgeries) {
        CAPTURE(one.to);
        const std::string stopped_by = failing_check(resealed(replaced(sealed_report(), one.from, one.to)));
        CHECK(stopped_by == one.stopped_by);
        all = all && stopped_by == one.stopped_by;
    }
    return all;
}

std::string contents() {
    const std::size_t at = sealed_report().find("/Contents <");
    return sealed_report().substr(at, sealed_report().find('>', at) + 1 - at);
}

std::string byte_range() {
    const std::size_t at = sealed_report().find("/ByteRange [");
    return sealed_report().substr(at, 47);
}

std::string with_contents(const std::string& to) { return with_table(replaced(sealed_report(), contents(), to)); }

std::string with_range(const std::string& to) {
    return with_table(replaced(sealed_report(), byte_range(), "/ByteRange " + to));
}

std::string range(std::uint64_t a, std::uint64_t b, std::uint64_t c) {
    const auto ten = [](std::uint64_t n) {
        const auto s = std::to_string(n);
        return std::string(s.size() < 10 ? 10 - s.size() : 0, '0') + s;
    };
    return "[0 " + ten(a) + " " + ten(b) + " " + ten(c) + "]";
}

// Another object before the cross-reference table.
std::string with_object(const std::string& object) {
    return replaced(sealed_report(), "\nxref\n0 " + object_count(sealed_report()) + "\n",
                    "\n" + object_count(sealed_report()) + " 0 obj\n" + object + "\nendobj\nxref\n0 " +
                        object_count(sealed_report()) + "\n");
}

}  // namespace

TEST_CASE("resealing without a change is no forgery") {
    CHECK(resealed(sealed_report()) == sealed_report());
    CHECK(failing_check(resealed(sealed_report())).empty());
}

TEST_CASE("signature forgery: a signature made void is no signature") {
    CHECK(failing_check(with_contents("/Contents null")) == kinds);
    CHECK(failing_check(with_contents("/Contents <>")) == every_byte);
    CHECK(failing_check(with_contents("/Contents <00>")) == every_byte);
    CHECK(failing_check(with_contents("/Contents ()")) == every_byte);
    CHECK(failing_check(with_contents("/Contentz <00>")) == kinds);
    CHECK(failing_check(with_contents("/Location2 (x)")) == kinds);
    CHECK(failing_check(replaced(sealed_report(), contents(), "/Contents <" + std::string(32768, '0') + ">")) ==
          nothing_beside);
    CHECK(failing_check(with_range("null")) == objects);
    CHECK(failing_check(with_range("[ ]")) == objects);
    CHECK(failing_check(with_table(replaced(sealed_report(), byte_range() + "\n", ""))) == every_byte);
    CHECK(failing_check(with_table(replaced(sealed_report(), "/ByteRange", "/ByteRangf"))) == objects);
}

TEST_CASE("incremental saving: nothing may follow the end") {
    const std::string& good = sealed_report();
    const std::string update = "2 0 obj\n<<\n/Type /Pages\n>>\nendobj\n";
    const std::string xref = "xref\n2 1\n0000043800 00000 n\r\ntrailer\n<<\n/Size " + object_count(sealed_report()) +
                             "\n/Root 1 0 R\n/Prev "
                             "42965\n>>\nstartxref\n43900\n%%EOF\n";
    for (const std::string& more :
         {update + xref, update, std::string("% a comment\n"), std::string("\n"), std::string(1, '\0'), good})
        CHECK(failing_check(good + more) != "");
    CHECK(failing_check(good + update + xref) == table);
    CHECK(verify::verify(good + update + xref, {}).reason == verify::Reason::bytes_appended);
    CHECK(failing_check(good + good) != "");
}

TEST_CASE("signature wrapping: the hole holds a signature and nothing else") {
    const std::string second = "/Contents <" + contents().substr(11, 100) + "> /ByteRange [0 1 2 3] <";
    std::string wrapped = sealed_report();
    wrapped.replace(wrapped.find("/Contents <"), second.size(), second);
    CHECK(failing_check(wrapped) == objects);
    CHECK(failing_check(with_table(replaced(sealed_report(), contents(), contents() + "\n/Contents <00>"))) == objects);
}

TEST_CASE("shadow attack: an object that nothing refers to is refused") {
    CHECK(failing_check(resealed(with_object("<<\n/Type /Pages\n/Kids [ 4 0 R ]\n/Count 1\n>>"))) == kinds);
}

TEST_CASE("shadow attack: an object that stands twice is refused") {
    CHECK(failing_check(replaced(sealed_report(), "\nxref\n", "\n2 0 obj\n<<\n>>\nendobj\nxref\n")) == table);
    CHECK(failing_check(resealed(replaced(sealed_report(), "\nxref\n", "\n2 0 obj\n<<\n>>\nendobj\nxref\n"))) ==
          objects);
}

TEST_CASE("annotations, fields and actions that reports do not have are refused") {
    CHECK(are_stopped({
        {"/Subtype /Link", "/Subtype /FreeText", kinds},
        {"/Subtype /Link", "/Subtype /Stamp", kinds},
        {"/Subtype /Link", "/A 4 0 R\n/Subtype /Link", kinds},
        {"/Border [ 0 0 0 ]", "/A <<\n/S /URI\n/URI (http:)\n>>", kinds},
        {"/Border [ 0 0 0 ]", "/A <<\n/S /Launch\n/F (x)\n>>", kinds},
        {"/Type /Catalog", "/Type /Catalog\n/OpenAction 4 0 R", kinds},
        {"/Type /Catalog", "/Type /Catalog\n/AA 4 0 R", kinds},
        {"/Type /Catalog", "/Type /Catalog\n/OCProperties 4 0 R", kinds},
        {"/Type /Page\n", "/Type /Page\n/AA 4 0 R\n", kinds},
        {"/SigFlags 3", "/SigFlags 3\n/XFA (x)", kinds},
        {"/SigFlags 3", "/SigFlags 3\n/NeedAppearances true", kinds},
        {"/SigFlags 3", "/SigFlags 1", kinds},
        {"/EmbeddedFiles <<", "/JavaScript <<\n>>\n/EmbeddedFiles <<", kinds},
        {"/FT /Sig", "/FT /Tx", kinds},
        {"/P 1\n", "/P 2\n", kinds},
        {"/SubFilter /ETSI.CAdES.detached", "/SubFilter /adbe.pkcs7.sha1", kinds},
    }));
}

TEST_CASE("a second signature field, or a second signature, is refused") {
    const std::string field = "<<\n/Type /Annot\n/Subtype /Widget\n/FT /Sig\n/T (Other)\n/V 29 0 R\n>>";
    const std::string two =
        replaced(replaced(with_object(field), "/Fields [ 32 0 R ]",
                          "/Fields [ 32 0 R " + object_count(sealed_report()) + " 0 R ]"),
                 "/Annots [ 19 0 R 32 0 R ]", "/Annots [ 19 0 R 32 0 R " + object_count(sealed_report()) + " 0 R ]");
    CHECK(failing_check(resealed(two)) == one_seal);
    const std::string signature = "<<\n/Type /Sig\n>>";
    CHECK(failing_check(resealed(replaced(with_object(signature), "/DocMDP 29 0 R",
                                          "/DocMDP " + object_count(sealed_report()) + " 0 R"))) == one_seal);
    CHECK(failing_check(resealed(replaced(with_object(signature), "/V 29 0 R",
                                          "/V " + object_count(sealed_report()) + " 0 R"))) == one_seal);
}

TEST_CASE("a seal without certification, form, place or reference is refused") {
    CHECK(are_stopped({
        {"/Perms <<\n/DocMDP 29 0 R\n>>\n", "", one_seal},
        {"/AcroForm <<\n/Fields [ 32 0 R ]\n/SigFlags 3\n>>\n", "", one_seal},
        {"/Fields [ 32 0 R ]", "/Fields [ ]", one_seal},
        {"/Fields [ 32 0 R ]", "/Fields [ 32 0 R 32 0 R ]", one_seal},
        {"/Annots [ 19 0 R 32 0 R ]", "/Annots [ 19 0 R ]", one_seal},
        {"/Annots [ 19 0 R 32 0 R ]", "/Annots [ 19 0 R 32 0 R 32 0 R ]", one_seal},
        {"/V 29 0 R\n", "", one_seal},
        {"/P 4 0 R\n", "/P 10 0 R\n", one_seal},
        {"/P 1\n", "", one_seal},
        {"/TransformMethod /DocMDP\n", "", one_seal},
        {"/Filter /Adobe.PPKLite\n", "", one_seal},
    }));
}

TEST_CASE("byte range: only the whole file but the signature is accepted") {
    const auto written = [](std::size_t at) -> std::uint64_t { return std::stoull(byte_range().substr(at, 10)); };
    const std::uint64_t a = written(14), b = written(25), c = written(36);
    CHECK(failing_check(with_range(range(a, b, c))) == "");
    for (const std::string& wrong :
         {range(a - 1, b, c), range(a + 1, b, c), range(a, b - 1, c + 1), range(a, b + 1, c - 1), range(a, b, c - 1),
          range(a, b, c + 1), range(b, a, c), range(0, 0, 0), range(a, b, 0), range(0, b, c),
          range(9'999'999'999, b, c), range(a, 9'999'999'999, c), range(a, b, 9'999'999'999)})
        CHECK(failing_check(with_range(wrong)) == every_byte);
    for (const char* wrong : {"[0 -000000001 0000000002 0000000003]", "[0 4294967296000 0000000001 0000000001]",
                              "[0 18446744073709551616 0000000001 0000000001]", "[0 00000001.5 0000000001 0000000001]",
                              "[0 1 0 R 0000000001 0000000001]", "[0 %0\n00000001 0000000001 0000000001]", "4 0 R",
                              "[1 0000000001 0000000001 0000000001]", "[ 0 0000000001 0000000001 0000000001 ]",
                              "[0 0000000001 0000000001 0000000001 0000000001]", "[0 0000000001 0000000001]"})
        CHECK(failing_check(with_range(wrong)) == objects);
}

TEST_CASE("keys that stand twice or are written with escapes are refused") {
    CHECK(are_stopped({
        {"/Type /Catalog", "/Type /Catalog\n/Type /Catalog", objects},
        {"/Pages 2 0 R", "/Pages 2 0 R\n/Pages 2 0 R", objects},
        {"/Pages 2 0 R", "/P#61ges 2 0 R", objects},
        {"/Type /Catalog", "/Type /C#61talog", objects},
        {"/Count 2", "/Count +2", objects},
        {"/Count 2", "/Count 02", objects},
        {"/Count 2", "/Count  2", objects},
        {"/Count 2", "/Count 2 % two", objects},
        {"/Count 2", "/Count 2\r", objects},
        {"/Lang (en-GB)", "/Lang (e\\n)", objects},
        {"/Lang (en-GB)", "/Lang ((en))", objects},
        {"/Lang (en-GB)", "/Lang (en", objects},
        {"/Lang (en-GB)", "/Lang <6E6>", objects},
        {"/Lang (en-GB)", "/Lang <6e65>", objects},
        {"/Lang (en-GB)", "/Lang [ [ [ [ [ [ [ [ [ [ [ [ [ [ [ [ ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ]", objects},
    }));
}

TEST_CASE("signature digits: one case, no white space, one DER object, then zeros") {
    const std::string good = contents();
    std::string upper = good, blank = good, padded = good, longer = good, shorter = good, other = good;
    for (std::size_t i = 11; i < upper.size(); ++i)
        upper[i] = static_cast<char>(std::toupper(static_cast<unsigned char>(upper[i])));
    blank[good.size() - 2] = ' ';
    padded[good.size() - 2] = '1';
    other[11] = '0';
    const auto length = static_cast<unsigned>(std::stoul(good.substr(15, 4), nullptr, 16));
    const auto set_length = [](std::string& in, unsigned value) {
        const unsigned char bytes[] = {static_cast<unsigned char>(value >> 8),
                                       static_cast<unsigned char>(value & 0xFF)};
        in.replace(15, 4, to_hex(bytes, 2));
    };
    set_length(longer, length + 1);
    set_length(shorter, length - 1);
    const auto check = [&](const std::string& changed) {
        return failing_check(replaced(sealed_report(), good, changed));
    };
    CHECK(check(upper) == objects);
    CHECK(check(blank) == objects);
    CHECK(check(padded) == nothing_beside);
    CHECK(check(other) == nothing_beside);
    CHECK(check(longer) == fits);
    // A last byte of zero, one time in 256, passes for a zero behind the end.
    const bool ends_in_zero = good.substr(11 + 8 + 2 * (length - 1), 2) == "00";
    CHECK(check(shorter) == (ends_in_zero ? fits : nothing_beside));
    set_length(longer, 0xFFFF);
    CHECK(check(longer) == nothing_beside);
}

TEST_CASE("cross-reference tables that lead astray are refused") {
    const std::string& good = sealed_report();
    const std::string pointer = good.substr(good.rfind("startxref\n"));
    for (const char* wrong : {"0", "1", "42964", "99999", "4294967296", "18446744073709551615", "-1", "042965", ""})
        CHECK(failing_check(replaced(good, pointer, std::string("startxref\n") + wrong + "\n%%EOF\n")) == table);
    CHECK(failing_check(replaced(good, "0000000015 00000 n", "0000000016 00000 n")) == objects);
    CHECK(failing_check(replaced(good, "0000000015 00000 n", "0000000015 00001 n")) == table);
    CHECK(failing_check(replaced(good, "0000000015 00000 n", "0000000015 00000 f")) == table);
    CHECK(failing_check(replaced(good, "xref\n0 " + object_count(good), "xref\n0 " + one_more(object_count(good)))) ==
          table);
    CHECK(failing_check(replaced(good, "xref\n0 " + object_count(good), "xref\n0 99999999")) == table);
    CHECK(failing_check(replaced(good, "%PDF-1.7", "%PDF-1.6")) == start);
    CHECK(failing_check("%" + good) == start);
}

TEST_CASE("a trailer with more than reports have is refused") {
    CHECK(are_stopped({
        {"/Root 1 0 R", "/Root 1 0 R\n/Prev 15", kinds},
        {"/Root 1 0 R", "/Root 1 0 R\n/XRefStm 15", kinds},
        {"/Root 1 0 R", "/Root 1 0 R\n/Encrypt 3 0 R", kinds},
        {"/Info 3 0 R\n", "", kinds},
        {"/Root 1 0 R\n", "", kinds},
        {"/Root 1 0 R", "/Root 2 0 R", kinds},
        {"/Root 1 0 R", "/Root 0 0 R", kinds},
        {"/Root 1 0 R", "/Root 999 0 R", kinds},
        {"/Info 3 0 R", "/Info 1 0 R", kinds},
    }));
}

TEST_CASE("pages that are not in the one list are refused") {
    CHECK(are_stopped({
        {"/Kids [ 4 0 R 10 0 R ]\n/Count 2", "/Kids [ 4 0 R ]\n/Count 1", kinds},
        {"/Kids [ 4 0 R 10 0 R ]\n/Count 2", "/Kids [ 4 0 R 10 0 R 4 0 R ]\n/Count 3", kinds},
        {"/Count 2", "/Count 1", kinds},
        {"/Kids [ 4 0 R 10 0 R ]", "/Kids [ 2 0 R 10 0 R ]", kinds},
    }));
}

TEST_CASE("streams that are not what they are used as are refused") {
    CHECK(are_stopped({
        {"/Length 6 0 R", "/Length 60", objects},
        {"/Length 6 0 R", "/Length 5 0 R", objects},
        {"/Length 6 0 R", "/Length 0 0 R", objects},
        {"/Length 6 0 R", "/Length 6 0 R\n/F (other file)", kinds},
        {"/Filter [ /FlateDecode ]", "/Filter [ /LZWDecode ]", kinds},
        {"/Contents 5 0 R", "/Contents 3 0 R", kinds},
        {"/ToUnicode 17 0 R", "/ToUnicode 18 0 R", kinds},
        {"/ColorSpace /DeviceRGB", "/ColorSpace /DeviceCMYK", kinds},
    }));
}

TEST_CASE("carried files: names, lists and sizes must be those of a report") {
    const std::string names = "/Names [ (survey.xml) 28 0 R ]";
    CHECK(are_stopped({
        {names.c_str(), "/Names [ (..\\057survey.xml) 28 0 R ]", carried},
        {names.c_str(), "/Names [ (notes.txt) 28 0 R ]", carried},
        {names.c_str(), "/Names [ (photos.xml) 28 0 R ]", carried},
        {names.c_str(), "/Names [ (survey.xml) 28 0 R (survey.xml) 28 0 R ]", carried},
        {names.c_str(), "/Names [ (survey.xml) ]", kinds},
        {names.c_str(), "/Names [ ]", carried},
        {"/AF [ 28 0 R ]", "/AF [ ]", carried},
        {"/AF [ 28 0 R ]", "/AF [ 28 0 R 28 0 R ]", carried},
        {"/UF (survey.xml)", "/UF (other.xml)", carried},
        {"/F (survey.xml)\n", "", carried},
        {"/UF 26 0 R\n", "", carried},
        {"/Subtype /text#2Fxml", "/Subtype /text#2Fhtml", kinds},
        {"/Subtype /text#2Fxml", "/Subtype /text#2fxml", objects},
        {"/Size 32\n", "/Size 31\n", carried},
        {"/Size 32\n", "/Size 33\n", carried},
        {"/Size 32\n", "/Size -32\n", carried},
        {"/Size 32\n", "/Size 4000000000\n", carried},
        {"/Size 32\n", "", carried},
    }));
}

TEST_CASE("a carried file that unpacks to more than it says is refused") {
    pdf::DocumentFacts facts = sample::facts();
    facts.files[0].bytes = Bytes(20'000'000, ' ');
    const std::string bomb = pdf::render_pdf(sample::small_pages(), facts).bytes;
    CHECK(failing_check(resealed(bomb)) == "");
    CHECK(failing_check(resealed(replaced(bomb, "/Size 20000000", "/Size 2000"))) == carried);
    facts.files[0].bytes = Bytes((32U << 20) + 1, ' ');
    CHECK(failing_check(resealed(pdf::render_pdf(sample::small_pages(), facts).bytes)) == carried);
}

TEST_CASE("a report must carry its survey") {
    pdf::DocumentFacts facts = sample::facts();
    facts.files.clear();
    CHECK(failing_check(resealed(pdf::render_pdf(sample::small_pages(), facts).bytes)) == carried);
}

TEST_CASE("a change that keeps the structure is found by the signature") {
    CHECK(failing_check(replaced(sealed_report(), "(Rig survey)", "(Rig Survey)")) == fits);
    CHECK(failing_check(replaced(sealed_report(), "/M (D:2026", "/M (D:2025")) == fits);
    CHECK(failing_check(with_table(replaced(sealed_report(), "(Rig survey)", "(Another rig survey)"))) == every_byte);
}
