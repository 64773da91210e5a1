#include "scene/reading/field/piece_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>

#include "scene/model/layout.h"
#include "scene/pieces/piece_rows.h"
#include "scene/reading/field/fields.h"
#include "scene/text/layout_tree.h"
#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kMostBytes = 1u << 30;

std::string key_of(const PieceRow& row, const char* column) {
    return row.key.empty() ? column : row.key + '.' + column;
}

// What cannot be read is said of the key that named it, or of the file itself.
std::optional<std::string> text_of(const fs::path& path, const std::function<void(std::string)>& refuse) {
    std::error_code error;
    if (!fs::is_regular_file(path, error)) {
        refuse("found no such file, expected a piece table");
        return std::nullopt;
    }
    if (const auto size = fs::file_size(path, error); error || size > kMostBytes) {
        refuse("found a file over 1 GiB, expected a piece table");
        return std::nullopt;
    }
    std::ifstream stream(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(stream), {}};
    if (!stream.is_open() || stream.bad()) {
        refuse("cannot be read");
        return std::nullopt;
    }
    return text;
}

void check_names(Layout& layout, const Shelf& stock, ProblemList& problems) {
    std::vector<std::string> fields;
    for (const Field& field : layout.fields) fields.push_back(field.name);
    std::map<std::string, std::uint32_t> used;
    for (const Material& m : layout.stock) used.emplace(m.name, used.size());
    for (PieceRow& row : layout.piece_rows) {
        if (row.material.empty()) {
            problems.add(row.place, key_of(row, "material"),
                         "found nothing, expected the name of a material");
        } else if (const auto at = used.find(row.material); at != used.end()) {
            row.stock = at->second;
        } else if (const Material* material = stock.find(row.material)) {
            row.stock = used[row.material] = static_cast<std::uint32_t>(layout.stock.size());
            layout.stock.push_back(*material);
        } else {
            problems.add(
                row.place, key_of(row, "material"),
                fmt::format("found {}, expected a material of the stock{}", rakelight::quoted(row.material),
                            did_you_mean(row.material, stock.names)));
        }
        const bool known = std::find(fields.begin(), fields.end(), row.field) != fields.end();
        if (!row.is_stone() && !known)
            problems.add(row.place, key_of(row, "field"),
                         fmt::format("found {}, expected one of {}{}",
                                     row.field.empty() ? "nothing" : rakelight::quoted(row.field),
                                     fmt::join(fields, ", "), did_you_mean(row.field, fields)));
    }
}

}  // namespace

void read_piece_table(Section& file, Layout& layout, const Shelf& stock, const fs::path& instead) {
    std::string named;
    const bool given = file.set(named, "pieces");
    if (!given && instead.empty()) return;
    const fs::path path =
        instead.empty() ? fs::path(file.problems().beside(*file.find("pieces"), named)) : instead;
    layout.pieces_file = path.string();
    layout.sources.files.push_back(layout.pieces_file);
    ProblemList& problems = file.problems();
    const auto text = text_of(path, [&](std::string why) {
        if (instead.empty())
            file.problem("pieces", why + " at " + quoted_whole(path));
        else
            problems.add(Place{path.string(), 0, 0}, "", std::move(why));
    });
    if (!text) return;
    std::string ending = path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? c + 32 : c; });
    layout.piece_rows = ending == ".json" ? piece_rows_from_json(*text, layout.pieces_file, problems)
                                          : piece_rows_from_csv(*text, layout.pieces_file, problems);
    if (static_cast<double>(layout.piece_rows.size()) > kMostPieces)
        problems.add(
            Place{layout.pieces_file, 0, 0}, "",
            fmt::format("found {} pieces, expected at most {:.0f}", layout.piece_rows.size(), kMostPieces));
    check_names(layout, stock, problems);
}

}  // namespace rakelight
