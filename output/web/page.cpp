#include "output/web/page.h"

#include <OpenImageIO/strutil.h>
#include <fmt/format.h>

#include <algorithm>

#include "output/film/checksum.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "output/web/board.h"
#include "output/web/client.h"
#include "output/web/clip.h"
#include "output/web/laid_over.h"
#include "output/web/light.h"
#include "output/web/markup.h"
#include "output/web/parts.h"
#include "renderer/render.h"

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

// What figures of a page have in common.
struct PageFrom {
    const RunFolder& run;
    const fs::path& folder;
    const WebPageTask& task;
};

std::string changed_mark(const std::string& file, const RunFolder& run) {
    return run.changed.contains(file) ? " (changed since it was written)" : "";
}

std::string label(const ShownFile& shown, const EmbeddedPicture& picture, const PageFrom& on) {
    std::string html = fmt::format("<figcaption><h3>{}</h3>\n", html_text(shown.title));
    if (shown.older) html += older_mark(on.run.older_than);
    if (const std::string mark = changed_mark(shown.file, on.run); !mark.empty())
        html += "<p>" + mark.substr(1) + "</p>\n";
    for (const std::string& fact : shown.facts) html += fmt::format("<p>{}</p>\n", html_text(fact));
    std::string size;
    if (picture.file_width_px > 0)
        size = fmt::format(" ({} x {} pixels)", picture.file_width_px, picture.file_height_px);
    if (on.task.linked)
        html +=
            fmt::format("<p><a href=\"{}\">{}</a>{}</p>\n", link_to(shown.file), html_text(shown.file), size);
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

std::string light_figure(const ShownFile& shown, const PageFrom& on, const std::string& id) {
    WebLight light = web_light(on.folder / shown.film, shown.glow, shown.filtered, id + "-light",
                               on.task.limits.mixing_side_px);
    // The label speaks of the file, which may be larger than what is mixed.
    const PixelSize file = size_of_picture(on.folder / shown.file);
    light.poster.file_width_px = file.width;
    light.poster.file_height_px = file.height;
    std::string html = fmt::format("<figure id=\"{}\" data-light=\"{}\" data-white=\"{:.6g}\">\n", id,
                                   light.name, shown.white_cd_per_m2);
    html +=
        image(shown, light.poster) + "<div class=\"beneath\">\n" + kReading + label(shown, light.poster, on);
    html += "<fieldset class=\"lamps\" hidden><legend>Lamps</legend></fieldset>\n</div>\n</figure>\n";
    return html + light.scripts;
}

std::string still_figure(const ShownFile& shown, const PageFrom& on, const std::string& id) {
    const bool drawing = fs::path(shown.file).extension() == ".svg";
    const EmbeddedPicture picture = drawing ? embedded_drawing(on.folder / shown.file)
                                            : embedded_picture(on.folder / shown.file, on.task.limits.still);
    return fmt::format("<figure id=\"{}\" data-white=\"{:.6g}\">\n", id, shown.white_cd_per_m2) +
           image(shown, picture) + "<div class=\"beneath\">\n" + kReading + label(shown, picture, on) +
           "</div>\n</figure>\n";
}

std::string clip_figure(const ShownFile& shown, const PageFrom& on, const std::string& id) {
    return fmt::format("<figure class=\"clip\" id=\"{}\">\n", id) +
           clip_stage(on.folder / shown.file, shown.alt) + "<div class=\"beneath\">\n" +
           label(shown, {}, on) + "</div>\n</figure>\n";
}

// A run that was cut off can leave the film of one scene beside the picture of another.
bool has_its_film(const ShownFile& shown, const fs::path& folder) {
    return !shown.film.empty() && is_film_of(folder / shown.film, shown.scene_hash);
}

std::string link_line(const std::string& id, const std::string& title, bool older) {
    return fmt::format("<a href=\"#{}\"{}>{}</a>\n", id, older ? " class=\"older\"" : "", html_text(title));
}

// The figures of a page and the lines that lead to them.
class Figures {
  public:
    explicit Figures(const PageFrom& on) : on_(on) {
        for (const RunPart& part : on.run.parts)
            all_ += part.shown.size() + static_cast<std::size_t>(!part.board.empty());
    }

    void add(const RunPart& part) {
        body += fmt::format("<section>\n<h2>{}</h2>\n", html_text(part.title));
        if (!part.board.empty()) {
            const std::string id = next(part.title, part.board_older);
            PictureLimits cells = on_.task.limits.still;
            cells.most_side_px = std::min(cells.most_side_px, 1000);
            cells.most_bytes = std::min<std::size_t>(cells.most_bytes, 700'000);
            body += web_board(on_.folder / part.board, id, cells, part.board_older ? on_.run.older_than : "");
        }
        for (const ShownFile& shown : part.shown) {
            const std::string id = next(shown.title, shown.older);
            body += is_clip(shown.file)               ? clip_figure(shown, on_, id)
                    : has_its_film(shown, on_.folder) ? light_figure(shown, on_, id)
                                                      : still_figure(shown, on_, id);
            if (!shown.photograph.empty())
                body += web_pair(on_.folder / shown.photograph, on_.folder / shown.picture, shown.title,
                                 id + "-pair", on_.task.limits.still);
        }
        if (on_.task.linked && !part.beside.empty()) {
            body += "<ul class=\"beside\">\n";
            for (const std::string& file : part.beside)
                body += fmt::format("<li><a href=\"{}\">{}</a>{}</li>\n", link_to(file), html_text(file),
                                    changed_mark(file, on_.run));
            body += "</ul>\n";
        }
        body += "</section>\n";
    }

    std::string contents, body;

  private:
    std::string next(const std::string& title, bool older) {
        if (on_.task.cancelled && on_.task.cancelled()) throw Cancelled{};
        if (on_.task.progress) on_.task.progress(static_cast<double>(number_) / static_cast<double>(all_));
        const std::string id = fmt::format("picture-{}", ++number_);
        contents += link_line(id, title, older);
        return id;
    }

    const PageFrom& on_;
    std::size_t all_ = 0, number_ = 0;
};

std::string proposal_section(const fs::path& file) {
    const std::string bytes = read_file(file), name = file.filename().string();
    return fmt::format(
        "<section>\n<h2>Proposal</h2>\n<p><a download=\"{0}\" "
        "href=\"data:application/pdf;base64,{1}\">{0}</a>, "
        "{2:.1f} MB, is in this page: the link saves it.</p>\n</section>\n",
        html_text(name), OIIO::Strutil::base64_encode(bytes), static_cast<double>(bytes.size()) / 1e6);
}

}  // namespace

std::string web_page(const RunFolder& run, const fs::path& folder, const std::string& program,
                     const WebPageTask& task) {
    const PageFrom on{run, folder, task};
    Figures figures(on);
    for (const RunPart& made : run.parts) figures.add(made);
    if (task.progress) task.progress(1);
    if (!task.proposal.empty()) figures.body += proposal_section(folder / task.proposal);
    // Nobody who writes a layout can foretell it, as it hangs on all that they write.
    const std::string nonce = checksum(html_text(run.title) + run.subtitle + figures.contents + figures.body);
    return filled_in(part("page.html"), {{"title", html_text(run.title)},
                                         {"subtitle", html_text(run.subtitle)},
                                         {"program", html_text(program)},
                                         {"nonce", nonce},
                                         {"style", std::string(part("page.css"))},
                                         {"contents", figures.contents},
                                         {"body", figures.body},
                                         {"script", scripts()}});
}

std::string client_page(RunFolder run, const fs::path& folder, const std::string& program,
                        const WebPageTask& task) {
    WebPageTask own = task;
    own.linked = false;
    own.proposal = keep_for_client(run);
    if (!own.proposal.empty() && fs::file_size(folder / own.proposal) * 4 / 3 > kMostClientBytes / 2)
        own.proposal.clear();
    if (run.parts.empty())
        throw RequestError(
            fmt::format("{} holds nothing for a client that is not older than its layout: no "
                        "picture, no board",
                        folder.string()));
    for (const int side_px : {1600, 1280, 1000, 800, 640, 480}) {
        own.limits.still = {side_px, 60'000};
        std::string page = web_page(run, folder, program, own);
        if (page.size() <= kMostClientBytes) return page;
    }
    throw RequestError("too many pictures for one page of 5 MB; choose some with --picture");
}

}  // namespace rakelight
