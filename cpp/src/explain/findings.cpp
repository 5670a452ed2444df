#include "levelswap/explain/findings.hpp"

#include "levelswap/document/value.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace levelswap {

namespace {

char const* state_word(Truth t) { return t == Truth::fails ? "fails" : t == Truth::undecided ? "undecided" : "holds"; }

/// How much is to spare, counted so that negative is a shortfall.
Interval margin(Step const& s) {
    return s.kind == Step::Kind::at_most ? Interval{s.required.lo - s.available.hi, s.required.hi - s.available.lo}
                                         : Interval{s.available.lo - s.required.hi, s.available.hi - s.required.lo};
}

/// The first comparison that refuses; the one like `shown`, where one is shown already.
Step const* first_that_refuses(Recording const& rec, std::optional<Step> const& shown = {}) {
    auto const at = std::find_if(rec.steps.begin(), rec.steps.end(), [&](Step const& s) {
        return s.truth == Truth::fails && (!shown || (s.label == shown->label && s.kind == shown->kind));
    });
    return at == rec.steps.end() ? nullptr : &*at;
}

/// Of what varies all values occur. A refusal shows its figures at the corner where its first comparison is worst; it may
/// show only there.
Operands where_it_refuses(RuleRow const& row, Operands const& whole) {
    std::vector<std::size_t> varying;
    for (std::size_t i = 0; i < static_cast<std::size_t>(whole.count) && varying.size() < 4; ++i)
        if (whole.cells[i].varying) varying.push_back(i);
    if (varying.empty()) return whole;
    Operands worst = whole;
    std::optional<Step> shown;
    if (auto const rec = row.body.recorded(whole); Step const* step = first_that_refuses(rec)) shown = *step;
    for (unsigned corner = 0; corner < (1u << varying.size()); ++corner) {
        Operands o = whole;
        for (std::size_t k = 0; k < varying.size(); ++k) {
            auto& cell = o.cells[varying[k]];
            cell.lo = cell.hi = (corner >> k & 1u) ? whole.cells[varying[k]].hi : whole.cells[varying[k]].lo;
        }
        if (row.body.fast(o).truth != Truth::fails) continue;
        auto const rec = row.body.recorded(o);
        Step const* const step = first_that_refuses(rec, shown);
        if (step && (!shown || margin(*step).hi < margin(*shown).hi)) worst = o, shown = *step;
    }
    return worst;
}

/// The cell of a fact that nobody knows.
Cell freed(Cell cell, Attribute attribute) {
    Fact const free = unknown_fact(attribute);
    cell.lo = free.lo;
    cell.hi = free.hi;
    cell.must = free.must;
    cell.may = free.may;
    cell.curve = nullptr;
    cell.none = cell.varying = false;
    return cell;
}

/// Do the comparisons that refuse in the one stand in the other with the same figures?
bool same_figures(Recording const& refusing, Recording const& other) {
    auto same = [](Interval x, Interval y) { return x.lo == y.lo && x.hi == y.hi; };
    return std::all_of(refusing.steps.begin(), refusing.steps.end(), [&](Step const& s) {
        return s.truth != Truth::fails || std::any_of(other.steps.begin(), other.steps.end(), [&](Step const& o) {
                   return o.label == s.label && o.kind == s.kind && same(o.available, s.available) && same(o.required, s.required) && o.have == s.have;
               });
    });
}

/// No rating at all, though one is stated: for cooler places only.
bool beyond_its_rating(Step const& s, Operands const& o) {
    bool const none = s.kind == Step::Kind::at_least && s.truth == Truth::fails && s.dimension == Dimension::pressure_gauge &&
                      s.available.lo == 0 && s.available.hi == 0;
    return none && std::any_of(o.cells.begin(), o.cells.begin() + o.count, [](Cell const& c) { return c.curve != nullptr; });
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

std::string Explainer::quantity(Interval q, Dimension d, int digits) const {
    auto const system = units_ == Units::us ? document::UnitSystem::us : document::UnitSystem::si;
    auto const low = document::format_quanta(q.lo, d, system, digits);
    auto const high = document::format_quanta(q.hi, d, system, digits);
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

std::string Explainer::fact_text(Attribute attribute, std::string const& owner, Fact const& fact) {
    std::string text = std::string(row_of(attribute).meaning) + " (" + owner + "): " + (fact.origin ? fact.origin->text : "unknown");
    if (fact.origin)
        text += " [" + fact.origin->kind + (fact.origin->remembered ? ", from memory" : "") + ", " + place_of(*fact.origin) + "]";
    return text;
}

namespace {

/// What a rule records with one of the facts that it reads known: a quantity at either end, each word of a choice.
std::vector<Recording> with_one_known(RuleRow const& row, Operands const& whole, int i) {
    auto const& attribute = row_of(row.body.reads[static_cast<std::size_t>(i)].attribute);
    Operands known = whole;
    auto& at = known.cells[static_cast<std::size_t>(i)];
    Cell const open = at;
    std::vector<Recording> out;
    if (attribute.kind == ValueKind::quantity)
        for (double const v : {open.lo, open.hi}) {
            at.lo = at.hi = v;
            out.push_back(row.body.recorded(known));
        }
    else if (attribute.kind == ValueKind::choice)
        for (std::uint64_t rest = open.may; rest; rest &= rest - 1) {
            at.may = rest & -rest;
            out.push_back(row.body.recorded(known));
        }
    return out;
}

bool same_step(Step const& x, Step const& y) {
    return x.kind == y.kind && x.label == y.label && x.truth == y.truth && x.have == y.have && x.need == y.need &&
           x.available == y.available && x.required == y.required;
}

/// Would it make any difference to know it? A list or a curve always does.
bool bears_on(Recording const& rec, RuleRow const& row, Operands const& whole, int i) {
    auto const kind = row_of(row.body.reads[static_cast<std::size_t>(i)].attribute).kind;
    if (kind != ValueKind::quantity && kind != ValueKind::choice) return true;
    auto const known = with_one_known(row, whole, i);
    return std::any_of(known.begin(), known.end(), [&](Recording const& r) {
        return !std::equal(r.steps.begin(), r.steps.end(), rec.steps.begin(), rec.steps.end(), same_step);
    });
}

}  // namespace

/// The facts that the refusal needs: one that can be freed to its whole domain without changing it is left out of
/// them. Where it has part in a figure that is shown, it is one of those used.
void Explainer::list_facts(Judged const& judged, Recording const& rec, Finding& f) const {
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    bool const fails = judged.truth == Truth::fails;
    Operands const whole = judge_.operands(judged.instance, parts_);
    Operands o = whole;
    for (int i = 0; i < o.count; ++i) {
        Slot const slot = row.body.reads[static_cast<std::size_t>(i)];
        auto& cell = o.cells[static_cast<std::size_t>(i)];
        std::string owner;
        Fact const* fact = judge_.fact(slot, judged.instance.stand, parts_, &owner);
        if (!fact || cell.missing) continue;
        Cell const kept = cell;
        cell = freed(kept, slot.attribute);
        if (fails && evaluate(row, o) == Truth::fails) {   // stays freed
            Operands one = fails ? where_it_refuses(row, whole) : whole;
            one.cells[static_cast<std::size_t>(i)] = cell;
            if (!same_figures(rec, row.body.recorded(one))) f.used.push_back(fact_text(slot.attribute, owner, *fact));
            continue;
        }
        cell = kept;
        bool const open = fact->nature == Fact::Nature::unknown || !fact->origin || cell.lo != cell.hi;
        if (fails || (open && bears_on(rec, row, whole, i)))
            f.facts.push_back(fact_text(slot.attribute, owner, *fact));
    }
}

/// What one side of an open comparison waits for: facts that nobody has stated, and that alter it.
std::string Explainer::waits_for(Judged const& judged, Step const& step, Interval Step::*side) const {
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    Operands const whole = judge_.operands(judged.instance, parts_);
    std::string text;
    for (int i = 0; i < whole.count; ++i) {
        Slot const slot = row.body.reads[static_cast<std::size_t>(i)];
        auto const& attribute = row_of(slot.attribute);
        auto const& cell = whole.cells[static_cast<std::size_t>(i)];
        Fact const* fact = judge_.fact(slot, judged.instance.stand, parts_, nullptr);
        if (!fact || cell.missing || fact->nature != Fact::Nature::unknown || attribute.kind != ValueKind::quantity) continue;
        bool alters = false;
        for (auto const& known : with_one_known(row, whole, i))
            for (auto const& s : known.steps)
                alters |= s.label == step.label && s.kind == step.kind && ((s.*side).lo != (step.*side).lo || (s.*side).hi != (step.*side).hi);
        if (alters) text += (text.empty() ? "" : " and ") + std::string(attribute.meaning);
    }
    return text.empty() ? text : std::string(not_known) + ": " + text;
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
    if (row.body.recorded) list_facts(judged, rec, base);
    if (auto const* figure = judge_.pack_row(judged.instance.pack, judged.instance.row))
        base.notes.push_back("asked by the pack " + figure->pack + ": " + std::string(row_of(figure->figure).meaning) + " " + figure->text);
    if (auto const* house = judge_.house_rule(judged.instance)) {
        std::string owner;
        auto const* fact = judge_.house_fact(judged.instance, parts_, &owner);
        base.quantity = row_of(house->attribute).meaning;
        base.required = house->text;
        base.available = fact && fact->origin ? fact->origin->text : "unknown";
        base.title = "the part is as the house asks";
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
            bool const open = judged.truth == Truth::undecided;
            std::string const needs = open ? waits_for(judged, s, &Step::required) : "", has = open ? waits_for(judged, s, &Step::available) : "";
            // More digits where rounding would hide what is missing.
            bool const alike = s.truth != Truth::holds && quantity(s.required, s.dimension) == quantity(s.available, s.dimension);
            int const digits = alike ? 8 : 4;
            f.required = !needs.empty() ? needs
                                        : std::string(s.kind == Step::Kind::at_least ? "at least " : "at most ") + quantity(s.required, s.dimension, digits);
            f.available = !has.empty() ? has : quantity(s.available, s.dimension, digits);
            if (needs.empty() && has.empty()) f.margin = quantity(margin(s), difference_of(s.dimension));
            if (beyond_its_rating(s, judge_.operands(judged.instance, parts_))) {
                f.available = "none: the rating ends below that temperature";
                f.margin.clear();
            }
        }
        out.push_back(std::move(f));
    }
    if (out.empty()) out.push_back(base);
    return out;
}

/// The values at which the rule begins or ceases to hold when one fact alone is pinned: found by bisection on whole
/// quanta. Where both ends are alike, a value of `inside` may be better.
std::optional<std::string> Explainer::threshold(Attribute pinned, Interval range, TruthAt const& at, std::vector<double> const& inside) const {
    auto const& attribute = row_of(pinned);
    double const lo = std::ceil(range.lo), hi = std::floor(range.hi);
    Truth const low = at(lo), high = at(hi);
    auto bisect = [&](Truth wanted, double good, double bad) {  // the last value on the way to `bad` where it is `wanted`
        bool const downward = bad < good;
        while (std::abs(good - bad) > 1) {
            double const mid = std::floor((good + bad) / 2);
            (at(mid) == wanted ? good : bad) = mid;
        }
        auto const printed = [&](double v, int digits) {
            return document::format_quanta(v, attribute.dimension, units_ == Units::us ? document::UnitSystem::us : document::UnitSystem::si, digits);
        };
        // The fewest digits that are the whole value as a file is read; otherwise six, rounded to the side on which what is
        // said is true.
        for (int digits = 1; digits <= 6; ++digits) {
            document::ValueProblem none;
            auto const text = printed(good, digits);
            auto const read = document::read_value(text, attribute.dimension, none);
            if (read && read->lo && static_cast<double>(*read->lo) == good) return text;
        }
        constexpr double half_a_digit = 5e-6;
        return printed(good + (downward ? 1 : -1) * std::abs(good) * half_a_digit, 6);
    };
    std::string text;
    auto say = [&](std::string part) { text += (text.empty() ? "" : "; ") + part; };
    if (high == Truth::holds && low != Truth::holds) say(bisect(Truth::holds, hi, lo) + " or more holds");
    if (low == Truth::holds && high != Truth::holds) say(bisect(Truth::holds, lo, hi) + " or less holds");
    auto first_inside = [&](auto const& wanted) {
        auto const v = std::find_if(inside.begin(), inside.end(), [&](double x) { return x > lo && x < hi && wanted(at(std::round(x))); });
        return v == inside.end() ? std::nullopt : std::optional{std::round(*v)};
    };
    if (low != Truth::holds && high != Truth::holds)
        if (auto const v = first_inside([](Truth t) { return t == Truth::holds; }))
            say(bisect(Truth::holds, *v, lo) + " to " + bisect(Truth::holds, *v, hi) + " holds");
    if (low == Truth::fails && high != Truth::fails) say(bisect(Truth::fails, lo, hi) + " or less fails");
    if (high == Truth::fails && low != Truth::fails) say(bisect(Truth::fails, hi, lo) + " or more fails");
    if (low == Truth::fails && high == Truth::fails)
        if (auto const v = first_inside([](Truth t) { return t != Truth::fails; })) say(bisect(Truth::fails, lo, *v) + " or less fails; " + bisect(Truth::fails, hi, *v) + " or more fails");
    return text.empty() ? std::nullopt : std::optional{text};
}

namespace {

/// Values of one fact at which some comparison of a rule turns, and those between them: as if the comparison went in a
/// straight line from one end of the fact to the other, or in two that meet.
std::vector<double> turns_inside(RuleRow const& row, Operands trial, int fact) {
    auto& pinned = trial.cells[static_cast<std::size_t>(fact)];
    double const lo = pinned.lo, hi = pinned.hi;
    auto steps_at = [&](double v) {
        pinned.lo = pinned.hi = pinned.band_lo = pinned.band_hi = v;
        return row.body.recorded(trial).steps;
    };
    auto const low = steps_at(lo), high = steps_at(hi);
    std::vector<double> turns, all;
    for (std::size_t s = 0; s < std::min(low.size(), high.size()); ++s) {
        auto spare = [](Step const& x) {
            return x.kind == Step::Kind::at_least ? x.available.middle() - x.required.middle() : x.required.middle() - x.available.middle();
        };
        if (low[s].kind != high[s].kind || (low[s].kind != Step::Kind::at_least && low[s].kind != Step::Kind::at_most)) continue;
        double const a = spare(low[s]), b = spare(high[s]);
        if (a != b) turns.push_back(lo - a * (hi - lo) / (b - a));
        turns.push_back(lo + low[s].available.middle());   // a distance that is asked to be small
        turns.push_back(hi - high[s].available.middle());
    }
    std::erase_if(turns, [&](double v) { return !(v > lo && v < hi); });
    std::sort(turns.begin(), turns.end());
    for (std::size_t i = 0; i < turns.size(); ++i) {
        all.push_back(turns[i]);
        if (i > 0) all.push_back((turns[i - 1] + turns[i]) / 2);
    }
    return all;
}

}  // namespace

/// The words of a choice that settle it; none when no word does, or every one.
std::optional<std::string> Explainer::words_that_hold(Attribute attribute, std::uint64_t may, TruthOf const& of) {
    std::uint64_t good = 0;
    for (std::uint64_t rest = may; rest; rest &= rest - 1)
        if (of(rest & -rest) == Truth::holds) good |= rest & -rest;
    return good && good != may ? std::optional{words_of_bits(attribute, good) + " holds"} : std::nullopt;
}

void Explainer::ask_for_jurisdiction(int rule, int pack, int row, std::vector<Question>& out) const {
    auto const* figure = judge_.pack_row(pack, row);
    if (!figure || figure->jurisdiction.empty() || !judge_.site().jurisdiction.empty()) return;
    out.push_back({"jurisdiction (site)", "ask whose code is in force here",
                   figure->jurisdiction + ": the figure of the pack " + figure->pack + " applies; any other: it does not",
                   std::string(rule_table()[static_cast<std::size_t>(rule)].id), "the site"});
}

std::vector<Question> Explainer::questions(Judged const& judged) const {
    std::vector<Question> out;
    if (judged.instance.doubtful) ask_for_jurisdiction(judged.instance.rule, judged.instance.pack, judged.instance.row, out);
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    if (!row.body.fast) return out;
    Operands const o = judge_.operands(judged.instance, parts_);
    for (int i = 0; i < o.count; ++i) {
        Slot const slot = row.body.reads[static_cast<std::size_t>(i)];
        auto const& attribute = row_of(slot.attribute);
        auto const& cell = o.cells[static_cast<std::size_t>(i)];
        std::string owner;
        if (cell.missing || cell.varying || !judge_.fact(slot, judged.instance.stand, parts_, &owner)) continue;
        Operands trial = o;
        auto& pinned = trial.cells[static_cast<std::size_t>(i)];
        std::optional<std::string> settles;
        if (attribute.kind == ValueKind::quantity && cell.lo < cell.hi)
            settles = threshold(slot.attribute, {cell.lo, cell.hi}, [&](double v) {
                pinned.lo = pinned.hi = pinned.band_lo = pinned.band_hi = v;
                return evaluate(row, trial);
            }, turns_inside(row, o, i));
        else if (attribute.kind == ValueKind::choice && (cell.may & (cell.may - 1)) != 0)
            settles = words_that_hold(slot.attribute, cell.may, [&](std::uint64_t bit) {
                pinned.may = bit;
                return evaluate(row, trial);
            });
        else if (attribute.kind == ValueKind::set && cell.must != cell.may) settles = "the list settles it";
        else if (attribute.kind == ValueKind::curve && !cell.curve) settles = "the rating settles it";
        if (!settles) continue;
        out.push_back({std::string(attribute.meaning) + " (" + owner + ")", std::string(attribute.measured), *settles,
                       std::string(row.id), subject(judged.instance)});
    }
    return out;
}

}  // namespace levelswap
