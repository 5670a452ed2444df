#pragma once

// What a case file says. See tests/cases/README.md.

#include "levelswap/base/diagnostic.hpp"
#include "levelswap/document/node.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace levelswap::cases {

namespace fs = std::filesystem;
using document::Document;
using document::Node;

inline fs::path cases_folder() { return fs::path(LEVELSWAP_TEST_DATA) / "cases"; }

/// A case file as written.
struct RuleCase {
    std::string rule, expect, site = "site.yaml";
    std::string finding, required, available, margin;   ///< figures worked by hand; empty: none stated
    std::vector<std::pair<std::string, Node>> set;
    std::vector<std::string> without;
    std::vector<std::pair<std::string, std::string>> put;
    Node packs;
};

inline RuleCase read_case(fs::path const& file) {
    Document const document = document::read_file(file.string());
    if (!document.problems.empty()) throw DataError(document.problems);
    RuleCase c;
    auto text_to = [](std::string& target) { return [&target](Node const& n) { target = n.text; }; };
    std::vector<std::pair<std::string_view, std::function<void(Node const&)>>> const keys = {
        {"levelswap", [](Node const& n) { if (n.text != "case/1") throw std::runtime_error("not a case/1 file"); }},
        {"rule", text_to(c.rule)}, {"expect", text_to(c.expect)}, {"site", text_to(c.site)},
        {"finding", text_to(c.finding)}, {"required", text_to(c.required)}, {"available", text_to(c.available)},
        {"margin", text_to(c.margin)}, {"because", [](Node const&) {}},
        {"set", [&](Node const& n) { for (std::size_t i = 0; i < n.items.size(); ++i) c.set.emplace_back(n.keys[i], n.items[i]); }},
        {"without", [&](Node const& n) { for (Node const& item : n.items) c.without.push_back(item.text); }},
        {"put", [&](Node const& n) { for (std::size_t i = 0; i < n.items.size(); ++i) c.put.emplace_back(n.keys[i], n.items[i].text); }},
        {"packs", [&](Node const& n) { c.packs = n; }},
    };
    for (std::size_t i = 0; i < document.root.items.size(); ++i) {
        auto const key = std::find_if(keys.begin(), keys.end(), [&](auto const& k) { return k.first == document.root.keys[i]; });
        if (key == keys.end()) throw std::runtime_error("a case has no key \"" + document.root.keys[i] + "\"");
        key->second(document.root.items[i]);
    }
    if (!document.root.find("because")) throw std::runtime_error("the case does not say \"because\"");
    return c;
}

}  // namespace levelswap::cases
