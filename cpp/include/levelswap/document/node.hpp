#pragma once

#include "levelswap/base/diagnostic.hpp"

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace levelswap::document {

/// One node of a strictly read YAML document: a scalar kept as its original
/// text, a list, or a map in file order. It never guesses a type, and it knows
/// where it stands.
struct Node {
    enum class Kind { empty, scalar, list, map };

    Kind kind = Kind::empty;
    std::string text;                               ///< scalar: exactly as written, quotes removed
    std::vector<Node> items;                        ///< list items, or map values in file order
    std::vector<std::string> keys;                  ///< map keys, parallel to items
    std::vector<SourceSpan> key_spans;              ///< parallel to items
    SourceSpan where;

    [[nodiscard]] bool is_scalar() const { return kind == Kind::scalar; }
    [[nodiscard]] bool is_list() const { return kind == Kind::list; }
    [[nodiscard]] bool is_map() const { return kind == Kind::map; }
    [[nodiscard]] Node const* find(std::string_view key) const;  ///< null when absent or not a map
};

/// Bounds that keep a hostile file from exhausting memory; exceeding one is a diagnostic.
struct Limits {
    std::size_t bytes = 64u << 20;
    std::size_t nodes = 1'000'000;  ///< after alias expansion; a node with its text and place takes some 250 bytes
    int depth = 40;
};

/// A file that has been read: its nodes, its lines (for excerpts), its problems.
struct Document {
    std::string file;
    Node root;
    std::shared_ptr<std::vector<std::string> const> lines;
    std::vector<Diagnostic> problems;

    /// A diagnostic at `where`, with the excerpt of the line filled in.
    [[nodiscard]] Diagnostic problem(std::string_view code, SourceSpan const& where, std::string message,
                                     std::string expected = {}, std::string hint = {}) const;

    /// The same when two entries clash: it points at both.
    [[nodiscard]] Diagnostic clash(std::string_view code, SourceSpan const& where, SourceSpan const& also, std::string message,
                                   std::string expected = {}, std::string hint = {}) const;
};

/// Reads a file strictly. Never throws for what the file contains: problems are
/// returned in the document, all together.
Document read_file(std::string const& path, Limits const& limits = {});

/// The same for text in memory; `name` stands for the file in messages.
Document read_text(std::string_view text, std::string const& name, Limits const& limits = {});

}  // namespace levelswap::document
