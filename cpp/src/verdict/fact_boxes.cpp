#include "fact_boxes.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace levelswap {

namespace {

Fact narrowed(Fact f) {
    f.nature = Fact::Nature::uncertain;
    return f;
}
Fact at_value(Fact f, double lo, double hi) {
    f.lo = lo;
    f.hi = hi;
    return narrowed(std::move(f));
}
Fact at_choice(Fact f, std::uint64_t bits, bool all_sure) {
    f.may = bits;
    f.must = all_sure ? bits : f.must & bits;
    return narrowed(std::move(f));
}
/// A rating that is the same at every temperature.
Fact at_rating(Fact f, double pressure) {
    auto curve = std::make_shared<Curve>();
    curve->points = {{0, pressure}, {2e6, pressure}};
    f.curve = std::move(curve);
    return narrowed(std::move(f));
}

}  // namespace

bool is_open(Fact const& f, Attribute attribute) {
    using N = Fact::Nature;
    if (f.nature != N::unknown && f.nature != N::uncertain) return false;
    switch (row_of(attribute).kind) {
        case ValueKind::quantity: return f.lo < f.hi;
        case ValueKind::choice: return (f.may & (f.may - 1)) != 0;
        case ValueKind::set: return f.must != f.may;
        case ValueKind::curve: return !f.curve;
        case ValueKind::reference: return false;   // a name that nobody knows is no value to choose
    }
    return false;
}

std::vector<Fact> points_of(Fact const& f, Attribute attribute) {
    std::vector<Fact> points;
    auto const& row = row_of(attribute);
    switch (row.kind) {
        case ValueKind::quantity: {
            std::vector<double> values = {std::floor(f.lo + 0.5 * (f.hi - f.lo)), f.lo, f.hi};
            if (f.lo > 0) values.push_back(std::clamp(std::floor(std::sqrt(f.lo * f.hi)), f.lo, f.hi));
            for (double const v : values) points.push_back(at_value(f, v, v));
            break;
        }
        case ValueKind::choice:
            for (std::uint64_t rest = f.may; rest; rest &= rest - 1) points.push_back(at_choice(f, rest & -rest, true));
            break;
        case ValueKind::set:
            points.push_back(at_choice(f, f.may, true));
            points.push_back(at_choice(f, f.must, true));
            break;
        case ValueKind::curve:
            for (double const pressure : {row.most, row.least}) points.push_back(at_rating(f, pressure));
            break;
        case ValueKind::reference: break;
    }
    return points;
}

std::vector<Fact> halves_of(Fact const& f, Attribute attribute) {
    switch (row_of(attribute).kind) {
        case ValueKind::quantity: {
            double const middle = std::floor(f.lo + 0.5 * (f.hi - f.lo));
            return {at_value(f, f.lo, middle), at_value(f, middle, f.hi)};
        }
        case ValueKind::choice: {
            std::uint64_t const first = f.may & -f.may;
            return {at_choice(f, first, true), at_choice(f, f.may & ~first, std::has_single_bit(f.may & ~first))};
        }
        default: return {};   // a list or a curve is not taken apart
    }
}

}  // namespace levelswap
