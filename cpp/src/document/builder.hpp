#pragma once

#include "levelswap/document/node.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>

#include <string>
#include <unordered_map>
#include <vector>

namespace levelswap::document {

/// Thrown inside the reader only: a problem after which reading on makes no sense.
struct StopReading {};

/// Turns the events of one YAML document into nodes and notes every problem in
/// the document. It keeps scalars as text: yaml-cpp never interprets them.
class Builder : public YAML::EventHandler {
public:
    Builder(Document& document, Limits const& limits) : document_(document), limits_(limits) {}

    void OnDocumentStart(YAML::Mark const& mark) override;
    void OnDocumentEnd() override {}
    void OnNull(YAML::Mark const& mark, YAML::anchor_t anchor) override;
    void OnAlias(YAML::Mark const& mark, YAML::anchor_t anchor) override;
    void OnScalar(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, std::string const& value) override;
    void OnSequenceStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, YAML::EmitterStyle::value) override;
    void OnSequenceEnd() override { close(); }
    void OnMapStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor, YAML::EmitterStyle::value) override;
    void OnMapEnd() override { close(); }
    void OnAnchor(YAML::Mark const& mark, std::string const& name) override;

    [[nodiscard]] bool has_content() const { return has_content_; }
    void report(Diagnostic problem);
    [[nodiscard]] SourceSpan span_at(YAML::Mark const& mark) const;

private:
    struct Frame {
        Node node;
        YAML::anchor_t anchor = 0;
        std::size_t nodes_before = 0;
        int deepest = 0;           ///< levels below this node
        bool awaits_value = false;  ///< of a map whose key has been read
        bool drops_value = false;   ///< the key was refused, so its value has no place
        std::string key;
        SourceSpan key_span;
        std::unordered_map<std::string, SourceSpan> seen;
    };
    struct Anchored {
        Node node;
        std::size_t nodes = 1;
        int deepest = 0;
    };

    Document& document_;
    Limits const& limits_;
    std::vector<Frame> stack_;
    std::unordered_map<YAML::anchor_t, Anchored> anchored_;
    std::unordered_map<std::string, SourceSpan> anchor_places_;
    std::size_t nodes_ = 0;
    int documents_ = 0;
    bool has_content_ = false;

    [[nodiscard]] bool expects_key() const { return !stack_.empty() && stack_.back().node.is_map() && !stack_.back().awaits_value; }
    [[nodiscard]] std::string_view line_of(YAML::Mark const& mark) const;
    [[nodiscard]] std::size_t scalar_start(YAML::Mark const& mark) const;
    void check_quote(YAML::Mark const& mark);
    [[nodiscard]] SourceSpan scalar_span(YAML::Mark const& mark, std::string const& value) const;
    void count(std::size_t nodes, SourceSpan const& where);
    void check_depth(int below, SourceSpan const& where);
    void check_tag(std::string const& tag, SourceSpan const& where);
    void open(Node::Kind kind, YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor);
    void close();
    void take_key(std::string const& key, bool plain, SourceSpan const& where);
    void take_leaf(Node node, YAML::anchor_t anchor);
    void remember(YAML::anchor_t anchor, Node const& node, std::size_t nodes, int deepest);
    void place(Node node, int deepest);
    void refuse_key(SourceSpan const& where, std::string_view what);
};

}  // namespace levelswap::document
