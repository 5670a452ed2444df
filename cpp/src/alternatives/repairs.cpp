#include "levelswap/alternatives/repairs.hpp"

#include "candidate_classes.hpp"
#include "levelswap/verdict/nearest_miss.hpp"
#include "levelswap/verdict/rule_tables.hpp"
#include "verdict/parts_hash.hpp"

#include <algorithm>
#include <bit>
#include <map>
#include <unordered_set>
#include <utility>

namespace levelswap {

namespace {

constexpr std::size_t most_checks = 300'000;   // a budget of checks, never of seconds

/// Grows assemblies from the proposed one, always at a requirement that does not hold yet.
///
/// Why this misses nothing: take any repair T that contains the changes made so far. The requirement chosen
/// holds in T and not here, and it depends only on the positions that it reads, so T changes one of those that
/// is still unchanged here; that position is among the branches. A requirement whose positions are all changed
/// already, or may not change, ends the branch. So does a set of failing requirements for which the changes left
/// do not suffice: T changes something that each of them reads. Smaller sets come first, so that nothing is grown
/// from a set that a smaller one has made needless. Candidates that no rule tells apart are tried once.
class Search {
public:
    Search(Judge const& judge, RepairQuery const& query)
        : judge_(judge), query_(query), alike_(judge), fixed_(judge, query.set_aside), reading_(query.start.size()) {
        std::size_t const n = query.start.size();
        for (std::size_t f = 0; f < fixed_.size(); ++f)
            for (std::uint64_t rest = fixed_.positions(f); rest; rest &= rest - 1)
                reading_[static_cast<std::size_t>(std::countr_zero(rest))].push_back(f);
        for (std::size_t p = 0; p < n; ++p)
            if (has_outputs(judge.site().positions[p].role)) switch_sets_ |= bit_of(static_cast<int>(p));
        classes_.resize(n);
        members_.resize(n);
        for (std::size_t p = 0; p < n; ++p) {
            if (!(query.may_change >> p & 1u)) continue;
            std::vector<int> parts;
            for (int part : alike_.accepted(static_cast<int>(p)))
                if (part != query.start[p] && !barred(p, part)) parts.push_back(part);
            for (auto& c : alike_.of(static_cast<int>(p), parts))
                if (stands_alone(p, c.front())) {
                    members_[p] += c.size();
                    classes_[p].push_back(std::move(c));
                }
        }
    }

    RepairSearch run() {
        Assignment const trial = query_.start;
        std::vector<Truth> truths;
        for (std::size_t f = 0; f < fixed_.size(); ++f) truths.push_back(fixed_.truth(f, trial));
        visit(trial, 0, truths);
        while (!next_.empty())
            for (auto& node : std::exchange(next_, {})) grow(node);
        RepairSearch out;
        out.repairs = minimal(fits_, {});
        out.undecided = minimal(possible_, out.repairs);
        out.checks = checks();
        out.complete = checks() < most_checks;
        return out;
    }

private:
    /// What keeps an assembly from fitting, and the positions of which a repair must change one.
    struct Blame {
        Truth truth = Truth::holds;
        std::uint64_t positions = 0;
    };
    struct Node {
        Assignment parts;
        std::uint64_t changed;
        std::vector<Truth> truths;   ///< of the fixed rules
        std::uint64_t blamed;        ///< positions to change next
    };
    using Found = std::map<std::uint64_t, std::vector<Assignment>>;

    [[nodiscard]] bool barred(std::size_t p, int part) const {
        return std::find(query_.not_candidates.begin(), query_.not_candidates.end(), std::pair{static_cast<int>(p), part}) !=
               query_.not_candidates.end();
    }
    /// Rules that read this position and no other: a candidate that fails one is out everywhere.
    bool stands_alone(std::size_t position, int part) {
        Assignment trial = query_.start;
        trial[position] = part;
        return std::all_of(reading_[position].begin(), reading_[position].end(), [&](std::size_t f) {
            return fixed_.positions(f) != bit_of(static_cast<int>(position)) || fixed_.truth(f, trial) != Truth::fails;
        });
    }
    [[nodiscard]] std::size_t checks() const { return wirings_asked_ + fixed_.asked(); }

    std::size_t branches(std::uint64_t positions, std::uint64_t changed) const {
        std::size_t n = 0;
        for (std::uint64_t rest = positions & ~changed; rest; rest &= rest - 1)
            n += members_[static_cast<std::size_t>(std::countr_zero(rest))];
        return n;
    }

    /// Failing requirements first, then undecided ones; among them the one that leaves the fewest branches.
    Blame blame(Assignment const& parts, std::uint64_t changed, std::vector<Truth> const& truths) {
        Blame worst;
        std::size_t fewest = SIZE_MAX;
        for (std::size_t f = 0; f < fixed_.size(); ++f) {
            Truth const t = truths[f];
            if (t == Truth::holds) continue;
            std::size_t const n = branches(fixed_.positions(f), changed);
            if (t < worst.truth || (t == worst.truth && n < fewest)) {
                worst = {t, fixed_.positions(f)};
                fewest = n;
            }
        }
        if (worst.truth == Truth::fails) return worst;
        ++wirings_asked_;
        auto const wiring = judge_.wiring_gist(parts, query_.set_aside, wirings_);
        if (wiring.truth >= worst.truth) return worst;
        // When nothing fails, every reason counts: each may lead to another assembly that is still possible.
        if (!changed && wiring.truth == Truth::undecided)
            return {wiring.truth, judge_.judge_wiring(parts, query_.set_aside).blamed | switch_sets_};
        return {wiring.truth, wiring.blamed};
    }

    /// Can `left` more changes mend all that is not as wanted, apart from rules that read one of `except`? Requirements that
    /// share no position need a change each.
    bool mendable(std::vector<Truth> const& truths, std::uint64_t changed, int left, Truth wanted,
                  std::uint64_t except = 0) const {
        std::uint64_t taken = 0, shared = ~std::uint64_t{0};
        int apart = 0;
        for (std::size_t f = 0; f < fixed_.size(); ++f) {
            if (truths[f] >= wanted || (fixed_.positions(f) & except)) continue;
            std::uint64_t const open = fixed_.positions(f) & ~changed & query_.may_change;
            shared &= open;
            if (!open || left == 0 || (left == 1 && !shared)) return false;
            if (open & taken) continue;
            taken |= open;
            if (++apart > left) return false;
        }
        return true;
    }

    /// Is a smaller set known already?
    static bool covered(Found const& found, std::uint64_t changed, bool itself) {
        return std::any_of(found.begin(), found.end(), [&](auto const& f) {
            return (f.first & changed) == f.first && (itself || f.first != changed);
        });
    }

    /// Judges an assembly; it is grown further in the next round, when all sets as small as this one are known.
    void visit(Assignment const& parts, std::uint64_t changed, std::vector<Truth> const& truths) {
        if (checks() >= most_checks || !seen_.insert(parts).second) return;
        Blame const b = blame(parts, changed, truths);
        if (changed && b.truth == Truth::holds) return (void)(fits_[changed].push_back(parts));
        if (changed && b.truth == Truth::undecided) possible_[changed].push_back(parts);
        if (std::popcount(changed) < query_.most_changes) next_.push_back({parts, changed, truths, b.positions});
    }

    void grow(Node& node) {
        if (covered(fits_, node.changed, true)) return;
        int const left = query_.most_changes - std::popcount(node.changed) - 1;
        for (std::uint64_t rest = node.blamed & ~node.changed & query_.may_change; rest; rest &= rest - 1) {
            auto const p = static_cast<std::size_t>(std::countr_zero(rest));
            std::uint64_t const changed = node.changed | bit_of(static_cast<int>(p));
            if (covered(fits_, changed, false)) continue;
            // Where a smaller set is possible already, only what fits still counts.
            Truth const wanted = covered(possible_, changed, false) ? Truth::holds : Truth::undecided;
            if (mendable(node.truths, changed, left, wanted, bit_of(static_cast<int>(p)))) try_all(p, node, changed, left, wanted);
        }
    }

    void try_all(std::size_t p, Node& node, std::uint64_t changed, int left, Truth wanted) {
        int const before = node.parts[p];
        std::vector<Truth> next = node.truths;
        for (auto const& c : classes_[p]) {
            node.parts[p] = c.front();
            bool hopeless = false;
            for (std::size_t f : reading_[p]) {
                next[f] = fixed_.truth(f, node.parts);
                hopeless = next[f] < wanted && (left == 0 || !(fixed_.positions(f) & ~changed & query_.may_change));
                if (hopeless) break;
            }
            if (!hopeless && mendable(next, changed, left, wanted)) visit(node.parts, changed, next);
        }
        node.parts[p] = before;
    }

    /// The sets none of whose subsets is among them or among `smaller`.
    std::vector<RepairSet> minimal(Found const& found, std::vector<RepairSet> const& smaller) const {
        std::vector<RepairSet> out;
        for (auto const& [positions, tuples] : found) {
            auto within = [&, s = positions](std::uint64_t other) { return (other & s) == other; };
            bool const has_smaller =
                std::any_of(found.begin(), found.end(), [&](auto const& f) { return f.first != positions && within(f.first); }) ||
                std::any_of(smaller.begin(), smaller.end(), [&](auto const& f) { return within(f.positions); });
            if (has_smaller) continue;
            RepairSet set;
            set.positions = positions;
            for (auto const& parts : tuples) spread(parts, positions, set);
            std::sort(set.parts.begin(), set.parts.end());
            out.push_back(std::move(set));
        }
        return out;
    }

    /// Puts every part of each class in the place of the one that was tried.
    void spread(Assignment const& parts, std::uint64_t positions, RepairSet& set) const {
        std::vector<Assignment> tuples{parts};
        std::size_t total = 1;
        for (std::uint64_t rest = positions; rest; rest &= rest - 1) {
            auto const p = static_cast<std::size_t>(std::countr_zero(rest));
            auto const c = std::find_if(classes_[p].begin(), classes_[p].end(), [&](auto const& x) { return x.front() == parts[p]; });
            total *= c->size();
            std::vector<Assignment> wider;
            for (int const part : alike_.cheapest(*c, most_alike_listed))
                for (auto const& tuple : tuples) {
                    wider.push_back(tuple);
                    wider.back()[p] = part;
                }
            tuples = std::move(wider);
        }
        set.total += total;
        set.parts.insert(set.parts.end(), tuples.begin(), tuples.end());
    }

    Judge const& judge_;
    RepairQuery const& query_;
    CandidateClasses alike_;
    std::vector<std::vector<std::vector<int>>> classes_;   ///< by position: candidates that no rule tells apart
    std::vector<std::size_t> members_;                     ///< by position: candidates in all classes
    RuleTables fixed_;                                     ///< the rules that no wiring changes
    std::vector<std::vector<std::size_t>> reading_;        ///< by position: the fixed rules that read it
    std::uint64_t switch_sets_ = 0;
    std::unordered_set<Assignment, PartsHash> seen_;
    WiringMemo wirings_;
    std::vector<Node> next_;
    Found fits_, possible_;
    std::size_t wirings_asked_ = 0;
};

}  // namespace

std::vector<int> candidates_for(Judge const& judge, int position) {
    auto const kinds = accepted_kinds(judge.site().positions[static_cast<std::size_t>(position)].role);
    std::vector<int> found;
    auto const& parts = judge.catalog().parts;
    for (int i = 0; i < static_cast<int>(parts.size()); ++i)
        if (std::find(kinds.begin(), kinds.end(), parts[static_cast<std::size_t>(i)].kind) != kinds.end()) found.push_back(i);
    found.push_back(nothing);
    return found;
}

RepairSearch find_repairs(Judge const& judge, RepairQuery const& query) { return Search(judge, query).run(); }

FirstFailure first_failure(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside) {
    FirstFailure open;
    for (auto const& i : judge.required()) {
        if (std::find(set_aside.begin(), set_aside.end(), i) != set_aside.end()) continue;
        Truth const t = judge.truth_of(i, parts);
        if (t == Truth::fails) return {i.rule, t};
        if (t == Truth::undecided && open.rule < 0) open = {i.rule, t};
    }
    auto const j = judge.judge_wiring(parts, set_aside);
    for (auto const& options : j.options) {
        if (options.empty()) return {rule_index("roles.output"), Truth::fails};
        if (auto const* nearest = nearest_miss(judge, parts, options))
            return {std::find_if(nearest->begin(), nearest->end(), [](Judged const& r) { return r.truth == Truth::fails; })->instance.rule, Truth::fails};
    }
    if (!j.wiring) return {-1, j.truth};
    for (auto const& w : j.wiring->whole)
        if (w.truth == Truth::fails) return {w.instance.rule, Truth::fails};
    for (auto const& l : j.wiring->levels)
        if (l.in_conflict) return {l.rule, Truth::fails};
    if (open.rule >= 0) return open;
    for (auto const& r : j.wiring->pairs)
        if (r.truth == Truth::undecided) return {r.instance.rule, Truth::undecided};
    for (auto const& w : j.wiring->whole)
        if (w.truth == Truth::undecided) return {w.instance.rule, Truth::undecided};
    for (auto const& l : j.wiring->levels)
        if (l.alone == Truth::undecided) return {l.rule, Truth::undecided};
    if (j.wiring->levels_truth == Truth::undecided) return {rule_index("levels.mounting"), Truth::undecided};
    return {-1, j.truth};
}

}  // namespace levelswap
