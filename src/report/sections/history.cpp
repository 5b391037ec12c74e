#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

class Rows {
 public:
    explicit Rows(const Material& material) : material_(material), words_(material.trade.wording) {
        group_.heading = words_("history.title");
        group_.remark = words_("history.remark");
    }

    RowGroup run() {
        const survey::History& history = material_.survey.history;
        for (const survey::PastSurvey& past : history.surveys) {
            add("history.last-survey", about(past.on, past.by, past.number));
            add("history.left", past.left.empty() ? words_("history.left.none") : past.left);
        }
        if (history.surveys.empty()) add("history.last-survey", {});
        for (const survey::Repair& repair : history.repairs)
            add("history.repair", said(words_, about(repair.on, repair.by, {}), repair.done));
        if (history.repairs.empty()) add("history.repair", {});
        add("history.sailed", history.sailed ? words_.numbers(history.sailed->text) : std::string());
        add("history.statement", history.statement);
        for (const survey::LoggedTension& logged : history.tensions)
            add("history.tension",
                said(words_, capitalised(trade::stay_name(*material_.survey.stay(logged.stay), material_.trade)),
                     join_known({words_.numbers(logged.tension.text), words_.date(logged.on), logged.with})));
        if (history.tensions.empty()) add("history.tension", {});
        add_hull_number();
        return std::move(group_);
    }

 private:
    static std::string join_known(const std::vector<std::string>& parts) {
        std::vector<std::string> known;
        for (const std::string& part : parts)
            if (!part.empty()) known.push_back(part);
        return join(known, ", ");
    }

    std::string about(const PartDate& on, const std::string& by, const std::string& number) const {
        return join_known(
            {words_.date(on), by, number.empty() ? number : words_("history.number", {{"number", number}})});
    }

    /// What was not stated is said to be so.
    void add(const char* key, const std::string& text) {
        Row row;
        row.cells.resize(2);
        row.cells[0].bold = capitalised(words_(key));
        row.cells[1].lines = {text.empty() ? words_("scope.not-stated") : text};
        group_.rows.push_back(std::move(row));
    }

    void add_hull_number() {
        std::vector<std::string> names;
        for (const survey::OtherPhoto& other : material_.survey.photos.others)
            if (other.hull_number) names.push_back(other.name);
        add("history.hull-number", names.empty() ? words_("history.none") : join(names, ", "));
    }

    const Material& material_;
    const trade::Wording& words_;
    RowGroup group_;
};

}  // namespace

void history(const Material& material, Blocks& blocks) {
    Table table;
    table.small = true;
    table.columns = {{"", 0.33, Align::left}, {"", 0.67, Align::left}};
    table.groups = {Rows(material).run()};
    add(blocks, std::move(table));
}

}  // namespace rigdeed::report
