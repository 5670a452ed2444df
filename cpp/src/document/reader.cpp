#include "builder.hpp"
#include "text.hpp"

#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

namespace levelswap::document {

namespace {

constexpr std::size_t most_character_problems = 20;

Diagnostic whole_file(Document const& document, std::string_view code, std::string message, std::string expected, std::string hint) {
    return document.problem(code, {document.file, 0, 0, 1}, std::move(message), std::move(expected), std::move(hint));
}

Diagnostic too_large(Document const& document, std::size_t most) {
    return whole_file(document, "LS-D002", fmt::format("the file is larger than {} bytes", most), fmt::format("at most {} bytes", most), "split it into several files");
}

SourceSpan span_of_byte(Document const& document, std::string_view text, std::size_t at) {
    std::string_view const before = text.substr(0, at);
    auto const line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1;
    std::size_t const start = before.rfind('\n') + 1;  // npos + 1 is 0
    return {document.file, line, static_cast<int>(characters(before.substr(start))) + 1, 1};
}

/// yaml-cpp would take other encodings by their first bytes; we take UTF-8 only.
bool check_encoding(Document& document, std::string_view text) {
    auto const bad = first_invalid_byte(text);
    if (!bad) return true;
    auto const byte = static_cast<unsigned>(static_cast<unsigned char>(text[*bad]));
    document.problems.push_back(document.problem("LS-D003", span_of_byte(document, text, *bad), fmt::format("the byte {:02X} is not UTF-8 text", byte),
                                                 "text encoded as UTF-8", "save the file again with the encoding UTF-8"));
    return false;
}

/// Tabs look like blanks and have no fixed width; control characters, NUL
/// among them, show as nothing at all.
bool check_characters(Document& document, std::string_view text) {
    int line = 1;
    std::size_t start = 0;
    for (std::size_t at = 0; at < text.size() && document.problems.size() < most_character_problems; ++at) {
        auto const c = static_cast<unsigned char>(text[at]);
        if (c == '\n') {
            ++line;
            start = at + 1;
            continue;
        }
        bool const ends_line = c == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
        if ((c >= 0x20 && c != 0x7F) || ends_line) continue;
        SourceSpan const where{document.file, line, static_cast<int>(characters(text.substr(start, at - start))) + 1, 1};
        document.problems.push_back(c == '\t' ? document.problem("LS-D005", where, "a tab stands in the text", "blanks", "replace the tab by blanks; set the editor to insert blanks")
                                              : document.problem("LS-D004", where, fmt::format("the control character {:02X} stands in the text", c), "characters that can be seen",
                                                                 "delete the character; retype the line if need be"));
    }
    return document.problems.empty();
}

Diagnostic syntax_problem(Document const& document, Builder const& builder, YAML::Exception const& error) {
    constexpr std::string_view unknown_alias = "the referenced anchor is not defined";
    SourceSpan const where = builder.span_at(error.mark);
    if (std::string_view(error.msg).starts_with(unknown_alias)) {
        return document.problem("LS-D018", where, "the alias has no anchor",
                                "an alias of a value above", "set the anchor (&name) above its first use");
    }
    return document.problem("LS-D006", where, fmt::format("the text is not valid YAML here: {}", shown_text(error.msg)), "maps, lists and values, evenly indented",
                            "check the indentation and the brackets; put text that holds \": \" or \" #\", or starts with a special sign, in quotes");
}

void parse(Document& document, std::string_view text, Limits const& limits) {
    std::istringstream stream{std::string(text)};
    Builder builder(document, limits);
    try {
        YAML::Parser parser(stream);
        // The second call meets a second document, or what follows the first.
        if (parser.HandleNextDocument(builder)) parser.HandleNextDocument(builder);
        if (!builder.has_content()) document.problems.push_back(whole_file(document, "LS-D013", "the file is empty", "at least one entry", "write its content, or take the file off the list"));
    } catch (StopReading const&) {
        document.root = {};
    } catch (YAML::Exception const& error) {
        document.problems.push_back(syntax_problem(document, builder, error));
        document.root = {};
    }
}

/// Reads at most one byte more than allowed, so that a huge file is noticed and not loaded.
std::optional<std::string> content_of(std::string const& path, std::size_t most) {
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::string text;
    std::vector<char> block(std::size_t{1} << 16);
    while (text.size() <= most && file) {
        file.read(block.data(), static_cast<std::streamsize>(block.size()));
        text.append(block.data(), static_cast<std::size_t>(file.gcount()));
    }
    if (file.bad()) return std::nullopt;
    return text;
}

}  // namespace

Document read_text(std::string_view text, std::string const& name, Limits const& limits) {
    Document document;
    document.file = name;
    document.root.where = {name, 0, 0, 1};
    if (text.size() > limits.bytes) {
        document.problems.push_back(too_large(document, limits.bytes));
        return document;
    }
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // the byte order mark some editors write
    document.lines = std::make_shared<std::vector<std::string> const>(split_lines(text));
    if (check_encoding(document, text) && check_characters(document, text)) parse(document, text, limits);
    return document;
}

Document read_file(std::string const& path, Limits const& limits) {
    auto const text = content_of(path, limits.bytes);
    if (text) return read_text(*text, path, limits);
    Document document;
    document.file = path;
    document.root.where = {path, 0, 0, 1};
    document.problems.push_back(whole_file(document, "LS-D001", "the file cannot be read", "a file that exists and may be read", "check the path"));
    return document;
}

}  // namespace levelswap::document
