#include "crypto/signer.hpp"

#include <openssl/ec.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/pkcs12err.h>
#include <openssl/rand.h>
#include <openssl/rsa.h>

#include <algorithm>
#include <ctime>

#include "base/text.hpp"
#include "crypto/chain.hpp"
#include "crypto/keys.hpp"

namespace rigdeed::crypto {
namespace {

constexpr int key_bits = 3072;
constexpr std::size_t shortest_passphrase = 8;  // characters

void check_passphrase(const std::string& passphrase) {
    constexpr const char* hint =
        "at least 8 characters, better several words: whoever gets hold of the file can try passphrases day and night";
    if (passphrase.empty()) throw Error("the passphrase is empty", {}, hint);
    if (passphrase.find('\0') != std::string::npos) throw Error("the passphrase has a zero byte in it");
    const auto characters = decode_utf8(passphrase);
    if ((characters ? characters->size() : passphrase.size()) < shortest_passphrase)
        throw Error("the passphrase is shorter than 8 characters", {}, hint);
}

void check_wishes(const NewSigner& wanted, const std::string& passphrase) {
    const auto fits = [](const std::string& text, std::size_t longest) {
        const auto characters = decode_utf8(text);  // upper bounds of RFC 5280, appendix A
        return characters && characters->size() <= longest && trim(text) == text &&
               std::all_of(text.begin(), text.end(),
                           [](char c) { return (static_cast<unsigned char>(c) >= 0x20) && c != 0x7F; });
    };
    if (wanted.name.empty() || !fits(wanted.name, 64))
        throw Error("signer name " + in_quotes(wanted.name) + " is empty, over 64 characters, or not one line of text");
    if (!fits(wanted.organisation, 64))
        throw Error("organisation " + in_quotes(wanted.organisation) +
                    " is over 64 characters or not one line of text");
    const bool is_country = wanted.country.size() == 2 && std::all_of(wanted.country.begin(), wanted.country.end(),
                                                                      [](char c) { return c >= 'A' && c <= 'Z'; });
    if (!wanted.country.empty() && !is_country)
        throw Error("country " + in_quotes(wanted.country) + " is not two capital letters", {}, "write for example GB");
    if (wanted.valid_years < 1 || wanted.valid_years > 50)
        throw Error("a signer valid for " + std::to_string(wanted.valid_years) + " years", {},
                    "between 1 and 50 years");
    check_passphrase(passphrase);
}

void add_name_part(X509_NAME* name, const char* field, const std::string& value) {
    if (value.empty()) return;
    must(X509_NAME_add_entry_by_txt(name, field, MBSTRING_UTF8, reinterpret_cast<const unsigned char*>(value.data()),
                                    static_cast<int>(value.size()), -1, 0) == 1,
         "write a name");
}

void add_extension(X509* certificate, int kind, const char* value) {
    X509V3_CTX context;
    X509V3_set_ctx_nodb(&context);
    X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
    using ExtensionOwner = std::unique_ptr<X509_EXTENSION, Freeing<X509_EXTENSION_free>>;
    const ExtensionOwner made(X509V3_EXT_conf_nid(nullptr, &context, kind, value));
    must(made && X509_add_ext(certificate, made.get(), -1) == 1, "extend a certificate");
}

// 16 random bytes, positive (RFC 5280, 4.1.2.2).
void set_serial(X509* certificate) {
    std::array<unsigned char, 16> bytes{};
    must(RAND_bytes(bytes.data(), static_cast<int>(bytes.size())) == 1, "draw a random number");
    bytes[0] = static_cast<unsigned char>((bytes[0] & 0x7F) | 0x40);
    using NumberOwner = std::unique_ptr<BIGNUM, Freeing<BN_free>>;
    const NumberOwner number(BN_bin2bn(bytes.data(), static_cast<int>(bytes.size()), nullptr));
    must(number && BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate)) != nullptr,
         "number a certificate");
}

CertificateOwner self_made_certificate(const NewSigner& wanted, EVP_PKEY* key) {
    CertificateOwner made(X509_new());
    must(made && X509_set_version(made.get(), X509_VERSION_3) == 1, "start a certificate");
    set_serial(made.get());
    X509_NAME* name = X509_get_subject_name(made.get());
    add_name_part(name, "C", wanted.country);
    add_name_part(name, "O", wanted.organisation);
    add_name_part(name, "CN", wanted.name);
    const auto days = static_cast<int>(wanted.valid_years * 365.25);
    std::time_t from = wanted.valid_from;
    must(X509_set_issuer_name(made.get(), name) == 1 && X509_set_pubkey(made.get(), key) == 1 &&
             X509_time_adj_ex(X509_getm_notBefore(made.get()), 0, 0, &from) != nullptr &&
             X509_time_adj_ex(X509_getm_notAfter(made.get()), days, 0, &from) != nullptr,
         "fill in a certificate");
    add_extension(made.get(), NID_basic_constraints, "critical,CA:FALSE");
    add_extension(made.get(), NID_key_usage, "critical,digitalSignature,nonRepudiation");
    add_extension(made.get(), NID_subject_key_identifier, "hash");
    must(X509_sign(made.get(), key, EVP_sha256()) > 0, "sign a certificate");
    return made;
}

Pkcs12Owner parse_pkcs12(std::string_view bytes) {
    constexpr std::size_t largest = 1 << 20;
    const auto* at = reinterpret_cast<const unsigned char*>(bytes.data());
    Pkcs12Owner read(bytes.size() > largest ? nullptr : d2i_PKCS12(nullptr, &at, static_cast<long>(bytes.size())));
    ERR_clear_error();
    if (!read) throw Error("not a signer file: it holds no PKCS#12 data", {}, "make one with: rigdeed signer new");
    return read;
}

}  // namespace

Signer::Signer(std::unique_ptr<Keys> keys) : keys_(std::move(keys)) {}
Signer::Signer(Signer&&) noexcept = default;
Signer& Signer::operator=(Signer&&) noexcept = default;
Signer::~Signer() = default;
const CertificateFacts& Signer::certificate() const { return keys_->facts; }
const std::vector<CertificateFacts>& Signer::chain() const { return keys_->chain_facts; }

Bytes make_signer(const NewSigner& wanted, const std::string& passphrase) {
    check_wishes(wanted, passphrase);
    const KeyOwner key(wanted.key == NewKey::p256 ? EVP_EC_gen("P-256") : EVP_RSA_gen(key_bits));
    must(key != nullptr, "make a key");
    const CertificateOwner certificate = self_made_certificate(wanted, key.get());
    const Pkcs12Owner file(PKCS12_create(passphrase.c_str(), wanted.name.c_str(), key.get(), certificate.get(), nullptr,
                                         NID_aes_256_cbc, NID_aes_256_cbc, wanted.rounds, -1, 0));
    must(file && PKCS12_set_mac(file.get(), passphrase.c_str(), -1, nullptr, 0, wanted.rounds, EVP_sha256()) == 1,
         "protect a key");
    return der_of(file.get(), i2d_PKCS12);
}

namespace {

struct Opened {
    KeyOwner key;
    CertificateOwner certificate;
    std::vector<CertificateOwner> others;
};

Opened open_pkcs12(std::string_view pkcs12, const std::string& passphrase) {
    const Pkcs12Owner file = parse_pkcs12(pkcs12);
    EVP_PKEY* key = nullptr;
    X509* certificate = nullptr;
    STACK_OF(X509)* others = nullptr;
    const int parsed = PKCS12_parse(file.get(), passphrase.c_str(), &key, &certificate, &others);
    Opened opened{KeyOwner(key), CertificateOwner(certificate), {}};
    while (X509* one = sk_X509_pop(others)) opened.others.emplace_back(one);
    sk_X509_free(others);
    const bool wrong = parsed != 1 && ERR_GET_REASON(ERR_peek_last_error()) == PKCS12_R_MAC_VERIFY_FAILURE;
    ERR_clear_error();
    if (wrong || PKCS12_mac_present(file.get()) != 1) throw Error("the passphrase does not open the signer file");
    if (parsed != 1)
        throw Error("the signer file cannot be read: it is damaged or uses a cipher that is out of use", {},
                    "export it again with AES-256");
    return opened;
}

KeyOwner read_pem_key(std::string_view pem, const std::string& passphrase) {
    const BioOwner source(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
    must(source != nullptr, "read from memory");
    const auto give = [](char* to, int most, int, void* from) {
        const auto& phrase = *static_cast<const std::string*>(from);
        if (phrase.size() > static_cast<std::size_t>(most)) return -1;
        std::copy(phrase.begin(), phrase.end(), to);
        return static_cast<int>(phrase.size());
    };
    KeyOwner key(PEM_read_bio_PrivateKey(source.get(), nullptr, give, const_cast<std::string*>(&passphrase)));
    ERR_clear_error();
    return key;
}

Opened open_pem(std::string_view pem, const std::string& passphrase) {
    Opened opened{read_pem_key(pem, passphrase), nullptr, {}};
    const bool encrypted = pem.find("ENCRYPTED") != std::string_view::npos;
    if (!opened.key && encrypted) throw Error("the passphrase does not open the signer file");
    const BioOwner source(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
    must(source != nullptr, "read from memory");
    const auto no_passphrase = [](char*, int, int, void*) { return 0; };
    while (opened.key) {
        CertificateOwner one(PEM_read_bio_X509(source.get(), nullptr, no_passphrase, nullptr));
        if (!one) break;
        const bool is_its_own = !opened.certificate && X509_check_private_key(one.get(), opened.key.get()) == 1;
        if (is_its_own) opened.certificate = std::move(one);
        else opened.others.push_back(std::move(one));
    }
    ERR_clear_error();
    return opened;
}

}  // namespace

Signer load_signer(std::string_view file, const std::string& passphrase) {
    constexpr std::size_t largest_pem = 1 << 20;
    const bool is_pem = file.size() <= largest_pem && file.find("-----BEGIN ") != std::string_view::npos;
    auto [key, certificate, others] = is_pem ? open_pem(file, passphrase) : open_pkcs12(file, passphrase);
    if (key && !certificate && !others.empty())
        throw Error("the private key in the signer file does not belong to its certificate");
    if (!key || !certificate) throw Error("the signer file does not hold a private key and its certificate");
    if (X509_check_private_key(certificate.get(), key.get()) != 1)
        throw Error("the private key in the signer file does not belong to its certificate");
    if (!is_for_signers(kind_of(key.get())))
        throw Error("the key in the signer file is of a kind we do not sign with", {},
                    "RSA of 2048 to 8192 bits with an exponent of at least 65537, or EC on P-256");
    auto keys = std::make_unique<Signer::Keys>();
    keys->facts = facts_of(certificate.get());
    if (!keys->facts.may_sign)
        throw Error("the certificate in the signer file is not for signatures", {},
                    "its key usage must have digitalSignature");
    keys->chain = chain_from(certificate.get(), std::move(others));
    for (const CertificateOwner& one : keys->chain) keys->chain_facts.push_back(facts_of(one.get()));
    keys->key = std::move(key);
    keys->certificate = std::move(certificate);
    return Signer(std::move(keys));
}

}  // namespace rigdeed::crypto
