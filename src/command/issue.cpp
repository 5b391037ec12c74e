#include <CLI/CLI.hpp>

#include <map>
#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/http.hpp"
#include "base/text.hpp"
#include "command/describe.hpp"
#include "command/describe_verdict.hpp"
#include "command/issue_wishes.hpp"
#include "command/options.hpp"
#include "command/output.hpp"
#include "command/predecessors.hpp"
#include "command/works.hpp"
#include "crypto/authority.hpp"
#include "crypto/signer.hpp"
#include "evidence/copies.hpp"
#include "evidence/give_way.hpp"
#include "pdf/font_metrics.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

/// One survey: the file named, or a file named after the report's number in the folder named.
fs::path target(const IssueWishes& options, const std::string& number) {
    const fs::path output = options.output;
    if (fs::is_directory(output)) return output / (number + ".pdf");
    if (options.files.size() > 1)
        throw Error("is not a folder, and there are several surveys", options.output,
                    "name an existing folder: -o DIR");
    return output;
}

/// The report must not take the place of what it is made from, least of all of the key.
void refuse_inputs(const fs::path& output, const evidence::Evidence& evidence, const std::string& photos,
                   const std::string& survey_file, const IssueWishes& options, const trade::Trade& trade) {
    const fs::path folder = fs::path(survey_file).parent_path() / photos;
    std::vector<fs::path> inputs{survey_file, options.signer, options.passphrase_file, options.time_authorities};
    inputs.emplace_back(options.replaces);
    inputs.insert(inputs.end(), options.since.begin(), options.since.end());
    for (const evidence::Photo& photo : evidence.photos) inputs.push_back(folder / photo.file);
    for (const trade::OwnTemplate& own : trade.own.files) inputs.emplace_back(own.origin);
    if (!trade.letterhead.logo_file.empty()) inputs.emplace_back(trade.letterhead.logo_file);
    refuse_source(output, inputs, "the report");
}

/// Whose name stands on the cover seals, unless it is said that somebody else does.
void refuse_other_name(const std::string& name, const std::string& whose, const std::string& file,
                       const crypto::Signer* signer, const IssueWishes& options) {
    if (signer == nullptr || options.on_behalf) return;
    const std::string& holder = signer->certificate().name;
    if (lower(squeezed(holder)) != lower(squeezed(name)))
        throw Error(whose + " by " + in_quotes(name) + ", the certificate is of " + in_quotes(holder), file,
                    "seal it with " + std::string(whose == "the survey is" ? "the surveyor" : "the rigger") +
                        "'s own identity, or say that another does so: --on-behalf");
}

std::optional<crypto::Signer> load(const IssueWishes& options) {
    if (options.preview) return std::nullopt;
    if (options.signer.empty())
        throw Error("a report needs a signer", {},
                    "give --signer FILE (rigdeed signer new makes one), or --preview for an unsigned look");
    const Bytes bytes = read_file(options.signer, largest_signer);
    return crypto::load_signer(
        as_text(bytes), read_passphrase(options.passphrase_file, "passphrase of " + options.signer + ": ", false));
}

class Issuer {
 public:
    Issuer(const IssueWishes& options, const Common& common)
        : options_(options),
          common_(common),
          terminal_(common.terminal()),
          trade_(common.trade()),
          report_trade_(common.trade(options.language.empty() ? trade_.letterhead.language : options.language)),
          moment_(issue_moment(options.issued_on)),
          most_(read_mail_size(options.mail_size)) {
        report_trade_.letterhead.paper = read_paper(options.paper).value_or(trade_.letterhead.paper);
    }

    ExitCode run() {
        check_wishes(options_);
        ExitCode code = ExitCode::done;
        json_.begin_array();
        // The key is loaded when the last photo has been taken apart: what reads photos never has it.
        std::vector<Ready> ready;
        for (const std::string& file : options_.files) code = worse(code, read_one(file, ready));
        if (!ready.empty()) signer_ = load(options_);
        refuse_early(ready);
        for (Ready& one : ready) issue_one(one);
        json_.end();
        if (common_.json) terminal_.raw_result(json_.text());
        return code;
    }

 private:
    struct Ready {
        std::string file;
        std::string text;  ///< of the survey file, read once: no other is sealed than was judged
        std::unique_ptr<Inspected> inspected;
        evidence::Evidence known;  ///< for --mail-size: what was found about its photos, without their copies
        std::vector<evidence::GivingWay> giving_way;  ///< and which may be printed smaller
        std::unique_ptr<WorksInspected> works;        ///< instead of a survey
    };

    InspectOptions inspecting() {
        InspectOptions options;
        options.copies = most_ ? &copies_ : store_.get();
        options.may_give_way = most_.has_value();
        options.jobs = common_.threads();
        options.for_print = true;
        options.units = common_.unit_system();
        options.on = local_from_seconds(moment_).date;
        options.progress = [this](std::size_t done, std::size_t all) {
            terminal_.progress("reading photos", done, all);
        };
        return options;
    }

    ExitCode read_works(const std::string& file, std::string text, std::vector<Ready>& ready) {
        if (options_.with_gaps || most_ || !options_.since.empty() || !options_.replaces.empty())
            throw Error("--with-gaps, --mail-size, --since and --replaces are for reports, not for works", file,
                        "leave them out; an item that is not done is answered so: done=\"no\", and why");
        auto inspected = works_or_explain(file, text, inspecting(), moment_, terminal_);
        if (!inspected) return ExitCode::could_not_run;
        if (!inspected->conclusion.complete()) {
            describe_gaps(*inspected, terminal_);
            terminal_.note(counted(inspected->conclusion.gaps.size(), "gap") + " in " + file + "; nothing was issued");
            return ExitCode::incomplete;
        }
        ready.push_back({file, std::move(text), nullptr, {}, {}, std::move(inspected)});
        return ExitCode::done;
    }

    ExitCode read_one(const std::string& file, std::vector<Ready>& ready) {
        if (auto works = works_text(file)) return read_works(file, std::move(*works), ready);
        auto inspected = inspect_or_explain(file, trade_, inspecting(), terminal_);
        if (!inspected) return ExitCode::could_not_run;
        if (!inspected->completeness.complete() && !options_.with_gaps) return refuse(*inspected);
        evidence::Evidence known = most_ ? evidence::without_copies(inspected->evidence) : evidence::Evidence{};
        std::vector<evidence::GivingWay> giving_way;
        if (most_)
            giving_way = evidence::giving_way(inspected->evidence,
                                              report::for_print(inspected->assessment, inspected->survey), copies_);
        std::string text = inspected->file_text;
        ready.push_back(
            {file, std::move(text), std::move(inspected), std::move(known), std::move(giving_way), nullptr});
        return ExitCode::done;
    }

    /// What can be known before the first report is written, of all of them.
    void refuse_early(const std::vector<Ready>& ready) {
        std::map<fs::path, std::string> outputs;
        for (const Ready& one : ready) {
            const bool works = one.works != nullptr;
            const std::string number = works ? one.works->works.number : one.inspected->survey.number;
            const fs::path output = target(options_, number);
            refuse_inputs(output, works ? one.works->evidence : one.inspected->evidence,
                          works ? one.works->works.photos : one.inspected->survey.photos.folder, one.file, options_,
                          report_trade_);
            if (works)
                refuse_source(output, {fs::path(one.file).parent_path() / one.works->works.report_file},
                              "the follow-up");
            refuse_existing(output, options_.force);
            refuse_other_name(works ? one.works->works.rigger : one.inspected->survey.surveyor.name,
                              works ? "the works are" : "the survey is", one.file, signer_ ? &*signer_ : nullptr,
                              options_);
            if (const auto [other, fresh] = outputs.emplace(output, one.file); !fresh)
                throw Error("two papers have the number " + in_quotes(number) + ": " + other->second + " too", one.file,
                            "give each a number of its own");
        }
    }

    void issue_works(Ready& ready) {
        const std::string number = ready.works->works.number;
        const fs::path output = target(options_, number);
        refuse_existing(output, options_.force);
        const IssueOptions issuing{.issued_at = moment_,
                                   .date_typed = is_moment_typed(options_.issued_on),
                                   .signer = signer_ ? &*signer_ : nullptr,
                                   .stamp = stamp()};
        write_file(output, seal_report(lay_out_works(std::move(ready.works), report_trade_, issuing), issuing));
        tell(number, output);
    }

    void issue_one(Ready& ready) {
        if (ready.works) return issue_works(ready);
        const survey::Survey& survey = ready.inspected->survey;
        const fs::path output = target(options_, survey.number);
        refuse_existing(output, options_.force);
        const std::string number = survey.number;
        const crypto::Signer* signer = signer_ ? &*signer_ : nullptr;
        const Before before = read_before(options_.since, survey, options_.other_yacht, moment_, terminal_);
        const IssueOptions issuing{
            .issued_at = moment_,
            .date_typed = is_moment_typed(options_.issued_on),
            .signer = signer,
            .stamp = stamp(),
            .replaces =
                replaced_by(survey, {options_.replaces, options_.because, options_.replaced_signer}, signer, moment_),
            .since = before.reports,
            .earlier_picture = before.finder()};
        if (const std::string bar = climbing_bar(*ready.inspected, trade_); !bar.empty()) terminal_.note(bar);
        LaidOut laid_out = lay_out(std::move(ready.inspected), report_trade_, issuing);
        const std::size_t size = laid_out.pdf.bytes.size();
        if (most_ && size > *most_) laid_out = smaller(ready, issuing, size);
        write_file(output, seal_report(std::move(laid_out), issuing));
        tell(number, output);
    }

    /// Asks the server named for a timestamp.
    crypto::Stamp stamp() {
        if (options_.timestamp.empty()) return {};
        return [this](const Digest& signature) {
            stamped_.reset();
            try {
                Bytes token = crypto::ask_timestamp(options_.timestamp, signature);
                stamped_ = crypto::examine_timestamp(as_text(token), signature).timestamp;
                if (std::string fault = stamp_fault(); !fault.empty())
                    throw Error(std::move(fault), options_.timestamp);
                return token;
            } catch (const Error& error) {
                if (!options_.timestamp_optional) throw;
                terminal_.note("without a timestamp: " + error.message + " (" + options_.timestamp + ")");
                return Bytes();
            }
        };
    }

    /// Why the timestamp would not count for who trusts the authority named, and no report should go out with it.
    std::string stamp_fault() const {
        if (!stamped_) return "the timestamp cannot be read";
        if (options_.time_authorities.empty()) return {};
        const Bytes roots = read_file(options_.time_authorities, largest_signer);
        crypto::check_authorities(as_text(roots));
        return crypto::authority_fault(stamped_->authority, {}, as_text(roots), stamped_->at);
    }

    /// Photos of signs keep their pixels; those of sound fittings give way, each as little as the size wanted lets.
    LaidOut smaller(const Ready& ready, const IssueOptions& issuing, std::size_t size) {
        const std::size_t besides = size - std::min(size, evidence::largest(ready.giving_way));
        std::size_t budget = *most_ > besides ? *most_ - besides : 0;
        constexpr int tries = 3;
        for (int i = 0; i < tries; ++i) {
            const auto sides = evidence::sides_within(ready.giving_way, budget);
            if (!sides) break;
            InspectOptions again = inspecting();
            again.known = &ready.known;
            again.text = ready.text;
            again.exact = *sides;
            auto inspected = inspect(ready.file, trade_, again).inspected;
            if (!inspected || (!inspected->completeness.complete() && !options_.with_gaps))
                throw Error("the survey or its photos changed while the report was made", ready.file, "issue it again");
            LaidOut laid_out = lay_out(std::move(inspected), report_trade_, issuing);
            const std::size_t reached = laid_out.pdf.bytes.size();
            if (reached <= *most_) {
                terminal_.note("for --mail-size " + counted(sides->size(), "photo") +
                               " of no sign were printed with fewer pixels: " + megabytes(reached) +
                               "; the register says each one's");
                return laid_out;
            }
            budget -= std::min(budget, reached - *most_ + 1024);
        }
        throw Error("cannot be made smaller than " + megabytes(besides + evidence::smallest(ready.giving_way)),
                    ready.file, "photos of signs keep their pixels: allow more, or send it another way");
    }

    static std::string megabytes(std::size_t bytes) { return fixed(static_cast<double>(bytes) / 1e6, 2) + " MB"; }

    ExitCode refuse(const Inspected& inspected) {
        describe_gaps(inspected, terminal_);
        terminal_.note(counted(inspected.completeness.gaps.size(), "gap") + " in survey " + inspected.survey.number +
                       "; nothing was issued (rigdeed check lists them by fitting)");
        return ExitCode::incomplete;
    }

    void tell(const std::string& number, const fs::path& output) {
        const std::string fingerprint = signer_ ? signer_->certificate().fingerprint.hex() : std::string();
        if (common_.json) {
            json_.begin_object()
                .field("number", number)
                .field("file", output.string())
                .field("fingerprint", fingerprint)
                .key("timestamp");
            if (stamped_) json_.value(stamped_->at);
            else json_.null();
            json_.end();
            return;
        }
        terminal_.result(output.string());
        if (signer_ && !signer_->certificate().valid_at(moment_))
            terminal_.note("the signer's certificate is not valid on the date of issue: from " +
                           local_from_seconds(signer_->certificate().not_before).date.text() + " to " +
                           local_from_seconds(signer_->certificate().not_after).date.text());
        if (!signer_) return terminal_.note("an unsigned preview: it proves nothing");
        terminal_.note("sealed by " + signer_->certificate().name + ", fingerprint " + fingerprint);
        if (stamped_)
            terminal_.note("timestamp " + utc_text(stamped_->at) + ", by the word of " +
                           in_quotes(stamped_->authority.name));
    }

    const IssueWishes& options_;
    const Common& common_;
    Terminal terminal_;
    trade::Trade trade_;         ///< in English, as the terminal speaks
    trade::Trade report_trade_;  ///< in the language of the report
    std::optional<crypto::Signer> signer_;
    std::int64_t moment_;
    std::optional<std::size_t> most_;
    evidence::CopiesInMemory copies_;
    std::unique_ptr<evidence::CopyStore> store_ = common_.store();
    std::optional<crypto::Timestamp> stamped_;  ///< of the report issued last
    JsonWriter json_;
};

}  // namespace

void add_issue(CLI::App& app, Common& common, ExitCode& code) {
    auto options = std::make_shared<IssueWishes>();
    CLI::App* command = app.add_subcommand("issue", "Make the sealed report, or the follow-up that answers one");
    add_options(*command, *options);
    command->callback([options, &common, &code] { code = Issuer(*options, common).run(); });
}

}  // namespace rigdeed::command
