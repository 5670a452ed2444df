#include "levelswap/explain/findings.hpp"

#include "levelswap/document/value.hpp"

#include <algorithm>
#include <cmath>

namespace levelswap {

namespace {

char const* state_word(Truth t) { return t == Truth::fails ? "fails" : t == Truth::undecided ? "undecided" : "holds"; }

/// How much is to spare, counted so that negative is a shortfall.
Interval margin(Step const& s) {
    return s.kind == Step::Kind::at_most ? Interval{s.required.lo - s.available.hi, s.required.hi - s.available.lo}
                                         : Interval{s.available.lo - s.required.hi, s.available.hi - s.required.lo};
}

/// A refusal may show only at one value of what varies: that corner, for the numbers.
Operands where_it_refuses(RuleRow const& row, Operands const& whole) {
    if (row.body.fast(whole).truth != Truth::undecided) return whole;
    std::vector<std::size_t> varying;
    for (std::size_t i = 0; i < static_cast<std::size_t>(whole.count) && varying.size() < 4; ++i)
        if (whole.cells[i].varying) varying.push_back(i);
    for (unsigned corner = 0; corner < (1u << varying.size()); ++corner) {
        Operands o = whole;
        for (std::size_t k = 0; k < varying.size(); ++k) {
            auto& cell = o.cells[varying[k]];
            cell.lo = cell.hi = (corner >> k & 1u) ? whole.cells[varying[k]].hi : whole.cells[varying[k]].lo;
        }
        if (row.body.fast(o).truth == Truth::fails) return o;
    }
    return whole;
}

std::string place_of(Origin const& origin) {
    std::string file = origin.where.file;
    if (auto const slash = file.rfind('/'); slash != std::string::npos) file.erase(0, slash + 1);
    return origin.where.line > 0 ? file + ":" + std::to_string(origin.where.line) : file;
}

Dimension difference_of(Dimension d) {
    if (d == Dimension::temperature) return Dimension::temperature_difference;
    if (d == Dimension::pressure_gauge || d == Dimension::pressure_absolute) return Dimension::pressure_difference;
    return d;
}

}  // namespace

std::string Explainer::quantity(Interval q, Dimension d) const {
    auto const system = units_ == Units::us ? document::UnitSystem::us : document::UnitSystem::si;
    auto const low = document::format_quanta(q.lo, d, system, 4);
    auto const high = document::format_quanta(q.hi, d, system, 4);
    // Alone, "108 degF" would read as a temperature.
    char const* const after = d == Dimension::temperature_difference && units_ == Units::us ? " difference" : "";
    return (low == high ? low : low + " to " + high) + after;
}

std::string Explainer::output_name(OutputRef const& output) const {
    if (output.position < 0) return "no output";
    int const held = parts_[static_cast<std::size_t>(output.position)];
    auto const& position = judge_.site().positions[static_cast<std::size_t>(output.position)].name;
    if (held == nothing) return position;
    auto const& outputs = judge_.catalog().parts[static_cast<std::size_t>(held)].outputs;
    if (output.output >= static_cast<int>(outputs.size())) return position;
    return position + "." + outputs[static_cast<std::size_t>(output.output)].name;
}

std::string Explainer::level_name(Elevation const& e) const {
    return e.station < 0 ? e.name
                         : e.name + " (" + judge_.site().stations[static_cast<std::size_t>(e.station)].name + ")";
}

std::vector<std::string> Explainer::names(std::uint64_t positions) const {
    std::vector<std::string> out;
    for (std::uint64_t rest = positions; rest; rest &= rest - 1)
        out.push_back(judge_.site().positions[static_cast<std::size_t>(std::countr_zero(rest))].name);
    return out;
}

std::string Explainer::subject(Instance const& i) const {
    auto const& site = judge_.site();
    if (i.stand.function >= 0)
        return std::string(words_of(site.functions[static_cast<std::size_t>(i.stand.function)].duty)) + " on " +
               output_name(i.stand.output);
    if (i.stand.position >= 0) {
        int const held = parts_[static_cast<std::size_t>(i.stand.position)];
        auto const& name = site.positions[static_cast<std::size_t>(i.stand.position)].name;
        return held == nothing ? name : judge_.catalog().parts[static_cast<std::size_t>(held)].id + " at " + name;
    }
    if (i.stand.station >= 0) return site.stations[static_cast<std::size_t>(i.stand.station)].name;
    if (i.stand.line >= 0) return "feed line " + site.lines[static_cast<std::size_t>(i.stand.line)].name;
    if (i.stand.circuit >= 0) return "circuit " + site.circuits[static_cast<std::size_t>(i.stand.circuit)].name;
    return "vessel";
}

std::string Explainer::figure_source(int rule, int pack, int row) const {
    auto const* figure = judge_.pack_row(pack, row);
    if (!figure) return std::string(rule_table()[static_cast<std::size_t>(rule)].source);
    return figure->clause + " (pack " + figure->pack + ", " + (figure->remembered ? "from memory" : "read") + ")";
}

/// The facts that the refusal needs: one that can be freed to its whole domain without changing it is left out.
std::vector<std::string> Explainer::facts(Judged const& judged) const {
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    Operands o = judge_.operands(judged.instance, parts_);
    std::vector<std::string> out;
    for (int i = 0; i < o.count; ++i) {
        Slot const slot = row.body.reads[static_cast<std::size_t>(i)];
        auto& cell = o.cells[static_cast<std::size_t>(i)];
        std::string owner;
        Fact const* fact = judge_.fact(slot, judged.instance.stand, parts_, &owner);
        if (!fact || cell.missing) continue;
        Cell const kept = cell;
        Fact const free = unknown_fact(slot.attribute);
        cell.lo = free.lo;
        cell.hi = free.hi;
        cell.must = free.must;
        cell.may = free.may;
        cell.curve = nullptr;
        cell.none = cell.varying = false;
        if (judged.truth == Truth::fails && evaluate(row, o) == Truth::fails) continue;  // stays freed
        cell = kept;
        auto const& attribute = row_of(slot.attribute);
        std::string text = std::string(attribute.meaning) + " (" + owner + "): ";
        text += fact->origin ? fact->origin->text : "unknown";
        if (fact->origin) text += " [" + fact->origin->kind + (fact->origin->remembered ? ", from memory" : "") + ", " + place_of(*fact->origin) + "]";
        if (judged.truth == Truth::fails || fact->nature == Fact::Nature::unknown || !fact->origin || cell.lo != cell.hi)
            out.push_back(std::move(text));
    }
    return out;
}

std::vector<Finding> Explainer::findings(Judged const& judged) const {
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    Recording rec;
    if (row.body.recorded) {
        Operands const whole = judge_.operands(judged.instance, parts_);
        rec = row.body.recorded(judged.truth == Truth::fails ? where_it_refuses(row, whole) : whole);
    }
    Finding base;
    base.rule = row.id;
    base.title = row.title;
    base.level = row.required ? "required" : "recommended";
    base.state = state_word(judged.truth);
    base.subject = subject(judged.instance);
    base.source = figure_source(judged.instance.rule, judged.instance.pack, judged.instance.row);
    base.positions = names(judged.positions);
    base.why = "guards against " + std::string(row.protects);
    if (row.body.recorded) base.facts = facts(judged);
    if (auto const* house = judge_.house_rule(judged.instance)) {
        std::string owner;
        auto const* fact = judge_.house_fact(judged.instance, parts_, &owner);
        base.quantity = row_of(house->attribute).meaning;
        base.required = house->text;
        base.available = fact && fact->origin ? fact->origin->text : "unknown";
        base.source = "pack " + house->pack + ": " + house->because;
    }
    for (auto const& s : rec.steps) {
        if (s.kind == Step::Kind::note) base.notes.push_back(s.label + ": " + quantity(s.available, s.dimension));
        else if (s.kind == Step::Kind::choice && s.need.empty()) base.notes.push_back(s.label + ": " + s.have);
    }
    std::vector<Finding> out;
    for (auto const& s : rec.steps) {
        bool const shown = s.truth == judged.truth && !(s.kind == Step::Kind::choice && s.need.empty()) &&
                           s.kind != Step::Kind::note;
        if (!shown || judged.truth == Truth::holds) continue;
        Finding f = base;
        f.quantity = s.label;
        if (s.kind == Step::Kind::choice) {
            f.required = s.need;
            f.available = s.have;
        } else {
            f.required = std::string(s.kind == Step::Kind::at_least ? "at least " : "at most ") + quantity(s.required, s.dimension);
            f.available = quantity(s.available, s.dimension);
            f.margin = quantity(margin(s), difference_of(s.dimension));
        }
        out.push_back(std::move(f));
    }
    if (out.empty()) out.push_back(base);
    return out;
}

std::vector<std::pair<Instance, Finding>> Explainer::level_findings(Wiring const& w) const {
    std::vector<std::pair<Instance, Finding>> out;
    bool const joint = std::count_if(w.levels.begin(), w.levels.end(), [](auto const& r) { return r.in_conflict; }) > 1;
    // Each requirement may be met alone and yet no mounting surely meet all: then all of them are shown.
    bool const only_together = w.levels_truth == Truth::undecided &&
                               std::all_of(w.levels.begin(), w.levels.end(), [](auto const& r) { return r.alone == Truth::holds; });
    for (auto const& r : w.levels) {
        bool const shown = w.levels_truth == Truth::fails ? r.in_conflict || r.alone == Truth::fails : only_together || r.alone != Truth::holds;
        if (!shown) continue;
        auto const& u = w.elevations[static_cast<std::size_t>(r.upper)];
        auto const& l = w.elevations[static_cast<std::size_t>(r.lower)];
        auto const& row = rule_table()[static_cast<std::size_t>(r.rule)];
        Finding f;
        f.rule = row.id;
        f.title = row.title;
        f.level = "required";
        f.state = w.levels_truth == Truth::fails ? "fails" : "undecided";
        f.subject = level_name(u) + " above " + level_name(l);
        f.quantity = "distance between the two levels";
        f.source = figure_source(r.rule, r.pack, r.row);
        f.why = "guards against " + std::string(row.protects);
        auto absolute = [&](Elevation const& e) {
            Interval at = e.own + (e.at_mark ? e.mark : Interval{0});
            if (e.station >= 0) {
                auto const* m = judge_.station_fact(e.station, hangs_on[static_cast<std::size_t>(e.rod)]);
                at = at + Interval{m->lo, m->hi};
            }
            return at;
        };
        Interval const need = Interval{static_cast<double>(r.separation)} + r.needed + u.repeatability + l.repeatability;
        auto measured = [&](Elevation const& e) {
            return e.station < 0 || judge_.station_fact(e.station, hangs_on[static_cast<std::size_t>(e.rod)])->nature != Fact::Nature::unknown;
        };
        bool const same = u.station == l.station && u.rod == l.rod, known = same || (measured(u) && measured(l));
        auto on_face = [](Elevation const& e) { return e.own + (e.at_mark ? e.mark : Interval{0}); };
        Interval const apart = same && !measured(u) ? on_face(u) - on_face(l) : absolute(u) - absolute(l);
        bool const at_most = r.needed.hi < 0;   // an upper bound of what lies between, the other way up
        if (at_most) f.subject = level_name(l) + " above " + level_name(u);
        f.required = (at_most ? "at most " : "at least ") + quantity(at_most ? -need : need, Dimension::length);
        f.available = known ? quantity(at_most ? -apart : apart, Dimension::length) : "not known";
        if (known) f.margin = quantity(apart - need, Dimension::length);
        if (!r.need.empty()) f.notes.push_back(std::string(r.need) + ": " + quantity(at_most ? -r.needed : r.needed, Dimension::length));
        for (auto const* e : {&u, &l})
            f.notes.push_back(level_name(*e) + ": " +
                              (measured(*e) ? quantity(absolute(*e), Dimension::length) + " above the vessel datum, as mounted now"
                                            : "not known, since the " + setting_name(judge_.site(), e->station, e->rod) + " is not known"));
        if (only_together) f.notes.push_back("each requirement can be met alone; whether one mounting meets all is open until these levels are measured");
        if (joint) f.notes.push_back("this and the other level requirements shown exclude one another at every mounting that the piping allows");
        f.positions = names(r.positions | u.positions | l.positions);
        out.emplace_back(instance_of(r, w.elevations), std::move(f));
    }
    return out;
}

/// The value at which the rule begins to hold when this fact alone is pinned: found by bisection on whole quanta.
std::optional<std::string> Explainer::threshold(Instance const& instance, Operands const& o, int slot, Slot s) const {
    auto const& row = rule_table()[static_cast<std::size_t>(instance.rule)];
    auto const& attribute = row_of(s.attribute);
    Operands trial = o;
    auto& cell = trial.cells[static_cast<std::size_t>(slot)];
    auto at = [&](double v) {
        cell.lo = cell.hi = v;
        return evaluate(row, trial);
    };
    double lo = std::ceil(o.cells[static_cast<std::size_t>(slot)].lo), hi = std::floor(o.cells[static_cast<std::size_t>(slot)].hi);
    Truth const low = at(lo), high = at(hi);
    auto bisect = [&](Truth wanted, bool from_high) {  // the last value, coming from that end, where it is `wanted`
        double good = from_high ? hi : lo, bad = from_high ? lo : hi;
        while (std::abs(good - bad) > 1) {
            double const mid = std::floor((good + bad) / 2);
            (at(mid) == wanted ? good : bad) = mid;
        }
        auto const printed = [&](double v, int digits) {
            return document::format_quanta(v, attribute.dimension, units_ == Units::us ? document::UnitSystem::us : document::UnitSystem::si, digits);
        };
        // Six digits; where they are not the whole value, rounded to the side on which what is said is true.
        constexpr double half_a_digit = 5e-6;
        std::string const nearest = printed(good, 6);
        if (nearest == printed(good, 12)) return nearest;
        return printed(good + (from_high ? 1 : -1) * std::abs(good) * half_a_digit, 6);
    };
    std::string text;
    auto say = [&](std::string part) { text += (text.empty() ? "" : "; ") + part; };
    if (high == Truth::holds && low != Truth::holds) say(bisect(Truth::holds, true) + " or more holds");
    if (low == Truth::holds && high != Truth::holds) say(bisect(Truth::holds, false) + " or less holds");
    if (low == Truth::fails && high != Truth::fails) say(bisect(Truth::fails, false) + " or less fails");
    if (high == Truth::fails && low != Truth::fails) say(bisect(Truth::fails, true) + " or more fails");
    return text.empty() ? std::nullopt : std::optional{text};
}

std::vector<Question> Explainer::questions(Judged const& judged) const {
    std::vector<Question> out;
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    if (!row.body.fast) return out;
    Operands const o = judge_.operands(judged.instance, parts_);
    for (int i = 0; i < o.count; ++i) {
        Slot const slot = row.body.reads[static_cast<std::size_t>(i)];
        auto const& attribute = row_of(slot.attribute);
        auto const& cell = o.cells[static_cast<std::size_t>(i)];
        std::string owner;
        if (cell.missing || cell.varying || !judge_.fact(slot, judged.instance.stand, parts_, &owner)) continue;
        std::optional<std::string> settles;
        if (attribute.kind == ValueKind::quantity && cell.lo < cell.hi) settles = threshold(judged.instance, o, i, slot);
        else if (attribute.kind == ValueKind::choice && (cell.may & (cell.may - 1)) != 0) {
            std::uint64_t good = 0;
            for (int b = 0; b < choice_count(attribute); ++b) {
                Operands trial = o;
                trial.cells[static_cast<std::size_t>(i)].may = 1ull << b;
                if ((cell.may >> b & 1u) && evaluate(row, trial) == Truth::holds) good |= 1ull << b;
            }
            if (good && good != cell.may) settles = words_of_bits(slot.attribute, good) + " holds";
        } else if (attribute.kind == ValueKind::set && cell.must != cell.may) settles = "the list settles it";
        else if (attribute.kind == ValueKind::curve && !cell.curve) settles = "the rating settles it";
        if (!settles) continue;
        out.push_back({std::string(attribute.meaning) + " (" + owner + ")", std::string(attribute.measured), *settles,
                       std::string(row.id)});
    }
    return out;
}

}  // namespace levelswap
