#include "completeness/gaps.hpp"
#include "completeness/remarks.hpp"

namespace rigdeed::completeness {

const std::vector<Requirement>& gap_requirements() {
    static const std::vector<Requirement> rows{
        {"not-seen-up", "every fitting is seen on the way up", not_seen_up},
        {"not-seen-down", "every fitting is seen again on the way down", not_seen_down},
        {"no-photo-pair", "every fitting has a far and a close photo of one pass", no_photo_pair},
        {"sign-without-pair", "a sign has a photo pair of the pass that saw it", sign_without_pair},
        {"far-without-close", "a far photo has its close one", far_without_close},
        {"close-without-far", "a close photo has its far one", close_without_far},
        {"far-is-close", "far and close are two photos", far_is_close},
        {"photo-missing", "every photo named is in the photo folder", photo_missing},
        {"photo-unreadable", "every photo can be read and decoded", photo_unreadable},
        {"not-a-photo", "every photo named is a JPEG photo", not_a_photo},
        {"photo-unused", "every photo in the folder belongs to something", photo_unused},
        {"close-shared", "a close photo belongs to one fitting and one pass", close_shared},
        {"same-content", "no two photo names have the same content", same_content},
        {"same-picture", "no two photos have the same picture", same_picture},
        {"other-day", "photos were taken on the day of the attendance, or on those declared", other_day},
        {"undated", "cameras recorded when, or it is said why not", undated},
        {"far-close-exchanged", "the far photo of a pair was taken from farther than the close one",
         far_close_exchanged},
        {"left-open", "no blank of the form is left open", left_open},
        {"unconfirmed", "every value that the form proposed is confirmed", unconfirmed},
        {"sign-without-words", "a sign is told in words", sign_without_words},
        {"implausible", "every value can be", implausible},
        {"dates-contradict", "built, fitted, surveyed and issued follow each other", dates_contradict},
        {"heights-contradict", "what stands farther up the rig is higher", heights_contradict},
        {"stay-missing", "the rig has every stay that its plan, or any such rig, has", stay_missing},
        {"fitting-missing", "the rig has every fitting that its plan, or any such rig, has", fitting_missing},
        {"absent-though-there", "what is said to be absent is not there", absent_though_there},
        {"demand-not-met", "every stay has the fittings its make demands", demand_not_met},
        {"aloft-before-deck", "the deck level is finished before anyone looks aloft", aloft_before_deck},
        {"climbed-despite-bar", "nobody climbs on after a sign that bars climbing", climbed_despite_bar},
        {"climbed-despite-nothing", "somebody climbed despite a sign that was seen", climbed_despite_nothing},
        {"aloft-though-stopped", "nothing aloft is seen where the inspection stopped at the deck",
         seen_aloft_though_stopped},
        {"down-before-up", "a fitting is seen up before down", down_before_up},
        {"milder-without-reason", "a milder verdict has a written reason", milder_without_reason},
        {"signs-contradict", "what is said of a fitting in one pass can all be true", signs_contradict},
        {"renewal-not-said", "what was to be renewed last time is seen again, or said to be gone", renewal_not_said},
        {"sound-though-unseen", "what nobody saw is not called sound", sound_though_unseen},
    };
    return rows;
}

const std::vector<Requirement>& remark_requirements() {
    static const std::vector<Requirement> rows{
        {"no-camera-time", "the camera recorded when", no_camera_time, true},
        {"outside-pass", "a photo was taken during its pass", outside_pass, true},
        {"close-before-far", "the far photo was taken first", close_before_far, true},
        {"flash-off", "flash was used on close photos", flash_off, true},
        {"flash-not-recorded", "the camera recorded the flash of close photos", flash_not_recorded, true},
        {"scale-too-coarse", "a close photo could show a hairline crack", scale_too_coarse, true},
        {"blurred", "a close photo is sharp", blurred},
        {"edited-later", "a photo was not changed after it was taken", edited_later, true},
        {"clocks-disagree", "camera clocks agree with the survey's times", clocks_disagree},
        {"sign-not-said", "a sign of the last survey is seen again, or said to be gone", sign_not_said},
        {"out-of-order", "photos were taken in the order of the survey", out_of_order, true},
        {"dated-needlessly", "days declared for photos are days of photos", dated_needlessly},
        {"unusual", "every value is a usual one", unusual, true},
        {"older-than-yacht", "stays are not older than the yacht", older_than_yacht},
        {"issued-late", "the report is issued soon after the attendance", issued_late},
        {"choices-not-said", "the survey says what was chosen of its plan", choices_not_said},
        {"id-says-otherwise", "an id does not name another side or kind", id_says_otherwise, true},
        {"hin-form", "the hull number has the form of ISO 10087 or 33 CFR 181.25", hin_form},
    };
    return rows;
}

}  // namespace rigdeed::completeness
