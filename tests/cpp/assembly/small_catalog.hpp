#pragma once

#include "catalog/read_catalog.hpp"

namespace levelswap {

/// The invented catalogue against which the site files of these tests are read.
inline Catalog small_catalog() {
    return reading::catalog_of(
        {document::read_text("levelswap: parts/1\nkind: float\nparts:\n"
                             "  ball float: {form: sphere, diameter: 4 in +/- .1 in, mass: 300 g +/- 10 g}\n",
                             "floats.yaml"),
         document::read_text("levelswap: parts/1\nkind: float_half\nparts:\n  low half: {arm: 180 mm}\n", "halves.yaml"),
         document::read_text("levelswap: parts/1\nkind: switch_set\nparts:\n"
                             "  old set: {outputs: {upper: {form: closes_on_fall}, lower: {form: opens_on_fall}}}\n"
                             "  stage set: {outputs: {slide: {form: proportional}}}\n",
                             "sets.yaml"),
         document::read_text("levelswap: pack/1\nname: power boiler\n", "power.yaml")});
}

}  // namespace levelswap
