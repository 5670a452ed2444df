#pragma once

#include "levelswap/rules/rule.hpp"

#include <optional>

namespace levelswap {

/// What physics asks of the distance between two levels, in nm, beside what a pack asks. Each result encloses the
/// value over the facts and over where the first level may be (`from`, nm above the vessel datum): in a drum on its
/// side the same water makes another difference of level low, in the middle and high. It is cut to `most_need`, which
/// no vessel has.
inline constexpr double most_need = 2e10;

/// How far the water falls from the trip level at full fire, or in a tank at full demand, until what has a delay has
/// acted: E·t/ρ of water gone, ρ that of the hottest water: at saturation at MAWP, or at its own temperature.
std::span<Slot const> delay_slots();
Interval fall_during_delay(Operands const& operands, Interval from);

/// How far pump-off must be above pump-on (`from`) so that the motor does not start more often than it stands, at the
/// worst take-off that occurs. Nothing where the line has no pump.
std::span<Slot const> cycling_slots();
std::optional<Interval> spacing_for_starts(Operands const& operands, Interval from);

/// How far make-up may rise from the level where it starts before the coldest make-up has cooled the tank to its least
/// temperature. What preheat gives meanwhile is left out. Nothing where no least temperature is asked.
std::span<Slot const> fill_slots();
std::optional<Interval> rise_by_cold_fill(Operands const& operands, Interval from);

/// What comes of two levels that are there already (nm above the datum), for telling what a refused assembly would do.
/// How often the pump starts at the worst take-off that is sure to occur, and how often its motor may. Nothing where
/// the line has no pump, or the second level is not above the first.
struct PumpStarts {
    StartRate starts, stands;
};
std::optional<PumpStarts> starts_between(Operands const& operands, Interval on, Interval off);

/// How warm the tank is when the coldest make-up has filled it at once, and how warm it has to stay. Nothing where no
/// least temperature is asked.
struct ColdFill {
    Temperature after, least;
};
std::optional<ColdFill> cooled_by_fill(Operands const& operands, Interval on, Interval off);

}  // namespace levelswap
