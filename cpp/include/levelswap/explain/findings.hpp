#pragma once

#include "levelswap/explain/answer.hpp"
#include "levelswap/verdict/judge.hpp"

#include <vector>

namespace levelswap {

/// Turns judged rules into findings and questions: numbers first, words from them.
class Explainer {
public:
    Explainer(Judge const& judge, Assignment const& parts, std::uint64_t changed, Units units)
        : judge_(judge), parts_(parts), changed_(changed), units_(units) {}

    /// One finding for each comparison of the rule that does not hold (or the closest one when all do).
    [[nodiscard]] std::vector<Finding> findings(Judged const& judged) const;
    /// What the level network says: each requirement that fails or stays open, with both elevations.
    /// What the levels refuse or leave open, each with the rule as others name it.
    [[nodiscard]] std::vector<std::pair<Instance, Finding>> level_findings(Wiring const& wiring) const;
    /// Which measurement settles an undecided rule, and at what value: sharp to one quantum.
    [[nodiscard]] std::vector<Question> questions(Judged const& judged) const;
    [[nodiscard]] std::string quantity(Interval quanta, Dimension dimension) const;
    [[nodiscard]] std::string output_name(OutputRef const& output) const;
    [[nodiscard]] std::string level_name(Elevation const& e) const;

private:
    [[nodiscard]] std::string subject(Instance const& instance) const;
    [[nodiscard]] std::vector<std::string> facts(Judged const& judged) const;
    [[nodiscard]] std::string figure_source(int rule, int pack, int row) const;
    [[nodiscard]] std::vector<std::string> names(std::uint64_t positions) const;
    [[nodiscard]] std::optional<std::string> threshold(Instance const& instance, Operands const& o, int slot, Slot s) const;

    Judge const& judge_;
    Assignment const& parts_;
    std::uint64_t changed_;
    Units units_;
};

}  // namespace levelswap
