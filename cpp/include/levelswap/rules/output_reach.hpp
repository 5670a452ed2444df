#pragma once

#include "levelswap/physics/swing.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap {

/// How far the float carries one output, and what stops it: the arc that travel.contact and travel.slide_wire judge,
/// told apart by direction and without any figure of practice.
struct OutputReach {
    bool known = false;              ///< head, column and float are there and the float's form is known
    Truth falling = Truth::holds;    ///< falling water brings it to its trip, or to the low end of a slide-wire
    Truth rising = Truth::holds;     ///< rising water brings it to its reset, or to the high end
    physics::Obstacle low_by = physics::Obstacle::none;
    physics::Obstacle high_by = physics::Obstacle::none;
    Interval lowest{0};              ///< share of a slide-wire's stroke, by angle: how near to its low end it comes
    Interval highest{1};             ///< and to its high end
};

/// What output_reach reads.
std::span<Slot const> output_reach_slots();

/// `operands` stand in the order of output_reach_slots.
OutputReach output_reach(Operands const& operands);

}  // namespace levelswap
