#include "wiring_search.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

namespace {

void add_parts(std::vector<int>& key, Assignment const& parts, auto const& positions) {
    for (int p : positions) key.push_back(p < 0 ? nothing : parts[static_cast<std::size_t>(p)]);
}

}  // namespace

WiringMemo::WiringMemo() : entries(std::make_unique<Entries>()) {}
WiringMemo::~WiringMemo() = default;

WiringSearch::WiringSearch(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside,
                           WiringMemo::Entries& memo, bool assume, Reasons reasons)
    : judge_(judge), parts_(parts), set_aside_(set_aside), memo_(memo), assume_(assume), reasons_(reasons) {
    if (!memo.order.empty()) return;
    memo.order = judge.pair_rules_;
    std::stable_partition(memo.order.begin(), memo.order.end(), [](int rule) {
        auto const id = rule_table()[static_cast<std::size_t>(rule)].id;
        return !id.starts_with("travel.") && !id.starts_with("buoyancy.");
    });
}

bool WiringSearch::unchanged(int p) const {
    return p < 0 || parts_[static_cast<std::size_t>(p)] == judge_.site_.positions[static_cast<std::size_t>(p)].holds;
}

bool WiringSearch::frozen(int function) const {
    int const now = judge_.site_.functions[static_cast<std::size_t>(function)].now.position;
    return now >= 0 && unchanged(now);
}

/// A pair rule depends only on the output, the function and the parts at the positions that it reads.
Truth WiringSearch::pair_truth(Instance const& instance, std::uint64_t reads) {
    auto& key = memo_.rule_key;
    auto const& s = instance.stand;
    key.assign({instance.rule, instance.pack, instance.row, s.function, s.output.position, s.output.output});
    for (std::uint64_t rest = reads; rest; rest &= rest - 1) key.push_back(parts_[static_cast<std::size_t>(std::countr_zero(rest))]);
    auto const known = memo_.rules.find(key);
    if (known != memo_.rules.end()) return known->second;
    return memo_.rules.emplace(key, judge_.truth_of(instance, parts_, assume_)).first->second;
}

PairGist WiringSearch::judge_pair(int function, OutputRef output) {
    Stand const stand = stand_of(judge_.site_, function, output);
    PairGist gist{true, Truth::holds, 0};
    for (int rule : memo_.order)
        for (Instance instance : judge_.figures_[static_cast<std::size_t>(rule)]) {
            instance.stand = stand;
            if (std::find(set_aside_.begin(), set_aside_.end(), instance) != set_aside_.end()) continue;
            std::uint64_t const reads = judge_.positions_read(instance) | bit_of(output.position);
            Truth const t = pair_truth(instance, reads);
            if (t == Truth::holds) continue;
            if (reasons_ == Reasons::all) gist.open |= reads;
            else if (t < gist.truth) gist.open = reads;
            gist.truth = both(gist.truth, t);
            if (t == Truth::fails && reasons_ == Reasons::one) return gist;
        }
    return gist;
}

PairGist const& WiringSearch::pair(int function, OutputRef output) {
    auto const& site = judge_.site_;
    int const held = parts_[static_cast<std::size_t>(output.position)];
    int const station = site.positions[static_cast<std::size_t>(output.position)].station;
    int const circuit = site.functions[static_cast<std::size_t>(function)].circuit;
    auto& key = memo_.key;
    key.assign({function, output.position});
    add_parts(key, parts_, site.stations[static_cast<std::size_t>(station)].positions);
    if (circuit >= 0) add_parts(key, parts_, site.circuits[static_cast<std::size_t>(circuit)].positions);
    if (int const line = judge_.line_for(stand_of(site, function, output)); line >= 0)
        add_parts(key, parts_, site.lines[static_cast<std::size_t>(line)].positions);
    auto it = memo_.pairs.find(key);
    if (it == memo_.pairs.end())
        it = memo_.pairs.emplace(key, judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs.size()).first;
    auto& known = it->second[static_cast<std::size_t>(output.output)];
    if (!known.judged) known = judge_pair(function, output);
    return known;
}

/// Frozen where neither end changes; otherwise every output that nobody else keeps, those of the old place first and
/// among them the namesake of the old one.
std::vector<OutputRef> WiringSearch::candidates(int function) const {
    auto const& site = judge_.site_;
    auto const& f = site.functions[static_cast<std::size_t>(function)];
    auto outputs_at = [&](int p) -> std::vector<Output> const& {
        return judge_.catalog_.parts[static_cast<std::size_t>(parts_[static_cast<std::size_t>(p)])].outputs;
    };
    std::vector<OutputRef> found;
    auto list_at = [&](int p) {
        if (parts_[static_cast<std::size_t>(p)] == nothing || !has_outputs(site.positions[static_cast<std::size_t>(p)].role)) return;
        bool const kept_here = unchanged(p);
        for (int o = 0; o < static_cast<int>(outputs_at(p).size()); ++o) {
            OutputRef const here{p, o};
            bool const kept = kept_here && std::any_of(site.functions.begin(), site.functions.end(),
                                                       [&](Function const& g) { return g.now == here && &g != &f; });
            if (!kept) found.push_back(here);
        }
    };
    if (frozen(function)) {
        bool const there = parts_[static_cast<std::size_t>(f.now.position)] != nothing &&
                           f.now.output < static_cast<int>(outputs_at(f.now.position).size());
        return there ? std::vector{f.now} : found;
    }
    if (f.now.position >= 0) list_at(f.now.position);
    std::size_t const near = found.size();
    for (int p = 0; p < static_cast<int>(site.positions.size()); ++p)
        if (p != f.now.position) list_at(p);
    if (found.size() < 2 || f.now.position < 0) return found;
    int const held = site.positions[static_cast<std::size_t>(f.now.position)].holds;
    if (held == nothing) return found;
    auto const& old = judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs[static_cast<std::size_t>(f.now.output)].name;
    auto namesake = [&](OutputRef const& r) { return outputs_at(r.position)[static_cast<std::size_t>(r.output)].name == old; };
    auto const middle = found.begin() + static_cast<std::ptrdiff_t>(near);
    std::stable_partition(found.begin(), middle, namesake);
    std::stable_partition(middle, found.end(), namesake);
    return found;
}

bool WiringSearch::list(int function) {
    auto& found = choices_[static_cast<std::size_t>(function)];
    for (OutputRef const& output : candidates(function)) {
        PairGist const& p = pair(function, output);
        if (p.truth == Truth::fails) failing_ |= p.open;
        else found.push_back({output, p});
    }
    return !found.empty();
}

bool WiringSearch::aside(Instance i, int function, OutputRef output) const {
    if (set_aside_.empty()) return false;
    i.stand = stand_of(judge_.site_, function, output);
    return std::find(set_aside_.begin(), set_aside_.end(), i) != set_aside_.end();
}

Heights const& WiringSearch::heights(int function, OutputRef output) {
    auto const& site = judge_.site_;
    auto& key = memo_.key;
    key.assign({function, output.position, output.output});   // an elevation is named after its function
    int const station = site.positions[static_cast<std::size_t>(output.position)].station;
    add_parts(key, parts_, site.stations[static_cast<std::size_t>(station)].positions);
    auto it = memo_.heights.find(key);
    if (it == memo_.heights.end()) {
        LevelBuilder const builder(judge_, parts_, assume_, set_aside_);
        it = memo_.heights.emplace(key, Heights{static_cast<int>(memo_.heights.size()),
                                                builder.output_elevation(function, output, false),
                                                builder.output_elevation(function, output, true)}).first;
    }
    return it->second;
}

WiringGist WiringSearch::levels() {
    std::vector<std::pair<Elevation const*, Elevation const*>> known;
    std::vector<int> key;
    for (std::size_t f = 0; f < chosen_.size(); ++f) {
        auto const& h = heights(static_cast<int>(f), chosen_[f]);
        known.emplace_back(&h.falling, &h.rising);
        key.push_back(h.id);
    }
    for (int p : judge_.level_positions_) key.push_back(parts_[static_cast<std::size_t>(p)]);
    auto const it = memo_.levels.find(key);
    if (it != memo_.levels.end()) return it->second;
    Wiring w;
    w.output = chosen_;
    return memo_.levels.emplace(std::move(key), LevelBuilder(judge_, parts_, assume_, set_aside_).gist(w, known)).first->second;
}

/// Levels that no output has part in refuse every wiring.
WiringGist WiringSearch::levels_without_outputs() {
    std::vector<int> key{-1};
    for (int p : judge_.level_positions_) key.push_back(parts_[static_cast<std::size_t>(p)]);
    auto const it = memo_.levels.find(key);
    if (it != memo_.levels.end()) return it->second;
    return memo_.levels.emplace(std::move(key), LevelBuilder(judge_, parts_, assume_, set_aside_).gist_without_outputs()).first->second;
}

/// A wiring with an output for every function. Levels cannot make it better than it is, so they are solved only
/// where they may matter.
void WiringSearch::complete(Truth so_far, std::uint64_t open) {
    ++count_;
    bool const pointless = so_far == Truth::undecided && best_.truth == Truth::undecided && reasons_ == Reasons::one;
    if (!pointless) {
        auto const l = levels();
        if (reasons_ == Reasons::all && l.truth != Truth::holds) open |= l.blamed;
        else if (l.truth < so_far) open = l.blamed;
        so_far = both(so_far, l.truth);
    }
    best_.blamed |= open;
    if (best_output_.empty() || so_far > best_.truth) best_output_ = chosen_;
    best_.truth = std::max(best_.truth, so_far);
}

/// `open`: positions read by one thing that does not hold so far (or by all). A wiring that fails, or is undecided,
/// is mended only by a change to what that one thing reads, or by other outputs.
void WiringSearch::search(std::size_t function, Truth so_far, std::uint64_t open) {
    if (best_.truth == Truth::holds || cut_short_) return;
    if (function == choices_.size()) {
        cut_short_ = count_ == most_wirings;
        if (!cut_short_) complete(so_far, open);
        return;
    }
    for (auto const& choice : choices_[function]) {
        if (std::find(chosen_.begin(), chosen_.end(), choice.output) != chosen_.end()) continue;
        Truth truth = so_far;
        std::uint64_t because = open;
        auto weigh = [&](Truth t, std::uint64_t positions) {
            if (t == Truth::holds) return;
            if (reasons_ == Reasons::all) because |= positions;
            else if (t < truth) because = positions;
            truth = both(truth, t);
        };
        weigh(choice.pair.truth, choice.pair.open);
        for (std::size_t g = 0; g < function && truth != Truth::fails; ++g) {
            auto const rules = together(judge_, parts_, static_cast<int>(g), chosen_[g], static_cast<int>(function), choice.output);
            for (int i = 0; i < rules.count; ++i) {
                auto const& r = rules.rule[static_cast<std::size_t>(i)];
                if (r.truth != Truth::holds && !aside(r.instance, static_cast<int>(function), choice.output)) weigh(r.truth, r.positions);
            }
        }
        if (truth == Truth::fails) {
            best_.blamed |= because;
            continue;
        }
        chosen_.push_back(choice.output);
        search(function + 1, truth, because);
        chosen_.pop_back();
    }
}

bool WiringSearch::first_complete(std::size_t function, std::vector<OutputRef>& chosen) const {
    if (function == choices_.size()) return true;
    for (auto const& choice : choices_[function]) {
        if (std::find(chosen.begin(), chosen.end(), choice.output) != chosen.end()) continue;
        chosen.push_back(choice.output);
        if (first_complete(function + 1, chosen)) return true;
        chosen.pop_back();
    }
    return false;
}

std::optional<std::vector<OutputRef>> WiringSearch::best() const {
    if (!best_output_.empty() || choices_.empty()) return best_output_;
    std::vector<OutputRef> chosen;
    return first_complete(0, chosen) ? std::optional{chosen} : std::nullopt;
}

/// A function keeps its output while the part that has it stays: then a change elsewhere brings it no other output,
/// and only what its one pair reads can mend it. Otherwise any part with outputs may bring one.
WiringGist WiringSearch::run() {
    auto const& site = judge_.site_;
    bool const levels_refuse = [&] {
        best_ = levels_without_outputs();
        return best_.truth == Truth::fails;
    }();
    std::uint64_t const refused_by = best_.blamed;
    best_ = {Truth::fails, 0};
    choices_.resize(site.functions.size());
    std::uint64_t others = 0;   // what can bring other wirings
    bool all_served = true;
    for (int f = 0; f < static_cast<int>(site.functions.size()); ++f) {
        failing_ = 0;
        bool const served = list(f);
        if (!frozen(f)) failing_ |= judge_.with_outputs_;
        if (!served && reasons_ == Reasons::one && !levels_refuse)
            return {Truth::fails, failing_ | (frozen(f) ? bit_of(site.functions[static_cast<std::size_t>(f)].now.position) : 0)};
        all_served &= served;
        others |= failing_;
    }
    if (levels_refuse) return {Truth::fails, refused_by};
    if (all_served) search(0, Truth::holds, 0);
    if (best_.truth == Truth::holds) return site.functions_complete ? best_ : WiringGist{Truth::undecided, judge_.with_outputs_};
    // Among the wirings that were not tried one may hold: that none of the others does proves nothing.
    if (cut_short_) return {Truth::undecided, ~std::uint64_t{0}};
    return {best_.truth, best_.blamed | others};
}

WiringGist Judge::wiring_gist(Assignment const& parts, std::vector<Instance> const& set_aside, WiringMemo& memo) const {
    return WiringSearch(*this, parts, set_aside, *memo.entries).run();
}

}  // namespace levelswap
