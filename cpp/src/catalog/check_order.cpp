#include "read_facts.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

namespace levelswap::reading {

namespace {

/// What must be so between two facts of one owner, whatever values they have.
struct Order {
    Attribute first, second;
    enum class Kind { below, not_above, within } kind;
    std::string_view words;   ///< between the two names
};
constexpr Order orders[] = {
    {Attribute::stop_low, Attribute::stop_high, Order::Kind::below, "must lie below"},
    {Attribute::visible_low, Attribute::visible_high, Order::Kind::below, "must lie below"},
    {Attribute::lpwl, Attribute::nwl, Order::Kind::not_above, "must not lie above"},
    {Attribute::bottom, Attribute::lpwl, Order::Kind::below, "must lie below"},
    {Attribute::bottom, Attribute::nwl, Order::Kind::below, "must lie below"},
    {Attribute::stop_low, Attribute::rest, Order::Kind::not_above, "must not lie above"},
    {Attribute::rest, Attribute::stop_high, Order::Kind::not_above, "must not lie above"},
    {Attribute::mawp, Attribute::hydrotest, Order::Kind::not_above, "must not be above"},
    {Attribute::mounting, Attribute::mounting_may_be, Order::Kind::within, "must lie within"},
    {Attribute::trip, Attribute::reset, Order::Kind::not_above, "(as the water falls) must not lie above"},
    {Attribute::trip_at_mark, Attribute::reset_at_mark, Order::Kind::not_above, "(as the water falls) must not lie above"},
    {Attribute::end_low, Attribute::end_high, Order::Kind::below, "must lie below"},
    {Attribute::set_low, Attribute::set_high, Order::Kind::not_above, "must not lie above"},
    {Attribute::range_low, Attribute::range_high, Order::Kind::below, "must lie below"},
    {Attribute::calibrated_low, Attribute::calibrated_high, Order::Kind::below, "must lie below"},
    {Attribute::least_differential, Attribute::most_differential, Order::Kind::not_above, "must not lie above"},
    {Attribute::least_ambient, Attribute::most_ambient, Order::Kind::below, "must lie below"},
    {Attribute::motor_running, Attribute::motor_locked, Order::Kind::not_above, "must not lie above"},
    {Attribute::load_motor_running, Attribute::load_motor_locked, Order::Kind::not_above, "must not lie above"},
    {Attribute::coil_holding, Attribute::coil_inrush, Order::Kind::not_above, "must not lie above"},
    {Attribute::pump_pressure, Attribute::shut_off, Order::Kind::not_above, "must not lie above"},
    {Attribute::least_evaporation, Attribute::evaporation, Order::Kind::not_above, "must not lie above"},
    {Attribute::working_pressure, Attribute::mawp, Order::Kind::not_above, "must not lie above"},
};

/// Only what no value of either can satisfy: a tolerance that overlaps may still be right. Of what varies every value
/// occurs.
bool contradicts(Order const& order, Fact const& x, Fact const& y) {
    double const reached = surely_reaches(x), left = y.nature == Fact::Nature::varying ? y.lo : y.hi;
    switch (order.kind) {
        case Order::Kind::below: return reached >= left;
        case Order::Kind::not_above: return reached > left;
        case Order::Kind::within: return x.hi < y.lo || x.lo > y.hi;
    }
    return false;
}

/// A drum ends at its diameter above its bottom: a working level above that is a slip of the pen.
void check_drum(FileReader& reader, FactTable const& table, std::string_view what) {
    Fact const *bottom = table.find(Attribute::bottom), *diameter = table.find(Attribute::drum_diameter), *level = table.find(Attribute::nwl);
    if (!stated(bottom) || !stated(diameter) || !stated(level) || bottom->hi + diameter->hi >= level->lo) return;
    reader.clash("LS-C016", level->origin->where, reader.document(), diameter->origin->where,
                 fmt::format("\"nwl\" ({}) must not lie above the top of the drum, \"bottom\" ({}) and \"drum.diameter\" ({}) together, of {}",
                             document::shown_text(level->origin->text), document::shown_text(bottom->origin->text),
                             document::shown_text(diameter->origin->text), what),
                 "check the three figures, their signs and their units; heights are above the vessel datum");
}

/// What is screwed into the vessel itself has nothing between that could be shut.
void check_valves(FileReader& reader, FactTable const& table, std::string_view what) {
    Fact const *piping = table.find(Attribute::piping), *valves = table.find(Attribute::isolating_valves);
    if (!piping || !piping->origin || piping->nature != Fact::Nature::none || !stated(valves)) return;
    if ((valves->may >> find_choice(row_of(Attribute::isolating_valves).choices, "none") & 1u) != 0) return;
    reader.clash("LS-C016", valves->origin->where, reader.document(), piping->origin->where,
                 fmt::format("\"isolating_valves\" ({}) of {}, which has no \"piping\" that they could stand in", document::shown_text(valves->origin->text), what),
                 "where a valve stands between, the piping is close or piped; where there is none, the valves are none");
}

}  // namespace

void check_order(FileReader& reader, FactTable const& table, std::string_view what) {
    auto const& file = reader.document().file;
    document::Document const elsewhere;
    for (Order const& order : orders) {
        Fact const *x = table.find(order.first), *y = table.find(order.second);
        if (!stated(x) || !stated(y) || !contradicts(order, *x, *y)) continue;
        bool const x_here = x->origin->where.file == file, y_here = y->origin->where.file == file;
        if (!x_here && !y_here) continue;
        Fact const& at = y_here ? *y : *x;
        Fact const& also = y_here ? *x : *y;
        reader.clash("LS-C016", at.origin->where, x_here && y_here ? reader.document() : elsewhere, also.origin->where,
                     fmt::format("\"{}\" ({}) {} \"{}\" ({}) of {}", row_of(order.first).name, document::shown_text(x->origin->text),
                                 order.words, row_of(order.second).name, document::shown_text(y->origin->text), what),
                     "check both figures and their units; one of them is wrong");
    }
    check_drum(reader, table, what);
    check_valves(reader, table, what);
    if (Fact const* strays = table.find(Attribute::repeatability);
        stated(strays) && strays->nature == Fact::Nature::varying && strays->lo != -strays->hi && strays->origin->where.file == file)
        reader.problem("LS-C006", strays->origin->where, fmt::format("\"repeatability\" ({}) of {} is not the same to both sides", document::shown_text(strays->origin->text), what),
                       "a band around the level, such as ~ +/- 2 mm", "shift the levels at which it trips and resets to the middle of the band");
}

}  // namespace levelswap::reading
