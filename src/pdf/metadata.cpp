#include "base/build.hpp"
#include "base/date.hpp"
#include "base/resources.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

std::string producer() { return "rigdeed " + std::string(version()); }

/// What pdfuaid:part is, as PDF/A wants every property explained that it does not know (ISO 19005-3, 6.6.2.3).
constexpr std::string_view accessibility_schema =
    "<rdf:Description rdf:about=\"\"\n"
    " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
    " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
    " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n"
    "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>\n"
    "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n"
    "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n"
    "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n"
    "<pdfaProperty:name>part</pdfaProperty:name>\n"
    "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n"
    "<pdfaProperty:category>internal</pdfaProperty:category>\n"
    "<pdfaProperty:description>Part of ISO 14289 that the file follows</pdfaProperty:description>\n"
    "</rdf:li></rdf:Seq></pdfaSchema:property>\n"
    "</rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
    "</rdf:Description>\n";

std::string two(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

struct Stamp {
    std::string date;  // 2026-10-03
    std::string time;  // 09:14:00
};

Stamp stamp(std::int64_t seconds) {
    const LocalTime utc = local_from_seconds(seconds);
    const int s = utc.time.seconds;
    return {utc.date.iso(), two(s / 3600) + ":" + two(s / 60 % 60) + ":" + two(s % 60)};
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == '&') result += "&amp;";
        else if (c == '<') result += "&lt;";
        else if (c == '>') result += "&gt;";
        else result += c;
    }
    return result;
}

std::string alternatives(std::string_view property, std::string_view text) {
    return "<dc:" + std::string(property) + "><rdf:Alt><rdf:li xml:lang=\"x-default\">" + escaped(text) +
           "</rdf:li></rdf:Alt></dc:" + std::string(property) + ">\n";
}

std::string creator(const std::string& author) {
    if (author.empty()) return {};
    return "<dc:creator><rdf:Seq><rdf:li>" + escaped(author) + "</rdf:li></rdf:Seq></dc:creator>\n";
}

void add_info(Document& document, const DocumentFacts& facts) {
    HPDF_Dict info = document.info();
    document.text(info, "Title", facts.title);
    if (!facts.author.empty()) document.text(info, "Author", facts.author);
    document.text(info, "Subject", facts.subject);
    document.ascii(info, "Creator", producer().c_str());
    document.ascii(info, "Producer", producer().c_str());
    document.ascii(info, "CreationDate", pdf_date(facts.issued));
    document.ascii(info, "ModDate", pdf_date(facts.issued));
}

void add_output_intent(Document& document) {
    HPDF_Dict profile = document.stream(resource("sRGB.icc"));
    document.number(profile, "N", 3);
    HPDF_Dict intent = document.dict();
    document.name(intent, "Type", "OutputIntent");
    document.name(intent, "S", "GTS_PDFA1");
    document.ascii(intent, "OutputConditionIdentifier", "sRGB");
    document.ascii(intent, "RegistryName", "http://www.color.org");
    document.ascii(intent, "Info", "sRGB IEC61966-2.1");
    document.add(intent, "DestOutputProfile", profile);
    HPDF_Array intents = document.array();
    document.add(intents, intent);
    document.add(document.catalog(), "OutputIntents", intents);
}

}  // namespace

std::string pdf_date(std::int64_t seconds) {
    std::string digits;
    const Stamp at = stamp(seconds);
    for (const char c : at.date + at.time)
        if (c >= '0' && c <= '9') digits += c;
    return "D:" + digits + "+00'00'";
}

std::string xmp_packet(const DocumentFacts& facts) {
    const Stamp at = stamp(facts.issued);
    const std::string when = at.date + "T" + at.time + "+00:00";
    return "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
           "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
           "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
           "<rdf:Description rdf:about=\"\"\n"
           " xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
           " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"\n"
           " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
           " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"\n"
           " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\">\n"
           "<pdfuaid:part>1</pdfuaid:part>\n<pdfaid:part>3</pdfaid:part>\n<pdfaid:conformance>U</"
           "pdfaid:conformance>\n" +
           alternatives("title", facts.title) + alternatives("description", facts.subject) + creator(facts.author) +
           "<dc:language><rdf:Bag><rdf:li>" + escaped(facts.language) +
           "</rdf:li></rdf:Bag></dc:language>\n"
           "<xmp:CreatorTool>" +
           producer() +
           "</xmp:CreatorTool>\n"
           "<xmp:CreateDate>" +
           when + "</xmp:CreateDate>\n<xmp:ModifyDate>" + when +
           "</xmp:ModifyDate>\n"
           "<pdf:Producer>" +
           producer() +
           "</pdf:Producer>\n"
           "</rdf:Description>\n" +
           std::string(accessibility_schema) + "</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

void add_metadata(Document& document, const DocumentFacts& facts) {
    add_info(document, facts);
    HPDF_Dict xmp = document.stream(xmp_packet(facts), false);
    document.name(xmp, "Type", "Metadata");
    document.name(xmp, "Subtype", "XML");
    document.add(document.catalog(), "Metadata", xmp);
    add_output_intent(document);
    document.ascii(document.catalog(), "Lang", facts.language);
    HPDF_Dict preferences = document.dict();
    document.boolean(preferences, "DisplayDocTitle", true);
    document.add(document.catalog(), "ViewerPreferences", preferences);
    HPDF_Array identifier = document.array();
    for (int i = 0; i < 2; ++i) document.add(identifier, document.binary(facts.identity.bytes.data(), 16));
    document.add(document.trailer(), "ID", identifier);
}

}  // namespace rigdeed::pdf
