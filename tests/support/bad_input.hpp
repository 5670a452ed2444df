#pragma once

#include "levelswap/base/diagnostic.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <set>
#include <sstream>

namespace levelswap::bad_input {

namespace fs = std::filesystem;
using ProblemsOf = std::function<std::vector<Diagnostic>(fs::path const&)>;

inline std::string content(fs::path const& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

/// The files *.yaml of a folder below tests/bad_input, by name.
inline std::vector<fs::path> files(std::string const& folder) {
    std::vector<fs::path> found;
    for (auto const& entry : fs::directory_iterator(fs::path(LEVELSWAP_TEST_DATA) / "bad_input" / folder))
        if (entry.path().extension() == ".yaml") found.push_back(entry.path());
    std::sort(found.begin(), found.end());
    return found;
}

/// Compares with the text beside the file, to be read in review like prose. With LEVELSWAP_UPDATE_GOLDEN set it is
/// written anew.
inline void expect_text(std::string const& found, fs::path const& expected) {
    EXPECT_NE(found, "") << expected.filename();
    if (std::getenv("LEVELSWAP_UPDATE_GOLDEN") != nullptr) std::ofstream(expected, std::ios::binary) << found;
    EXPECT_EQ(found, content(expected)) << expected.filename();
}

inline void expect_every_text(std::string const& folder, ProblemsOf const& problems_of) {
    ASSERT_FALSE(files(folder).empty());
    for (fs::path const& file : files(folder)) expect_text(render(problems_of(file)), fs::path(file).replace_extension(".expected"));
}

/// Each code of the list has a file that shows it, and each code shown is in the table.
inline void expect_codes(std::string const& folder, ProblemsOf const& problems_of, std::set<std::string> const& wanted) {
    std::set<std::string> seen, table;
    for (fs::path const& file : files(folder))
        for (Diagnostic const& d : problems_of(file)) seen.insert(d.code);
    for (DiagnosticCode const& row : diagnostic_codes()) table.emplace(row.code);
    for (auto const& code : wanted) EXPECT_TRUE(seen.contains(code)) << code;
    for (auto const& code : seen) EXPECT_TRUE(table.contains(code)) << code;
}

}  // namespace levelswap::bad_input
