#include "candidate_classes.hpp"

#include <algorithm>
#include <functional>
#include <unordered_map>

namespace levelswap {

CandidateClasses::CandidateClasses(Judge const& judge) : judge_(judge), named_(judge.catalog().parts.size()) {
    auto const& catalog = judge.catalog();
    for (auto const& pack : catalog.packs)
        for (auto const& h : pack.house) cost_counts_ |= h.attribute == Attribute::cost;
    auto name = [&](Fact const& f) {
        if (int const part = f.reference.empty() ? -1 : catalog.find(f.reference); part >= 0) named_[static_cast<std::size_t>(part)] = true;
    };
    for (auto const& part : catalog.parts)
        for (auto const& fact : part.facts.all()) name(fact);
    for (auto const& position : judge.site().positions)
        for (auto const& measured : position.measured) name(measured.second);
    group();
}

/// Once for all positions: the first part of the class of each.
void CandidateClasses::group() {
    auto const& parts = judge_.catalog().parts;
    std::unordered_map<std::size_t, std::vector<int>> by_hash;
    for (int p = 0; p < static_cast<int>(parts.size()); ++p) {
        auto const& part = parts[static_cast<std::size_t>(p)];
        by_kind_[static_cast<std::size_t>(part.kind)].push_back(p);
        first_.push_back(p);
        if (named_[static_cast<std::size_t>(p)]) continue;
        auto& bucket = by_hash[hash(part)];
        auto const with = std::find_if(bucket.begin(), bucket.end(), [&](int c) { return alike(parts[static_cast<std::size_t>(c)], part); });
        if (with == bucket.end()) bucket.push_back(p);
        else first_.back() = *with;
    }
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

bool CandidateClasses::same(FactTable const& x, FactTable const& y) const {
    int const cost = cost_counts_ ? -1 : slot_of(x.owner(), Attribute::cost);
    for (std::size_t i = 0; i < x.all().size(); ++i)
        if (static_cast<int>(i) != cost && !x.all()[i].same_for_rules(y.all()[i])) return false;
    return true;
}

bool CandidateClasses::alike(Part const& x, Part const& y) const {
    return x.kind == y.kind && same(x.facts, y.facts) &&
           std::equal(x.outputs.begin(), x.outputs.end(), y.outputs.begin(), y.outputs.end(),
                      [&](Output const& a, Output const& b) { return a.name == b.name && same(a.facts, b.facts); });
}

std::size_t CandidateClasses::hash(Part const& part) const {
    std::size_t h = part.outputs.size();
    auto mix = [&](std::size_t x) { h = (h ^ x) * 0x9e3779b97f4a7c15ull, h ^= h >> 29; };
    auto table = [&](FactTable const& t, int skip) {
        for (std::size_t i = 0; i < t.all().size(); ++i) {
            if (static_cast<int>(i) == skip) continue;
            auto const& f = t.all()[i];
            mix(std::hash<double>{}(f.lo) ^ static_cast<std::size_t>(f.nature));
            mix(std::hash<double>{}(f.hi));
            mix(f.may);
        }
    };
    table(part.facts, cost_counts_ ? -1 : slot_of(part.facts.owner(), Attribute::cost));
    for (auto const& o : part.outputs) table(o.facts, -1);
    return h;
}

std::vector<std::vector<int>> CandidateClasses::of(int position, std::vector<int> const& parts) const {
    auto const& all = judge_.catalog().parts;
    auto part = [&](int p) -> Part const& { return all[static_cast<std::size_t>(p)]; };
    std::vector<std::vector<int>> classes;
    std::unordered_map<int, std::size_t> class_of;   // by the first part
    int const holds = judge_.site().positions[static_cast<std::size_t>(position)].holds;
    for (int p : parts) {
        if (p == nothing || p == holds) {
            classes.push_back({p});
            continue;
        }
        auto const [it, fresh] = class_of.try_emplace(first_[static_cast<std::size_t>(p)], classes.size());
        if (fresh) classes.push_back({p});
        else classes[it->second].push_back(p);
    }
    auto cost = [&](int p) {
        auto const* c = p == nothing ? nullptr : part(p).facts.find(Attribute::cost);
        return c && c->nature != Fact::Nature::unknown ? c->hi : 1e9;
    };
    for (auto& c : classes)
        std::stable_sort(c.begin(), c.end(), [&](int x, int y) { return cost(x) < cost(y); });
    return classes;
}

}  // namespace levelswap
