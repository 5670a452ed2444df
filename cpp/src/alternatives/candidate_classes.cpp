#include "candidate_classes.hpp"

#include <algorithm>
#include <unordered_map>

namespace levelswap {

CandidateClasses::CandidateClasses(Judge const& judge) : judge_(judge), numbers_(judge) {
    auto const& parts = judge.catalog().parts;
    for (int p = 0; p < static_cast<int>(parts.size()); ++p)
        by_kind_[static_cast<std::size_t>(parts[static_cast<std::size_t>(p)].kind)].push_back(p);
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
    std::unordered_map<std::uint64_t, std::size_t> class_of;   // by number
    for (int p : parts) {
        auto const [at, fresh] = class_of.try_emplace(numbers_.of(static_cast<std::size_t>(position), p), classes.size());
        if (fresh) classes.emplace_back();
        classes[at->second].push_back(p);
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
