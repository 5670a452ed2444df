#include "levelswap/catalog/attribute.hpp"

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

std::string_view choice_word(AttributeRow const& row, int bit) {
    std::string_view rest = row.choices;
    for (; bit > 0; --bit) rest.remove_prefix(rest.find('|') + 1);
    return rest.substr(0, rest.find('|'));
}

int choice_count(AttributeRow const& row) {
    if (row.choices.empty()) return 0;
    int count = 1;
    for (char c : row.choices) count += c == '|';
    return count;
}

int slot_of(Owner owner, Attribute attribute) {
    return slot_map.slot[static_cast<int>(owner)][static_cast<int>(attribute)];
}
int slot_count(Owner owner) { return slot_map.size[static_cast<int>(owner)]; }

}  // namespace levelswap
