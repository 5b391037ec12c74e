// What the marking page saved: any bytes are statements or a list of problems, and a survey that took them is a survey.
#include <cstdint>
#include <string>

#include "marks/marks.hpp"
#include "marks/take.hpp"
#include "survey/read_survey.hpp"

using namespace rigdeed;

namespace {

const std::string survey_text = R"(<rig-survey xmlns="urn:rigdeed:survey:1" number="F-1" purpose="periodic">
  <surveyor name="S"/><client name="C" role="owner"/><yacht name="Y" rig="cat" mast="aluminium" loa="9 m"/>
  <attendance on="2026-10-03" place="P" climbed="yes"/>
  <photos folder="photos"><other name="X1" shows="the berth"/></photos>
  <rig/>
  <fittings>
    <fitting id="one" kind="tang" station="mast" height="8 m"/>
    <fitting id="two" kind="tang" station="mast" height="8 m"><!-- kept --><seen pass="up" at="09:08" far="F1" close="C3"><sign
      code="crack" mark="0.5 0.5 0.1">One line.</sign></seen><not-seen pass="down" reason="dark"/></fitting>
  </fittings>
</rig-survey>
)";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(bytes), size);
    const auto [marks, problems] = marks::read_marks(text, "marks.xml");
    if (marks.has_value() != problems.empty()) __builtin_trap();
    if (!marks) return 0;
    if (!marks::read_marks(marks::write_marks(*marks), "marks.xml").marks) __builtin_trap();
    for (const bool part : {false, true}) {
        const marks::Taken taken = marks::take(*marks, survey_text, "survey.xml", part);
        if (!taken.text) continue;
        if (!survey::read_survey(*taken.text, "survey.xml").survey) __builtin_trap();
        if (taken.text->find("<!-- kept -->") == std::string::npos) __builtin_trap();
    }
    return 0;
}
