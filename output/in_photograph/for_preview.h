// The pictures of a layout in photographs of its wall, made one after another.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "output/in_photograph/make.h"
#include "output/in_photograph/taken.h"
#include "scene/laying/laying.h"

namespace rakelight {

struct Layout;

struct SettingIn {
    std::filesystem::path folder;
    std::uint64_t sources = 0;  ///< of source_hash
    int threads = 0;
    bool quiet = false;
    bool skip_finished = false;
    bool json = false;  ///< the records go to stdout instead of the names of files
};

/// Opens those photographs that are named; says what is doubtful of each on stderr. \throws LayoutError.
std::vector<TakenPhotograph> open_photographs(const Layout& layout, const std::vector<std::string>& names);

/// "Photograph foyer: camera 2.31 m from the wall, 1.52 m high, lens of 28 mm (found by the corners)".
std::string camera_in_words(const TakenPhotograph& taken);

/// Those that are not finished, which it says, or all.
std::vector<TakenPhotograph> still_to_set_in(std::vector<TakenPhotograph> taken, const SettingIn& how);

/// Renders one, with progress on stderr. \throws RequestError where its light does not fall on the wall;
/// Cancelled, LayoutError.
PrintInPhotograph set_into_photograph(const TakenPhotograph& taken, const Layout& layout,
                                      const Laying& laying, int threads, bool quiet);

/// Renders and writes them. \throws LayoutError, OutputError, Cancelled.
void set_into_photographs(const std::vector<TakenPhotograph>& taken, const Layout& layout,
                          const Laying& laying, const SettingIn& how);

}  // namespace rakelight
