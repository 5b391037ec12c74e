#include "pipeline.hpp"
#include "reopen/issued_sample.hpp"
#include "verify/sample_report.hpp"

namespace rigdeed::sample {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

std::string issued_from(const std::string& fixture, const trade::Trade& trade, const crypto::Stamp& stamp) {
    InspectOptions options;
    options.for_print = true;
    auto inspected = inspect(RIGDEED_SOURCE_DIR "/fixtures/" + fixture + "/survey.xml", trade, options).inspected;
    IssueOptions issuing;
    issuing.issued_at = autumn;
    issuing.signer = &ann();
    issuing.stamp = stamp;
    return seal_report(lay_out(std::move(inspected), trade, issuing), issuing);
}

const std::string& issued() {
    static const std::string report = issued_from("complete");
    return report;
}

}  // namespace rigdeed::sample
