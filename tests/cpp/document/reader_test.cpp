#include "levelswap/document/node.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

// The traps are those of yaml-cpp 0.7, each seen when it is used without this
// reader: guessed types, duplicate keys, unbounded nesting and aliases.

namespace levelswap::document {
namespace {

Document good(std::string_view text, Limits const& limits = {}) {
    Document document = read_text(text, "good.yaml", limits);
    EXPECT_EQ(render(document.problems), "") << text;
    return document;
}

std::vector<std::string> codes(std::string_view text, Limits const& limits = {}) {
    std::vector<std::string> found;
    for (Diagnostic const& d : read_text(text, "bad.yaml", limits).problems) found.push_back(d.code);
    return found;
}

std::string text_at(Document const& document, std::string_view key) {
    Node const* node = document.root.find(key);
    return node != nullptr && node->is_scalar() ? node->text : "(no scalar)";
}

using Codes = std::vector<std::string>;

TEST(reader, scalars_stay_as_written_and_no_type_is_guessed) {
    Document const d = good("a: 012\nb: on\nc: yes\nd: 1e3\ne: 2024-01-01\nf: .inf\ng: 0x1F\nh: null\ni: 7.50 in\nj: true\n");
    for (auto const& [key, text] : std::vector<std::pair<char const*, char const*>>{
             {"a", "012"}, {"b", "on"}, {"c", "yes"}, {"d", "1e3"}, {"e", "2024-01-01"}, {"f", ".inf"}, {"g", "0x1F"}, {"h", "null"}, {"i", "7.50 in"}, {"j", "true"}}) {
        EXPECT_EQ(text_at(d, key), text) << key;
    }
}

TEST(reader, a_value_that_starts_with_a_tilde_is_text_and_a_lone_tilde_is_empty) {
    Document const d = good("a: ~ 10 degC .. 50 degC\nb: ~+/- 1 mm\nc: ~\nd: \"~\"\nlist: [~102 V .. 132 V, ~]\n");
    EXPECT_EQ(text_at(d, "a"), "~ 10 degC .. 50 degC");
    EXPECT_EQ(text_at(d, "b"), "~+/- 1 mm");
    EXPECT_EQ(d.root.find("c")->kind, Node::Kind::empty);
    EXPECT_EQ(text_at(d, "d"), "~");
    EXPECT_EQ(d.root.find("list")->items.at(0).text, "~102 V .. 132 V");
    EXPECT_EQ(d.root.find("list")->items.at(1).kind, Node::Kind::empty);
}

TEST(reader, an_empty_value_is_empty_even_in_front_of_a_key_called_null) {
    Document const d = good("a:\nnull: 3\nb: \"\"\n");
    EXPECT_EQ(d.root.find("a")->kind, Node::Kind::empty);
    EXPECT_EQ(d.root.find("a")->where.line, 1);
    EXPECT_EQ(text_at(d, "null"), "3");
    EXPECT_TRUE(d.root.find("b")->is_scalar());
}

TEST(reader, maps_keep_the_order_of_the_file_and_know_their_places) {
    Document const d = good("z: 1\na:\n  - x: 2\n  - {y: 3}\n");
    EXPECT_EQ(d.root.keys, (std::vector<std::string>{"z", "a"}));
    EXPECT_EQ(d.root.key_spans.at(1), (SourceSpan{"good.yaml", 2, 1, 1}));
    Node const& x = d.root.find("a")->items.at(0);
    EXPECT_EQ(x.items.at(0).where, (SourceSpan{"good.yaml", 3, 8, 1}));
    EXPECT_EQ(d.root.find("a")->items.at(1).items.at(0).where, (SourceSpan{"good.yaml", 4, 9, 1}));
    EXPECT_EQ(d.root.find("missing"), nullptr);
    EXPECT_EQ(d.root.find("z")->find("anything"), nullptr);
}

TEST(reader, columns_count_characters_and_point_inside_quotes_and_behind_anchors) {
    Document const d = good("\xC3\xA9: \"7 in\"\nb: {\xC3\xA9: 5 mm, c: &k 6 mm, e: *k}\n");
    EXPECT_EQ(d.root.items.at(0).where, (SourceSpan{"good.yaml", 1, 5, 4}));
    Node const& b = d.root.items.at(1);
    EXPECT_EQ(b.items.at(0).where, (SourceSpan{"good.yaml", 2, 8, 4}));
    EXPECT_EQ(b.items.at(1).where, (SourceSpan{"good.yaml", 2, 20, 4}));
    EXPECT_EQ(b.items.at(2).text, "6 mm");
}

TEST(reader, windows_line_ends_and_a_byte_order_mark_change_nothing) {
    Document const d = good("\xEF\xBB\xBF" "a: 1\r\nb: 2\r\n");
    EXPECT_EQ(text_at(d, "a"), "1");
    EXPECT_EQ(text_at(d, "b"), "2");
    EXPECT_EQ(d.root.find("b")->where, (SourceSpan{"good.yaml", 2, 4, 1}));
    EXPECT_EQ(d.lines->at(0), "a: 1");
}

TEST(reader, an_alias_stands_for_a_copy_of_its_value) {
    Document const d = good("a: &f {bolts: 8, points: [1, 2]}\nb: *f\n");
    EXPECT_EQ(d.root.find("b")->find("bolts")->text, "8");
    EXPECT_EQ(d.root.find("b")->find("points")->items.size(), 2u);
    EXPECT_EQ(d.root.find("b")->where.line, 1);
}

TEST(reader, duplicate_keys_are_reported_at_both_places_on_every_level) {
    auto const problems = read_text("a: 1\nb: {c: 1, c: 2}\na: 3\n", "bad.yaml").problems;
    ASSERT_EQ(problems.size(), 2u);
    EXPECT_EQ(problems[0].where, (SourceSpan{"bad.yaml", 2, 11, 1}));
    EXPECT_EQ(problems[0].also, (SourceSpan{"bad.yaml", 2, 5, 1}));
    EXPECT_EQ(problems[1].where, (SourceSpan{"bad.yaml", 3, 1, 1}));
    EXPECT_EQ(problems[1].also, (SourceSpan{"bad.yaml", 1, 1, 1}));
    EXPECT_EQ(codes("a: 1\n\"a\": 2\n"), Codes{"LS-D007"});
}

TEST(reader, all_problems_come_together) {
    EXPECT_EQ(codes("a: 1\na: 2\nb: !!int 3\nc: {<<: {d: 1}}\ne: &x 1\nf: &x 2\n"), (Codes{"LS-D007", "LS-D009", "LS-D008", "LS-D016"}));
}

TEST(reader, merge_keys_are_refused_and_the_same_sign_in_quotes_is_a_word) {
    EXPECT_EQ(codes("a: &b {c: 1}\nd: {<<: *b}\n"), Codes{"LS-D008"});
    EXPECT_EQ(codes("a: &b {c: 1}\nd: {<<: *b, <<: *b}\n"), (Codes{"LS-D008", "LS-D008"}));
    EXPECT_EQ(good("\"<<\": 1\n").root.keys.at(0), "<<");
}

TEST(reader, tags_are_refused_on_scalars_lists_and_maps) {
    for (char const* text : {"a: !!str 1\n", "a: !mine 1\n", "a: !!set {b: 1}\n", "a: !!seq [1]\n", "a: !!python/object:os.system x\n"}) {
        EXPECT_EQ(codes(text), Codes{"LS-D009"}) << text;
    }
}

TEST(reader, more_than_one_document_is_refused_and_the_marks_alone_are_not) {
    EXPECT_EQ(codes("a: 1\n---\nb: 2\n"), Codes{"LS-D010"});
    EXPECT_EQ(codes("a: 1\n...\n---\n"), Codes{"LS-D010"});
    EXPECT_EQ(text_at(good("---\na: 1\n...\n"), "a"), "1");
}

TEST(reader, nesting_is_accepted_up_to_the_bound_and_not_beyond) {
    auto nested = [](int levels) { return std::string(static_cast<std::size_t>(levels), '[') + std::string(static_cast<std::size_t>(levels), ']'); };
    good(nested(40));
    EXPECT_EQ(codes(nested(41)), Codes{"LS-D011"});
    for (char const* piece : {"[", "{", "- ", "? ", "{a: ", "[[a]: "}) {
        std::string hostile;
        for (int i = 0; i < 20'000; ++i) hostile += piece;
        EXPECT_EQ(codes(hostile).size(), 1u) << piece;
    }
}

TEST(reader, nesting_inside_an_alias_counts) {
    Limits limits;
    limits.depth = 4;
    good("a: &x [[1]]\nb: {c: *x}\n", limits);
    EXPECT_EQ(codes("a: &x [[1]]\nb: {c: [*x]}\n", limits), Codes{"LS-D011"});
}

TEST(reader, aliases_of_aliases_stop_at_the_bound) {
    std::string bomb = "a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n";
    for (char c = 'b'; c <= 'i'; ++c) {
        std::string const before(1, static_cast<char>(c - 1));
        bomb += std::string(1, c) + ": &" + std::string(1, c) + " [";
        for (int i = 0; i < 10; ++i) bomb += (i == 0 ? "*" : ", *") + before;
        bomb += "]\n";
    }
    Limits limits;
    limits.nodes = 20'000;
    Document const d = read_text(bomb, "bomb.yaml", limits);
    ASSERT_EQ(d.problems.size(), 1u);
    EXPECT_EQ(d.problems[0].code, "LS-D012");
    EXPECT_EQ(d.root.kind, Node::Kind::empty);
}

/// Seven lines of aliases stand for ten million entries: reading them must stop at a million.
TEST(reader, a_million_entries_are_the_most_that_one_file_may_hold) {
    EXPECT_EQ(Limits{}.nodes, 1'000'000u);
    std::string bomb = "a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n";
    for (char c = 'b'; c <= 'g'; ++c) {
        std::string const before = std::string(1, static_cast<char>(c - 1));
        bomb += std::string(1, c) + ": &" + c + " [*" + before;
        for (int i = 1; i < 10; ++i) bomb += ", *" + before;
        bomb += "]\n";
    }
    EXPECT_EQ(codes(bomb), Codes{"LS-D012"});
}

TEST(reader, entries_are_accepted_up_to_the_bound_and_not_beyond) {
    Limits limits;
    limits.nodes = 4;  // the list and three items
    good("[1, 2, 3]", limits);
    EXPECT_EQ(codes("[1, 2, 3, 4]", limits), Codes{"LS-D012"});
}

TEST(reader, size_is_checked_before_anything_is_parsed) {
    Limits limits;
    limits.bytes = 8;
    good("a: 12345", limits);
    EXPECT_EQ(codes("a: 123456", limits), Codes{"LS-D002"});
    EXPECT_EQ(codes("\xFF[[[[[[[[[[", limits), Codes{"LS-D002"});
}

TEST(reader, text_that_is_not_utf8_is_refused) {
    for (char const* text : {"a: \xB0", "a: \xC0\xAF", "a: \xED\xA0\x80", "a: \xF4\x90\x80\x80", "a: \xE2\x82", "\xFF\xFE" "a"}) {
        EXPECT_EQ(codes(text), Codes{"LS-D003"}) << text;
    }
    EXPECT_EQ(text_at(good("a: \xE2\x82\xAC \xF0\x9F\x94\xA5\n"), "a"), "\xE2\x82\xAC \xF0\x9F\x94\xA5");
}

TEST(reader, nul_control_characters_and_tabs_are_refused_wherever_they_stand) {
    EXPECT_EQ(codes(std::string_view("a: \0b", 5)), Codes{"LS-D004"});
    EXPECT_EQ(codes("a: b\x1B[31m"), Codes{"LS-D004"});
    EXPECT_EQ(codes("a: b\rc: d\n"), Codes{"LS-D004"});
    EXPECT_EQ(codes("a:\n\tb: 1\n# a\tb\n"), (Codes{"LS-D005", "LS-D005"}));
}

TEST(reader, messages_hold_no_control_characters) {
    std::string const text = render(read_text("\"a\\e[31m\": 1\n\"a\\e[31m\": 2\n", "bad.yaml").problems);
    EXPECT_NE(text.find("LS-D007"), std::string::npos);
    EXPECT_EQ(text.find('\x1B'), std::string::npos);
}

TEST(reader, empty_files_and_files_of_remarks_are_reported) {
    for (char const* text : {"", "\n\n", "# only a remark\n", "---\n", "~\n", "\xEF\xBB\xBF"}) EXPECT_EQ(codes(text), Codes{"LS-D013"}) << text;
}

TEST(reader, keys_must_be_plain_words) {
    for (char const* text : {"[a]: 1\n", "{a: b}: 1\n", "? {a: b}\n: 1\n", ": 1\n", "\"\": 1\n", "a: &k 1\n*k : 2\n"}) EXPECT_EQ(codes(text), Codes{"LS-D014"}) << text;
}

TEST(reader, syntax_errors_have_a_line_and_a_column_from_one) {
    for (char const* text : {"a: [1, 2\n", "a: 'b\n", "a: b: c\n", "a: @b\n", "%YAML 9.9\n---\na: 1\n", "a: \"\\q\"\n", "- a\nb: c\n", "}"}) {
        Document const d = read_text(text, "bad.yaml");
        ASSERT_EQ(d.problems.size(), 1u) << text;
        EXPECT_GE(d.problems[0].where.line, 1) << text;
        EXPECT_GE(d.problems[0].where.column, 1) << text;
        EXPECT_EQ(d.root.kind, Node::Kind::empty) << text;
    }
}

TEST(reader, a_quote_that_is_not_closed_is_reported_where_it_opens) {
    for (char const* text : {"a: 'b\n", "a: \"b\n", "a: \"b\\\"\n", "a: 'it''s\nb: 2\n", "a: &k 'b\n"}) EXPECT_EQ(codes(text), Codes{"LS-D006"}) << text;
    Document const d = good("a: 'it''s'\nb: \"say \\\"on\\\"\"\nc: 'two\n  lines'\nd: ''\n");
    EXPECT_EQ(text_at(d, "a"), "it's");
    EXPECT_EQ(text_at(d, "b"), "say \"on\"");
    EXPECT_EQ(text_at(d, "c"), "two lines");
    EXPECT_EQ(text_at(d, "d"), "");
}

TEST(reader, an_alias_of_itself_or_of_nothing_is_refused) {
    EXPECT_EQ(codes("a: &x [*x]\n"), Codes{"LS-D015"});
    EXPECT_EQ(codes("a: *x\n"), Codes{"LS-D018"});
    EXPECT_EQ(codes("a: *x\nb: &x 1\n"), Codes{"LS-D018"});
}

TEST(reader, a_line_of_megabytes_does_not_flood_the_message) {
    std::string const wide = "a: {" + std::string(1'000'000, ' ') + "b: 1, b: 2}\n";
    EXPECT_LT(render(read_text(wide, "wide.yaml").problems).size(), 1'000u);
    std::string const key(100'000, 'k');
    EXPECT_LT(render(read_text(key + "\n" + key, "wide.yaml").problems).size(), 2'000u);
}

TEST(reader, cut_or_changed_files_never_crash) {
    std::string const text = "a: &f {bolts: 8, \"x\": [1, ~, *f]}\nb: |\n  text\n? c\n: - d\n  - !t 'e'\n...\n";
    for (std::size_t n = 0; n <= text.size(); ++n) {
        for (char const c : std::string_view("\n:-[]{}&*!|>'\"%@#,? \0\t\xFF", 23)) {
            std::string changed = text.substr(0, n) + c + text.substr(std::min(n + 1, text.size()));
            for (Diagnostic const& d : read_text(changed, "cut.yaml").problems) EXPECT_FALSE(d.code.empty() || d.message.empty());
        }
    }
}

TEST(reader, a_file_that_is_missing_or_a_folder_is_reported) {
    for (char const* path : {"no such folder/no such file.yaml", "."}) {
        Document const d = read_file(path);
        ASSERT_EQ(d.problems.size(), 1u);
        EXPECT_EQ(d.problems[0].code, "LS-D001");
        EXPECT_EQ(d.problems[0].where.file, path);
    }
}

TEST(reader, a_file_reads_like_its_text) {
    auto const path = std::filesystem::temp_directory_path() / "levelswap_reader_test.yaml";
    std::ofstream(path, std::ios::binary) << "a: 7.5 in\n";
    Document const d = read_file(path.string());
    Limits small;
    small.bytes = 5;
    Document const refused = read_file(path.string(), small);
    std::filesystem::remove(path);
    EXPECT_EQ(text_at(d, "a"), "7.5 in");
    ASSERT_EQ(refused.problems.size(), 1u);
    EXPECT_EQ(refused.problems[0].code, "LS-D002");
}

}  // namespace
}  // namespace levelswap::document
