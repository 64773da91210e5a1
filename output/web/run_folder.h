// What a folder of finished files holds, told from the JSON beside the pictures: which picture is what, what
// to call it, and what else lies there. It needs to know no command: whatever names its files in a JSON is
// found.
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace rakelight {

/// A picture or drawing to be shown.
struct ShownFile {
    std::string file;  ///< relative to the folder, '/' between
    std::string title;
    std::vector<std::string> facts;  ///< lines of the label beneath it
    std::string alt;                 ///< for those who cannot see it
    std::string film;            ///< of a picture whose lamps can be dimmed: its film, relative; else empty
    std::string scene_hash;      ///< as its JSON says; a film of another scene does not belong to it
    bool older = false;          ///< made before the layout was last changed (older.h)
    bool glow = false;           ///< of such a picture: glints were spread
    bool filtered = false;       ///< of such a picture: its light was filtered for the print
    double white_cd_per_m2 = 0;  ///< luminance that the print shows as white; 0 = not known
    /// Of a comparison's sheet: photograph and picture that lie over each other, relative; else empty.
    std::string photograph, picture;
};

/// What one command made.
struct RunPart {
    std::string word;  ///< of "format": record, board, glare ..; empty = nothing is known of it
    std::string title;
    std::vector<ShownFile> shown;
    std::vector<std::string> beside;  ///< files to link to: tables, templates, numbers
    std::string board;                ///< a board.json, relative; its cells are not among `shown`
    std::string board_hash;           ///< its scene hash
    bool board_older = false;         ///< as of a picture
};

struct RunFolder {
    std::string title;  ///< the panel
    std::string subtitle;
    std::string layout_file;  ///< that the files name, without folders; empty = none does
    std::string older_than;   ///< the layout that older files are marked against; empty = none was looked at
    std::vector<RunPart> parts;     ///< pictures first
    std::set<std::string> changed;  ///< drawings and PDFs that are not as they were written
};

/// Reads a folder and the folders in it, in an order that does not depend on the machine. Hidden files and
/// pages are left out; a JSON that is not ours is a file like any other. \throws RequestError when it is no
/// folder or has nothing to show.
RunFolder read_run_folder(const std::filesystem::path& folder);

}  // namespace rakelight
