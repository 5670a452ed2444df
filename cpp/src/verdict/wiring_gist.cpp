#include "wiring_gist.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

namespace {

std::uint64_t bit(int position) { return std::uint64_t{1} << position; }

void add_parts(std::vector<int>& key, Assignment const& parts, auto const& positions) {
    for (int p : positions) key.push_back(p < 0 ? nothing : parts[static_cast<std::size_t>(p)]);
}

}  // namespace

WiringMemo::WiringMemo() : entries(std::make_unique<Entries>()) {}
WiringMemo::~WiringMemo() = default;

GistSearch::GistSearch(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside,
                       WiringMemo::Entries& memo)
    : judge_(judge), parts_(parts), set_aside_(set_aside), memo_(memo) {
    if (!memo.order.empty()) return;
    memo.order = judge.pair_rules_;
    std::stable_partition(memo.order.begin(), memo.order.end(), [](int rule) {
        auto const id = rule_table()[static_cast<std::size_t>(rule)].id;
        return !id.starts_with("travel.") && !id.starts_with("buoyancy.");
    });
}

bool GistSearch::unchanged(int p) const {
    return p < 0 || parts_[static_cast<std::size_t>(p)] == judge_.site_.positions[static_cast<std::size_t>(p)].holds;
}

/// A pair rule depends only on the output, the function and the parts at the positions that it reads.
Truth GistSearch::pair_truth(Instance const& instance, std::uint64_t reads) {
    auto& key = memo_.rule_key;
    auto const& s = instance.stand;
    key.assign({instance.rule, instance.pack, instance.row, s.function, s.output.position, s.output.output});
    for (std::uint64_t rest = reads; rest; rest &= rest - 1) key.push_back(parts_[static_cast<std::size_t>(std::countr_zero(rest))]);
    auto const known = memo_.rules.find(key);
    if (known != memo_.rules.end()) return known->second;
    return memo_.rules.emplace(key, judge_.truth_of(instance, parts_)).first->second;
}

PairGist GistSearch::judge_pair(int function, OutputRef output) {
    auto const& site = judge_.site_;
    Stand stand;
    stand.output = output;
    stand.function = function;
    stand.station = site.positions[static_cast<std::size_t>(output.position)].station;
    stand.circuit = site.functions[static_cast<std::size_t>(function)].circuit;
    PairGist gist{true, Truth::holds, 0};
    for (int rule : memo_.order)
        for (Instance instance : judge_.figures_[static_cast<std::size_t>(rule)]) {
            instance.stand = stand;
            if (std::find(set_aside_.begin(), set_aside_.end(), instance) != set_aside_.end()) continue;
            std::uint64_t const reads = judge_.positions_read(instance) | bit(output.position);
            Truth const t = pair_truth(instance, reads);
            if (t >= gist.truth) continue;
            gist.truth = t;
            gist.open = reads;
            if (t == Truth::fails) return gist;
        }
    return gist;
}

/// The outputs of the set at one position that no other function keeps, or only one of them.
void GistSearch::list_at(int function, int position, int only) {
    int const held = parts_[static_cast<std::size_t>(position)];
    if (held == nothing) return;
    auto const& site = judge_.site_;
    auto const& outputs = judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs;
    if (outputs.empty()) return;
    auto const& f = site.functions[static_cast<std::size_t>(function)];
    auto& key = memo_.key;
    key.assign({function, position});
    int const station = site.positions[static_cast<std::size_t>(position)].station;
    add_parts(key, parts_, site.stations[static_cast<std::size_t>(station)].positions);
    if (f.circuit >= 0) add_parts(key, parts_, site.circuits[static_cast<std::size_t>(f.circuit)].positions);
    if (int const line = judge_.line_for({.station = station, .circuit = f.circuit}); line >= 0)
        add_parts(key, parts_, site.lines[static_cast<std::size_t>(line)].positions);
    auto it = memo_.pairs.find(key);
    if (it == memo_.pairs.end()) it = memo_.pairs.emplace(key, outputs.size()).first;
    bool const kept_here = unchanged(position);
    for (int o = 0; o < static_cast<int>(outputs.size()); ++o) {
        OutputRef const here{position, o};
        if (only >= 0 && o != only) continue;
        if (only < 0 && kept_here && std::any_of(site.functions.begin(), site.functions.end(),
                                     [&](Function const& g) { return g.now == here && &g != &f; }))
            continue;
        auto& pair = it->second[static_cast<std::size_t>(o)];
        if (!pair.judged) pair = judge_pair(function, here);
        if (pair.truth == Truth::fails) failing_ |= pair.open;
        else choices_[static_cast<std::size_t>(function)].push_back({here, &pair});
    }
}

bool GistSearch::list(int function) {
    auto const& site = judge_.site_;
    auto const now = site.functions[static_cast<std::size_t>(function)].now;
    auto& found = choices_[static_cast<std::size_t>(function)];
    bool const frozen = now.position >= 0 && unchanged(now.position);   // where neither end changes
    if (now.position >= 0) list_at(function, now.position, frozen ? now.output : -1);
    if (frozen) return !found.empty();
    for (int p = 0; p < static_cast<int>(site.positions.size()); ++p)
        if (p != now.position && has_outputs(site.positions[static_cast<std::size_t>(p)].role)) list_at(function, p, -1);
    return !found.empty();
}

bool GistSearch::aside(int rule, std::size_t function) const {
    if (set_aside_.empty()) return false;
    Instance i;
    i.rule = rule;
    i.stand.function = static_cast<int>(function);
    i.stand.output = chosen_[function];
    i.stand.station = judge_.site_.positions[static_cast<std::size_t>(chosen_[function].position)].station;
    i.stand.circuit = judge_.site_.functions[function].circuit;
    return std::find(set_aside_.begin(), set_aside_.end(), i) != set_aside_.end();
}

/// The rules on a pair of functions, as WiringSearch::whole_rules has them.
Truth GistSearch::together(std::size_t f, std::size_t g) const {
    static int const common = rule_index("contacts.common"), independent = rule_index("roles.independent"),
                     shared_relay = rule_index("contacts.shared_relay");
    auto const& site = judge_.site_;
    auto const& x = site.functions[f];
    auto const& y = site.functions[g];
    Truth all = Truth::holds;
    bool const wired = x.circuit >= 0 && y.circuit >= 0;
    if (wired && chosen_[f].position == chosen_[g].position && x.circuit != y.circuit && !aside(common, g)) {
        int const held = parts_[static_cast<std::size_t>(chosen_[f].position)];
        auto const& outputs = judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs;
        auto common_of = [&](OutputRef o) { return outputs[static_cast<std::size_t>(o.output)].facts.find(Attribute::common)->may; };
        auto source = [&](int c) { return site.circuits[static_cast<std::size_t>(c)].facts.find(Attribute::source)->may; };
        all = std::max(differ(common_of(chosen_[f]), common_of(chosen_[g])), agree(source(x.circuit), source(y.circuit)));
    }
    if (!is_cut_off(x.duty) || !is_cut_off(y.duty)) return all;
    auto water = [&](int s) { return site.stations[static_cast<std::size_t>(s)].facts.find(Attribute::water_connection)->may; };
    int const s = site.positions[static_cast<std::size_t>(chosen_[f].position)].station;
    int const t = site.positions[static_cast<std::size_t>(chosen_[g].position)].station;
    if (!aside(independent, g)) all = both(all, s == t ? Truth::fails : differ(water(s), water(t)));
    int const relay = x.circuit < 0 ? -1 : site.circuits[static_cast<std::size_t>(x.circuit)].position(Role::relay);
    bool const shared = x.circuit == y.circuit && relay >= 0 && parts_[static_cast<std::size_t>(relay)] != nothing;
    return shared && !aside(shared_relay, g) ? Truth::fails : all;
}

Heights const& GistSearch::heights(int function, OutputRef output) {
    auto const& site = judge_.site_;
    auto& key = memo_.key;
    key.assign({output.position, output.output});
    int const station = site.positions[static_cast<std::size_t>(output.position)].station;
    add_parts(key, parts_, site.stations[static_cast<std::size_t>(station)].positions);
    auto it = memo_.heights.find(key);
    if (it == memo_.heights.end()) {
        LevelBuilder const builder(judge_, parts_, false);
        it = memo_.heights.emplace(key, Heights{static_cast<int>(memo_.heights.size()),
                                                builder.output_elevation(function, output, false),
                                                builder.output_elevation(function, output, true)}).first;
    }
    return it->second;
}

WiringGist GistSearch::levels() {
    std::vector<std::pair<Elevation const*, Elevation const*>> known;
    std::vector<int> key;
    for (std::size_t f = 0; f < chosen_.size(); ++f) {
        auto const& h = heights(static_cast<int>(f), chosen_[f]);
        known.emplace_back(&h.falling, &h.rising);
        key.push_back(h.id);
    }
    for (auto const& station : judge_.site_.stations)   // the columns of the outputs are in their heights
        if (int const p = station.positions[static_cast<std::size_t>(Role::glass)]; p >= 0)
            key.push_back(parts_[static_cast<std::size_t>(p)]);
    for (auto const& line : judge_.site_.lines)   // how often its pump starts bounds the levels
        if (int const p = line.position(Role::pump); p >= 0) key.push_back(parts_[static_cast<std::size_t>(p)]);
    auto const it = memo_.levels.find(key);
    if (it != memo_.levels.end()) return it->second;
    Wiring w;
    w.output = chosen_;
    return memo_.levels.emplace(std::move(key), LevelBuilder(judge_, parts_, false).gist(w, known)).first->second;
}

/// `open`: positions read by one thing that does not hold so far. A wiring that fails, or is undecided, is mended
/// only by a change to what that one thing reads, or by other outputs.
void GistSearch::search(std::size_t function, Truth so_far, std::uint64_t open) {
    if (best_.truth == Truth::holds || count_ >= most_wirings) return;
    if (function == choices_.size()) {
        ++count_;
        if (!(so_far == Truth::undecided && best_.truth == Truth::undecided)) {
            auto const l = levels();
            if (l.truth < so_far) so_far = l.truth, open = l.blamed;
        }
        best_.blamed |= open;
        best_.truth = std::max(best_.truth, so_far);
        return;
    }
    for (auto const& choice : choices_[function]) {
        if (std::find(chosen_.begin(), chosen_.end(), choice.output) != chosen_.end()) continue;
        chosen_.push_back(choice.output);
        Truth truth = so_far;
        std::uint64_t because = open;
        if (choice.pair->truth < truth) truth = choice.pair->truth, because = choice.pair->open;
        for (std::size_t g = 0; g < function && truth != Truth::fails; ++g) {
            Truth const t = together(g, function);
            if (t < truth) truth = t, because = bit(chosen_[g].position) | bit(choice.output.position);
        }
        if (truth == Truth::fails) best_.blamed |= because;
        else search(function + 1, truth, because);
        chosen_.pop_back();
    }
}

bool GistSearch::frozen(int function) const {
    int const now = judge_.site_.functions[static_cast<std::size_t>(function)].now.position;
    return now >= 0 && unchanged(now);
}

/// Levels that no output has part in refuse every wiring.
WiringGist GistSearch::levels_without_outputs() {
    std::vector<int> key{-1};
    for (auto const& station : judge_.site_.stations)
        if (int const p = station.positions[static_cast<std::size_t>(Role::glass)]; p >= 0)
            key.push_back(parts_[static_cast<std::size_t>(p)]);
    for (auto const& line : judge_.site_.lines)   // how often its pump starts bounds the levels
        if (int const p = line.position(Role::pump); p >= 0) key.push_back(parts_[static_cast<std::size_t>(p)]);
    auto const it = memo_.levels.find(key);
    if (it != memo_.levels.end()) return it->second;
    return memo_.levels.emplace(std::move(key), LevelBuilder(judge_, parts_, false).gist_without_outputs()).first->second;
}

/// A function keeps its output while its switch set stays: then a change elsewhere brings it no other output, and
/// only what its one pair reads can mend it. Otherwise any switch set may bring an output.
WiringGist GistSearch::run() {
    auto const& site = judge_.site_;
    if (auto const l = levels_without_outputs(); l.truth == Truth::fails) return l;
    std::uint64_t sets = 0;
    for (int p = 0; p < static_cast<int>(site.positions.size()); ++p)
        if (has_outputs(site.positions[static_cast<std::size_t>(p)].role)) sets |= bit(p);
    choices_.resize(site.functions.size());
    std::uint64_t others = 0;   // what can bring other wirings
    for (int f = 0; f < static_cast<int>(site.functions.size()); ++f) {
        failing_ = 0;
        bool const served = list(f);
        if (!frozen(f)) failing_ |= sets;
        if (!served) return {Truth::fails, failing_ | (frozen(f) ? bit(site.functions[static_cast<std::size_t>(f)].now.position) : 0)};
        others |= failing_;
    }
    search(0, Truth::holds, 0);
    if (best_.truth == Truth::holds) return site.functions_complete ? best_ : WiringGist{Truth::undecided, sets};
    return {best_.truth, count_ >= most_wirings ? ~std::uint64_t{0} : best_.blamed | others};
}

WiringGist Judge::wiring_gist(Assignment const& parts, std::vector<Instance> const& set_aside, WiringMemo& memo) const {
    return GistSearch(*this, parts, set_aside, *memo.entries).run();
}

}  // namespace levelswap
