#include "levelswap/verdict/worlds.hpp"

#include "levelswap/verdict/wiring_facts.hpp"

#include "fact_boxes.hpp"
#include "wiring_search.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <deque>

namespace levelswap {

namespace {

constexpr std::size_t most_leaves = 200;     // budgets of checks, never of seconds
constexpr std::size_t most_descents = 8;
constexpr int most_passes = 3;

class Settling {
public:
    Settling(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside, std::size_t most_boxes)
        : judge_(judge), parts_(parts), set_aside_(set_aside), most_boxes_(most_boxes) {
        WiringMemo memo;
        WiringSearch search(judge, parts, set_aside, *memo.entries);
        search.run();
        if (auto best = search.best()) outputs_ = std::move(*best);
    }

    Settled run() {
        Settled out;
        std::deque<Pins> boxes{{}};
        std::size_t judged = 0;
        while (!boxes.empty() && judged < most_boxes_) {
            Pins const box = std::move(boxes.front());
            boxes.pop_front();
            ++judged;
            Truth const t = truth(box);
            if (t == Truth::fails) {
                note_failures(box, out);
                continue;
            }
            if (t == Truth::holds) {
                out.world = middle(box);
                break;
            }
            if (judged <= most_descents)
                if (auto point = descend(box)) {
                    out.world = std::move(point);
                    break;
                }
            auto const children = split(box);
            if (children.empty()) return out;   // nothing is left to take apart
            boxes.insert(boxes.end(), children.begin(), children.end());
        }
        if (out.world) {
            out.proved = true;
            out.excluding.clear();
            out.shared.clear();
            out.once_set = every_world_has_settings();
        } else if (boxes.empty()) {
            out.truth = Truth::fails;
            out.proved = true;
        }
        return out;
    }

    /// Each box fails: no world is looked for, one box that holds ends it.
    bool refuted() {
        std::deque<Pins> boxes{{}};
        for (std::size_t judged = 0; judged < most_boxes_ && !boxes.empty(); ++judged) {
            Pins const box = std::move(boxes.front());
            boxes.pop_front();
            Truth const t = truth(box);
            if (t == Truth::holds) return false;
            if (t == Truth::fails) continue;
            auto const children = split(box);
            if (children.empty()) return false;
            boxes.insert(boxes.end(), children.begin(), children.end());
        }
        return boxes.empty();
    }

private:
    using Readers = std::map<FactKey, int>;   ///< how many undecided rules read it

    [[nodiscard]] bool aside(Instance const& i) const {
        return std::find(set_aside_.begin(), set_aside_.end(), i) != set_aside_.end();
    }
    [[nodiscard]] Truth truth(Pins const& box) const { return judge_.within(box).truth(parts_, set_aside_); }

    [[nodiscard]] std::vector<Instance> required(Judge const& here) const {
        std::vector<Instance> found = here.required();
        std::erase_if(found, [&](Instance const& i) { return aside(i); });
        return found;
    }

    /// The pair rules of the wiring that the whole box leaves best.
    [[nodiscard]] std::vector<Instance> pairs(Judge const& here) const {
        std::vector<Instance> found;
        for (std::size_t f = 0; f < outputs_.size(); ++f)
            for (auto const& judged : here.pair_rules(static_cast<int>(f), outputs_[f], parts_, false))
                if (judged.truth != Truth::holds && !aside(judged.instance)) found.push_back(judged.instance);
        return found;
    }

    void read_slots(Judge const& here, std::span<Slot const> slots, Stand const& stand, Readers& found) const {
        for (Slot const& slot : slots) {
            auto const key = here.key_of(slot, stand, parts_);
            Fact const* fact = key ? here.fact(slot, stand, parts_, nullptr) : nullptr;
            if (fact && is_open(*fact, slot.attribute)) ++found[*key];
        }
    }

    /// The open facts of a box by what undecided reads them.
    [[nodiscard]] Readers readers(Pins const& box) const {
        Judge const here = judge_.within(box);
        Readers found;
        auto add = [&](Instance const& i) {
            read_slots(here, rule_table()[static_cast<std::size_t>(i.rule)].body.reads, i.stand, found);
        };
        bool doubtful = false;
        for (auto const& i : required(here))
            if (here.truth_of(i, parts_) == Truth::undecided) add(i), doubtful |= i.doubtful;
        for (auto const& i : pairs(here)) add(i);
        wiring_readers(here, found, found);
        if (doubtful)   // whether a row of a pack applies is decided by the vessel
            for (Attribute const a : decides_packs)
                if (is_open(*here.vessel_fact(a), a)) ++found[{Owner::vessel, 0, -1, a}];
        return found;
    }

    /// What heights, glass and mountings are made of, and what rules on two functions together leave open.
    void wiring_readers(Judge const& here, Readers& levels, Readers& found) const {
        if (outputs_.empty()) return;
        Wiring const w = record_wiring(here, parts_, false, set_aside_, outputs_);
        if (w.levels_truth != Truth::holds)
            for (auto const& f : open_facts_of_levels(here, parts_, outputs_)) ++levels[f.key];
        for (auto const& j : w.whole)
            if (j.truth == Truth::undecided)
                for (auto const& f : facts_of_pair(here, parts_, w, j, true)) ++found[f.key];
    }

    [[nodiscard]] Fact const* fact_of(Judge const& here, FactKey const& key) const {
        Stand stand;
        Slot slot{From::vessel, key.attribute};
        switch (key.owner) {
            case Owner::vessel: break;
            case Owner::station: stand.station = key.index, slot.from = From::station; break;
            case Owner::circuit: stand.circuit = key.index, slot.from = From::circuit; break;
            case Owner::line: stand.line = key.index, slot.from = From::line; break;
            case Owner::output: stand.output = {key.index, key.output}, slot.from = From::output; break;
            default: stand.position = key.index, slot.from = From::part; break;
        }
        return here.fact(slot, stand, parts_, nullptr);
    }

    [[nodiscard]] Pins middle(Pins const& box) const {
        Pins point = box;
        Judge const here = judge_.within(box);
        for (auto const& [key, count] : readers(box)) {
            auto const points = points_of(*fact_of(here, key), key.attribute);
            if (!points.empty()) point.insert_or_assign(key, points.front());
        }
        return point;
    }

    /// What a box leaves open, and who reads what of it: a change of one fact asks only the rules that read it.
    struct Open {
        std::vector<Instance> rules;
        std::map<FactKey, std::vector<std::size_t>> reading;
        std::vector<int> bad;    ///< by rule: 1 when it does not hold at the point
        int bad_levels = 0;
        bool levels = false;
    };

    [[nodiscard]] Open open_rules(Pins const& box) const {
        Judge const here = judge_.within(box);
        Open open;
        for (auto const& i : required(here))
            if (here.truth_of(i, parts_) == Truth::undecided) open.rules.push_back(i);
        for (auto const& i : pairs(here)) open.rules.push_back(i);
        for (std::size_t r = 0; r < open.rules.size(); ++r) {
            auto const& i = open.rules[r];
            Readers read;
            read_slots(here, rule_table()[static_cast<std::size_t>(i.rule)].body.reads, i.stand, read);
            for (auto const& [key, count] : read) open.reading[key].push_back(r);
        }
        Readers heights, pairs_of;
        wiring_readers(here, heights, pairs_of);
        open.levels = !heights.empty();
        for (auto const& [key, count] : heights) open.reading[key].push_back(levels_);
        open.bad.assign(open.rules.size(), 1);
        return open;
    }

    [[nodiscard]] int bad_levels(Judge const& here) const {
        Wiring w;
        w.output = outputs_;
        return LevelBuilder(here, parts_, false, set_aside_).unmet(w);
    }

    /// Asks again what reads the fact.
    void ask_again(Judge const& here, std::vector<std::size_t> const& readers, Open& open) const {
        for (std::size_t const r : readers) {
            if (r == levels_) open.bad_levels = bad_levels(here);
            else open.bad[r] = here.truth_of(open.rules[r], parts_) != Truth::holds;
        }
    }

    static int sum(Open const& open) {
        int total = open.bad_levels;
        for (int const b : open.bad) total += b;
        return total;
    }

    /// Looks for a world of the box in which everything holds: one fact after the other to where most holds.
    [[nodiscard]] std::optional<Pins> descend(Pins const& box) const {
        Pins point = middle(box);
        if (truth(point) == Truth::holds) return point;
        Judge const in_box = judge_.within(box);
        Open open = open_rules(box);
        Judge here = judge_.within(point);   // sees the point as it moves
        for (auto const& [key, readers] : open.reading) ask_again(here, readers, open);
        int best = sum(open);
        for (int pass = 0; pass < most_passes && best > 0; ++pass) {
            int const before = best;
            for (auto const& [key, readers] : open.reading) {
                for (auto const& value : points_of(*fact_of(in_box, key), key.attribute)) {
                    Fact const kept = point.at(key);
                    auto const bad = open.bad;
                    int const levels = open.bad_levels;
                    point.insert_or_assign(key, value);
                    ask_again(here, readers, open);
                    if (sum(open) < best) {
                        best = sum(open);
                        continue;
                    }
                    point.insert_or_assign(key, kept);
                    open.bad = bad;
                    open.bad_levels = levels;
                }
            }
            if (best == before) break;
        }
        return truth(point) == Truth::holds ? std::optional{point} : std::nullopt;
    }

    /// The two halves of the box at one fact; none when no fact is chosen.
    [[nodiscard]] std::vector<Pins> halved(Pins const& box, std::optional<FactKey> const& at) const {
        std::vector<Pins> children;
        if (!at) return children;
        for (auto const& half : halves_of(*fact_of(judge_.within(box), *at), at->attribute)) {
            children.push_back(box);
            children.back().insert_or_assign(*at, half);
        }
        return children;
    }

    /// At the fact that most undecided rules read, a choice before a quantity.
    [[nodiscard]] std::vector<Pins> split(Pins const& box) const {
        std::optional<FactKey> chosen;
        std::pair<int, bool> most{0, false};
        for (auto const& [key, count] : readers(box)) {
            auto const kind = row_of(key.attribute).kind;
            if (kind != ValueKind::quantity && kind != ValueKind::choice) continue;
            std::pair const weight{count, kind == ValueKind::choice};
            if (weight > most) most = weight, chosen = key;
        }
        return halved(box, chosen);
    }

    /// What closed a box, for the conflict.
    void note_failures(Pins const& box, Settled& out) const {
        Judge const here = judge_.within(box);
        auto add = [&](Instance const& i) {
            if (std::find(out.excluding.begin(), out.excluding.end(), i) == out.excluding.end()) out.excluding.push_back(i);
        };
        bool found = false;
        for (auto const& i : required(here))
            if (here.truth_of(i, parts_) == Truth::fails) add(i), found = true;
        if (!found)
            for (auto const& i : pairs(here))
                if (here.truth_of(i, parts_) == Truth::fails) add(i);
        for (auto const& [key, value] : box)
            if (std::find(out.shared.begin(), out.shared.end(), key) == out.shared.end()) out.shared.push_back(key);
    }

    /// Only the levels are open, and each small enough box has settings that are right in all of it.
    [[nodiscard]] bool every_world_has_settings() const {
        Pins const none;
        for (auto const& i : required(judge_))
            if (judge_.truth_of(i, parts_) != Truth::holds) return false;
        if (!pairs(judge_).empty()) return false;
        std::deque<Pins> boxes{none};
        for (std::size_t judged = 0; judged < most_leaves; ++judged) {
            if (boxes.empty()) return true;
            Pins const box = std::move(boxes.front());
            boxes.pop_front();
            Truth const t = truth(box);
            if (t == Truth::holds) continue;
            if (t == Truth::fails) return false;
            auto children = split_widest(box);
            if (children.empty()) return false;
            for (auto& child : children) boxes.push_back(std::move(child));
        }
        return boxes.empty();
    }

    [[nodiscard]] std::vector<Pins> split_widest(Pins const& box) const {
        Judge const here = judge_.within(box);
        std::optional<FactKey> chosen;
        double widest = 0;
        for (auto const& [key, count] : readers(box)) {
            auto const& row = row_of(key.attribute);
            if (row.kind != ValueKind::quantity) continue;
            Fact const* f = fact_of(here, key);
            // A length counts as it is; an angle at an arm of some 200 mm.
            double const width = (f->hi - f->lo) * (row.dimension == Dimension::angle ? 200 : 1);
            if (width > widest) widest = width, chosen = key;
        }
        return halved(box, chosen);
    }

    Judge const& judge_;
    Assignment const& parts_;
    std::vector<Instance> const& set_aside_;
    std::size_t most_boxes_;
    std::vector<OutputRef> outputs_;
    static constexpr std::size_t levels_ = SIZE_MAX;   ///< stands for the levels among the readers of a fact
};

}  // namespace

bool impossible(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside, std::size_t most_boxes) {
    return judge.site().functions_complete && Settling(judge, parts, set_aside, most_boxes).refuted();
}

Settled settle(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside, std::size_t most_boxes) {
    if (judge.site().functions_complete) return Settling(judge, parts, set_aside, most_boxes).run();
    // A list that may lack functions: a world in which it lacks none is one of its worlds, and proves that it may
    // fit. That none of these worlds satisfies the rules proves nothing of the others.
    Site whole = judge.site();
    whole.functions_complete = true;
    Judge const listed(judge.catalog(), whole);
    auto settled = Settling(listed, parts, set_aside, most_boxes).run();
    if (!settled.world) return {};
    settled.once_set = false;
    return settled;
}

}  // namespace levelswap
