#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "survey/read_survey.hpp"

/// Surveys to start a test from.
namespace rigdeed::sample {

inline std::string text_of(const std::string& path) {
    std::ifstream file(std::string(RIGDEED_SOURCE_DIR) + "/" + path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

/// The small complete survey of fixtures/complete.
inline std::string complete() { return text_of("fixtures/complete/survey.xml"); }

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE_MESSAGE(at != std::string::npos, from);
    return text.replace(at, from.size(), to);
}

inline survey::Survey read(const std::string& text) {
    auto reading = survey::read_survey(text, "s.xml");
    for (const Problem& problem : reading.problems) MESSAGE(problem.at.text(), ": ", problem.what);
    REQUIRE(reading.survey);
    return std::move(*reading.survey);
}

/// What the plan has besides, as absent; of a shroud without its fellow, that one.
inline std::string absent_besides(const std::string& stays, const std::string& fittings) {
    std::string absent;
    for (const char* kind : {"masthead", "mast-wall", "light", "mast-step", "gooseneck", "sheave-box"})
        if (fittings.find("kind=\"" + std::string(kind) + "\"") == std::string::npos)
            absent += "<absent kind=\"" + std::string(kind) + "\" because=\"a test\"/>";
    for (const char* side : {"port", "starboard"})
        if (stays.find("role=\"cap-shroud\" side=\"" + std::string(side) + "\"") == std::string::npos)
            absent += "<absent role=\"cap-shroud\" side=\"" + std::string(side) + "\" because=\"a test\"/>";
    return absent;
}

/// A survey file of the given stays and fittings.
inline std::string text_with(const std::string& stays, const std::string& fittings,
                             const std::string& climbed = "climbed=\"yes\"") {
    return "<rig-survey xmlns=\"urn:rigdeed:survey:1\" number=\"T\" purpose=\"periodic\"><surveyor name=\"S\"/><client "
           "name=\"C\" role=\"owner\"/>"
           "<yacht name=\"Y\" rig=\"cat\" mast=\"aluminium\" loa=\"9 m\"/><attendance on=\"2026-10-03\" place=\"P\" " +
           climbed +
           "/>"
           "<photos folder=\"photos\"/><rig choices=\"shrouds=0\">" +
           stays + absent_besides(stays, fittings) + "</rig><fittings>" + fittings + "</fittings></rig-survey>";
}

/// The same, read.
inline survey::Survey with(const std::string& stays, const std::string& fittings,
                           const std::string& climbed = "climbed=\"yes\"") {
    return read(text_with(stays, fittings, climbed));
}

inline std::string stay(
    const std::string& id,
    const std::string& more = "make=\"1x19\" alloy=\"316\" fitted=\"2024-05\" age-source=\"invoice\"") {
    return "<stay id=\"" + id + "\" role=\"cap-shroud\" side=\"port\" diameter=\"8 mm\" " + more + "/>";
}

/// A fitting seen in both passes; `up` and `down` hold its signs.
inline std::string fitting(const std::string& id, const std::string& kind, const std::string& stay,
                           const std::string& station, const std::string& up = "", const std::string& down = "") {
    const std::string of = stay.empty() ? "" : " stay=\"" + stay + "\"";
    const std::string height = station == "deck"       ? "2"
                               : station == "masthead" ? "12"
                               : station == "mast"     ? "4"
                                                       : std::string(1, station.back()) + ".5";
    return "<fitting id=\"" + id + "\" kind=\"" + kind + "\"" + of + " station=\"" + station + "\" height=\"" + height +
           " m\"><seen pass=\"up\" at=\"09:00\" far=\"F\" close=\"" + id + "-u\">" + up +
           "</seen><seen pass=\"down\" at=\"12:00\" far=\"F\" close=\"" + id + "-d\">" + down + "</seen></fitting>";
}

inline std::string sign(const std::string& code) { return "<sign code=\"" + code + "\">as seen</sign>"; }

}  // namespace rigdeed::sample
