#include "output/web/laid_over.h"

#include <fmt/format.h>

#include "output/web/markup.h"

namespace rakelight {

namespace {

std::string choice(const char* what, const std::vector<WebCell>& cells, std::size_t chosen) {
    std::string html = fmt::format("<label>{} <select>", what);
    for (std::size_t i = 0; i < cells.size(); ++i)
        html += fmt::format("<option value=\"{}\"{}>{}</option>", i, i == chosen ? " selected" : "",
                            html_text(cells[i].label));
    return html + "</select></label>\n";
}

}  // namespace

std::string cell_image(const std::filesystem::path& file, const PictureLimits& limits,
                       const std::string& alt) {
    const EmbeddedPicture picture = embedded_picture(file, limits);
    return fmt::format("<img src=\"{}\" width=\"{}\" height=\"{}\" alt=\"{}\">", picture.source,
                       picture.width_px, picture.height_px, html_text(alt));
}

std::string cell_button(const WebCell& cell, const std::string& words) {
    return fmt::format(
        "<button type=\"button\" aria-pressed=\"false\" data-label=\"{}\" "
        "data-numbers=\"{}\" data-white=\"{:.6g}\">{}<span>{}</span>"
        "</button>",
        html_text(cell.label), html_text(cell.numbers), cell.white_cd_per_m2, cell.picture, html_text(words));
}

std::string laid_over(const std::vector<WebCell>& cells, std::size_t left, std::size_t right) {
    std::string html = "<div class=\"at-work\" hidden>\n<div class=\"choice\">\n";
    html += choice("Left", cells, left);
    html += choice("Right", cells, right);
    return html +
           "<button type=\"button\" class=\"blink\" aria-pressed=\"false\">Blink</button>\n</div>\n"
           "<div class=\"bench\"><div class=\"compare\"><img alt=\"\"><img alt=\"\">"
           "<div class=\"line\" role=\"slider\" tabindex=\"0\" aria-label=\"Line between the two samples\" "
           "aria-valuemin=\"0\" aria-valuemax=\"100\"></div></div>\n"
           "<div class=\"names\"><div><span class=\"name\"></span><p class=\"numbers\"></p></div>"
           "<div><span class=\"name\"></span><p class=\"numbers\"></p></div></div></div>\n"
           "<output class=\"reading\">Point at a sample to read it.</output>\n</div>\n";
}

std::string web_pair(const std::filesystem::path& photograph, const std::filesystem::path& picture,
                     const std::string& title, const std::string& id, const PictureLimits& limits) {
    std::vector<WebCell> cells(2);
    cells[0].label = "Photograph";
    cells[0].picture = cell_image(photograph, limits, "Photograph: " + title);
    cells[1].label = "Picture";
    cells[1].picture = cell_image(picture, limits, "Picture: " + title);
    std::string html = fmt::format("<figure class=\"board\" id=\"{}\">\n<div class=\"cells strip\">\n", id);
    for (const WebCell& cell : cells) html += cell_button(cell, cell.label);
    html += "</div>\n" + laid_over(cells, 0, 1);
    return html + fmt::format(
                      "<figcaption><h3>{}</h3>\n<p>One perspective and one exposure: drag the line, or let "
                      "them blink.</p></figcaption>\n</figure>\n",
                      html_text(title));
}

}  // namespace rakelight
