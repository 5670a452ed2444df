#include "levelswap/catalog/part.hpp"

#include <algorithm>
#include <functional>
#include <unordered_map>

namespace levelswap {

namespace {

bool same(FactTable const& x, FactTable const& y) {
    int const cost = slot_of(x.owner(), Attribute::cost);
    for (std::size_t i = 0; i < x.all().size(); ++i)
        if (static_cast<int>(i) != cost && !x.all()[i].same_for_rules(y.all()[i])) return false;
    return true;
}

bool alike(Part const& x, Part const& y) {
    return x.kind == y.kind && same(x.facts, y.facts) &&
           std::equal(x.outputs.begin(), x.outputs.end(), y.outputs.begin(), y.outputs.end(),
                      [](Output const& a, Output const& b) { return a.name == b.name && same(a.facts, b.facts); });
}

std::size_t hash_of(Part const& part) {
    std::size_t h = static_cast<std::size_t>(part.kind) * 64 + part.outputs.size();
    auto mix = [&](std::size_t x) { h = (h ^ x) * 0x9e3779b97f4a7c15ull, h ^= h >> 29; };
    auto table = [&](FactTable const& t) {
        int const cost = slot_of(t.owner(), Attribute::cost);
        for (std::size_t i = 0; i < t.all().size(); ++i) {
            if (static_cast<int>(i) == cost) continue;
            auto const& f = t.all()[i];
            mix(std::hash<double>{}(f.lo) ^ static_cast<std::size_t>(f.nature));
            mix(std::hash<double>{}(f.hi));
            mix(f.may);
        }
    };
    table(part.facts);
    for (auto const& o : part.outputs) table(o.facts);
    return h;
}

/// Parts that some fact names: a switch set's stated float stands for itself only.
std::vector<bool> named_in(Catalog const& catalog) {
    std::vector<bool> named(catalog.parts.size());
    for (auto const& part : catalog.parts)
        for (auto const& fact : part.facts.all())
            if (int const p = fact.reference.empty() ? -1 : catalog.find(fact.reference); p >= 0) named[static_cast<std::size_t>(p)] = true;
    return named;
}

}  // namespace

void index_parts(Catalog& catalog) {
    auto const named = named_in(catalog);
    std::unordered_map<std::size_t, std::vector<int>> by_hash;
    catalog.first_alike.clear();
    for (int p = 0; p < static_cast<int>(catalog.parts.size()); ++p) {
        auto const& part = catalog.parts[static_cast<std::size_t>(p)];
        catalog.first_alike.push_back(p);
        if (named[static_cast<std::size_t>(p)]) continue;
        auto& bucket = by_hash[hash_of(part)];
        auto const with = std::find_if(bucket.begin(), bucket.end(), [&](int c) { return alike(catalog.parts[static_cast<std::size_t>(c)], part); });
        if (with == bucket.end()) bucket.push_back(p);
        else catalog.first_alike.back() = *with;
    }
}

}  // namespace levelswap
