// `rakelight keys`: what a layout file may say.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>

#include "output/keys/json.h"
#include "output/keys/markdown.h"
#include "output/keys/schema.h"
#include "output/keys/terminal.h"
#include "output/program/commands.h"

namespace rakelight {

namespace {

struct KeysRequest {
    std::vector<std::string> wanted;
    bool json = false;
    bool schema = false;
    bool markdown = false;
};

std::string answer(const KeysRequest& request) {
    if (request.schema) return layout_schema();
    if (request.markdown) return keys_in_markdown();
    if (request.json) return keys_in_json();
    if (request.wanted.empty()) return sections_on_terminal();
    return keys_on_terminal(fmt::format("{}", fmt::join(request.wanted, " ")));
}

}  // namespace

void add_keys(CLI::App& app) {
    auto* command = app.add_subcommand("keys", "List what a layout file may say");
    const auto r = std::make_shared<KeysRequest>();
    auto* section = command->add_option("SECTION", r->wanted, "A section, or a key: all that is said of it");
    auto* json = command->add_flag("--json", r->json, "Print every key as JSON instead");
    auto* schema =
        command->add_flag("--schema", r->schema, "Print a JSON Schema, by which editors check layouts");
    auto* markdown = command->add_flag("--markdown", r->markdown, "Print the chapter of the manual");
    json->excludes(schema, markdown, section);
    schema->excludes(markdown, section);
    markdown->excludes(section);
    command->footer(
        "Examples:\n"
        "  rakelight keys\n"
        "  rakelight keys fields\n"
        "  rakelight keys lamps.barn doors\n"
        "  rakelight keys joint\n"
        "  rakelight keys --schema > layout.schema.json");
    command->callback([r] { fmt::print("{}", answer(*r)); });
}

}  // namespace rakelight
