// Needs that differ with a setting: how far a drum's level moves for a volume depends on where the level is, how far a
// cold fill may go on how much hot water stands in the tank. Over all that the setting may be such a need has a range;
// piece by piece it is sharp.

#include "wiring.hpp"

#include <algorithm>
#include <deque>

namespace levelswap {

namespace {

constexpr std::size_t most_pieces = 64;   ///< a budget of checks, never of seconds

/// Windows that meet: what lies between them is right as well, since what a setting may be is one range.
bool meet(std::vector<Window> const& x, std::vector<Window> const& y) {
    if (x.size() != y.size()) return false;
    for (std::size_t i = 0; i < x.size(); ++i)
        if (x[i].hi + 1 < y[i].lo || y[i].hi + 1 < x[i].lo) return false;
    return true;
}

void widen(std::vector<Window>& x, std::vector<Window> const& by) {
    for (std::size_t i = 0; i < x.size(); ++i) {
        x[i].lo = std::min(x[i].lo, by[i].lo);
        x[i].hi = std::max(x[i].hi, by[i].hi);
    }
}

/// The first run of windows that meet.
std::vector<Window> joined(std::vector<std::vector<Window>> found) {
    std::vector<Window> all = std::move(found.front());
    found.erase(found.begin());
    for (bool grew = true; grew;) {
        grew = false;
        for (auto const& next : found)
            if (meet(all, next)) {
                auto const before = all;
                widen(all, next);
                grew |= all != before;
            }
    }
    return all;
}

std::pair<Window, Window> halves(Window const& w) {
    std::int64_t const middle = w.lo + (w.hi - w.lo) / 2;
    Window low = w, high = w;
    low.hi = high.lo = middle;
    return {low, high};
}

/// Does a piece hold everywhere in it? Where it holds only in part, its need was taken from its worst end.
bool holds_throughout(Wiring const& piece, Window const& whole) {
    return std::any_of(piece.windows.begin(), piece.windows.end(), [&](Window const& w) {
        return w.station == whole.station && w.rod == whole.rod && w.lo <= whole.lo + 1 && w.hi + 1 >= whole.hi;
    });
}

}  // namespace

LevelBuilder LevelBuilder::within(Window const& piece) const {
    LevelBuilder narrowed = *this;
    narrowed.pieces_.push_back(piece);
    return narrowed;
}

/// The setting with the widest range of those that needs differ with; none is left below a micrometre.
std::optional<Window> LevelBuilder::widest_need(Wiring const& w) const {
    std::optional<Window> widest;
    for (auto const& r : w.levels) {
        if (r.needed_from < 0 || r.needed.is_point()) continue;
        auto const& e = w.elevations[static_cast<std::size_t>(r.needed_from)];
        if (!is_setting(e.station, e.rod)) continue;
        Interval const range = may_be(e.station, e.rod);
        Window const whole{e.station, e.rod, static_cast<std::int64_t>(range.lo), static_cast<std::int64_t>(range.hi)};
        constexpr std::int64_t micrometre = 1000;
        if (whole.hi - whole.lo > micrometre && (!widest || whole.hi - whole.lo > widest->hi - widest->lo)) widest = whole;
    }
    return widest;
}

/// Splits what the settings may be until every piece is decided, or the budget ends. One piece that holds is enough for
/// the truth; `all` goes on, for the whole window.
template <class JudgePiece>
Truth LevelBuilder::by_pieces(Wiring const& w, Ends const& ends, bool all, JudgePiece judge) const {
    Wiring bare;
    bare.output = w.output;
    bare.elevations.assign(w.elevations.begin(), w.elevations.begin() + static_cast<std::ptrdiff_t>(ends.trip.size() + ends.reset.size()));
    std::deque<LevelBuilder> open;
    auto split = [&](LevelBuilder const& whole, Window const& at) {
        auto const [low, high] = halves(at);
        open.push_back(whole.within(low));
        open.push_back(whole.within(high));
    };
    auto const first = widest_need(w);
    if (!first) return Truth::undecided;
    split(*this, *first);
    bool some_hold = false, some_open = false;
    for (std::size_t judged = 0; !open.empty() && judged < most_pieces; ++judged) {
        LevelBuilder const here = std::move(open.front());
        open.pop_front();
        Wiring piece = bare;
        here.require_all(piece, ends);
        Truth const truth = judge(here, piece);
        some_hold |= truth == Truth::holds;
        if (some_hold && !all) break;
        auto const next = here.widest_need(piece);
        bool const settled = truth == Truth::fails || (truth == Truth::holds && (!all || !next || holds_throughout(piece, *next)));
        if (settled) continue;
        if (next) split(here, *next);
        else some_open = true;
    }
    return some_hold ? Truth::holds : open.empty() && !some_open ? Truth::fails : Truth::undecided;
}

void LevelBuilder::judge_by_pieces(Wiring& w, Ends const& ends) const {
    std::vector<std::vector<Window>> good;
    if (w.levels_truth == Truth::holds) good.push_back(w.windows);
    std::vector<char> excludes(w.levels.size(), 0), fails_alone(w.levels.size(), 1);
    Truth const truth = by_pieces(w, ends, true, [&](LevelBuilder const& here, Wiring& piece) {
        here.solve(piece);
        if (piece.levels_truth == Truth::holds) good.push_back(piece.windows);
        if (piece.levels_truth == Truth::fails)
            for (std::size_t i = 0; i < excludes.size(); ++i) {
                excludes[i] |= static_cast<char>(piece.levels[i].in_conflict);
                fails_alone[i] &= static_cast<char>(piece.levels[i].alone == Truth::fails);
            }
        return piece.levels_truth;
    });
    w.levels_truth = good.empty() ? truth : Truth::holds;
    if (w.levels_truth != Truth::undecided) {   // each piece lacks something else, or nothing is lacking
        w.short_of = 0;
        for (auto& r : w.levels) r.in_doubt = false;
    }
    if (!good.empty()) {
        w.windows = joined(std::move(good));
        for (auto& r : w.levels) r.alone = Truth::holds;
    }
    if (w.levels_truth != Truth::fails) return;
    for (std::size_t i = 0; i < excludes.size(); ++i) {
        w.levels[i].in_conflict = excludes[i] != 0;
        if (fails_alone[i]) w.levels[i].alone = Truth::fails;
    }
}

WiringGist LevelBuilder::gist_by_pieces(Wiring const& w, Ends const& ends, WiringGist const& whole) const {
    WiringGist gist = whole;
    gist.truth = by_pieces(w, ends, false, [&](LevelBuilder const& here, Wiring& piece) {
        auto const g = here.gist_of(piece);
        gist.blamed |= g.blamed;
        return g.truth;
    });
    if (gist.truth == Truth::holds) gist.blamed = 0;
    return gist;
}

}  // namespace levelswap
