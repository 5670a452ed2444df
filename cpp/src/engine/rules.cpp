#include "levelswap/engine/engine.hpp"
#include "levelswap/rules/rule.hpp"

#include <iterator>

namespace levelswap {

namespace {

std::string_view words_of(From from) {
    constexpr std::string_view names[] = {"head", "switch half", "column", "float", "switch set", "glass",
                                          "probe holder", "probe relay", "transmitter", "float control", "float valve",
                                          "contactor", "relay", "transformer", "converter", "solenoid valve", "reducing valve",
                                          "feed valve", "actuator", "pump", "part", "output", "vessel", "station", "circuit",
                                          "feed line"};
    static_assert(std::size(names) == static_cast<std::size_t>(From::line) + 1);
    return names[static_cast<int>(from)];
}

}  // namespace

std::vector<RuleInfo> rules() {
    std::vector<RuleInfo> out;
    for (auto const& row : rule_table()) {
        RuleInfo info;
        info.id = row.id;
        info.family = std::string(row.id.substr(0, row.id.find('.')));
        info.title = row.title;
        info.level = row.required ? "required" : "recommended";
        info.source = row.source;
        info.protects = row.protects;
        info.figure = row.figure == Figure::none ? "" : std::string(row_of(row.figure).name);
        for (auto const& slot : row.body.reads)
            info.reads.push_back(std::string(words_of(slot.from)) + ": " + std::string(row_of(slot.attribute).meaning));
        out.push_back(std::move(info));
    }
    return out;
}

}  // namespace levelswap
