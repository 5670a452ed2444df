#include "file_reader.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levelswap::reading {

using document::shown_text;

namespace {

/// Above this many a list of all names helps nobody.
constexpr std::size_t most_listed = 24;

std::string_view shape_of(Node const& node) {
    switch (node.kind) {
        case Node::Kind::empty: return "nothing";
        case Node::Kind::scalar: return "a single value";
        case Node::Kind::list: return "a list";
        case Node::Kind::map: return "a map";
    }
    return "nothing";
}

std::string line_of(document::Document const& document, int line) {
    bool const there = document.lines && line > 0 && static_cast<std::size_t>(line) <= document.lines->size();
    return there ? (*document.lines)[static_cast<std::size_t>(line - 1)] : std::string{};
}

bool is_word_character(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; }

bool is_plain(std::string_view id) {
    if (id.empty() || id.size() > 80 || id.front() == ' ' || id.back() == ' ') return false;
    for (std::size_t i = 0; i < id.size(); ++i) {
        if (id[i] == ' ' ? id[i - 1] == ' ' : !is_word_character(id[i])) return false;
    }
    return true;
}

}  // namespace

void FileReader::problem(std::string_view code, SourceSpan const& where, std::string message, std::string expected,
                         std::string hint) {
    problems_.push_back(
        document_.problem(code, where, std::move(message), std::move(expected), std::move(hint)));
}

void FileReader::clash(std::string_view code, SourceSpan const& where, document::Document const& other,
                       SourceSpan const& also, std::string message, std::string hint) {
    problem(code, where, std::move(message), {}, std::move(hint));
    problems_.back().also = also;
    problems_.back().also_excerpt = document::printable(line_of(other, also.line), 160);
}

bool FileReader::has_header(std::string_view format) {
    std::string const expected = fmt::format("levelswap: {}", format);
    if (!root().is_map()) {
        if (problems_.empty()) {
            problem("LS-C008", root().where, fmt::format("the file holds {}, not a map", shape_of(root())),
                    fmt::format("\"{}\" as the first entry", expected));
        }
        return false;
    }
    if (root().keys.empty() || root().keys.front() != "levelswap") {
        problem("LS-C008", root().keys.empty() ? root().where : root().key_spans.front(),
                "the first entry is not the header", fmt::format("\"{}\" as the first entry", expected));
        return false;
    }
    Node const& value = root().items.front();
    if (value.is_scalar() && value.text == format) return true;
    problem("LS-C008", value.where, fmt::format("the header says \"{}\"", shown_text(value.text)),
            fmt::format("\"{}\"", expected), "check the version, and that the file lies in the right folder");
    return false;
}

bool FileReader::expect_map(Node const& node, std::string_view what) {
    if (node.is_map()) return true;
    problem("LS-C003", node.where, fmt::format("{} is {}, not a map", what, shape_of(node)), "entries of the form \"key: value\"");
    return false;
}

bool FileReader::expect_list(Node const& node, std::string_view what) {
    if (node.is_list()) return true;
    std::string const hint = node.is_scalar() ? fmt::format("write [{}]", shown_text(node.text)) : std::string{};
    problem("LS-C003", node.where, fmt::format("{} is {}, not a list", what, shape_of(node)), "a list such as [a, b]", hint);
    return false;
}

std::string const* FileReader::text(Node const& node, std::string_view what) {
    if (node.is_scalar() && !node.text.empty()) return &node.text;
    problem("LS-C003", node.where,
            fmt::format("{} is {}", what, node.is_scalar() ? "empty text" : shape_of(node)), "text on one line");
    return nullptr;
}

Node const* FileReader::required(Node const& map, std::string_view key, std::string_view what) {
    Node const* value = map.find(key);
    if (value == nullptr) problem("LS-C002", map.where, fmt::format("{} has no key \"{}\"", what, key), {}, fmt::format("add \"{}:\"", key));
    return value;
}

std::string FileReader::optional_text(Node const& map, std::string_view key) {
    Node const* value = map.find(key);
    std::string const* found = value == nullptr ? nullptr : text(*value, fmt::format("\"{}\"", key));
    return found == nullptr ? std::string{} : *found;
}

bool FileReader::yes_or_no(Node const& map, std::string_view key, bool otherwise) {
    Node const* value = map.find(key);
    if (value == nullptr) return otherwise;
    int const found = one_of(*value, key, {"no", "yes"});
    return found < 0 ? otherwise : found == 1;
}

int FileReader::one_of(Node const& node, std::string_view what, Words const& words) {
    std::string const* word = text(node, fmt::format("\"{}\"", what));
    if (word == nullptr) return -1;
    auto const at = std::find(words.begin(), words.end(), *word);
    if (at != words.end()) return static_cast<int>(at - words.begin());
    problem("LS-C005", node.where, fmt::format("\"{}\" cannot be \"{}\"", what, shown_text(*word)),
            fmt::format("one of {}", listed(words)), suggestion(*word, words));
    return -1;
}

void FileReader::only_keys(Node const& map, Words const& known, std::string_view what) {
    for (std::size_t i = 0; i < map.keys.size(); ++i) {
        if (std::find(known.begin(), known.end(), map.keys[i]) == known.end())
            unknown_key(map.key_spans[i], map.keys[i], known, what);
    }
}

void FileReader::unknown_key(SourceSpan const& where, std::string_view key, Words const& known,
                             std::string_view what) {
    std::string const near = suggestion(key, known);
    problem("LS-C001", where, fmt::format("{} has no key \"{}\"", what, shown_text(key)),
            near.empty() ? fmt::format("one of {}", listed(known)) : std::string{}, near);
}

bool FileReader::is_plain_id(SourceSpan const& where, std::string_view id, std::string_view what) {
    bool const reserved = id == "nothing" || id == "none" || id == "unknown";
    if (is_plain(id) && !reserved) return true;
    problem("LS-C009", where,
            reserved ? fmt::format("\"{}\" has a meaning of its own and cannot name {}", id, what)
                     : fmt::format("\"{}\" cannot name {}", shown_text(id), what),
            "lower-case letters, digits and underscores; single spaces between words");
    return false;
}

std::vector<Diagnostic> FileReader::take_problems() {
    std::stable_sort(problems_.begin(), problems_.end(), [](Diagnostic const& x, Diagnostic const& y) {
        return std::pair(x.where.line, x.where.column) < std::pair(y.where.line, y.where.column);
    });
    // A value that several entries share by an alias is read for each of them, and is wrong once.
    problems_.erase(std::unique(problems_.begin(), problems_.end()), problems_.end());
    return std::move(problems_);
}

std::string suggestion(std::string_view word, Words const& candidates) {
    bool const asks_yes_or_no = candidates == Words{"no", "yes"};
    // What other formats write for yes and no, and YAML 1.1 reads as such.
    bool const yes = asks_yes_or_no && (word == "true" || word == "on" || word == "y" || word == "1" || word == "Yes");
    bool const no = asks_yes_or_no && (word == "false" || word == "off" || word == "n" || word == "0" || word == "No");
    std::string const near = yes ? "yes" : no ? "no" : nearest(word, candidates);
    return near.empty() ? std::string{} : fmt::format("did you mean \"{}\"?", near);
}

std::string listed(Words const& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size() && i < most_listed; ++i) out += (i == 0 ? "" : ", ") + words[i];
    if (words.size() > most_listed) out += fmt::format(" and {} more", words.size() - most_listed);
    return words.empty() ? "(there are none)" : out;
}

SourceSpan within(Node const& scalar, int offset, int length) {
    SourceSpan span = scalar.where;
    // Text that goes on over several lines has no single column: then the whole value is shown.
    if (offset + length > span.length) return span;
    span.column += offset;
    span.length = std::max(1, length);
    return span;
}

}  // namespace levelswap::reading
