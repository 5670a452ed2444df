#include "levelswap/catalog/part.hpp"

#include <algorithm>
#include <iterator>

namespace levelswap {

namespace {

using D = Dimension;
using A = FigureKind::Asks;

// In the order of the enumeration. Yes/no figures are ratios: yes is 1.
constexpr FigureKind figure_kinds[] = {
    {"lift_factor", D::ratio, 1, "the float lifts this many times what moves the outputs", A::at_least},
    {"sink_factor", D::ratio, 1, "the float pulls down this many times what moves the outputs", A::at_least},
    {"side_clearance", D::length, 0, "gap between the float and the chamber, all round", A::at_least},
    {"overtravel", D::angle, 0, "bay travel left beyond each trip and reset", A::at_least},
    {"separation", D::length, 0, "height between two levels that act one after the other", A::at_least},
    {"cut_off_above_visible", D::length, 0, "cut-off level above the lowest visible part of the glass", A::at_least},
    {"glass_over_lpwl", D::length, 0, "lowest visible part of the glass above the lowest permissible level", A::at_least},
    {"supply_under", D::ratio, 0, "part of the rated coil voltage by which the supply may fall short", A::allowance},
    {"supply_over", D::ratio, 0, "part of the rated coil voltage by which the supply may exceed it", A::allowance},
    {"cut_offs", D::count, 0, "number of low-water cut-offs", A::at_least},
    {"secondary_manual_reset", D::ratio, 1, "the secondary cut-off needs a manual reset", A::yes_or_no},
    {"primary_automatic_reset", D::ratio, 0, "the primary cut-off needs an automatic reset", A::yes_or_no},
    {"relay_in_fuel_chain", D::ratio, 0, "a listed relay may stand in the fuel chain", A::yes_or_no},
    {"float_valve_factor", D::ratio, 1, "a float valve shuts against this many times the force of the water on its seat", A::at_least},
    {"pump_flow_factor", D::ratio, 1, "a feed pump delivers this many times the demand", A::at_least},
    {"pump_pressure_factor", D::ratio, 1, "a feed pump feeds against this many times the highest safety-valve setting", A::at_least},
    {"npsh_margin", D::length, 0, "suction head left over what a pump needs", A::at_least},
    {"opening_least", D::ratio, 0, "opening of a feed valve at full demand, at least", A::at_least},
    {"opening_most", D::ratio, 1, "opening of a feed valve at full demand, at most", A::at_most},
    {"feed_may_open", D::ratio, 1, "a feed valve may open when its signal is lost", A::yes_or_no},
    {"mercury_allowed", D::ratio, 1, "parts that contain mercury may be put in", A::yes_or_no},
    {"unlike_principles", D::ratio, 0, "no two cut-offs may tell the level by the same principle", A::yes_or_no},
    {"delay_margin", D::length, 0, "height left over after the delay of a cut-off", A::at_least},
    {"coil_margin", D::ratio, 1, "a contact or transformer is good for this many times the coil load", A::at_least},
    {"probe_margin", D::ratio, 1, "threshold of a probe relay over the water's resistance, and under that of a film", A::at_least},
    {"rod_clearance", D::length, 0, "gap from a probe rod to wall, floor and the other rods", A::at_least},
    {"level_error", D::length, 0, "error of a level transmitter away from its calibration", A::at_least},
    {"locked_open_valves", D::ratio, 0, "shut-off valves before a cut-off are permitted when locked open", A::yes_or_no},
    {"drain_size", D::length, 0, "nominal size of the drain of a float chamber", A::at_least},
    {"equalizing_size", D::length, 0, "nominal size of the equalizing connections", A::at_least},
    {"", D::ratio, 0, "no figure", A::at_least},
};
static_assert(std::size(figure_kinds) == static_cast<std::size_t>(Figure::none) + 1);
static_assert(std::ranges::none_of(figure_kinds, [](FigureKind const& f) { return f.asks == A::not_said; }));

}  // namespace

FigureKind const& row_of(Figure figure) { return figure_kinds[static_cast<int>(figure)]; }

std::optional<Figure> find_figure(std::string_view name) {
    for (int i = 0; i < static_cast<int>(Figure::none); ++i)
        if (figure_kinds[i].name == name) return static_cast<Figure>(i);
    return std::nullopt;
}

std::vector<std::string> figure_names() {
    std::vector<std::string> names;
    for (int i = 0; i < static_cast<int>(Figure::none); ++i) names.emplace_back(figure_kinds[i].name);
    return names;
}

int Catalog::find(std::string_view id) const {
    auto const at = std::lower_bound(parts.begin(), parts.end(), id,
                                     [](Part const& part, std::string_view sought) { return part.id < sought; });
    return at != parts.end() && at->id == id ? static_cast<int>(at - parts.begin()) : -1;
}

std::vector<std::string> Catalog::ids() const {
    std::vector<std::string> ids;
    ids.reserve(parts.size());
    for (Part const& part : parts) ids.push_back(part.id);
    return ids;
}

}  // namespace levelswap
