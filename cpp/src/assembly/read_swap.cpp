#include "read_site.hpp"

#include <fmt/format.h>

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

}  // namespace reading

Swap read_swap(std::string const& file) { return reading::swap_of(document::read_file(file)); }

}  // namespace levelswap
