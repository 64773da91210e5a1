#include "output/web/board.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "materials/colour/colorimetry.h"
#include "output/print/exposure.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "output/web/laid_over.h"
#include "output/web/markup.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

std::string lab_words(const Json& lab) {
    return fmt::format("L* {:.1f}  a* {:.1f}  b* {:.1f}", lab.at(0).get<double>(), lab.at(1).get<double>(),
                       lab.at(2).get<double>());
}

// What the board measured, as far as this one did.
std::string numbers_of(const Json& cell, const std::string& reference) {
    std::vector<std::string> lines;
    if (!cell.contains("numbers")) return "";
    const Json& n = cell["numbers"];
    const auto number = [&](const char* pointer) -> std::optional<double> {
        const Json::json_pointer at(pointer);
        return n.contains(at) && n[at].is_number() ? std::optional(n[at].get<double>()) : std::nullopt;
    };
    if (n.contains("joint_lab")) lines.push_back("joints  " + lab_words(n["joint_lab"]));
    if (n.contains("piece_lab")) lines.push_back("pieces  " + lab_words(n["piece_lab"]));
    if (const auto apart = number("/contrast/ciede2000"))
        lines.push_back(fmt::format("{:.1f} apart (CIEDE2000)", *apart));
    if (const auto shift = number("/shift/ciede2000"))
        lines.push_back(fmt::format("pieces shifted by {:.1f}{}", *shift,
                                    reference.empty() ? "" : " against " + reference));
    if (const auto metres = number("/resolves_to_m"))
        lines.push_back(fmt::format("joints resolved to {:.1f} m", *metres));
    return fmt::format("{}", fmt::join(lines, "\n"));
}

std::string reference_of(const Json& board) {
    if (!board.contains("reference")) return "";
    for (const Json& cell : board.at("cells"))
        if (cell.at("row") == board["reference"].value("row", -1) &&
            cell.at("column") == board["reference"].value("column", -1))
            return cell.at("label");
    return "";
}

int whole_number(const Json& json) {
    return json.is_number_integer() ? json.get<int>() : -1;
}

// Of a cell or a board, cd/m2; `usual` where it says no exposure.
double white_of(const Json& json, double usual) {
    return json.contains("exposure_ev100") && json["exposure_ev100"].is_number()
               ? middle_luminance_cd_per_m2(json["exposure_ev100"].get<double>()) / kMiddleGrey
               : usual;
}

bool exposed_by_row(const std::vector<WebCell>& cells) {
    return std::any_of(cells.begin(), cells.end(), [&](const WebCell& cell) {
        return cell.white_cd_per_m2 != cells.front().white_cd_per_m2;
    });
}

// Whether cells are of one laying, as far as the board says so.
bool one_laying(const Json& board) {
    const Json::json_pointer layings("/shared/layings");
    return !board.contains(layings) || board[layings] == 1;
}

std::vector<WebCell> read_cells(const Json& board, const std::filesystem::path& folder,
                                const PictureLimits& limits) {
    const std::string reference = reference_of(board);
    // A rank is one of the choices in its row, as on the sheet.
    const std::size_t ranked_of =
        board.at("columns").size() > 1 ? board["columns"].size() : board.at("cells").size();
    std::vector<WebCell> cells;
    for (const Json& cell : board.at("cells")) {
        const std::string label = cell.at("label");
        const bool ranked = cell.contains("rank") && cell["rank"].is_number_integer();
        cells.push_back({label, ranked ? fmt::format("{} of {}", cell["rank"].get<int>(), ranked_of) : "",
                         numbers_of(cell, reference),
                         cell_image(folder / cell.at("file").get<std::string>(), limits, "Sample: " + label),
                         whole_number(cell.at("row")), whole_number(cell.at("column")),
                         white_of(cell, white_of(board, 0))});
    }
    return cells;
}

// Cells that differ in one thing stand in as many lines as they need; in two things, as a table.
std::string grid(const Json& board, const std::vector<WebCell>& cells) {
    const Json& rows = board.at("rows");
    std::string html;
    if (rows.size() == 1) {
        html = "<div class=\"cells strip\">\n";
        for (const WebCell& cell : cells)
            html += cell_button(cell, cell.rank.empty() ? cell.label : cell.label + "\n" + cell.rank);
        return html + "</div>\n";
    }
    html = "<div class=\"cells\"><table>\n<tr><td></td>";
    for (const Json& column : board.at("columns"))
        html += fmt::format("<th scope=\"col\">{}</th>", html_text(column.at("label").get<std::string>()));
    html += "</tr>\n";
    for (std::size_t row = 0; row < rows.size(); ++row) {
        html +=
            fmt::format("<tr><th scope=\"row\">{}</th>", html_text(rows[row].at("label").get<std::string>()));
        for (const WebCell& cell : cells)
            if (cell.row == static_cast<int>(row)) html += "<td>" + cell_button(cell, cell.rank) + "</td>";
        html += "</tr>\n";
    }
    return html + "</table></div>\n";
}

// The board's own grey behind the samples, as a colour of the page.
std::string surround_of(const Json& board) {
    const Xyz white = linear_rgb_to_xyz({1, 1, 1});
    const auto [r, g, b] = to_bytes(
        encode(xyz_to_linear_rgb(lab_to_xyz({board.value("surround_lightness", 55.0), 0, 0}, white))));
    return fmt::format("#{:02x}{:02x}{:02x}", r, g, b);
}

// At first the reference is held against the best, else the first two cells against each other.
std::pair<std::size_t, std::size_t> first_pair(const Json& board) {
    const Json& cells = board.at("cells");
    std::size_t left = 0;
    std::size_t right = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (board.contains("reference") && cells[i].at("row") == board["reference"].value("row", -1) &&
            cells[i].at("column") == board["reference"].value("column", -1))
            left = i;
        if (cells[i].contains("rank") && cells[i]["rank"] == 1) right = i;
    }
    if (right == left) right = left + 1 < cells.size() ? left + 1 : 0;
    return {left, right};
}

}  // namespace

std::string web_board(const std::filesystem::path& path, const std::string& id, const PictureLimits& limits,
                      const std::string& older_than) {
    try {
        const Json board = Json::parse(read_file(path));
        if (board.at("cells").empty())
            throw RequestError(fmt::format("cannot use {}: it has no cells", path.string()));
        const std::vector<WebCell> cells = read_cells(board, path.parent_path(), limits);
        std::string html = fmt::format("<figure class=\"board\" id=\"{}\" style=\"--surround: {}\">\n", id,
                                       surround_of(board));
        html += grid(board, cells);
        const auto [left, right] = first_pair(board);
        html += laid_over(cells, left, right);
        html += "<figcaption><h3>" + html_text(board.value("title", "Sample board")) + "</h3>\n" +
                older_mark(older_than) + "<p>" +
                (exposed_by_row(cells)
                     ? "Each row is exposed for its own light. "
                     : "Same light, same exposure in every cell: only what is named differs. ") +
                std::string(one_laying(board) ? "The same pieces in each. " : "") + "Cured colour.</p>\n";
        if (board.contains("aim") && board["aim"].is_string())
            html += fmt::format("<p>Ranked by what was asked for: {}.</p>\n",
                                html_text(board["aim"].get<std::string>()));
        html += "</figcaption>\n</figure>\n";
        return html;
    } catch (const Json::exception&) {
        throw RequestError(fmt::format("cannot use {}: it does not describe a board", path.string()));
    }
}

}  // namespace rakelight
