#include "levelswap/alternatives/repairs.hpp"
#include "levelswap/engine/engine.hpp"
#include "levelswap/verdict/compiled_site.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

// Figures are read as ratios to `judge_a_swap` of the same run: absolute times belong to the machine.
namespace levelswap {
namespace {

std::string const demo = LEVELSWAP_SOURCE_DIR "/demo_catalog";

Catalog const& demo_catalog() {
    static Catalog const catalog = read_catalog(demo);
    return catalog;
}

/// The demo catalogue filled up to `count` parts: copies of its parts, each dearer than the one before. Every
/// `different`th copy also takes another ambient limit or mass, so that it is a part of its own for the rules.
Catalog grown_catalog(std::size_t count, std::size_t different) {
    Catalog catalog = demo_catalog();
    std::size_t const originals = catalog.parts.size();
    for (std::size_t i = 0; catalog.parts.size() < count; ++i) {
        Part part = catalog.parts[i % originals];
        part.id += " variant " + std::to_string(i / originals + 1);
        auto alter = [&](Attribute a, double by) {
            auto const* known = part.facts.find(a);
            if (!known || known->nature == Fact::Nature::unknown || known->nature == Fact::Nature::none) return;
            Fact fact = *known;
            fact.lo += by;
            fact.hi += by;
            part.facts.set(a, fact);
        };
        double const nth = static_cast<double>(i / originals + 1);
        alter(Attribute::cost, nth);
        if (i % different == 0) {
            alter(Attribute::most_ambient, nth);
            alter(Attribute::mass, nth);
        }
        catalog.parts.push_back(std::move(part));
    }
    std::sort(catalog.parts.begin(), catalog.parts.end(), [](Part const& x, Part const& y) { return x.id < y.id; });
    index_parts(catalog);
    return catalog;
}

struct Question {
    Question(Catalog const& catalog, std::string const& name)
        : swap(read_swap(demo + "/swaps/" + name + ".yaml")), site(read_site(demo + "/swaps/" + swap.site_file, catalog)) {}
    Swap swap;
    Site site;
};

char const* const swaps[] = {"like_for_like", "stiff_set_and_light_float", "two_supplies_on_one_common",
                             "glass_starts_too_high", "thin_column"};

void judge_a_swap(benchmark::State& state) {
    Question const q(demo_catalog(), swaps[state.range(0)]);
    Judge const judge(demo_catalog(), q.site);
    auto const parts = proposed(q.site, demo_catalog(), q.swap.put);
    for (auto _ : state) benchmark::DoNotOptimize(judge.truth(parts));
    state.SetLabel(swaps[state.range(0)]);
}
BENCHMARK(judge_a_swap)->DenseRange(0, 4)->Unit(benchmark::kMicrosecond);

/// Every demo site with each position in turn taking each part that it accepts: what a search asks, one verdict each.
struct EveryCandidate {
    struct Asked {
        explicit Asked(std::string const& file) : site(read_site(file, demo_catalog())), judge(demo_catalog(), site) {}
        Site site;
        Judge judge;
        std::vector<Assignment> assemblies;
    };
    std::vector<std::unique_ptr<Asked>> sites;
    std::int64_t verdicts = 0;

    EveryCandidate() {
        for (auto const& entry : std::filesystem::directory_iterator(demo + "/sites")) {
            auto asked = std::make_unique<Asked>(entry.path().string());
            for (std::size_t p = 0; p < asked->site.positions.size(); ++p)
                for (int const part : candidates_for(asked->judge, static_cast<int>(p))) {
                    asked->assemblies.push_back(installed(asked->site));
                    asked->assemblies.back()[p] = part;
                }
            verdicts += static_cast<std::int64_t>(asked->assemblies.size());
            sites.push_back(std::move(asked));
        }
    }
};

void judge_every_candidate(benchmark::State& state) {
    EveryCandidate const all;
    for (auto _ : state)
        for (auto const& asked : all.sites)
            for (auto const& parts : asked->assemblies) benchmark::DoNotOptimize(asked->judge.truth(parts));
    state.SetItemsProcessed(state.iterations() * all.verdicts);
}
BENCHMARK(judge_every_candidate)->Unit(benchmark::kMillisecond);

/// Compiling each site, and its first verdict on every candidate: tables that know nothing yet.
void first_fast_verdicts(benchmark::State& state) {
    EveryCandidate const all;
    for (auto _ : state)
        for (auto const& asked : all.sites) {
            CompiledSite compiled(asked->judge);
            for (auto const& parts : asked->assemblies) benchmark::DoNotOptimize(compiled.truth(parts));
        }
    state.SetItemsProcessed(state.iterations() * all.verdicts);
}
BENCHMARK(first_fast_verdicts)->Unit(benchmark::kMillisecond);

/// The same with tables that are filled, as they are after the first round of a search or a fleet.
void fast_verdicts(benchmark::State& state) {
    EveryCandidate const all;
    std::vector<std::unique_ptr<CompiledSite>> compiled;
    for (auto const& asked : all.sites) {
        compiled.push_back(std::make_unique<CompiledSite>(asked->judge));
        for (auto const& parts : asked->assemblies) benchmark::DoNotOptimize(compiled.back()->truth(parts));
    }
    for (auto _ : state)
        for (std::size_t s = 0; s < all.sites.size(); ++s)
            for (auto const& parts : all.sites[s]->assemblies) benchmark::DoNotOptimize(compiled[s]->truth(parts));
    state.SetItemsProcessed(state.iterations() * all.verdicts);
}
BENCHMARK(fast_verdicts)->Unit(benchmark::kMillisecond);

void judge_a_remembered_wiring(benchmark::State& state) {
    Question const q(demo_catalog(), swaps[state.range(0)]);
    Judge const judge(demo_catalog(), q.site);
    auto const parts = proposed(q.site, demo_catalog(), q.swap.put);
    WiringMemo memo;
    for (auto _ : state) benchmark::DoNotOptimize(judge.wiring_gist(parts, {}, memo));
    state.SetLabel(swaps[state.range(0)]);
}
BENCHMARK(judge_a_remembered_wiring)->DenseRange(0, 4)->Unit(benchmark::kMicrosecond);

void check_a_swap(benchmark::State& state) {
    Question const q(demo_catalog(), swaps[state.range(0)]);
    for (auto _ : state) benchmark::DoNotOptimize(check(demo_catalog(), q.site, q.swap.put));
    state.SetLabel(swaps[state.range(0)]);
}
BENCHMARK(check_a_swap)->DenseRange(0, 4)->Unit(benchmark::kMicrosecond);

void find_alternatives(benchmark::State& state) {
    Question const q(demo_catalog(), swaps[state.range(0)]);
    for (auto _ : state) benchmark::DoNotOptimize(alternatives(demo_catalog(), q.site, q.swap.put));
    state.SetLabel(swaps[state.range(0)]);
}
BENCHMARK(find_alternatives)->DenseRange(1, 4)->Unit(benchmark::kMillisecond);

void find_repairs_among_many(benchmark::State& state) {
    Catalog const catalog = grown_catalog(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
    Question const q(catalog, "thin_column");
    Judge const judge(catalog, q.site);
    RepairQuery query;
    query.start = proposed(q.site, catalog, q.swap.put);
    query.may_change = (std::uint64_t{1} << query.start.size()) - 1;
    RepairSearch found;
    for (auto _ : state) benchmark::DoNotOptimize(found = find_repairs(judge, query));
    state.counters["checks"] = static_cast<double>(found.checks);
    state.counters["complete"] = found.complete ? 1 : 0;
}
BENCHMARK(find_repairs_among_many)
    ->ArgNames({"parts", "one different in"})
    ->Args({150, 1000000})->Args({1000, 1000000})->Args({10000, 1000000})->Args({1000, 10})->Args({10000, 10})
    ->Unit(benchmark::kMillisecond);

/// The whole answer: repairs that keep the new part and those that give it up, with what is said of them.
void find_alternatives_among_many(benchmark::State& state) {
    Catalog const catalog = grown_catalog(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
    Question const q(catalog, "thin_column");
    for (auto _ : state) benchmark::DoNotOptimize(alternatives(catalog, q.site, q.swap.put));
}
BENCHMARK(find_alternatives_among_many)
    ->ArgNames({"parts", "one different in"})
    ->Args({10000, 1000000})->Args({10000, 10})
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace levelswap
