#include "consequences.hpp"

#include <algorithm>
#include <array>

namespace levelswap {

namespace {

/// As the rules have worked them out: their notes say which of them are ends.
class Ends {
public:
    explicit Ends(Case const& c) : c_(c) {}

    void read(Judged const& judged) {
        if (std::find(rules_.begin(), rules_.end(), judged.instance.rule) == rules_.end()) return;
        std::string valve;
        Slot const slot{From::reducing_valve, Attribute::droop};
        auto const key = c_.judge.key_of(slot, judged.instance.stand, c_.after);
        if (!key || !c_.judge.fact(slot, judged.instance.stand, c_.after, &valve)) return;
        for (auto const& step : c_.judge.record(judged.instance, c_.after).steps) {
            if (step.end == Step::End::least) narrow(key->index, valve, {step.available.hi, unbounded});
            if (step.end == Step::End::most) narrow(key->index, valve, {-unbounded, step.available.lo});
        }
    }
    [[nodiscard]] std::vector<SetPressure> found() && {
        std::erase_if(all_, [](SetPressure const& p) { return p.window.hi >= unbounded || p.window.lo > p.window.hi; });
        return std::move(all_);
    }

private:
    static constexpr double unbounded = 1e300;

    void narrow(int position, std::string const& valve, Interval to) {
        auto at = std::find_if(all_.begin(), all_.end(), [&](SetPressure const& p) { return p.position == position; });
        if (at == all_.end()) at = all_.insert(all_.end(), SetPressure{position, valve, {-unbounded, unbounded}});
        at->window = {std::max(at->window.lo, to.lo), std::min(at->window.hi, to.hi)};
    }

    Case const& c_;
    std::array<int, 3> rules_{rule_index("feed.regulator_window"), rule_index("feed.valve_opening"), rule_index("feed.valve_nearly_shut")};
    std::vector<SetPressure> all_;
};

}  // namespace

std::vector<SetPressure> set_pressures(Case const& c) {
    Ends ends(c);
    if (auto const& wiring = c.judgement_after.wiring)
        for (auto const& judged : wiring->pairs) ends.read(judged);
    for (auto const& judged : c.judgement_after.fixed) ends.read(judged);
    return std::move(ends).found();
}

}  // namespace levelswap
