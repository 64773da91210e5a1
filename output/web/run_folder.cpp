#include "output/web/run_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "output/film/begun_film.h"
#include "output/film/film_file.h"
#include "output/film/scene_hash.h"
#include "output/film/sealed_json.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "output/web/clip.h"
#include "output/web/shown_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr std::size_t kMostFiles = 2000;

// A word of "format", and the heading under which such files are shown, in the order of the page.
struct Heading {
    std::string_view word;
    std::string_view title;
};
constexpr std::array<Heading, 13> kHeadings{{{"record", "Pictures"},
                                             {"in-photograph", "In a photograph"},
                                             {"portfolio", "Portfolio"},
                                             {"clip", "Moving"},
                                             {"board", "Sample board"},
                                             {"glare", "Glare"},
                                             {"stock", "Stock"},
                                             {"comparison", "Photograph beside the picture"},
                                             {"laying", "As laid"},
                                             {"take-off", "Take-off"},
                                             {"model", "In the round"},
                                             {"cut", "To be cut"},
                                             {"", "More"}}};

bool is_raster(const std::string& file) {
    const std::string e = lower_extension(file);
    return e == ".png" || e == ".jpg" || e == ".jpeg";
}

// "map-2" comes before "map-10".
bool in_order(const std::string& a, const std::string& b) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    std::size_t i = 0;
    std::size_t k = 0;
    while (i < a.size() && k < b.size()) {
        if (!digit(a[i]) || !digit(b[k])) {
            if (a[i] != b[k]) return a[i] < b[k];
            ++i, ++k;
            continue;
        }
        const auto number = [&](const std::string& text, std::size_t& at) {
            const std::size_t begin = at;
            while (at < text.size() && digit(text[at])) ++at;
            const std::size_t first = std::min(text.find_first_not_of('0', begin), at);
            return text.substr(first, at - first);
        };
        const std::string m = number(a, i);
        const std::string n = number(b, k);
        if (m.size() != n.size()) return m.size() < n.size();
        if (m != n) return m < n;
    }
    return a.size() - i < b.size() - k || (a.size() - i == b.size() - k && a < b);
}

std::vector<std::string> files_in(const fs::path& folder) {
    std::vector<std::string> files;
    std::error_code error;
    fs::recursive_directory_iterator walk(folder, error);
    if (error)
        throw RequestError(fmt::format("cannot read the folder {}: {}", folder.string(), error.message()));
    for (; walk != fs::recursive_directory_iterator(); walk.increment(error)) {
        if (error) break;
        const fs::path& path = walk->path();
        if (path.filename().string().front() == '.') {
            if (walk->is_directory()) walk.disable_recursion_pending();
            continue;
        }
        if (!walk->is_regular_file()) continue;
        if (lower_extension(path.string()) == ".html" || is_begun_file(path)) continue;
        files.push_back(path.lexically_relative(folder).generic_string());
        if (files.size() > kMostFiles)
            throw RequestError(fmt::format("{} holds more than {} files: name the folder of one panel",
                                           folder.string(), kMostFiles));
    }
    std::sort(files.begin(), files.end(), in_order);
    return files;
}

constexpr std::uintmax_t kMostJsonBytes = 64 << 20;

// A film that has been put beside the JSON of another run is whole, and is not mixed with it.
bool is_of_another_scene(const fs::path& film, const fs::path& json_file) {
    try {
        const Json said = Json::parse(read_file(json_file), nullptr, false);
        return text_at(said, "scene_hash") != hash_digits(read_film_about(film).notes.scene_hash);
    } catch (const OutputError&) {
        return false;  // no film at all
    }
}

// Checks that pictures and light are as they were written. A drawing or a PDF may have been worked on since;
// returns those.
std::set<std::string> check_whole(const fs::path& folder, const std::vector<std::string>& files) {
    std::set<std::string> changed;
    for (const std::string& file : files) {
        if (lower_extension(file) != ".json" || fs::file_size(folder / file) > kMostJsonBytes) continue;
        for (const Damage& found : damage(folder / file, false)) {
            const std::string e = lower_extension(found.file.string());
            if (e == ".exr" && is_of_another_scene(found.file, folder / file)) continue;
            if (e == ".json" || e == ".png" || e == ".exr")
                throw RequestError(found.what + "; make it again, or take it out of the folder");
            changed.insert(found.file.lexically_relative(folder).generic_string());
        }
    }
    return changed;
}

std::vector<MetadataFile> read_said(const fs::path& folder, const std::vector<std::string>& files) {
    std::vector<MetadataFile> all;
    for (const std::string& file : files) {
        if (lower_extension(file) != ".json" || fs::file_size(folder / file) > kMostJsonBytes) continue;
        MetadataFile said{file, "", Json::parse(read_file(folder / file), nullptr, false), {}};
        if (!said.json.is_object() || !said.json.contains("files") || !said.json["files"].is_array())
            continue;
        constexpr std::string_view kOurs = "rakelight ";
        if (const std::string format = text_at(said.json, "format"); format.starts_with(kOurs))
            said.word = format.substr(kOurs.size());
        if (said.word.empty()) continue;
        const fs::path beside = fs::path(file).parent_path();
        for (const Json& name : said.json["files"])
            if (name.is_string())
                said.names.push_back((beside / name.get<std::string>()).lexically_normal().generic_string());
        all.push_back(std::move(said));
    }
    return all;
}

std::string heading_of(const std::string& word) {
    const auto found =
        std::find_if(kHeadings.begin(), kHeadings.end(), [&](const Heading& h) { return h.word == word; });
    return found != kHeadings.end() ? std::string(found->title) : spoken(word);
}

std::size_t rank_of(const std::string& word) {
    const auto found =
        std::find_if(kHeadings.begin(), kHeadings.end(), [&](const Heading& h) { return h.word == word; });
    return found != kHeadings.end() && !word.empty() ? static_cast<std::size_t>(found - kHeadings.begin())
                                                     : kHeadings.size() - (word.empty() ? 0 : 1);
}

// The file that speaks of this one; else one whose name is the longest beginning of this one's.
const MetadataFile* speaker_of(const std::string& file, const std::vector<MetadataFile>& all) {
    for (const MetadataFile& said : all)
        if (said.file == file || std::find(said.names.begin(), said.names.end(), file) != said.names.end())
            return &said;
    const MetadataFile* best = nullptr;
    std::size_t most = 0;
    for (const MetadataFile& said : all) {
        const std::string stem = said.file.substr(0, said.file.size() - std::string(".json").size());
        if (stem.size() > most && file.starts_with(stem) && said.word != "record") {
            best = &said;
            most = stem.size();
        }
    }
    return best;
}

// What lies over one another is not shown one by one: both pictures of a comparison.
bool is_of_pair(const std::string& file, const MetadataFile* said, const std::set<std::string>& there) {
    if (said == nullptr || said->word != "comparison") return false;
    const std::string stem = said->file.substr(0, said->file.size() - std::string(".json").size());
    return there.contains(stem + ".png") && there.contains(stem + "-photograph.png") &&
           there.contains(stem + "-picture.png") && file != stem + ".png";
}

// Cells are shown in their grid, not one by one.
bool is_cell(const std::string& file, const MetadataFile* said) {
    if (said == nullptr || said->word != "board" || !said->json.contains("cells")) return false;
    const fs::path beside = fs::path(said->file).parent_path();
    for (const Json& cell : said->json["cells"])
        if ((beside / text_at(cell, "file")).generic_string() == file) return true;
    return false;
}

}  // namespace

RunFolder read_run_folder(const fs::path& folder) {
    if (!fs::is_directory(folder))
        throw RequestError(
            fmt::format("{} is not a folder; name one that finished files lie in", folder.string()));
    const std::vector<std::string> files = files_in(folder);
    const std::set<std::string> there(files.begin(), files.end());
    RunFolder run;
    run.changed = check_whole(folder, files);
    const std::vector<MetadataFile> all = read_said(folder, files);

    std::map<std::pair<std::size_t, std::string>, RunPart> parts;  // by rank, then by word
    for (const std::string& file : files) {
        const MetadataFile* said = speaker_of(file, all);
        const std::string word = said != nullptr ? said->word : "";
        RunPart& part = parts[{rank_of(word), word}];
        part.word = word;
        part.title = heading_of(word);
        if (said != nullptr && said->word == "board") {
            part.board = said->file;
            part.board_hash = text_at(said->json, "scene_hash");
        }
        const std::string extension = lower_extension(file);
        const std::string as_png = fs::path(file).replace_extension(".png").generic_string();
        const bool shown =
            is_raster(file) || is_clip(file) || (extension == ".svg" && !there.contains(as_png));
        if (shown && !is_cell(file, said) && !is_of_pair(file, said, there)) {
            part.shown.push_back(shown_file(file, said));
            ShownFile& last = part.shown.back();
            if (!there.contains(last.film)) last.film.clear();
            if (!there.contains(last.photograph) || !there.contains(last.picture)) last.photograph.clear();
        } else if (!shown && !(extension == ".exr" && word == "board")) {
            part.beside.push_back(file);
        }
    }
    std::set<std::string> panels;
    for (const MetadataFile& said : all) {
        if (const std::string panel = text_at(said.json, "panel"); !panel.empty()) panels.insert(panel);
        if (said.json.contains("panels") && said.json["panels"].is_array())
            for (const Json& panel : said.json["panels"])
                if (panel.is_object() && !text_at(panel, "name").empty())
                    panels.insert(text_at(panel, "name"));
        if (run.layout_file.empty()) run.layout_file = text_at(said.json, "layout_file");
        if (run.title.empty()) run.title = text_at(said.json, "title");
    }
    if (!panels.empty())
        run.title = fmt::format("{}", fmt::join(panels, ", "));
    else if (run.title.empty())
        run.title = spoken(fs::weakly_canonical(folder).filename().string());
    run.subtitle = run.layout_file.empty() ? "Renderings" : fmt::format("Renderings of {}", run.layout_file);
    for (auto& [key, part] : parts)
        if (!part.shown.empty() || !part.board.empty() || !part.beside.empty())
            run.parts.push_back(std::move(part));
    if (std::none_of(run.parts.begin(), run.parts.end(),
                     [](const RunPart& p) { return !p.shown.empty() || !p.board.empty(); }))
        throw RequestError(fmt::format("{} holds no pictures", folder.string()));
    return run;
}

}  // namespace rakelight
