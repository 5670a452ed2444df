#include "levelswap/catalog/attribute.hpp"

#include <vector>

namespace levelswap {

namespace {

constexpr std::string_view owner_names[owner_count] = {
    "float_head", "float_half", "switch_half", "column", "float", "switch_set", "gauge_glass", "contactor",
    "relay", "converter", "transformer", "probe_holder", "probe_relay", "transmitter", "float_control", "float_valve",
    "solenoid_valve", "reducing_valve", "feed_valve", "actuator", "pump",
    "output", "vessel", "station", "circuit", "line"};

struct SlotMap {
    std::array<std::array<std::int16_t, attribute_count>, owner_count> slot{};
    std::array<int, owner_count> size{};
    constexpr SlotMap() {
        for (int o = 0; o < owner_count; ++o)
            for (int a = 0; a < attribute_count; ++a)
                slot[o][a] = belongs(detail::attribute_rows[a], static_cast<Owner>(o))
                                 ? static_cast<std::int16_t>(size[o]++)
                                 : static_cast<std::int16_t>(-1);
    }
};
constexpr SlotMap slot_map;

}  // namespace

std::string_view name_of(Owner owner) { return owner_names[static_cast<int>(owner)]; }

std::optional<Owner> find_kind(std::string_view name) {
    for (int i = 0; i < kind_count; ++i)
        if (owner_names[i] == name) return static_cast<Owner>(i);
    return std::nullopt;
}

std::span<AttributeRow const> attributes() { return detail::attribute_rows; }

namespace {

/// The words of every attribute, taken apart once.
std::vector<std::string_view> const& words_of(Attribute attribute) {
    static std::array<std::vector<std::string_view>, attribute_count> const words = [] {
        std::array<std::vector<std::string_view>, attribute_count> made;
        for (int a = 0; a < attribute_count; ++a)
            for (std::string_view rest = detail::attribute_rows[a].choices; !rest.empty();) {
                auto const bar = rest.find('|');
                made[static_cast<std::size_t>(a)].push_back(rest.substr(0, bar));
                rest.remove_prefix(bar == std::string_view::npos ? rest.size() : bar + 1);
            }
        return made;
    }();
    return words[static_cast<std::size_t>(attribute)];
}

}  // namespace

std::string_view choice_word(AttributeRow const& row, int bit) { return words_of(row.id)[static_cast<std::size_t>(bit)]; }

int choice_count(AttributeRow const& row) { return static_cast<int>(words_of(row.id).size()); }

int slot_of(Owner owner, Attribute attribute) {
    return slot_map.slot[static_cast<int>(owner)][static_cast<int>(attribute)];
}
int slot_count(Owner owner) { return slot_map.size[static_cast<int>(owner)]; }

}  // namespace levelswap
