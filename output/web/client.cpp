#include "output/web/client.h"

#include <algorithm>
#include <filesystem>

#include "output/web/shown_file.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;

std::string name_of(const ShownFile& shown) {
    return fs::path(shown.file).stem().string();
}

bool is_picture(const RunPart& part) {
    return part.word == "record" || part.word == "portfolio";
}

}  // namespace

std::vector<std::string> picture_names(const RunFolder& run) {
    std::vector<std::string> names;
    for (const RunPart& part : run.parts)
        for (const ShownFile& shown : part.shown)
            if (is_picture(part) && std::find(names.begin(), names.end(), name_of(shown)) == names.end())
                names.push_back(name_of(shown));
    return names;
}

void keep_pictures(RunFolder& run, const std::vector<std::string>& names) {
    if (names.empty()) return;
    for (RunPart& part : run.parts)
        if (is_picture(part))
            std::erase_if(part.shown, [&](const ShownFile& shown) {
                return std::find(names.begin(), names.end(), name_of(shown)) == names.end();
            });
}

std::string keep_for_client(RunFolder& run) {
    std::string proposal;
    std::vector<RunPart> kept;
    for (RunPart& part : run.parts) {
        if (part.word == "portfolio")
            for (const std::string& file : part.beside)
                if (lower_extension(file) == ".pdf") proposal = file;
        part.beside.clear();
        if (part.word == "board") part.shown.clear();  // the sheet: its cells are there
        if (part.board_older) part.board.clear();
        std::erase_if(part.shown, [](const ShownFile& shown) { return shown.older; });
        for (ShownFile& shown : part.shown) {
            shown.film.clear();
            if (shown.facts.size() > 1) shown.facts.resize(1);  // not how it was traced
        }
        if (part.word == "board" ? !part.board.empty() : is_picture(part) && !part.shown.empty())
            kept.push_back(std::move(part));
    }
    run.parts = std::move(kept);
    return proposal;
}

}  // namespace rakelight
