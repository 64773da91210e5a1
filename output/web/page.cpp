#include "output/web/page.h"

#include <fmt/format.h>

#include "output/system/safe_file.h"
#include "output/web/board.h"
#include "output/web/light.h"
#include "output/web/markup.h"
#include "output/web/parts.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

std::string_view part(std::string_view name) {
    for (const WebPart& p : web_parts())
        if (p.name == name) return p.text;
    return {};
}

std::string scripts() {
    std::string all;
    for (const WebPart& p : web_parts())
        if (p.name.ends_with(".js")) all += p.text;
    return all;
}

std::string label(const ShownFile& shown, const EmbeddedPicture& picture) {
    std::string html = fmt::format("<figcaption><h3>{}</h3>\n", html_text(shown.title));
    for (const std::string& fact : shown.facts) html += fmt::format("<p>{}</p>\n", html_text(fact));
    std::string size;
    if (picture.file_width_px > 0)
        size = fmt::format(" ({} x {} pixels)", picture.file_width_px, picture.file_height_px);
    html += fmt::format("<p><a href=\"{}\">{}</a>{}</p>\n", link_to(shown.file), html_text(shown.file), size);
    return html +
           "<button type=\"button\" class=\"enlarge\" aria-pressed=\"false\" hidden>Pixel for "
           "pixel</button>\n"
           "</figcaption>\n";
}

std::string image(const ShownFile& shown, const EmbeddedPicture& picture) {
    std::string size;
    if (picture.width_px > 0)
        size = fmt::format(" width=\"{}\" height=\"{}\"", picture.width_px, picture.height_px);
    return fmt::format("<div class=\"stage\"><img src=\"{}\"{} alt=\"{}\" decoding=\"async\"></div>\n",
                       picture.source, size, html_text(shown.alt));
}

constexpr const char* kReading = "<output class=\"reading\">Point at the picture to read it.</output>\n";

std::string light_figure(const ShownFile& shown, const fs::path& folder, const std::string& id,
                         int most_side_px) {
    WebLight light = web_light(folder / shown.film, shown.halo, id + "-light", most_side_px);
    // The label speaks of the file, which may be larger than what is mixed.
    const PixelSize file = size_of_picture(folder / shown.file);
    light.poster.file_width_px = file.width;
    light.poster.file_height_px = file.height;
    std::string html = fmt::format("<figure id=\"{}\" data-light=\"{}\" data-white=\"{:.6g}\">\n", id,
                                   light.name, shown.white_cd_per_m2);
    html += image(shown, light.poster) + "<div class=\"beneath\">\n" + kReading + label(shown, light.poster);
    html += "<fieldset class=\"lamps\" hidden><legend>Lamps</legend></fieldset>\n</div>\n</figure>\n";
    return html + light.scripts;
}

std::string still_figure(const ShownFile& shown, const fs::path& folder, const std::string& id,
                         const PictureLimits& limits) {
    const bool drawing = fs::path(shown.file).extension() == ".svg";
    const EmbeddedPicture picture =
        drawing ? embedded_drawing(folder / shown.file) : embedded_picture(folder / shown.file, limits);
    return fmt::format("<figure id=\"{}\" data-white=\"{:.6g}\">\n", id, shown.white_cd_per_m2) +
           image(shown, picture) + "<div class=\"beneath\">\n" + kReading + label(shown, picture) +
           "</div>\n</figure>\n";
}

// A run that was cut off can leave the film of one scene beside the picture of another.
bool has_its_film(const ShownFile& shown, const fs::path& folder) {
    return !shown.film.empty() && is_film_of(folder / shown.film, shown.scene_hash);
}

std::string link_line(const std::string& id, const std::string& title) {
    return fmt::format("<a href=\"#{}\">{}</a>\n", id, html_text(title));
}

}  // namespace

std::string web_page(const RunFolder& run, const fs::path& folder, const std::string& program,
                     const WebPageLimits& limits) {
    std::string contents;
    std::string body;
    int number = 0;
    for (const RunPart& made : run.parts) {
        body += fmt::format("<section>\n<h2>{}</h2>\n", html_text(made.title));
        if (!made.board.empty()) {
            const std::string id = fmt::format("picture-{}", ++number);
            contents += link_line(id, made.title);
            body += web_board(folder / made.board, id);
        }
        for (const ShownFile& shown : made.shown) {
            const std::string id = fmt::format("picture-{}", ++number);
            contents += link_line(id, shown.title);
            body += has_its_film(shown, folder) ? light_figure(shown, folder, id, limits.mixing_side_px)
                                                : still_figure(shown, folder, id, limits.still);
        }
        if (!made.beside.empty()) {
            body += "<ul class=\"beside\">\n";
            for (const std::string& file : made.beside)
                body += fmt::format("<li><a href=\"{}\">{}</a></li>\n", link_to(file), html_text(file));
            body += "</ul>\n";
        }
        body += "</section>\n";
    }
    return filled_in(part("page.html"), {{"title", html_text(run.title)},
                                         {"subtitle", html_text(run.subtitle)},
                                         {"program", html_text(program)},
                                         {"style", std::string(part("page.css"))},
                                         {"contents", contents},
                                         {"body", body},
                                         {"script", scripts()}});
}

fs::path write_web_page(const fs::path& folder, const std::string& program, const WebPageLimits& limits) {
    const fs::path page = folder / "index.html";
    write_file(page, web_page(read_run_folder(folder), folder, program, limits));
    return page;
}

}  // namespace rakelight
