#include "read_site.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace levelswap::reading {

namespace {

/// The places of `items` in the order of `key`, and where each old place went.
template <class T, class Key>
std::vector<int> sort_by(std::vector<T>& items, Key key) {
    std::vector<int> order(items.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int x, int y) {
        return key(items[static_cast<std::size_t>(x)]) < key(items[static_cast<std::size_t>(y)]);
    });
    std::vector<T> sorted;
    std::vector<int> went(items.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        sorted.push_back(std::move(items[static_cast<std::size_t>(order[i])]));
        went[static_cast<std::size_t>(order[i])] = static_cast<int>(i);
    }
    items = std::move(sorted);
    return went;
}

void move_to(int& index, std::vector<int> const& went) {
    if (index >= 0) index = went[static_cast<std::size_t>(index)];
}

}  // namespace

void order_canonically(Site& site) {
    auto const station = sort_by(site.stations, [](Station const& s) { return s.name; });
    auto const circuit = sort_by(site.circuits, [](Circuit const& c) { return c.name; });
    auto const line = sort_by(site.lines, [](Line const& l) { return l.name; });
    for (auto& p : site.positions) {
        move_to(p.station, station);
        move_to(p.circuit, circuit);
        move_to(p.line, line);
    }
    for (auto& s : site.stations) move_to(s.line, line);
    for (auto& c : site.circuits) move_to(c.line, line);
    // Stations before circuits before lines, then by name and role: the order of a fitter's list.
    auto const position = sort_by(site.positions, [](Position const& p) {
        return std::tuple{p.line >= 0, p.station < 0, p.station, p.circuit, p.line, p.role};
    });
    for (auto& s : site.stations)
        for (int& p : s.positions) move_to(p, position);
    for (auto& c : site.circuits)
        for (int& p : c.positions) move_to(p, position);
    for (auto& l : site.lines)
        for (int& p : l.positions) move_to(p, position);
    for (auto& f : site.functions) {
        move_to(f.circuit, circuit);
        move_to(f.now.position, position);
    }
    sort_by(site.functions, [](Function const& f) { return f.duty; });
    std::sort(site.packs.begin(), site.packs.end());
}

}  // namespace levelswap::reading
