// `rakelight marks`: the sheet to print and to lay things on that are photographed.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "output/marks/mark_pages.h"
#include "output/program/command_options.h"
#include "output/program/commands.h"
#include "output/program/finished_files.h"
#include "output/system/program.h"

namespace rakelight {

void add_marks(CLI::App& app) {
    auto* command =
        app.add_subcommand("marks", "Write a sheet of marks to print, for drawings in photographs");
    const auto into = std::make_shared<std::string>(kFinishedFolder);
    add_into(*command, *into);
    command->footer(
        "Writes marks-a4.pdf and marks-letter.pdf. Print one at 100 %. Its first page\n"
        "has a coded mark in each corner, a ruler to check the printer, and a frame\n"
        "to lay a drawing in; its second has corner cards for larger drawings.\n"
        "Where the marks stand in a photograph, its corners and scale need not be\n"
        "told: see `rakelight keys drawing`.\n\n"
        "Examples:\n"
        "  rakelight marks\n"
        "  rakelight marks --into print");
    command->callback([into] {
        FinishedFiles finished(std::filesystem::path(*into) / "marks");
        for (const MarkSheet& sheet : mark_sheets())
            finished.add(sheet.paper.name == "A4" ? "marks-a4.pdf" : "marks-letter.pdf",
                         [&](const std::filesystem::path& path) {
                             write_pdf(path, mark_pages(sheet), "Sheet of marks, " + sheet.paper.name, "",
                                       kProgram);
                         });
    });
}

}  // namespace rakelight
