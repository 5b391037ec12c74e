#include "base/text.hpp"
#include "base/xml.hpp"
#include "works/works.hpp"

namespace rigdeed::works {
namespace {

std::string attribute(std::string_view name, const std::string& value) {
    return value.empty() ? std::string() : " " + std::string(name) + "=\"" + xml::escaped(value) + "\"";
}

std::string proposed(std::string_view name, const std::string& value) {
    return attribute(name, value.empty() ? "?" : value + " ?");
}

}  // namespace

std::string write_works(const WorksDone& works) {
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<works-done xmlns=\"" +
                       std::string(works_namespace) + "\" number=\"?\">\n";
    text += "  <report" + attribute("file", works.report_file) + attribute("number", works.report_number) +
            attribute("yacht", works.yacht) +
            attribute("sha256", works.report_sha256 ? works.report_sha256->hex() : "") + "/>\n";
    text += "  <rigger name=\"?\" firm=\"?\" qualification=\"?\" contact=\"?\"/>\n";
    text += "  <photos" + attribute("folder", works.photos) + "/>\n";
    text +=
        "  <!-- done: yes, otherwise, no or worse. Between the tags: what was done, or why it was not. What was done "
        "has a photo before and one after. -->\n";
    for (const Item& item : works.items) {
        text += "  <item number=\"" + std::to_string(item.number) + "\"" + attribute("asks", item.asks) +
                "\n        done=\"?\" on=\"?\" before=\"?\" after=\"?\">";
        for (const Renewed& one : item.renewed)
            text += "\n    <renewed" + attribute("stay", one.stay) + proposed("make", one.make) +
                    proposed("alloy", one.alloy) + proposed("diameter", one.diameter ? one.diameter->text : "") +
                    " certificate=\"?\"/>";
        text += item.renewed.empty() ? "?</item>\n" : "\n    ?\n  </item>\n";
    }
    return text + "</works-done>\n";
}

}  // namespace rigdeed::works
