#include "survey/survey.hpp"

namespace rigdeed::survey {

const Seen* Fitting::in(Way pass) const {
    for (const Seen& one : seen)
        if (one.pass == pass) return &one;
    return nullptr;
}

const NotSeenIn* Fitting::not_seen_on(Way pass) const {
    for (const NotSeenIn& one : not_seen_in)
        if (one.pass == pass) return &one;
    return nullptr;
}

const Measured* Fitting::measure(std::string_view what) const {
    for (const Measured& one : measured)
        if (one.what == what) return &one;
    return nullptr;
}

const StayEnd* Stay::end(EndAt at) const {
    for (const StayEnd& one : ends)
        if (one.at == at) return &one;
    return nullptr;
}

int Photos::clock_of(std::string_view camera) const {
    for (const CameraClock& one : cameras)
        if (one.name == camera) return one.clock;
    return camera_clock;
}

const PhotoScale* Photos::scale_of(std::string_view photo) const {
    for (const PhotoScale& scale : scales)
        if (scale.photo == photo) return &scale;
    return nullptr;
}

const Stay* Survey::stay(std::string_view id) const {
    for (const Stay& one : stays)
        if (one.id == id) return &one;
    return nullptr;
}

const std::vector<Named<Purpose>>& names(Purpose) {
    static const std::vector<Named<Purpose>> rows{{Purpose::pre_purchase, "pre-purchase"},
                                                  {Purpose::insurance, "insurance"},
                                                  {Purpose::passage, "passage"},
                                                  {Purpose::periodic, "periodic"},
                                                  {Purpose::damage, "damage"}};
    return rows;
}

const std::vector<Named<Role>>& names(Role) {
    static const std::vector<Named<Role>> rows{{Role::buyer, "buyer"},
                                               {Role::owner, "owner"},
                                               {Role::seller, "seller"},
                                               {Role::insurer, "insurer"},
                                               {Role::other, "other"}};
    return rows;
}

const std::vector<Named<Climbed>>& names(Climbed) {
    static const std::vector<Named<Climbed>> rows{
        {Climbed::yes, "yes"}, {Climbed::no, "no"}, {Climbed::stopped, "stopped"}};
    return rows;
}

const std::vector<Named<Side>>& names(Side) {
    static const std::vector<Named<Side>> rows{
        {Side::port, "port"}, {Side::starboard, "starboard"}, {Side::centre, "centre"}};
    return rows;
}

const std::vector<Named<Way>>& names(Way) {
    static const std::vector<Named<Way>> rows{{Way::up, "up"}, {Way::down, "down"}};
    return rows;
}

const std::vector<Named<Verdict>>& names(Verdict) {
    static const std::vector<Named<Verdict>> rows{{Verdict::sound, "sound"},
                                                  {Verdict::unseen, "unseen"},
                                                  {Verdict::watch, "watch"},
                                                  {Verdict::rectify, "rectify"},
                                                  {Verdict::renew, "renew"}};
    return rows;
}

const std::vector<Named<AgeSource>>& names(AgeSource) {
    static const std::vector<Named<AgeSource>> rows{{AgeSource::invoice, "invoice"},
                                                    {AgeSource::plate, "plate"},
                                                    {AgeSource::owner, "owner"},
                                                    {AgeSource::estimate, "estimate"}};
    return rows;
}

const std::vector<Named<Isolator>>& names(Isolator) {
    static const std::vector<Named<Isolator>> rows{
        {Isolator::fitted, "fitted"}, {Isolator::missing, "missing"}, {Isolator::not_seen, "not-seen"}};
    return rows;
}

const std::vector<Named<EndAt>>& names(EndAt) {
    static const std::vector<Named<EndAt>> rows{{EndAt::top, "top"}, {EndAt::bottom, "bottom"}};
    return rows;
}

const std::vector<Named<Form>>& names(Form) {
    static const std::vector<Named<Form>> rows{{Form::eye, "eye"},  {Form::fork, "fork"}, {Form::stud, "stud"},
                                               {Form::tee, "tee"},  {Form::ball, "ball"}, {Form::hook, "hook"},
                                               {Form::loop, "loop"}};
    return rows;
}

const std::vector<Named<Hand>>& names(Hand) {
    static const std::vector<Named<Hand>> rows{{Hand::right, "right"}, {Hand::left, "left"}};
    return rows;
}

const std::vector<Named<UnitSystem>>& names(UnitSystem) {
    static const std::vector<Named<UnitSystem>> rows{
        {UnitSystem::metric, "metric"}, {UnitSystem::us, "us"}, {UnitSystem::both, "both"}};
    return rows;
}

}  // namespace rigdeed::survey
