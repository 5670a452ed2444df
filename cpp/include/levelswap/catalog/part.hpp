#pragma once

#include "levelswap/catalog/fact.hpp"

#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace levelswap {

/// An acting element of a switch set.
struct Output {
    std::string name;
    FactTable facts{Owner::output};
};

/// A generic description of a part: kind, facts, outputs. Its id is plain words.
struct Part {
    std::string id;
    Owner kind = Owner::float_head;
    std::string about;
    FactTable facts{Owner::float_head};
    std::vector<Output> outputs;
};

/// A figure that differs between codes or firms. Physics sets `neutral`, the value that adds nothing.
struct FigureKind {
    /// What a row of a pack may do to the rule. A row beyond `neutral` on the weak side would let pass what physics
    /// refuses, and is refused itself.
    enum class Asks : std::uint8_t {
        not_said,
        at_least,    ///< more than neutral asks for more; less than neutral is weak
        at_most,     ///< less than neutral asks for more; more than neutral is weak
        allowance,   ///< physics allows nothing; the row says how much is allowed
        yes_or_no,
    };
    std::string_view name;
    Dimension dimension;
    double neutral;  ///< in the SI unit
    std::string_view meaning;
    Asks asks;
};
enum class Figure : std::uint8_t {
    lift_factor, sink_factor, side_clearance, overtravel, separation, cut_off_above_visible, glass_over_lpwl,
    supply_under, supply_over, cut_offs, secondary_manual_reset, primary_automatic_reset, relay_in_fuel_chain,
    float_valve_factor, pump_flow_factor, pump_pressure_factor, npsh_margin, opening_least, opening_most, feed_may_open,
    mercury_allowed, unlike_principles, delay_margin, coil_margin,
    probe_margin, rod_clearance, level_error, locked_open_valves, drain_size, equalizing_size, none,
};
FigureKind const& row_of(Figure figure);
std::optional<Figure> find_figure(std::string_view name);
std::vector<std::string> figure_names();

/// Above `over`, and not above `at_most`; in quanta.
struct Bounds {
    double over = -std::numeric_limits<double>::infinity();
    double at_most = std::numeric_limits<double>::infinity();
    friend bool operator==(Bounds const&, Bounds const&) = default;
};

/// One row of a rule pack, with the clause it comes from and what it applies to.
struct PackRow {
    Figure figure = Figure::none;
    double value = 0;              ///< in quanta
    std::string clause;
    bool remembered = false;
    std::string because;
    std::uint64_t services = ~0ull, codes = ~0ull, kinds = ~0ull, firings = ~0ull;  ///< applies to
    Bounds mawp, heat_input;       ///< applies to boilers within, in Pa and in W
    std::string jurisdiction;      ///< applies to sites of this one; empty: to all
    std::string pack;
    SourceSpan where;
    std::string text;
};

/// A house rule: one attribute of one kind compared with a literal.
struct HouseRule {
    Owner kind = Owner::float_head;
    Attribute attribute = Attribute::cost;
    enum class Comparison : std::uint8_t { at_least, at_most, is, is_not } comparison = Comparison::at_least;
    Fact literal;                          ///< or
    std::optional<Attribute> other;        ///< another attribute, of the part itself or of the vessel
    bool other_of_vessel = false;
    std::string because;
    std::string pack;
    SourceSpan where;
    std::string text;
};

struct Pack {
    std::string name;
    std::string title;
    std::string edition;
    std::vector<PackRow> rows;
    std::vector<HouseRule> house;
};

/// All parts and rule packs that were read together, in order of id: independent of file order.
struct Catalog {
    std::vector<Part> parts;
    std::vector<Pack> packs;
    std::string directory;
    /// By part: the first part that is equal in every fact but the price (outputs by name and order included), so
    /// that a search tries one of each kind. Made by `index_parts`; empty in a catalogue put together by hand.
    std::vector<int> first_alike;

    [[nodiscard]] int find(std::string_view id) const;  ///< index, or −1
    [[nodiscard]] std::vector<std::string> ids() const;
};

/// Fills in `first_alike`: once a catalogue, for every site and search.
void index_parts(Catalog& catalog);

/// Reads `parts/*.yaml` and `packs/*.yaml` below `directory`. Raises DataError with every problem of every file.
Catalog read_catalog(std::string const& directory);

}  // namespace levelswap
