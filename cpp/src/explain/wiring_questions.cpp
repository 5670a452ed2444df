// What to measure where only the levels, or a rule on two functions together, are open. These have no body whose operand
// could be pinned: the fact itself is pinned, and the levels of the same outputs are judged again.
#include "levelswap/explain/findings.hpp"
#include "levelswap/verdict/wiring_facts.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <functional>

namespace levelswap {

namespace {

Fact at_value(Fact f, double v) {
    f.nature = Fact::Nature::uncertain;
    f.lo = f.hi = v;
    return f;
}
Fact at_word(Fact f, std::uint64_t bit) {
    f.nature = Fact::Nature::uncertain;
    f.must = f.may = bit;
    return f;
}

/// The judge with one fact pinned to one value after another.
class Pinned {
public:
    Pinned(Judge const& judge, FactKey const& key) : judge_(judge), key_(key), here_(judge.within(pins_)) {}
    Judge const& at(Fact const& value) {
        pins_.insert_or_assign(key_, value);
        if (std::ranges::find(decides_packs, key_.attribute) != decides_packs.end())
            again_.emplace(judge_.within(pins_));   // other rows may apply
        return again_ ? *again_ : here_;
    }

private:
    Judge const& judge_;
    FactKey key_;
    Pins pins_;
    Judge here_;
    std::optional<Judge> again_;
};

/// One requirement as the worlds of a judge leave it; a row that no longer applies asks nothing.
struct Left {
    Truth alone = Truth::holds;
    Interval spare{0};
    bool doubtful = false;
    friend bool operator==(Left const& x, Left const& y) {
        return x.alone == y.alone && x.spare.lo == y.spare.lo && x.spare.hi == y.spare.hi && x.doubtful == y.doubtful;
    }
};
Left left_of(std::optional<LevelRule> const& r) { return r ? Left{r->alone, r->spare, r->doubtful} : Left{}; }

/// Values of a fact that are worth a look at: its ends and its middle, every word of a choice.
std::vector<Fact> looks_at(Fact const& f, Attribute attribute) {
    std::vector<Fact> values{unknown_fact(attribute)};
    if (row_of(attribute).kind == ValueKind::quantity)
        for (double const v : {f.lo, std::floor(f.lo + 0.5 * (f.hi - f.lo)), f.hi}) values.push_back(at_value(f, v));
    if (row_of(attribute).kind == ValueKind::choice)
        for (std::uint64_t rest = f.may; rest; rest &= rest - 1) values.push_back(at_word(f, rest & -rest));
    return values;
}

/// Does a requirement hang on a fact at all? Looked for as things stand, and in worlds where every other open fact is
/// pinned: two facts that nobody knows may hide one another.
class Hangs {
public:
    Hangs(Judge const& judge, Assignment const& parts, Wiring const& w, LevelRule const& rule, std::vector<ReadFact> const& reads)
        : judge_(judge), parts_(parts), wiring_(w), rule_(rule) {
        for (std::size_t world = 1; world < worlds_.size(); ++world)
            for (auto const& read : reads) {
                auto const values = looks_at(*read.fact, read.slot.attribute);
                if (read.fact->nature != Fact::Nature::unknown || values.size() < 2) continue;
                worlds_[world].insert_or_assign(read.key, values[std::min(world, values.size() - 1)]);
            }
    }
    [[nodiscard]] bool on(ReadFact const& read) const {
        // Only what nobody knows at all hides behind other facts.
        auto const last = worlds_.begin() + (read.fact->nature == Fact::Nature::unknown ? 4 : 1);
        return std::any_of(worlds_.begin(), last, [&](Pins const& world) {
            Pins pins = world;
            std::optional<Left> first;
            auto differs = [&](Fact const* value) {
                if (value) pins.insert_or_assign(read.key, *value);
                auto const left = left_of(level_of(judge_.within(pins), parts_, wiring_, rule_));
                if (!first) first = left;
                return !(left == *first);
            };
            auto const values = looks_at(*read.fact, read.slot.attribute);
            return differs(nullptr) || std::any_of(values.begin(), values.end(), [&](Fact const& v) { return differs(&v); });
        });
    }

private:
    Judge const& judge_;
    Assignment const& parts_;
    Wiring const& wiring_;
    LevelRule rule_;
    std::array<Pins, 4> worlds_;   ///< as things stand, and the rest at their low ends, middles and high ends
};

constexpr char const* not_alone = "does not settle it alone: measure it with the others asked here";

}  // namespace

/// Facts that nobody has stated come before those that are only known within a tolerance.
std::vector<Question> Explainer::level_questions(Wiring const& w, LevelRule const& r, bool together) const {
    auto const id = std::string(rule_table()[static_cast<std::size_t>(r.rule)].id);
    auto const subject = level_subject(w, r);
    auto no_place = [&](int end) { return w.elevations[static_cast<std::size_t>(end)].no_place; };
    if (no_place(r.upper) || no_place(r.lower))
        return {{"gauge glass (site)", "look at the boiler", "name its place at a station of the site file, with the glass that it holds; of steam no cut-off is judged without one", id, subject}};
    struct Asked {
        Question question;
        bool settles, unstated;
    };
    std::vector<Asked> asked;
    auto const open = facts_of_level(judge_, parts_, w, r, true);
    Hangs const hangs(judge_, parts_, w, r, open);
    for (auto const& f : open) {
        if (!hangs.on(f)) continue;
        auto const& attribute = row_of(f.slot.attribute);
        Pinned pinned(judge_, f.key);
        auto truth_at = [&](Fact const& value) {
            Judge const& there = pinned.at(value);
            return together ? levels_of(there, parts_, w.output).levels_truth : left_of(level_of(there, parts_, w, r)).alone;
        };
        std::optional<std::string> settles;
        if (attribute.kind == ValueKind::quantity)
            settles = threshold(f.slot.attribute, {f.fact->lo, f.fact->hi}, [&](double v) { return truth_at(at_value(*f.fact, v)); });
        else if (attribute.kind == ValueKind::choice)
            settles = words_that_hold(f.slot.attribute, f.fact->may, [&](std::uint64_t bit) { return truth_at(at_word(*f.fact, bit)); });
        std::string owner;
        static_cast<void>(judge_.fact(f.slot, f.stand, parts_, &owner));
        asked.push_back({{std::string(attribute.meaning) + " (" + owner + ")", std::string(attribute.measured),
                          settles ? *settles : std::string(not_alone), id, subject},
                         settles.has_value(), f.fact->nature == Fact::Nature::unknown});
    }
    bool const some = std::any_of(asked.begin(), asked.end(), [](auto const& a) { return a.settles || a.unstated; });
    std::vector<Question> out;
    if (r.doubtful) ask_for_jurisdiction(r.rule, r.pack, r.row, out);
    for (bool const unstated : {true, false})
        for (auto& a : asked)
            if (a.unstated == unstated && (a.settles || a.unstated || !some)) out.push_back(std::move(a.question));
    return out;
}

/// As list_facts does for a rule with operands: freed one after the other, those without which it refuses no more.
void Explainer::list_level_facts(Wiring const& w, LevelRule const& r, bool together, Finding& f) const {
    bool const fails = w.levels_truth == Truth::fails;
    Pins pins;
    Judge const here = judge_.within(pins);
    auto const reads = facts_of_level(judge_, parts_, w, r, false);
    Hangs const hangs(judge_, parts_, w, r, reads);
    for (auto const& read : reads) {
        auto const nature = read.fact->nature;
        bool const open = nature == Fact::Nature::unknown || (nature != Fact::Nature::none && read.fact->lo != read.fact->hi);
        if ((!fails && !open) || !hangs.on(read)) continue;
        std::string owner;
        static_cast<void>(judge_.fact(read.slot, read.stand, parts_, &owner));
        auto const text = fact_text(read.slot.attribute, owner, *read.fact);
        if (!fails) {
            f.facts.push_back(text);
            continue;
        }
        pins.insert_or_assign(read.key, unknown_fact(read.slot.attribute));
        if ((together ? levels_of(here, parts_, w.output).levels_truth : left_of(level_of(here, parts_, w, r)).alone) == Truth::fails) {
            f.used.push_back(text);
            continue;
        }
        pins.erase(read.key);
        f.facts.push_back(text);
    }
}

std::vector<Question> Explainer::pair_questions(Wiring const& w, Judged const& judged) const {
    std::vector<Question> out;
    if (judged.instance.doubtful) ask_for_jurisdiction(judged.instance.rule, judged.instance.pack, judged.instance.row, out);
    auto const id = std::string(rule_table()[static_cast<std::size_t>(judged.instance.rule)].id);
    for (auto const& f : facts_of_pair(judge_, parts_, w, judged, true)) {
        auto const& attribute = row_of(f.slot.attribute);
        Pinned pinned(judge_, f.key);
        auto const settles = words_that_hold(f.slot.attribute, f.fact->may, [&](std::uint64_t bit) {
            return truth_of_pair(pinned.at(at_word(*f.fact, bit)), parts_, w, judged);
        });
        std::string owner;
        static_cast<void>(judge_.fact(f.slot, f.stand, parts_, &owner));
        out.push_back({std::string(attribute.meaning) + " (" + owner + ")", std::string(attribute.measured), settles.value_or(not_alone), id, pair_subject(w, judged)});
    }
    return out;
}

std::string Explainer::pair_subject(Wiring const& w, Judged const& judged) const {
    auto duty = [&](int f) {
        auto const at = static_cast<std::size_t>(f);
        return std::string(words_of(judge_.site().functions[at].duty)) + " on " + output_name(w.output[at]);
    };
    return duty(judged.first) + " and " + duty(judged.instance.stand.function);
}

Finding Explainer::pair_finding(Wiring const& w, Judged const& judged) const {
    auto const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
    Finding f = findings(judged).front();
    f.subject = pair_subject(w, judged);
    for (auto const& read : facts_of_pair(judge_, parts_, w, judged, false)) {
        std::string owner;
        static_cast<void>(judge_.fact(read.slot, read.stand, parts_, &owner));
        bool const known = std::has_single_bit(read.fact->may);
        f.available += (f.available.empty() ? "" : "; ") + owner + ": " + (known ? words_of_bits(read.slot.attribute, read.fact->may) : std::string(not_known));
        f.quantity = row_of(read.slot.attribute).meaning;
        f.facts.push_back(fact_text(read.slot.attribute, owner, *read.fact));
    }
    if (!f.available.empty()) f.required = row.title;
    return f;
}

}  // namespace levelswap
