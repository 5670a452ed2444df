#include "bindings.hpp"

PYBIND11_MODULE(_core, module) {
    using namespace levelswap::bindings;
    module.doc() =
        "The engine of levelswap: read a catalogue and a site, judge a swap, find what works instead.";
    module.attr("__version__") = LEVELSWAP_VERSION;
    bind_errors(module);
    bind_catalog(module);
    bind_site(module);
    bind_alternatives(module);
    bind_verdict(module);
    bind_rules(module);
    bind_sheet(module);
}
