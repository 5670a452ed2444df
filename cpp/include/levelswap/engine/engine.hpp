#pragma once

#include "levelswap/assembly/site.hpp"
#include "levelswap/explain/answer.hpp"

#include <optional>
#include <string>
#include <vector>

namespace levelswap {

/// Judges a swap; renders numbers in the units asked for.
Verdict check(Catalog const& catalog, Site const& site,
              std::vector<std::pair<std::string, std::string>> const& put, Units units = Units::us);

/// Which repairs are looked for: those that keep the proposed parts, those that give one up, or both.
enum class WhichRepairs : std::uint8_t { both, keep, release };

Alternatives alternatives(Catalog const& catalog, Site const& site,
                          std::vector<std::pair<std::string, std::string>> const& put, int max_changes = 3,
                          bool old_may_return = false, Units units = Units::us,
                          WhichRepairs which = WhichRepairs::both);

/// One row of the table of rules, as shown to people.
struct RuleInfo {
    std::string id, family, title, level, source, protects, figure;
    std::vector<std::string> reads;
};
std::vector<RuleInfo> rules();

/// Every problem of the files below a path (catalogue folder, site, swap, pack or parts file); empty when sound.
std::vector<Diagnostic> validate(std::string const& path, Catalog const* catalog = nullptr);

}  // namespace levelswap
