#include "read_site.hpp"

#include "document/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>

namespace levelswap {

namespace reading {

namespace {

void read_put(FileReader& reader, Node const& put, Swap& swap) {
    if (!reader.expect_map(put, "\"put\"")) return;
    if (put.items.empty())
        reader.problem("LS-C002", put.where, "the swap puts nothing anywhere", "at least one \"position: part\"");
    for (std::size_t i = 0; i < put.items.size(); ++i) {
        std::string const* id = reader.text(put.items[i], fmt::format("what is put at \"{}\"", put.keys[i]));
        if (id == nullptr) continue;
        swap.put.emplace_back(put.keys[i], *id);
        swap.where.push_back(put.key_spans[i]);
        swap.part_where.push_back(put.items[i].where);
    }
}

}  // namespace

Swap swap_of(document::Document const& document) {
    FileReader reader(document);
    Swap swap;
    swap.file = document.file;
    if (reader.has_header("swap/1")) {
        Node const& root = reader.root();
        reader.only_keys(root, {"levelswap", "about", "site", "put", "old_may_return"}, "a swap file");
        swap.about = reader.optional_text(root, "about");
        if (reader.required(root, "site", "the swap") != nullptr) swap.site_file = reader.optional_text(root, "site");
        if (Node const* put = reader.required(root, "put", "the swap")) read_put(reader, *put, swap);
        swap.old_may_return = reader.yes_or_no(root, "old_may_return", false);
    }
    auto problems = reader.take_problems();
    if (!problems.empty()) throw DataError(std::move(problems));
    return swap;
}

namespace {

/// Says what of a swap its site or the catalogue does not know.
class SwapChecker {
public:
    SwapChecker(FileReader& reader, Site const& site, Catalog const& catalog) : reader_(reader), site_(site), catalog_(catalog) {}

    void check(Swap const& swap) {
        for (std::size_t i = 0; i < swap.put.size(); ++i) {
            auto const& [name, id] = swap.put[i];
            int const position = site_.find_position(name);
            if (position < 0) unknown_position(name, swap.where[i]);
            if (id == "nothing") continue;
            int const part = catalog_.find(id);
            if (part < 0) unknown_part(id, swap.part_where[i]);
            else if (position >= 0) kind_of(site_.positions[static_cast<std::size_t>(position)], catalog_.parts[static_cast<std::size_t>(part)], swap.part_where[i]);
        }
    }

private:
    FileReader& reader_;
    Site const& site_;
    Catalog const& catalog_;

    void unknown_position(std::string const& name, SourceSpan const& where) {
        Words const names = site_.position_names();
        reader_.problem("LS-S006", where, fmt::format("\"{}\" has no position \"{}\"", document::shown_text(site_.name), document::shown_text(name)),
                        fmt::format("one of {}", listed(names)), suggestion(name, names));
    }

    void unknown_part(std::string const& id, SourceSpan const& where) {
        std::string const hint = id == "none" ? "write nothing to take the part out" : suggestion(id, catalog_.ids());
        reader_.problem("LS-S001", where, fmt::format("there is no part \"{}\" in the catalogue", document::shown_text(id)),
                        "the id of a part of the catalogue, or nothing", hint);
    }

    void kind_of(Position const& position, Part const& part, SourceSpan const& where) {
        auto const kinds = accepted_kinds(position.role);
        if (std::find(kinds.begin(), kinds.end(), part.kind) != kinds.end()) return;
        Words names;
        for (Owner const k : kinds) names.emplace_back(name_of(k));
        reader_.problem("LS-S002", where, fmt::format("\"{}\" is a {}; \"{}\" does not accept one", part.id, name_of(part.kind), position.name),
                        fmt::format("a {}", fmt::join(names, " or a ")));
    }
};

}  // namespace

void check_swap(document::Document const& document, Swap const& swap, Site const& site, Catalog const& catalog) {
    FileReader reader(document);
    SwapChecker(reader, site, catalog).check(swap);
    auto problems = reader.take_problems();
    if (!problems.empty()) throw DataError(std::move(problems));
}

}  // namespace reading

Site read_site_of(Swap const& swap, Catalog const& catalog) {
    Site site = read_site((std::filesystem::path(swap.file).parent_path() / swap.site_file).lexically_normal().string(), catalog);
    reading::check_swap(document::read_file(swap.file), swap, site, catalog);
    return site;
}

Swap read_swap(std::string const& file) { return reading::swap_of(document::read_file(file)); }

}  // namespace levelswap
