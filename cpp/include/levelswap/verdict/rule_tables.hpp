#pragma once

#include "levelswap/verdict/part_numbers.hpp"

#include <vector>

namespace levelswap {

/// The required rules of a site that no wiring changes, each with a table by the parts at the positions that it
/// reads: a rule is asked once for each tuple of parts that it can tell apart. Not shared between threads.
class RuleTables {
public:
    RuleTables(Judge const& judge, std::vector<Instance> const& set_aside);
    ~RuleTables();
    RuleTables(RuleTables&&) noexcept;

    [[nodiscard]] std::size_t size() const { return rows_.size(); }
    [[nodiscard]] Instance const& instance(std::size_t row) const { return rows_[row].instance; }
    /// Positions that a row reads, as bits.
    [[nodiscard]] std::uint64_t positions(std::size_t row) const { return rows_[row].positions; }
    [[nodiscard]] Truth truth(std::size_t row, Assignment const& parts);
    /// Rules asked so far; what the tables knew already is not counted.
    [[nodiscard]] std::size_t asked() const { return asked_; }

private:
    friend class CompiledSite;
    struct Table;
    struct Row {
        Instance instance;
        std::uint64_t positions = 0;
        std::vector<std::uint8_t> places;   ///< the same positions, one by one
        bool fits_a_key = true;             ///< else the rule is asked every time
    };
    Judge const& judge_;
    std::vector<Row> rows_;
    PartNumbers numbers_;
    std::vector<Table> tables_;
    std::size_t asked_ = 0;
};

}  // namespace levelswap
