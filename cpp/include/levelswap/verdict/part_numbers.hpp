#pragma once

#include "levelswap/verdict/judge.hpp"

#include <vector>

namespace levelswap {

/// A number for the part at a position: equal for parts that no rule of the site tells apart. The part that is
/// installed has a number of its own, since what was measured there is about it and its wires stay.
class PartNumbers {
public:
    explicit PartNumbers(Judge const& judge);
    [[nodiscard]] std::uint64_t of(std::size_t position, int part) const {
        if (part == nothing) return 0;
        return part == installed_[position] ? 1 : numbers_[static_cast<std::size_t>(part)];
    }
    /// Bits that every number goes into.
    [[nodiscard]] int bits() const { return bits_; }

private:
    Assignment installed_;
    std::vector<std::uint32_t> numbers_;   ///< by part
    int bits_ = 1;
};

}  // namespace levelswap
