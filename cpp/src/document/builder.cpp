#include "builder.hpp"

#include "text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace levelswap::document {

namespace {

constexpr std::size_t most_problems = 100;  // per file: a hostile file must not fill the memory with messages

/// A tag that the file itself states; yaml-cpp gives "?" to plain and "!" to quoted values.
bool is_stated(std::string const& tag) { return !tag.empty() && tag != "?" && tag != "!"; }

/// The plain scalars that yaml-cpp reports as null although they are words. An
/// empty value is reported at the token behind it, which may be a key `null:`.
std::string null_word(std::string_view source, bool as_key) {
    for (std::string_view const word : {"null", "Null", "NULL", "~"}) {
        if (!source.starts_with(word)) continue;
        std::string_view rest = source.substr(word.size());
        rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
        bool const before_colon = rest.starts_with(':');
        return before_colon == as_key ? std::string(word) : std::string{};
    }
    return {};
}

}  // namespace

std::string_view Builder::line_of(YAML::Mark const& mark) const {
    auto const& lines = *document_.lines;
    if (mark.line < 0 || mark.line >= static_cast<int>(lines.size())) return {};
    return lines[static_cast<std::size_t>(mark.line)];
}

/// Marks of yaml-cpp count from 0, and columns in bytes.
SourceSpan Builder::span_at(YAML::Mark const& mark) const {
    if (mark.line < 0) return {document_.file, 0, 0, 1};
    auto const before = static_cast<std::size_t>(std::max(0, mark.column));
    return {document_.file, mark.line + 1, static_cast<int>(characters(line_of(mark).substr(0, before))) + 1, 1};
}

/// The byte of the line where the scalar itself starts, behind an anchor.
std::size_t Builder::scalar_start(YAML::Mark const& mark) const {
    std::string_view const line = line_of(mark);
    std::size_t const at = std::min(static_cast<std::size_t>(std::max(0, mark.column)), line.size());
    if (!line.substr(at).starts_with('&')) return at;
    std::size_t const blank = std::min(line.find(' ', at), line.size());
    return std::min(line.find_first_not_of(' ', blank), line.size());
}

/// yaml-cpp 0.7 takes a quoted text that runs to the end of the file as closed.
void Builder::check_quote(YAML::Mark const& mark) {
    auto const& lines = *document_.lines;
    std::string_view rest = line_of(mark).substr(scalar_start(mark));
    if (!rest.starts_with('"') && !rest.starts_with('\'')) return;
    char const quote = rest.front();
    rest.remove_prefix(1);
    for (auto line = static_cast<std::size_t>(mark.line); line < lines.size(); rest = ++line < lines.size() ? std::string_view(lines[line]) : std::string_view{}) {
        for (std::size_t i = 0; i < rest.size(); ++i) {
            bool const doubled = quote == '\'' && rest.substr(i).starts_with("''");
            if (doubled || (quote == '"' && rest[i] == '\\')) ++i;
            else if (rest[i] == quote) return;
        }
    }
    report(document_.problem("LS-D006", span_at(mark), "the text is not valid YAML here: the quote is not closed", "a quote at both ends of the text",
                             "write the closing quote"));
    throw StopReading{};
}

/// The text of the scalar itself: behind an anchor and inside the quotes, so
/// that offsets into the text are offsets from its column.
SourceSpan Builder::scalar_span(YAML::Mark const& mark, std::string const& value) const {
    std::string_view const line = line_of(mark);
    std::size_t at = scalar_start(mark);
    std::string_view rest = line.substr(at);
    if ((rest.starts_with('"') || rest.starts_with('\'')) && rest.substr(1).starts_with(value)) rest = line.substr(++at);
    std::size_t const length = characters(rest.starts_with(value) ? std::string_view(value) : rest);
    return {document_.file, mark.line + 1, static_cast<int>(characters(line.substr(0, at))) + 1, std::max(1, static_cast<int>(length))};
}

void Builder::report(Diagnostic problem) {
    document_.problems.push_back(std::move(problem));
    if (document_.problems.size() < most_problems) return;
    document_.problems.push_back(document_.problem("LS-D017", {document_.file, 0, 0, 1}, fmt::format("{} problems found, reading stopped", most_problems),
                                                   "a file that can be read to its end", "correct those listed and read the file again"));
    throw StopReading{};
}

void Builder::OnDocumentStart(YAML::Mark const& mark) {
    if (++documents_ == 1) return;
    report(document_.problem("LS-D010", span_at(mark), "a second document starts here", "one document in each file",
                             "delete the line of dashes, or move what follows to a file of its own; check the indentation above"));
    throw StopReading{};
}

void Builder::count(std::size_t nodes, SourceSpan const& where) {
    nodes_ += nodes;
    if (nodes_ <= limits_.nodes) return;
    report(document_.problem("LS-D012", where, fmt::format("the file holds more than {} entries, aliases counted in full", limits_.nodes),
                             fmt::format("at most {} entries", limits_.nodes), "use fewer aliases of large values, or split the file"));
    throw StopReading{};
}

void Builder::check_depth(int below, SourceSpan const& where) {
    if (static_cast<int>(stack_.size()) + below <= limits_.depth) return;
    report(document_.problem("LS-D011", where, fmt::format("entries are nested more than {} deep", limits_.depth),
                             fmt::format("at most {} levels", limits_.depth), "check for a bracket that is not closed"));
    throw StopReading{};
}

void Builder::check_tag(std::string const& tag, SourceSpan const& where) {
    if (!is_stated(tag)) return;
    report(document_.problem("LS-D009", where, fmt::format("the tag \"{}\" is used", shown_text(tag)), "a value without a tag",
                             "delete the tag: the key alone says what a value is"));
}

void Builder::refuse_key(SourceSpan const& where, std::string_view what) {
    report(document_.problem("LS-D014", where, fmt::format("{} stands where a key should", what), "a key that is a plain word",
                             "write the key as text; put a value that holds braces in quotes"));
    throw StopReading{};
}

void Builder::OnNull(YAML::Mark const& mark, YAML::anchor_t anchor) {
    std::string_view const line = line_of(mark);
    std::string_view const source = line.substr(std::min(static_cast<std::size_t>(std::max(0, mark.column)), line.size()));
    std::string const word = null_word(source, expects_key());
    if (expects_key()) {
        if (word.empty()) refuse_key(span_at(mark), "nothing");
        return take_key(word, true, scalar_span(mark, word));
    }
    Node node;
    bool const is_empty = word.empty() || word == "~";
    if (!is_empty) {
        node.kind = Node::Kind::scalar;
        node.text = word;
    }
    bool const in_map = !stack_.empty() && stack_.back().node.is_map();
    node.where = word.empty() && in_map ? stack_.back().key_span : span_at(mark);
    if (!word.empty()) node.where.length = static_cast<int>(word.size());
    has_content_ = has_content_ || !is_empty || !stack_.empty();
    take_leaf(std::move(node), anchor);
}

void Builder::OnScalar(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, std::string const& value) {
    SourceSpan const where = is_stated(tag) ? span_at(mark) : scalar_span(mark, value);
    check_tag(tag, where);
    if (tag == "!") check_quote(mark);
    if (expects_key()) {
        if (anchor != 0) refuse_key(where, "an anchor");
        return take_key(value, tag == "?", where);
    }
    has_content_ = true;
    Node node;
    node.kind = Node::Kind::scalar;
    node.text = value;
    node.where = where;
    take_leaf(std::move(node), anchor);
}

void Builder::OnAlias(YAML::Mark const& mark, YAML::anchor_t anchor) {
    SourceSpan const where = span_at(mark);
    if (expects_key()) refuse_key(where, "an alias");
    auto const found = anchored_.find(anchor);
    if (found == anchored_.end()) {
        report(document_.problem("LS-D015", where, "the alias refers to the value that holds it", "an alias of a value that is complete", "write the value out"));
        throw StopReading{};
    }
    count(found->second.nodes, where);
    check_depth(found->second.deepest, where);
    has_content_ = true;
    place(found->second.node, found->second.deepest);
}

void Builder::OnAnchor(YAML::Mark const& mark, std::string const& name) {
    SourceSpan where = span_at(mark);
    where.length = static_cast<int>(characters(name)) + 1;
    auto const [known, is_new] = anchor_places_.emplace(name, where);
    if (is_new) return;
    report(document_.clash("LS-D016", where, known->second, fmt::format("the anchor \"{}\" is given twice", shown_text(name)), "each anchor once",
                           "give the second value a name of its own"));
}

void Builder::OnSequenceStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, YAML::EmitterStyle::value) {
    open(Node::Kind::list, mark, tag, anchor);
}

void Builder::OnMapStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, YAML::EmitterStyle::value) {
    open(Node::Kind::map, mark, tag, anchor);
}

void Builder::open(Node::Kind kind, YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor) {
    SourceSpan const where = span_at(mark);
    check_tag(tag, where);
    if (expects_key()) refuse_key(where, kind == Node::Kind::map ? "a map" : "a list");
    check_depth(1, where);
    Frame frame;
    frame.nodes_before = nodes_;
    count(1, where);
    frame.node.kind = kind;
    frame.node.where = where;
    frame.anchor = anchor;
    has_content_ = true;
    stack_.push_back(std::move(frame));
}

void Builder::close() {
    Frame frame = std::move(stack_.back());
    stack_.pop_back();
    int const deepest = frame.deepest + 1;
    if (frame.anchor != 0) remember(frame.anchor, frame.node, nodes_ - frame.nodes_before, deepest);
    place(std::move(frame.node), deepest);
}

void Builder::take_key(std::string const& key, bool plain, SourceSpan const& where) {
    if (key.empty()) refuse_key(where, "nothing");
    Frame& frame = stack_.back();
    frame.awaits_value = true;
    frame.key = key;
    frame.key_span = where;
    frame.drops_value = plain && key == "<<";
    if (frame.drops_value) {
        report(document_.problem("LS-D008", where, "the merge key \"<<\" is used", "every entry written out",
                                 "write the entries out, or refer to the whole value with an alias"));
        return;
    }
    auto const [known, is_new] = frame.seen.emplace(key, where);
    if (is_new) return;
    frame.drops_value = true;
    report(document_.clash("LS-D007", where, known->second, fmt::format("the key \"{}\" is given twice", shown_text(key)), "each key once",
                           "keep one of the two"));
}

void Builder::take_leaf(Node node, YAML::anchor_t anchor) {
    count(1, node.where);
    if (anchor != 0) remember(anchor, node, 1, 0);
    place(std::move(node), 0);
}

/// The stored copy counts as well: it takes as much memory.
void Builder::remember(YAML::anchor_t anchor, Node const& node, std::size_t nodes, int deepest) {
    count(nodes, node.where);
    anchored_[anchor] = {node, nodes, deepest};
}

void Builder::place(Node node, int deepest) {
    if (stack_.empty()) {
        document_.root = std::move(node);
        return;
    }
    Frame& frame = stack_.back();
    frame.deepest = std::max(frame.deepest, deepest);
    bool const drops = std::exchange(frame.drops_value, false);
    frame.awaits_value = false;
    if (drops) return;
    if (frame.node.is_map()) {
        frame.node.keys.push_back(std::move(frame.key));
        frame.node.key_spans.push_back(frame.key_span);
    }
    frame.node.items.push_back(std::move(node));
}

}  // namespace levelswap::document
