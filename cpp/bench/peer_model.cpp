#include "levelswap/alternatives/repairs.hpp"
#include "levelswap/engine/engine.hpp"
#include "levelswap/verdict/compiled_site.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

// The engine's side of cpp/bench/peers.py, which writes a catalogue folder, names it in LEVELSWAP_PEER_MODEL and lets
// other means answer the same questions. The answers are written beside the sites, to be compared one by one.
namespace levelswap {
namespace {

char const* folder() { return std::getenv("LEVELSWAP_PEER_MODEL"); }

std::vector<std::string> files_in(std::string const& name) {
    std::vector<std::string> files;
    for (auto const& entry : std::filesystem::directory_iterator(std::string(folder()) + "/" + name))
        files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

/// One site with the assemblies that one changed position makes of it.
struct Questions {
    Questions(Catalog const& catalog, std::string const& file) : site(read_site(file, catalog)), judge(catalog, site) {
        for (std::size_t p = 0; p < site.positions.size(); ++p)
            for (int const part : candidates_for(judge, static_cast<int>(p))) {
                assemblies.push_back(installed(site));
                assemblies.back()[p] = part;
                names.push_back(site.positions[p].name + ',' +
                                (part == nothing ? "nothing" : catalog.parts[static_cast<std::size_t>(part)].id));
            }
    }
    Site site;
    Judge judge;
    std::vector<Assignment> assemblies;
    std::vector<std::string> names;
};

void judge_the_peer_model(benchmark::State& state) {
    Catalog const catalog = read_catalog(folder());
    std::vector<std::unique_ptr<Questions>> sites;
    for (auto const& file : files_in("sites")) sites.push_back(std::make_unique<Questions>(catalog, file));
    std::ofstream answers(std::string(folder()) + "/answers.csv");
    std::int64_t verdicts = 0;
    for (auto const& q : sites)
        for (std::size_t i = 0; i < q->assemblies.size(); ++i, ++verdicts)
            answers << std::filesystem::path(q->site.file).stem().string() << ',' << q->names[i] << ','
                    << (q->judge.truth(q->assemblies[i]) == Truth::holds) << '\n';
    for (auto _ : state)
        for (auto const& q : sites)
            for (auto const& parts : q->assemblies) benchmark::DoNotOptimize(q->judge.truth(parts));
    state.SetItemsProcessed(state.iterations() * verdicts);
}

/// The same through compiled sites whose tables are filled: the answers must be the same too.
void fast_judge_the_peer_model(benchmark::State& state) {
    Catalog const catalog = read_catalog(folder());
    std::vector<std::unique_ptr<Questions>> sites;
    std::vector<std::unique_ptr<CompiledSite>> compiled;
    std::int64_t verdicts = 0;
    for (auto const& file : files_in("sites")) {
        sites.push_back(std::make_unique<Questions>(catalog, file));
        compiled.push_back(std::make_unique<CompiledSite>(sites.back()->judge));
        for (auto const& parts : sites.back()->assemblies) {
            ++verdicts;
            if (compiled.back()->truth(parts) != sites.back()->judge.truth(parts)) return state.SkipWithError("the fast path answers differently");
        }
    }
    for (auto _ : state)
        for (std::size_t s = 0; s < sites.size(); ++s)
            for (auto const& parts : sites[s]->assemblies) benchmark::DoNotOptimize(compiled[s]->truth(parts));
    state.SetItemsProcessed(state.iterations() * verdicts);
}

/// A proposed swap whose parts stand: every other position may change.
struct Repairs {
    Repairs(Catalog const& catalog, std::string const& file)
        : swap(read_swap(file)),
          site(read_site(std::filesystem::path(file).parent_path().string() + "/" + swap.site_file, catalog)),
          judge(catalog, site) {
        query.start = proposed(site, catalog, swap.put);
        query.may_change = (std::uint64_t{1} << query.start.size()) - 1;
        for (auto const& [position, part] : swap.put) query.may_change &= ~(std::uint64_t{1} << site.find_position(position));
    }
    Swap swap;
    Site site;
    Judge judge;
    RepairQuery query;
};

void repair_the_peer_model(benchmark::State& state) {
    Catalog const catalog = read_catalog(folder());
    std::vector<std::unique_ptr<Repairs>> swaps;
    for (auto const& file : files_in("swaps")) swaps.push_back(std::make_unique<Repairs>(catalog, file));
    std::size_t sets = 0, tuples = 0;
    for (auto const& q : swaps)
        for (auto const& repair : find_repairs(q->judge, q->query).repairs) ++sets, tuples += repair.total;
    for (auto _ : state)
        for (auto const& q : swaps) benchmark::DoNotOptimize(find_repairs(q->judge, q->query));
    state.counters["sets"] = static_cast<double>(sets);
    state.counters["tuples"] = static_cast<double>(tuples);
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(swaps.size()));
}

// Only when there is a model to read.
[[maybe_unused]] bool const registered = [] {
    if (!folder()) return false;
    benchmark::RegisterBenchmark("judge_the_peer_model", judge_the_peer_model)->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark("fast_judge_the_peer_model", fast_judge_the_peer_model)->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark("repair_the_peer_model", repair_the_peer_model)->Unit(benchmark::kMillisecond);
    return true;
}();

}  // namespace
}  // namespace levelswap
