#include "json_members.hpp"
#include "levelswap/engine/sheet.hpp"

namespace levelswap {

/// What each struct of a sheet shows, in this order.
template <>
inline constexpr auto members<SheetLevel> = std::tuple{
    Member{"duty", &SheetLevel::duty}, Member{"output", &SheetLevel::output}, Member{"part", &SheetLevel::part},
    Member{"falling", &SheetLevel::falling}, Member{"rising", &SheetLevel::rising},
    Member{"old_falling", &SheetLevel::old_falling}, Member{"old_rising", &SheetLevel::old_rising},
    Member{"in_glass", &SheetLevel::in_glass}};
template <>
inline constexpr auto members<SheetMounting> = std::tuple{
    Member{"station", &SheetMounting::station}, Member{"now", &SheetMounting::now},
    Member{"window", &SheetMounting::window}, Member{"action", &SheetMounting::action}};
template <>
inline constexpr auto members<SheetCircuit> = std::tuple{
    Member{"duty", &SheetCircuit::duty}, Member{"output", &SheetCircuit::output},
    Member{"contact", &SheetCircuit::contact}, Member{"terminals", &SheetCircuit::terminals},
    Member{"circuit", &SheetCircuit::circuit},
    Member{"supply", &SheetCircuit::supply}, Member{"load", &SheetCircuit::load},
    Member{"rating", &SheetCircuit::rating}, Member{"protection", &SheetCircuit::protection}};
template <>
inline constexpr auto members<SheetState> = std::tuple{
    Member{"duty", &SheetState::duty}, Member{"wet", &SheetState::wet}, Member{"dry", &SheetState::dry},
    Member{"unpowered", &SheetState::unpowered}, Member{"float_sunk", &SheetState::float_sunk},
    Member{"float_stuck", &SheetState::float_stuck}, Member{"wire_open", &SheetState::wire_open},
    Member{"wire_shorted", &SheetState::wire_shorted}, Member{"reset", &SheetState::reset},
    Member{"after_power_loss", &SheetState::after_power_loss}, Member{"held_reset", &SheetState::held_reset}};
template <>
inline constexpr auto members<SheetCheck> = std::tuple{
    Member{"text", &SheetCheck::text}, Member{"expected", &SheetCheck::expected},
    Member{"blank", &SheetCheck::blank}};
template <>
inline constexpr auto members<SheetStep> = std::tuple{
    Member{"number", &SheetStep::number}, Member{"title", &SheetStep::title}, Member{"checks", &SheetStep::checks}};
template <>
inline constexpr auto members<SheetCaution> = std::tuple{
    Member{"work", &SheetCaution::work}, Member{"text", &SheetCaution::text}};
template <>
inline constexpr auto members<ValvePoint> = std::tuple{
    Member{"opening", &ValvePoint::opening}, Member{"level", &ValvePoint::level}};
template <>
inline constexpr auto members<WalkEvent> = std::tuple{
    Member{"phase", &WalkEvent::phase}, Member{"event", &WalkEvent::event}, Member{"effect", &WalkEvent::effect},
    Member{"duty", &WalkEvent::duty}, Member{"level", &WalkEvent::level}, Member{"in_glass", &WalkEvent::in_glass},
    Member{"nominal", &WalkEvent::nominal}, Member{"lowest", &WalkEvent::lowest},
    Member{"highest", &WalkEvent::highest}};
template <>
inline constexpr auto members<LevelWalk> = std::tuple{
    Member{"glass", &LevelWalk::glass}, Member{"events", &LevelWalk::events}, Member{"valve", &LevelWalk::valve},
    Member{"valve_band", &LevelWalk::valve_band}, Member{"faults", &LevelWalk::faults}};
template <>
inline constexpr auto members<Sheet> = std::tuple{
    Member{"outcome", &Sheet::outcome}, Member{"answer", &Sheet::answer}, Member{"reason", &Sheet::reason},
    Member{"site", &Sheet::site}, Member{"datum", &Sheet::datum}, Member{"changes", &Sheet::changes},
    Member{"levels", &Sheet::levels}, Member{"mountings", &Sheet::mountings}, Member{"wiring", &Sheet::wiring},
    Member{"states", &Sheet::states}, Member{"differences", &Sheet::differences}, Member{"fixed", &Sheet::fixed},
    Member{"adjustments", &Sheet::adjustments}, Member{"consumables", &Sheet::consumables}, Member{"packs", &Sheet::packs}, Member{"steps", &Sheet::steps},
    Member{"abort_rule", &Sheet::abort_rule}, Member{"cautions", &Sheet::cautions}, Member{"wrong", &Sheet::wrong},
    Member{"questions", &Sheet::questions}, Member{"walk", &Sheet::walk}};

std::string render_json(Sheet const& sheet) {
    return document("sheet", [&](JsonWriter& json) { put_members(json, sheet); });
}

}  // namespace levelswap
