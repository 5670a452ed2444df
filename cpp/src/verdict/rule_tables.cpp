#include "levelswap/verdict/rule_tables.hpp"

#include "flat_table.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

struct RuleTables::Table : FlatTable {};

RuleTables::RuleTables(Judge const& judge, std::vector<Instance> const& set_aside) : judge_(judge), numbers_(judge) {
    for (auto const& instance : judge.required()) {
        if (std::find(set_aside.begin(), set_aside.end(), instance) != set_aside.end()) continue;
        Row row{instance, judge.positions_read(instance), {}, true};
        for (std::uint64_t rest = row.positions; rest; rest &= rest - 1)
            row.places.push_back(static_cast<std::uint8_t>(std::countr_zero(rest)));
        row.fits_a_key = static_cast<int>(row.places.size()) * numbers_.bits() <= 64;
        rows_.push_back(std::move(row));
    }
    tables_.resize(rows_.size());
}

RuleTables::~RuleTables() = default;
RuleTables::RuleTables(RuleTables&&) noexcept = default;

Truth RuleTables::truth(std::size_t r, Assignment const& parts) {
    Row const& row = rows_[r];
    if (!row.fits_a_key) return ++asked_, judge_.truth_of(row.instance, parts);
    std::uint64_t key = 0;
    for (std::uint8_t const p : row.places) key = key << numbers_.bits() | numbers_.of(p, parts[p]);
    if (auto const* known = tables_[r].find(key)) return *known;
    ++asked_;
    Truth const found = judge_.truth_of(row.instance, parts);
    tables_[r].add(key, found);
    return found;
}

}  // namespace levelswap
