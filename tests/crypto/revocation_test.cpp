#include "crypto/revocation.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "crypto/sample_chain.hpp"

using namespace rigdeed;
using sample::Identity;
using sample::Kind;
using sample::Revoked;

namespace {

crypto::CertificateFacts facts_of(const Identity& one) { return *crypto::read_certificate(as_text(one.der())); }

constexpr std::int64_t day = 86400;

/// A root, one between, two signers, and a stranger of the root's name.
struct Harbour {
    Identity root = sample::identity("Root", Kind::authority), quay = sample::identity("Quay", Kind::authority, &root),
             ada = sample::identity("Ada", Kind::person, &quay), bo = sample::identity("Bo", Kind::person, &quay),
             false_root = sample::identity("Root", Kind::authority);
    std::string pem = facts_of(root).pem();
    std::int64_t now = facts_of(ada).not_before;

    [[nodiscard]] Bytes by_root(const std::vector<Revoked>& revoked) const {
        return sample::revocation_list(root, revoked, now - day, now + day, root);
    }
    [[nodiscard]] Bytes by_quay(const std::vector<Revoked>& revoked, std::int64_t issued = 0) const {
        return sample::revocation_list(quay, revoked, issued == 0 ? now - day : issued, now + day, quay);
    }
    [[nodiscard]] std::string fault(std::string_view lists, std::int64_t sealed, bool proven) const {
        return crypto::revocation_fault(facts_of(ada), {facts_of(quay)}, pem, lists, {sealed, proven});
    }
};

const Harbour& harbour() {
    static const Harbour one;
    return one;
}

std::string error_of(std::string_view file) {
    try {
        (void)crypto::read_revocations(file, harbour().pem);
    } catch (const Error& error) { return error.what(); }
    return {};
}

}  // namespace

TEST_CASE("a signer who was revoked before the seal is not vouched for, with the day") {
    const Harbour& the = harbour();
    const std::int64_t july = 1'783'000'000;  // 2 July 2026
    const Bytes list = the.by_quay({{the.ada, july, {}}, {the.bo, july, {}}});
    CHECK(the.fault(as_text(list), july + day, true) == "the signer's certificate was revoked on 2 July 2026");
    CHECK(the.fault(as_text(list), july + day, false) == "the signer's certificate was revoked on 2 July 2026");
    CHECK(the.fault(as_text(list), july, true).starts_with("the signer's certificate was revoked"));
    CHECK(the.fault(as_text(the.by_quay({{the.bo, july, {}}})), july + day, false).empty());
    CHECK(the.fault(sample::pem_of_lists({the.by_root({}), list}), july + day, true) ==
          "the signer's certificate was revoked on 2 July 2026");
}

TEST_CASE("revoked after the seal counts unless a timestamp proves the order: a thief can set his clock") {
    const Harbour& the = harbour();
    const std::int64_t july = 1'783'000'000;
    const Bytes list = the.by_quay({{the.ada, july, {}}});
    CHECK(the.fault(as_text(list), july - day, true).empty());
    CHECK(the.fault(as_text(list), july - day, false) ==
          "the signer's certificate was revoked on 2 July 2026, and that the seal is older only the signer's clock "
          "says");
    const Bytes lost_before = the.by_quay({{the.ada, july, july - 2 * day}});
    CHECK(the.fault(as_text(lost_before), july - day, true) == "the signer's certificate was revoked on 30 June 2026");
}

TEST_CASE("a certificate between signer and root that was revoked ends what it vouches for") {
    const Harbour& the = harbour();
    const std::int64_t july = 1'783'000'000;
    const Bytes root_list = the.by_root({{the.quay, july, {}}});
    CHECK(the.fault(sample::pem_of_lists({the.by_quay({}), root_list}), july + day, true) ==
          "the certificate of \"Quay\" was revoked on 2 July 2026");
    CHECK(the.fault(sample::pem_of_lists({the.by_quay({}), root_list}), july - day, true).empty());
    CHECK(the.fault(sample::pem_of_lists({the.by_quay({}), the.by_root({})}), july + day, true).empty());
}

TEST_CASE("of two lists by one issuer the newer counts, though it is newer than the seal") {
    const Harbour& the = harbour();
    const std::int64_t revoked = the.now - 10 * day, sealed = the.now - 5 * day;
    const Bytes old_list = the.by_quay({}, the.now - 20 * day), new_list = the.by_quay({{the.ada, revoked, {}}});
    for (const auto& lists : {sample::pem_of_lists({old_list, new_list}), sample::pem_of_lists({new_list, old_list})})
        CHECK(the.fault(lists, sealed, true).starts_with("the signer's certificate was revoked on"));
}

TEST_CASE("a list that is not by the issuer clears nobody") {
    const Harbour& the = harbour();
    const auto list = [&](const Identity& by, const Identity& key) {
        return sample::revocation_list(by, {}, the.now - day, the.now + day, key);
    };
    const std::string nothing_known =
        "none of the lists of revoked certificates is by whoever issued the signer's certificate";
    CHECK(the.fault(as_text(list(the.root, the.root)), the.now, true) == nothing_known);
    CHECK(the.fault(as_text(list(the.bo, the.bo)), the.now, true) == nothing_known);
    CHECK(the.fault(as_text(list(the.quay, the.root)), the.now, true) ==
          "a list of revoked certificates is not signed by its issuer");
    CHECK(error_of(as_text(list(the.root, the.root))).empty());
    CHECK(error_of(as_text(list(the.root, the.false_root))) ==
          "the list of revoked certificates by \"Root\" is not signed by it");
}

TEST_CASE("what holds no list, or half of one, is refused; of a list it is told by whom it is, and until when") {
    const Harbour& the = harbour();
    const std::string der(as_text(the.by_root({}))), pem = sample::pem_of_lists({the.by_root({}), the.by_quay({})});
    CHECK(error_of("") == "the file holds no list of revoked certificates");
    CHECK(error_of("none") == "the file holds no list of revoked certificates");
    CHECK(error_of(the.pem) == "the file holds no list of revoked certificates");
    CHECK(error_of(der + "x") == "the file holds no list of revoked certificates");
    CHECK(error_of(der.substr(1)) == "the file holds no list of revoked certificates");
    CHECK(error_of(pem.substr(0, pem.size() - 60)) == "a list of revoked certificates cannot be read");
    const auto lists = crypto::read_revocations(pem, the.pem);
    REQUIRE(lists.size() == 2);
    CHECK(lists[0].issuer == "Root");
    CHECK(lists[1].issuer == "Quay");
    CHECK(lists[0].next == the.now + day);
}
