#pragma once

#include "levelswap/base/dimension.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace levelswap {

/// Whose fact an attribute is. Kinds of part come first, then the output of a
/// part, then what belongs to the site.
enum class Owner : std::uint8_t {
    float_head, float_half, switch_half, column, float_, switch_set, gauge_glass,
    contactor, relay, converter, transformer,
    probe_holder, probe_relay, transmitter, float_control, float_valve,
    solenoid_valve, reducing_valve, feed_valve, actuator, pump,
    output, vessel, station, circuit, line,
};
inline constexpr int kind_count = static_cast<int>(Owner::pump) + 1;
inline constexpr int owner_count = static_cast<int>(Owner::line) + 1;

std::string_view name_of(Owner owner);
std::optional<Owner> find_kind(std::string_view name);
/// Parts of these kinds have outputs.
constexpr bool has_outputs(Owner kind) {
    using enum Owner;
    return kind == switch_set || kind == probe_relay || kind == transmitter || kind == float_control || kind == float_valve;
}

using OwnerSet = std::uint32_t;
constexpr OwnerSet owners(auto... owner) { return ((1u << static_cast<int>(owner)) | ...); }

enum class ValueKind : std::uint8_t { quantity, choice, set, curve, reference };

/// One declared attribute: the single source for the reader, the schema, the
/// key page and the questions.
enum class Attribute : std::uint8_t {
#define LEVELSWAP_ATTRIBUTE(id, ...) id,
#include "levelswap/catalog/attribute_list.inc"
#undef LEVELSWAP_ATTRIBUTE
};

struct AttributeRow {
    Attribute id;
    std::string_view name;      ///< dotted path in the file, "flange.circle"
    OwnerSet owners;
    ValueKind kind;
    Dimension dimension;        ///< of a quantity
    double least;               ///< physical domain in the SI unit
    double most;
    std::string_view choices;   ///< "a|b|c" of a choice or a set
    std::string_view meaning;   ///< in words, as printed
    std::string_view measured;  ///< who can find it out, and how
};

namespace detail {
using enum Owner;
using enum ValueKind;
inline constexpr AttributeRow attribute_rows[] = {
#define LEVELSWAP_ATTRIBUTE(id, ...) AttributeRow{Attribute::id, __VA_ARGS__},
#include "levelswap/catalog/attribute_list.inc"
#undef LEVELSWAP_ATTRIBUTE
};
}  // namespace detail

inline constexpr int attribute_count = static_cast<int>(std::size(detail::attribute_rows));

constexpr AttributeRow const& row_of(Attribute attribute) {
    return detail::attribute_rows[static_cast<int>(attribute)];
}
constexpr bool belongs(AttributeRow const& row, Owner owner) {
    return (row.owners >> static_cast<int>(owner)) & 1u;
}
std::span<AttributeRow const> attributes();

/// The bit of a choice word, or −1.
constexpr int find_choice(std::string_view choices, std::string_view word) {
    int index = 0;
    while (!choices.empty()) {
        auto const bar = choices.find('|');
        if (choices.substr(0, bar) == word) return index;
        if (bar == std::string_view::npos) break;
        choices.remove_prefix(bar + 1);
        ++index;
    }
    return -1;
}
std::string_view choice_word(AttributeRow const& row, int bit);
int choice_count(AttributeRow const& row);

/// Where an owner keeps an attribute among its facts, or −1 when it has none.
int slot_of(Owner owner, Attribute attribute);
int slot_count(Owner owner);

}  // namespace levelswap
