#pragma once

#include "outcome.hpp"

#include "levelswap/verdict/worlds.hpp"

namespace levelswap {

/// What something simpler than the engine can check the outcome by: a wiring and settings, a conflict, or a world.
Certificate certificate_of(Case const& c, Verdict const& verdict, std::optional<Settled> const& settled);

/// "primary.column / bore": whose fact it is, and its key in the files.
std::string fact_name(Case const& c, FactKey const& key);

/// Says of findings that exclude one another only together that they fail, and at which facts.
void show_exclusion(Case const& c, Settled const& settled, Verdict& verdict);

}  // namespace levelswap
