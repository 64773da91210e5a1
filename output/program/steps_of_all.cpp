#include "output/program/steps_of_all.h"

#include <algorithm>

#include "output/program/parse_options.h"
#include "output/system/safe_file.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/word_list.h"
#include "scene/text/yaml_document.h"

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
    {"takeoff", {}},
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

std::vector<AllStep> steps_of_all(const AllRequest& request, std::span<const std::string> commands) {
    check_words("--without", request.without, known_steps());
    const YamlValue document = parse_yaml(layout_file_text(request.file), request.file);
    const auto has_section = [&](std::string_view key) {
        return std::any_of(document.members.begin(), document.members.end(),
                           [&](const YamlMember& m) { return m.key.text == key; });
    };
    std::vector<AllStep> steps;
    for (const KnownStep& known : kSteps) {
        if (!holds(commands, known.command) || holds(request.without, known.command)) continue;
        if (known.needs && !has_section(known.needs)) continue;
        AllStep step{known.command, {request.file, "--into", request.into}};
        if (request.threads > 0)
            step.words.insert(step.words.end(), {"--threads", std::to_string(request.threads)});
        if (request.draft) step.words.insert(step.words.end(), known.draft.begin(), known.draft.end());
        steps.push_back(std::move(step));
    }
    if (holds(commands, kCover) && !holds(request.without, kCover))
        steps.push_back(
            {kCover, {finished_folder(request.into, request.file).string(), "--layout", request.file}});
    return steps;
}

}  // namespace rakelight
