#include "read_site.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace levelswap::reading {

using document::shown_text;

namespace {

Words duty_names() {
    Words names;
    for (int i = 0; i < duty_count; ++i) names.emplace_back(name_of(static_cast<Duty>(i)));
    return names;
}

class FunctionReader {
public:
    FunctionReader(FileReader& reader, Catalog const& catalog, Site& site, Words const& unread)
        : reader_(reader), catalog_(catalog), site_(site), unread_(unread) {}

    void read(Node const& map) {
        site_.functions_complete = reader_.yes_or_no(map, "complete", false);
        Words const duties = duty_names();
        for (std::size_t i = 0; i < map.items.size(); ++i) {
            if (map.keys[i] == "complete") continue;
            auto const at = std::find(duties.begin(), duties.end(), map.keys[i]);
            if (at == duties.end()) {
                reader_.problem("LS-S003", map.key_spans[i], fmt::format("\"{}\" is no function", shown_text(map.keys[i])),
                                fmt::format("one of {}", listed(duties)), suggestion(map.keys[i], duties));
                continue;
            }
            Function function;
            function.duty = static_cast<Duty>(at - duties.begin());
            function.where = map.key_spans[i];
            one(function, map.items[i]);
        }
    }

private:
    FileReader& reader_;
    Catalog const& catalog_;
    Site& site_;
    Words const& unread_;
    std::map<OutputRef, SourceSpan> used_;

    void one(Function function, Node const& node) {
        std::string const what = fmt::format("the function \"{}\"", name_of(function.duty));
        if (!reader_.expect_map(node, what)) return;
        reader_.only_keys(node, {"now", "circuit"}, what);
        Node const* now = reader_.required(node, "now", what);
        // A mechanical feed has no circuit.
        Node const* circuit = function.duty == Duty::make_up ? node.find("circuit") : reader_.required(node, "circuit", what);
        bool const has_output = now != nullptr && find_output(*now, function.now);
        bool const has_circuit = circuit != nullptr ? find_circuit(*circuit, function.circuit) : function.duty == Duty::make_up;
        if (has_output && has_circuit) site_.functions.push_back(function);
    }

    bool find_circuit(Node const& node, int& circuit) {
        std::string const* name = reader_.text(node, "\"circuit\"");
        if (name == nullptr) return false;
        Words names;
        for (Circuit const& c : site_.circuits) names.push_back(c.name);
        auto const at = std::find(names.begin(), names.end(), *name);
        if (at == names.end()) {
            reader_.problem("LS-S004", node.where, fmt::format("there is no circuit \"{}\"", shown_text(*name)),
                            fmt::format("one of {}", listed(names)), suggestion(*name, names));
            return false;
        }
        circuit = static_cast<int>(at - names.begin());
        return true;
    }

    /// `<station>.<role>.<output>`, or `nothing` when no output performs the function now.
    bool find_output(Node const& node, OutputRef& now) {
        std::string const* text = reader_.text(node, "\"now\"");
        if (text == nullptr) return false;
        if (*text == "nothing") return true;
        std::size_t const dot = text->rfind('.');
        std::string const position = text->substr(0, dot);
        now.position = dot == std::string::npos ? -1 : site_.find_position(position);
        if (now.position < 0) {
            // A position of a part with outputs is meant, whatever was written.
            Words names;
            for (Position const& p : site_.positions)
                if (has_outputs(p.role)) names.push_back(p.name);
            reader_.problem("LS-S006", within(node, 0, static_cast<int>(document::characters(position))),
                            fmt::format("there is no position \"{}\"", shown_text(position)),
                            "a position and its output, such as primary.switch_set.lower", suggestion(position, names));
            return false;
        }
        if (std::find(unread_.begin(), unread_.end(), position) != unread_.end()) return false;
        return output_at(node, position, text->substr(dot + 1), now);
    }

    bool output_at(Node const& node, std::string const& position, std::string const& name, OutputRef& now) {
        SourceSpan const where = within(node, static_cast<int>(document::characters(position)) + 1,
                                        std::max(1, static_cast<int>(document::characters(name))));
        int const held = site_.positions[static_cast<std::size_t>(now.position)].holds;
        Words names;
        if (held != nothing)
            for (Output const& o : catalog_.parts[static_cast<std::size_t>(held)].outputs) names.push_back(o.name);
        auto const at = std::find(names.begin(), names.end(), name);
        if (at == names.end()) {
            std::string const holder = held == nothing
                                           ? fmt::format("\"{}\"", position)
                                           : fmt::format("\"{}\" in \"{}\"", catalog_.parts[static_cast<std::size_t>(held)].id, position);
            std::string const reason = held == nothing ? ", because it holds nothing" : "";
            reader_.problem("LS-S005", where, fmt::format("{} has no output \"{}\"{}", holder, shown_text(name), reason),
                            names.empty() ? "an output of a part" : fmt::format("one of {}", listed(names)), suggestion(name, names));
            return false;
        }
        now.output = static_cast<int>(at - names.begin());
        auto const [before, is_new] = used_.emplace(now, node.where);
        if (!is_new)
            reader_.clash("LS-S009", node.where, reader_.document(), before->second,
                          fmt::format("the output \"{}\" performs two functions", shown_text(node.text)), "give each function an output of its own");
        return is_new;
    }
};

}  // namespace

void read_functions(FileReader& reader, Catalog const& catalog, Site& site, Words const& unread) {
    Node const* functions = reader.root().find("functions");
    if (functions != nullptr && reader.expect_map(*functions, "\"functions\"")) FunctionReader(reader, catalog, site, unread).read(*functions);
}

}  // namespace levelswap::reading
