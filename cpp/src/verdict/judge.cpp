#include "levelswap/verdict/judge.hpp"

#include "wiring_search.hpp"

#include <algorithm>
#include <iterator>

namespace levelswap {

namespace {

Role role_of(From from) { return static_cast<Role>(static_cast<int>(from)); }  // same order up to the pump
static_assert(static_cast<int>(From::pump) == static_cast<int>(Role::pump));

/// The one kind that a position with outputs accepts.
Owner kind_with_outputs(Role role) {
    switch (role) {
        case Role::probe_relay: return Owner::probe_relay;
        case Role::transmitter: return Owner::transmitter;
        case Role::float_control: return Owner::float_control;
        case Role::float_valve: return Owner::float_valve;
        default: return Owner::switch_set;
    }
}

Cell cell_of(Attribute attribute, Fact const* fact) {
    Cell cell = no_cell;
    if (!fact) return cell;
    cell.missing = false;
    cell.none = fact->nature == Fact::Nature::none;
    cell.varying = fact->nature == Fact::Nature::varying && fact->lo != fact->hi;
    cell.lo = fact->lo;
    cell.hi = fact->hi;
    cell.band_lo = fact->lo;
    cell.band_hi = fact->hi;
    cell.must = fact->must;
    cell.may = fact->may;
    cell.curve = fact->curve.get();
    cell.reference = &fact->reference;
    if (cell.none) {  // declared absent: no rating, no load, no travel
        cell.lo = cell.hi = 0;
        cell.must = cell.may = 0;
    }
    if (row_of(attribute).kind == ValueKind::choice && attribute == Attribute::pilot_duty && cell.none) cell.may = 1;
    return cell;
}

Truth within_bounds(Bounds const& bounds, Fact const& fact) {
    if (fact.lo > bounds.over && fact.hi <= bounds.at_most) return Truth::holds;
    return fact.hi <= bounds.over || fact.lo > bounds.at_most ? Truth::fails : Truth::undecided;
}

Truth same_jurisdiction(PackRow const& row, Site const& site) {
    if (row.jurisdiction.empty() || row.jurisdiction == site.jurisdiction) return Truth::holds;
    return site.jurisdiction.empty() ? Truth::undecided : Truth::fails;
}

Truth applies(PackRow const& row, Judge const& judge) {
    auto one = [&](Attribute a, std::uint64_t allowed) {
        auto const may = judge.vessel_fact(a)->may;
        return (may & allowed) == 0 ? Truth::fails : (may & ~allowed) == 0 ? Truth::holds : Truth::undecided;
    };
    Truth all = same_jurisdiction(row, judge.site());
    for (Truth const t : {one(Attribute::vessel_service, row.services), one(Attribute::code, row.codes),
                          one(Attribute::vessel_kind, row.kinds), one(Attribute::firing, row.firings),
                          within_bounds(row.mawp, *judge.vessel_fact(Attribute::mawp)),
                          within_bounds(row.heat_input, *judge.vessel_fact(Attribute::heat_input))})
        all = both(all, t);
    return all;
}

/// What was measured on an output of the part that is there now leaves with it.
Fact const* measured_on(Position const& position, int part, int output, Attribute attribute) {
    if (part != position.holds) return nullptr;
    for (auto const& m : position.measured_outputs)
        if (m.output == output && m.attribute == attribute) return &m.fact;
    return nullptr;
}

}  // namespace

Truth evaluate(RuleRow const& row, Operands const& operands) {
    Silent const hull = row.body.fast(operands);
    if (!hull.applies) return Truth::holds;
    if (hull.truth != Truth::undecided) return hull.truth;
    // A varying fact takes every value of its range: one of them that refuses in all worlds refuses.
    std::array<int, most_slots> varying{};
    int n = 0;
    for (int i = 0; i < operands.count && n < 4; ++i)
        if (operands.cells[static_cast<std::size_t>(i)].varying) varying[static_cast<std::size_t>(n++)] = i;
    if (n == 0) return Truth::undecided;
    Operands corner = operands;
    for (int c = 0; c < (1 << n); ++c) {
        for (int k = 0; k < n; ++k) {
            auto& cell = corner.cells[static_cast<std::size_t>(varying[static_cast<std::size_t>(k)])];
            auto const& whole = operands.cells[static_cast<std::size_t>(varying[static_cast<std::size_t>(k)])];
            cell.lo = cell.hi = (c >> k & 1) ? whole.hi : whole.lo;
        }
        if (row.body.fast(corner).truth == Truth::fails) return Truth::fails;
    }
    return Truth::undecided;
}

Judge::Judge(Catalog const& catalog, Site const& site) : catalog_(catalog), site_(site) {
    if (site.positions.size() > 60) throw UsageError("a site may have at most 60 positions");
    for (auto const& f : site.functions)
        cut_offs_ += is_cut_off(f.duty);
    list_rules();
    list_assumptions();
    for (int p = 0; p < static_cast<int>(site.positions.size()); ++p) {
        auto const& position = site.positions[static_cast<std::size_t>(p)];
        if (has_outputs(position.role)) with_outputs_ |= bit_of(p);
        // A column moves the glass that hangs on it; pumps and valves bound how far two levels may stand apart.
        if (position.role == Role::glass || position.role == Role::column || position.line >= 0) level_positions_.push_back(p);
    }
}

void Judge::list_rules() {
    figures_.clear();
    fixed_.clear();
    required_.clear();
    pair_rules_.clear();
    recommended_pairs_.clear();
    list_figures();
    list_fixed();
    std::copy_if(fixed_.begin(), fixed_.end(), std::back_inserter(required_),
                 [](Instance const& i) { return rule_table()[static_cast<std::size_t>(i.rule)].required; });
}

Judge Judge::within(Pins const& pins) const {
    Judge narrowed = *this;
    narrowed.pins_ = &pins;
    bool const other_packs = std::any_of(decides_packs.begin(), decides_packs.end(), [&](Attribute a) {
        return pins.contains({Owner::vessel, 0, -1, a});
    });
    if (other_packs) narrowed.list_rules();
    return narrowed;
}

/// The vessel decides which pack rows apply: once for every rule.
void Judge::list_figures() {
    for (auto const& row : rule_table()) {
        int const rule = static_cast<int>(figures_.size());
        auto& out = figures_.emplace_back();
        bool governed = false;
        if (row.figure != Figure::none)
            for (int p : site_.packs) {
                auto const& rows = catalog_.packs[static_cast<std::size_t>(p)].rows;
                for (std::size_t r = 0; r < rows.size(); ++r) {
                    if (rows[r].figure != row.figure) continue;
                    Truth const here = applies(rows[r], *this);
                    if (here == Truth::fails) continue;
                    out.push_back({rule, {}, p, static_cast<int>(r), here == Truth::undecided});
                    governed |= here == Truth::holds;
                }
            }
        if (!governed && !row.only_with_figure) out.push_back({rule, {}, -1, -1, false});
    }
}

void Judge::each_figure(int rule, Stand const& stand, std::vector<Instance>& out) const {
    for (auto const& instance : figures_[static_cast<std::size_t>(rule)]) {
        out.push_back(instance);
        out.back().stand = stand;
    }
}

void Judge::list_fixed() {
    auto const table = rule_table();
    for (int i = 0; i < static_cast<int>(table.size()); ++i) {
        auto const& row = table[static_cast<std::size_t>(i)];
        Stand stand;
        switch (row.scope) {
            case Scope::station:
                for (int s = 0; s < static_cast<int>(site_.stations.size()); ++s) each_figure(i, {.station = s}, fixed_);
                break;
            case Scope::circuit:
                for (int c = 0; c < static_cast<int>(site_.circuits.size()); ++c) each_figure(i, {.circuit = c}, fixed_);
                break;
            case Scope::line:
                for (int l = 0; l < static_cast<int>(site_.lines.size()); ++l) each_figure(i, {.line = l}, fixed_);
                break;
            case Scope::vessel: each_figure(i, stand, fixed_); break;
            case Scope::part:
            case Scope::line_part:
                for (int p = 0; p < static_cast<int>(site_.positions.size()); ++p) {
                    auto const& position = site_.positions[static_cast<std::size_t>(p)];
                    if ((row.scope == Scope::line_part) == (position.line >= 0) &&
                        belongs(row_of(Attribute::rating), accepted_kinds(position.role)[0]))
                        each_figure(i, {.station = position.station, .line = position.line, .position = p}, fixed_);
                }
                break;
            case Scope::pair: (row.required ? pair_rules_ : recommended_pairs_).push_back(i); break;
            case Scope::wiring: break;
            case Scope::house: list_house(i); break;
        }
    }
}

/// Rows of house rules stand behind the pack rows in an instance: row = −2 − index.
void Judge::list_house(int rule) {
    for (int p : site_.packs) {
        auto const& house = catalog_.packs[static_cast<std::size_t>(p)].house;
        for (int h = 0; h < static_cast<int>(house.size()); ++h)
            for (int at = 0; at < static_cast<int>(site_.positions.size()); ++at) {
                auto const kinds = accepted_kinds(site_.positions[static_cast<std::size_t>(at)].role);
                if (std::find(kinds.begin(), kinds.end(), house[static_cast<std::size_t>(h)].kind) != kinds.end())
                    fixed_.push_back({rule, {.station = -1, .circuit = -1, .line = -1, .position = at, .output = {}, .function = -1}, p, -2 - h, false});
            }
    }
}

HouseRule const* Judge::house_rule(Instance const& i) const {
    return i.pack < 0 || i.row > -2 ? nullptr
                                    : &catalog_.packs[static_cast<std::size_t>(i.pack)].house[static_cast<std::size_t>(-2 - i.row)];
}

Fact const* Judge::house_fact(Instance const& i, Assignment const& parts, std::string* owner) const {
    int const held = parts[static_cast<std::size_t>(i.stand.position)];
    auto const* rule = house_rule(i);
    if (held == nothing || catalog_.parts[static_cast<std::size_t>(held)].kind != rule->kind) return nullptr;
    return fact({From::part, rule->attribute}, i.stand, parts, owner);
}

Fact const* Judge::house_other(Instance const& i, Assignment const& parts) const {
    auto const* rule = house_rule(i);
    if (!rule->other) return nullptr;
    return fact({rule->other_of_vessel ? From::vessel : From::part, *rule->other}, i.stand, parts, nullptr);
}

PackRow const* Judge::pack_row(int pack, int row) const {
    return pack < 0 || row < 0 ? nullptr : &catalog_.packs[static_cast<std::size_t>(pack)].rows[static_cast<std::size_t>(row)];
}

int Judge::line_for(Stand const& stand) const {
    if (stand.line >= 0) return stand.line;
    int const by_circuit = stand.circuit < 0 ? -1 : site_.circuits[static_cast<std::size_t>(stand.circuit)].line;
    return by_circuit >= 0 || stand.station < 0 ? by_circuit : site_.stations[static_cast<std::size_t>(stand.station)].line;
}

int Judge::position_for(From from, Stand const& stand) const {
    if (from == From::part) return stand.position;
    if (from > From::part) return -1;
    Role const role = role_of(from);
    int const r = static_cast<int>(role);
    if (r < station_role_count)
        return stand.station < 0 ? -1 : site_.stations[static_cast<std::size_t>(stand.station)].positions[static_cast<std::size_t>(r)];
    if (r < circuit_role_end)
        return stand.circuit < 0 ? -1 : site_.circuits[static_cast<std::size_t>(stand.circuit)].position(role);
    int const line = line_for(stand);
    return line < 0 ? -1 : site_.lines[static_cast<std::size_t>(line)].position(role);
}

std::optional<FactKey> Judge::key_of(Slot slot, Stand const& stand, Assignment const& parts) const {
    auto at = [&](Owner owner, int index) {
        return index < 0 ? std::nullopt : std::optional<FactKey>({owner, index, -1, slot.attribute});
    };
    auto held = [&](int p) { return p < 0 ? nothing : parts[static_cast<std::size_t>(p)]; };
    switch (slot.from) {
        case From::vessel: return at(Owner::vessel, 0);
        case From::station: return at(Owner::station, stand.station);
        case From::circuit: return at(Owner::circuit, stand.circuit);
        case From::line: return at(Owner::line, line_for(stand));
        case From::output:
            if (held(stand.output.position) == nothing) return std::nullopt;
            return FactKey{Owner::output, stand.output.position, stand.output.output, slot.attribute};
        default: break;
    }
    int const p = position_for(slot.from, stand);
    return held(p) == nothing ? std::nullopt
                              : at(catalog_.parts[static_cast<std::size_t>(held(p))].kind, p);
}

Fact const* Judge::fact(Slot slot, Stand const& stand, Assignment const& parts, std::string* owner) const {
    auto const key = key_of(slot, stand, parts);
    return key ? pinned(*key, as_filed(*key, parts, owner)) : nullptr;
}

/// The fact as the files have it, whatever is pinned.
Fact const* Judge::as_filed(FactKey const& key, Assignment const& parts, std::string* owner) const {
    auto say = [&](std::string_view name) { if (owner) *owner = name; };
    auto const index = static_cast<std::size_t>(key.index);
    switch (key.owner) {
        case Owner::vessel: say("vessel"); return site_.vessel.find(key.attribute);
        case Owner::station: say(site_.stations[index].name); return site_.stations[index].facts.find(key.attribute);
        case Owner::circuit: {
            bool const sum = site_.circuits[index].several_coils && (key.attribute == Attribute::coil_inrush || key.attribute == Attribute::coil_holding);
            say(sum ? site_.circuits[index].name + ", all its coils together" : site_.circuits[index].name);
            return site_.circuits[index].facts.find(key.attribute);
        }
        case Owner::line: say(site_.lines[index].name); return site_.lines[index].facts.find(key.attribute);
        default: break;
    }
    auto const& part = catalog_.parts[static_cast<std::size_t>(parts[index])];
    if (key.owner == Owner::output) {
        if (key.output >= static_cast<int>(part.outputs.size())) return nullptr;
        auto const& output = part.outputs[static_cast<std::size_t>(key.output)];
        if (owner) *owner = part.id + ", output " + output.name;
        if (Fact const* found = measured_on(site_.positions[index], parts[index], key.output, key.attribute)) return found;
        return output.facts.find(key.attribute);
    }
    auto const& position = site_.positions[index];
    if (owner) *owner = part.id + " at " + position.name;
    if (parts[index] == position.holds)   // leaves with the part, as what was measured on its outputs does
        for (auto const& [attribute, measured] : position.measured)
            if (attribute == key.attribute) return &measured;
    return part.facts.find(key.attribute);
}

Operands Judge::operands(std::span<Slot const> slots, Stand const& stand, Assignment const& parts, bool assume) const {
    Operands o;
    if (stand.output.position >= 0)
        o.output_kind = kind_with_outputs(site_.positions[static_cast<std::size_t>(stand.output.position)].role);
    for (Slot const& slot : slots) {
        Fact const* f = fact(slot, stand, parts, nullptr);
        if (assume && (slot.from == From::circuit || slot.from == From::vessel))
            for (auto const& a : assumptions_)
                if (a.circuit == (slot.from == From::circuit ? stand.circuit : -1) && a.attribute == slot.attribute) f = &a.fact;
        auto& cell = o.cells[static_cast<std::size_t>(o.count++)];
        cell = cell_of(slot.attribute, f);
        Fact const* const filed = f && pins_ ? as_filed(*key_of(slot, stand, parts), parts, nullptr) : f;
        cell.stated = filed && filed->nature != Fact::Nature::unknown;
        if (f || slot.from >= From::part) continue;
        int const p = position_for(slot.from, stand);
        cell.no_place = p < 0;
        cell.emptied = p >= 0 && parts[static_cast<std::size_t>(p)] == nothing && site_.positions[static_cast<std::size_t>(p)].holds != nothing;
    }
    return o;
}

Operands Judge::operands(Instance const& instance, Assignment const& parts, bool assume) const {
    auto const& row = rule_table()[static_cast<std::size_t>(instance.rule)];
    Operands o = operands(row.body.reads, instance.stand, parts, assume);
    if (instance.stand.function >= 0) o.duty = site_.functions[static_cast<std::size_t>(instance.stand.function)].duty;
    auto const* pack = pack_row(instance.pack, instance.row);
    if (pack) o.figure = pack->value;
    else if (row.figure != Figure::none) {
        auto const& kind = row_of(row.figure);
        o.figure = kind.neutral * detail::quanta_per_si(kind.dimension);
    }
    o.functions_complete = site_.functions_complete;
    o.cut_offs = cut_offs_;
    return o;
}

Recording Judge::record(Instance const& instance, Assignment const& parts, bool assume) const {
    return rule_table()[static_cast<std::size_t>(instance.rule)].body.recorded(operands(instance, parts, assume));
}

std::uint64_t Judge::positions_read(Instance const& instance) const {
    std::uint64_t all = house_rule(instance) ? bit_of(instance.stand.position) : 0;
    for (Slot const& slot : rule_table()[static_cast<std::size_t>(instance.rule)].body.reads)
        all |= slot.from == From::output ? bit_of(instance.stand.output.position) : bit_of(position_for(slot.from, instance.stand));
    return all;
}

Judged Judge::judged(Instance const& instance, Assignment const& parts, bool assume) const {
    return {instance, truth_of(instance, parts, assume), positions_read(instance), -1};
}

Truth Judge::truth_of(Instance const& instance, Assignment const& parts, bool assume) const {
    if (auto const* house = house_rule(instance)) return house_truth(*house, house_fact(instance, parts, nullptr), house_other(instance, parts));
    Truth const t = evaluate(rule_table()[static_cast<std::size_t>(instance.rule)], operands(instance, parts, assume));
    return t == Truth::fails && instance.doubtful ? Truth::undecided : t;
}

Judgement Judge::judge(Assignment const& parts, bool assume) const {
    Judgement out;
    for (auto const& instance : fixed_) {
        auto one = judged(instance, parts, assume);
        if (!rule_table()[static_cast<std::size_t>(instance.rule)].required) {
            if (one.truth != Truth::holds) out.remarks.push_back(one);
            continue;
        }
        out.truth = both(out.truth, one.truth);
        out.fixed.push_back(one);
    }
    add_wiring(out, parts, assume, {});
    for (std::size_t f = 0; out.wiring && f < out.wiring->output.size(); ++f) {
        std::vector<Instance> instances;
        for (int rule : recommended_pairs_)
            each_figure(rule, stand_of(site_, static_cast<int>(f), out.wiring->output[f]), instances);
        for (auto const& instance : instances)
            if (auto const one = judged(instance, parts, assume); one.truth != Truth::holds) out.remarks.push_back(one);
    }
    return out;
}

std::vector<Judged> Judge::pair_rules(int function, OutputRef output, Assignment const& parts, bool assume) const {
    std::vector<Instance> instances;
    for (int rule : pair_rules_) each_figure(rule, stand_of(site_, function, output), instances);
    std::vector<Judged> found;
    for (auto const& instance : instances) found.push_back(judged(instance, parts, assume));
    return found;
}

/// The best wiring and, for an explanation, what every output that a function may have does.
void Judge::add_wiring(Judgement& out, Assignment const& parts, bool assume, std::vector<Instance> const& set_aside) const {
    WiringMemo::Entries memo;
    WiringSearch search(*this, parts, set_aside, memo, assume, WiringSearch::Reasons::all);
    auto const gist = search.run();
    out.truth = both(out.truth, gist.truth);
    out.blamed = gist.blamed;
    out.wirings = search.tried();
    out.every_wiring = search.tried_all();
    if (auto const best = search.best()) out.wiring = record_wiring(*this, parts, assume, set_aside, *best);
    for (int f = 0; f < static_cast<int>(site_.functions.size()); ++f) {
        auto& options = out.options.emplace_back();
        for (auto const& output : search.candidates(f)) {
            auto rules = pair_rules(f, output, parts, assume);
            std::erase_if(rules, [&](Judged const& j) {
                return std::find(set_aside.begin(), set_aside.end(), j.instance) != set_aside.end();
            });
            options.emplace_back(output, std::move(rules));
        }
    }
}

Judgement Judge::judge_wiring(Assignment const& parts, std::vector<Instance> const& set_aside) const {
    Judgement out;
    add_wiring(out, parts, false, set_aside);
    return out;
}

Truth Judge::truth(Assignment const& parts, std::vector<Instance> const& set_aside) const {
    Truth all = Truth::holds;
    for (auto const& instance : required_) {
        if (std::find(set_aside.begin(), set_aside.end(), instance) != set_aside.end()) continue;
        all = both(all, truth_of(instance, parts));
        if (all == Truth::fails) return all;
    }
    WiringMemo::Entries memo;
    return both(all, WiringSearch(*this, parts, set_aside, memo).run().truth);
}

}  // namespace levelswap
