// Everything that a layout can be made into, as commands of this program one after another.
#pragma once

#include <span>
#include <string>
#include <vector>

namespace rakelight {

struct AllStep {
    std::string command;
    std::vector<std::string> words;  ///< after the command
};

struct AllRequest {
    std::string file;
    std::string into;
    std::vector<std::string> without;  ///< commands to leave out
    bool draft = false;                ///< small and grainy
    int threads = 0;                   ///< of each step; 0 = all
    bool quiet = false;
};

/// The steps for a layout, in their order, the page last: those whose command is among `commands`, and for
/// which the layout has the section that they need. \throws LayoutError when the file cannot be read,
/// RequestError when `without` names a step that there is none of.
std::vector<AllStep> steps_of_all(const AllRequest& request, std::span<const std::string> commands);

}  // namespace rakelight
