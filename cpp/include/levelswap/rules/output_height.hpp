#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap {

/// Where geometry puts the water level at which an output acts, above the face centre of its column:
/// z(θ) + e, the float's centre and the waterline above it. The waterline differs falling and rising by the
/// moment that moves the output and by the seal.
struct OutputHeight {
    bool known = false;       ///< head, column and float are there and the float's form is known
    Interval height{0};       ///< nm above the face centre
    Interval arm{0};          ///< m
    Interval base{0};         ///< rad: bay zero plus tilt, shared by all outputs of the head
    Interval travel{0};       ///< rad: arm angle from the bay's zero
    Interval waterline{0};    ///< nm above the float's centre
};

/// What output_height reads.
std::span<Slot const> output_height_slots();

enum class Acting : std::uint8_t { trip, reset, low_end, high_end };

/// `operands` stand in the order of output_height_slots.
OutputHeight output_height(Operands const& operands, Acting which);

/// Difference of two outputs' heights on the same head, in nm: what both share (arm, tilt, bay zero) enters once.
Interval height_difference(OutputHeight const& upper, OutputHeight const& lower);

}  // namespace levelswap
