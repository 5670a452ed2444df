#include "levelswap/alternatives/repairs.hpp"

#include <algorithm>
#include <bit>
#include <map>
#include <unordered_map>

namespace levelswap {

namespace {

constexpr std::size_t most_checks = 300'000;   // a budget of checks, never of seconds

struct KeyHash {
    std::size_t operator()(std::vector<int> const& key) const {
        std::size_t h = 1469598103934665603ull;
        for (int k : key) h = (h ^ static_cast<std::size_t>(k + 7)) * 1099511628211ull;
        return h;
    }
};

/// Grows assemblies from the proposed one, always at a requirement that does not hold yet.
///
/// Why this misses nothing: take any repair T that contains the changes made so far. The requirement chosen
/// holds in T and not here, and it depends only on the positions that it reads, so T changes one of those that
/// is still unchanged here; that position is among the branches. A requirement whose positions are all changed
/// already, or may not change, ends the branch.
class Search {
public:
    Search(Judge const& judge, RepairQuery const& query) : judge_(judge), query_(query) {
        std::size_t const n = query.start.size();
        for (auto const& j : judge.judge(query.start).fixed)
            if (std::find(query.set_aside.begin(), query.set_aside.end(), j.instance) == query.set_aside.end())
                fixed_.push_back({j.instance, j.positions});
        auto const& site = judge.site();
        for (std::size_t p = 0; p < n; ++p)
            if (site.positions[p].role == Role::switch_set) switch_sets_ |= bit(p);
        candidates_.resize(n);
        for (std::size_t p = 0; p < n; ++p) {
            if (!(query.may_change >> p & 1u)) continue;
            for (int part : candidates_for(judge, static_cast<int>(p))) {
                bool const barred = std::find(query.not_candidates.begin(), query.not_candidates.end(),
                                              std::pair{static_cast<int>(p), part}) != query.not_candidates.end();
                if (part != query.start[p] && !barred && stands_alone(p, part)) candidates_[p].push_back(part);
            }
        }
    }

    RepairSearch run() {
        Assignment trial = query_.start;
        grow(trial, 0);
        RepairSearch out;
        out.repairs = minimal(fits_, {});
        out.undecided = minimal(possible_, out.repairs);
        out.checks = checks_;
        out.complete = checks_ < most_checks;
        return out;
    }

private:
    struct Fixed {
        Instance instance;
        std::uint64_t positions;
    };
    /// What keeps an assembly from fitting, and the positions of which a repair must change one.
    struct Blame {
        Truth truth = Truth::holds;
        std::uint64_t positions = 0;
    };

    static std::uint64_t bit(std::size_t p) { return std::uint64_t{1} << p; }

    /// Rules that read this position and no other: a candidate that fails one is out everywhere.
    bool stands_alone(std::size_t position, int part) {
        Assignment trial = query_.start;
        trial[position] = part;
        return std::all_of(fixed_.begin(), fixed_.end(), [&](Fixed const& f) {
            return f.positions != bit(position) || fixed_truth(f, trial) != Truth::fails;
        });
    }
    /// A fixed rule depends only on the parts at the positions it reads: judged once for each tuple of them.
    Truth fixed_truth(Fixed const& f, Assignment const& parts) {
        std::vector<int> key{static_cast<int>(&f - fixed_.data())};
        for (std::uint64_t rest = f.positions; rest; rest &= rest - 1)
            key.push_back(parts[static_cast<std::size_t>(std::countr_zero(rest))]);
        auto const [it, fresh] = memo_.try_emplace(std::move(key), Truth::holds);
        if (fresh) {
            ++checks_;
            it->second = judge_.truth_of(f.instance, parts);
        }
        return it->second;
    }

    std::size_t branches(std::uint64_t positions, std::uint64_t changed) const {
        std::size_t n = 0;
        for (std::uint64_t rest = positions & ~changed; rest; rest &= rest - 1)
            n += candidates_[static_cast<std::size_t>(std::countr_zero(rest))].size();
        return n;
    }

    /// Failing requirements first, then undecided ones; among them the one that leaves the fewest branches.
    Blame blame(Assignment const& parts, std::uint64_t changed) {
        Blame worst;
        std::size_t fewest = SIZE_MAX;
        for (auto const& f : fixed_) {
            Truth const t = fixed_truth(f, parts);
            if (t == Truth::holds) continue;
            std::size_t const n = branches(f.positions, changed);
            if (t < worst.truth || (t == worst.truth && n < fewest)) {
                worst = {t, f.positions};
                fewest = n;
                if (t == Truth::fails && n == 0) return worst;
            }
        }
        if (worst.truth == Truth::fails) return worst;
        Blame const of_wiring = blame_wiring(parts);
        return of_wiring.truth < worst.truth ? of_wiring : worst;
    }

    Blame blame_wiring(Assignment const& parts) {
        ++checks_;
        auto const j = judge_.judge_wiring(parts, query_.set_aside, &wirings_);
        if (j.truth == Truth::holds) return {};
        for (auto const& options : j.options) {
            std::uint64_t reads = switch_sets_;
            bool served = false;
            for (auto const& o : options) {
                std::uint64_t const failing = positions_failing(o.second);
                served |= failing == 0;
                reads |= failing;
            }
            if (!served) return {Truth::fails, reads};
        }
        return {j.truth, j.blamed | switch_sets_};
    }

    /// Positions read by the rules that fail; 0 when none does (every pair rule reads its output's position).
    static std::uint64_t positions_failing(std::vector<Judged> const& rules) {
        std::uint64_t all = 0;
        for (auto const& r : rules)
            if (r.truth == Truth::fails) all |= r.positions;
        return all;
    }

    void grow(Assignment& parts, std::uint64_t changed) {
        if (checks_ >= most_checks) return;
        std::vector<int> key(parts.begin(), parts.end());
        if (!seen_.try_emplace(std::move(key), Truth::holds).second) return;
        Blame const b = blame(parts, changed);
        if (changed && b.truth == Truth::holds) return (void)(fits_[changed].push_back(parts));
        if (changed && b.truth == Truth::undecided) possible_[changed].push_back(parts);
        if (std::popcount(changed) >= query_.most_changes) return;
        for (std::uint64_t rest = b.positions & ~changed & query_.may_change; rest; rest &= rest - 1) {
            auto const p = static_cast<std::size_t>(std::countr_zero(rest));
            int const before = parts[p];
            for (int part : candidates_[p]) {
                parts[p] = part;
                grow(parts, changed | bit(p));
            }
            parts[p] = before;
        }
    }

    using Found = std::map<std::uint64_t, std::vector<Assignment>>;

    /// The sets none of whose subsets is among them or among `smaller`.
    static std::vector<RepairSet> minimal(Found const& found, std::vector<RepairSet> const& smaller) {
        std::vector<RepairSet> out;
        for (auto const& [positions, parts] : found) {
            auto within = [&, s = positions](std::uint64_t other) { return (other & s) == other; };
            bool const has_smaller =
                std::any_of(found.begin(), found.end(), [&](auto const& f) { return f.first != positions && within(f.first); }) ||
                std::any_of(smaller.begin(), smaller.end(), [&](auto const& f) { return within(f.positions); });
            if (has_smaller) continue;
            RepairSet set;
            set.positions = positions;
            set.parts = parts;
            std::sort(set.parts.begin(), set.parts.end());
            set.total = set.parts.size();
            out.push_back(std::move(set));
        }
        return out;
    }

    Judge const& judge_;
    RepairQuery const& query_;
    std::vector<std::vector<int>> candidates_;   ///< by position
    std::vector<Fixed> fixed_;
    std::uint64_t switch_sets_ = 0;
    std::unordered_map<std::vector<int>, Truth, KeyHash> memo_, seen_;
    WiringMemo wirings_;
    Found fits_, possible_;
    std::size_t checks_ = 0;
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
    auto aside = [&](Instance const& i) { return std::find(set_aside.begin(), set_aside.end(), i) != set_aside.end(); };
    auto const j = judge.judge(parts);
    FirstFailure open;
    for (auto const& f : j.fixed) {
        if (aside(f.instance)) continue;
        if (f.truth == Truth::fails) return {f.instance.rule, Truth::fails};
        if (f.truth == Truth::undecided && open.rule < 0) open = {f.instance.rule, Truth::undecided};
    }
    for (auto const& options : j.options) {
        int first = -1;
        bool any = false;
        for (auto const& [output, rules] : options) {
            auto const bad = std::find_if(rules.begin(), rules.end(), [&](Judged const& r) {
                return r.truth == Truth::fails && !aside(r.instance);
            });
            if (bad == rules.end()) any = true;
            else if (first < 0) first = bad->instance.rule;
        }
        if (!any) return {first < 0 ? rule_index("roles.output") : first, Truth::fails};
    }
    if (!j.wiring) return {-1, j.truth};
    for (auto const& w : j.wiring->whole)
        if (w.truth == Truth::fails) return {w.instance.rule, Truth::fails};
    for (auto const& l : j.wiring->levels)
        if (l.in_conflict) return {l.rule, Truth::fails};
    if (open.rule >= 0) return open;
    for (auto const& r : j.wiring->pairs)
        if (r.truth == Truth::undecided) return {r.instance.rule, Truth::undecided};
    return {-1, j.truth};
}

}  // namespace levelswap
