#include "levelswap/catalog/fact.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace levelswap {

namespace {

using Point = std::pair<double, double>;

/// The rating at one temperature on the straight line between two points. Rounding
/// must not lead beyond the two points: the line does not.
Interval between(Point const& cold, Point const& hot, double temperature) {
    Interval const along = (Interval{temperature} - cold.first) / (Interval{hot.first} - cold.first);
    Interval const value = Interval{cold.second} + (Interval{hot.second} - cold.second) * along;
    Interval const ends{std::min(cold.second, hot.second), std::max(cold.second, hot.second)};
    return {std::clamp(value.lo, ends.lo, ends.hi), std::clamp(value.hi, ends.lo, ends.hi)};
}

Interval at_one(std::vector<Point> const& points, double temperature) {
    auto const hotter = std::lower_bound(points.begin(), points.end(), temperature,
                                         [](Point const& p, double t) { return p.first < t; });
    if (hotter == points.end()) return 0.0;
    if (hotter == points.begin() || hotter->first == temperature) return hotter->second;
    return between(*std::prev(hotter), *hotter, temperature);
}

std::uint64_t all_bits(AttributeRow const& row) { return (std::uint64_t{1} << choice_count(row)) - 1; }

bool same_curve(Fact const& x, Fact const& y) {
    return x.curve == y.curve || (x.curve && y.curve && *x.curve == *y.curve);
}

/// What every owner starts with, made once: a catalogue copies it for each part.
std::vector<Fact> const& unknown_facts(Owner owner) {
    static std::array<std::vector<Fact>, owner_count> const tables = [] {
        std::array<std::vector<Fact>, owner_count> made;
        for (int o = 0; o < owner_count; ++o)
            for (AttributeRow const& row : attributes())
                if (belongs(row, static_cast<Owner>(o)))
                    made[static_cast<std::size_t>(o)].push_back(unknown_fact(row.id));
        return made;
    }();
    return tables[static_cast<std::size_t>(owner)];
}

}  // namespace

// A piecewise straight line is least and greatest at the ends of the interval or
// at a point inside it; the drop to 0 lies behind the hottest point.
Interval Curve::at(Interval temperature) const {
    Interval found = hull(at_one(points, temperature.lo), at_one(points, temperature.hi));
    for (Point const& p : points)
        if (temperature.contains(p.first)) found = hull(found, p.second);
    return found;
}

bool Fact::same_for_rules(Fact const& other) const {
    return nature == other.nature && lo == other.lo && hi == other.hi && must == other.must &&
           may == other.may && reference == other.reference && same_curve(*this, other);
}

Fact unknown_fact(Attribute attribute) {
    AttributeRow const& row = row_of(attribute);
    Fact fact;
    if (row.kind == ValueKind::quantity) {
        double const scale = detail::quanta_per_si(row.dimension);
        fact.lo = std::round(row.least * scale);
        fact.hi = std::round(row.most * scale);
    } else if (row.kind == ValueKind::choice || row.kind == ValueKind::set) {
        fact.may = all_bits(row);
    }
    return fact;
}

FactTable::FactTable(Owner owner) : owner_(owner), facts_(unknown_facts(owner)) {}

void FactTable::set(Attribute attribute, Fact fact) {
    int const slot = slot_of(owner_, attribute);
    if (slot < 0) {
        throw UsageError(std::string(name_of(owner_)) + " has no attribute \"" + std::string(row_of(attribute).name) +
                         "\"");
    }
    facts_[static_cast<std::size_t>(slot)] = std::move(fact);
}

}  // namespace levelswap
