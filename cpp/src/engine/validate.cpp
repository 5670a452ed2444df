#include "levelswap/document/node.hpp"
#include "levelswap/engine/engine.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>

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

/// The problems of a swap and of the site it names; those of a site that was told already are not told again.
void check_swap(std::vector<Diagnostic>& out, std::string const& file, Catalog const& catalog) {
    std::vector<Diagnostic> found;
    collect(found, [&] { (void)read_site_of(read_swap(file), catalog); });
    auto told = [&](Diagnostic const& d) {
        return std::any_of(out.begin(), out.end(), [&](Diagnostic const& before) {
            std::error_code failed;
            return before.code == d.code && before.where.line == d.where.line && before.where.column == d.where.column &&
                   fs::equivalent(before.where.file, d.where.file, failed);
        });
    };
    std::copy_if(found.begin(), found.end(), std::back_inserter(out), [&](Diagnostic const& d) { return !told(d); });
}

/// The catalogue folder that a file belongs to: the nearest one above it that has parts.
fs::path folder_of(fs::path const& file) {
    for (fs::path at = fs::absolute(file).lexically_normal().parent_path(); at.has_relative_path(); at = at.parent_path())
        if (!yaml_files(at / "parts").empty()) return at;
    return {};
}

/// A file that lies in no catalogue: what is wrong with it whatever the catalogue is. Where that is nothing and it names
/// parts, nobody can tell.
std::vector<Diagnostic> without_catalog(std::string const& path, bool is_swap) {
    std::vector<Diagnostic> out;
    if (is_swap) collect(out, [&] { (void)read_swap(path); });
    else collect(out, [&] { (void)read_site(path, Catalog{}); });
    bool const names_parts = std::any_of(out.begin(), out.end(), [](Diagnostic const& d) { return d.code == "LS-S001" || d.code == "LS-S007"; });
    if (names_parts || (is_swap && out.empty()))
        throw UsageError("'" + path + "' lies in no catalogue: no folder above it has part files (parts/*.yaml); name the catalogue of its parts");
    return out;
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
        if (folder.empty()) return without_catalog(path, header.starts_with("swap"));
        if (!of_catalog.empty()) {   // without its parts, the file would only repeat that they are missing
            out = std::move(of_catalog);
            return out;
        }
    }
    if (!fs::is_directory(path)) {
        if (header_of(path).starts_with("swap")) check_swap(out, path, *catalog);
        else collect(out, [&] { (void)read_site(path, *catalog); });
        return out;
    }
    if (!out.empty()) {   // without its parts, every site would only repeat that they are missing
        for (auto const& file : yaml_files(folder / "swaps")) collect(out, [&] { (void)read_swap(file); });
        return out;
    }
    for (auto const& file : yaml_files(folder / "sites")) collect(out, [&] { (void)read_site(file, *catalog); });
    for (auto const& file : yaml_files(folder / "swaps")) check_swap(out, file, *catalog);
    return out;
}

}  // namespace levelswap
