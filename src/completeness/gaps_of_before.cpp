#include <algorithm>

#include "base/text.hpp"
#include "completeness/gaps.hpp"

namespace rigdeed::completeness {
namespace {

using survey::Fitting;
using survey::Sign;

/// Nothing heals by not being mentioned.
bool is_said(const Fitting& fitting, const std::string& code) {
    for (const survey::Seen& seen : fitting.seen)
        for (const Sign& sign : seen.signs)
            if (sign.code == code) return true;
    return std::any_of(fitting.gone.begin(), fitting.gone.end(),
                       [&](const survey::Gone& gone) { return gone.sign == code; });
}

/// Signs that this survey says nothing of, of fittings that it saw.
void not_said(const Inspection& in, bool to_be_renewed, std::string_view row, std::string_view wording, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings) {
        if (!fitting.before || fitting.not_seen) continue;
        if ((fitting.before->verdict == survey::Verdict::renew) != to_be_renewed) continue;
        const trade::Kind* kind = in.trade.kind(fitting.kind);
        for (const Sign& sign : fitting.before->signs) {
            if (is_said(fitting, sign.code)) continue;
            const trade::SignRule* known = kind != nullptr ? in.trade.sign(*kind, sign.code) : nullptr;
            notes.push_back(
                about(fitting, row,
                      in.trade.wording(wording, {{"sign", known != nullptr ? known->name : sign.code},
                                                 {"survey", fitting.before->survey}}),
                      "gone or overlooked? write what is seen, or <gone sign=\"" + sign.code + "\" because=\"…\"/>"));
        }
    }
}

}  // namespace

void renewal_not_said(const Inspection& in, Notes& notes) {
    not_said(in, true, "renewal-not-said", "gap.renewal-not-said", notes);
}

void sign_not_said(const Inspection& in, Notes& notes) {
    not_said(in, false, "sign-not-said", "remark.sign-not-said", notes);
}

}  // namespace rigdeed::completeness
