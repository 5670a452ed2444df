#include "levelswap/verdict/part_numbers.hpp"

#include <algorithm>
#include <bit>
#include <numeric>

namespace levelswap {

namespace {

/// By part: the first one that stands for it. A catalogue put together by hand has not been indexed.
std::vector<int> first_alike(Judge const& judge) {
    auto const& catalog = judge.catalog();
    std::vector<int> first = catalog.first_alike;
    bool const cost_counts = std::any_of(catalog.packs.begin(), catalog.packs.end(), [](Pack const& pack) {
        return std::any_of(pack.house.begin(), pack.house.end(), [](HouseRule const& h) { return h.attribute == Attribute::cost; });
    });
    if (first.size() != catalog.parts.size() || cost_counts) {
        first.resize(catalog.parts.size());
        std::iota(first.begin(), first.end(), 0);
    }
    // A float that the site names stands for itself only, like one that a part names.
    auto stands_for_itself = [&](Fact const& fact) {
        if (int const p = fact.reference.empty() ? -1 : catalog.find(fact.reference); p >= 0) first[static_cast<std::size_t>(p)] = p;
    };
    for (auto const& position : judge.site().positions) {
        for (auto const& measured : position.measured) stands_for_itself(measured.second);
        for (auto const& measured : position.measured_outputs) stands_for_itself(measured.fact);
    }
    return first;
}

}  // namespace

PartNumbers::PartNumbers(Judge const& judge) : installed_(installed(judge.site())) {
    std::uint32_t next = 2;   // 0 is nothing, 1 what is installed
    auto const first = first_alike(judge);
    for (std::size_t p = 0; p < first.size(); ++p) {
        auto const of = static_cast<std::size_t>(first[p]);
        numbers_.push_back(of < p ? numbers_[of] : next++);
    }
    bits_ = std::bit_width(next);
}

}  // namespace levelswap
