// Outside sources: none. The texts in tests/bad_input/assembly are read in review like prose.
// With LEVELSWAP_UPDATE_GOLDEN set they are written anew.
#include "assembly/read_site.hpp"
#include "small_catalog.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace levelswap {
namespace {

namespace fs = std::filesystem;

std::string content(fs::path const& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

std::vector<Diagnostic> problems_of(fs::path const& file) {
    try {
        auto const document = document::read_text(content(file), file.filename().string());
        if (document.root.find("levelswap")->text == "swap/1")
            reading::swap_of(document);
        else
            reading::site_of(document, small_catalog());
    } catch (DataError const& error) {
        return error.diagnostics();
    }
    return {};
}

std::vector<fs::path> bad_files() {
    std::vector<fs::path> files;
    for (auto const& entry : fs::directory_iterator(fs::path(LEVELSWAP_TEST_DATA) / "bad_input" / "assembly"))
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

TEST(bad_site_or_swap_input, every_file_is_refused_with_the_expected_text) {
    auto const files = bad_files();
    ASSERT_FALSE(files.empty());
    for (fs::path const& file : files) {
        SCOPED_TRACE(file.filename().string());
        fs::path const expected = fs::path(file).replace_extension(".expected");
        std::string const found = render(problems_of(file));
        EXPECT_NE(found, "");
        if (std::getenv("LEVELSWAP_UPDATE_GOLDEN") != nullptr) std::ofstream(expected, std::ios::binary) << found;
        EXPECT_EQ(found, content(expected));
    }
}

TEST(bad_site_or_swap_input, every_site_code_has_a_file_that_shows_it) {
    std::set<std::string> seen;
    for (fs::path const& file : bad_files())
        for (Diagnostic const& d : problems_of(file)) seen.insert(d.code);
    for (std::string const code : {"LS-C001", "LS-C002", "LS-C003", "LS-C004", "LS-C005", "LS-S001", "LS-S002", "LS-S003",
                                   "LS-S004", "LS-S005", "LS-S006", "LS-S007", "LS-S008", "LS-S009"})
        EXPECT_TRUE(seen.contains(code)) << code;
}

TEST(bad_site_or_swap_input, every_code_used_is_in_the_table) {
    std::set<std::string_view> table;
    for (DiagnosticCode const& row : diagnostic_codes()) table.insert(row.code);
    for (fs::path const& file : bad_files())
        for (Diagnostic const& d : problems_of(file)) EXPECT_TRUE(table.contains(d.code)) << d.code;
}

}  // namespace
}  // namespace levelswap
