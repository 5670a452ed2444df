#pragma once

#include "levelswap/explain/answer.hpp"
#include "levelswap/verdict/judge.hpp"

#include <functional>
#include <string_view>
#include <vector>

namespace levelswap {

/// What stands in a finding for a side that nothing bounds.
inline constexpr std::string_view not_known = "not known";

/// Turns judged rules into findings and questions: numbers first, words from them.
class Explainer {
public:
    Explainer(Judge const& judge, Assignment const& parts, std::uint64_t changed, Units units)
        : judge_(judge), parts_(parts), changed_(changed), units_(units) {}

    /// One finding for each comparison of the rule that does not hold (or the closest one when all do).
    [[nodiscard]] std::vector<Finding> findings(Judged const& judged) const;
    /// What the levels refuse or leave open, each with the rule as others name it. Where requirements only exclude one
    /// another, one finding of levels.mounting says what they lack together, and they follow it.
    [[nodiscard]] std::vector<std::pair<Instance, Finding>> level_findings(Wiring const& wiring) const;
    /// The requirements that are shown of a wiring, and whether they fail or are open only together.
    struct LevelsShown {
        std::vector<LevelRule> rules;
        bool together = false;
    };
    [[nodiscard]] static LevelsShown levels_shown(Wiring const& wiring);
    /// A rule on two functions together: where it stands, and with what each of them stands on.
    [[nodiscard]] std::string pair_subject(Wiring const& wiring, Judged const& judged) const;
    [[nodiscard]] Finding pair_finding(Wiring const& wiring, Judged const& judged) const;
    /// Which measurement settles an undecided rule, and at what value: sharp to one quantum.
    [[nodiscard]] std::vector<Question> questions(Judged const& judged) const;
    /// The same for one requirement between two levels; `together`: it can be met alone, and all of them are judged.
    [[nodiscard]] std::vector<Question> level_questions(Wiring const& wiring, LevelRule const& rule, bool together) const;
    /// And for a rule on two functions together.
    [[nodiscard]] std::vector<Question> pair_questions(Wiring const& wiring, Judged const& judged) const;
    [[nodiscard]] std::string quantity(Interval quanta, Dimension dimension, int digits = 4) const;
    [[nodiscard]] std::string output_name(OutputRef const& output) const;
    [[nodiscard]] std::string level_name(Elevation const& e) const;

    /// Where a level is as its column hangs, or its rod is cut, now; nm above the vessel datum.
    [[nodiscard]] Interval as_mounted(Elevation const& e) const;

private:
    [[nodiscard]] std::string subject(Instance const& instance) const;
    static std::string fact_text(Attribute attribute, std::string const& owner, Fact const& fact);
    void list_facts(Judged const& judged, Recording const& rec, Finding& finding) const;
    void list_level_facts(Wiring const& wiring, LevelRule const& rule, bool together, Finding& finding) const;
    [[nodiscard]] std::string waits_for(Judged const& judged, Step const& step, Interval Step::*side) const;
    [[nodiscard]] Finding level_finding(Wiring const& wiring, LevelRule const& rule, bool together) const;
    [[nodiscard]] Finding mounting_finding(Wiring const& wiring, std::vector<LevelRule> const& parts) const;
    [[nodiscard]] bool hangs_on_a_setting(Elevation const& e) const;
    [[nodiscard]] std::string figure_source(int rule, int pack, int row) const;
    [[nodiscard]] std::vector<std::string> names(std::uint64_t positions) const;
    [[nodiscard]] std::string level_subject(Wiring const& wiring, LevelRule const& rule) const;
    /// Whose code is in force, where a row of a pack hangs on that and the site does not say.
    void ask_for_jurisdiction(int rule, int pack, int row, std::vector<Question>& out) const;
    using TruthAt = std::function<Truth(double)>;
    using TruthOf = std::function<Truth(std::uint64_t)>;
    [[nodiscard]] std::optional<std::string> threshold(Attribute attribute, Interval range, TruthAt const& at,
                                                       std::vector<double> const& inside = {}) const;
    [[nodiscard]] static std::optional<std::string> words_that_hold(Attribute attribute, std::uint64_t may, TruthOf const& of);

    Judge const& judge_;
    Assignment const& parts_;
    std::uint64_t changed_;
    Units units_;
};

}  // namespace levelswap
