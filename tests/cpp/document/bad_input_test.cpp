#include "levelswap/document/node.hpp"
#include "levelswap/document/value.hpp"
#include "support/bad_input.hpp"

// Each file of tests/bad_input/document breaks one rule and is named after the
// code it must give; the .expected file beside it is the message, to be read in
// review like prose. A file without a problem of its own is read as a list of
// values, each key naming its dimension.

namespace levelswap::document {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> inputs() { return bad_input::files("document"); }

Dimension dimension_of(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    for (int i = 0; i < dimension_count; ++i) {
        if (row_of(static_cast<Dimension>(i)).name == name) return static_cast<Dimension>(i);
    }
    ADD_FAILURE() << "the bad input names no dimension: " << name;
    return Dimension::length;
}

void read_values(Document& document) {
    for (std::size_t i = 0; i < document.root.items.size(); ++i) {
        Node const& node = document.root.items[i];
        ValueProblem found;
        if (read_value(node.text, dimension_of(document.root.keys[i]), found)) continue;
        SourceSpan where = node.where;
        where.column += found.offset;
        where.length = found.length;
        document.problems.push_back(document.problem(found.code, where, found.message, found.expected, found.hint));
    }
}

Document read(fs::path const& path) {
    Document document = read_text(bad_input::content(path), path.filename().string());
    if (document.problems.empty()) read_values(document);
    return document;
}

std::string code_in_name(fs::path const& path) { return path.filename().string().substr(0, 7); }

TEST(bad_input, every_file_gives_its_expected_message) {
    bad_input::expect_every_text("document", [](fs::path const& path) { return read(path).problems; });
}

TEST(bad_input, every_file_gives_only_the_code_in_its_name) {
    for (fs::path const& path : inputs()) {
        auto const problems = read(path).problems;
        ASSERT_FALSE(problems.empty()) << path.filename();
        EXPECT_EQ(problems.back().code, code_in_name(path));
        if (code_in_name(path) == "LS-D017") continue;  // follows a hundred others
        for (Diagnostic const& d : problems) EXPECT_EQ(d.code, code_in_name(path)) << d.message;
    }
}

TEST(bad_input, every_value_in_a_file_of_values_is_refused) {
    for (fs::path const& path : inputs()) {
        if (!code_in_name(path).starts_with("LS-V")) continue;
        Document const document = read(path);
        EXPECT_EQ(document.problems.size(), document.root.items.size()) << path.filename();
    }
}

TEST(bad_input, every_code_of_reader_and_values_has_a_file) {
    std::set<std::string> seen{"LS-D001", "LS-D002", "LS-D012"};  // need a path or small limits: reader_test
    for (fs::path const& path : inputs()) seen.insert(code_in_name(path));
    for (DiagnosticCode const& row : diagnostic_codes()) {
        bool const ours = row.code.starts_with("LS-D") || row.code.starts_with("LS-V");
        EXPECT_TRUE(!ours || seen.contains(std::string(row.code))) << row.code;
    }
}

TEST(bad_input, every_message_says_what_was_expected_and_what_to_do) {
    for (fs::path const& path : inputs()) {
        for (Diagnostic const& d : read(path).problems) {
            EXPECT_FALSE(d.message.empty() || d.expected.empty() || d.hint.empty()) << path.filename() << ": " << d.message;
        }
    }
}

}  // namespace
}  // namespace levelswap::document
