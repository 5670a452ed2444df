#pragma once

#include "levelswap/verdict/rule_tables.hpp"

#include <memory>
#include <vector>

namespace levelswap {

/// A site compiled for many verdicts: what is installed is judged once, then an assembly is judged by the rules that
/// read a position whose part differs. The same rule bodies as everywhere; only what was asked before is remembered.
/// Not shared between threads: one each.
class CompiledSite {
public:
    explicit CompiledSite(Judge const& judge, std::vector<Instance> set_aside = {});
    ~CompiledSite();
    CompiledSite(CompiledSite const&) = delete;
    CompiledSite& operator=(CompiledSite const&) = delete;

    /// As Judge::truth.
    [[nodiscard]] Truth truth(Assignment const& parts);

private:
    using RowSet = std::vector<std::uint64_t>;
    [[nodiscard]] Truth rules(std::uint64_t changed, Assignment const& parts);
    [[nodiscard]] Truth wiring(std::uint64_t changed, Assignment const& parts);

    Judge const& judge_;
    std::vector<Instance> set_aside_;
    Assignment base_;
    RuleTables rows_;
    std::vector<RowSet> reading_;    ///< by position: the rows that read it
    RowSet failing_, undecided_;     ///< rows as installed
    WiringMemo memo_;
    struct Wirings;
    std::unique_ptr<Wirings> wirings_;
};

}  // namespace levelswap
