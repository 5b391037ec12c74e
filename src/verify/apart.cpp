// One list of fields serves for writing and for reading. Numbers are eight bytes, texts and lists have their size in
// front. What comes out of the child is read as strictly as the file was.
#include "verify/apart.hpp"

#include <array>

namespace rigdeed::verify {
namespace {

class Writer {
 public:
    void number(std::uint64_t value) {
        for (int i = 0; i < 8; ++i) bytes.push_back(static_cast<char>(value >> (8 * i) & 0xFF));
    }
    template <class T>
    void whole(T& value, std::uint64_t) {
        number(static_cast<std::uint64_t>(value));
    }
    void text(std::string& value) {
        number(value.size());
        bytes += value;
    }
    void block(Bytes& value) {
        number(value.size());
        bytes += as_text(value);
    }
    template <class T, class Each>
    void list(std::vector<T>& items, Each each) {
        number(items.size());
        for (T& item : items) each(item);
    }
    template <class T, class Each>
    void maybe(std::optional<T>& item, Each each) {
        number(item.has_value());
        if (item) each(*item);
    }

    std::string bytes;
};

class Reader {
 public:
    explicit Reader(std::string_view bytes) : rest(bytes) {}

    std::uint64_t number(std::uint64_t most) {
        std::uint64_t value = 0;
        if (rest.size() < 8) failed = true;
        for (std::size_t i = 0; i < 8 && !failed; ++i)
            value |= static_cast<std::uint64_t>(static_cast<unsigned char>(rest[i])) << (8 * i);
        if (value > most) failed = true;
        if (failed) return 0;
        rest.remove_prefix(8);
        return value;
    }
    template <class T>
    void whole(T& value, std::uint64_t most) {
        value = static_cast<T>(number(most));
    }
    std::string_view piece() {
        const auto size = static_cast<std::size_t>(number(rest.size()));
        if (size > rest.size()) failed = true;
        if (failed) return {};
        const std::string_view taken = rest.substr(0, size);
        rest.remove_prefix(size);
        return taken;
    }
    void text(std::string& value) { value = piece(); }
    void block(Bytes& value) { value = to_bytes(piece()); }
    template <class T, class Each>
    void list(std::vector<T>& items, Each each) {
        const std::uint64_t count = number(rest.size());
        for (std::uint64_t i = 0; i < count && !failed; ++i) each(items.emplace_back());
    }
    template <class T, class Each>
    void maybe(std::optional<T>& item, Each each) {
        if (number(1) == 1) each(item.emplace());
    }

    std::string_view rest;
    bool failed = false;
};

constexpr std::uint64_t any = ~std::uint64_t{0};

template <class Archive>
void certificate(Archive& a, crypto::CertificateFacts& facts) {
    for (std::string* text : {&facts.name, &facts.organisation, &facts.country}) a.text(*text);
    a.whole(facts.not_before, any);
    a.whole(facts.not_after, any);
    a.whole(facts.self_made, 1);
    a.whole(facts.may_sign, 1);
    for (unsigned char& byte : facts.fingerprint.bytes) a.whole(byte, 255);
    a.block(facts.der);
}

template <class Archive>
void fields(Archive& a, Verdict& verdict) {
    a.whole(verdict.outcome, static_cast<std::uint64_t>(Outcome::as_issued));
    a.whole(verdict.reason, static_cast<std::uint64_t>(last_reason));
    a.text(verdict.summary);
    a.list(verdict.checks, [&](Check& check) {
        a.whole(check.number, 1000);
        a.text(check.name);
        a.whole(check.passed, 1);
        a.text(check.what);
    });
    a.maybe(verdict.signer, [&](crypto::CertificateFacts& facts) { certificate(a, facts); });
    a.list(verdict.chain, [&](crypto::CertificateFacts& facts) { certificate(a, facts); });
    a.whole(verdict.signer_vouched_for, 1);
    a.maybe(verdict.timestamp, [&](crypto::Timestamp& timestamp) {
        a.whole(timestamp.at, any);
        certificate(a, timestamp.authority);
    });
    a.whole(verdict.timestamp_vouched_for, 1);
    a.whole(verdict.certificate_valid_then, 1);
    Claims& claims = verdict.claims;
    for (std::string* text :
         {&claims.title, &claims.author, &claims.subject, &claims.signer, &claims.reason, &claims.location})
        a.text(*text);
    a.maybe(claims.sealed_at, [&](std::int64_t& seconds) { a.whole(seconds, any); });
    a.whole(claims.pages, any);
    a.whole(verdict.content, static_cast<std::uint64_t>(Content::differs));
    a.text(verdict.content_remark);
    a.list(verdict.files, [&](CarriedFile& file) {
        a.text(file.name);
        a.block(file.bytes);
    });
}

Verdict unexamined(const std::string& fault) {
    Verdict verdict;
    verdict.reason = Reason::not_examined;
    verdict.summary = "the file could not be examined: " + fault;
    return verdict;
}

}  // namespace

std::string write_verdict(const Verdict& verdict) {
    Verdict copy = verdict;
    Writer writer;
    fields(writer, copy);
    return std::move(writer.bytes);
}

std::optional<Verdict> read_verdict(std::string_view bytes) {
    Reader reader(bytes);
    Verdict verdict;
    fields(reader, verdict);
    if (reader.failed || !reader.rest.empty()) return std::nullopt;
    return verdict;
}

Verdict verify_apart(std::string_view file, const Trust& trust, const std::function<void(Verdict&)>& further,
                     const ChildLimits& limits) {
    check_trust(trust);
    const ChildResult child = in_child(
        [&] {
            Verdict verdict = verify(file, trust);
            // not reached: in the child, whose counts are lost
            if (verdict.intact() && further) further(verdict);
            return write_verdict(verdict);
        },
        limits);
    if (!child.ended_well) return unexamined(child.fault);
    auto verdict = read_verdict(child.bytes);
    return verdict ? *std::move(verdict) : unexamined("what was read of it makes no sense");
}

std::vector<CarriedFile> embedded_files_apart(std::string_view file, const ChildLimits& limits) {
    const ChildResult child = in_child(
        [&] {
            Verdict verdict;
            verdict.files = embedded_files(file);
            return write_verdict(verdict);
        },
        limits);
    auto verdict = child.ended_well ? read_verdict(child.bytes) : std::nullopt;
    return verdict ? std::move(verdict->files) : std::vector<CarriedFile>{};
}

}  // namespace rigdeed::verify
