#include "level_words.hpp"

#include "levelswap/document/value.hpp"

#include <cmath>

namespace levelswap {

namespace {

document::UnitSystem system_of(Units units) {
    return units == Units::us ? document::UnitSystem::us : document::UnitSystem::si;
}

}  // namespace

bool is_known(Interval level) { return level.width() < 4e9; }  // 4 m: no level of a boiler spreads that far

double LevelWords::step() const { return units_ == Units::us ? 254'000 : 1'000'000; }

std::string LevelWords::at(double nm) const {
    return document::format_quanta(std::round(nm / step()) * step(), Dimension::length, system_of(units_), 6);
}

std::string LevelWords::range(Interval nm) const {
    if (nm.is_point()) return at(nm.lo);
    // A level that lies on a step within a nanometre is not moved by the rounding of the sums before it.
    double const low = std::floor((nm.lo + 1) / step()) * step(), high = std::ceil((nm.hi - 1) / step()) * step();
    return low >= high ? at(low) : at(low) + " to " + at(high);
}

std::string LevelWords::level(double nominal, Interval nm) const {
    if (!is_known(nm)) return "not known";
    return nm.width() < step() / 2 ? at(nominal) : at(nominal) + " (" + range(nm) + ")";
}

std::string LevelWords::quantity(Interval q, Dimension d) const {
    auto const low = document::format_quanta(q.lo, d, system_of(units_), 4);
    auto const high = document::format_quanta(q.hi, d, system_of(units_), 4);
    return low == high ? low : low + " to " + high;
}

}  // namespace levelswap
