#pragma once

#include "levelswap/base/dimension.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace levelswap::document {

/// A unit as exact whole numbers: quanta = (number * scale + offset) / divisor.
/// So 1/64 in is exactly 396875 nm, and no decimal is rounded on its way in.
struct ExactUnit {
    std::string_view word;
    Dimension dimension;
    std::int64_t scale;
    std::int64_t offset;
    std::int64_t divisor;
};

std::span<ExactUnit const> exact_units();

/// The row of `word` in `dimension`, or null.
ExactUnit const* find_unit(std::string_view word, Dimension dimension);

/// The first row of `word` in any dimension, or null.
ExactUnit const* find_unit(std::string_view word);

/// The unit that a written value ends with; the plain number where there is none; null when neither is possible.
ExactUnit const* unit_in(std::string_view text, Dimension dimension);

/// `quanta` in a unit, rounded to `digits` significant figures.
std::string format_in(double quanta, ExactUnit const& unit, int digits = 4);

/// Count, ratio and money are plain numbers.
bool takes_plain_numbers(Dimension dimension);

}  // namespace levelswap::document
