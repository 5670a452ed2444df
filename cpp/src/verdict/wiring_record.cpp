#include "wiring.hpp"

#include <algorithm>
#include <bit>

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

/// Two cut-offs that tell the level in unlike ways: certain only where both are known.
Truth unlike(std::uint64_t x, std::uint64_t y) {
    if ((x & y) == 0) return Truth::holds;
    return std::has_single_bit(x) && x == y ? Truth::fails : Truth::undecided;
}

}  // namespace

TogetherRules together(Judge const& judge, Assignment const& parts, int f, OutputRef x, int g, OutputRef y) {
    static int const common = rule_index("contacts.common"), independent = rule_index("roles.independent"),
                     principles = rule_index("roles.unlike_principles"), shared_relay = rule_index("contacts.shared_relay");
    auto const& site = judge.site();
    auto const& one = site.functions[static_cast<std::size_t>(f)];
    auto const& other = site.functions[static_cast<std::size_t>(g)];
    std::uint64_t const sets = bit_of(x.position) | bit_of(y.position);
    TogetherRules found;
    auto add_instance = [&](Instance const& i, Truth t, std::uint64_t positions) {
        if (found.count < static_cast<int>(found.rule.size())) found.rule[static_cast<std::size_t>(found.count++)] = {i, t, positions};
    };
    auto add = [&](int rule, Truth t, std::uint64_t positions) {
        Instance i;
        i.rule = rule;
        add_instance(i, t, positions);
    };
    auto output_fact = [&](OutputRef o, Attribute a) { return judge.fact({From::output, a}, Stand{.output = o}, parts, nullptr)->may; };
    if (x.position == y.position && one.circuit != other.circuit && one.circuit >= 0 && other.circuit >= 0) {
        auto common_of = [&](OutputRef o) { return output_fact(o, Attribute::common); };
        auto source = [&](int c) { return judge.circuit_fact(c, Attribute::source)->may; };
        add(common, std::max(differ(common_of(x), common_of(y)), agree(source(one.circuit), source(other.circuit))), sets);
    }
    if (!is_cut_off(one.duty) || !is_cut_off(other.duty)) return found;
    int const s = site.positions[static_cast<std::size_t>(x.position)].station;
    int const t = site.positions[static_cast<std::size_t>(y.position)].station;
    auto water = [&](int station) { return judge.station_fact(station, Attribute::water_connection)->may; };
    add(independent, s == t ? Truth::fails : differ(water(s), water(t)), sets);
    for (Instance const& row : judge.figures(principles)) {
        if (judge.pack_row(row.pack, row.row)->value <= 0) continue;
        Truth const alike = unlike(output_fact(x, Attribute::senses_by), output_fact(y, Attribute::senses_by));
        add_instance(row, row.doubtful && alike == Truth::fails ? Truth::undecided : alike, sets);
    }
    int const relay = one.circuit < 0 ? -1 : site.circuits[static_cast<std::size_t>(one.circuit)].position(Role::relay);
    bool const shared = one.circuit == other.circuit && relay >= 0 && parts[static_cast<std::size_t>(relay)] != nothing;
    add(shared_relay, shared ? Truth::fails : Truth::holds, sets | bit_of(relay));
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
                Instance instance = r.instance;
                instance.stand = stand_of(judge.site(), g, outputs[static_cast<std::size_t>(g)]);
                if (aside(instance)) continue;
                w.whole.push_back({instance, r.truth, r.positions, f});
                w.truth = both(w.truth, r.truth);
            }
        }
    LevelBuilder(judge, parts, assume, set_aside).judge_levels(w);
    w.truth = both(w.truth, w.levels_truth);
    return w;
}

}  // namespace levelswap
