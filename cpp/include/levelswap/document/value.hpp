#pragma once

#include "levelswap/base/dimension.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace levelswap::document {

/// A closed range of whole quanta.
struct Range {
    std::int64_t lo = 0;
    std::int64_t hi = 0;
    friend bool operator==(Range const&, Range const&) = default;
};

/// A number as a file states it: `7.5 in`, `7.5in +/- .02in`, `2.4 in .. 2.6 in`,
/// `at least 3 in`, `at most 3 in`, `unknown`, `none`; a leading `~` says that all
/// values of the range occur (varying) rather than one of them (uncertain).
struct Value {
    enum class Nature : std::uint8_t { uncertain, varying, unknown, none };
    Nature nature = Nature::unknown;
    std::optional<std::int64_t> lo;  ///< absent for `at most` and unknown
    std::optional<std::int64_t> hi;  ///< absent for `at least` and unknown
};

/// What is wrong with a value, with the part of the text that is at fault.
struct ValueProblem {
    std::string code;
    std::string message;
    std::string expected;
    std::string hint;
    int offset = 0;  ///< first character at fault
    int length = 1;
};

/// Reads `text` as a number of the given dimension, nearest whole quantum.
/// Returns the value, or fills `problem` and returns nothing.
std::optional<Value> read_value(std::string_view text, Dimension dimension, ValueProblem& problem);

/// The units accepted for a dimension, as listed in messages and in the schema: "in, ft, mm, ...".
std::string accepted_units(Dimension dimension);

/// A unit word, its dimension, and its size: value_si = number * scale + offset.
struct UnitRow {
    std::string_view word;
    Dimension dimension;
    double scale;
    double offset;
};
struct UnitTable {
    UnitRow const* rows;
    std::size_t count;
};
UnitTable units();

enum class UnitSystem : std::uint8_t { us, si };

/// `quanta` in a unit a fitter uses (us: in, psi(g), degF, lb; si: mm, bar(g), degC, kg),
/// rounded to `digits` significant figures, for example "7.5 in".
std::string format_quanta(double quanta, Dimension dimension, UnitSystem system, int digits = 4);

}  // namespace levelswap::document
