// Outside sources: none. The compiled path must say what the judge says, for every assembly of the demo sites that one
// or two changed positions make; nothing is copied from a run of the engine.
#include "levelswap/verdict/compiled_site.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

namespace levelswap {
namespace {

std::string const demo = LEVELSWAP_SOURCE_DIR "/demo_catalog";

std::vector<std::string> site_files() {
    std::vector<std::string> files;
    for (auto const& entry : std::filesystem::directory_iterator(demo + "/sites")) files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

/// The parts that a position accepts, and `nothing`.
std::vector<int> candidates_for(Judge const& judge, int position) {
    auto const kinds = accepted_kinds(judge.site().positions[static_cast<std::size_t>(position)].role);
    std::vector<int> found{nothing};
    auto const& parts = judge.catalog().parts;
    for (int i = 0; i < static_cast<int>(parts.size()); ++i)
        if (std::find(kinds.begin(), kinds.end(), parts[static_cast<std::size_t>(i)].kind) != kinds.end()) found.push_back(i);
    return found;
}

TEST(compiled_site, says_of_every_single_change_what_the_judge_says) {
    Catalog const catalog = read_catalog(demo);
    int fits = 0, refused = 0;
    for (auto const& file : site_files()) {
        SCOPED_TRACE(file);
        Site const site = read_site(file, catalog);
        Judge const judge(catalog, site);
        CompiledSite compiled(judge);
        for (std::size_t p = 0; p < site.positions.size(); ++p)
            for (int const part : candidates_for(judge, static_cast<int>(p))) {
                auto parts = installed(site);
                parts[p] = part;
                Truth const expected = judge.truth(parts);
                ASSERT_EQ(compiled.truth(parts), expected) << site.positions[p].name << " <- " << part;
                ASSERT_EQ(compiled.truth(parts), expected) << "asked a second time";
                (expected == Truth::holds ? fits : refused) += 1;
            }
    }
    EXPECT_GT(fits, 50);
    EXPECT_GT(refused, 50);
}

TEST(compiled_site, says_of_several_changes_what_the_judge_says) {
    Catalog const catalog = read_catalog(demo);
    std::mt19937 random(20);
    for (auto const& file : site_files()) {
        SCOPED_TRACE(file);
        Site const site = read_site(file, catalog);
        Judge const judge(catalog, site);
        CompiledSite compiled(judge);
        for (int trial = 0; trial < 150; ++trial) {
            auto parts = installed(site);
            for (int changes = 2 + trial % 5; changes > 0; --changes) {
                auto const p = random() % parts.size();
                auto const choices = candidates_for(judge, static_cast<int>(p));
                parts[p] = choices[random() % choices.size()];
            }
            ASSERT_EQ(compiled.truth(parts), judge.truth(parts)) << "trial " << trial;
        }
    }
}

TEST(compiled_site, asks_no_rule_twice_about_the_same_parts) {
    Catalog const catalog = read_catalog(demo);
    Site const site = read_site(site_files().front(), catalog);
    Judge const judge(catalog, site);
    RuleTables tables(judge, {});
    auto const parts = installed(site);
    for (std::size_t row = 0; row < tables.size(); ++row) EXPECT_EQ(tables.truth(row, parts), judge.truth_of(tables.instance(row), parts));
    auto const asked = tables.asked();
    EXPECT_EQ(asked, tables.size());
    for (std::size_t row = 0; row < tables.size(); ++row) static_cast<void>(tables.truth(row, parts));
    EXPECT_EQ(tables.asked(), asked);
}

TEST(compiled_site, keeps_parts_apart_that_a_house_rule_on_the_price_tells_apart) {
    Catalog catalog = read_catalog(demo);
    HouseRule dear;
    dear.kind = Owner::float_head;
    dear.attribute = Attribute::cost;
    dear.comparison = HouseRule::Comparison::at_most;
    auto const files = site_files();
    auto const boiler = std::find_if(files.begin(), files.end(), [](auto const& f) { return std::string(f).find("coal_wharf") != std::string::npos; });
    ASSERT_NE(boiler, files.end());
    Site const site = read_site(*boiler, catalog);
    Judge const plain(catalog, site);
    int head = -1;
    for (std::size_t p = 0; p < site.positions.size(); ++p)
        if (site.positions[p].role == Role::head && head < 0) head = static_cast<int>(p);
    ASSERT_GE(head, 0);
    // A twin of an accepted head that costs more than the house allows.
    Part twin = catalog.parts[static_cast<std::size_t>(site.positions[static_cast<std::size_t>(head)].holds)];
    Fact price = *twin.facts.find(Attribute::cost);
    dear.literal = price;
    dear.literal.nature = Fact::Nature::uncertain;
    price.nature = Fact::Nature::uncertain;
    price.lo = price.hi = price.hi + 1e6;
    twin.id += " twin";
    twin.facts.set(Attribute::cost, price);
    catalog.parts.push_back(twin);
    index_parts(catalog);
    catalog.packs[static_cast<std::size_t>(site.packs.front())].house.push_back(dear);
    Judge const judge(catalog, site);
    CompiledSite compiled(judge);
    auto parts = installed(site);
    parts[static_cast<std::size_t>(head)] = static_cast<int>(catalog.parts.size()) - 1;
    EXPECT_EQ(compiled.truth(parts), judge.truth(parts));
    EXPECT_EQ(judge.truth(parts), Truth::fails);
}

}  // namespace
}  // namespace levelswap
