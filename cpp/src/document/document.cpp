#include "levelswap/document/node.hpp"

#include "text.hpp"

#include <algorithm>

namespace levelswap::document {

namespace {

constexpr int longest_excerpt = 160;  // characters: a line of megabytes must not flood the screen
constexpr int context_reach = 400;    // lines

std::size_t indentation(std::string const& line) { return std::min(line.find_first_not_of(' '), line.size()); }

std::string excerpt_of(std::vector<std::string> const& lines, SourceSpan const& span) {
    if (span.line < 1 || span.line > static_cast<int>(lines.size()) || span.column > longest_excerpt) return {};
    return printable(lines[static_cast<std::size_t>(span.line) - 1], longest_excerpt);
}

/// The nearest line above that is less indented: the entry that the line belongs to.
int line_above(std::vector<std::string> const& lines, int line) {
    if (line < 2 || line > static_cast<int>(lines.size())) return 0;
    std::size_t const own = indentation(lines[static_cast<std::size_t>(line) - 1]);
    for (int above = line - 1; above >= std::max(1, line - context_reach); --above) {
        std::string const& text = lines[static_cast<std::size_t>(above) - 1];
        std::size_t const blanks = indentation(text);
        if (blanks < own && blanks < text.size() && text[blanks] != '#') return above;
    }
    return 0;
}

}  // namespace

Node const* Node::find(std::string_view key) const {
    for (std::size_t i = 0; i < keys.size(); ++i) {
        if (keys[i] == key) return &items[i];
    }
    return nullptr;
}

Diagnostic Document::problem(std::string_view code, SourceSpan const& where, std::string message, std::string expected,
                             std::string hint) const {
    Diagnostic d;
    d.code = code;
    d.where = where;
    d.message = std::move(message);
    d.expected = std::move(expected);
    d.hint = std::move(hint);
    if (!lines) return d;
    d.excerpt = excerpt_of(*lines, where);
    if (d.excerpt.empty()) return d;
    d.where.length = std::clamp(where.length, 1, longest_excerpt);
    if (d.context_line = line_above(*lines, where.line); d.context_line > 0) {
        d.context = printable((*lines)[static_cast<std::size_t>(d.context_line) - 1], longest_excerpt);
    }
    return d;
}

Diagnostic Document::clash(std::string_view code, SourceSpan const& where, SourceSpan const& also, std::string message,
                           std::string expected, std::string hint) const {
    Diagnostic d = problem(code, where, std::move(message), std::move(expected), std::move(hint));
    d.also = also;
    if (lines && also.file == file) d.also_excerpt = excerpt_of(*lines, also);
    return d;
}

}  // namespace levelswap::document
