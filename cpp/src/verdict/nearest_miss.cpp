#include "levelswap/verdict/nearest_miss.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace levelswap {

namespace {

/// What a failing rule lacks as a share of what it asks: the worst of its comparisons; all of it where nothing is compared.
double shortfall(Judge const& judge, Assignment const& parts, Instance const& rule) {
    double worst = 0;
    if (!rule_table()[static_cast<std::size_t>(rule.rule)].body.recorded) return 1;
    for (auto const& s : judge.record(rule, parts).steps) {
        if (s.truth != Truth::fails) continue;
        double const asked = std::max({std::abs(s.required.lo), std::abs(s.required.hi), 1.0});
        double const lacks = s.kind == Step::Kind::at_least  ? s.required.lo - s.available.hi
                             : s.kind == Step::Kind::at_most ? s.available.lo - s.required.hi
                                                             : asked;
        worst = std::max(worst, lacks / asked);
    }
    return worst;
}

}  // namespace

std::vector<Judged> const* nearest_miss(Judge const& judge, Assignment const& parts,
                                        std::vector<std::pair<OutputRef, std::vector<Judged>>> const& options) {
    static int const form = rule_index("roles.output");
    std::vector<Judged> const* nearest = nullptr;
    std::tuple<bool, int, double> least;
    for (auto const& [output, rules] : options) {
        std::tuple<bool, int, double> misses{false, 0, 0};
        for (auto const& r : rules) {
            if (r.truth != Truth::fails) continue;
            std::get<0>(misses) |= r.instance.rule == form;
            ++std::get<1>(misses);
            std::get<2>(misses) += shortfall(judge, parts, r.instance);
        }
        if (std::get<1>(misses) == 0) return nullptr;
        if (nearest && misses >= least) continue;
        nearest = &rules;
        least = misses;
    }
    return nearest;
}

}  // namespace levelswap
