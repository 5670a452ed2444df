#include "wiring.hpp"

#include <algorithm>

namespace levelswap {

Truth differ(std::uint64_t x, std::uint64_t y) {
    constexpr std::uint64_t own = 1;
    if (x == own || y == own || (x & y) == 0) return Truth::holds;
    bool const known = (x & (x - 1)) == 0 && (y & (y - 1)) == 0;
    return known ? Truth::fails : Truth::undecided;
}
Truth agree(std::uint64_t x, std::uint64_t y) {
    Truth const d = differ(x, y);
    return d == Truth::holds ? Truth::fails : d == Truth::fails ? Truth::holds : Truth::undecided;
}

WiringSearch::WiringSearch(Judge const& judge, Assignment const& parts, bool assume, std::vector<Instance> set_aside)
    : judge_(judge), parts_(parts), assume_(assume), set_aside_(std::move(set_aside)) {
    list_options();
}

bool WiringSearch::aside(Instance const& instance) const {
    return std::find(set_aside_.begin(), set_aside_.end(), instance) != set_aside_.end();
}

bool WiringSearch::output_there(OutputRef const& output) const {
    if (output.position < 0) return false;
    int const held = parts_[static_cast<std::size_t>(output.position)];
    return held != nothing &&
           output.output < static_cast<int>(judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs.size());
}

/// Frozen where neither end changes; otherwise every output that nobody else keeps, the namesake of the old one first.
std::vector<OutputRef> WiringSearch::candidates(int function) const {
    auto const& site = judge_.site_;
    auto unchanged = [&](int p) { return p < 0 || parts_[static_cast<std::size_t>(p)] == site.positions[static_cast<std::size_t>(p)].holds; };
    auto const& f = site.functions[static_cast<std::size_t>(function)];
    if (f.now.position >= 0 && unchanged(f.now.position)) return {f.now};
    std::vector<OutputRef> found;
    for (int p = 0; p < static_cast<int>(site.positions.size()); ++p) {
        int const held = parts_[static_cast<std::size_t>(p)];
        if (held == nothing) continue;
        auto const& outputs = judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs;
        for (int o = 0; o < static_cast<int>(outputs.size()); ++o) {
            OutputRef const here{p, o};
            bool const kept = std::any_of(site.functions.begin(), site.functions.end(), [&](Function const& g) {
                return g.now == here && unchanged(p) && &g != &f;
            });
            if (!kept) found.push_back(here);
        }
    }
    auto const name = [&](OutputRef const& r) -> std::string_view {
        int const held = parts_[static_cast<std::size_t>(r.position)];
        return judge_.catalog_.parts[static_cast<std::size_t>(held)].outputs[static_cast<std::size_t>(r.output)].name;
    };
    std::string_view old;
    if (f.now.position >= 0 && site.positions[static_cast<std::size_t>(f.now.position)].holds != nothing)
        old = judge_.catalog_.parts[static_cast<std::size_t>(site.positions[static_cast<std::size_t>(f.now.position)].holds)]
                  .outputs[static_cast<std::size_t>(f.now.output)].name;
    std::stable_sort(found.begin(), found.end(), [&](OutputRef const& x, OutputRef const& y) {
        auto key = [&](OutputRef const& r) { return std::pair{r.position != f.now.position, name(r) != old}; };
        return key(x) < key(y);
    });
    return found;
}

Option WiringSearch::option(int function, OutputRef output) const {
    auto const& site = judge_.site_;
    Option o{output, {}, Truth::holds};
    Stand stand;
    stand.output = output;
    stand.function = function;
    stand.station = site.positions[static_cast<std::size_t>(output.position)].station;
    stand.circuit = site.functions[static_cast<std::size_t>(function)].circuit;
    std::vector<Instance> instances;
    for (int rule : judge_.pair_rules_) judge_.each_figure(rule, stand, instances);
    for (auto const& instance : instances) {
        if (aside(instance)) continue;
        o.rules.push_back(judge_.judged(instance, parts_, assume_));
        o.truth = both(o.truth, o.rules.back().truth);
    }
    return o;
}

void WiringSearch::list_options() {
    int const n = static_cast<int>(judge_.site_.functions.size());
    options_.resize(static_cast<std::size_t>(n));
    all_.resize(static_cast<std::size_t>(n));
    for (int f = 0; f < n; ++f)
        for (auto const& output : candidates(f)) {
            if (!output_there(output)) continue;
            all_[static_cast<std::size_t>(f)].push_back(option(f, output));
        }
    for (int f = 0; f < n; ++f)
        for (auto const& o : all_[static_cast<std::size_t>(f)])
            if (o.truth != Truth::fails) options_[static_cast<std::size_t>(f)].push_back(&o);
}

void WiringSearch::search(std::size_t function, std::vector<int>& chosen) {
    if (count_ >= most_wirings || (best_ && best_->truth == Truth::holds)) return;
    if (function == options_.size()) return consider(chosen);
    for (int i = 0; i < static_cast<int>(options_[function].size()); ++i) {
        auto const& output = options_[function][static_cast<std::size_t>(i)]->output;
        bool taken = false;
        for (std::size_t g = 0; g < function; ++g)
            taken |= options_[g][static_cast<std::size_t>(chosen[g])]->output == output;
        if (taken) continue;
        chosen.push_back(i);
        search(function + 1, chosen);
        chosen.pop_back();
    }
}

void WiringSearch::consider(std::vector<int> const& chosen) {
    ++count_;
    Wiring w;
    w.truth = Truth::holds;
    for (std::size_t f = 0; f < chosen.size(); ++f) {
        auto const& o = *options_[f][static_cast<std::size_t>(chosen[f])];
        w.output.push_back(o.output);
        w.truth = both(w.truth, o.truth);
        w.pairs.insert(w.pairs.end(), o.rules.begin(), o.rules.end());
    }
    w.whole = whole_rules(w);
    for (auto const& j : w.whole) w.truth = both(w.truth, j.truth);
    LevelBuilder(judge_, parts_, assume_).judge_levels(w);
    w.truth = both(w.truth, w.levels_truth);
    blamed_ |= blame(w);
    if (!best_ || w.truth > best_->truth) best_ = std::move(w);
}

/// Positions read by everything in a wiring that does not hold.
std::uint64_t WiringSearch::blame(Wiring const& w) {
    std::uint64_t all = 0;
    for (auto const* rules : {&w.pairs, &w.whole})
        for (auto const& r : *rules)
            if (r.truth != Truth::holds) all |= r.positions;
    if (w.levels_truth == Truth::holds) return all;
    // A conflict is a set of requirements; undecided ones may be so only together, so all of them count.
    for (auto const& r : w.levels)
        if (w.levels_truth == Truth::undecided || r.in_conflict)
            all |= r.positions | w.elevations[static_cast<std::size_t>(r.upper)].positions |
                   w.elevations[static_cast<std::size_t>(r.lower)].positions;
    return all;
}

/// Rules on pairs of functions: one common, one supply; water connections of their own; no shared relay.
std::vector<Judged> WiringSearch::whole_rules(Wiring const& w) const {
    auto const& site = judge_.site_;
    std::vector<Judged> out;
    static int const common = rule_index("contacts.common"), independent = rule_index("roles.independent"),
                     shared_relay = rule_index("contacts.shared_relay");
    auto add = [&](int rule, std::size_t f, std::size_t g, Truth t) {
        Instance i;
        i.rule = rule;
        i.stand.function = static_cast<int>(g);
        i.stand.output = w.output[g];
        i.stand.station = site.positions[static_cast<std::size_t>(w.output[g].position)].station;
        i.stand.circuit = site.functions[g].circuit;
        if (aside(i)) return;
        std::uint64_t const bits = (1ull << w.output[f].position) | (1ull << w.output[g].position);
        out.push_back({i, t, bits});
    };
    auto output_fact = [&](std::size_t f, Attribute a) {
        Stand s;
        s.output = w.output[f];
        return judge_.fact({From::output, a}, s, parts_, nullptr)->may;
    };
    for (std::size_t f = 0; f < w.output.size(); ++f)
        for (std::size_t g = f + 1; g < w.output.size(); ++g) {
            auto const& x = site.functions[f];
            auto const& y = site.functions[g];
            if (w.output[f].position == w.output[g].position && x.circuit != y.circuit && x.circuit >= 0 && y.circuit >= 0) {
                Truth const separate = differ(output_fact(f, Attribute::common), output_fact(g, Attribute::common));
                auto const one = site.circuits[static_cast<std::size_t>(x.circuit)].facts.find(Attribute::source)->may;
                auto const other = site.circuits[static_cast<std::size_t>(y.circuit)].facts.find(Attribute::source)->may;
                add(common, f, g, std::max(separate, agree(one, other)));
            }
            if (!is_cut_off(x.duty) || !is_cut_off(y.duty)) continue;
            int const s = site.positions[static_cast<std::size_t>(w.output[f].position)].station;
            int const t = site.positions[static_cast<std::size_t>(w.output[g].position)].station;
            Truth apart = Truth::fails;
            if (s != t)
                apart = differ(site.stations[static_cast<std::size_t>(s)].facts.find(Attribute::water_connection)->may,
                               site.stations[static_cast<std::size_t>(t)].facts.find(Attribute::water_connection)->may);
            add(independent, f, g, apart);
            int const relay = x.circuit < 0 ? -1 : site.circuits[static_cast<std::size_t>(x.circuit)].position(Role::relay);
            bool const shared = x.circuit == y.circuit && relay >= 0 && parts_[static_cast<std::size_t>(relay)] != nothing;
            add(shared_relay, f, g, shared ? Truth::fails : Truth::holds);
        }
    return out;
}

void WiringSearch::run(Judgement& out) {
    std::vector<int> chosen;
    search(0, chosen);
    out.wirings = count_;
    out.truth = both(out.truth, best_ ? best_->truth : Truth::fails);
    out.blamed = count_ >= most_wirings ? ~std::uint64_t{0} : blamed_;
    for (auto const& function : all_)
        for (auto const& o : function)
            for (auto const& r : o.rules)
                if (r.truth == Truth::fails) out.blamed |= r.positions;
    if (best_) out.wiring = std::move(best_);
    for (auto& function : all_) {
        out.options.emplace_back();
        for (auto& o : function) out.options.back().emplace_back(o.output, std::move(o.rules));
    }
}

Truth WiringSearch::best_truth() {
    std::vector<int> chosen;
    search(0, chosen);
    return best_ ? best_->truth : Truth::fails;
}

}  // namespace levelswap
