#pragma once

#include "levelswap/document/node.hpp"

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace levelswap::reading {

using document::Node;
using Words = std::vector<std::string>;

/// One file on its way from nodes to values: it collects every problem of the
/// file and knows the shapes that all our files share.
class FileReader {
public:
    explicit FileReader(document::Document const& document) : document_(document), problems_(document.problems) {}

    [[nodiscard]] document::Document const& document() const { return document_; }
    [[nodiscard]] Node const& root() const { return document_.root; }

    void problem(std::string_view code, SourceSpan const& where, std::string message, std::string expected = {},
                 std::string hint = {});
    /// A clash of two places; `other` is the file of the second.
    void clash(std::string_view code, SourceSpan const& where, document::Document const& other, SourceSpan const& also,
               std::string message, std::string hint);

    /// True when the file is a map whose first entry is `levelswap: <format>`.
    bool has_header(std::string_view format);
    bool expect_map(Node const& node, std::string_view what);
    bool expect_list(Node const& node, std::string_view what);
    /// The text of a scalar, or null after a problem.
    std::string const* text(Node const& node, std::string_view what);
    /// The value of a key that must be there, or null after a problem.
    Node const* required(Node const& map, std::string_view key, std::string_view what);
    /// The text of an optional key; empty when it is absent.
    std::string optional_text(Node const& map, std::string_view key);
    /// A yes or a no; `otherwise` when the key is absent.
    bool yes_or_no(Node const& map, std::string_view key, bool otherwise);
    /// The place of the word in `words`, or −1 after a problem.
    int one_of(Node const& node, std::string_view what, Words const& words);
    /// Reports every key that is not among `known`.
    void only_keys(Node const& map, Words const& known, std::string_view what);
    void unknown_key(SourceSpan const& where, std::string_view key, Words const& known, std::string_view what);
    bool is_plain_id(SourceSpan const& where, std::string_view id, std::string_view what);

    /// The problems in order of their place.
    [[nodiscard]] std::vector<Diagnostic> take_problems();

private:
    document::Document const& document_;
    std::vector<Diagnostic> problems_;
};

/// `did you mean "…"?`, or what can be named instead.
std::string suggestion(std::string_view word, Words const& candidates);
std::string listed(Words const& words);
/// Some characters of a scalar's text, as a place in its file.
SourceSpan within(Node const& scalar, int offset, int length);

}  // namespace levelswap::reading
