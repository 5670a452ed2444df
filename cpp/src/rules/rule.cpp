#include "levelswap/rules/rule.hpp"

namespace levelswap {

void Recording::require(char const* label, Truth t, Say const& have, Say const& need) {
    truth = both(truth, t);
    steps.push_back({Step::Kind::choice, label, {}, {}, Dimension::count, have.words(), need.words(), t, Step::End::none});
}

void Recording::compare(Step::Kind kind, char const* label, Interval available, Interval required, Dimension d) {
    Interval const spare = kind == Step::Kind::at_least
                               ? Interval{available.lo - required.hi, available.hi - required.lo}
                               : Interval{required.lo - available.hi, required.hi - available.lo};
    Truth const t = spare.hi < 0 ? Truth::fails : spare.lo < 0 ? Truth::undecided : Truth::holds;
    truth = both(truth, t);
    steps.push_back({kind, label, available, required, d, {}, {}, t, Step::End::none});
}

Truth house_truth(HouseRule const& rule, Fact const* fact, Fact const* other) {
    using enum HouseRule::Comparison;
    if (!fact) return Truth::holds;
    if (rule.other && (!other || other->nature == Fact::Nature::none)) return Truth::holds;   // nothing to compare with
    auto const& want = rule.other ? *other : rule.literal;
    if (row_of(rule.attribute).kind == ValueKind::quantity) {
        double const lo = fact->nature == Fact::Nature::none ? 0 : fact->lo;
        double const hi = fact->nature == Fact::Nature::none ? 0 : fact->hi;
        if (rule.comparison == at_most) return lo > want.hi ? Truth::fails : hi > want.lo ? Truth::undecided : Truth::holds;
        if (rule.comparison == at_least) return hi < want.lo ? Truth::fails : lo < want.hi ? Truth::undecided : Truth::holds;
        Truth const same = lo > want.hi || hi < want.lo ? Truth::fails
                           : lo == want.lo && hi == want.hi && lo == hi ? Truth::holds
                                                                        : Truth::undecided;
        if (rule.comparison == is) return same;
        return same == Truth::fails ? Truth::holds : same == Truth::holds ? Truth::fails : Truth::undecided;
    }
    std::uint64_t const may = fact->nature == Fact::Nature::none ? 0 : fact->may;
    Truth const same = (may & want.may) == 0 ? Truth::fails : (may & ~want.may) == 0 ? Truth::holds : Truth::undecided;
    if (rule.comparison != is_not) return same;
    return same == Truth::fails ? Truth::holds : same == Truth::holds ? Truth::fails : Truth::undecided;
}

std::string words_of_bits(Attribute attribute, std::uint64_t bits) {
    auto const& row = row_of(attribute);
    std::string text;
    for (int i = 0; i < choice_count(row); ++i) {
        if (!((bits >> i) & 1u)) continue;
        if (!text.empty()) text += " or ";
        for (char c : choice_word(row, i)) text += c == '_' ? ' ' : c;
    }
    return text.empty() ? "none" : text;
}

}  // namespace levelswap
