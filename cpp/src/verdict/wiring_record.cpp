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

Stand stand_of(Site const& site, int function, OutputRef output) {
    Stand s;
    s.output = output;
    s.function = function;
    s.station = site.positions[static_cast<std::size_t>(output.position)].station;
    s.circuit = site.functions[static_cast<std::size_t>(function)].circuit;
    return s;
}

namespace {

std::uint64_t bit(int position) { return position < 0 ? 0 : std::uint64_t{1} << position; }

}  // namespace

TogetherRules together(Judge const& judge, Assignment const& parts, int f, OutputRef x, int g, OutputRef y) {
    static int const common = rule_index("contacts.common"), independent = rule_index("roles.independent"),
                     shared_relay = rule_index("contacts.shared_relay");
    auto const& site = judge.site();
    auto const& one = site.functions[static_cast<std::size_t>(f)];
    auto const& other = site.functions[static_cast<std::size_t>(g)];
    std::uint64_t const sets = bit(x.position) | bit(y.position);
    TogetherRules found;
    auto add = [&](int rule, Truth t, std::uint64_t positions) {
        found.rule[static_cast<std::size_t>(found.count++)] = {rule, t, positions};
    };
    if (x.position == y.position && one.circuit != other.circuit && one.circuit >= 0 && other.circuit >= 0) {
        auto const& outputs = judge.catalog().parts[static_cast<std::size_t>(parts[static_cast<std::size_t>(x.position)])].outputs;
        auto common_of = [&](OutputRef o) { return outputs[static_cast<std::size_t>(o.output)].facts.find(Attribute::common)->may; };
        auto source = [&](int c) { return judge.circuit_fact(c, Attribute::source)->may; };
        add(common, std::max(differ(common_of(x), common_of(y)), agree(source(one.circuit), source(other.circuit))), sets);
    }
    if (!is_cut_off(one.duty) || !is_cut_off(other.duty)) return found;
    int const s = site.positions[static_cast<std::size_t>(x.position)].station;
    int const t = site.positions[static_cast<std::size_t>(y.position)].station;
    auto water = [&](int station) { return judge.station_fact(station, Attribute::water_connection)->may; };
    add(independent, s == t ? Truth::fails : differ(water(s), water(t)), sets);
    int const relay = one.circuit < 0 ? -1 : site.circuits[static_cast<std::size_t>(one.circuit)].position(Role::relay);
    bool const shared = one.circuit == other.circuit && relay >= 0 && parts[static_cast<std::size_t>(relay)] != nothing;
    add(shared_relay, shared ? Truth::fails : Truth::holds, sets | bit(relay));
    return found;
}

Wiring record_wiring(Judge const& judge, Assignment const& parts, bool assume, std::vector<Instance> const& set_aside,
                     std::vector<OutputRef> const& outputs) {
    auto aside = [&](Instance const& i) { return std::find(set_aside.begin(), set_aside.end(), i) != set_aside.end(); };
    Wiring w;
    w.output = outputs;
    w.truth = Truth::holds;
    int const n = static_cast<int>(outputs.size());
    for (int f = 0; f < n; ++f)
        for (auto& judged : judge.pair_rules(f, outputs[static_cast<std::size_t>(f)], parts, assume)) {
            if (aside(judged.instance)) continue;
            w.truth = both(w.truth, judged.truth);
            w.pairs.push_back(std::move(judged));
        }
    for (int f = 0; f < n; ++f)
        for (int g = f + 1; g < n; ++g) {
            auto const rules = together(judge, parts, f, outputs[static_cast<std::size_t>(f)], g, outputs[static_cast<std::size_t>(g)]);
            for (int i = 0; i < rules.count; ++i) {
                auto const& r = rules.rule[static_cast<std::size_t>(i)];
                Instance instance;
                instance.rule = r.rule;
                instance.stand = stand_of(judge.site(), g, outputs[static_cast<std::size_t>(g)]);
                if (aside(instance)) continue;
                w.whole.push_back({instance, r.truth, r.positions});
                w.truth = both(w.truth, r.truth);
            }
        }
    LevelBuilder(judge, parts, assume).judge_levels(w);
    w.truth = both(w.truth, w.levels_truth);
    return w;
}

}  // namespace levelswap
