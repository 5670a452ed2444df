#include "levelswap/document/node.hpp"
#include "levelswap/engine/engine.hpp"

#include <algorithm>
#include <filesystem>

namespace levelswap {

namespace {

namespace fs = std::filesystem;

void collect(std::vector<Diagnostic>& out, auto&& read) {
    try {
        read();
    } catch (DataError const& e) {
        out.insert(out.end(), e.diagnostics().begin(), e.diagnostics().end());
    }
}

std::vector<std::string> yaml_files(fs::path const& folder) {
    std::vector<std::string> found;
    if (fs::is_directory(folder))
        for (auto const& entry : fs::directory_iterator(folder))
            if (entry.path().extension() == ".yaml") found.push_back(entry.path().string());
    std::sort(found.begin(), found.end());
    return found;
}

/// "site/1" for a file whose first key says so.
std::string header_of(std::string const& file) {
    auto const document = document::read_file(file);
    auto const* header = document.root.find("levelswap");
    return header && header->is_scalar() ? header->text : "";
}

void check_swap(std::vector<Diagnostic>& out, std::string const& file) {
    collect(out, [&] {
        auto const swap = read_swap(file);
        auto const site = fs::path(file).parent_path() / swap.site_file;
        if (!fs::exists(site)) (void)read_site(site.string(), Catalog{});
    });
}

/// The catalogue folder that a file belongs to: the nearest one above it that has parts.
fs::path folder_of(fs::path const& file) {
    for (fs::path at = fs::absolute(file).parent_path(); at.has_relative_path(); at = at.parent_path())
        if (fs::is_directory(at / "parts")) return at;
    return {};
}

}  // namespace

std::vector<Diagnostic> validate(std::string const& path, Catalog const* catalog) {
    std::vector<Diagnostic> out;
    if (!fs::exists(path)) throw UsageError("there is no file or folder " + path);
    Catalog own;
    fs::path const folder = fs::is_directory(path) ? fs::path(path) : folder_of(path);
    if (!catalog) {
        std::vector<Diagnostic> of_catalog;
        if (!folder.empty()) collect(of_catalog, [&] { own = read_catalog(folder.string()); });
        catalog = &own;
        auto const header = fs::is_directory(path) ? "" : header_of(path);
        bool const in_catalog = header.starts_with("parts") || header.starts_with("pack");
        for (auto& d : of_catalog)
            if (!in_catalog || fs::path(d.where.file).filename() == fs::path(path).filename()) out.push_back(d);
        if (in_catalog) return out;
    }
    if (!fs::is_directory(path)) {
        if (header_of(path).starts_with("swap")) check_swap(out, path);
        else collect(out, [&] { (void)read_site(path, *catalog); });
        return out;
    }
    if (out.empty())  // without its parts, every site would only repeat that they are missing
        for (auto const& file : yaml_files(folder / "sites")) collect(out, [&] { (void)read_site(file, *catalog); });
    for (auto const& file : yaml_files(folder / "swaps")) check_swap(out, file);
    return out;
}

}  // namespace levelswap
