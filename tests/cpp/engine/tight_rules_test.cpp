// Property: a rule is left open only where some value of its open facts fails. So no box of one rule needs to be taken
// apart to find that it holds (docs/reasons/0019). The facts of the demo are widened, so that many rules stand at an edge.
#include "demo_swap.hpp"

#include "levelswap/verdict/judge.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <filesystem>
#include <random>

namespace levelswap {
namespace {

/// Gives every number that is known exactly a tolerance of so many parts of it.
void widen(FactTable& facts, double parts) {
    for (AttributeRow const& row : attributes()) {
        Fact const* known = facts.find(row.id);
        if (!known || known->nature != Fact::Nature::uncertain || row.kind != ValueKind::quantity || known->lo != known->hi) continue;
        Fact wide = *known;
        Fact const domain = unknown_fact(row.id);
        wide.lo = std::max(domain.lo, std::round(wide.lo - parts * std::abs(wide.lo)));
        wide.hi = std::min(domain.hi, std::round(wide.hi + parts * std::abs(wide.hi)));
        facts.set(row.id, wide);
    }
}

/// The demo's catalogue, which takes long to read, and each of its sites.
Catalog widened_catalog(double parts) {
    Catalog catalog = read_catalog(demo);
    for (Part& part : catalog.parts) {
        widen(part.facts, parts);
        for (Output& output : part.outputs) widen(output.facts, parts);
    }
    return catalog;
}

void widen(Site& site, double parts) {
    widen(site.vessel, parts);
    for (auto& station : site.stations) widen(station.facts, parts);
    for (auto& circuit : site.circuits) widen(circuit.facts, parts);
    for (auto& line : site.lines) widen(line.facts, parts);
}

/// One world of the open facts; what varies stays as it is, for all of it occurs.
Operands world(Operands o, RuleRow const& row, std::mt19937_64& random) {
    for (int i = 0; i < o.count; ++i) {
        Cell& c = o.cells[static_cast<std::size_t>(i)];
        if (c.missing || c.none) continue;
        auto const kind = row_of(row.body.reads[static_cast<std::size_t>(i)].attribute).kind;
        if (kind == ValueKind::quantity && !c.varying && c.lo < c.hi) {
            auto const pick = random() % 4;
            double const inside = std::round(std::uniform_real_distribution<double>(c.lo, c.hi)(random));
            double const value = pick == 0 ? c.lo : pick == 1 ? c.hi : inside;
            c.lo = c.hi = c.band_lo = c.band_hi = value;
        } else if (kind == ValueKind::choice) {
            auto nth = random() % static_cast<unsigned>(std::max(1, std::popcount(c.may)));
            auto bits = c.may;
            while (nth-- > 0) bits &= bits - 1;
            c.may = bits & (~bits + 1);
        } else if (kind == ValueKind::set) {
            c.must |= random() & c.may;
            c.may = c.must;
        }
    }
    return o;
}

TEST(TightRules, a_rule_that_is_open_fails_in_some_world) {
    std::mt19937_64 random(20);
    int open = 0;
    Catalog const catalog = widened_catalog(0.02);
    for (auto const& file : std::filesystem::directory_iterator(demo + "/swaps")) {
        Swap const swap = read_swap(file.path().string());
        Site site = read_site(demo + "/swaps/" + swap.site_file, catalog);
        widen(site, 0.02);
        Judge const judge(catalog, site);
        Assignment parts;
        for (auto const& position : site.positions) parts.push_back(position.holds);
        for (auto const& [position, part] : swap.put)
            for (std::size_t i = 0; i < parts.size(); ++i)
                if (site.positions[i].name == position) parts[i] = part == "nothing" ? nothing : catalog.find(part);
        auto const judgement = judge.judge(parts);
        std::vector<Judged> all = judgement.fixed;
        if (judgement.wiring) all.insert(all.end(), judgement.wiring->pairs.begin(), judgement.wiring->pairs.end());
        for (Judged const& judged : all) {
            RuleRow const& row = rule_table()[static_cast<std::size_t>(judged.instance.rule)];
            if (judged.truth != Truth::undecided || judged.instance.doubtful || !row.body.fast) continue;
            ++open;
            Operands const box = judge.operands(judged.instance, parts);
            bool fails = false;
            for (int n = 0; n < 2000 && !fails; ++n) {
                Truth const here = evaluate(row, world(box, row, random));
                EXPECT_NE(here, Truth::undecided) << row.id << " is open in one world of " << file.path().stem();
                fails = here == Truth::fails;
            }
            EXPECT_TRUE(fails) << row.id << " holds in every world tried of " << file.path().stem();
        }
    }
    EXPECT_GT(open, 500);
}

}  // namespace
}  // namespace levelswap
