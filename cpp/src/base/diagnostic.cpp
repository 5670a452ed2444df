#include "levelswap/base/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace levelswap {

namespace {

constexpr std::string_view gutter = "      |";

std::string place(SourceSpan const& span) {
    if (span.line <= 0) return span.file;
    return fmt::format("{}:{}:{}", span.file, span.line, span.column);
}

std::string numbered(char mark, int line, std::string_view text) {
    return fmt::format("{}{:>4} |{}{}\n", mark, line, text.empty() ? "" : " ", text);
}

std::string underlined(SourceSpan const& span, std::string_view excerpt) {
    auto const blanks = static_cast<std::size_t>(std::max(0, span.column - 1));
    auto const carets = static_cast<std::size_t>(std::max(1, span.length));
    return fmt::format("{}{} {}{}\n", numbered('>', span.line, excerpt), gutter, std::string(blanks, ' '),
                       std::string(carets, '^'));
}

std::string labelled(std::string_view label, std::string_view text) {
    return text.empty() ? std::string{} : fmt::format("   {}: {}\n", label, text);
}

/// Levenshtein distance, one row at a time.
std::size_t distance(std::string_view x, std::string_view y) {
    std::vector<std::size_t> row(y.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < x.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < y.size(); ++j) {
            std::size_t const swapped = diagonal + (x[i] == y[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({swapped, diagonal + 1, row[j] + 1});
        }
    }
    return row.back();
}

}  // namespace

std::string render(Diagnostic const& d) {
    std::string const level = d.severity == Severity::error ? "error" : "warning";
    std::string out = fmt::format("{}: {} {}: {}\n", place(d.where), level, d.code, d.message);
    if (d.context_line > 0) out += numbered(' ', d.context_line, d.context);
    if (d.where.line > 0 && !d.excerpt.empty()) out += underlined(d.where, d.excerpt);
    if (!d.also.file.empty()) {
        out += fmt::format("   also here: {}\n", place(d.also));
        if (d.also.line > 0 && !d.also_excerpt.empty()) out += underlined(d.also, d.also_excerpt);
    }
    out += labelled("expected", d.expected);
    out += labelled("hint", d.hint);
    return out;
}

std::string render(std::vector<Diagnostic> const& diagnostics) {
    std::string out;
    for (Diagnostic const& d : diagnostics) {
        if (!out.empty()) out += '\n';
        out += render(d);
    }
    return out;
}

std::string nearest(std::string_view word, std::vector<std::string> const& candidates) {
    // A long word is no slip of the pen, and the distance costs length × length.
    constexpr std::size_t longest = 80;
    if (word.empty() || word.size() > longest) return {};
    std::string best;
    std::size_t least = 1 + word.size() / 3;
    bool found = false;
    for (std::string const& candidate : candidates) {
        if (candidate.size() > word.size() + least) continue;
        std::size_t const d = distance(word, candidate);
        // One slip in a word of one letter replaces the word: that is not near.
        if (d >= std::max(word.size(), candidate.size())) continue;
        if (d < least || (d == least && (!found || candidate < best))) {
            least = d;
            best = candidate;
            found = true;
        }
    }
    return best;
}

DataError::DataError(std::vector<Diagnostic> diagnostics)
    : Error(render(diagnostics)), diagnostics_(std::move(diagnostics)) {}

}  // namespace levelswap
