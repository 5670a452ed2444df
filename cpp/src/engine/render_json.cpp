#include "json_members.hpp"
#include "levelswap/engine/engine.hpp"

namespace levelswap {

/// What each struct of an answer shows, in this order.
template <>
inline constexpr auto members<Finding> = std::tuple{
    Member{"rule", &Finding::rule}, Member{"title", &Finding::title}, Member{"level", &Finding::level},
    Member{"state", &Finding::state}, Member{"subject", &Finding::subject}, Member{"quantity", &Finding::quantity},
    Member{"required", &Finding::required}, Member{"available", &Finding::available},
    Member{"margin", &Finding::margin}, Member{"source", &Finding::source}, Member{"why", &Finding::why},
    Member{"facts", &Finding::facts}, Member{"used", &Finding::used}, Member{"notes", &Finding::notes}, Member{"positions", &Finding::positions},
    Member{"before", &Finding::before}};
template <>
inline constexpr auto members<Shift> = std::tuple{
    Member{"output", &Shift::output}, Member{"level", &Shift::level}, Member{"shift", &Shift::shift},
    Member{"condition", &Shift::condition}, Member{"direction", &Shift::direction}};
template <>
inline constexpr auto members<Difference> = std::tuple{
    Member{"function", &Difference::function}, Member{"what", &Difference::what}, Member{"before", &Difference::before},
    Member{"after", &Difference::after}, Member{"moved", &Difference::moved}};
template <>
inline constexpr auto members<Work> = std::tuple{
    Member{"position", &Work::position}, Member{"isolate", &Work::isolate}, Member{"drain", &Work::drain},
    Member{"cool", &Work::cool}, Member{"consumables", &Work::consumables}, Member{"note", &Work::note}};
template <>
inline constexpr auto members<Repair> = std::tuple{
    Member{"positions", &Repair::positions}, Member{"tuples", &Repair::tuples}, Member{"more", &Repair::more},
    Member{"outage", &Repair::outage}, Member{"question", &Repair::question}, Member{"work", &Repair::work}};
template <>
inline constexpr auto members<BlockedRemedy> = std::tuple{
    Member{"position", &BlockedRemedy::position}, Member{"part", &BlockedRemedy::part},
    Member{"cures", &BlockedRemedy::cures}, Member{"reason", &BlockedRemedy::reason}};
template <>
inline constexpr auto members<RuledOut> = std::tuple{
    Member{"position", &RuledOut::position}, Member{"removed_by", &RuledOut::removed_by, "rule", "count"},
    Member{"nearest_miss", &RuledOut::nearest_miss}};
template <>
inline constexpr auto members<Alternatives> = std::tuple{
    Member{"keep", &Alternatives::keep}, Member{"release", &Alternatives::release},
    Member{"undecided", &Alternatives::undecided}, Member{"blocked", &Alternatives::blocked},
    Member{"ruled_out", &Alternatives::ruled_out}, Member{"keep_blockers", &Alternatives::keep_blockers},
    Member{"release_blockers", &Alternatives::release_blockers}, Member{"keep_searched", &Alternatives::keep_searched},
    Member{"release_searched", &Alternatives::release_searched}, Member{"needed", &Alternatives::needed},
    Member{"fits_as_it_was", &Alternatives::fits_as_it_was},
    Member{"complete_up_to", &Alternatives::complete_up_to}, Member{"checks", &Alternatives::checks}};
template <>
inline constexpr auto members<Certificate> = std::tuple{
    Member{"kind", &Certificate::kind}, Member{"wiring", &Certificate::wiring, "duty", "output"},
    Member{"settings", &Certificate::settings, "setting", "value"}, Member{"facts", &Certificate::facts, "fact", "value"},
    Member{"rules", &Certificate::rules}};
template <>
inline constexpr auto members<Verdict> = std::tuple{
    Member{"outcome", &Verdict::outcome}, Member{"proved", &Verdict::proved}, Member{"once_measured", &Verdict::once_measured},
    Member{"answer", &Verdict::answer},
    Member{"reason", &Verdict::reason}, Member{"before", &Verdict::before}, Member{"findings", &Verdict::findings},
    Member{"site_work", &Verdict::site_work}, Member{"once_site_work_is_done", &Verdict::once_site_work_is_done},
    Member{"if_assumed", &Verdict::if_assumed}, Member{"assumptions", &Verdict::assumptions},
    Member{"works", &Verdict::works}, Member{"wiring", &Verdict::wiring, "duty", "output"},
    Member{"settings", &Verdict::settings, "setting", "window"}, Member{"questions", &Verdict::questions},
    Member{"packs", &Verdict::packs}, Member{"cautions", &Verdict::cautions}, Member{"changes", &Verdict::changes},
    Member{"remarks", &Verdict::remarks}, Member{"shifts", &Verdict::shifts},
    Member{"differences", &Verdict::differences}, Member{"work", &Verdict::work},
    Member{"ask_always", &Verdict::ask_always}, Member{"certificate", &Verdict::certificate}};


std::string render_json(Verdict const& verdict, std::optional<Alternatives> const& alternatives) {
    return document("verdict", [&](JsonWriter& json) {
        put_members(json, verdict);
        member(json, "alternatives", alternatives);
    });
}

std::string render_json(Alternatives const& alternatives) {
    return document("alternatives", [&](JsonWriter& json) { put_members(json, alternatives); });
}

}  // namespace levelswap
