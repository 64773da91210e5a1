// `rakelight study`: pictures of the panel as an artist sees it with half-closed eyes.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/program/laid_picture.h"
#include "output/study/json.h"
#include "output/study/sheet.h"
#include "output/system/errors.h"
#include "output/system/program.h"
#include "output/system/safe_file.h"

namespace rakelight {

namespace {

struct StudyWords {
    std::vector<std::string> pictures, changes;
    std::string layout, reference, into = kFinishedFolder;
    bool json = false;
};

StudiedFields fields_of(const LaidPicture& laid) {
    StudiedFields fields;
    for (const Piece& piece : laid.laying.pieces) fields.field_of_piece.push_back(piece.field);
    for (const Field& field : laid.layout.fields) {
        fields.names.push_back(field.name);
        fields.accents.emplace_back();
        for (const Accent& accent : field.accents)
            fields.accents.back().push_back(laid.layout.stock[accent.material].name);
    }
    return fields;
}

std::optional<ReferencePicture> read_reference(const std::string& file) {
    if (file.empty()) return std::nullopt;
    try {
        return read_reference_picture(file);
    } catch (const std::runtime_error& error) {
        throw RequestError(fmt::format("--reference: {}", error.what()));
    }
}

void tell(const Study& study, const std::string& picture) {
    fmt::print("{}: mean L* {:.1f}, spread {:.1f}\n", picture, study.mean_l, study.spread_l);
    for (const FieldTone& field : study.fields) {
        fmt::print("  {:24} L* {:5.1f}, spread {:4.1f}, {} pieces\n", field.name, field.mean.l,
                   field.spread_l, field.pieces);
        for (const AccentTone& a : field.accents)
            fmt::print("    {}: moves it by L* {:+.1f}, seen to {:g} m\n", a.material, a.moves_l,
                       a.seen_to_m);
    }
}

void study_words(const StudyWords& words) {
    const std::optional<ReferencePicture> reference = read_reference(words.reference);
    for (const std::string& file : words.pictures) {
        const NotedFilm noted = read_picture(file);
        const std::optional<LaidPicture> laid = read_laid(words.layout, words.changes, file, noted.film);
        const PictureNotes& notes = noted.notes;
        const Study study = [&] {
            try {
                return make_study(noted, laid ? fields_of(*laid) : StudiedFields{}, reference);
            } catch (const RequestError& error) {
                throw RequestError(fmt::format("{}: {}", file, error.what()));
            }
        }();
        const std::string name = notes.light.empty() ? notes.picture : notes.picture + " " + notes.light;
        const std::string stem = "study-" + file_stem(name);
        FinishedFiles files(
            finished_folder(words.into, words.layout.empty() ? notes.layout_file : words.layout,
                            words.changes),
            !words.json);
        const std::string light =
            fmt::format("{}{:.0f} lx on the panel", notes.light.empty() ? "" : notes.light + ", ",
                        total_illuminance_xyz(notes).y);
        files.picture(stem + ".png",
                      study_sheet(study,
                                  fmt::format("{}: {}", notes.panel.empty() ? notes.layout_file : notes.panel,
                                              notes.picture),
                                  light, kProgram),
                      {{"Software", kProgram}, {"Description", "studies of a rendering"}});
        const std::string json = files.record(
            stem + ".json", study_json(study, notes.picture, notes.light,
                                       {kProgram, notes.layout_file, notes.scene_hash}, files.names()));
        if (words.json)
            fmt::print("{}", json);
        else
            tell(study, name);
    }
}

}  // namespace

void add_study(CLI::App& app) {
    auto* command =
        app.add_subcommand("study", "Show pictures in greys, few values, out of focus and from afar");
    const auto w = std::make_shared<StudyWords>();
    command
        ->add_option("PICTURE", w->pictures,
                     "The light file of a picture, NAME.exr; several make a sheet each")
        ->required();
    auto* layout = command->add_option("--layout", w->layout, "The layout file, for the tones of its fields")
                       ->type_name("FILE");
    command->add_option("--set", w->changes, "Change a key of that layout; may be given again")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false)
        ->needs(layout);
    command
        ->add_option("--reference", w->reference,
                     "The picture that the work follows: PNG, JPEG, TIFF, beside the rest")
        ->type_name("FILE");
    add_into(*command, w->into);
    add_json(*command, w->json, "study-PICTURE.json");
    command->footer(
        "Writes study-PICTURE.png, a sheet, and study-PICTURE.json. Values are those that a painter\n"
        "squints for: three or five greys that come nearest to what is seen from 5 m. With\n"
        "--layout it says each field's mean L*, how far its pieces spread, how much its\n"
        "accents move it and from how far they are seen.\n\n"
        "Example:\n"
        "  rakelight study renders/low-tide/straight.exr --layout scenes/low-tide.yaml");
    command->callback([w] { study_words(*w); });
}

}  // namespace rakelight
