#pragma once

#include "levelswap/engine/engine.hpp"

namespace levelswap {

inline std::string const demo = LEVELSWAP_SOURCE_DIR "/demo_catalog";

/// A demo swap with its site and a catalogue of its own, for a test to alter.
struct DemoSwap {
    explicit DemoSwap(std::string const& name)
        : catalog(read_catalog(demo)), swap(read_swap(demo + "/swaps/" + name + ".yaml")),
          site(read_site(demo + "/swaps/" + swap.site_file, catalog)) {}
    [[nodiscard]] FactTable& of_part(std::string const& id) { return catalog.parts[static_cast<std::size_t>(catalog.find(id))].facts; }

    Catalog catalog;
    Swap swap;
    Site site;
};

}  // namespace levelswap
