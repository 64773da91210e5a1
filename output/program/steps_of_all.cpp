#include "output/program/steps_of_all.h"

#include "output/program/parse_options.h"
#include "output/system/safe_file.h"
#include "scene/model/layout.h"
#include "scene/text/layout_tree.h"
#include "scene/text/tree_override.h"
#include "scene/text/word_list.h"

namespace rakelight {

namespace {

struct KnownStep {
    const char* command;
    std::vector<std::string> draft;  // words that make it quick
    const char* needs = nullptr;     // a section of the layout without which there is nothing to do
};

// From the quickest to the slowest, so that what is there soon is there.
const std::vector<KnownStep> kSteps{
    {"lay", {}},
    {"stock", {}},
    {"take-off", {}},
    {"board", {"--most-samples", "16", "--pixels", "120"}, "board"},
    {"glare", {"--most-samples", "16"}},
    {"preview", {"--most-samples", "16"}},
    {"portfolio", {"--most-samples", "8", "--dpi", "60"}},
};
constexpr const char* kCover = "page";

std::vector<std::string> known_steps() {
    std::vector<std::string> known{kCover};
    for (const KnownStep& step : kSteps) known.emplace_back(step.command);
    return known;
}

}  // namespace

std::vector<AllStep> steps_of_all(const AllRequest& request, const Layout& layout,
                                  std::span<const std::string> commands) {
    check_words("--without", request.without, known_steps());
    std::vector<AllStep> steps;
    for (const KnownStep& known : kSteps) {
        if (!holds(commands, known.command) || holds(request.without, known.command)) continue;
        if (known.needs && !member_of(layout.sources.tree->root, known.needs)) continue;
        AllStep step{known.command, {request.file, "--into", request.into}};
        if (request.threads > 0)
            step.words.insert(step.words.end(), {"--threads", std::to_string(request.threads)});
        for (const std::string& change : request.changes)
            step.words.insert(step.words.end(), {"--set", change});
        if (request.draft) step.words.insert(step.words.end(), known.draft.begin(), known.draft.end());
        steps.push_back(std::move(step));
    }
    if (holds(commands, kCover) && !holds(request.without, kCover))
        steps.push_back({kCover,
                         {finished_folder(request.into, request.file, request.changes).string(), "--layout",
                          request.file}});
    return steps;
}

}  // namespace rakelight
