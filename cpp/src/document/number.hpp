#pragma once

#include "units.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace levelswap::document {

__extension__ typedef __int128 Wide;  // the only type in reach that holds every product exactly

/// A decimal or a fraction, exactly as written. The divisor is positive.
struct Rational {
    Wide numerator = 0;
    Wide divisor = 1;
};

/// A number of quanta: the whole part exactly, the rest in [0, 1).
struct ExactQuanta {
    Wide whole = 0;
    long double rest = 0;
};

struct NumberProblem {
    std::string_view code;
    std::string_view at;  ///< the part of the text at fault
    std::string message;
    std::string hint;
};

/// Reads the number at the start of `rest` and moves `rest` behind it, or fills `problem`.
std::optional<Rational> read_number(std::string_view& rest, NumberProblem& problem);

/// True for a number without a fractional part.
bool is_whole(Rational number);

ExactQuanta to_quanta(Rational number, ExactUnit const& unit);
ExactQuanta operator+(ExactQuanta x, ExactQuanta y);
ExactQuanta operator-(ExactQuanta x);

/// The nearest whole quantum, halves away from zero; nothing beyond 2^53, up
/// to which a double holds every whole number.
std::optional<std::int64_t> nearest_quantum(ExactQuanta quanta);

}  // namespace levelswap::document
