#include "candidate_classes.hpp"

#include <algorithm>
#include <map>

namespace levelswap {

CandidateClasses::CandidateClasses(Judge const& judge) : judge_(judge) {
    auto const& catalog = judge.catalog();
    for (auto const& pack : catalog.packs)
        for (auto const& h : pack.house) cost_counts_ |= h.attribute == Attribute::cost;
    first_ = catalog.first_alike;
    if (first_.size() != catalog.parts.size()) {
        Catalog indexed = catalog;
        index_parts(indexed);
        first_ = std::move(indexed.first_alike);
    }
    for (int p = 0; p < static_cast<int>(catalog.parts.size()); ++p)
        by_kind_[static_cast<std::size_t>(catalog.parts[static_cast<std::size_t>(p)].kind)].push_back(p);
    // A float that the site names stands for itself only, like one that a part names.
    for (auto const& position : judge.site().positions)
        for (auto const& measured : position.measured)
            if (int const p = measured.second.reference.empty() ? -1 : catalog.find(measured.second.reference); p >= 0)
                first_[static_cast<std::size_t>(p)] = p;
}

std::vector<int> CandidateClasses::accepted(int position) const {
    std::vector<int> found;
    for (Owner const kind : accepted_kinds(judge_.site().positions[static_cast<std::size_t>(position)].role)) {
        auto const& parts = by_kind_[static_cast<std::size_t>(kind)];
        found.insert(found.end(), parts.begin(), parts.end());
    }
    std::sort(found.begin(), found.end());
    found.push_back(nothing);
    return found;
}

double CandidateClasses::cost(int part) const {
    if (part == nothing) return 0;
    auto const* c = judge_.catalog().parts[static_cast<std::size_t>(part)].facts.find(Attribute::cost);
    return c && c->nature != Fact::Nature::unknown ? c->hi : 1e9;  // a price nobody knows ranks last
}

std::vector<std::vector<int>> CandidateClasses::of(int position, std::vector<int> const& parts) const {
    std::vector<std::vector<int>> classes;
    std::vector<int> class_of(first_.size(), -1);          // by the first part
    std::map<std::pair<int, double>, std::size_t> by_cost;  // where a house rule looks at the price
    int const holds = judge_.site().positions[static_cast<std::size_t>(position)].holds;
    auto join = [&](int p, auto& known, std::size_t at) {
        known = static_cast<int>(at);
        if (at == classes.size()) classes.emplace_back();
        classes[at].push_back(p);
    };
    for (int p : parts) {
        if (p == nothing || p == holds) {
            classes.push_back({p});
            continue;
        }
        int const first = first_[static_cast<std::size_t>(p)];
        if (cost_counts_) {
            auto const at = by_cost.try_emplace({first, cost(p)}, classes.size()).first->second;
            int unused = 0;
            join(p, unused, at);
        } else {
            int& known = class_of[static_cast<std::size_t>(first)];
            join(p, known, known < 0 ? classes.size() : static_cast<std::size_t>(known));
        }
    }
    return classes;
}

std::vector<int> CandidateClasses::cheapest(std::vector<int> const& alike, std::size_t most) const {
    std::vector<int> found = alike;
    auto const end = found.begin() + static_cast<std::ptrdiff_t>(std::min(most, found.size()));
    std::partial_sort(found.begin(), end, found.end(), [&](int x, int y) { return std::pair{cost(x), x} < std::pair{cost(y), y}; });
    found.erase(end, found.end());
    return found;
}

}  // namespace levelswap
