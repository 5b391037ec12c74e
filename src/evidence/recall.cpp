#include "evidence/recall.hpp"

#include "evidence/photo_facts.hpp"

namespace rigdeed::evidence {
namespace {

std::string_view kind_of(Examined how) { return how == Examined::decoded ? "a photo" : "a photo looked at"; }

}  // namespace

bool recall_facts(Photo& photo, Examined how, CopyStore& store) {
    const auto facts = store.find_facts(kind_of(how), photo.sha256);
    Photo found;
    if (!facts || !read_facts(*facts, found) || !found.usable()) return false;
    found.name = photo.name;
    found.file = photo.file;
    found.size = photo.size;
    found.sha256 = photo.sha256;
    photo = std::move(found);
    return true;
}

void remember_facts(const Photo& photo, Examined how, CopyStore& store) {
    if (!photo.usable()) return;
    Photo facts = photo;
    facts.print = facts.detail = {};
    facts.detail_of.reset();
    facts.detail_wanted = 0;
    facts.finest_edge.reset();  // hangs on where it is measured
    store.keep_facts(kind_of(how), photo.sha256, write_facts(facts));
}

}  // namespace rigdeed::evidence
