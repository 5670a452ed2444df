#include "levelswap/verdict/compiled_site.hpp"

#include "flat_table.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

struct CompiledSite::Wirings : FlatTable {};

CompiledSite::CompiledSite(Judge const& judge, std::vector<Instance> set_aside)
    : judge_(judge), set_aside_(std::move(set_aside)), base_(installed(judge.site())), rows_(judge, set_aside_),
      wirings_(std::make_unique<Wirings>()) {
    std::size_t const words = rows_.size() / 64 + 1;
    reading_.assign(base_.size(), RowSet(words));
    failing_.assign(words, 0);
    undecided_.assign(words, 0);
    for (std::size_t r = 0; r < rows_.size(); ++r) {
        std::uint64_t const bit = std::uint64_t{1} << r % 64;
        for (std::uint64_t rest = rows_.positions(r); rest; rest &= rest - 1)
            reading_[static_cast<std::size_t>(std::countr_zero(rest))][r / 64] |= bit;
        Truth const t = rows_.truth(r, base_);
        if (t == Truth::fails) failing_[r / 64] |= bit;
        if (t == Truth::undecided) undecided_[r / 64] |= bit;
    }
}

CompiledSite::~CompiledSite() = default;

/// Rows that read no changed position are as they were installed.
Truth CompiledSite::rules(std::uint64_t changed, Assignment const& parts) {
    auto const reads_changed = [&](std::size_t word) {
        std::uint64_t rows = 0;
        for (std::uint64_t rest = changed; rest; rest &= rest - 1) rows |= reading_[static_cast<std::size_t>(std::countr_zero(rest))][word];
        return rows;
    };
    bool open = false;
    for (std::size_t w = 0; w < failing_.size(); ++w) {
        std::uint64_t const again = reads_changed(w);
        if (failing_[w] & ~again) return Truth::fails;
        open |= (undecided_[w] & ~again) != 0;
    }
    for (std::size_t w = 0; w < failing_.size(); ++w)
        for (std::uint64_t rest = reads_changed(w); rest; rest &= rest - 1) {
            Truth const t = rows_.truth(w * 64 + static_cast<std::size_t>(std::countr_zero(rest)), parts);
            if (t == Truth::fails) return t;
            open |= t == Truth::undecided;
        }
    return open ? Truth::undecided : Truth::holds;
}

/// By what was changed, as long as that goes into a key: a position takes six bits beside its part's number.
Truth CompiledSite::wiring(std::uint64_t changed, Assignment const& parts) {
    std::uint64_t key = 1;
    int bits = 1;
    for (std::uint64_t rest = changed; rest; rest &= rest - 1) {
        auto const p = static_cast<std::size_t>(std::countr_zero(rest));
        bits += 6 + rows_.numbers_.bits();
        if (bits > 64) return judge_.wiring_gist(parts, set_aside_, memo_).truth;
        key = (key << 6 | p) << rows_.numbers_.bits() | rows_.numbers_.of(p, parts[p]);
    }
    if (auto const* known = wirings_->find(key)) return *known;
    Truth const found = judge_.wiring_gist(parts, set_aside_, memo_).truth;
    wirings_->add(key, found);
    return found;
}

Truth CompiledSite::truth(Assignment const& parts) {
    std::uint64_t changed = 0;
    for (std::size_t p = 0; p < base_.size(); ++p) changed |= static_cast<std::uint64_t>(parts[p] != base_[p]) << p;
    Truth const fixed = rules(changed, parts);
    return fixed == Truth::fails ? fixed : both(fixed, wiring(changed, parts));
}

}  // namespace levelswap
