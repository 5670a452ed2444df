#pragma once

// The members of a sheet and of its walk that cross into Python.

#include "levelswap/engine/sheet.hpp"
#include "shapes.hpp"

namespace levelswap::bindings {

#define LEVELSWAP_SHAPE(type, ...)                                     \
    template <>                                                        \
    struct Shape<type> {                                               \
        static constexpr auto members = std::make_tuple(__VA_ARGS__);  \
    };

LEVELSWAP_SHAPE(WalkEvent, &WalkEvent::phase, &WalkEvent::event, &WalkEvent::effect, &WalkEvent::duty,
                &WalkEvent::level, &WalkEvent::in_glass, &WalkEvent::nominal, &WalkEvent::lowest,
                &WalkEvent::highest)
LEVELSWAP_SHAPE(ValvePoint, &ValvePoint::opening, &ValvePoint::level)
LEVELSWAP_SHAPE(LevelWalk, &LevelWalk::events, &LevelWalk::valve, &LevelWalk::valve_band, &LevelWalk::faults,
                &LevelWalk::glass)
LEVELSWAP_SHAPE(SheetLevel, &SheetLevel::duty, &SheetLevel::output, &SheetLevel::part, &SheetLevel::falling,
                &SheetLevel::rising, &SheetLevel::old_falling, &SheetLevel::old_rising, &SheetLevel::in_glass)
LEVELSWAP_SHAPE(SheetMounting, &SheetMounting::station, &SheetMounting::now, &SheetMounting::window,
                &SheetMounting::action)
LEVELSWAP_SHAPE(SheetCircuit, &SheetCircuit::duty, &SheetCircuit::output, &SheetCircuit::contact,
                &SheetCircuit::terminals, &SheetCircuit::circuit, &SheetCircuit::supply, &SheetCircuit::load, &SheetCircuit::rating,
                &SheetCircuit::protection)
LEVELSWAP_SHAPE(SheetState, &SheetState::duty, &SheetState::wet, &SheetState::dry, &SheetState::unpowered,
                &SheetState::float_sunk, &SheetState::float_stuck, &SheetState::wire_open, &SheetState::wire_shorted, &SheetState::reset,
                &SheetState::after_power_loss, &SheetState::held_reset)
LEVELSWAP_SHAPE(SheetCheck, &SheetCheck::text, &SheetCheck::expected, &SheetCheck::blank)
LEVELSWAP_SHAPE(SheetStep, &SheetStep::number, &SheetStep::title, &SheetStep::checks)
LEVELSWAP_SHAPE(SheetCaution, &SheetCaution::work, &SheetCaution::text)
LEVELSWAP_SHAPE(Sheet, &Sheet::outcome, &Sheet::answer, &Sheet::reason, &Sheet::site, &Sheet::datum,
                &Sheet::changes, &Sheet::levels, &Sheet::mountings, &Sheet::wiring, &Sheet::states,
                &Sheet::differences, &Sheet::fixed, &Sheet::adjustments, &Sheet::consumables, &Sheet::packs, &Sheet::steps, &Sheet::abort_rule,
                &Sheet::cautions, &Sheet::wrong, &Sheet::questions, &Sheet::walk)

#undef LEVELSWAP_SHAPE

}  // namespace levelswap::bindings
