#pragma once

#include "levelswap/base/dimension.hpp"

#include <cstdint>
#include <span>
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

/// Count, ratio and money are plain numbers.
bool takes_plain_numbers(Dimension dimension);

}  // namespace levelswap::document
