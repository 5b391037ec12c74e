#include "verify/sample_report.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "crypto/digest.hpp"
#include "pdf/sample_pages.hpp"
#include "reopen/reopen.hpp"
#include "seal/seal.hpp"

namespace rigdeed::sample {
namespace {

std::string ten(std::size_t value) {
    const std::string plain = std::to_string(value);
    return std::string(10 - plain.size(), '0') + plain;
}

std::size_t found(std::size_t at) {
    if (at == std::string::npos) throw std::logic_error("the report has no such part to forge");
    return at;
}

}  // namespace

const std::string& sealed_report() {
    static const std::string report = [] {
        pdf::RenderedPdf rendered = pdf::render_pdf(small_pages(), facts());
        return seal::seal(std::move(rendered.bytes), *rendered.slot, ann());
    }();
    return report;
}

std::string replaced(std::string file, std::string_view from, std::string_view to) {
    return file.replace(found(file.find(from)), from.size(), to);
}

std::string with_table(std::string file) {
    const std::size_t table = found(file.rfind("\nxref\n0 ")) + 1, trailer = found(file.rfind("trailer\n"));
    std::string entries;
    std::size_t count = 1, at = 0;
    for (;; ++count) {
        const std::string start = "\n" + std::to_string(count) + " 0 obj\n";
        at = file.find(start, at);
        if (at == std::string::npos || at > table) break;
        entries += ten(++at) + " 00000 n\r\n";
    }
    std::string end = file.substr(trailer);
    end = replaced(end, end.substr(end.find("/Size ")),
                   "/Size " + std::to_string(count) + "\n>>\nstartxref\n" + std::to_string(table) + "\n%%EOF\n");
    return file.substr(0, table) + "xref\n0 " + std::to_string(count) + "\n0000000000 65535 f\r\n" + entries + end;
}

std::string resealed(const std::string& file, const crypto::Signer& signer) {
    std::string fresh = with_table(file);
    SignatureSlot slot;
    slot.byte_range = found(fresh.find("/ByteRange [")) + 11;
    slot.contents = found(fresh.find("/Contents <")) + 10;
    slot.hex_digits = found(fresh.find('>', slot.contents)) - slot.contents - 1;
    fresh.replace(slot.byte_range, 36, "[0 0000000000 0000000000 0000000000]");
    fresh.replace(slot.contents + 1, slot.hex_digits, std::string(slot.hex_digits, '0'));
    return seal::seal(std::move(fresh), slot, signer);
}

void keep(std::string_view file, const verify::Verdict& verdict) {
    const char* folder = std::getenv("RIGDEED_KEEP_EXAMINED");
    if (folder == nullptr) return;
    std::string test = doctest::getContextOptions()->currentTest->m_name;
    for (char& c : test)
        if (c == ' ' || c == '/') c = '_';
    const char* kind = verdict.intact()                                    ? "intact"
                       : verdict.reason == verify::Reason::content_differs ? "contents"
                                                                           : "refused";
    const std::string name = crypto::sha256(file).hex().substr(0, 16) + "-" + kind + "-" + test + ".pdf";
    std::ofstream(std::filesystem::path(folder) / name, std::ios::binary) << file;
}

verify::Verdict examined(std::string_view file) {
    verify::Verdict verdict = verify::verify(file, {});
    keep(file, verdict);
    reopen::Opening opening;
    opening.compare = false;
    const verify::Verdict opened = reopen::open_bytes(file, opening).verdict;
    if ((opened.intact() && !verdict.intact()) || (!opened.intact() && !opened.files.empty()))
        throw std::logic_error("a file that verify refuses was opened");
    return verdict;
}

std::string failing_check(std::string_view file) {
    const verify::Verdict verdict = examined(file);
    const verify::Check& last = verdict.checks.back();
    return verdict.intact() || last.passed ? "" : last.name;
}

std::string object_count(const std::string& report) {
    const std::size_t at = report.rfind("\nxref\n0 ") + 8;
    return report.substr(at, report.find('\n', at) - at);
}

std::string one_more(const std::string& count) { return std::to_string(std::stoul(count) + 1); }

}  // namespace rigdeed::sample
