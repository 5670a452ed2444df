#include "consequences.hpp"
#include "levelswap/graph/constraint_graph.hpp"
#include "levelswap/verdict/nearest_miss.hpp"
#include "levelswap/verdict/worlds.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <tuple>

namespace levelswap {

namespace {

constexpr std::size_t most_listed = 20;   // tuples of one repair

Repair shown(Case const& c, RepairSet const& set) {
    auto const& site = c.judge.site();
    Repair r;
    for (std::size_t p = 0; p < c.after.size(); ++p)
        if (set.positions >> p & 1u) r.positions.push_back(site.positions[p].name);
    for (auto const& parts : set.parts) {
        if (r.tuples.size() == most_listed) break;
        std::vector<std::string> tuple;
        for (std::size_t p = 0; p < parts.size(); ++p)
            if (set.positions >> p & 1u) tuple.push_back(part_name(c.judge.catalog(), parts[p]));
        r.tuples.push_back(std::move(tuple));
    }
    r.more = set.total - r.tuples.size();
    r.outage = outage_of(site, set.positions | c.changed);
    r.work = work_of(c, set.positions | c.changed, nullptr);
    return r;
}

double cost_of(Catalog const& catalog, Assignment const& parts, std::uint64_t positions) {
    double sum = 0;
    for (std::size_t p = 0; p < parts.size(); ++p) {
        if (!(positions >> p & 1u) || parts[p] == nothing) continue;
        auto const* cost = catalog.parts[static_cast<std::size_t>(parts[p])].facts.find(Attribute::cost);
        sum += cost && cost->nature != Fact::Nature::unknown ? cost->hi : 1e9;  // a price nobody knows ranks last
    }
    return sum;
}

int outage_rank(Site const& site, std::uint64_t positions) {
    int rank = 0;
    for (std::uint64_t rest = positions; rest; rest &= rest - 1) {
        Role const r = site.positions[static_cast<std::size_t>(std::countr_zero(rest))].role;
        rank = std::max(rank, opens_water_side(r) ? 2 : r == Role::switch_half ? 1 : 0);
    }
    return rank;
}

/// The smallest margin among an assembly's numeric comparisons that read one of the positions, each as a share of what
/// is required (at least a quantum). Counts and what must match exactly have no margin.
double least_relative_margin(Judge const& judge, Assignment const& parts, std::uint64_t positions) {
    double least = std::numeric_limits<double>::infinity();
    auto take = [&](Step const& s) {
        double const required = std::max(std::abs(s.required.lo), std::abs(s.required.hi));
        if (s.dimension == Dimension::count || required == 0) return;
        if (s.kind == Step::Kind::at_least) least = std::min(least, (s.available.lo - s.required.hi) / std::max(required, 1.0));
        if (s.kind == Step::Kind::at_most) least = std::min(least, (s.required.lo - s.available.hi) / std::max(required, 1.0));
    };
    auto rules = [&](std::vector<Judged> const& all) {
        for (auto const& r : all) {
            bool const has_numbers = rule_table()[static_cast<std::size_t>(r.instance.rule)].body.recorded;
            if (!has_numbers || !(r.positions & positions)) continue;
            for (auto const& s : judge.record(r.instance, parts).steps) take(s);
        }
    };
    auto const j = judge.judge(parts);
    rules(j.fixed);
    if (!j.wiring) return least;
    rules(j.wiring->pairs);
    rules(j.wiring->whole);
    return least;
}

/// Orders by a first key, and what is equal in it by a second one that costs more to know.
template <class Iterator, class First, class Second>
void sort_by(Iterator begin, Iterator end, First first, Second second) {
    std::stable_sort(begin, end, [&](auto const& x, auto const& y) { return first(x) < first(y); });
    for (auto run = begin; run != end;) {
        auto const next = std::find_if(run, end, [&](auto const& x) { return first(x) != first(*run); });
        if (next - run > 1) {
            using Keyed = std::pair<decltype(second(*run)), typename std::iterator_traits<Iterator>::value_type>;
            std::vector<Keyed> alike;
            for (auto x = run; x != next; ++x) {
                auto key = second(*x);
                alike.emplace_back(std::move(key), std::move(*x));
            }
            std::stable_sort(alike.begin(), alike.end(), [](auto const& x, auto const& y) { return x.first < y.first; });
            std::transform(alike.begin(), alike.end(), run, [](auto& x) { return std::move(x.second); });
        }
        run = next;
    }
}

/// The tuples of one set: cost where known, then the margin (most first); equal ones stay in order of id. Those beyond
/// what is listed are ordered by their cost alone.
void rank_tuples(Case const& c, RepairSet& s) {
    auto cost = [&](Assignment const& parts) { return cost_of(c.judge.catalog(), parts, s.positions); };
    auto margin = [&](Assignment const& parts) { return -least_relative_margin(c.judge, parts, s.positions); };
    std::vector<std::pair<double, Assignment>> all;
    for (auto& parts : s.parts) all.emplace_back(cost(parts), std::move(parts));
    std::stable_sort(all.begin(), all.end(), [](auto const& x, auto const& y) { return x.first < y.first; });
    auto const listed = all.begin() + static_cast<std::ptrdiff_t>(std::min(all.size(), most_listed));
    sort_by(all.begin(), listed, [](auto const& x) { return x.first; }, [&](auto const& x) { return margin(x.second); });
    s.parts.clear();
    for (auto& [key, parts] : all) s.parts.push_back(std::move(parts));
}

/// Tuples that no world satisfies, though each of their rules alone is open, are no remedy to measure for. A look at
/// the first ones is enough: what is listed is true, and the rest is only counted. `looks` is what is left of the looks
/// for all sets together.
void drop_impossible(Case const& c, RepairSet& set, std::size_t& looks) {
    constexpr std::size_t most_looked_at = 5, most_boxes = 8;
    std::size_t const looked_at = std::min({set.parts.size(), most_looked_at, looks});
    looks -= looked_at;
    auto const end = set.parts.begin() + static_cast<std::ptrdiff_t>(looked_at);
    auto const kept = std::remove_if(set.parts.begin(), end, [&](Assignment const& parts) {
        return impossible(c.judge, parts, c.set_aside, most_boxes);
    });
    set.total -= static_cast<std::size_t>(end - kept);
    set.parts.erase(kept, end);
}

/// Number of changes, outage, cost where known, margin, id.
void rank(Case const& c, std::vector<RepairSet>& sets) {
    for (auto& s : sets) rank_tuples(c, s);
    auto first = [&](RepairSet const& s) {
        double const cost = s.parts.empty() ? 0 : cost_of(c.judge.catalog(), s.parts.front(), s.positions);
        return std::tuple{std::popcount(s.positions), outage_rank(c.judge.site(), s.positions), cost};
    };
    auto second = [&](RepairSet const& s) {
        return std::pair{s.parts.empty() ? 0.0 : -least_relative_margin(c.judge, s.parts.front(), s.positions), s.positions};
    };
    sort_by(sets.begin(), sets.end(), first, second);
}

/// Keeping the proposed parts and releasing them are two searches: only when releasing are the displaced parts no
/// candidates, anywhere, unless the swap says that they may return.
RepairQuery query_for(Case const& c, bool keep, int most, bool old_may_return) {
    RepairQuery q;
    q.start = c.after;
    q.set_aside = c.set_aside;
    q.most_changes = most;
    int const positions = static_cast<int>(c.after.size());
    for (int p = 0; p < positions; ++p) {
        bool const named = c.asked >> p & 1u;
        if (!keep || !named) q.may_change |= 1ull << p;
        int const displaced = c.before[static_cast<std::size_t>(p)];
        if (keep || !named || old_may_return || displaced == c.after[static_cast<std::size_t>(p)]) continue;
        for (int anywhere = 0; anywhere < positions; ++anywhere)
            if (displaced != nothing || anywhere == p) q.not_candidates.emplace_back(anywhere, displaced);
    }
    return q;
}

/// Complements of the largest sets without a repair: the smallest sets of positions that share one with every repair.
std::vector<std::uint64_t> hitting_sets(std::vector<RepairSet> const& repairs) {
    std::vector<std::uint64_t> found{0};
    for (auto const& r : repairs) {
        std::vector<std::uint64_t> next;
        for (auto const f : found) {
            if (f & r.positions) next.push_back(f);
            else
                for (std::uint64_t rest = r.positions; rest; rest &= rest - 1) next.push_back(f | (rest & ~(rest - 1)));
        }
        std::sort(next.begin(), next.end());
        next.erase(std::unique(next.begin(), next.end()), next.end());
        found.clear();
        std::copy_if(next.begin(), next.end(), std::back_inserter(found), [&](std::uint64_t x) {
            return std::none_of(next.begin(), next.end(), [x](std::uint64_t y) { return y != x && (y & x) == y; });
        });
    }
    std::sort(found.begin(), found.end(), [](auto x, auto y) { return std::pair{std::popcount(x), x} < std::pair{std::popcount(y), y}; });
    return found;
}

std::vector<std::vector<std::string>> blockers(Case const& c, RepairQuery const& q, RepairSearch const& found) {
    std::vector<std::vector<std::string>> out;
    bool const full_depth = found.complete && q.most_changes >= std::popcount(q.may_change);
    if (!full_depth || found.repairs.empty()) return out;
    for (auto const set : hitting_sets(found.repairs)) {
        out.emplace_back();
        for (std::uint64_t rest = set; rest; rest &= rest - 1)
            out.back().push_back(c.judge.site().positions[static_cast<std::size_t>(std::countr_zero(rest))].name);
    }
    return out;
}

/// The requirements that refuse now, at their places.
std::vector<Judged> refusals(Case const& c) {
    std::vector<Judged> out;
    auto take = [&](std::vector<Judged> const& from) {
        for (auto const& r : from)
            if (r.truth == Truth::fails && std::find(c.set_aside.begin(), c.set_aside.end(), r.instance) == c.set_aside.end())
                out.push_back(r);
    };
    auto const& j = c.judgement_after;
    take(j.fixed);
    if (j.wiring) return out;
    for (auto const& options : j.options) {
        if (auto const* nearest = nearest_miss(c.judge, c.after, options)) take(*nearest);
    }
    return out;
}

/// Remedies that a reader would try: another part at one position that the refusal reads. When it lifts that
/// refusal and the verdict still is not "fits", the first thing that then refuses is the reason.
void list_blocked(Case const& c, Alternatives& out) {
    auto const& table = rule_table();
    auto repairs_alone = [&](std::string const& position) {
        auto const alone = [&](Repair const& r) { return r.positions.size() == 1 && r.positions[0] == position; };
        return std::any_of(out.keep.begin(), out.keep.end(), alone) || std::any_of(out.release.begin(), out.release.end(), alone);
    };
    std::vector<std::pair<int, int>> said;
    for (auto const& refusal : refusals(c))
        for (std::uint64_t rest = refusal.positions; rest; rest &= rest - 1) {
            int const p = std::countr_zero(rest);
            auto const& position = c.judge.site().positions[static_cast<std::size_t>(p)].name;
            // Another set at the output's own position brings other outputs: a new question, not a remedy of this one.
            if (p == refusal.instance.stand.output.position || repairs_alone(position)) continue;
            if (std::find(said.begin(), said.end(), std::pair{p, refusal.instance.rule}) != said.end()) continue;
            for (int part : candidates_for(c.judge, p)) {
                Assignment trial = c.after;
                if (part == nothing || part == trial[static_cast<std::size_t>(p)]) continue;
                trial[static_cast<std::size_t>(p)] = part;
                ++out.checks;
                if (c.judge.truth_of(refusal.instance, trial) != Truth::holds) continue;
                auto const f = first_failure(c.judge, trial, c.set_aside);
                if (f.rule < 0 || f.truth != Truth::fails || f.rule == refusal.instance.rule) continue;
                said.emplace_back(p, refusal.instance.rule);
                out.blocked.push_back({position, part_name(c.judge.catalog(), part),
                                       std::string(table[static_cast<std::size_t>(refusal.instance.rule)].title),
                                       "alone it does not help: then \"" + std::string(table[static_cast<std::size_t>(f.rule)].title) + "\" fails"});
                break;
            }
        }
}

/// Positions that some chain of requirements ties to a refusal: no other can have part in a repair.
std::uint64_t tied_to_the_refusal(Case const& c) {
    auto const& site = c.judge.site();
    std::vector<Requirement> scopes;
    std::uint64_t refused = 0, wiring = 0;
    for (auto const& j : c.judgement_after.fixed) {
        scopes.push_back({std::string(rule_table()[static_cast<std::size_t>(j.instance.rule)].id), j.positions});
        if (j.truth != Truth::holds) refused |= j.positions;
    }
    // Wiring and levels read every station and every circuit that a function uses.
    for (std::size_t p = 0; p < site.positions.size(); ++p) {
        auto const& position = site.positions[p];
        bool const used = position.station >= 0 || std::any_of(site.functions.begin(), site.functions.end(), [&](Function const& f) {
                              return f.circuit == position.circuit;
                          });
        if (used) wiring |= std::uint64_t{1} << p;
    }
    scopes.push_back({"wiring and levels", wiring});
    bool const wiring_refuses = !c.judgement_after.wiring || c.judgement_after.wiring->truth != Truth::holds;
    if (wiring_refuses) refused |= wiring;
    std::uint64_t tied = 0;
    for (auto const piece : ConstraintGraph(static_cast<int>(site.positions.size()), scopes).pieces())
        if (piece & refused) tied |= piece;
    return tied;
}

/// Rules that refuse now, each with the positions that it reads: on parts, on functions together, on levels.
std::vector<std::pair<int, std::uint64_t>> refusing(Case const& c) {
    std::vector<std::pair<int, std::uint64_t>> out;
    for (auto const& r : refusals(c)) out.emplace_back(r.instance.rule, r.positions);
    if (!c.judgement_after.wiring) return out;
    auto const& w = *c.judgement_after.wiring;
    for (auto const& r : w.whole)
        if (r.truth == Truth::fails) out.emplace_back(r.instance.rule, r.positions);
    if (w.levels_truth != Truth::fails) return out;
    for (auto const& r : Explainer::levels_shown(w).rules) {
        std::uint64_t positions = r.positions;
        for (int const end : {r.upper, r.lower}) positions |= w.elevations[static_cast<std::size_t>(end)].positions;
        out.emplace_back(r.rule, positions);
    }
    return out;
}

/// When there is no repair: for each position on its own how many candidates each requirement removed, and the
/// nearest miss, the one that gets furthest down the table of rules.
void list_ruled_out(Case const& c, Alternatives& out) {
    auto const& table = rule_table();
    auto const tied = tied_to_the_refusal(c);
    auto const refused = refusing(c);
    // A refusal of now that does not read the position says nothing of the parts that are tried there.
    auto stands_elsewhere = [&](int rule, int p) {
        bool elsewhere = false;
        for (auto const& [id, positions] : refused) {
            if (id != rule) continue;
            if (positions >> p & 1u) return false;
            elsewhere = true;
        }
        return elsewhere;
    };
    for (int p = 0; p < static_cast<int>(c.after.size()); ++p) {
        if (!(tied >> p & 1u) || (!out.release_searched && (c.asked >> p & 1u))) continue;
        RuledOut row;
        row.position = c.judge.site().positions[static_cast<std::size_t>(p)].name;
        std::map<std::string, int> counts;
        int furthest = -1;
        for (int part : candidates_for(c.judge, p)) {
            if (part == c.after[static_cast<std::size_t>(p)] || part == nothing) continue;
            Assignment trial = c.after;
            trial[static_cast<std::size_t>(p)] = part;
            auto const f = first_failure(c.judge, trial, c.set_aside);
            ++out.checks;
            if (f.rule < 0 || stands_elsewhere(f.rule, p)) continue;
            auto const& last = table[static_cast<std::size_t>(f.rule)];
            auto const id = std::string(last.id);
            if (f.truth == Truth::fails) ++counts[id];
            if (f.rule <= furthest) continue;
            furthest = f.rule;
            row.nearest_miss = part_name(c.judge.catalog(), part) + (f.truth == Truth::fails ? ", not so: " : ", not known: ") + std::string(last.title);
        }
        row.removed_by.assign(counts.begin(), counts.end());
        if (!row.removed_by.empty()) out.ruled_out.push_back(std::move(row));
    }
}

/// A repair that nobody can tell yet, with the question that it hangs on.
Repair open_repair(Case const& c, RepairSet const& s, Units units) {
    auto r = shown(c, s);
    Assignment const& trial = s.parts.front();
    auto const open = first_failure(c.judge, trial, c.set_aside);
    r.question = open.rule < 0 ? "" : std::string(rule_table()[static_cast<std::size_t>(open.rule)].title) + "?";
    constexpr std::size_t most_asked = 3;   // `check` asks the rest
    std::size_t asked = 0;
    auto ask = [&](std::vector<Question> const& questions) {
        for (auto const& q : questions)
            if (asked++ < most_asked) r.question += " " + q.fact + ": " + q.threshold + (q.subject.empty() ? "" : " (" + q.subject + ")") + ".";
    };
    Explainer const words(c.judge, trial, s.positions, units);
    auto const j = c.judge.judge(trial);
    auto names = [&](Judged const& x) { return x.truth == Truth::undecided && x.instance.rule == open.rule; };
    for (auto const& x : j.fixed)
        if (names(x)) ask(words.questions(x));
    if (!j.wiring) return r;
    for (auto const& x : j.wiring->pairs)
        if (names(x)) ask(words.questions(x));
    for (auto const& x : j.wiring->whole)
        if (names(x)) ask(words.pair_questions(*j.wiring, x));
    auto const [levels, together] = Explainer::levels_shown(*j.wiring);
    for (auto const& l : levels)
        if (j.wiring->levels_truth == Truth::undecided && (l.rule == open.rule || together)) ask(words.level_questions(*j.wiring, l, together));
    return r;
}

}  // namespace

Alternatives alternatives(Catalog const& catalog, Site const& site,
                          std::vector<std::pair<std::string, std::string>> const& put, int max_changes,
                          bool old_may_return, Units units, WhichRepairs which) {
    Case const c(catalog, site, put);
    Alternatives out;
    out.complete_up_to = max_changes;
    out.keep_searched = which != WhichRepairs::release;
    out.release_searched = which != WhichRepairs::keep;
    out.needed = c.judge.truth(c.after, c.set_aside) != Truth::holds;
    out.fits_as_it_was = c.judgement_before.truth == Truth::holds;
    if (!out.needed) return out;
    auto look = [&](bool keep, auto& blockers_of_it) {
        auto const q = query_for(c, keep, max_changes, old_may_return);
        auto found = find_repairs(c.judge, q);
        out.checks += found.checks;
        if (!found.complete) out.complete_up_to = 0;
        blockers_of_it = blockers(c, q, found);
        rank(c, found.repairs);
        rank(c, found.undecided);
        return found;
    };
    RepairSearch undecided;
    if (out.keep_searched) {
        auto found = look(true, out.keep_blockers);
        for (auto const& s : found.repairs) out.keep.push_back(shown(c, s));
        undecided = std::move(found);
    }
    if (out.release_searched) {
        auto found = look(false, out.release_blockers);
        for (auto const& s : found.repairs)
            if (s.positions & c.asked) out.release.push_back(shown(c, s));
        undecided = std::move(found);   // all that the other search finds, and more
        if (!out.keep_searched) std::erase_if(undecided.undecided, [&](RepairSet const& s) { return !(s.positions & c.asked); });
    }
    std::size_t looks = 20;   // a budget of checks, never of seconds
    for (auto& s : undecided.undecided) {
        drop_impossible(c, s, looks);
        if (!s.parts.empty()) out.undecided.push_back(open_repair(c, s, units));
    }
    list_blocked(c, out);
    if (out.keep.empty() && out.release.empty()) list_ruled_out(c, out);
    return out;
}

}  // namespace levelswap
